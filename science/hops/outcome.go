// SPDX-License-Identifier: MIT

package hops

import "gyle/quantity"

// An Outcome is what becomes of one charge of hops by the end of a history.
type Outcome struct {
	State
	// Earned holds, for each segment of the history, the iso-alpha acids that
	// were made in it and are still there at the end. The entries are never
	// negative and add up to Iso.
	Earned []float64
	// Boil is the time at 100 °C that would turn as much alpha acid.
	Boil quantity.Duration
}

// Outcomes returns what becomes of charges dosed at the given times after the
// start of the history, each fresh. A charge dosed before the start counts
// from the start; one dosed after the end stays as it is.
//
// Each segment is worked out once. A charge multiplies its way through them;
// only the segment it falls into is worked out again from its time of dosing.
// A charge dosed while the wort is running off goes into what is still there.
//
//	dA/dt = −k1·A    dI/dt = k1·A − k2·I
//
// Units: A, I per mass of alpha dosed; t in min.
//
//   - Source: malowicki2005, abstract; integrated over the temperature in exact exponential steps.
//   - Valid: as [IsoRate] and [DegradationRate]; hops beyond their solubility turn more slowly, see [SolubilityBinds].
//   - Check: within 1e-4 of a general solver of differential equations on random histories (testdata/kinetics.csv).
//   - Tag: derived
func (h History) Outcomes(at []quantity.Duration) []Outcome {
	whole := make([]transfer, len(h))
	for i := range h {
		whole[i] = h[i].transferFrom(0, &Published)
	}
	lasting := make([]float64, len(h)+1) // iso left at the end of that there before segment i
	lasting[len(h)] = 1
	for i := len(h) - 1; i >= 0; i-- {
		lasting[i] = lasting[i+1] * whole[i].iso
	}
	outcomes := make([]Outcome, len(at))
	for i, d := range at {
		outcomes[i] = h.outcome(d, whole, lasting)
	}
	return outcomes
}

// outcome follows one charge through the segments.
func (h History) outcome(d quantity.Duration, whole []transfer, lasting []float64) Outcome {
	out := Outcome{State: Fresh, Earned: make([]float64, len(h))}
	first, into := h.locate(d)
	exposure := 0.0
	for i := first; i < len(h); i++ {
		m := whole[i]
		if i == first && into > 0 {
			m = h[i].transferFrom(into, &Published)
		}
		out.Earned[i] = out.Alpha * m.made * lasting[i+1]
		out.State = m.apply(out.State)
		exposure += m.exposure
	}
	out.Boil = quantity.Duration(exposure / float64(IsoRate(boiling)))
	return out
}

// Yields returns the state at the end of the history of charges dosed fresh
// at the given times after its start.
func (h History) Yields(at []quantity.Duration) []State {
	yields := make([]State, len(at))
	for i, o := range h.Outcomes(at) {
		yields[i] = o.State
	}
	return yields
}

// Yield returns the state at the end of the history of a charge dosed fresh at
// one time after its start.
func (h History) Yield(at quantity.Duration) State {
	return h.Outcomes([]quantity.Duration{at})[0].State
}

// Earned returns, for a charge dosed at the given time, the iso-alpha acids
// made in each segment and still there at the end. See [Outcome].
func (h History) Earned(at quantity.Duration) []float64 {
	return h.Outcomes([]quantity.Duration{at})[0].Earned
}

// EquivalentBoil returns the time at 100 °C that would turn as much alpha acid
// as the history does from the given time on. Of wort running off it is the mean.
//
//	theta = ∫ k1(T) dt / k1(100 °C)
//
// Units: theta in min.
//
//   - Source: derived, from malowicki2005.
//   - Valid: as [IsoRate].
//   - Check: 10.48 min for a straight line from 70 to 100 °C in 30 min.
//   - Tag: derived
func (h History) EquivalentBoil(at quantity.Duration) quantity.Duration {
	return h.Outcomes([]quantity.Duration{at})[0].Boil
}

// End returns what becomes of the state s, present at the start of the
// history, by its end.
func (h History) End(s State) State {
	for i := range h {
		s = h[i].transferFrom(0, &Published).apply(s)
	}
	return s
}
