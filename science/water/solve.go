// SPDX-License-Identifier: MIT

package water

import (
	"fmt"
	"math"

	"gyle/quantity"
)

// Aims are the concentrations aimed for, in mg/L. Ions that aren't listed are
// free. An aim for bicarbonate is an aim for alkalinity.
type Aims map[Ion]float64

// A Miss is an aim that the salts couldn't meet.
type Miss struct {
	Ion      Ion
	Aim, Got float64 // mg/L
	Reason   string
}

// A SaltPlan is what to weigh, and what it makes.
type SaltPlan struct {
	Base      Ions
	Volume    quantity.Volume
	Aims      Aims
	Allowed   []Salt
	Additions []Addition // one per salt that is used, in the order allowed
	Ions      Ions       // the liquor after the additions
	Misses    []Miss     // in the order of the ions
	// Dilution is the share of distilled water that would bring down every ion
	// that is above its aim before salts; 0 when none is. Solve again with
	// base.Mix(Dilution, Ions{}).
	Dilution quantity.Fraction
}

// aimFloor is the smallest aim in mg/L that misses are measured against, so
// that an aim of zero doesn't outweigh all others.
const aimFloor = 20.0

// saltPrice is the price of 1 g/L of salt in squared relative misses. It makes
// the solver leave out salts that gain next to nothing.
const saltPrice = 1e-4

// SolveSalts finds the masses of the allowed salts that bring the base closest
// to the aims.
//
//	minimise Σ ½ ((c − aim)/max(aim, 20))² + 10⁻⁴ · Σ x    x ≥ 0 in g/L, c, aim in mg/L
//	with c = base + Σ x · gives
//
// A salt stays below its dose cap and 2 g/L. The masses are exact; weigh
// [SaltPlan.Rounded].
//
//   - Source: lawson1974, chapter 23 (algorithm NNLS, on the normal equations).
//   - Valid: volume above 0. Aims for single ions only; the balance of charge is
//     the salts' own.
//   - Check: agrees with the best of all subsets of salts solved one by one
//     (testdata/salts.py).
//   - Tag: from memory
func SolveSalts(base Ions, volume quantity.Volume, aims Aims, allowed []Salt) SaltPlan {
	plan := SaltPlan{Base: base, Volume: volume, Aims: aims, Allowed: allowed}
	doses := cappedDoses(base, aims, allowed)
	for n, s := range allowed {
		if doses[n] > 0 {
			mass := quantity.Grams(doses[n] * volume.Litres())
			plan.Additions = append(plan.Additions, Addition{s, mass})
		}
	}
	plan.finish()
	return plan
}

// Rounded returns the plan with every mass rounded to a step of the scale, and
// what that makes.
func (p SaltPlan) Rounded(step quantity.Mass) SaltPlan {
	additions := p.Additions
	p.Additions = nil
	for _, a := range additions {
		a.Mass = quantity.Mass(math.Round(float64(a.Mass/step))) * step
		if a.Mass > 0 {
			p.Additions = append(p.Additions, a)
		}
	}
	p.finish()
	return p
}

// finish works out the ions, the misses and the dilution.
func (p *SaltPlan) finish() {
	p.Ions = AddSalts(p.Base, p.Volume, p.Additions)
	p.Misses, p.Dilution = nil, 0
	for _, ion := range AllIons() {
		aim, aimed := p.Aims[ion]
		if !aimed {
			continue
		}
		got, start := Amount(p.Ions, ion), Amount(p.Base, ion)
		allowance := max(2, 0.03*aim)
		if start > aim+allowance {
			p.Dilution = max(p.Dilution, quantity.Fraction(1-aim/start))
		}
		if math.Abs(got-aim) > allowance {
			p.Misses = append(p.Misses, Miss{ion, aim, got, p.reason(ion, start, got, aim)})
		}
	}
}

func (p *SaltPlan) reason(ion Ion, start, got, aim float64) string {
	switch {
	case start > aim && ion == Bicarbonate:
		return fmt.Sprintf("the water has %.0f mg/L already: dilute %.0f %% with distilled water, or neutralise with acid", start, 100*(1-aim/start))
	case start > aim:
		return fmt.Sprintf("the water has %.0f mg/L already: dilute %.0f %% with distilled water", start, 100*(1-aim/start))
	case got < aim && !p.given(ion):
		return "no allowed salt gives it"
	case got < aim:
		return "more of it would push another ion further from its aim, or past a cap"
	}
	return "it comes along with another ion that is aimed for"
}

func (p *SaltPlan) given(ion Ion) bool {
	for _, s := range p.Allowed {
		if Amount(s.Gives, ion) > 0 {
			return true
		}
	}
	return false
}

// Amount is what an aim for the ion is compared with: for bicarbonate the whole
// alkalinity, as bicarbonate.
func Amount(i Ions, ion Ion) float64 {
	if ion == Bicarbonate {
		return float64(Alkalinity(i)) * massBicarbonate
	}
	return i[ion]
}

// cappedDoses solves for doses in g/L. A dose above its cap is fixed there and
// the others are solved again, at most once per salt.
func cappedDoses(base Ions, aims Aims, allowed []Salt) []float64 {
	doses := make([]float64, len(allowed))
	fixed := make([]bool, len(allowed))
	for range len(allowed) + 1 {
		rest := base
		for n, s := range allowed {
			if fixed[n] {
				rest = rest.Plus(s.PerGram().Scaled(doses[n]))
			}
		}
		free := solveFree(rest, aims, allowed, fixed)
		over := false
		for n, s := range allowed {
			if fixed[n] {
				continue
			}
			doses[n] = free[n]
			if limit := doseLimit(s); doses[n] > limit {
				doses[n], fixed[n], over = limit, true, true
			}
		}
		if !over {
			break
		}
	}
	return doses
}

func doseLimit(s Salt) float64 {
	if s.DoseCap > 0 {
		return float64(min(s.DoseCap, SaltDoseCap))
	}
	return float64(SaltDoseCap)
}

// solveFree sets up the normal equations of the salts that aren't fixed.
func solveFree(base Ions, aims Aims, allowed []Salt, fixed []bool) []float64 {
	n := len(allowed)
	gram, target := make([][]float64, n), make([]float64, n)
	for row := range gram {
		gram[row] = make([]float64, n)
		target[row] = -saltPrice
	}
	for _, ion := range AllIons() {
		aim, aimed := aims[ion]
		if !aimed {
			continue
		}
		scale := max(aim, aimFloor)
		for row := range n {
			a := Amount(allowed[row].PerGram(), ion) / scale
			if fixed[row] {
				a = 0
			}
			target[row] += a * (aim - Amount(base, ion)) / scale
			for column := range n {
				if !fixed[column] {
					gram[row][column] += a * Amount(allowed[column].PerGram(), ion) / scale
				}
			}
		}
	}
	return nonNegative(gram, target)
}
