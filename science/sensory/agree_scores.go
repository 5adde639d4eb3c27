// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"slices"
)

// Repeatability returns the standard deviation with which assessors score the
// same beer when they get it twice without knowing.
//
//	s = √(Σd²/(2·m))
//
// Units: those of the scale; d the difference of a pair, m pairs.
//
//   - Source: practice, duplicates.
//   - Valid: from one pair, useful from six.
//   - Check: 4 6 3 7 5 6 and 5 6 4 5 5 7 give 0.7638.
//   - Tag: computed
func Repeatability(first, second []float64) float64 {
	sum := 0.0
	for i := range first {
		sum += square(first[i] - second[i])
	}
	return math.Sqrt(sum / float64(2*len(first)))
}

// Reliability is how well a panel's scores of several beers can be relied on.
type Reliability struct {
	Alpha    float64 // Cronbach's: of the mean of these assessors
	Single   float64 // ICC(2,1): of one assessor of any, with a level of their own
	SingleOf float64 // ICC(3,1): of one of these, levels set aside
}

// ReliabilityOf measures how well a panel separates beers. It rises with the
// number of assessors and with how much the beers differ, so it can't be
// compared between trials of different beers. Row i holds the scores of
// assessor i.
//
//	α = 1 − MSe/MSb
//	ICC(2,1) = (MSb − MSe)/(MSb + (k − 1)·MSe + k·(MSa − MSe)/n),  ICC(3,1) = (MSb − MSe)/(MSb + (k − 1)·MSe)
//
// Units: none; k assessors, n beers; mean squares of beers b, assessors a and
// the rest e.
//
//   - Source: cronbach1951 and shrout1979, from memory.
//   - Valid: complete tables.
//   - Check: 4 assessors, 6 beers: α 0.97829, ICC(2,1) 0.9172, ICC(3,1) 0.9185.
//   - Tag: computed
func ReliabilityOf(scores [][]float64) (Reliability, error) {
	cells := make([][][]float64, len(scores))
	for i, row := range scores {
		for _, y := range row {
			cells[i] = append(cells[i], []float64{y})
		}
	}
	t, err := AnalyseProfile(cells)
	if err != nil {
		return Reliability{}, fmt.Errorf("compare assessors: %w", err)
	}
	k, n := float64(t.Assessors), float64(t.Beers)
	b, a, e := t.SumBeers/(n-1), t.SumAssessors/(k-1), t.errorMean()
	return Reliability{
		Alpha:    1 - e/b,
		Single:   (b - e) / (b + (k-1)*e + k*(a-e)/n),
		SingleOf: (b - e) / (b + (k-1)*e),
	}, nil
}

// AgainstPanel is how one assessor scores compared with the mean of the others.
type AgainstPanel struct {
	R     float64 // correlation with the others; below nothing: the other way round
	Bias  float64 // mean of own score less that of the others
	Slope float64 // width of the scale used, 1 as the others
}

// AgainstRest compares each assessor with the mean of the others. One who is
// steadily different may be a different palate: it flags, it removes nobody.
// Row i holds the scores of assessor i.
//
//	r = corr(y, o),  bias = mean(y − o),  slope = cov(y, o)/var(o),  o the mean of the others
//
// Units: bias in those of the scale.
//
//   - Source: practice, diagnosis against the panel mean.
//   - Valid: from 3 assessors and 3 beers.
//   - Check: five assessors, six beers: r 0.9242, 0.9847, 0.7391, 0.9879, −0.0891; bias −1.375, 2.167, −2.417, 3.625, −2.000; slope 1.239, 1.516, 1.037, 1.054, −0.087.
//   - Tag: computed
func AgainstRest(scores [][]float64) []AgainstPanel {
	out := make([]AgainstPanel, len(scores))
	for i, own := range scores {
		others := make([]float64, len(own))
		for h, row := range scores {
			for j := range row {
				if h != i {
					others[j] += row[j] / float64(len(scores)-1)
				}
			}
		}
		covariance := 0.0
		for j := range own {
			covariance += (own[j] - mean(own)) * (others[j] - mean(others)) / float64(len(own)-1)
		}
		out[i] = AgainstPanel{R: pearson(own, others), Bias: mean(own) - mean(others), Slope: covariance / variance(others)}
	}
	return out
}

// OddScore is the size of a robust z beyond which [RobustZ] calls a score odd.
const OddScore = 3.5

// RobustZ returns how far each score lies from the median in robust standard
// deviations. Beyond [OddScore] it is worth a question, never a removal. When
// more than half of the scores are alike the others are infinitely far.
//
//	z = (x − median)/(1.4826·median|x − median|)
//
// Units: none.
//
//   - Source: iglewicz1993, from memory.
//   - Valid: from 5 scores.
//   - Check: 1.2 −0.8 0.5 9 −1.1 0.3 −2: 9 has 5.335, the others within 1.42.
//   - Tag: computed
func RobustZ(scores []float64) []float64 {
	middle := median(scores)
	away := make([]float64, len(scores))
	for i, x := range scores {
		away[i] = math.Abs(x - middle)
	}
	spread := 1.4826 * median(away)
	z := make([]float64, len(scores))
	for i, x := range scores {
		if x != middle {
			z[i] = (x - middle) / spread
		}
	}
	return z
}

func median(x []float64) float64 {
	sorted := slices.Sorted(slices.Values(x))
	n := len(sorted)
	if n%2 == 1 {
		return sorted[n/2]
	}
	return (sorted[n/2-1] + sorted[n/2]) / 2
}
