// SPDX-License-Identifier: MIT

package shed

import (
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/color"
)

// Split is a malt that a plan takes from several lots. OG and Color say what
// weighing the whole out as if it were the first lot would do; the plan has
// reckoned with each lot and keeps its aims.
type Split struct {
	Malt  string
	Uses  []plan.LotUse     // oldest first, as the plan takes them
	OG    quantity.Fraction // of the extract in the kettle: −0.001 is a tenth of a percent less
	Color quantity.EBC      // of the beer
}

// Splits finds the malts that a plan takes from several lots.
func Splits(p *plan.Plan) (list []Split) {
	total := 0.0
	for _, l := range p.Grist.Lines {
		for _, u := range l.Lots {
			total += float64(u.Mass) * float64(u.Extract)
		}
	}
	beer := 0.0
	if f, ok := p.Find(quantity.BeerColor); ok {
		beer = color.MCUForEBC(quantity.EBC(f.Value))
	}
	for _, l := range p.Grist.Lines {
		if len(l.Lots) < 2 || total <= 0 {
			continue
		}
		first, extract := l.Lots[0], 0.0
		for _, u := range l.Lots[1:] {
			extract += float64(u.Mass) * float64(u.Extract-first.Extract)
		}
		s := Split{Malt: l.Malt, Uses: l.Lots, OG: quantity.Fraction(extract / (total - extract))}
		if l.Color > 0 && beer > 0 {
			asFirst := beer * (1 + float64(l.ColorShare)*(float64(first.Color/l.Color)-1))
			s.Color = color.EBCFromMCU(beer) - color.EBCFromMCU(asFirst)
		}
		list = append(list, s)
	}
	return list
}
