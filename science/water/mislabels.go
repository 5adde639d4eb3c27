// SPDX-License-Identifier: MIT

package water

import (
	"math"
	"slices"
	"strings"
)

// A Label is a way of printing an ion that is easily taken for another: a
// "bicarbonate" of 138 that is alkalinity as CaCO3.
type Label struct {
	ID string
	// Text says what the number really was: "bicarbonate is alkalinity as CaCO3".
	Text    string
	factors Ions // what turns the printed number into mg/L of the ion; 0: untouched
}

// Undo returns the ions with the label taken at its word.
//
//		c = factor · printed    both in mg/L
//
//	  - Source: derived, ratio of molar masses.
//	  - Valid: a report that carries this label.
//	  - Check: SO4 is 2.996 times S, NO3 is 4.427 times N.
//	  - Tag: derived
func (l Label) Undo(i Ions) Ions {
	for ion, factor := range l.factors {
		if factor != 0 {
			i[ion] *= factor
		}
	}
	return i
}

// applies reports whether the label would change anything.
func (l Label) applies(i Ions) bool {
	return l.Undo(i) != i
}

// Labels are the usual mislabels, the commonest first. A laboratory that prints
// calcium as CaCO3 prints magnesium so too: they are one label.
var Labels = []Label{
	{"hco3-as-caco3", "bicarbonate is alkalinity as CaCO3", Ions{Bicarbonate: 2 * massBicarbonate / massCaCO3}},
	{"so4-as-s", "sulfate is sulfate-sulfur (SO4-S)", Ions{Sulfate: massSulfate / weightS}},
	{"no3-as-n", "nitrate is nitrate-nitrogen (NO3-N)", Ions{Nitrate: massNitrate / weightN}},
	{"hardness-as-caco3", "calcium and magnesium are hardness as CaCO3",
		Ions{Calcium: weightCa / massCaCO3, Magnesium: weightMg / massCaCO3}},
}

// A Step is one label undone, and the balance after it.
type Step struct {
	Label   Label
	Balance BalanceResult
}

// A Mislabel is one explanation of an imbalance: labels undone in order.
type Mislabel struct {
	Steps []Step
	// Ions are the corrected ions. Keep the printed ones beside them.
	Ions Ions
	// Balance is the balance of the corrected ions.
	Balance BalanceResult
	// Preferred marks the explanation that reaches ok with the fewest labels
	// undone. None is marked when none reaches ok.
	Preferred bool
}

// String says what the explanation supposes.
func (m Mislabel) String() string {
	texts := make([]string, len(m.Steps))
	for n, step := range m.Steps {
		texts[n] = step.Label.Text
	}
	return strings.Join(texts, "; ")
}

// Mislabels looks for labels that explain why a report doesn't balance. It
// tries every set of [Labels] and keeps those that bring the charges closer.
// First come the explanations that reach ok, the fewest labels first; then the
// others; each group by remaining imbalance. A report that is ok needs no
// explanation and gets none.
//
// The balance alone proves no label: ask, and keep both versions.
func Mislabels(printed Ions) []Mislabel {
	before := Balance(printed)
	if before.Verdict == VerdictOK {
		return nil
	}
	var found []Mislabel
	for set := 1; set < 1<<len(Labels); set++ {
		candidate, ok := undo(printed, set)
		if ok && math.Abs(candidate.Balance.Difference) < math.Abs(before.Difference) {
			found = append(found, candidate)
		}
	}
	slices.SortStableFunc(found, compareMislabels)
	if len(found) > 0 && found[0].Balance.Verdict == VerdictOK {
		found[0].Preferred = true
	}
	return found
}

// undo undoes the labels whose bit is in the set; false when one doesn't apply.
func undo(printed Ions, set int) (Mislabel, bool) {
	m := Mislabel{Ions: printed}
	for bit, label := range Labels {
		if set&(1<<bit) == 0 {
			continue
		}
		if !label.applies(printed) {
			return m, false
		}
		m.Ions = label.Undo(m.Ions)
		m.Steps = append(m.Steps, Step{label, Balance(m.Ions)})
	}
	m.Balance = Balance(m.Ions)
	return m, true
}

func compareMislabels(a, b Mislabel) int {
	aOK, bOK := a.Balance.Verdict == VerdictOK, b.Balance.Verdict == VerdictOK
	switch {
	case aOK && !bOK:
		return -1
	case bOK && !aOK:
		return 1
	case aOK && len(a.Steps) != len(b.Steps):
		return len(a.Steps) - len(b.Steps)
	}
	gap := math.Abs(a.Balance.Difference) - math.Abs(b.Balance.Difference)
	switch {
	case gap < 0:
		return -1
	case gap > 0:
		return 1
	}
	return 0
}
