// SPDX-License-Identifier: MIT

package shed

import (
	"fmt"
	"slices"
	"strings"

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
		if !several(l.Lots) || total <= 0 {
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

// several reports whether uses are of more than one lot.
func several(uses []plan.LotUse) bool {
	return slices.ContainsFunc(uses, func(u plan.LotUse) bool { return u.Lot != uses[0].Lot })
}

// Words says a split: "pale-ale: 3.00 kg of PA-A and 0.23 kg of PA-B. Weighed as
// if all were PA-A, the extract would be 0.1 % less …".
func (s Split) Words(pr quantity.Printer) string {
	var parts []string
	for _, u := range s.Uses {
		part := pr.Mass(u.Mass) + " of " + u.Lot
		if u.Short {
			part += " beyond what is left of it"
		}
		parts = append(parts, part)
	}
	return fmt.Sprintf("%s comes from %d lots: %s. Taken for %s alone, the original gravity's extract would miss by %s and the colour by %s EBC; the plan reckons with each.",
		s.Malt, len(s.Uses), strings.Join(parts, " + "), s.Uses[0].Lot, pr.Signed(100*float64(s.OG), 1)+" %", pr.Signed(float64(s.Color), 1))
}
