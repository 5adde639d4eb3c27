// SPDX-License-Identifier: MIT

package panel

import (
	"gyle/quantity"
	"gyle/tasting"
)

// ethanolDensity is the density of ethanol at 20 °C (OIML R 22, from memory:
// 789.24 kg/m³).
const ethanolDensity = 0.78924 // g/mL

// Caution is printed with every figure of alcohol.
const Caution = "This is what is poured, not what anybody's blood holds: it says nothing about being fit to drive. " +
	"Offer water, food and a spittoon; nobody has to give a reason for not tasting. Follow the law of the place on age and service."

// Ethanol returns the alcohol in a volume of beer.
func Ethanol(volume quantity.Volume, abv quantity.Fraction) quantity.Mass {
	return quantity.Grams(volume.Litres() * 1000 * float64(abv) * ethanolDensity)
}

// Poured returns the most alcohol that each assessor is served in all flights of
// an evening, taking every glass for the strongest beer of its flight: a closer
// figure would tell which glass is which. It is not known (false) while the
// sample or an alcohol content is missing.
func Poured(t *tasting.Tasting) (map[string]quantity.Mass, bool) {
	if t.Conditions.Sample == nil {
		return nil, false
	}
	poured := map[string]quantity.Mass{}
	for i := range t.Flights {
		f := &t.Flights[i]
		strongest, known := strongestOf(t, f)
		if !known {
			return nil, false
		}
		for _, s := range f.Serving {
			glasses := len(s.Codes)
			if s.Reference != "" || f.Kind == tasting.ANotA { // the known beer is tasted first
				glasses++
			}
			poured[s.Taster] += Ethanol(*t.Conditions.Sample*quantity.Volume(glasses), strongest)
		}
	}
	return poured, true
}

func strongestOf(t *tasting.Tasting, f *tasting.Flight) (strongest quantity.Fraction, known bool) {
	letters := t.Letters(f)
	for _, letter := range letters {
		for _, b := range t.Beers {
			if b.Letter != letter {
				continue
			}
			if b.ABV == nil {
				return 0, false
			}
			strongest = max(strongest, *b.ABV)
		}
	}
	return strongest, len(letters) > 0
}
