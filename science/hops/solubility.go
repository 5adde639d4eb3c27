// SPDX-License-Identifier: MIT

package hops

import (
	"math"
	"slices"

	"gyle/quantity"
)

// BoilSolubility is how much alpha acid dissolves in boiling wort at pH 5:
// 250 mg/L, quoted second-hand from Hough and others (1982). malowicki2005
// names 90 mg/L at pH 5.2, probably far colder; 250 is the gentler cap.
const BoilSolubility quantity.Concentration = 250

// AlphaSolubility returns how much alpha acid dissolves in boiling wort,
// depending on its pH. It is a curve through the one value at pH 5.
//
//	S = 190 · (1 + 10^(pH−5.5))
//
// Units: S in mg/L.
//
//   - Source: practice, acid dissociation drawn through 250 mg/L at pH 5.
//   - Valid: pH 4.8–5.8.
//   - Check: 250 at pH 5.0, 285 at 5.2, 341 at 5.4.
//   - Tag: estimate
func AlphaSolubility(ph quantity.PH) quantity.Concentration {
	return quantity.Concentration(190 * (1 + math.Pow(10, float64(ph)-5.5)))
}

// HoldLimited returns what becomes of alpha acids and iso-alpha acids held at
// constant temperature for time d when only the dissolved alpha acids react.
//
//	da/dt = −k1·min(a, S)    dI/dt = k1·min(a, S) − k2·I
//	while a > S: a falls by k1·S per min; I = I0·e^(−k2·t) + k1·S/k2·(1 − e^(−k2·t))
//
// Units: a, I, S in mg/L; t in min. Once a has fallen to S it goes on as in [Hold].
//
//   - Source: derived, from malowicki2005 with a saturated solution.
//   - Valid: as [IsoRate]; S is known poorly.
//   - Check: 400 mg/L, S 250, 60 min at 100 °C: alpha 215.30, iso 168.40 mg/L.
//   - Tag: computed
func HoldLimited(alpha, iso, solubility quantity.Concentration, t quantity.Temperature, d quantity.Duration) (alphaLeft, isoMade quantity.Concentration) {
	k1, k2 := float64(IsoRate(t)), float64(DegradationRate(t))
	a, i := limited(float64(alpha), float64(iso), float64(solubility), k1, k2, d.Minutes())
	return quantity.Concentration(a), quantity.Concentration(i)
}

func limited(a, i, s, k1, k2, t float64) (alpha, iso float64) {
	if a > s && k1 > 0 {
		saturated := min(t, (a-s)/(k1*s))
		a -= k1 * s * saturated
		i = i*math.Exp(-k2*saturated) - k1*s/k2*math.Expm1(-k2*saturated)
		t -= saturated
	}
	if t <= 0 || a > s {
		return a, i * math.Exp(-k2*t)
	}
	end := transferOf(k1*t, k2*t).apply(State{a, i})
	return end.Alpha, end.Iso
}

// SolubilityBinds reports whether charges of the given alpha acids, dosed at
// the given times after the start of the history, ever exceed their
// solubility together. If it is false, [History.Outcomes] needs no correction.
func (h History) SolubilityBinds(at []quantity.Duration, alpha []quantity.Concentration, solubility quantity.Concentration) bool {
	sum := quantity.Concentration(0)
	for _, a := range alpha {
		sum += a
	}
	if sum <= solubility {
		return false
	}
	present, last := 0.0, quantity.Duration(0)
	for _, i := range inOrder(at) {
		present *= h.between(last, at[i]).alpha
		present += float64(alpha[i])
		last = at[i]
		if present > float64(solubility) {
			return true
		}
	}
	return false
}

// inOrder returns the indices of the charges by time of dosing.
func inOrder(at []quantity.Duration) []int {
	order := make([]int, len(at))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case at[a] < at[b]:
			return -1
		case at[a] > at[b]:
			return 1
		}
		return 0
	})
	return order
}

// between returns the transfer, in wort that stays in the kettle, from one
// time to another.
func (h History) between(from, to quantity.Duration) transfer {
	total := still
	h.eachStep(from, to, func(s Segment, begin, end float64) {
		total = total.then(s.step(begin, end, &Published))
	})
	return total
}

// eachStep calls each with the steps of the history from one time to another,
// in minutes since the segment's start.
func (h History) eachStep(from, to quantity.Duration, each func(s Segment, begin, end float64)) {
	start := 0.0
	for _, s := range h {
		length := max(0, s.Duration.Minutes())
		begin := max(0, from.Minutes()-start)
		end := min(length, to.Minutes()-start)
		s.steps(begin, end, func(b, e float64) { each(s, b, e) })
		start += length
	}
}

// Limited returns the iso-alpha acids at the end of the history of charges of
// the given alpha acids dosed at the given times, all sharing one solubility.
// Of wort running off it is the mean. Divide by the sum of alpha × yield of
// [History.Outcomes] to see what the limit takes.
//
//	da/dt = −k1·min(a, S)    dI/dt = k1·min(a, S) − k2·I
//
// Units: a, I, S in mg/L.
//
//   - Source: derived, from malowicki2005 with a saturated solution.
//   - Valid: as [HoldLimited]; a run-off must be the last segment.
//   - Check: one charge at constant temperature agrees with [HoldLimited]; without a limit it agrees with [History.Outcomes].
//   - Tag: computed
func (h History) Limited(at []quantity.Duration, alpha []quantity.Concentration, solubility quantity.Concentration) quantity.Concentration {
	w := limitedWalk{solubility: float64(solubility)}
	last := quantity.Duration(0)
	for _, i := range inOrder(at) {
		h.eachStep(last, at[i], w.advance)
		w.alpha += float64(alpha[i])
		last = max(last, at[i])
	}
	h.eachStep(last, h.Duration(), w.advance)
	if w.running > 0 {
		return quantity.Concentration(w.sum / w.running)
	}
	return quantity.Concentration(w.iso)
}

// A limitedWalk carries the concentrations along a history. During a run-off
// it sums the iso-alpha acids that leave.
type limitedWalk struct {
	alpha, iso, solubility float64
	sum, running           float64
}

func (w *limitedWalk) advance(s Segment, begin, end float64) {
	const longest = 0.5 // min; the average over a run-off is by trapezes
	n := 1
	if s.RunOff {
		n = int(math.Ceil((end - begin) / longest))
	}
	d := (end - begin) / float64(n)
	for k := range n {
		before := w.iso
		from := begin + float64(k)*d
		mid := s.TemperatureAt(quantity.Duration(from + d/2))
		k1, k2 := float64(IsoRate(mid)), float64(DegradationRate(mid))
		if s.shape != steady && d > 0 {
			m := s.step(from, from+d, &Published)
			k1, k2 = m.exposure/d, -math.Log(m.iso)/d
		}
		w.alpha, w.iso = limited(w.alpha, w.iso, w.solubility, k1, k2, d)
		if s.RunOff {
			w.sum += d * (before + w.iso) / 2
			w.running += d
		}
	}
}
