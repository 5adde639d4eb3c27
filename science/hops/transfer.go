// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

// A transfer turns the state before a stretch of time into the state after it.
// The reactions are linear, so three numbers say everything; exposure is kept
// for the equivalent minutes of boil.
type transfer struct {
	alpha    float64 // alpha acids left of alpha acids
	made     float64 // iso-alpha acids made from alpha acids and still there
	iso      float64 // iso-alpha acids left of iso-alpha acids
	exposure float64 // the integral of k1 over time
}

var still = transfer{alpha: 1, iso: 1}

// transferOf returns the transfer of a stretch with the given integrals of k1
// and k2 over time, whose ratio is taken as constant.
func transferOf(x1, x2 float64) transfer {
	a, c := math.Exp(-x1), math.Exp(-x2)
	made := x1 * a
	if math.Abs(x1-x2) >= 1e-9 {
		made = x1 / (x2 - x1) * (a - c)
	}
	return transfer{a, made, c, x1}
}

func (m transfer) apply(s State) State {
	return State{Alpha: m.alpha * s.Alpha, Iso: m.made*s.Alpha + m.iso*s.Iso}
}

// then returns the transfer of m followed by n.
func (m transfer) then(n transfer) transfer {
	return transfer{
		alpha:    n.alpha * m.alpha,
		made:     n.made*m.alpha + n.iso*m.made,
		iso:      n.iso * m.iso,
		exposure: m.exposure + n.exposure,
	}
}

// add returns m with share w of n added.
func (m transfer) add(w float64, n transfer) transfer {
	return transfer{
		alpha:    m.alpha + w*n.alpha,
		made:     m.made + w*n.made,
		iso:      m.iso + w*n.iso,
		exposure: m.exposure + w*n.exposure,
	}
}

// Within a step the temperature changes by no more than stepWarming, and
// Newton cooling is followed for no more than half its time constant. A two
// point Gauss rule then meets the solver of testdata/kinetics.py within 1e-5.
const (
	stepWarming    = 2.0  // K
	stepOfTau      = 0.5  // of tau
	runOffLongest  = 20.0 // min, so that k·t stays small where states are averaged
	restsAtAmbient = 1e-6 // K
)

// longestStep returns how long a step from time t may be.
func (s *Segment) longestStep(t float64) float64 {
	longest := math.Inf(1)
	switch s.shape {
	case linear:
		longest = stepWarming * s.Duration.Minutes() / math.Abs(float64(s.to.Sub(s.from)))
	case cooling:
		if gap := math.Abs(float64(s.TemperatureAt(quantity.Duration(t)).Sub(s.to))); gap > restsAtAmbient {
			longest = s.tau.Minutes() * min(stepWarming/gap, stepOfTau)
		}
	}
	if s.RunOff {
		longest = min(longest, runOffLongest)
	}
	return longest
}

// steps calls each with the stretches into which the time from t to end is
// cut. None of them crosses the temperature at which isomerisation starts.
func (s *Segment) steps(t, end float64, each func(from, to float64)) {
	crossing := s.reaches(isomerisationStart)
	for t < end {
		next := min(end, t+s.longestStep(t))
		if t < crossing && crossing < next {
			next = crossing
		}
		each(t, next)
		t = next
	}
}

// step returns the transfer of one short stretch.
func (s *Segment) step(from, to float64, k *Kinetics) transfer {
	if s.shape == steady {
		d := to - from
		return transferOf(d*k.iso(s.from), d*k.broken.at(s.from))
	}
	const node = 0.28867513459481287 // 1/(2·√3), two point Gauss rule
	mid, d := (from+to)/2, to-from
	early := s.TemperatureAt(quantity.Duration(mid - node*d))
	late := s.TemperatureAt(quantity.Duration(mid + node*d))
	return transferOf(
		d/2*(k.iso(early)+k.iso(late)),
		d/2*(k.broken.at(early)+k.broken.at(late)))
}

// transferFrom returns the transfer of the segment from time t after its
// start to its end.
func (s *Segment) transferFrom(t float64, k *Kinetics) transfer {
	end := s.Duration.Minutes()
	if s.RunOff && t < end {
		return s.runOffFrom(t, k)
	}
	if s.shape == cooling && t >= 0 {
		return s.coolFrom(t, k)
	}
	total := still
	s.steps(t, end, func(from, to float64) {
		total = total.then(s.step(from, to, k))
	})
	return total
}

// runOffFrom returns the mean transfer of wort that leaves the kettle at a
// constant rate between time t and the end of the segment. Each step is
// averaged with a three point Gauss rule.
func (s *Segment) runOffFrom(t float64, k *Kinetics) transfer {
	const node = 0.3872983346207417 // √(3/5)/2
	end := s.Duration.Minutes()
	sofar, mean := still, transfer{}
	s.steps(t, end, func(from, to float64) {
		d, mid := to-from, (from+to)/2
		share := d / (end - t)
		mean = mean.add(share*5/18, sofar.then(s.step(from, mid-node*d, k)))
		mean = mean.add(share*8/18, sofar.then(s.step(from, mid, k)))
		mean = mean.add(share*5/18, sofar.then(s.step(from, mid+node*d, k)))
		sofar = sofar.then(s.step(from, to, k))
	})
	return mean
}
