// SPDX-License-Identifier: MIT

package mash

import (
	"math"

	"gyle/quantity"
)

// The customary apparent absorption of grain by kind of lautering: water in
// less wort out, in L per kg of grain. Tag: common practice.
var (
	FalseBottomAbsorption  = quantity.Span[quantity.Ratio]{Low: 0.90, High: 1.05}
	LauterTunAbsorption    = quantity.Span[quantity.Ratio]{Low: 0.60, High: 0.80}
	DrainedBagAbsorption   = quantity.Span[quantity.Ratio]{Low: 0.70, High: 0.85}
	SqueezedBagAbsorption  = quantity.Span[quantity.Ratio]{Low: 0.40, High: 0.60}
	SingleVesselAbsorption = quantity.Span[quantity.Ratio]{Low: 0.80, High: 0.95}
	MashFilterAbsorption   = quantity.Span[quantity.Ratio]{Low: 0.30, High: 0.45}
)

// Retention returns the wort that the grain holds back, which is more than its
// apparent absorption: the grain brings its own water and extract.
//
//	r = a + w + η·E·0.617
//
// Units: r, a and w in L per kg of grain, E and η in shares.
//
//   - Source: derived, volume balance.
//   - Valid: drained grain.
//   - Check: a 1.0, w 0.04, E 0.768: 1.514 L/kg.
//   - Tag: computed
func Retention(absorption quantity.Ratio, moisture, extract, conversion quantity.Fraction) quantity.Ratio {
	return absorption + quantity.Ratio(moisture) + quantity.Ratio(extract*conversion)*ExtractVolume
}

// Absorption returns the apparent absorption that belongs to a retention: the
// inverse of [Retention].
//
//	a = r − w − η·E·0.617
//
// Units: r, a and w in L per kg of grain, E and η in shares.
//
//   - Source: derived, volume balance.
//   - Valid: drained grain.
//   - Check: gives back the 1.0 L/kg of Retention.
//   - Tag: computed
func Absorption(retention quantity.Ratio, moisture, extract, conversion quantity.Fraction) quantity.Ratio {
	return retention - quantity.Ratio(moisture) - quantity.Ratio(extract*conversion)*ExtractVolume
}

// SpentGrainLiquid returns the liquid in spent grain of a known content of
// water: a check of [Retention] by weighing and drying a sample.
//
//	l = d·x/(1 − x)
//
// Units: l in kg per kg of grain, d (dry matter left of a kg of grain) in kg/kg,
// x in shares of the wet mass.
//
//   - Source: derived, balance of mass; briggs2004, second-hand, for d of 0.17 to 0.22.
//   - Valid: x above 0.8 mash tuns, about 0.75 lauter tuns, about 0.65 mash filters (farber2019, second-hand).
//   - Check: d 0.20: 0.60, 0.80, 1.13 and 1.47 kg/kg at 75, 80, 85 and 88 % of water.
//   - Tag: derived
func SpentGrainLiquid(dry, water quantity.Fraction) quantity.Ratio {
	return quantity.Ratio(dry * water / (1 - water))
}

// MashLiquid returns all the liquid in the mash: liquor, the grain's own water
// and the volume of the dissolved extract.
//
//	L0 = V + m·(w + η·E·0.617)
//
// Units: L0 and V in L, m in kg, w in L per kg of grain, E and η in shares.
//
//   - Source: derived, volume balance.
//   - Valid: volumes at 20 °C.
//   - Check: 17.5 L on 5 kg, E 0.768, w 0.04: 20.069 L.
//   - Tag: computed
func MashLiquid(liquor quantity.Volume, grain quantity.Mass, moisture, extract, conversion quantity.Fraction) quantity.Volume {
	return liquor + quantity.Volume(float64(grain)*(float64(moisture)+float64(extract*conversion)*float64(ExtractVolume)))
}

// HeldBack returns the wort that stays in the lauter vessel.
//
//	Rt = r·m + dead
//
// Units: Rt and dead in L, r in L/kg, m in kg.
//
//   - Source: derived, volume balance.
//   - Valid: drained grain; dead is what the vessel can't drain.
//   - Check: 1.4139 L/kg on 5 kg: 7.069 L.
//   - Tag: derived
func HeldBack(retention quantity.Ratio, grain quantity.Mass, dead quantity.Volume) quantity.Volume {
	return quantity.Volume(float64(retention)*float64(grain)) + dead
}

// KettleVolume returns the wort before the boil.
//
//	V = V(all liquor) − a·m − dead
//
// Units: V and dead in L at 20 °C, a in L/kg, m in kg.
//
//   - Source: derived, volume balance.
//   - Valid: a: apparent absorption.
//   - Check: 17.5 + 12 L on 5 kg at 0.9 L/kg: 25.0 L.
//   - Tag: derived
func KettleVolume(liquor quantity.Volume, absorption quantity.Ratio, grain quantity.Mass, dead quantity.Volume) quantity.Volume {
	return liquor - quantity.Volume(float64(absorption)*float64(grain)) - dead
}

// NoSparge returns the lauter efficiency without sparging.
//
//	η = 1 − Rt/L0
//
// Units: Rt and L0 in L.
//
//   - Source: derived, ideal mixing.
//   - Valid: held-back wort as strong as that which runs off.
//   - Check: 7.069 of 20.069 L: 0.6478.
//   - Tag: computed
func NoSparge(liquid, heldBack quantity.Volume) quantity.Fraction {
	return BatchSparge(liquid, heldBack)
}

// BatchSparge returns the lauter efficiency with batches of sparge liquor after
// the first wort has run off, each stirred in and run off again.
//
//	η = 1 − Rt/L0 · Π Rt/(Rt + s)
//
// Units: Rt, L0 and each s in L.
//
//   - Source: derived, ideal mixing.
//   - Valid: batches stirred well; real beds fall short by a few points.
//   - Check: 18 L with 6 L held back, batches of 8 and 7 L: 0.9341.
//   - Tag: computed
func BatchSparge(liquid, heldBack quantity.Volume, batches ...quantity.Volume) quantity.Fraction {
	left := float64(heldBack / liquid)
	for _, batch := range batches {
		left *= float64(heldBack / (heldBack + batch))
	}
	return quantity.Fraction(1 - left)
}

// EqualRunoffs returns the lauter efficiency of n run-offs of equal volume,
// the best that batches can do.
//
//	η = 1 − [Rt/(Rt + V/n)]^n
//
// Units: Rt and V (wort in the kettle) in L.
//
//   - Source: derived, ideal mixing.
//   - Valid: n of 1 and more; it tends to 1 − exp(−V/Rt).
//   - Check: 27 L, 7.5 L held back, n 2: 0.8724.
//   - Tag: computed
func EqualRunoffs(wort, heldBack quantity.Volume, n int) quantity.Fraction {
	each := wort / quantity.Volume(n)
	return quantity.Fraction(1 - math.Pow(float64(heldBack/(heldBack+each)), float64(n)))
}

// SpargeLayers is the customary number of mixed layers of a sparged bed;
// channels make it fewer. Tag: estimate.
const SpargeLayers = 2

// FlyEfficiency is what real sparged beds reach. Tag: common practice.
var FlyEfficiency = quantity.Span[quantity.Fraction]{Low: 0.88, High: 0.96}

// FlySparge returns the lauter efficiency of continuous sparging after the
// first wort has run off. The bed is taken as a row of mixed layers: one is a
// stirred vessel, very many are plug flow.
//
//	η = 1 − (Rt/L0)·(1/N)·Σ(j=1..N) Σ(i<j) e^(−x)·x^i/i!
//
// Units: Rt, L0 and s (sparge liquor) in L; x = N·s/Rt and N without unit.
//
//   - Source: derived, tanks in series.
//   - Valid: N 1..200; an even bed.
//   - Check: L0 20, Rt 7.5, sparge 14.5 L: 0.9458 for N 1, 0.9770 for N 2.
//   - Tag: computed
func FlySparge(liquid, heldBack, sparge quantity.Volume, layers int) quantity.Fraction {
	x := float64(layers) * float64(sparge/heldBack)
	term := math.Exp(-x)
	upstream, left := 0.0, 0.0
	for i := range layers {
		upstream += term
		left += upstream
		term *= x / float64(i+1)
	}
	return quantity.Fraction(1 - float64(heldBack/liquid)*left/float64(layers))
}

// MashEfficiency returns the share of the grist's extract that reaches the
// kettle.
//
//	η = η(conversion)·η(lauter)
//
// Units: shares, 0 to 1.
//
//   - Source: practice, definition.
//   - Valid: always.
//   - Check: 0.95 and 0.87: 0.8265, computed from the formula.
//   - Tag: derived
func MashEfficiency(conversion, lauter quantity.Fraction) quantity.Fraction {
	return conversion * lauter
}
