// SPDX-License-Identifier: MIT

package plan

import (
	"gyle/data"
	"gyle/quantity"
	"gyle/science/mash"
	chem "gyle/science/water"
)

// Goods is the grain of a mash as the balance of protons sees it.
type Goods struct {
	Early, Late []mash.Malt
	SD          float64     // expected error of the pH, one standard deviation
	Offset      quantity.PH // what is measured on the house beyond the prediction
}

// Goods returns the grain of a plan's mash; nil where no water is known, or
// nothing is mashed.
func (p *Plan) Goods() *Goods { return p.goods }

// GrainOf returns a mass of a typical malt for the balance of protons; false
// when the name or the acidity of the malt isn't known.
func GrainOf(name string, mass quantity.Mass) (mash.Malt, bool) {
	typical, known := data.Malt(name)
	if !known {
		return mash.Malt{}, false
	}
	g := grain{typical: typical, known: true}
	g.meant.Malt = name
	return g.protonsOf(LotUse{Mass: mass, Color: quantity.EBC(typical.ColourEBC.Mid())})
}

// GoodsOf returns goods of which no lot was measured.
func GoodsOf(early, late []mash.Malt) Goods {
	return Goods{Early: early, Late: late, SD: typicalPHSpread}
}

// Soured is a mash with its acid.
type Soured struct {
	Rail    mash.Rail
	ML      float64 // of acid; below zero: the mash is more acid than its aim already
	balance mash.Balance
}

// Sour finds the acid that brings the early goods, doughed in with a volume of
// a treated liquor, to the aim before late grain goes in, and how the pH comes
// about step by step. Without an aim there is no acid.
func (g *Goods) Sour(volume quantity.Volume, untreated, treated chem.Supply, acid chem.Acid, aim *quantity.PH) Soured {
	b := mash.Balance{Malts: g.Early, Liquor: mashLiquor(volume, treated)}
	s := Soured{}
	if aim != nil {
		s.ML = mash.AcidFor(b, *aim-g.Offset, acid.MilliequivalentsPerML)
	}
	if s.ML > 0 {
		b.Acids = append(b.Acids, mash.Acid{Volume: s.ML, PerML: acid.MilliequivalentsPerML})
	}
	s.balance, s.Rail = b, mash.Steps(b, mashLiquor(volume, untreated), g.Late)
	for _, ph := range []*quantity.PH{&s.Rail.Distilled, &s.Rail.Water, &s.Rail.Salts, &s.Rail.Acid, &s.Rail.Late} {
		*ph += g.Offset
	}
	return s
}

func mashLiquor(volume quantity.Volume, s chem.Supply) mash.Liquor {
	return mash.Liquor{
		Volume:  volume,
		Calcium: quantity.Concentration(s.Ions[chem.Calcium]), Magnesium: quantity.Concentration(s.Ions[chem.Magnesium]),
		AcidDemand: s.Demand(),
	}
}

// AcidCalled finds an acid by its id or by what brewers call it; false when
// there is none.
func AcidCalled(name string) (chem.Acid, bool) {
	typical, _ := data.Acid(name)
	return chem.AcidByID(typical.ID)
}

// SpargePH is what sparge liquor is acidified to where that is needed. Common
// practice: 5.5 to 5.8.
const SpargePH quantity.PH = 5.8

// spargeAlkalinity is the residual alkalinity from which sparge liquor draws
// the pH of the last runnings up. Estimate: 1 mEq/L.
const spargeAlkalinity quantity.Charge = 1

// SourSparge returns the acid, in mL, that brings sparge liquor to [SpargePH];
// none where its residual alkalinity is too small to matter. The error says why
// the acid can't do it.
func SourSparge(s chem.Supply, volume quantity.Volume, acid chem.Acid) (ml float64, err error) {
	if chem.ResidualAlkalinity(s.Ions) < spargeAlkalinity {
		return 0, nil
	}
	dose, err := chem.Acidify(s, volume, acid, SpargePH)
	return dose.Millilitres, err
}
