// SPDX-License-Identifier: MIT

package blind

import (
	"fmt"

	"gyle/science/sensory"
	"gyle/tasting"
)

// Liking is what a flight shows that asked which beer is preferred.
type Liking struct {
	First   string  `json:"first"` // letter with more voices
	Second  string  `json:"second"`
	For     int     `json:"for"`
	Against int     `json:"against"`
	None    int     `json:"none"`
	P       float64 `json:"p"`     // exact, two-sided
	Share   float64 `json:"share"` // of those with a preference who prefer the first
	Reach   Reach   `json:"reach"`
	Shown   bool    `json:"shown"`
	Dots    []Dot   `json:"dots"`            // Right: for the first
	Apart   *Liked  `json:"apart,omitempty"` // where some had no preference
}

func (out *Flight) liking(t *tasting.Tasting, f *tasting.Flight, w words) {
	tally, _ := f.Tally()
	both := t.Letters(f)
	if len(both) != 2 || tally.Answered == 0 {
		out.Says = "Nobody answered."
		return
	}
	undecided := 0
	if len(f.Standing()) > out.Tasters {
		undecided = oneVoice(f, &tally, both)
		out.Warnings = append(out.Warnings, fmt.Sprintf("Some tasters spoke more than once: each has one voice, for the beer that they named more often; %d named both as often.", undecided))
	}
	more, less := both[0], both[1]
	if tally.For[less] > tally.For[more] {
		more, less = less, more
	}
	choice := sensory.Choice{Protocol: sensory.Preference, Right: tally.For[more], N: tally.For[more] + tally.For[less]}
	if choice.N == 0 {
		out.Says = fmt.Sprintf("No preference shown: all %d said they have none.", tally.None)
		return
	}
	found := choice.Test(alphaOf(f))
	if f.Look != nil {
		c := Choice{}
		c.stages(f, sensory.Preference)
		found.P, found.Shown = c.P, c.Outcome == string(sensory.Different)
		out.More = append(out.More, lookSays(f, c.Look, w))
	}
	l := &Liking{
		First: more, Second: less, For: choice.Right, Against: choice.N - choice.Right, None: tally.None, P: found.P,
		Share: choice.Proportion(), Reach: reachOf(found.Proportion, found.Level), Shown: found.Shown,
	}
	for _, a := range f.Standing() {
		if a.Says == "" {
			l.Dots = append(l.Dots, Dot{a.Taster, f.Key.BeerOf(a.Code) == more, a.Changed()})
		}
	}
	out.Liking = l
	counts := fmt.Sprintf("%d:%d for %s (p %s)", l.For, l.Against, NameOf(t, more), w.p(l.P))
	out.Says = "No preference shown: " + counts + "."
	if l.Shown {
		out.Says = NameOf(t, more) + " is preferred: " + counts + "."
	}
	out.More = append(out.More, fmt.Sprintf("Of all such tasters %s would prefer it (%s interval).", w.percents(l.Reach), w.percent(l.Reach.Level)))
	if l.None > 0 {
		out.More = append(out.More, fmt.Sprintf("%d had no preference; they are counted for neither.", l.None))
	}
	if l.Apart = apartOf(choice, l.None); l.Apart != nil {
		out.More = append(out.More, fmt.Sprintf("With those who had none, %s is liked d′ %s above the other (%s).", l.First, w.Number(l.Apart.Distance, 1), w.reach(l.Apart.Reach, 1)))
	}
	out.askedApart(t, f)
}

// Liked is how far one beer is liked above the other, where some had no
// preference.
type Liked struct {
	Distance float64 `json:"distance"`
	Reach    Reach   `json:"reach"`
	P        float64 `json:"p"` // of the likelihood, two-sided; the verdict is the exact test's
}

func apartOf(choice sensory.Choice, none int) *Liked {
	found, ok := sensory.Votes{A: choice.N - choice.Right, None: none, B: choice.Right}.Liking(confidence)
	if !ok {
		return nil
	}
	return &Liked{found.Distance.Value, reachOf(found.Interval, confidence), found.P}
}

// oneVoice gives each taster one voice and says how many named both beers as
// often.
func oneVoice(f *tasting.Flight, tally *tasting.Tally, both []string) (undecided int) {
	voices := sensory.Replicates{Protocol: sensory.Preference}
	place, none := map[string]int{}, map[string]bool{}
	for _, a := range f.Standing() {
		beer := f.Key.BeerOf(a.Code)
		if beer == "" {
			none[a.Taster] = true
			continue
		}
		i, known := place[a.Taster]
		if !known {
			i = len(voices.Assessors)
			place[a.Taster], voices.Assessors = i, append(voices.Assessors, sensory.Answered{})
		}
		voices.Assessors[i].N++
		if beer == both[0] {
			voices.Assessors[i].Right++
		}
	}
	tally.None = 0
	for taster := range none {
		if _, spoke := place[taster]; !spoke {
			tally.None++
		}
	}
	choice, undecided := voices.Majority()
	tally.For = map[string]int{both[0]: choice.Right, both[1]: choice.N - choice.Right}
	return undecided
}

// askedApart warns where the preference was asked of glasses of a difference
// test: knowing one was odd sways it.
func (out *Flight) askedApart(t *tasting.Tasting, f *tasting.Flight) {
	codes := map[tasting.Code]bool{}
	for _, s := range f.Serving {
		for _, code := range s.Codes {
			codes[code] = true
		}
	}
	for i := range t.Flights {
		if &t.Flights[i] == f {
			continue
		}
		for _, s := range t.Flights[i].Serving {
			for _, code := range s.Codes {
				if codes[code] {
					out.Warnings = append(out.Warnings, "The preference was asked of glasses of another flight: who knows which was odd is swayed by it.")
					return
				}
			}
		}
	}
}

// NameOf is what to call a beer: its name, or recipe, and its letter.
func NameOf(t *tasting.Tasting, letter string) string {
	for _, b := range t.Beers {
		switch {
		case b.Letter != letter:
		case b.Name != "":
			return b.Name + " (" + letter + ")"
		case b.Recipe != "":
			return b.Recipe + " (" + letter + ")"
		}
	}
	return letter
}
