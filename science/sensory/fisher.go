// SPDX-License-Identifier: MIT

package sensory

import "math"

// Table is a two-by-two table of counts, rows A B and C D: of the cups of one
// beer, A were answered one way and B the other; of another beer, C and D.
type Table struct{ A, B, C, D int }

// ties is how much more probable than the result seen another may be and still
// count as no more probable: rounding must not decide.
const ties = 1 + 1e-7

// margin is the distribution of the first count of a table when its rows and
// columns are given and the row doesn't matter (hypergeometric).
type margin struct {
	lowest        int
	probabilities []float64 // of lowest, lowest+1, …
}

func (t Table) margin() margin {
	first, second, column := t.A+t.B, t.C+t.D, t.A+t.C
	m := margin{lowest: max(0, column-second)}
	all := logChoose(first+second, column)
	for a := m.lowest; a <= min(first, column); a++ {
		m.probabilities = append(m.probabilities,
			math.Exp(logChoose(first, a)+logChoose(second, column-a)-all))
	}
	return m
}

// atLeast is the probability of a or more.
func (m margin) atLeast(a int) float64 {
	sum := 0.0
	for i := len(m.probabilities) - 1; i >= max(0, a-m.lowest); i-- {
		sum += m.probabilities[i]
	}
	return min(1, sum)
}

// atMost is the probability of a or fewer.
func (m margin) atMost(a int) float64 {
	sum := 0.0
	for i := 0; i <= min(a-m.lowest, len(m.probabilities)-1); i++ {
		sum += m.probabilities[i]
	}
	return min(1, sum)
}

// asRare is the probability of all counts no more probable than a.
func (m margin) asRare(a int) float64 {
	limit := m.probabilities[a-m.lowest] * ties
	sum := 0.0
	for _, p := range m.probabilities {
		if p <= limit {
			sum += p
		}
	}
	return min(1, sum)
}

// FisherGreater returns the exact probability of A or more when both rows have the
// same share and the margins are given.
//
//	p = Σ_{i≥A} C(r₁, i)·C(r₂, k−i) / C(r₁+r₂, k)    r rows, k = A+C
//
// All are numbers without unit.
//
//   - Source: fisher1935, exact test.
//   - Valid: independent cups.
//   - Check: 20 of 24 against 12 of 24 gives 0.015238 (R: fisher.test).
//   - Tag: from memory
func (t Table) FisherGreater() float64 { return t.margin().atLeast(t.A) }

// FisherLess is [Table.FisherGreater] in the other direction: A or fewer.
func (t Table) FisherLess() float64 { return t.margin().atMost(t.A) }

// FisherTwoSided is the exact probability of all tables no more probable than this
// one, the margins given.
func (t Table) FisherTwoSided() float64 { return t.margin().asRare(t.A) }

// McNemar returns the exact probabilities for assessors who judged both cups, from
// those who answered differently: so many the way expected, so many the other way.
//
//	one-sided:  P(Bin(b+c, ½) ≥ b)
//	two-sided:  min(1, 2·P(Bin(b+c, ½) ≥ max(b, c)))
//
// All are numbers without unit: b as expected, c the other way.
//
//   - Source: mcnemar1947, in its exact form.
//   - Valid: one pair of cups an assessor.
//   - Check: 9 against 2 gives 0.03271 and 0.06543.
//   - Tag: from memory
func McNemar(expected, other int) (oneSided, twoSided float64) {
	n := expected + other
	return BinomialAtLeast(expected, n, 0.5), min(1, 2*BinomialAtLeast(max(expected, other), n, 0.5))
}
