// SPDX-License-Identifier: MIT

package causes

import (
	"slices"

	"gyle/data"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/reconstruct"
)

// Brew is the brewing in whose log is looked, and what is known of the bottle.
type Brew struct {
	Gyle   *gyle.Gyle
	Made   *reconstruct.Reconstruction // nil: the log can't be reconstructed
	Packed quantity.Date               // zero: the log's own day
	Tasted quantity.Date               // zero: unknown
	Kept   quantity.Temperature        // of the store; zero: unknown
}

// State is what the log says of a cause.
type State string

// The states, in the order in which hints stand.
const (
	Shows   State = "in the log"
	Silent  State = "the log doesn’t tell"
	Against State = "the log speaks against it"
)

// Sign is what a log shows of one cause.
type Sign struct {
	State   State     `json:"state"`
	Text    string    `json:"text,omitempty"`    // what stands in the log, with its figures
	Entries []gyle.ID `json:"entries,omitempty"` // that say so
}

// Hint is a usual cause of a note with what the log of this gyle shows of it.
type Hint struct {
	Cause string `json:"cause"`
	Lever string `json:"lever"` // what is usually done about it
	Sign
}

// Says is the hint as a sentence: a possibility, not a verdict.
func (h Hint) Says() string {
	switch {
	case h.State == Shows:
		return "Perhaps " + h.Cause + ": " + h.Text + ". If so, " + h.Lever + "."
	case h.State == Against:
		return "Less likely " + h.Cause + ": " + h.Text + "."
	case h.Text != "":
		return "Or " + h.Cause + ": " + h.Text + ". If so, " + h.Lever + "."
	}
	return "Or " + h.Cause + ", of which no log tells. If so, " + h.Lever + "."
}

// Trace is an off-note with what may lie behind it in one gyle.
type Trace struct {
	Note     string `json:"note"`
	Name     string `json:"name"`
	Compound string `json:"compound,omitempty"`
	Basis    string `json:"basis"`
	Hints    []Hint `json:"hints"`
}

// Look looks in the log of a brew for what may lie behind a note; false for a
// note that isn't known.
func Look(id string, b Brew, pr quantity.Printer) (Trace, bool) {
	note, known := data.Note(id)
	if !known {
		return Trace{}, false
	}
	r := newReader(b, pr)
	trace := Trace{Note: id, Name: note.Name, Compound: note.Compound, Basis: note.Basis}
	for _, c := range note.Causes {
		hint := Hint{Cause: c.Says, Lever: c.Lever, Sign: Sign{State: Silent}}
		if look := signs[c.Sign]; look != nil {
			hint.Sign = look(r)
		}
		trace.Hints = append(trace.Hints, hint)
	}
	order := []State{Shows, Silent, Against}
	slices.SortStableFunc(trace.Hints, func(a, b Hint) int { return slices.Index(order, a.State) - slices.Index(order, b.State) })
	return trace, true
}

// Signs lists the names of all signs that a log may show, sorted.
func Signs() []string {
	names := make([]string, 0, len(signs))
	for name := range signs {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
