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
	Ion Ion
	// As is what was really printed: "CaCO3", "S", "N".
	As string
	// Factor turns the printed number into mg/L of the ion.
	Factor float64
}

// String writes the label as a water document does: "HCO3 as CaCO3".
func (l Label) String() string { return l.Ion.Symbol() + " as " + l.As }

// Undo returns the ions with the label taken at its word.
//
//	c = factor · printed    both in mg/L
//
// How it is known:
//   - Source: derived, ratio of molar masses.
//   - Valid: a report that carries this label.
//   - Check: SO4 is 2.996 times S, NO3 is 4.427 times N.
//   - Tag: derived
func (l Label) Undo(i Ions) Ions {
	i[l.Ion] *= l.Factor
	return i
}

// Labels are the usual mislabels, the commonest first.
var Labels = []Label{
	{Bicarbonate, "CaCO3", 2 * massBicarbonate / massCaCO3},
	{Sulfate, "S", massSulfate / weightS},
	{Nitrate, "N", massNitrate / weightN},
	{Calcium, "CaCO3", weightCa / massCaCO3},
	{Magnesium, "CaCO3", weightMg / massCaCO3},
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

// String lists the labels: "HCO3 as CaCO3, SO4 as S".
func (m Mislabel) String() string {
	texts := make([]string, len(m.Steps))
	for n, step := range m.Steps {
		texts[n] = step.Label.String()
	}
	return strings.Join(texts, ", ")
}

// undoes reports whether the label of an ion is undone.
func (m Mislabel) undoes(ion Ion) bool {
	return slices.ContainsFunc(m.Steps, func(s Step) bool { return s.Label.Ion == ion })
}

// habits counts the habits of a laboratory that the explanation supposes.
// Calcium and magnesium as CaCO3 are one habit.
func (m Mislabel) habits() int {
	if m.undoes(Calcium) && m.undoes(Magnesium) {
		return len(m.Steps) - 1
	}
	return len(m.Steps)
}

// Mislabels looks for labels that explain why a report doesn't balance. It
// tries every set of [Labels] and keeps those that bring the charges closer.
// First come the explanations that reach ok, the fewest labels first; then the
// others; each group by remaining imbalance. A report that is ok needs no
// explanation and gets none. A laboratory that prints calcium as CaCO3 prints
// magnesium so too: they are undone together and count as one.
//
// The balance alone proves no label: ask, and keep both versions.
func Mislabels(printed Ions) []Mislabel {
	before := Balance(printed)
	if before.Verdict == OK {
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
	if len(found) > 0 && found[0].Balance.Verdict == OK {
		found[0].Preferred = true
	}
	return found
}

// undo undoes the labels whose bit is in the set; false when one doesn't apply
// or only one of calcium and magnesium is touched.
func undo(printed Ions, set int) (Mislabel, bool) {
	m := Mislabel{Ions: printed}
	for bit, label := range Labels {
		if set&(1<<bit) == 0 {
			continue
		}
		if printed[label.Ion] == 0 {
			return m, false
		}
		m.Ions = label.Undo(m.Ions)
		m.Steps = append(m.Steps, Step{label, Balance(m.Ions)})
	}
	m.Balance = Balance(m.Ions)
	half := m.undoes(Calcium) != m.undoes(Magnesium) && printed[Calcium] != 0 && printed[Magnesium] != 0
	return m, !half
}

func compareMislabels(a, b Mislabel) int {
	aOK, bOK := a.Balance.Verdict == OK, b.Balance.Verdict == OK
	switch {
	case aOK && !bOK:
		return -1
	case bOK && !aOK:
		return 1
	case aOK && a.habits() != b.habits():
		return a.habits() - b.habits()
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
