// SPDX-License-Identifier: MIT

package color

import (
	"math"

	"gyle/quantity"
)

// mcuMetric turns kg·°L per litre into lb·°L per US gallon: 8.3454.
const mcuMetric = 3.785411784 / 0.45359237

const (
	moreyFactor   = 1.4922
	moreyExponent = 0.6859
)

// Ranges of malt colour units in which the formulas were meant to be used.
var (
	MoreyValid   = quantity.Span[float64]{Low: 0, High: 165} // SRM below 50
	MosherValid  = quantity.Span[float64]{Low: 7, High: 165}
	DanielsValid = quantity.Span[float64]{Low: 11, High: 165}
)

// MCU returns the malt colour units of a grist whose masses times colours add
// up to kgLovibond, in a volume of wort. Sum before taking MCU on to a beer
// colour: the formulas there are not additive.
//
//	MCU = 8.3454·Σ mᵢ·Lᵢ/V
//
// Units: m in kg, L in °L, V in L (8.3454 L/kg in a US gallon per pound).
//
//   - Source: practice, pounds times °L per US gallon.
//   - Valid: any.
//   - Check: 5 kg of 2 °L, 0.5 of 60 and 0.25 of 450 in 20 L make 63.63.
//   - Tag: computed
func MCU(kgLovibond float64, v quantity.Volume) float64 {
	return mcuMetric * kgLovibond / v.Litres()
}

// MoreySRM returns the beer colour of a grist by Morey. It is the default.
//
//	SRM = 1.4922·MCU^0.6859
//
// It is no measurement: a curve laid through the two straight lines of Mosher
// and Daniels and an assumption for pale beers. Expect 20 % error. Units: MCU
// in lb·°L per US gallon, SRM in °SRM.
//
//   - Source: morey, letter with the origin of the fit.
//   - Valid: SRM below 50.
//   - Check: 10 MCU give 7.24, 100 give 35.13.
//   - Tag: verified
func MoreySRM(mcu float64) float64 {
	return moreyFactor * math.Pow(mcu, moreyExponent)
}

// MCUForSRM returns the malt colour units that make a beer colour: the inverse
// of [MoreySRM].
//
//	MCU = (SRM/1.4922)^(1/0.6859)
//
// Units: MCU in lb·°L per US gallon, SRM in °SRM.
//
//   - Source: morey, formula solved for MCU.
//   - Valid: SRM below 50.
//   - Check: there and back within 1e-10.
//   - Tag: computed
func MCUForSRM(srm float64) float64 {
	return math.Pow(srm/moreyFactor, 1/moreyExponent)
}

// MosherSRM returns the beer colour of a grist by Mosher's line.
//
//	SRM = 0.3·MCU + 4.7
//
// Units: MCU in lb·°L per US gallon, SRM in °SRM.
//
//   - Source: mosher, line quoted in brewing texts.
//   - Valid: above 7 MCU; below, the floor of 4.7 SRM is unphysical.
//   - Check: 50 MCU give 19.7.
//   - Tag: from memory
func MosherSRM(mcu float64) float64 {
	return 0.3*mcu + 4.7
}

// DanielsSRM returns the beer colour of a grist by Daniels' line.
//
//	SRM = 0.2·MCU + 8.4
//
// Units: MCU in lb·°L per US gallon, SRM in °SRM.
//
//   - Source: daniels, line quoted in brewing texts.
//   - Valid: above 11 MCU; below, the floor of 8.4 SRM is unphysical.
//   - Check: 50 MCU give 18.4.
//   - Tag: from memory
func DanielsSRM(mcu float64) float64 {
	return 0.2*mcu + 8.4
}

// EBCFromMCU returns the beer colour of a grist, by [MoreySRM].
func EBCFromMCU(mcu float64) quantity.EBC {
	return quantity.FromSRM(MoreySRM(mcu))
}

// MCUForEBC returns the malt colour units that make a beer colour, by [MCUForSRM].
func MCUForEBC(c quantity.EBC) float64 {
	return MCUForSRM(c.SRM())
}

// Liquid is an amount of finished wort or beer of a colour.
type Liquid struct {
	Volume quantity.Volume
	Color  quantity.EBC
}

// Blend returns the colour of finished liquids poured together. Absorbances
// add, so colours of liquids mix linearly; those of grists do not.
//
//	EBC = Σ Vᵢ·EBCᵢ/Σ Vᵢ
//
// Units: V in L. Water has a colour of 0.
//
//   - Source: derived, Beer's law for clear liquids.
//   - Valid: clear liquids.
//   - Check: equal parts of 10 and 30 EBC give 20.
//   - Tag: derived
func Blend(parts ...Liquid) Liquid {
	var sum Liquid
	for _, part := range parts {
		sum.Volume += part.Volume
		sum.Color += part.Color * quantity.EBC(part.Volume)
	}
	sum.Color /= quantity.EBC(sum.Volume)
	return sum
}

// BoilGain returns the colour that a boil adds at a rate found on one's own
// kettle. Grist formulas already include an average boil: the usual rate is 0.
//
//	ΔEBC = r·t
//
// Laboratory worts gained about 50 % in boiling, about 75 % with excess of
// air, most of it in the first hour; holding them hot does the same. Units: r
// in EBC per hour, t in h.
//
//   - Source: deschutter2008, pseudo zero-order kinetics of heat-load
//     intermediates; the rate is the brewer's own.
//   - Valid: boils of ordinary length.
//   - Check: linear in time.
//   - Tag: estimate
func BoilGain(perHour quantity.EBC, t quantity.Duration) quantity.EBC {
	return perHour * quantity.EBC(t.Hours())
}

// FermentationLoss is the colour that a pale beer loses in fermentation and
// filtration (common practice). It is not applied by default.
var FermentationLoss = quantity.Span[quantity.Fraction]{Low: 0.10, High: 0.20}
