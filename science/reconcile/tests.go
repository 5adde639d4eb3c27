// SPDX-License-Identifier: MIT

package reconcile

import "math"

// GlobalTest returns the probability of adjustments as large as these if every
// reading errs only as its instrument does. A small one means that something is
// wrong, not what.
//
//	p = P(χ²(f) > Σ ((m − x)/s)²)    f = balances less unmeasured variables
//
// Units: none.
//
//   - Source: narasimhan2000, global test, from memory.
//   - Valid: independent normal errors of known size; 1 where nothing is checked.
//   - Check: of 2 000 clean simulated sets about 5 % fall below 0.05 (see the test).
//   - Tag: from memory
func GlobalTest(s *Solution) float64 { return ChiSquareTail(s.Sum, s.Freedom) }

// A Test is what the balances say of one reading.
type Test struct {
	Variable int
	Z        float64 // adjustment over its standard deviation
	P        float64 // for the largest of all: with the number of readings taken into account
	Error    float64 // the error of the reading, if it is this one that is wrong
	ErrorSD  float64
}

// Tests returns the measurement test of every reading that the balances check,
// in the order of the variables. With many readings one is large by chance, so
// P is that of the largest of so many.
//
//	z = (m − x)/√(s² − Var(x))    P = 1 − (1 − p(z))^k, k readings
//	error of the reading alone = (m − x)·s²/(s² − Var(x))
//
// Units: those of the variables; z has none.
//
//   - Source: mah1982, measurement test, from memory; sidak1967, for k tests, from memory; narasimhan1987, size of the error, from memory.
//   - Valid: one bad reading; more than one may lay the blame on a good one.
//   - Check: of 2 000 clean simulated sets at most about 5 % have a P below 0.05 (see the test).
//   - Tag: from memory
func Tests(p Problem, s *Solution) []Test {
	var out []Test
	for i := range p.Variables {
		if s.AdjustmentSD[i] == 0 {
			continue
		}
		sd := p.Variables[i].SD
		checked := s.AdjustmentSD[i] * s.AdjustmentSD[i] / (sd * sd)
		out = append(out, Test{
			Variable: i, Z: s.Adjustments[i] / s.AdjustmentSD[i],
			Error: s.Adjustments[i] / checked, ErrorSD: sd / math.Sqrt(checked),
		})
	}
	for i := range out {
		out[i].P = -math.Expm1(float64(len(out)) * math.Log1p(-NormalTails(out[i].Z)))
	}
	return out
}

// Level returns the level of each of k tests that together raise a false alarm
// with probability level.
//
//	β = 1 − (1 − α)^(1/k)
//
// Units: none.
//
//   - Source: sidak1967, from memory.
//   - Valid: independent tests; on the safe side for tests of one set of readings.
//   - Check: 0.05 for 10 tests: 0.005116, computed from the formula.
//   - Tag: from memory
func Level(level float64, k int) float64 { return -math.Expm1(math.Log1p(-level) / float64(k)) }

// Worst returns the test that stands out most among the variables for which
// may be true; nil asks all. It is false where none is checked.
func Worst(tests []Test, may func(variable int) bool) (Test, bool) {
	var worst Test
	found := false
	for _, t := range tests {
		if (may == nil || may(t.Variable)) && (!found || math.Abs(t.Z) > math.Abs(worst.Z)) {
			worst, found = t, true
		}
	}
	return worst, found
}
