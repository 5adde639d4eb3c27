// SPDX-License-Identifier: MIT

package formulate

import (
	"encoding/json"
	"math"

	"gyle/chance"
	"gyle/judge"
	"gyle/quantity"
	"gyle/style"
)

// Text prints a number of the room with its unit.
func (r Room) Text(pr quantity.Printer, x float64) string {
	switch {
	case math.IsInf(x, 0):
		return "–"
	case r.Unit == "%":
		return pr.Fraction(quantity.Fraction(x), 1)
	case r.Unit == "g/L":
		return pr.Dose(quantity.Dose(x))
	}
	return pr.Figure(quantity.Figure(r.Name), x)
}

// Known reports whether the room has two ends.
func (r Room) Known() bool { return r.Least <= r.Most && !math.IsInf(r.Most-r.Least, 0) }

// roomJSON is a room for programs; ends that aren't known are missing.
type roomJSON struct {
	Name  string   `json:"name"`
	At    string   `json:"at,omitempty"`
	Unit  string   `json:"unit,omitempty"` // shares are in %
	Least *float64 `json:"least,omitempty"`
	Most  *float64 `json:"most,omitempty"`
	Now   float64  `json:"now"`
}

// MarshalJSON writes the room, a share in percent.
func (r Room) MarshalJSON() ([]byte, error) { return json.Marshal(r.JSONForm()) }

// JSONForm returns what MarshalJSON writes; schemas are drawn from its type.
func (r Room) JSONForm() roomJSON {
	times := 1.0
	if r.Unit == "%" {
		times = 100
	}
	out := roomJSON{Name: r.Name, At: r.At, Unit: r.Unit, Now: times * r.Now}
	if r.Known() {
		least, most := times*r.Least, times*r.Most
		out.Least, out.Most = &least, &most
	}
	return out
}

// clashJSON is a demand for programs; a wish of the brewer has no rule.
type clashJSON struct {
	Rule     *int           `json:"rule,omitempty"`
	Part     int            `json:"part,omitempty"`
	Phrase   string         `json:"phrase"`
	Range    string         `json:"range,omitempty"`
	Severity style.Severity `json:"severity,omitempty"`
	Why      string         `json:"why,omitempty"`
	Name     string         `json:"name,omitempty"` // of a wish: the ingredient, and what is asked of it
	Wish     Wanted         `json:"wish,omitempty"`
}

// choiceJSON is a way out for programs.
type choiceJSON struct {
	Clash int      `json:"clash"`
	To    *float64 `json:"to,omitempty"`
	Cost  float64  `json:"cost"`
	Says  string   `json:"says"`
}

// conflictJSON is a conflict for programs.
type conflictJSON struct {
	Clashes []clashJSON  `json:"clashes"`
	Choices []choiceJSON `json:"choices"`
	More    bool         `json:"more,omitempty"` // there are more ways out than are listed
}

// MarshalJSON writes the conflict with its reasons and ways out.
func (c Conflict) MarshalJSON() ([]byte, error) { return json.Marshal(c.JSONForm()) }

// JSONForm returns what MarshalJSON writes; schemas are drawn from its type.
func (c Conflict) JSONForm() conflictJSON {
	out := conflictJSON{Clashes: []clashJSON{}, Choices: []choiceJSON{}, More: c.More}
	for _, one := range c.Clashes {
		j := clashJSON{Part: one.Part, Phrase: one.Phrase, Range: one.Range, Severity: one.Severity, Why: one.Why, Name: one.Name, Wish: one.Wish}
		if one.Rule >= 0 {
			rule := one.Rule
			j.Rule = &rule
		}
		out.Clashes = append(out.Clashes, j)
	}
	for _, one := range c.Choices {
		j := choiceJSON{Clash: one.Clash, Cost: one.Cost, Says: one.Says}
		if to := one.To; !math.IsNaN(to) {
			j.To = &to
		}
		out.Choices = append(out.Choices, j)
	}
	return out
}

// notUsedJSON is a rule that wasn't used in solving.
type notUsedJSON struct {
	Rule   int    `json:"rule"`
	Phrase string `json:"phrase"`
	Reason string `json:"reason"`
}

// resultJSON is a result for programs.
type resultJSON struct {
	Recipe    string           `json:"recipe"` // the document
	Judgement judge.Judgement  `json:"judgement"`
	Planned   *judge.Judgement `json:"planned,omitempty"` // on the house
	Margin    float64          `json:"margin"`            // to the nearest rule, as a share of its width
	Rooms     []Room           `json:"rooms"`             // of each ingredient
	Aims      []Room           `json:"aims"`
	NotUsed   []notUsedJSON    `json:"notUsed"`
	GivenUp   []Conflict       `json:"givenUp"`
	Says      []string         `json:"says"`
	Outlook   *chance.Outlook  `json:"chance,omitempty"`
	Hinders   []string         `json:"hinders,omitempty"`  // what keeps it from being sure
	Remedies  []string         `json:"remedies,omitempty"` // what the brewer could do about that
}

// MarshalJSON writes the result. The plan itself is left out: ask for it with
// the recipe.
func (r *Result) MarshalJSON() ([]byte, error) { return json.Marshal(r.JSONForm()) }

// JSONForm returns what MarshalJSON writes; schemas are drawn from its type.
func (r *Result) JSONForm() resultJSON {
	out := resultJSON{
		Recipe: r.Text, Judgement: r.Judgement, Margin: r.Margin, Rooms: append([]Room{}, r.Rooms...), Aims: append([]Room{}, r.Aims...),
		NotUsed: []notUsedJSON{}, GivenUp: append([]Conflict{}, r.GivenUp...), Says: append([]string{}, r.Says...), Outlook: r.Outlook, Hinders: r.Hinders, Remedies: r.Remedies,
	}
	if r.Planned.Style != "" {
		out.Planned = &r.Planned
	}
	for _, n := range r.NotUsed {
		out.NotUsed = append(out.NotUsed, notUsedJSON(n))
	}
	return out
}

// variationJSON is a variation for programs.
type variationJSON struct {
	Recipe    string          `json:"recipe"` // the document
	Judgement judge.Judgement `json:"judgement"`
	Says      string          `json:"says"`
	Distance  float64         `json:"distance"`
}

// MarshalJSON writes the variation with its document.
func (v Variation) MarshalJSON() ([]byte, error) { return json.Marshal(v.JSONForm()) }

// JSONForm returns what MarshalJSON writes; schemas are drawn from its type.
func (v Variation) JSONForm() variationJSON {
	return variationJSON{v.Text, v.Judgement, v.Says, v.Distance}
}

// swapJSON is a swap for programs.
type swapJSON struct {
	From      string           `json:"from"`
	To        string           `json:"to"`
	Role      string           `json:"role,omitempty"`
	Recipe    string           `json:"recipe,omitempty"` // the document
	Judgement *judge.Judgement `json:"judgement,omitempty"`
	Kept      []string         `json:"kept,omitempty"`
	Lost      []string         `json:"lost,omitempty"`
	Conflict  *Conflict        `json:"conflict,omitempty"` // why it can't be swapped
}

// MarshalJSON writes the swap with its document, or the conflict in its place.
func (s Swap) MarshalJSON() ([]byte, error) { return json.Marshal(s.JSONForm()) }

// JSONForm returns what MarshalJSON writes; schemas are drawn from its type.
func (s Swap) JSONForm() swapJSON {
	out := swapJSON{From: s.From, To: s.To, Role: s.Role, Recipe: s.Text, Kept: s.Kept, Lost: s.Lost, Conflict: s.Conflict}
	if s.Conflict == nil {
		out.Judgement = &s.Judgement
	}
	return out
}
