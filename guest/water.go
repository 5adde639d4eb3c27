// SPDX-License-Identifier: MIT

package guest

import (
	"gyle/plan"
	"gyle/quantity"
	chem "gyle/science/water"
	"gyle/water"
)

// plainWater writes the author's water as what it means, so that a reader can
// change one ion without knowing the labels of the author's report.
func (s *setup) plainWater() {
	if len(s.water.Meant) == 0 && s.water.Alkalinity == nil {
		return
	}
	ions := plan.Reading(s.water)
	at := func(ion chem.Ion) *quantity.Concentration {
		c := quantity.Concentration(ions[ion])
		return &c
	}
	p := s.water.Printed
	s.water.Printed = water.Printed{Ca: at(chem.Calcium), Mg: at(chem.Magnesium), Na: at(chem.Sodium), HCO3: at(chem.Bicarbonate), Cl: at(chem.Chloride), SO4: at(chem.Sulfate)}
	if p.K != nil {
		s.water.Printed.K = at(chem.Potassium)
	}
	if p.NO3 != nil {
		s.water.Printed.NO3 = at(chem.Nitrate)
	}
	if p.CO3 != nil {
		s.water.Printed.CO3 = at(chem.Carbonate)
	}
	s.water.Meant, s.water.Alkalinity, s.water.Endpoint = nil, nil, nil
}
