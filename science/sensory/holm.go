// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"slices"
)

// FalseAlarm returns the chance of at least one false alarm when several
// independent questions are each tested at the same level.
//
//	1 − (1 − α)^m
//
// Units: a probability; m questions.
//
//   - Source: derived, from independence.
//   - Valid: independent tests of exact size.
//   - Check: at 5 %: 3 questions 0.143, 6 0.265, 10 0.401, 20 0.642.
//   - Tag: computed
func FalseAlarm(questions int, alpha float64) float64 {
	return -math.Expm1(float64(questions) * math.Log1p(-alpha))
}

// Holm returns the p-values of several questions corrected so that the chance
// of any false alarm among all of them stays at the level. They stand in the
// order given.
//
//	p'(i) = max over j ≤ i of min(1, (m − j + 1)·p(j)),  p(1) ≤ p(2) ≤ … ≤ p(m)
//
// Units: probabilities.
//
//   - Source: holm1979, from memory.
//   - Valid: any dependence between the questions.
//   - Check: 0.004, 0.011, 0.020, 0.032, 0.045, 0.210, 0.480, 0.730 give 0.032, 0.077, 0.120, 0.160, 0.180, 0.630, 0.960, 0.960; against R's p.adjust.
//   - Tag: computed
func Holm(p []float64) []float64 {
	adjusted, highest := make([]float64, len(p)), 0.0
	for j, i := range risingOrder(p) {
		highest = max(highest, min(1, float64(len(p)-j)*p[i]))
		adjusted[i] = highest
	}
	return adjusted
}

// BenjaminiHochberg returns p-values corrected so that the expected share of
// false alarms among all alarms stays at the level: more is found than with
// [Holm], and more of it is wrong.
//
//	p'(i) = min over j ≥ i of min(1, m·p(j)/j),  p(1) ≤ p(2) ≤ … ≤ p(m)
//
// Units: probabilities.
//
//   - Source: benjamini1995, from memory.
//   - Valid: independent or positively dependent questions.
//   - Check: the p-values of [Holm] give 0.0320, 0.0440, 0.0533, 0.0640, 0.0720, 0.2800, 0.5486, 0.7300.
//   - Tag: computed
func BenjaminiHochberg(p []float64) []float64 {
	adjusted, lowest := make([]float64, len(p)), 1.0
	order := risingOrder(p)
	for j := len(order) - 1; j >= 0; j-- {
		i := order[j]
		lowest = min(lowest, float64(len(p))*p[i]/float64(j+1))
		adjusted[i] = lowest
	}
	return adjusted
}

// risingOrder returns the places of the numbers from the smallest up.
func risingOrder(x []float64) []int {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case x[a] < x[b]:
			return -1
		case x[a] > x[b]:
			return 1
		}
		return 0
	})
	return order
}
