// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"slices"
)

// Paired is how the same assessors scored two beers: the differences, child
// less parent.
type Paired struct {
	N        int
	Mean, SD float64 // of the differences, in the units of the scale
}

// PairedOf sums up differences.
func PairedOf(differences []float64) Paired {
	p := Paired{N: len(differences), Mean: mean(differences)}
	if p.N > 1 {
		p.SD = math.Sqrt(variance(differences))
	}
	return p
}

// T returns Student's t of the mean difference.
//
//	t = d̄/(s/√n)
//
// Units: none.
//
//   - Source: student1908, from memory.
//   - Valid: from 2 assessors; roughly normal differences.
//   - Check: ten assessors with a mean of 0.7 give 2.3333.
//   - Tag: computed
func (p Paired) T() float64 {
	if p.SD == 0 {
		return math.Copysign(math.Inf(1), p.Mean)
	}
	return p.Mean / (p.SD / math.Sqrt(float64(p.N)))
}

// P returns the two-sided probability of a mean difference as large by chance.
//
//	P(|t'| ≥ |t|), n − 1 degrees of freedom
//
// Units: none. No difference at all in any pair: 1.
//
//   - Source: student1908, from memory.
//   - Valid: as [Paired.T].
//   - Check: mean 0.7, t 2.3333, 10 assessors: 0.0445; against R's t.test.
//   - Tag: computed
func (p Paired) P() float64 {
	if p.N < 2 || p.Mean == 0 && p.SD == 0 {
		return 1
	}
	return ratingStudentTails(p.T(), float64(p.N-1))
}

// Interval returns where the true mean difference lies with a confidence.
//
//	d̄ ± t(1 − (1 − c)/2; n − 1)·s/√n
//
// Units: those of the scale.
//
//   - Source: student1908, from memory.
//   - Valid: as [Paired.T].
//   - Check: mean 0.7 of 10 assessors: 0.0214 to 1.3786 at 95 %.
//   - Tag: computed
func (p Paired) Interval(confidence float64) (low, high float64) {
	if p.N < 2 {
		return math.Inf(-1), math.Inf(1)
	}
	half := ratingStudentQuantile(1-confidence, float64(p.N-1)) * p.SD / math.Sqrt(float64(p.N))
	return p.Mean - half, p.Mean + half
}

// Equivalent returns the probability by which two beers that differ by the
// margin or more would look as alike as these: small values show that the
// difference is below the margin.
//
//	max of P(t' ≥ (d̄ + M)/(s/√n)) and P(t' ≤ (d̄ − M)/(s/√n))
//
// Units: the margin in those of the scale.
//
//   - Source: schuirmann1987, two one-sided tests, from memory.
//   - Valid: as [Paired.T]; the margin fixed before pouring.
//   - Check: mean 0.2, SD 1.1, 20 assessors, margin 0.75: 0.000525 and 0.018770.
//   - Tag: computed
func (p Paired) Equivalent(margin float64) float64 {
	error, df := p.SD/math.Sqrt(float64(p.N)), float64(p.N-1)
	return max(ratingStudentTail((p.Mean+margin)/error, df), ratingStudentTail((margin-p.Mean)/error, df))
}

// mostFlips is how many differences [SignFlip] takes: 2²² sums.
const mostFlips = 22

// SignFlip returns the two-sided probability of a mean difference as large when
// each assessor might as well have had the beers the other way round. It is
// exact and asks for no normal scatter. It is not computed (false) for more
// than 22 assessors with a difference.
//
//	share of the 2ⁿ choices of signs with |Σ ±di| ≥ |Σ di|
//
// Units: none.
//
//   - Source: fisherdesign1935, from memory.
//   - Valid: independent assessors.
//   - Check: against complete enumeration in another order; all of five differences alike give 2/32.
//   - Tag: computed
func SignFlip(differences []float64) (p float64, ok bool) {
	d := slices.DeleteFunc(slices.Clone(differences), func(x float64) bool { return x == 0 })
	if len(d) > mostFlips {
		return 0, false
	}
	observed, size := 0.0, 0.0
	for _, x := range d {
		observed += x
		size += math.Abs(x)
	}
	target := math.Abs(observed) - 1e-9*size
	left, right := signSums(d[:len(d)/2]), signSums(d[len(d)/2:])
	slices.Sort(right)
	hits := 0
	for _, x := range left {
		above, _ := slices.BinarySearch(right, target-x)
		below := upperBound(right, -target-x)
		if above < below {
			hits += len(right)
		} else {
			hits += len(right) - above + below
		}
	}
	return float64(hits) / math.Exp2(float64(len(d))), true
}

// upperBound returns how many of the sorted numbers are at most x.
func upperBound(sorted []float64, x float64) int {
	at, _ := slices.BinarySearchFunc(sorted, x, func(y, x float64) int {
		if y <= x {
			return -1
		}
		return 1
	})
	return at
}

// signSums returns the sums of all choices of signs.
func signSums(d []float64) []float64 {
	sums := []float64{0}
	for _, x := range d {
		next := make([]float64, 0, 2*len(sums))
		for _, sum := range sums {
			next = append(next, sum+x, sum-x)
		}
		sums = next
	}
	return sums
}

// SignedRank tests differences by their ranks (Wilcoxon). The statistic V is
// the rank sum of the positive ones; differences of nothing are left out and
// equal sizes share their mean rank. The probability is exact and two-sided.
//
//	V = Σ ranks of |di| where di > 0;  P = 2·min(P(V' ≤ V), P(V' ≥ V)), at most 1
//
// Units: none.
//
//   - Source: wilcoxon1945, from memory.
//   - Valid: differences about as far spread up as down.
//   - Check: 7 differences, V 25 of 28: 0.09375.
//   - Tag: computed
func SignedRank(differences []float64) (v, p float64) {
	d := slices.DeleteFunc(slices.Clone(differences), func(x float64) bool { return x == 0 })
	sizes := make([]float64, len(d))
	for i, x := range d {
		sizes[i] = math.Abs(x)
	}
	chances := []float64{1}
	for i, rank := range meanRanks(sizes) {
		one := make([]float64, int(2*rank)+1)
		one[0], one[len(one)-1] = 0.5, 0.5
		chances = convolve(chances, one)
		if d[i] > 0 {
			v += rank
		}
	}
	above := sumFrom(chances, int(2*v))
	below := 1 - sumFrom(chances, int(2*v)+1)
	return v, min(1, 2*min(above, below))
}

// PairedSigns returns how many differences are positive and negative, and the
// exact two-sided probability of a split as uneven; no differences are left out
// but not counted.
//
//	P = min(1, 2·P(Bin(n, ½) ≥ max(up, down))),  n = up + down
//
// Units: none.
//
//   - Source: arbuthnot1710, the sign test, from memory.
//   - Valid: independent assessors.
//   - Check: 6 against 1: 0.125.
//   - Tag: computed
func PairedSigns(differences []float64) (up, down int, p float64) {
	for _, x := range differences {
		switch {
		case x > 0:
			up++
		case x < 0:
			down++
		}
	}
	return up, down, min(1, 2*halfTail(max(up, down), up+down))
}

// halfTail returns P(Bin(n, ½) ≥ x).
func halfTail(x, n int) float64 {
	if x <= 0 {
		return 1
	}
	return betaBelow(0.5, float64(x), float64(n-x+1))
}
