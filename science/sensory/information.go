// SPDX-License-Identifier: MIT

package sensory

import (
	"math"

	"gyle/quantity"
)

// Distances is what is believed of the distance d′ of two beers: a weight for each
// step of a grid; the weights sum to 1. A distance below nothing is one in favour of
// the other beer, in preferences.
type Distances struct {
	At      []float64
	Weights []float64
}

// Grids of d′: how far beers lie apart, and how much better one is liked.
const (
	apartMost = 3.0
	likedMost = 1.5
	gridStep  = 0.1
)

// EvenDistances is the belief of who knows nothing: all distances from 0 to 3 alike,
// or of a preference from −1.5 to 1.5 (a choice made here).
func EvenDistances(protocol Protocol) Distances {
	from, to := 0.0, apartMost
	if protocol.TwoSided() {
		from, to = -likedMost, likedMost
	}
	var d Distances
	for step := range int(math.Round((to-from)/gridStep)) + 1 {
		d.At, d.Weights = append(d.At, from+float64(step)*gridStep), append(d.Weights, 1)
	}
	return d.scaled()
}

func (d Distances) scaled() Distances {
	sum := 0.0
	for _, w := range d.Weights {
		sum += w
	}
	scaled := Distances{d.At, make([]float64, len(d.Weights))}
	for i, w := range d.Weights {
		scaled.Weights[i] = w / sum
	}
	return scaled
}

// After is what is believed after a tasting: each distance weighed with the chance
// that it gives those answers. Tastings in different ways speak of the same distance.
func (d Distances) After(c Choice) Distances {
	next := Distances{d.At, make([]float64, len(d.Weights))}
	for i, at := range d.At {
		next.Weights[i] = d.Weights[i] * max(binomial(c.Right, c.N, c.Protocol.correctAt(at)), tiny)
	}
	return next.scaled()
}

// correctAt is the proportion of right answers, or of voices for the first beer.
func (p Protocol) correctAt(d float64) float64 {
	if d < 0 {
		return 1 - p.ProportionCorrect(-d)
	}
	return p.ProportionCorrect(d)
}

// Pooled is the belief that several earlier ones are as good a guide as each other: the
// mean of their weights. All must stand on the same grid.
func Pooled(beliefs ...Distances) Distances {
	mixed := Distances{beliefs[0].At, make([]float64, len(beliefs[0].Weights))}
	for _, b := range beliefs {
		for i, w := range b.Weights {
			mixed.Weights[i] += w / float64(len(beliefs))
		}
	}
	return mixed
}

// Beyond is the chance that the distance is larger than a limit, either way.
func (d Distances) Beyond(limit float64) (chance float64) {
	for i, at := range d.At {
		if math.Abs(at) > limit {
			chance += d.Weights[i]
		}
	}
	return chance
}

// Mean is the distance that is expected, with its spread.
func (d Distances) Mean() quantity.Estimate {
	mean, square := 0.0, 0.0
	for i, at := range d.At {
		mean += d.Weights[i] * at
		square += d.Weights[i] * at * at
	}
	return quantity.Estimate{Value: mean, SD: math.Sqrt(max(0, square-mean*mean))}
}

// ExpectedBits is what a tasting of n is expected to teach about the distance: how
// much less uncertain it will be, on average over all that may come out.
//
//	I = Σ_x Σ_d w(d)·p(x|d)·log₂(p(x|d)/p(x)),  p(x) = Σ_d w(d)·p(x|d)
//
// Units: bits; w the belief, x the right answers of n.
//
//   - Source: lindley1956, expected information of an experiment.
//   - Valid: independent answers; as good as the belief that it is told.
//   - Check: one answer that is right with 0.89 or 0.11 teaches 0.5001 bit (channel of shannon1948).
//   - Tag: derived
func (d Distances) ExpectedBits(protocol Protocol, n int) float64 {
	proportions := make([]float64, len(d.At))
	for i, at := range d.At {
		proportions[i] = protocol.correctAt(at)
	}
	return expectedBits(d.Weights, proportions, n)
}

func expectedBits(weights, proportions []float64, n int) (bits float64) {
	chances := make([]float64, len(proportions))
	for x := 0; x <= n; x++ {
		all := 0.0
		for i, p := range proportions {
			chances[i] = binomial(x, n, p)
			all += weights[i] * chances[i]
		}
		for i, w := range weights {
			if joint := w * chances[i]; joint > 0 {
				bits += joint * math.Log2(chances[i]/all)
			}
		}
	}
	return max(0, bits)
}
