// SPDX-License-Identifier: MIT

package water

import (
	"math"

	"gyle/quantity"
)

// SoftShare seeks the share of soft water, in hundredths up to most, whose
// salts come nearest to the aims: hundredths are what a brewer measures, and few
// enough to try them all. A share that gains next to nothing isn't worth a
// bucket of water.
func SoftShare(base Ions, volume quantity.Volume, aims Aims, allowed []Salt, most quantity.Fraction) (best quantity.Fraction) {
	const gain = 1e-4
	least := math.Inf(1)
	for percent := 0; percent <= int(math.Floor(100*float64(most)+1e-9)); percent++ {
		share := quantity.Fraction(float64(percent) / 100)
		misfit := SolveSalts(base.Mix(share, Ions{}), volume, aims, allowed).Misfit()
		if misfit < least-gain {
			best, least = share, misfit
		}
	}
	return best
}

// Stepped returns the plan in whole steps of the scale that come closest to
// the aims. Rounding each mass by itself can miss that: half a step too much
// calcium chloride is made good by half a step less of gypsum.
//
//	minimise Σ ((c − aim)/max(aim, 20))²    over each mass rounded down or up
//
// How it is known:
//   - Source: derived; all 2ⁿ roundings of the n salts are tried.
//   - Valid: step above 0; the caps of doses hold.
//   - Check: never farther from the aims than Rounded, on random waters.
//   - Tag: derived
func (p SaltPlan) Stepped(step quantity.Mass) SaltPlan {
	best := p.Rounded(step)
	least := best.misfit()
	for choice := range 1 << len(p.Additions) {
		trial := p
		trial.Additions = nil
		for n, a := range p.Additions {
			steps := math.Floor(float64(a.Mass / step))
			if choice>>n&1 == 1 {
				steps++
			}
			a.Mass = quantity.Mass(steps) * step
			if a.Mass.Grams() > doseLimit(a.Salt)*p.Volume.Litres() {
				continue
			}
			if a.Mass > 0 {
				trial.Additions = append(trial.Additions, a)
			}
		}
		trial.Ions = AddSalts(trial.Base, trial.Volume, trial.Additions)
		if m := trial.misfit(); m < least-1e-12 {
			best, least = trial, m
		}
	}
	best.finish()
	return best
}

// Misfit returns how far the liquor is from its aims: the root of the mean
// square of the relative misses.
//
//	√(Σ ((c − aim)/max(aim, 20))²/n)
//
// How it is known:
//   - Source: derived, the sum that SolveSalts makes small.
//   - Valid: at least one aim; 0 without any.
//   - Check: aims met exactly give 0; one aim of 100 met by 90 gives 0.1.
//   - Tag: derived
func (p SaltPlan) Misfit() float64 {
	if len(p.Aims) == 0 {
		return 0
	}
	return math.Sqrt(p.misfit() / float64(len(p.Aims)))
}

func (p SaltPlan) misfit() (sum float64) {
	for _, ion := range AllIons() {
		if aim, aimed := p.Aims[ion]; aimed {
			miss := (Amount(p.Ions, ion) - aim) / max(aim, aimFloor)
			sum += miss * miss
		}
	}
	return sum
}
