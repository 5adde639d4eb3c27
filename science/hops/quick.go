// SPDX-License-Identifier: MIT

package hops

import "math"

// A cooling takes most of the time of following a charge: dozens of short
// steps, each with exponentials of small numbers. Here they are worked out from
// one step to the next.

// nearlyZero is how large a number may be for [expSmall].
const nearlyZero = 0.2

// expSmall returns e^x for a small x by the fourth approximant of Padé, to
// 14 digits.
//
//	e^x = (p + q)/(p − q)    p = 1680 + 180x² + x⁴, q = 840x + 20x³
//
// Units: none.
//
//   - Source: derived, approximant of Padé of order [4/4].
//   - Valid: |x| up to 0.2; beyond it the ordinary function is taken.
//   - Check: math.Exp within 3e-14.
//   - Tag: derived
func expSmall(x float64) float64 {
	if math.Abs(x) > nearlyZero {
		return math.Exp(x)
	}
	square := x * x
	p, q := 1680+square*(180+square), x*(840+20*square)
	return (p + q) / (p - q)
}

// A moving rate is that of an Arrhenius law at a temperature that moves in
// small steps.
type moving struct{ over, inverse, rate float64 }

// to moves the rate to 1/T.
func (m *moving) to(inverse float64) float64 {
	m.rate *= expSmall(m.over * (m.inverse - inverse))
	m.inverse = inverse
	return m.rate
}

// coolFrom is transferFrom for a cooling that nothing runs off from: the same
// steps and nodes as [Segment.step].
func (s *Segment) coolFrom(t float64, k *Kinetics) transfer {
	const node = 0.28867513459481287 // 1/(2·√3), two point Gauss rule
	end, tau, ambient := s.Duration.Minutes(), s.tau.Minutes(), s.to.Kelvin()
	crossing, start := s.reaches(isomerisationStart), isomerisationStart.Kelvin()
	gap := s.from.Kelvin() - ambient
	if t > 0 {
		gap *= math.Exp(-t / tau)
	}
	inverse := 1 / (ambient + gap)
	made := moving{k.made.over, inverse, k.made.before * math.Exp(-k.made.over*inverse)}
	broken := moving{k.broken.over, inverse, k.broken.before * math.Exp(-k.broken.over*inverse)}
	total, cold := still, 0.0 // cold: the integral of k2 since the last iso-alpha acids were made
	for t < end {
		next := end
		if size := math.Abs(gap); size > restsAtAmbient {
			next = min(end, t+tau*min(stepWarming/size, stepOfTau))
		}
		if t < crossing && crossing < next {
			next = crossing
		}
		d := next - t
		side, middle := expSmall(-d/tau*(0.5-node)), expSmall(-d/tau*2*node)
		early := ambient + gap*side
		late := ambient + gap*side*middle
		x1, x2 := 0.0, d/2*(broken.to(1/early)+broken.to(1/late))
		if early >= start {
			x1 += d / 2 * made.to(1/early)
		}
		if late >= start {
			x1 += d / 2 * made.to(1/late)
		}
		if x1 == 0 {
			cold += x2
		} else {
			total = total.broken(cold).then(smallTransferOf(x1, x2))
			cold = 0
		}
		gap *= side * middle * side
		t = next
	}
	return total.broken(cold)
}

// broken returns the transfer followed by a stretch in which iso-alpha acids
// only break down, with the given integral of k2.
func (m transfer) broken(x2 float64) transfer {
	if x2 == 0 {
		return m
	}
	left := math.Exp(-x2)
	m.made *= left
	m.iso *= left
	return m
}

// smallTransferOf is transferOf for short steps.
func smallTransferOf(x1, x2 float64) transfer {
	a, c := expSmall(-x1), expSmall(-x2)
	made := x1 * a
	if math.Abs(x1-x2) >= 1e-9 {
		made = x1 / (x2 - x1) * (a - c)
	}
	return transfer{a, made, c, x1}
}
