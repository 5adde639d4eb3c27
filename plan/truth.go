// SPDX-License-Identifier: MIT

package plan

import (
	"gyle/quantity"
	chem "gyle/science/water"
)

// Truth says how one brewing differs from what its plan takes for granted: the
// lot that holds less extract than its analysis says, the house that yields
// more, the formula that is off. A ratio is what is true over what the plan
// takes; a difference is added to what the plan takes. [Brewday.Truth] makes
// one in which nothing differs.
type Truth struct {
	Malts []MaltTruth // by use of a lot, in the order of [Brewday.Malts]
	Hops  []HopTruth  // by charge

	Yield         float64 // ratio, of the extract that reaches the kettle
	Absorption    float64 // ratio, of what the goods hold back
	Liquor        float64 // ratio, of all volumes of liquor
	Evaporation   float64 // ratio
	KettleLoss    float64 // ratio
	FermenterLoss float64 // ratio

	BoilsAt     quantity.Warming // difference, of the boiling kettle
	Thermometer quantity.Warming // difference, true less shown
	Coolant     quantity.Warming // difference, of the cooling water
	Tau         float64          // ratio, of the time constant of the cooler
	Cools       float64          // ratio, of the time constant of the kettle left alone

	Isomerisation float64 // ratio, of its rate
	Degradation   float64 // ratio, of the rate at which iso-alpha acids break down
	Activation    float64 // difference, kJ/mol: of the energy of isomerisation
	Bitterness    float64 // ratio, of the bitterness that the house makes of iso-alpha acids

	Color     float64 // ratio, of beer to formula
	LateColor float64 // ratio, of the colour of grain that comes late or is steeped cold

	Base   [chem.IonCount]float64 // ratios, of the ions of the supply
	Salts  float64                // ratio, of all salts
	Acid   float64                // ratio, of the acid in the mash
	MashPH quantity.PH            // difference, of what is measured and predicted

	Attenuation quantity.Fraction // difference, apparent
	Alcohol     quantity.Fraction // difference, of beer and formula

	Warmest quantity.Warming       // difference, of the beer before it is packed
	Priming float64                // ratio, of the gas that the priming sugar gives
	Gauge   quantity.GaugePressure // difference, true less shown, on a keg
	Keg     quantity.Warming       // difference, of the keg's temperature
}

// MaltTruth is how a use of a lot of malt differs: ratios.
type MaltTruth struct{ Mass, Extract, Color float64 }

// HopTruth is how a charge of hops differs: ratios.
type HopTruth struct{ Mass, Alpha float64 }

// Truth returns what the plan takes for true: no ratio but 1, no difference.
func (d *Brewday) Truth() *Truth {
	t := &Truth{
		Malts: make([]MaltTruth, len(d.Malts)), Hops: make([]HopTruth, len(d.Hops)),
		Yield: 1, Absorption: 1, Liquor: 1, Evaporation: 1, KettleLoss: 1, FermenterLoss: 1, Tau: 1, Cools: 1,
		Isomerisation: 1, Degradation: 1, Bitterness: 1, Color: 1, LateColor: 1, Salts: 1, Acid: 1, Priming: 1,
	}
	for i := range t.Malts {
		t.Malts[i] = MaltTruth{1, 1, 1}
	}
	for i := range t.Hops {
		t.Hops[i] = HopTruth{1, 1}
	}
	for i := range t.Base {
		t.Base[i] = 1
	}
	return t
}
