// SPDX-License-Identifier: MIT

package formulate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	chem "gyle/science/water"
)

// An Outlet is one way to have fewer aims missed, with its price.
type Outlet struct {
	Says string `json:"says"`
	// Cost adds up what the aims give way, each as a share of itself; what has to
	// be bought costs a quarter beside. Estimate: a jar of salt is cheaper than a
	// beer that is a quarter less what was meant.
	Cost   float64           `json:"cost"`
	Missed int               `json:"missed"` // aims that are still missed then
	Aims   chem.Aims         `json:"-"`
	Salts  []string          `json:"salts,omitempty"`
	Soft   quantity.Fraction `json:"soft,omitempty"`
}

// buying is the price of a jar or a can that isn't there.
const buying = 0.25

// Outlets returns the ways out of the aims that a treatment misses, first those
// that leave the fewest missed, then the cheapest: to let one aim go, to accept what is reached, another salt,
// more soft water.
func Outlets(l Liquor, t Treatment) ([]Outlet, error) {
	if len(t.Missed) == 0 {
		return nil, nil
	}
	if err := l.check(); err != nil {
		return nil, err
	}
	salts, err := saltsCalled(l.Salts)
	if err != nil {
		return nil, err
	}
	var list []Outlet
	list = append(list, l.otherSalts(t, salts)...)
	list = append(list, l.moreSoft(t, salts)...)
	list = append(list, l.looser(t, salts)...)
	list = slices.DeleteFunc(list, func(o Outlet) bool { return o.Missed >= len(t.Missed) })
	slices.SortStableFunc(list, func(a, b Outlet) int {
		return cmp.Or(cmp.Compare(a.Missed, b.Missed), cmp.Compare(a.Cost, b.Cost))
	})
	return list, nil
}

// ids are the ids of salts.
func ids(salts []chem.Salt) (list []string) {
	for _, s := range salts {
		list = append(list, s.ID)
	}
	return list
}

// solve treats with other wishes.
func (l *Liquor) solve(share quantity.Fraction, aims chem.Aims, salts []chem.Salt) chem.SaltPlan {
	base := plan.Blend(plan.Supply(l.Report), share)
	return chem.SolveSalts(base.Ions, l.Volume, aims, salts).Stepped(plan.SaltStep(l.Volume))
}

// otherSalts tries each salt that isn't at hand.
func (l *Liquor) otherSalts(t Treatment, salts []chem.Salt) (list []Outlet) {
	for _, name := range data.SaltNames() {
		typical, _ := data.Salt(name)
		extra, ok := chem.SaltByID(typical.ID)
		taken := func(s chem.Salt) bool { return s.Formula == extra.Formula || s.ID == extra.ID }
		if !ok || name != typical.ID || slices.ContainsFunc(salts, taken) {
			continue
		}
		with := append(slices.Clone(salts), extra)
		p := l.solve(t.Soft, l.Aims, with)
		list = append(list, Outlet{Says: "get " + extra.Name, Cost: buying, Missed: len(p.Misses), Aims: l.Aims, Salts: ids(with), Soft: l.MostSoft})
	}
	return list
}

// moreSoft tries more soft water than there is.
func (l *Liquor) moreSoft(t Treatment, salts []chem.Salt) []Outlet {
	share := chem.SoftShare(plan.Reading(l.Report), l.Volume, l.Aims, salts, 1)
	if share <= l.MostSoft {
		return nil
	}
	p := l.solve(share, l.Aims, salts)
	litres := l.Reader.Volume(quantity.Volume(float64(share) * float64(l.Volume)))
	return []Outlet{{Says: fmt.Sprintf("blend in %s of distilled or reverse-osmosis water (%.0f %%)", litres, share.Percent()), Cost: buying, Missed: len(p.Misses), Aims: l.Aims, Salts: l.Salts, Soft: share}}
}

// looser lets each aim go in turn, and accepts what is reached.
func (l *Liquor) looser(t Treatment, salts []chem.Salt) (list []Outlet) {
	for _, ion := range chem.AllIons() {
		aim, aimed := l.Aims[ion]
		if !aimed || len(l.Aims) == 1 {
			continue
		}
		free := chem.Aims{}
		for i, a := range l.Aims {
			if i != ion {
				free[i] = a
			}
		}
		p := l.solve(t.Soft, free, salts)
		got := chem.Amount(p.Ions, ion)
		free[ion] = math.Round(got)
		list = append(list, Outlet{Says: fmt.Sprintf("accept %s %.0f instead of %.0f mg/L", ion.Symbol(), got, aim), Cost: math.Abs(got-aim) / max(aim, 20), Missed: len(p.Misses), Aims: free, Salts: l.Salts, Soft: l.MostSoft})
	}
	all := chem.Aims{}
	cost, parts := 0.0, []string(nil)
	for ion, aim := range l.Aims {
		all[ion] = aim
	}
	for _, m := range t.Missed {
		all[m.Ion] = math.Round(m.Got)
		cost += math.Abs(m.Got-m.Aim) / max(m.Aim, 20)
		parts = append(parts, fmt.Sprintf("%s %.0f", m.Ion.Symbol(), m.Got))
	}
	if len(t.Missed) > 1 {
		list = append(list, Outlet{Says: "accept what comes nearest: " + strings.Join(parts, ", ") + " mg/L", Cost: cost, Missed: 0, Aims: all, Salts: l.Salts, Soft: l.MostSoft})
	}
	return list
}

// A Trade is what more of an ion costs.
type Trade struct {
	Ion  string `json:"ion"`
	Says string `json:"says"`
}

// Trades says for each ion aimed at what else every salt at hand brings with it:
// a salt is a pair, and stoichiometry sets the price.
func Trades(l Liquor) ([]Trade, error) {
	salts, err := saltsCalled(l.Salts)
	if err != nil {
		return nil, err
	}
	const more = 10.0 // mg/L
	var list []Trade
	for _, ion := range chem.AllIons() {
		if _, aimed := l.Aims[ion]; !aimed {
			continue
		}
		var parts []string
		for _, s := range salts {
			gives := s.PerGram()
			if chem.Amount(gives, ion) <= 0 {
				continue
			}
			dose := more / chem.Amount(gives, ion) // g/L
			grams := fmt.Sprintf("%s g", l.Reader.Number(dose*float64(l.Volume), 1))
			for _, other := range chem.AllIons() {
				if along := dose * chem.Amount(gives, other); other != ion && other != chem.Carbonate && along > 0.05 {
					parts = append(parts, fmt.Sprintf("%s %s with %s of %s", l.Reader.Number(along, 1), other, grams, s.Name))
				}
			}
		}
		if len(parts) > 0 {
			list = append(list, Trade{ion.Symbol(), fmt.Sprintf("%.0f mg/L more %s brings along, in mg/L, %s", more, ion, strings.Join(parts, ", or "))})
		}
	}
	return list, nil
}
