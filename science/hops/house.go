// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

// HousePrior is what is known of the factor of a brewhouse without measured
// bitterness: about 1, with a standard deviation of 0.25 of its logarithm.
var HousePrior = quantity.Estimate{Value: 1, SD: UncalibratedSpread}

// RatioSpread is the relative standard deviation of one measured bitterness
// against the prediction: recipe and alpha acids 0.10, laboratory 0.07.
const RatioSpread = 0.12

// HouseFactor returns the factor K of a brewhouse, from a prior and the ratios
// of measured to predicted (K = 1) bitterness. Each SD is that of the
// logarithm. Use beers without dry hops that owe three quarters of their
// bitterness to the boil, and measure the beer, not the wort: in wort the
// method counts dissolved alpha acids too.
//
//	ln K = (ln K0/s0² + Σ ln r/s²) / (1/s0² + Σ 1/s²)    SD = (1/s0² + Σ 1/s²)^−½
//
// Units: none; SD and s are those of logarithms.
//
//   - Source: derived, product of normal distributions of the logarithm.
//   - Valid: any number of ratios above zero; a ratio without SD gets [RatioSpread].
//   - Check: ratio 0.82: K 0.851, SD 0.108; with 0.90 and 0.76: K 0.836, SD 0.067.
//   - Tag: computed
func HouseFactor(prior quantity.Estimate, ratios []quantity.Estimate) quantity.Estimate {
	weight := 1 / (prior.SD * prior.SD)
	sum := weight * math.Log(prior.Value)
	for _, r := range ratios {
		sd := r.SD
		if sd == 0 {
			sd = RatioSpread
		}
		weight += 1 / (sd * sd)
		sum += math.Log(r.Value) / (sd * sd)
	}
	return quantity.Estimate{Value: math.Exp(sum / weight), SD: 1 / math.Sqrt(weight)}
}

// AfterChange returns the estimate of a house factor after a change of kettle,
// form of hops, family of yeast or filtration: the same with less certainty.
//
//	SD' = √(SD² + 0.12²)
//
// Units: none.
//
//   - Source: practice, a change counts like the scatter of one beer.
//   - Valid: per change.
//   - Check: 0.067 becomes 0.137.
//   - Tag: estimate
func AfterChange(k quantity.Estimate) quantity.Estimate {
	k.SD = math.Hypot(k.SD, RatioSpread)
	return k
}
