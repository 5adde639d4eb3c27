// SPDX-License-Identifier: MIT

package blind

import (
	"fmt"
	"strings"

	"gyle/quantity"
	"gyle/tasting"
)

// Verdict is what a tasting document shows as it stands.
type Verdict struct {
	Name     string      `json:"name"`
	Question string      `json:"question"`
	Flights  []Flight    `json:"flights"`
	Remarks  []Remark    `json:"remarks"` // what must be told with it
	Sheets   []OfBeer    `json:"sheets,omitempty"`
	Agree    []Agreement `json:"agreements,omitempty"` // of the judges on the order of the beers
	Cannot   []string    `json:"cannot"`               // what the evening can't say
}

// Remark is a remark of the document in words.
type Remark struct {
	Weight string `json:"weight"`
	Text   string `json:"text"`
	Hint   string `json:"hint,omitempty"`
}

// State is how far a flight has come.
type State string

// The states.
const (
	Unplanned State = "not planned" // no orders and codes yet
	Planned   State = "planned"     // fixed and dated, no answer yet
	Answering State = "answering"   // some answers are in, the key is sealed
	Closed    State = "closed"      // the key may be opened
	Judged    State = "judged"      // the key is open
	Voided    State = "void"        // the answers prove nothing
)

// Flight is the verdict of one flight.
type Flight struct {
	Name     string   `json:"name"`
	Kind     string   `json:"kind"`
	Ask      string   `json:"ask,omitempty"`
	State    State    `json:"state"`
	Tasters  int      `json:"tasters"`
	Sets     int      `json:"sets"`
	Answered int      `json:"answered"` // sets answered in full
	Says     string   `json:"says"`     // the verdict as a sentence
	More     []string `json:"more,omitempty"`
	Warnings []string `json:"warnings,omitempty"`
	Sealed   string   `json:"sealed,omitempty"` // what comparing key and commitment shows

	Plan    *Plan    `json:"plan,omitempty"`
	Choice  *Choice  `json:"choice,omitempty"`
	Liking  *Liking  `json:"liking,omitempty"`
	Slopes  []Slope  `json:"profile,omitempty"`
	Ranking *Ranking `json:"ranking,omitempty"`

	Recognition *Recognition `json:"recognition,omitempty"`
}

// Reach is an interval. Open says that it has no upper end.
type Reach struct {
	Level float64 `json:"level"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
	Open  bool    `json:"open,omitempty"`
}

// Of judges all flights of a tasting. Numbers are printed by a printer.
func Of(t *tasting.Tasting, pr quantity.Printer) Verdict {
	v := Verdict{Name: t.Name, Question: t.Question, Sheets: sheetsOf(t, words{pr}), Agree: agreementsOn(t, words{pr}), Remarks: []Remark{}, Cannot: []string{}}
	for _, r := range t.Remarks() {
		v.Remarks = append(v.Remarks, Remark{r.Weight.String(), r.Text, r.Hint})
	}
	for i := range t.Flights {
		v.Flights = append(v.Flights, judge(t, &t.Flights[i], words{pr}))
	}
	if len(t.Flights) > 0 {
		v.Cannot = append(v.Cannot, "It speaks of these bottles and this panel, not of all who drink the beer.")
	}
	return v
}

// judge judges one flight as far as it has come.
func judge(t *tasting.Tasting, f *tasting.Flight, w words) Flight {
	out := Flight{Name: f.Name, Kind: string(f.Kind), Ask: f.Ask, Sets: len(f.Serving), Tasters: len(tastersOf(f)), State: stateOf(t, f)}
	out.Answered = out.Sets - len(f.Missing())
	if plan, ok := planOf(f, sizeOf(t, f), w); ok {
		out.Plan = &plan
	}
	switch out.State {
	case Unplanned:
		out.Says = "No orders and codes were drawn yet."
		return out
	case Planned, Answering, Closed:
		out.Says = sealedWords(f, out)
		return out
	}
	out.Sealed = t.Verify(f).String()
	out.found(t, f, w)
	if out.State == Voided {
		out.Says = "Void: " + strings.Join(voidReasons(t, f), "; ") + ". The answers prove nothing."
		out.Plan = nil
	}
	return out
}

// found judges the answers of a flight whose key is open.
func (out *Flight) found(t *tasting.Tasting, f *tasting.Flight, w words) {
	switch {
	case f.Kind == tasting.Preference:
		out.liking(t, f, w)
	case f.Kind == tasting.Profile:
		out.profile(t, f, w)
	case f.Kind == tasting.Ranking:
		out.ranking(t, f, w)
	case f.Kind == tasting.ANotA:
		out.recognition(t, f, w)
	default:
		out.choice(f, w)
	}
}

// stateOf says how far a flight has come.
func stateOf(t *tasting.Tasting, f *tasting.Flight) State {
	switch {
	case f.Key != nil && t.Voided(f.Name):
		return Voided
	case f.Key != nil:
		return Judged
	case f.Closed != nil:
		return Closed
	case len(f.Answers) > 0:
		return Answering
	case len(f.Serving) > 0:
		return Planned
	}
	return Unplanned
}

func sealedWords(f *tasting.Flight, out Flight) string {
	text := fmt.Sprintf("%d of %d sets are answered; the key is sealed.", out.Answered, out.Sets)
	switch {
	case out.State == Planned:
		text = "Fixed on " + f.Design.At.Format("2 January 2006, 15:04") + ", before any answer; the key is sealed."
	case out.State == Closed:
		text += " The answers are closed: the pourer may open the key."
	}
	return text
}

// voidReasons are the remarks that void a flight.
func voidReasons(t *tasting.Tasting, f *tasting.Flight) (reasons []string) {
	for i := range t.Flights {
		if &t.Flights[i] != f {
			continue
		}
		at := fmt.Sprintf("flights[%d]", i)
		for _, r := range t.Remarks() {
			if r.Weight == tasting.Void && (r.Path == at || strings.HasPrefix(r.Path, at+".")) {
				reasons = append(reasons, r.Text)
			}
		}
	}
	return reasons
}

// tastersOf lists who is served in a flight, each once.
func tastersOf(f *tasting.Flight) (ids []string) {
	seen := map[string]bool{}
	for _, s := range f.Serving {
		if !seen[s.Taster] {
			seen[s.Taster] = true
			ids = append(ids, s.Taster)
		}
	}
	return ids
}
