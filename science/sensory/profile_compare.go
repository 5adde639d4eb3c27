// SPDX-License-Identifier: MIT

package sensory

import "math"

// AttributePair is one attribute of two beers as the same assessors scored it,
// one after the other in the same order.
type AttributePair struct {
	Name          string
	Parent, Child []float64
}

// PairedDifferences returns child less parent, assessor by assessor.
func PairedDifferences(a AttributePair) []float64 {
	differences := make([]float64, len(a.Parent))
	for i := range differences {
		differences[i] = a.Child[i] - a.Parent[i]
	}
	return differences
}

// AttributeChange is how an attribute moved from parent to child.
type AttributeChange struct {
	Name           string
	Parent, Child  float64 // means
	Paired                 // of the differences, child less parent
	P              float64 // by Student's t, this attribute alone
	Flip           float64 // by exact sign flips, this attribute alone; NaN for large panels
	Corrected      float64 // P after Holm, among all attributes compared
	FlipsCorrected float64 // Flip after Holm
}

// CompareProfiles compares two beers attribute by attribute. Many questions at
// once find something by chance: judge by the corrected probabilities.
//
//	P' = Holm(P1 … Pm),  Pj = P(|t'| ≥ |d̄j/(sj/√n)|)
//
// Units: those of the scale, and probabilities.
//
//   - Source: student1908 and holm1979, from memory.
//   - Valid: the same assessors for both beers; at least 2.
//   - Check: 12 assessors, mean −1.4, SD 1.3: 0.003, corrected among six 0.02; +0.8, 1.5: 0.09 and 0.46.
//   - Tag: computed
func CompareProfiles(attributes []AttributePair) []AttributeChange {
	changes := make([]AttributeChange, len(attributes))
	alone, flips := make([]float64, len(attributes)), make([]float64, len(attributes))
	flipped := true
	for i, a := range attributes {
		differences := PairedDifferences(a)
		paired := PairedOf(differences)
		flip, ok := SignFlip(differences)
		if !ok {
			flip, flipped = math.NaN(), false
		}
		alone[i], flips[i] = paired.P(), flip
		changes[i] = AttributeChange{Name: a.Name, Parent: mean(a.Parent), Child: mean(a.Child), Paired: paired, P: alone[i], Flip: flip}
	}
	corrected, flipsCorrected := Holm(alone), Holm(flips)
	for i := range changes {
		changes[i].Corrected, changes[i].FlipsCorrected = corrected[i], math.NaN()
		if flipped {
			changes[i].FlipsCorrected = flipsCorrected[i]
		}
	}
	return changes
}

// ProfileDistance measures how far two profiles lie apart as a whole, in
// standard deviations of a score, and the probability of a distance as large
// when every assessor might as well have had the beers the other way round.
// Flipping all attributes of an assessor together keeps how they hang together.
// It is not computed (false) for more than 14 assessors.
//
//	D = √(mean over j of (d̄j/sj)²),  sj the SD of all 2·n scores of attribute j
//	P = share of the 2ⁿ choices of signs with D' ≥ D
//
// Units: none. Attributes without any scatter are left out.
//
//   - Source: derived, from fisherdesign1935 (sign flips).
//   - Valid: the same assessors for both beers.
//   - Check: one attribute gives the probability of [SignFlip].
//   - Tag: estimate
func ProfileDistance(attributes []AttributePair) (d, p float64, ok bool) {
	const most = 14
	if len(attributes) == 0 || len(attributes[0].Parent) > most || len(attributes[0].Parent) < 2 {
		return 0, 0, false
	}
	n := len(attributes[0].Parent)
	var scaled [][]float64 // differences by attribute, in standard deviations
	for _, a := range attributes {
		sd := math.Sqrt(variance(append(append([]float64{}, a.Parent...), a.Child...)))
		if sd == 0 {
			continue
		}
		row := make([]float64, n)
		for i := range row {
			row[i] = (a.Child[i] - a.Parent[i]) / sd
		}
		scaled = append(scaled, row)
	}
	if len(scaled) == 0 {
		return 0, 1, true
	}
	observed, hits := squaredDistance(scaled, 0), 0
	for signs := range 1 << n {
		if squaredDistance(scaled, signs) >= observed*(1-1e-9) {
			hits++
		}
	}
	return math.Sqrt(observed), float64(hits) / float64(int(1)<<n), true
}

func squaredDistance(scaled [][]float64, signs int) (sum float64) {
	for _, row := range scaled {
		total := 0.0
		for i, x := range row {
			if signs&(1<<i) != 0 {
				x = -x
			}
			total += x
		}
		sum += square(total / float64(len(row)))
	}
	return sum / float64(len(scaled))
}

// RangeVerdict says how a panel's scores lie to the range of a style.
type RangeVerdict int

// The verdicts of [AgainstRange].
const (
	Undecided RangeVerdict = iota // the interval of the mean crosses an edge
	Inside
	Outside
)

// String returns the verdict as a word.
func (v RangeVerdict) String() string {
	return [...]string{"undecided", "inside", "outside"}[v]
}

// AgainstRange judges the scores of one attribute by the levels that a style
// allows. A level k on a scale of words stands for k − ½ to k + ½, so the range
// is half a level wider on both sides. Deviation is how far the mean lies
// outside, in levels. Fewer than 4 scores decide nothing.
//
//	inside: x̄ ± t(0.975; n − 1)·s/√n within [low − ½, high + ½]; outside: wholly beyond one edge
//
// Units: levels.
//
//   - Source: student1908, interval; the half level is our own.
//   - Valid: scales of whole levels.
//   - Check: 4, 5, 4, 4, 5, 4, 3, 4 against 2 to 3: 4.125 (3.589 to 4.661), outside by 0.625.
//   - Tag: estimate
func AgainstRange(scores []float64, low, high float64) (verdict RangeVerdict, deviation float64) {
	low, high = low-0.5, high+0.5
	m := mean(scores)
	deviation = max(0, low-m, m-high)
	if len(scores) < 4 {
		return Undecided, deviation
	}
	from, to := PairedOf(scores).Interval(0.95)
	switch {
	case from >= low && to <= high:
		verdict = Inside
	case from > high || to < low:
		verdict = Outside
	}
	return verdict, deviation
}
