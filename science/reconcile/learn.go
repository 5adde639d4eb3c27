// SPDX-License-Identifier: MIT

package reconcile

import (
	"math"
	"slices"
)

// A Belief is what is known of some constants: their means and how they scatter
// together.
type Belief struct {
	Mean       []float64
	Covariance [][]float64
}

// Independent returns a belief in constants that say nothing of one another.
func Independent(mean, sd []float64) Belief {
	b := Belief{Mean: slices.Clone(mean), Covariance: make([][]float64, len(mean))}
	for i := range mean {
		b.Covariance[i] = make([]float64, len(mean))
		b.Covariance[i][i] = sd[i] * sd[i]
	}
	return b
}

// At returns the mean and standard deviation of a sum of the constants with the
// given factors.
func (b Belief) At(factors []float64) (mean, sd float64) {
	variance := 0.0
	for i, f := range factors {
		mean += f * b.Mean[i]
		for j, g := range factors {
			variance += f * g * b.Covariance[i][j]
		}
	}
	return mean, math.Sqrt(max(variance, 0))
}

// An Observation is one sight of a sum of constants. Factors has one number for
// each constant: {1} for the constant itself, {1, x} for a line over x.
type Observation struct {
	Factors   []float64
	Value, SD float64
	// Changed says that something changed before this observation: the constants
	// may have moved by Drift.
	Changed bool
	Drift   []float64 // standard deviation of the move, by constant
}

// Learned is a belief after observations. Weights say how far each was
// believed: 1 in full, towards 0 the further it lies from the rest.
type Learned struct {
	Belief
	Weights []float64
	Scale   float64 // by which the observations scatter more than their SD says; at least 1
}

// The constants of [Learn]. tails is the freedom of the distribution whose
// weights tame outliers: 4 is the customary choice. scatterFreedom is how many
// observations the stated SD counts for when scatter is judged. Own choices.
const (
	tails          = 4
	scatterFreedom = 8
	learnRounds    = 100
)

// Learn updates a belief by observations in their order. Each has the weight of
// a distribution with long tails, never more than 1, so that one that is far off
// hardly counts; where all scatter more than they should, the belief is widened.
// A change between two observations keeps what is known, with less certainty.
//
//	minimise (θ − θ0)ᵀ·C0⁻¹·(θ − θ0) + Σ w·((y − fᵀθ)/s)² + Σ ((θ(k+1) − θ(k))/drift)²
//	w = min(1, (ν + 1)/(ν + z²))    z = (y − fᵀθ)/s    ν = 4
//	C = λ²·(C0⁻¹ + Σ w·f·fᵀ/s²)⁻¹    λ² = max(1, (8 + Σ w·z²)/(8 + n))
//
// Units: those of the constants and observations.
//
//   - Source: lange1989, weights of the t distribution, from memory; kalman1960, drifting constants, from memory; the rest derived, product of normal distributions.
//   - Valid: observations that are independent but for the constants.
//   - Check: without outliers and drift, the weighted mean of prior and observations: ln 0.91 and ln 0.95 with SD 0.12 on 0 ± 0.25 give ln 0.937 ± 0.080.
//   - Tag: from memory
func Learn(prior Belief, observations []Observation) Learned {
	out := Learned{Belief: prior, Weights: make([]float64, len(observations)), Scale: 1}
	if len(observations) == 0 {
		return out
	}
	l := newLearner(prior, observations)
	for i := range out.Weights {
		out.Weights[i] = 1
	}
	for range learnRounds {
		if !l.solve(out.Weights) {
			return out
		}
		moved := 0.0
		for i := range observations {
			z := l.z(i)
			w := min(1, (tails+1)/(tails+z*z))
			moved = max(moved, math.Abs(w-out.Weights[i]))
			out.Weights[i] = w
		}
		if moved < 1e-10 {
			break
		}
	}
	sum := float64(scatterFreedom)
	for i, w := range out.Weights {
		sum += w * l.z(i) * l.z(i)
	}
	out.Scale = math.Sqrt(max(1, sum/float64(scatterFreedom+len(observations))))
	out.Belief = l.last(out.Scale)
	return out
}

// learner holds the constants of every stretch between two changes.
type learner struct {
	prior        Belief
	observations []Observation
	d, stretches int
	of           []int     // stretch of each observation
	theta        []float64 // of all stretches
	inverse      *matrix
	precision    *matrix // of the prior
}

func newLearner(prior Belief, observations []Observation) *learner {
	l := &learner{prior: prior, observations: observations, d: len(prior.Mean), stretches: 1}
	for _, o := range observations {
		if o.Changed {
			l.stretches++
		}
		l.of = append(l.of, l.stretches-1)
	}
	p := newMatrix(l.d, l.d)
	for i, row := range prior.Covariance {
		copy(p.row(i), row)
	}
	l.precision, _ = p.scaledInverse()
	return l
}

// solve finds the constants for given weights.
func (l *learner) solve(weights []float64) bool {
	if l.precision == nil {
		return false
	}
	n := l.d * l.stretches
	h, right := newMatrix(n, n), make([]float64, n)
	add := func(i, j int, x float64) { h.set(i, j, h.at(i, j)+x) }
	for i := range l.d {
		for j := range l.d {
			add(i, j, l.precision.at(i, j))
			right[i] += l.precision.at(i, j) * l.prior.Mean[j]
		}
	}
	for k, o := range l.observations {
		at, w := l.of[k]*l.d, weights[k]/(o.SD*o.SD)
		for i, f := range o.Factors {
			right[at+i] += w * f * o.Value
			for j, g := range o.Factors {
				add(at+i, at+j, w*f*g)
			}
		}
		if o.Changed {
			for i, drift := range o.Drift {
				p := 1 / max(drift*drift, 1e-18)
				a, b := at-l.d+i, at+i
				add(a, a, p)
				add(b, b, p)
				add(a, b, -p)
				add(b, a, -p)
			}
		}
	}
	inverse, ok := h.scaledInverse()
	if !ok {
		return false
	}
	l.inverse, l.theta = inverse, make([]float64, n)
	for i := range n {
		for j := range n {
			l.theta[i] += inverse.at(i, j) * right[j]
		}
	}
	return true
}

// z is how far an observation lies from what is believed, in its SD.
func (l *learner) z(k int) float64 {
	o, at := l.observations[k], l.of[k]*l.d
	left := o.Value
	for i, f := range o.Factors {
		left -= f * l.theta[at+i]
	}
	return left / o.SD
}

// last is the belief after the last change.
func (l *learner) last(scale float64) Belief {
	at := (l.stretches - 1) * l.d
	b := Belief{Covariance: make([][]float64, l.d)}
	for i := range l.d {
		b.Mean = append(b.Mean, l.theta[at+i])
		for j := range l.d {
			b.Covariance[i] = append(b.Covariance[i], scale*scale*l.inverse.at(at+i, at+j))
		}
	}
	return b
}

// scaledInverse returns the inverse of a positive matrix, brought to a unit
// diagonal first so that constants of any size are treated alike.
func (m *matrix) scaledInverse() (*matrix, bool) {
	scaled := newMatrix(m.rows, m.rows)
	size := make([]float64, m.rows)
	for i := range m.rows {
		size[i] = math.Sqrt(m.at(i, i))
		if !(size[i] > 0) {
			return nil, false
		}
	}
	for i := range m.rows {
		for j := range m.rows {
			scaled.set(i, j, m.at(i, j)/(size[i]*size[j]))
		}
	}
	inverse, ok := scaled.inverse()
	if !ok {
		return nil, false
	}
	for i := range m.rows {
		for j := range m.rows {
			inverse.set(i, j, inverse.at(i, j)/(size[i]*size[j]))
		}
	}
	return inverse, true
}
