// SPDX-License-Identifier: MIT

package mash

import (
	"math"

	"gyle/quantity"
)

// ExpectedPHError is the standard deviation of a predicted mash pH when the
// malts are known by class, and when their lots were measured. Tag: estimate.
const (
	ExpectedPHError         quantity.PH = 0.10
	ExpectedPHErrorMeasured quantity.PH = 0.05
)

// TargetPH and TolerablePH are the bands of the cooled mash pH that brewers aim
// for and put up with; AimPH is the aim where none is given. Common practice;
// the optima collected in briggs2004, table 4.9 (second-hand) lie within.
var (
	TargetPH    = quantity.Span[quantity.PH]{Low: 5.3, High: 5.6}
	TolerablePH = quantity.Span[quantity.PH]{Low: 5.2, High: 5.8}
)

// AimPH is the mash pH to aim for where none is given. Tag: common practice.
const AimPH quantity.PH = 5.40

// PH returns the cooled pH of the mash: the pH at which the protons released
// and taken up by all its parts cancel. It is NaN when nothing in the balance
// has a pH of its own.
//
//	0 = Σ base  m·[B·x + A2·x² + A3·x³]            x = pH − pHDI
//	  + Σ spec  m·[A57 + B·(pH − 5.7)]
//	  + Σ acid  mL · mEq/mL(pH)
//	  + φ·V·(Ca/(20.039·kCa) + Mg/(12.1525·kMg))
//	  − η·V·U(pH)
//	  − n(NaHCO3)·(1 − g) − eff·n(chalk)·(2 − g) − eff·2·n(lime)
//
// in mEq; m in kg, V in L, Ca and Mg in mg/L, U in mEq/L, n in mmol; g is the
// mean charge of dissolved carbonate at that pH and 20 °C.
//
//   - Source: delange2015, abstract: the proton condition; the terms are derived, kCa and kMg those of kolbach1953, from memory.
//   - Valid: 4.8..6.5, cooled sample; expect ±0.10 without lot data, ±0.05 with.
//   - Check: 5 kg of Pilsner malt (5.75, 38) in 20 L with Ca 60, Mg 10 mg/L, 2.0 mEq/L of alkalinity at pH 7.8: 5.787.
//   - Tag: derived
func PH(b Balance) quantity.PH {
	b.setDefaults()
	return quantity.PH(b.root())
}

// AcidFor returns the volume of an acid, in mL, that brings the mash to a pH,
// on top of the acids already in the balance. It is negative when the mash is
// already more acid than that.
//
//	mL = −F(pH) / (mEq/mL at pH)
//
// Units: F (protons released less taken up) in mEq.
//
//   - Source: derived, from the balance of PH, which is linear in the acid.
//   - Valid: as PH.
//   - Check: the pale grist of the tests needs 5.27 mL of 88 % lactic acid to reach 5.40.
//   - Tag: derived
func AcidFor(b Balance, target quantity.PH, perML func(quantity.PH) float64) float64 {
	b.setDefaults()
	return -b.excess(float64(target), b.hardness()) / perML(target)
}

// Excess returns protons released less protons taken up at a pH, in mEq. It
// rises with pH and is zero at the pH of the mash.
//
//	F(pH) as in PH
//
// Units: mEq in the whole mash.
//
//   - Source: delange2015, abstract, for the proton condition; its terms are derived.
//   - Valid: as PH.
//   - Check: zero at PH(b), by construction.
//   - Tag: derived
func Excess(b Balance, ph quantity.PH) float64 {
	b.setDefaults()
	return b.excess(float64(ph), b.hardness())
}

func (b *Balance) setDefaults() {
	if b.Parameters == (Parameters{}) {
		b.Parameters = DefaultParameters
	}
}

// phTolerance is how closely the root is found; meters read two decimals.
const phTolerance = 1e-9

// root closes in on the pH by the method of Ridders (1979): the false position
// of an exponential through both ends and the middle, which never leaves the
// bracket.
func (b *Balance) root() float64 {
	fixed := b.hardness()
	low, high, atLow, atHigh := b.bracket(fixed)
	if math.IsNaN(low) {
		return low
	}
	last := math.Inf(1)
	for range 60 {
		middle := (low + high) / 2
		atMiddle := b.excess(middle, fixed)
		root := middle
		if s := math.Sqrt(atMiddle*atMiddle - atLow*atHigh); s > 0 {
			root = middle + (middle-low)*math.Copysign(atMiddle, (atLow-atHigh)*atMiddle)/s
		}
		atRoot := b.excess(root, fixed)
		if math.Abs(root-last) < phTolerance || atRoot == 0 {
			return root
		}
		last = root
		switch {
		case atMiddle*atRoot < 0 && middle < root:
			low, atLow, high, atHigh = middle, atMiddle, root, atRoot
		case atMiddle*atRoot < 0:
			low, atLow, high, atHigh = root, atRoot, middle, atMiddle
		case atLow*atRoot < 0:
			high, atHigh = root, atRoot
		default:
			low, atLow = root, atRoot
		}
	}
	return last
}

// brackets are tried one after the other for a change of sign: where mashes
// lie, where they may lie, and all the scale.
var brackets = [][2]float64{{5, 6.2}, {3, 9}, {1, 14}}

// bracket returns two pH between which the excess changes its sign, with the
// excess at both; NaN if there are none.
func (b *Balance) bracket(fixed float64) (low, high, atLow, atHigh float64) {
	for _, ends := range brackets {
		low, high = ends[0], ends[1]
		atLow, atHigh = b.excess(low, fixed), b.excess(high, fixed)
		if atLow*atHigh <= 0 && atLow != atHigh {
			return low, high, atLow, atHigh
		}
	}
	return math.NaN(), math.NaN(), 0, 0
}

// Slope returns how fast the excess of protons rises with pH, in mEq/pH: the
// buffering of the whole mash.
//
//	dF/dpH ≈ [F(pH + 0.001) − F(pH − 0.001)] / 0.002
//
// Units: F in mEq.
//
//   - Source: derived.
//   - Valid: as PH.
//   - Check: malts alone give Σ m·B.
//   - Tag: derived
func Slope(b Balance, ph quantity.PH) float64 {
	const step = 0.001
	return (Excess(b, ph+step) - Excess(b, ph-step)) / (2 * step)
}
