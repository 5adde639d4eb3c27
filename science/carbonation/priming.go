// SPDX-License-Identifier: MIT

package carbonation

import (
	"sort"

	"gyle/quantity"
	"gyle/science/gravity"
)

// Residual returns the CO2 that a beer holds before priming: the equilibrium
// with the air pressure of the place at the warmest temperature it had after
// active fermentation ended. (It holds more if gas was kept in under pressure.)
//
//	C = VolumesDeLange(air, t)
//
// Units: C in volumes, air absolute in bar.
//
//   - Source: delange2009, fit to ASBC Beer-13; coefficients from memory.
//   - Valid: 0 to 27 °C; used up to 40 °C for farmhouse yeasts.
//   - Check: 20 °C at sea level 0.839, at 1500 m 0.699 volumes.
//   - Tag: from memory
func Residual(warmest quantity.Temperature, air quantity.Pressure) quantity.Carbonation {
	return VolumesDeLange(air, warmest)
}

// hibberd is the table of residual CO2: °C and volumes.
var hibberd = [][2]float64{
	{0, 1.7}, {2, 1.6}, {4, 1.5}, {6, 1.4}, {8, 1.3}, {10, 1.2}, {12, 1.12}, {14, 1.05},
	{16, 0.99}, {18, 0.93}, {20, 0.88}, {22, 0.83},
}

// HibberdValid is the range of [ResidualHibberd]; outside, the nearest row stands.
var HibberdValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(0), High: quantity.Celsius(22)}

// ResidualHibberd returns the CO2 before priming by a table in wide use, at sea
// level. It follows the solubility in water and lies up to 0.12 volumes above
// [Residual].
//
//	C from a table in steps of 2 °C, straight lines between
//
// Units: C in volumes.
//
//   - Source: hibberdtable, M. Hibberd's table, reproduced by D. Draper.
//   - Valid: 0 to 22 °C; outside, the value of the nearest row.
//   - Check: 10 °C 1.2, 20 °C 0.88 volumes.
//   - Tag: verified
func ResidualHibberd(warmest quantity.Temperature) quantity.Carbonation {
	celsius := warmest.Celsius()
	next := sort.Search(len(hibberd), func(i int) bool { return hibberd[i][0] >= celsius })
	if next == 0 {
		return quantity.Carbonation(hibberd[0][1])
	}
	if next == len(hibberd) {
		return quantity.Carbonation(hibberd[next-1][1])
	}
	below, above := hibberd[next-1], hibberd[next]
	share := (celsius - below[0]) / (above[0] - below[0])
	return quantity.Carbonation(below[1] + share*(above[1]-below[1]))
}

// HallValid is the range of [ResidualHall]. Its minimum lies at 34.6 °C; above
// 25 °C it must not be used, for it says that warmer beer holds more gas.
var HallValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(0), High: quantity.Celsius(25)}

// ResidualHall returns the CO2 before priming by Hall's quadratic, at sea level.
//
//	C = 3.0378 − 0.050062·F + 0.00026555·F²
//
// Units: C in volumes, F in °F.
//
//   - Source: hall1995, from memory.
//   - Valid: 0 to 25 °C, see [HallValid]; at 40 °C it gives 0.70 instead of 0.51.
//   - Check: 20 °C 0.861, 4 °C 1.483 volumes.
//   - Tag: from memory
func ResidualHall(warmest quantity.Temperature) quantity.Carbonation {
	f := warmest.Fahrenheit()
	return quantity.Carbonation(3.0378 - 0.050062*f + 0.00026555*f*f)
}

// GasYield is the CO2 that a gram of sugar gives, in g/g.
type GasYield float64

// The gas yields of priming sugars. The pure ones follow from their molar
// masses; the others are common practice and depend on the product.
const (
	YieldSucrose            GasYield = 0.5143 // 4·44.01/342.30
	YieldGlucoseMonohydrate GasYield = 0.4442 // 2·44.01/198.17
	YieldGlucose            GasYield = 0.4886 // 2·44.01/180.16
	YieldMaltose            GasYield = 0.5143 // anhydrous, as sucrose
	YieldMaltoseMonohydrate GasYield = 0.4886 // 4·44.01/360.31
	YieldDryMaltExtract     GasYield = 0.30   // band 0.29 to 0.31 (practice)
	YieldHoney              GasYield = 0.40   // (practice)
	YieldExtract            GasYield = 0.4629 // per g of real extract fermented, 0.9565/2.0665 (Balling)
)

// GrowthEfficiency is the share of the theoretical gas that is left when the
// yeast grows on the priming sugar; multiply a yield by it to allow for growth
// (practice).
const GrowthEfficiency = 0.95

// PrimingSugar returns the sugar that lifts a beer from its residual CO2 to the
// target. It is negative when the beer already holds more.
//
//	m = (target − residual)·1.977·V/y
//
// Units: m in g (returned as a mass), target and residual in volumes, V in L, y in g/g.
//
//   - Source: derived, balance of CO2; yields from molar masses.
//   - Valid: beers fermented to their end; see ferment.JudgeTerminal.
//   - Check: 20 L from 0.86 to 2.4 volumes want 118.4 g of sucrose.
//   - Tag: derived
func PrimingSugar(target, residual quantity.Carbonation, v quantity.Volume, y GasYield) quantity.Mass {
	return quantity.Grams((target - residual).GramsPerLitre() * v.Litres() / float64(y))
}

// PrimingAlcohol returns the alcohol by volume that a priming dose adds.
//
//	ΔABV = 0.5·d/7.8924    ΔABV in % by volume, d in g/L of sugar
//
// Half of the sugar becomes ethanol of 789.24 g/L.
//
//   - Source: derived, rounded yield of alcohol.
//   - Valid: fermentable sugars.
//   - Check: 5 g/L add 0.32 %.
//   - Tag: derived
func PrimingAlcohol(dose quantity.Dose) quantity.Fraction {
	return quantity.Percent(0.5 * float64(dose) / 7.8924)
}

// PrimingRise returns by how much a priming dose lifts the gravity before it
// ferments.
//
//	ΔSG = 0.00039·d
//
// Units: d in g/L of sugar.
//
//   - Source: derived, slope of the sucrose table near water.
//   - Valid: up to 20 g/L.
//   - Check: 5 g/L add 0.002.
//   - Tag: derived
func PrimingRise(dose quantity.Dose) quantity.SG {
	return quantity.SG(0.00039 * float64(dose))
}

// Rules of thumb for gas from extract that is still to ferment, near a final
// extract of 3 °P (computed from [FromExtract]).
const (
	VolumesPerPlatoApparent = 1.95 // volumes per °P of apparent extract
	VolumesPerPlatoReal     = 2.4  // volumes per °P of real extract
	VolumesPerSGPoint       = 0.49 // volumes per 0.001 SG
)

// FromExtract returns the CO2 that a beer makes from its own extract on the way
// from one gravity to a lower one: by closing the tank early, or in a bottle
// that was filled too soon.
//
//	C = 0.4629·0.8192·(AE1 − AE2)/100·ρ/1.977
//
// Units: C in volumes, AE in °P, ρ of the beer in g/L (SG·998.2), 0.4629 g CO2
// per g of real extract, 0.8192 °P real per °P apparent.
//
//   - Source: balling, balance of masses and factor of real extract.
//   - Valid: the last 3 °P of a fermentation, all gas kept.
//   - Check: 0.001 SG near 3 °P gives 0.49 volumes, 0.005 gives 2.47.
//   - Tag: computed
func FromExtract(from, to quantity.SG) quantity.Carbonation {
	realFall := 0.8192 * float64(gravity.PlatoFromSG(from)-gravity.PlatoFromSG(to))
	gramsPerLitre := float64(YieldExtract) * realFall / 100 * 1000 * gravity.WortMass(1, from).Kilograms()
	return quantity.CarbonationGrams(gramsPerLitre)
}

// CloseTankAt returns the gravity at which to close the tank so that the rest
// of the fermentation brings a beer from its residual CO2 to the target. The
// vessel must bear [PressureFor] the target at its warmest.
//
//	SG = FG + 0.001·(target − residual)/0.49
//
// Units: target and residual in volumes.
//
//   - Source: derived, from the rule of 0.49 volumes per 0.001 SG.
//   - Valid: beers near 3 °P at the end; the end must be known.
//   - Check: 1.010 and 1.48 volumes to add: 1.013.
//   - Tag: derived
func CloseTankAt(final quantity.SG, target, residual quantity.Carbonation) quantity.SG {
	return final + quantity.SG(0.001*float64(target-residual)/VolumesPerSGPoint)
}
