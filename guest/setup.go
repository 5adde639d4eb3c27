// SPDX-License-Identifier: MIT

package guest

import (
	"cmp"
	"slices"

	"gyle/brewhouse"
	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	"gyle/stock"
	"gyle/water"
)

// A setup is a house, a shed and a water that answers have been put into. It
// begins as a copy of the author's.
type setup struct {
	size        quantity.Volume
	house       brewhouse.House
	stock       stock.Stock
	water       *water.Water
	evaporation evaporation
	cooling     coolingWay
	reader      quantity.Printer // whose units the plan's sentences are in
}

// setup copies what the author brewed with: one lot for each malt and hop of
// the recipe, since a guest has theirs.
func (t *Table) setup() *setup {
	s := &setup{size: t.plan.Volumes.Collected, house: *t.house}
	s.house.Cooling = slices.Clone(t.house.Cooling)
	s.house.Name = "Your brewery"
	s.house.By, s.house.Note = "", ""
	if t.water != nil {
		w := *t.water
		s.water = &w
	}
	s.stock.Name = "Your shed"
	if t.stock != nil {
		s.stock.Counted = t.stock.Counted
		s.stock.Yeasts = t.stock.Yeasts
	}
	for _, l := range t.plan.Grist.Lines {
		if !slices.ContainsFunc(s.stock.Malts, func(m stock.Malt) bool { return m.Malt == l.Malt }) {
			s.stock.Malts = append(s.stock.Malts, t.malt(l))
		}
	}
	for _, c := range t.plan.Hops.Charges {
		if !slices.ContainsFunc(s.stock.Hops, func(h stock.Hops) bool { return h.Hop == c.Hop }) {
			s.stock.Hops = append(s.stock.Hops, t.hop(c))
		}
	}
	s.cooling = wayOf(s.house.Cooling[0])
	return s
}

// malt returns the lot of a grain that the author's plan takes, or a typical one.
func (t *Table) malt(l plan.GrainLine) stock.Malt {
	m := stock.Malt{Lot: l.Malt, Malt: l.Malt}
	if t.stock != nil && len(l.Lots) > 0 {
		for _, lot := range t.stock.Malts {
			if lot.Lot == l.Lots[0].Lot {
				m = lot
			}
		}
	}
	typical, _ := data.Malt(l.Malt)
	m.Extract = cmp.Or(m.Extract, percent(typical.ExtractDryBasis.Mid()))
	m.Moisture = cmp.Or(m.Moisture, percent(typical.Moisture.Mid()))
	m.Color = cmp.Or(m.Color, &quantity.Color{Value: float64(l.Color), Scale: quantity.ScaleEBC})
	m.Mass, m.Price, m.Note = nil, "", ""
	return m
}

// hop returns the lot of a hop that the author's plan takes, as fresh as it is
// there: a guest knows what the packet says, not what a shed does to it.
func (t *Table) hop(c plan.ChargeLine) stock.Hops {
	h := stock.Hops{Lot: c.Hop, Hop: c.Hop}
	if t.stock != nil && len(c.Lots) > 0 {
		for _, lot := range t.stock.Hops {
			if lot.Lot == c.Lots[0].Lot {
				h.Lot, h.Form, h.Oil = lot.Lot, lot.Form, lot.Oil
			}
		}
	}
	alpha := c.Alpha
	h.Alpha = &alpha
	fresh := quantity.Duration(0)
	h.Age = &fresh
	return h
}

func percent(p float64) *quantity.Fraction {
	f := quantity.Percent(p)
	return &f
}

// input is the input of the plan for the guest.
func (s *setup) input(t *Table) plan.Input {
	in := plan.Input{Recipe: t.recipe, House: &s.house, Stock: &s.stock, Water: s.water}
	in.Size, in.Reader = s.size, s.reader
	return in
}
