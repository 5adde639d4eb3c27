// SPDX-License-Identifier: MIT

package water

import (
	"gyle/quantity"
)

// A Supply is a water with its pH, from which its carbonate system follows.
type Supply struct {
	Ions Ions
	// PH of the water as measured; 0 when unknown.
	PH quantity.PH
	// EndpointPH is the pH to which the alkalinity was titrated; 0 means 4.3.
	EndpointPH quantity.PH
	// Temperature of the reckoning; zero means 20 °C.
	Temperature quantity.Temperature
	// IonicStrength in mol/L switches activity coefficients on; 0 leaves them
	// out, which shifts a mash pH by less than 0.01.
	IonicStrength float64
}

// The pH values that stand in for missing or useless ones.
const (
	defaultEndpoint quantity.PH = 4.3
	defaultPH       quantity.PH = 7.5
)

// minimumSpan is how far above the endpoint the pH must lie for the carbonate
// to be told from it.
const minimumSpan = 0.5

func (s Supply) endpoint() quantity.PH {
	if s.EndpointPH == 0 {
		return defaultEndpoint
	}
	return s.EndpointPH
}

func (s Supply) carbonates() carbonates {
	t := s.Temperature
	if t.IsZero() {
		t = quantity.Celsius(20)
	}
	return carbonatesAt(t, s.IonicStrength)
}

// AssumedPH returns the pH that is reckoned with and, when it isn't the
// measured one, the reason.
func (s Supply) AssumedPH() (ph quantity.PH, caution string) {
	span := s.PH - s.endpoint()
	switch {
	case s.PH == 0 && Alkalinity(s.Ions) == 0: // distilled: neutral
		return quantity.PH(s.carbonates().pkw / 2), ""
	case s.PH == 0:
		return defaultPH, "the pH of the water is unknown: reckoned with 7.5"
	case Alkalinity(s.Ions) > 0 && span > 0 && span < minimumSpan:
		return defaultPH, "the pH of the water lies too close to the endpoint of its alkalinity: reckoned with 7.5"
	}
	return s.PH, ""
}

// TotalCarbon returns the dissolved carbonate of all kinds, in mmol/L.
//
//	C = (A − w(pH) + w(pHe))/(g(pH) − g(pHe))    A in mEq/L at the endpoint pHe
//	w(pH) = 1000·(10^(pH − pKw) − 10^−pH) in mEq/L, g see [CarbonateCharge]
//
// It is zero when there is no alkalinity or the pH is at or below the endpoint.
//
//   - Source: derived, charge balance of a titration that keeps its CO2.
//   - Valid: pH at least 0.5 above the endpoint; see [Supply.AssumedPH].
//   - Check: A 2.0, pH 7.8, 20 °C, endpoint 4.3: 2.0357 mmol/L (computed).
//   - Tag: derived
func (s Supply) TotalCarbon() float64 {
	ph, _ := s.AssumedPH()
	end, alkalinity := s.endpoint(), float64(Alkalinity(s.Ions))
	if ph <= end || alkalinity <= 0 {
		return 0
	}
	c := s.carbonates()
	return (alkalinity - c.water(ph) + c.water(end)) / (c.charge(ph) - c.charge(end))
}

// ConservedAlkalinity returns the alkalinity that mixing conserves, whatever
// happens to the pH and to CO2.
//
//	ALK = C·g(pH) + w(pH)    C in mmol/L, w and ALK in mEq/L
//
// How it is known:
//   - Source: derived, charge balance.
//   - Valid: as [Supply.TotalCarbon].
//   - Check: A 4.589, pH 7.4, mixed 0.6 to 0.4 with pure water: 2.7480 mEq/L (computed).
//   - Tag: derived
func (s Supply) ConservedAlkalinity() quantity.Charge {
	ph, _ := s.AssumedPH()
	c := s.carbonates()
	return quantity.Charge(s.TotalCarbon()*c.charge(ph) + c.water(ph))
}

// AcidDemand returns the strong acid that takes the water to a pH while it
// keeps its CO2. It is negative above the pH of the water.
//
//	U(pH) = C·(g(pHw) − g(pH)) + w(pHw) − w(pH)    in mEq/L; C see [Supply.TotalCarbon]
//
// How it is known:
//   - Source: derived, charge balance. At the endpoint it is the reported alkalinity.
//   - Valid: closed system; [Supply.OpenAcidDemand] bounds a hot, open mash.
//   - Check: A 2.0, pH 7.8, 20 °C: U(5.4) 1.7784, U(6.0) 1.3704 mEq/L (computed).
//   - Tag: derived
func (s Supply) AcidDemand(ph quantity.PH) quantity.Charge { return s.Demand()(ph) }

// Demand returns [Supply.AcidDemand] as a function, worked out once, to hand to
// whoever asks it often.
func (s Supply) Demand() func(quantity.PH) quantity.Charge {
	c, total := s.carbonates(), s.TotalCarbon()
	start, _ := s.AssumedPH()
	fixed := total*c.charge(start) + c.water(start)
	return func(ph quantity.PH) quantity.Charge {
		return quantity.Charge(fixed - total*c.charge(ph) - c.water(ph))
	}
}

// OpenAcidDemand returns the strong acid that the water takes when all its CO2
// leaves: the upper bound for a hot mash.
//
//	U = A    in mEq/L, whatever the pH
//
// How it is known:
//   - Source: derived, without dissolved carbonate nothing protonates back.
//   - Valid: CO2 lost completely, pH 5 to 6; the closed demand at pH 5.4 is about
//     nine tenths of it.
//   - Check: never below [Supply.AcidDemand] between the endpoint and the water's pH.
//   - Tag: derived
func (s Supply) OpenAcidDemand(quantity.PH) quantity.Charge { return Alkalinity(s.Ions) }

// PHAfter returns the pH of the water after a dose of strong acid.
//
//	U(pH) = dose    solved for pH, dose in mEq/L
//
// How it is known:
//   - Source: derived, inverse of [Supply.AcidDemand] by bisection from pH 1 to 13.
//   - Valid: CO2 kept.
//   - Check: A 2.0, pH 7.8, 20 °C with 1.0 mEq/L: 6.338 (computed).
//   - Tag: derived
func (s Supply) PHAfter(dose quantity.Charge) quantity.PH {
	demand := s.Demand()
	return bisect(1, 13, func(ph quantity.PH) float64 { return float64(demand(ph) - dose) })
}

// bisect finds where a falling function of the pH crosses zero.
func bisect(low, high quantity.PH, falling func(quantity.PH) float64) quantity.PH {
	for range 60 {
		middle := (low + high) / 2
		if falling(middle) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// Blend returns the water with a share of another blended in. Its alkalinity
// is listed as bicarbonate, titrated to the endpoint of the first water, and
// reckoned at the temperature of the first.
//
//	C = (1 − f)·C1 + f·C2, ALK = (1 − f)·ALK1 + f·ALK2    f share of the other by volume
//	C·g(pH) + w(pH) = ALK    solved for pH; all other ions mix by mass
//
// How it is known:
//   - Source: derived, conservation of carbon and of charge.
//   - Valid: closed while blending, nothing precipitates.
//   - Check: half A 4.0, pH 7.2 and half A 1.0, pH 8.2: pH 7.287 (computed).
//   - Tag: derived
func Blend(s Supply, f quantity.Fraction, other Supply) Supply {
	share := float64(f)
	total := (1-share)*s.TotalCarbon() + share*other.TotalCarbon()
	conserved := (1-share)*float64(s.ConservedAlkalinity()) + share*float64(other.ConservedAlkalinity())
	c := s.carbonates()
	blend := s
	blend.PH = bisect(3, 11, func(ph quantity.PH) float64 {
		return conserved - total*c.charge(ph) - c.water(ph)
	})
	blend.Ions = s.Ions.Mix(f, other.Ions)
	end := s.endpoint()
	alkalinity := conserved - total*c.charge(end) - c.water(end)
	if total == 0 {
		alkalinity = 0
	}
	blend.Ions = WithAlkalinity(blend.Ions, quantity.Charge(alkalinity))
	return blend
}
