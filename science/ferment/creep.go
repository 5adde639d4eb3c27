// SPDX-License-Identifier: MIT

package ferment

import (
	"gyle/quantity"
	"gyle/science/gravity"
)

// HopCreepRange is by how much enzymes of dry hops are reported to lower the
// apparent extract of a finished beer, in °P: from hardly seen to over weeks.
var HopCreepRange = quantity.Span[quantity.Plato]{Low: 0.5, High: 2}

// HopCreepContact is how long dry hops lie in a beer before it is reckoned
// with, and HopCreepWarm how warm the beer is at least (practice: in a cold store
// neither enzymes nor yeast get far).
var (
	HopCreepContact = quantity.Days(3)
	HopCreepWarm    = quantity.Celsius(10)
)

// HopCreep returns by how much the gravity of a dry-hopped beer may still fall:
// enzymes of the hops split sugars that the yeast had left, and the yeast goes
// on. What has fallen since the hops went in is taken off. Over weeks it is a
// fraction of a point a day, which three days of readings don't show; only a
// forced test of the hopped beer proves the end.
//
//	Δ = max(0, c − (E0 − E))    c from 0.5 to 2 °P
//
// Units: E0 apparent extract when the hops went in, E now, in °P; the fall is
// returned as a difference of SG from the gravity now.
//
//   - Source: kirkpatrick2018, enzymes shown in hops; the range of falls second-hand.
//   - Valid: dry hops in contact for 3 days or more, above about 10 °C, yeast alive.
//   - Check: 2 °P near 1.0127 are 0.0078 SG; with 0.49 volumes a point, 3.8 volumes.
//   - Tag: second-hand
func HopCreep(whenHopped, now quantity.SG) quantity.Span[quantity.SG] {
	e := gravity.PlatoFromSG(now)
	fallen := gravity.PlatoFromSG(whenHopped) - e
	fall := func(c quantity.Plato) quantity.SG { return now - gravity.SGFromPlato(e-max(0, c-max(0, fallen))) }
	return quantity.Span[quantity.SG]{Low: fall(HopCreepRange.Low), High: fall(HopCreepRange.High)}
}
