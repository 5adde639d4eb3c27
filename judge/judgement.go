// SPDX-License-Identifier: MIT

package judge

import (
	"encoding/json"
	"math"
	"slices"

	"gyle/style"
)

// Word says where a beer stands to a rule.
type Word string

// The words of a [Verdict].
const (
	Inside  Word = "inside"
	Edge    Word = "edge"    // inside, but near an end of the range
	Outside Word = "outside" // never said of an option
	Unknown Word = "unknown" // the recipe doesn't say; Lack says what is missing
	Idle    Word = "idle"    // the condition doesn't hold, there is nothing to judge, or an option isn't taken up
)

// Verdict is what one rule says of one beer.
//
// Value, Low and High are in Unit, as they are printed: 18, 8 and 16 of "%".
// An end that isn't limited is ±Inf, and left out of JSON. Of the yeast's
// behaviour, which is a range itself, Value is the end that is farthest out,
// or the middle.
type Verdict struct {
	Rule     int            `json:"rule"`           // place among the rules of the style, from 0
	Part     int            `json:"part,omitempty"` // place among the parts of the rule, from 1; 0 for the rule itself
	Subject  style.Subject  `json:"subject"`
	Phrase   string         `json:"phrase"` // the subject as a brewer says it
	When     string         `json:"when,omitempty"`
	Severity style.Severity `json:"severity"`
	Word     Word           `json:"word"`
	Value    float64        `json:"value"`
	Low      float64        `json:"low"`
	High     float64        `json:"high"`
	Unit     string         `json:"unit,omitempty"`
	Text     string         `json:"text,omitempty"`    // "18 %"
	Range    string         `json:"range,omitempty"`   // "8–16 %"
	Off      string         `json:"off,omitempty"`     // "2 points above"
	Mend     string         `json:"mend,omitempty"`    // the smallest change that would mend it
	Changes  []Change       `json:"changes,omitempty"` // the same for a program: see Apply
	Lack     string         `json:"lack,omitempty"`    // why it is unknown or idle
	Why      string         `json:"why,omitempty"`     // the author's sentence
	Chance   *float64       `json:"chance,omitempty"`  // that the beer turns out inside, where a plan gives a band
}

// Broken reports whether the rule is broken.
func (v Verdict) Broken() bool { return v.Word == Outside }

// Judgement is what the rules of a style say of one beer.
type Judgement struct {
	Style    string    `json:"style"`
	Subject  string    `json:"subject"` // "Ferry Brown 4", "Ferry Brown 4 on Boathouse, settle and run off"
	Verdicts []Verdict `json:"verdicts"`
	// AllFive is the probability that original and final gravity, alcohol,
	// bitterness and colour all turn out inside; nil where no plan gives bands
	// or the style limits none of them.
	AllFive *float64 `json:"allFive,omitempty"`
}

// Count returns how many verdicts have the word.
func (j Judgement) Count(word Word) int {
	n := 0
	for _, v := range j.Verdicts {
		if v.Word == word {
			n++
		}
	}
	return n
}

// Broken returns the verdicts on rules that are broken, limits first, each
// kind in the author's order.
func (j Judgement) Broken() []Verdict {
	var broken []Verdict
	for _, v := range j.Verdicts {
		if v.Broken() {
			broken = append(broken, v)
		}
	}
	slices.SortStableFunc(broken, func(a, b Verdict) int { return rank(a.Severity) - rank(b.Severity) })
	return broken
}

func rank(s style.Severity) int {
	if s == style.Limit {
		return 0
	}
	return 1
}

// verdictFields has the fields of a Verdict without its methods.
type verdictFields Verdict

// verdictJSON hides the numbers that may be infinite behind pointers.
type verdictJSON struct {
	verdictFields
	Value *float64 `json:"value,omitempty"`
	Low   *float64 `json:"low,omitempty"`
	High  *float64 `json:"high,omitempty"`
}

// MarshalJSON writes v. Open ends, and the value of a rule that judged
// nothing, are left out.
func (v Verdict) MarshalJSON() ([]byte, error) { return json.Marshal(v.JSONForm()) }

// JSONForm returns what MarshalJSON writes; schemas are drawn from its type.
func (v Verdict) JSONForm() verdictJSON {
	out := verdictJSON{verdictFields: verdictFields(v), Low: finite(v.Low), High: finite(v.High)}
	if v.Text != "" {
		out.Value = finite(v.Value)
	}
	return out
}

// UnmarshalJSON reads v as MarshalJSON writes it.
func (v *Verdict) UnmarshalJSON(b []byte) error {
	var in verdictJSON
	if err := json.Unmarshal(b, &in); err != nil {
		return err
	}
	*v = Verdict(in.verdictFields)
	v.Value, v.Low, v.High = 0, math.Inf(-1), math.Inf(1)
	for _, f := range []struct {
		to   *float64
		from *float64
	}{{&v.Value, in.Value}, {&v.Low, in.Low}, {&v.High, in.High}} {
		if f.from != nil {
			*f.to = *f.from
		}
	}
	return nil
}

func finite(x float64) *float64 {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return nil
	}
	return &x
}
