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
	Dots    []Dot   `json:"dots"` // Right: for the first
}

func (out *Flight) liking(t *tasting.Tasting, f *tasting.Flight, w words) {
	tally, _ := f.Tally()
	both := t.Letters(f)
	if len(both) != 2 || tally.Answered == 0 {
		out.Says = "Nobody answered."
		return
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
	out.repeatedVoices(f)
	out.askedApart(t, f)
}

// repeatedVoices warns where one taster spoke more than once.
func (out *Flight) repeatedVoices(f *tasting.Flight) {
	if len(f.Standing()) > out.Tasters {
		out.Warnings = append(out.Warnings, "Some tasters spoke more than once; each should have one voice.")
	}
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
