// SPDX-License-Identifier: MIT

package shed

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/brewhouse"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/mash"
	"gyle/stock"
)

// Cost is what a brew costs by the prices of its lots. What has no price is
// named in Unpriced and isn't in the sums, so a cost with such names is a lower
// limit.
type Cost struct {
	Money    string   `json:"money,omitempty"` // as the prices are written; empty where none says it
	Groups   []Group  `json:"groups"`
	Total    float64  `json:"total"`
	Litres   float64  `json:"litres" unit:"L"` // packaged
	PerLitre float64  `json:"perLitre"`
	Unpriced []string `json:"unpriced"` // what is in the beer and has no price that can be read
	Energy   float64  `json:"energy" unit:"kWh"`
}

// Group is the items of one kind: malt, hops, yeast, energy, salts, sugar.
type Group struct {
	Name  string  `json:"name"`
	Money float64 `json:"money"`
	Items []Item  `json:"items"`
}

// Item is what one lot costs in a brew.
type Item struct {
	What   string  `json:"what"`
	Lot    string  `json:"lot,omitempty"`
	Amount string  `json:"amount"` // as reckoned: "3.23 kg", "1 pack of 22 g"
	Money  float64 `json:"money"`
}

// Complete reports whether everything had a price.
func (c *Cost) Complete() bool { return len(c.Unpriced) == 0 }

// Priced reports whether anything had a price.
func (c *Cost) Priced() bool { return len(c.Groups) > 0 }

// CostOf reckons what a plan costs with the prices of a stock, which may be nil,
// and of the house's energy. Amounts are printed by pr.
func CostOf(p *plan.Plan, s *stock.Stock, pr quantity.Printer) *Cost {
	if s == nil {
		s = &stock.Stock{}
	}
	c := &coster{cost: &Cost{Unpriced: []string{}, Groups: []Group{}}, prices: pricesOf(s), stock: s, pr: pr}
	for _, l := range p.Grist.Lines {
		for _, u := range l.Lots {
			c.mass("malt", l.Malt, u.Lot, u.Mass)
		}
	}
	for _, h := range p.Hops.Charges {
		for _, u := range h.Lots {
			c.mass("hops", h.Hop, u.Lot, u.Mass)
		}
	}
	c.yeast(p.Cellar.Yeast, p.Cellar.Dry)
	c.energy(p, p.HouseDocument())
	for _, d := range p.Liquor.Salts {
		c.mass("salts", d.Salt, c.oldest(d.Salt), d.Mass)
	}
	for _, a := range []*plan.AcidDose{p.Mash.Acid, p.Liquor.SpargeAcid} {
		if a != nil && a.ML > 0 {
			c.volume("salts", a.Acid, c.oldest(a.Acid), a.ML)
		}
	}
	if p.Cellar.Sugar != "" && p.Cellar.Priming > 0 {
		c.mass("sugar", p.Cellar.Sugar, c.oldest(p.Cellar.Sugar), p.Cellar.Priming)
	}
	return c.done(p.Volumes.Packaged.Litres())
}

// priced is a lot with its price as written.
type priced struct{ what, text string }

func pricesOf(s *stock.Stock) map[string]priced {
	prices := map[string]priced{}
	for _, l := range s.Malts {
		prices[l.Lot] = priced{l.Malt, l.Price}
	}
	for _, l := range s.Hops {
		prices[l.Lot] = priced{l.Hop, l.Price}
	}
	for _, l := range s.Yeasts {
		prices[l.Lot] = priced{l.Yeast, l.Price}
	}
	for _, l := range s.Salts {
		prices[l.Lot] = priced{l.Salt, l.Price}
	}
	return prices
}

// coster adds items up.
type coster struct {
	cost   *Cost
	prices map[string]priced
	stock  *stock.Stock
	pr     quantity.Printer
}

// oldest names the oldest lot of something for which a plan names no lot.
func (c *coster) oldest(what string) string {
	lots := lotsOf(c.stock)
	if at := oldestFirst(lots, what); len(at) > 0 {
		return lots[at[0]].Name
	}
	return ""
}

// price reads the price of a lot; what can't be reckoned with is named.
func (c *coster) price(what, lot, text string, fits func(quantity.Price) bool) (quantity.Price, bool) {
	name := what
	if lot != "" {
		name += " " + lot
	}
	p, err := quantity.ParsePrice(text)
	switch {
	case text == "":
		c.unpriced(name)
	case err != nil:
		c.unpriced(fmt.Sprintf("%s (its price “%s” can't be read)", name, text))
	case !fits(p):
		c.unpriced(fmt.Sprintf("%s (its price “%s” is for another measure)", name, text))
	case p.Money != "" && c.cost.Money != "" && p.Money != c.cost.Money:
		c.unpriced(fmt.Sprintf("%s (its price is in %s)", name, p.Money))
	default:
		if c.cost.Money == "" {
			c.cost.Money = p.Money
		}
		return p, true
	}
	return p, false
}

func (c *coster) unpriced(name string) {
	if !slices.Contains(c.cost.Unpriced, name) {
		c.cost.Unpriced = append(c.cost.Unpriced, name)
	}
}

func byMass(p quantity.Price) bool   { return p.Mass > 0 }
func byVolume(p quantity.Price) bool { return p.Volume > 0 }
func byEnergy(p quantity.Price) bool { return p.Energy > 0 }
func byPack(p quantity.Price) bool   { return p.Mass > 0 || p.Packs > 0 }

func (c *coster) mass(group, what, lot string, mass quantity.Mass) {
	if mass <= 0 {
		return
	}
	if p, ok := c.price(what, lot, c.prices[lot].text, byMass); ok {
		c.add(group, Item{what, lot, c.pr.Mass(mass), p.Amount * float64(mass/p.Mass)})
	}
}

func (c *coster) volume(group, what, lot string, ml float64) {
	if p, ok := c.price(what, lot, c.prices[lot].text, byVolume); ok {
		c.add(group, Item{what, lot, c.pr.Number(ml, 1) + " mL", p.Amount * ml / (1000 * p.Volume.Litres())})
	}
}

// yeast counts whole packs: an open one isn't kept for the next brew. Common
// practice.
func (c *coster) yeast(what string, mass quantity.Mass) {
	if what == "" {
		c.unpriced("yeast")
		return
	}
	lot := c.oldest(what)
	p, ok := c.price(what, lot, c.prices[lot].text, byPack)
	if !ok {
		return
	}
	packs, of := 1.0, ""
	if p.Mass > 0 {
		packs, of = math.Ceil(float64(mass/p.Mass)-1e-6), " of "+c.pr.Mass(p.Mass)
	} else {
		packs = p.Packs
	}
	word := " packs"
	if packs == 1 {
		word = " pack"
	}
	c.add("yeast", Item{what, lot, c.pr.Number(packs, 0) + word + of, p.Amount * packs / max(p.Packs, 1)})
}

// liquorFrom is how cold the liquor comes, where a house doesn't say it of its
// cooling water. Estimate: 12 °C.
var liquorFrom = quantity.Celsius(12)

// EnergyOf returns the energy that a plan takes in kWh: the liquor from the
// tap's temperature to the strike and the sparge, and the kettle at full power
// from the first heat to knock-out. What keeps the mash warm and what cools is
// left out.
func EnergyOf(p *plan.Plan, house *brewhouse.House) float64 {
	from := liquorFrom
	if len(house.Cooling) > 0 && house.Cooling[0].Tau != nil && house.Cooling[0].Water != (quantity.Temperature{}) {
		from = house.Cooling[0].Water
	}
	heat := func(v quantity.Volume, to quantity.Temperature) float64 {
		return max(v.Litres()*mash.WaterHeat*(to.Celsius()-from.Celsius()), 0)
	}
	kilojoules := heat(p.Liquor.Mash, p.Liquor.Strike)
	if p.Liquor.Sparge > 0 {
		kilojoules += heat(p.Liquor.Sparge, p.Liquor.SpargeAt)
	}
	kilojoules += heat(p.Liquor.Infused, quantity.Celsius(100))
	kettle := float64(house.Kettle.Power) * (p.Boil.HeatUp + p.Boil.Time).Hours()
	return kilojoules/3600/float64(house.Kettle.Efficiency) + kettle
}

func (c *coster) energy(p *plan.Plan, house *brewhouse.House) {
	c.cost.Energy = EnergyOf(p, house)
	if price, ok := c.price("energy", "", house.Energy, byEnergy); ok {
		c.add("energy", Item{"energy", "", c.pr.Number(c.cost.Energy, 1) + " kWh", price.Amount * c.cost.Energy / price.Energy})
	}
}

func (c *coster) add(group string, item Item) {
	groups := &c.cost.Groups
	i := slices.IndexFunc(*groups, func(g Group) bool { return g.Name == group })
	if i < 0 {
		*groups, i = append(*groups, Group{Name: group}), len(*groups)
	}
	g := &(*groups)[i]
	g.Items, g.Money = append(g.Items, item), g.Money+item.Money
}

func (c *coster) done(litres float64) *Cost {
	for _, g := range c.cost.Groups {
		c.cost.Total += g.Money
	}
	c.cost.Litres = litres
	if litres > 0 {
		c.cost.PerLitre = c.cost.Total / litres
	}
	return c.cost
}

// Sum says the cost in one line: "malt 8.87 + hops 3.33 = 12.20 for 19.3 L: 0.63 a litre".
func (c *Cost) Sum(pr quantity.Printer) string {
	var parts []string
	for _, g := range c.Groups {
		parts = append(parts, g.Name+" "+pr.Number(g.Money, 2))
	}
	text := fmt.Sprintf("%s = %s for %s: %s a litre", strings.Join(parts, " + "), c.With(c.Total, pr), pr.Volume(quantity.Volume(c.Litres)), c.With(c.PerLitre, pr))
	if !c.Complete() {
		text += ", and what has no price"
	}
	return text
}

// With prints an amount with its money.
func (c *Cost) With(amount float64, pr quantity.Printer) string {
	return strings.TrimSpace(pr.Number(amount, 2) + " " + c.Money)
}
