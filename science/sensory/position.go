// SPDX-License-Identifier: MIT

package sensory

// Positions are how many answers named the first, second, … glass. With balanced
// orders each place should be named equally often, whether the panel guesses or
// can tell.
type Positions []int

// Bias returns how far the answers are from an even spread: Pearson's χ² and its
// probability, exactly for panels of up to some dozens.
//
//	χ² = Σ (xᵢ − n/k)²/(n/k),  k−1 degrees of freedom
//
// All are numbers without unit: xᵢ answers for place i of k, n in all. Exactly means
// over all ways to spread n answers.
//
//   - Source: practice, χ² of an even spread.
//   - Valid: orders balanced over places.
//   - Check: 5, 7, 12: χ² 3.25, approximate p 0.1969.
//   - Tag: common practice
func (answers Positions) Bias() (chiSquare, p float64) {
	n := 0
	for _, x := range answers {
		n += x
	}
	if n == 0 || len(answers) < 2 {
		return 0, 1
	}
	chiSquare = answers.chiSquare(n)
	if len(answers) > exactPlaces || n > exactAnswers {
		return chiSquare, answers.approximate(chiSquare)
	}
	return chiSquare, answers.exact(n, chiSquare)
}

// The largest tables of which all outcomes are counted.
const (
	exactPlaces  = 3
	exactAnswers = 100
)

func (answers Positions) chiSquare(n int) float64 {
	even, sum := float64(n)/float64(len(answers)), 0.0
	for _, x := range answers {
		sum += (float64(x) - even) * (float64(x) - even) / even
	}
	return sum
}

// approximate is the probability by the χ² distribution.
func (answers Positions) approximate(chiSquare float64) float64 {
	return chiSquareAbove(chiSquare, float64(len(answers)-1))
}

// exact sums the outcomes at least as uneven. The last place takes what is left.
func (answers Positions) exact(n int, seen float64) float64 {
	k := len(answers)
	outcome := make(Positions, k)
	p := 0.0
	var walk func(place, left int, chance float64)
	walk = func(place, left int, chance float64) {
		if place == k-1 {
			outcome[place] = left
			if outcome.chiSquare(n) >= seen/ties-1e-12 {
				p += chance
			}
			return
		}
		for x := range left + 1 {
			outcome[place] = x
			walk(place+1, left-x, chance*binomial(x, left, 1/float64(k-place)))
		}
	}
	walk(0, n, 1)
	return min(1, p)
}

// ByOdd compares right answers between the sets in which one beer was the odd one
// and those in which the other was: a lasting flavour is easier found alone among
// mild ones. The rows of the table are the beers, the columns right and wrong; p is
// two-sided ([Table.FisherTwoSided]).
func ByOdd(a, b Answered) (table Table, p float64) {
	table = Table{a.Right, a.N - a.Right, b.Right, b.N - b.Right}
	return table, table.FisherTwoSided()
}
