// SPDX-License-Identifier: MIT

package mash

import (
	"math"

	"gyle/quantity"
)

// Malt is one grain in the proton balance. There are two kinds.
//
// A base malt is described by the pH it gives in distilled water and by its
// buffering around that pH. A titrated malt (caramel, roasted, acidulated) is
// described by the acidity that must be neutralised to bring it to pH 5.7.
// A grain without effect, like sugar, is the zero value with Base set.
type Malt struct {
	Name      string        // for display only
	Mass      quantity.Mass // in the mash
	Base      bool          // a base malt: PHDI, Buffer, A2, A3 count; else Acidity57, Buffer
	PHDI      quantity.PH   // pH of its mash in distilled water, cooled
	Buffer    float64       // mEq/(kg pH)
	A2, A3    float64       // second and third term of the titration curve, mEq/(kg pH²), mEq/(kg pH³)
	Acidity57 float64       // acid to neutralise up to pH 5.7, mEq/kg
}

// Liquor is the mash liquor as it meets the grain, with its salts dissolved.
// Calcium from chalk and lime belongs to Calcium as well.
type Liquor struct {
	Volume             quantity.Volume
	Calcium, Magnesium quantity.Concentration
	// AcidDemand is the strong acid that takes one litre from its own pH to
	// the given one. Nil stands for distilled water.
	AcidDemand func(quantity.PH) quantity.Charge
}

// Acid is an amount of acid in the mash. PerML is the charge one millilitre
// releases at a pH, in mEq/mL.
type Acid struct {
	Volume float64 // mL
	PerML  func(quantity.PH) float64
}

// Parameters are the constants of the balance that experience may change.
// The zero value stands for [DefaultParameters].
type Parameters struct {
	Eta              quantity.Fraction // share of the liquor's acid demand that the mash feels
	CalciumDivisor   float64           // mEq of calcium that release one mEq of protons
	MagnesiumDivisor float64           // the same for magnesium
	Phi              float64           // factor on both
	ChalkEffect      quantity.Fraction // share of stirred-in chalk that reacts
	LimeEffect       quantity.Fraction // share of slaked lime that reacts
}

// DefaultParameters are the customary constants. The divisors are those of the
// residual alkalinity. Eta bridges stoichiometry, which says 1, and mashing
// trials, which say about 0.65; it is the parameter to learn first ([FitEta]).
//
//   - Source: kolbach1953, for the divisors 3.5 and 7; troester2009, abstract, for the poor effect of chalk; delange2013, abstract, for lime.
//   - Valid: Eta 0.65..1.0; CalciumDivisor 2.5..5; LimeEffect 0.6..1.0; ChalkEffect for doses up to 0.4 g/L.
//   - Check: the pH series with 100, 200, 300 mg/L of calcium quoted in briggs2004 is met within 0.12.
//   - Tag: estimate
var DefaultParameters = Parameters{
	Eta:              0.85,
	CalciumDivisor:   3.5,
	MagnesiumDivisor: 7,
	Phi:              1,
	ChalkEffect:      0.5,
	LimeEffect:       0.8,
}

// Balance is everything in the mash that releases or takes up protons.
// Bicarbonate, Chalk and Lime are amounts added to the mash, in mmol; what was
// dissolved in the liquor beforehand is part of its AcidDemand.
type Balance struct {
	Malts       []Malt
	Liquor      Liquor
	Acids       []Acid
	Bicarbonate float64 // mmol of NaHCO3
	Chalk       float64 // mmol of CaCO3
	Lime        float64 // mmol of Ca(OH)2
	Parameters  Parameters
}

// Milligrams per milliequivalent, from the standard atomic weights:
// 40.078/2 and 24.305/2.
const (
	calciumPerMEq   = 20.039
	magnesiumPerMEq = 12.1525
)

// titrationEndpoint is the pH to which titrated malts are described.
const titrationEndpoint = 5.7

// protons is what a malt releases at a pH, in mEq.
func (m *Malt) protons(ph float64) float64 {
	if m.Base {
		x := ph - float64(m.PHDI)
		return float64(m.Mass) * x * (m.Buffer + x*(m.A2+x*m.A3))
	}
	return float64(m.Mass) * (m.Acidity57 + m.Buffer*(ph-titrationEndpoint))
}

// hardness is what calcium and magnesium release, in mEq, at any pH.
func (b *Balance) hardness() float64 {
	p := &b.Parameters
	return p.Phi * float64(b.Liquor.Volume) *
		(float64(b.Liquor.Calcium)/(calciumPerMEq*p.CalciumDivisor) +
			float64(b.Liquor.Magnesium)/(magnesiumPerMEq*p.MagnesiumDivisor))
}

// alkalinity is what the liquor takes up, in mEq.
func (b *Balance) alkalinity(ph float64) float64 {
	if b.Liquor.AcidDemand == nil {
		return 0
	}
	return float64(b.Parameters.Eta) * float64(b.Liquor.Volume) * float64(b.Liquor.AcidDemand(quantity.PH(ph)))
}

// acid is what the acids release, in mEq.
func (b *Balance) acid(ph float64) float64 {
	sum := 0.0
	for i := range b.Acids {
		sum += b.Acids[i].Volume * b.Acids[i].PerML(quantity.PH(ph))
	}
	return sum
}

// salts is what bicarbonate, chalk and lime take up, in mEq.
func (b *Balance) salts(ph float64) float64 {
	if b.Bicarbonate == 0 && b.Chalk == 0 && b.Lime == 0 {
		return 0
	}
	g := carbonateCharge(ph)
	return b.Bicarbonate*(1-g) +
		float64(b.Parameters.ChalkEffect)*b.Chalk*(2-g) +
		float64(b.Parameters.LimeEffect)*b.Lime*2
}

// excess is protons released less protons taken up at a pH, in mEq. fixed is
// the part that does not depend on pH, computed once.
func (b *Balance) excess(ph, fixed float64) float64 {
	sum := fixed + b.acid(ph) - b.alkalinity(ph) - b.salts(ph)
	for i := range b.Malts {
		sum += b.Malts[i].protons(ph)
	}
	return sum
}

// The dissociation constants of carbonic acid at 20 °C, from the correlation
// of Plummer and Busenberg (1982): log K = a + b·T + c/T + d·log T + e/T².
// The pK are 6.3819 and 10.3756.
var (
	carbonic1 = carbonicConstant(-356.3094, -0.06091964, 21834.37, 126.8339, -1684915)
	carbonic2 = carbonicConstant(-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9)
)

func carbonicConstant(a, b, c, d, e float64) float64 {
	t := quantity.Celsius(20).Kelvin()
	return math.Pow(10, a+b*t+c/t+d*math.Log10(t)+e/(t*t))
}

// carbonateCharge is the mean charge of dissolved carbonate at 20 °C:
// 0 as carbonic acid, 1 as bicarbonate, 2 as carbonate.
func carbonateCharge(ph float64) float64 {
	h := math.Pow(10, -ph)
	one, both := carbonic1*h, carbonic1*carbonic2
	return (one + 2*both) / (h*h + one + both)
}
