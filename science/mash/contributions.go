// SPDX-License-Identifier: MIT

package mash

import (
	"math"

	"gyle/quantity"
)

// Source says where protons come from or go to.
type Source int

// The sources of protons in a mash.
const (
	FromMalt Source = iota
	FromCalcium
	FromMagnesium
	FromAlkalinity
	FromAcid
	FromBicarbonate
	FromChalk
	FromLime
)

// Contribution is what one part of the mash releases at the pH of the mash.
type Contribution struct {
	Source  Source
	Index   int     // of the malt or the acid in the balance
	Protons float64 // mEq; negative: takes up
}

// Contributions returns what each part of the mash releases or takes up at a
// pH. At the pH of the mash they add up to zero. Salts that were not added are
// left out; malts and acids come in the order of the balance.
//
//	the terms of PH, one by one, in mEq
//
// Units: mEq in the whole mash.
//
//   - Source: delange2015, abstract, for the proton condition; its terms are derived.
//   - Valid: as PH.
//   - Check: 5 kg of Pilsner malt with hard water: malt +6.988, Ca and Mg +19.461, alkalinity −26.449 mEq.
//   - Tag: derived
func Contributions(b Balance, ph quantity.PH) []Contribution {
	b.setDefaults()
	at := float64(ph)
	var all []Contribution
	for i := range b.Malts {
		all = append(all, Contribution{FromMalt, i, b.Malts[i].protons(at)})
	}
	calcium, magnesium := b, b
	calcium.Liquor.Magnesium, magnesium.Liquor.Calcium = 0, 0
	all = append(all,
		Contribution{FromCalcium, 0, calcium.hardness()},
		Contribution{FromMagnesium, 0, magnesium.hardness()},
		Contribution{FromAlkalinity, 0, -b.alkalinity(at)})
	for i, acid := range b.Acids {
		all = append(all, Contribution{FromAcid, i, acid.Volume * acid.PerML(ph)})
	}
	bicarbonate, chalk, lime := b, b, b
	bicarbonate.Chalk, bicarbonate.Lime = 0, 0
	chalk.Bicarbonate, chalk.Lime = 0, 0
	lime.Bicarbonate, lime.Chalk = 0, 0
	for _, salt := range []struct {
		source Source
		alone  Balance
	}{{FromBicarbonate, bicarbonate}, {FromChalk, chalk}, {FromLime, lime}} {
		if taken := salt.alone.salts(at); taken != 0 {
			all = append(all, Contribution{salt.source, 0, -taken})
		}
	}
	return all
}

// Rail is the mash pH as one thing after the other goes in.
type Rail struct {
	Distilled quantity.PH // the early grist alone in distilled water
	Water     quantity.PH // with the liquor before its salts
	Salts     quantity.PH // with salts in liquor and mash
	Acid      quantity.PH // with the acids: the pH of the mash
	Late      quantity.PH // with the late grain, fully released
}

// Steps returns the mash pH as water, salts, acids and late grain go in.
// untreated is the liquor before salts were added to it; its volume counts as
// that of the mash liquor.
//
//	each the root of PH with the parts so far
//
// Units: pH of a cooled sample.
//
//   - Source: delange2015, abstract, for the proton condition; its terms are derived.
//   - Valid: as PH.
//   - Check: the last but one equals PH(b).
//   - Tag: derived
func Steps(b Balance, untreated Liquor, late []Malt) Rail {
	b.setDefaults()
	var rail Rail
	now := Balance{Malts: b.Malts, Liquor: Liquor{Volume: b.Liquor.Volume}, Parameters: b.Parameters}
	rail.Distilled = PH(now)
	now.Liquor = untreated
	now.Liquor.Volume = b.Liquor.Volume
	rail.Water = PH(now)
	now = b
	now.Acids = nil
	rail.Salts = PH(now)
	rail.Acid = PH(b)
	rail.Late = PH(withLate(b, late, 1))
	return rail
}

// LateStage is the mash pH around an addition of late grain.
type LateStage struct{ Early, Now, After quantity.PH }

// Staged returns the mash pH before late grain goes in, with a share of its
// acidity released, and in the end. Grain that is steeped cold does not belong
// here nor among the malts: it bypasses the mash and lowers the pH in the
// kettle instead.
//
//	0 = F(early grist) + f·Σ late terms
//
// Units: terms of PH in mEq; f is a share, 0 to 1.
//
//   - Source: derived, from the balance of PH.
//   - Valid: as PH.
//   - Check: the stout of the tests falls from 5.863 to 5.781 with its roast, 5.821 at one half.
//   - Tag: derived
func Staged(b Balance, late []Malt, released quantity.Fraction) LateStage {
	return LateStage{
		Early: PH(b),
		Now:   PH(withLate(b, late, released)),
		After: PH(withLate(b, late, 1)),
	}
}

// withLate returns the balance with a share of the late malts in it.
func withLate(b Balance, late []Malt, share quantity.Fraction) Balance {
	malts := append([]Malt(nil), b.Malts...)
	for _, malt := range late {
		malt.Mass *= quantity.Mass(share)
		malts = append(malts, malt)
	}
	b.Malts = malts
	return b
}

// LateReleaseTime is the time constant with which finely crushed late grain
// gives off its acidity at 65 °C and above. Tag: estimate.
const LateReleaseTime quantity.Duration = 5

// Released returns the share of a late grain's acidity in the mash some time
// after it went in.
//
//	f = 1 − exp(−t/τ)
//
// Units: t and τ in min.
//
//   - Source: derived: a first-order release is assumed, without a published source. τ is LateReleaseTime for a fine crush.
//   - Valid: 65..77 °C, fine crush.
//   - Check: 0.632 at t = τ, by definition.
//   - Tag: estimate
func Released(t, tau quantity.Duration) quantity.Fraction {
	return quantity.Fraction(1 - math.Exp(-float64(t/tau)))
}
