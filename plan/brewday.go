// SPDX-License-Identifier: MIT

package plan

import (
	"errors"
	"slices"

	"gyle/brewhouse"
	"gyle/data"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/carbonation"
	"gyle/science/color"
	"gyle/science/ferment"
	"gyle/science/hops"
	"gyle/science/mash"
	chem "gyle/science/water"
)

// Brewday is a plan as it is carried out: its weights, litres, minutes and
// temperatures stand, whatever the malt, the house and the weather turn out to
// be. [Brewday.Brew] works out what beer that gives. A Brewday isn't changed by
// use; several goroutines may share it, each with a [Beer] of its own.
type Brewday struct {
	Malts []MaltUse
	Hops  []HopCharge
	House quantity.Estimate // house factor of bitterness, as the plan takes it
	Own   bool              // the house has a factor of its own

	figures []quantity.Figure
	plan    *Plan

	houseYield float64
	absorbing  float64 // kg of grain
	absorption float64 // L/kg
	dead       float64 // L
	sugar      float64 // kg that go into the kettle during the boil
	lossOfHops float64 // L, with hops beyond an ordinary dose
	loss       float64 // L, of the kettle
	dryLoss    float64 // L, with dry hops
	yeastLoss  float64 // L, of the fermenter
	b          bitterness

	moves     []move
	dosings   []hops.Dosing
	kettle    []int // the charges that give bitterness, by dosing
	full      quantity.Temperature
	room      quantity.Temperature
	cools     quantity.Duration
	tau       quantity.Duration
	coolant   quantity.Temperature
	boilsAt   quantity.Temperature
	collected quantity.Volume

	balance  *mash.Balance
	slope    float64 // of the balance at its pH, mEq/pH
	atAcid   quantity.PH
	phOffset quantity.PH
	demand   func(quantity.PH) quantity.Charge

	attenuation quantity.Fraction
	air         quantity.Pressure
	keg         bool
	gas         float64 // volumes from the priming sugar
}

// MaltUse is one use of a lot, as far as a mistake in it would matter.
type MaltUse struct {
	Malt    string
	Lot     string // empty: typical values
	Mass    quantity.Mass
	Stated  struct{ Extract, Moisture, Color bool } // what the lot's analysis says
	Typical data.MaltType                           // zero where the malt is none of the typical ones
	Meant   bool                                    // the recipe says the colour of the product
	Entry   mash.Entry

	extract float64 // kg
	sugar   bool    // into the kettle
	steeped bool
	color   float64 // kg·°L that reach the wort, without what doesn't change with the colour
	pale    float64 // kg·°L that do not
	proton  int     // among the malts of the balance; −1: none
}

// HopCharge is one charge, as far as a mistake in it would matter.
type HopCharge struct {
	Hop    string
	Lot    string // the first, empty: typical values
	Mass   quantity.Mass
	Dry    bool
	Stated bool // a lot says its alpha acids
	Kept   float64
	Range  data.TypicalRange // of the alpha acids, in %; zero where not known
	alpha  quantity.Fraction
	carry  float64
}

// Brewday returns the plan as it is carried out.
func (p *Plan) Brewday() (*Brewday, error) {
	if p == nil || p.day == nil {
		return nil, errors.New("brew on paper: the plan must be made here, not read from a file")
	}
	return p.day, nil
}

// Plan returns the plan that is carried out.
func (d *Brewday) Plan() *Plan { return d.plan }

// Cools reports whether the kettle is cooled as a whole, to a stand or to pitch.
func (d *Brewday) Cools() bool {
	return slices.ContainsFunc(d.moves, func(m move) bool { return m.kind == coolingTo })
}

// Figures names the figures of every [Beer], in order: those of the plan.
func (d *Brewday) Figures() []quantity.Figure { return d.figures }

// brewday keeps of the work what a brewing needs.
func (w *work) brewday(p *path, b bitterness, way brewhouse.Cooling) *Brewday {
	m := w.in.House.Mash
	d := &Brewday{
		plan: w.plan, House: b.house, Own: w.in.House.Bitterness.K.Value != 0, b: b,
		houseYield: w.houseYield, absorption: float64(m.Absorption),
		loss:      float64(w.in.House.Kettle.Loss),
		yeastLoss: float64(w.in.House.Fermenter.Loss),
		moves:     p.moves, full: w.fullTemperature(), room: w.roomTemperature(), cools: w.kettleCools(),
		coolant: way.Water, boilsAt: w.boilsAt, collected: w.collected,
		attenuation: ferment.Attenuation(w.og, w.plan.Gravity.FG),
	}
	if way.Tau != nil {
		d.tau = *way.Tau
	}
	if mashed, _ := w.mashMass(); mashed > 0 {
		d.dead = float64(m.Dead)
	}
	d.lossOfHops = float64(w.knockOut-w.collected) - d.loss
	d.dryLoss = float64(w.collected-w.packaged) - d.yeastLoss
	for _, f := range w.plan.Figures {
		d.figures = append(d.figures, f.Figure)
	}
	d.keepMalts(w)
	d.keepHops(w, p)
	d.keepMash(w)
	d.keepGas(w)
	return d
}

func (d *Brewday) keepMalts(w *work) {
	proton := 0
	for i := range w.grains {
		g := &w.grains[i]
		for _, u := range g.uses {
			yield := g.extractYield(w.houseYield)
			use := MaltUse{
				Malt: g.meant.Malt, Lot: u.Lot, Mass: u.Mass, Meant: g.meant.Color != nil, proton: -1,
				extract: float64(u.Mass*quantity.Mass(u.Extract)) * yield, Entry: g.darkEntry(),
				sugar: g.meant.In.Way == recipe.InKettle, steeped: g.meant.In.Way == recipe.ColdSteep,
			}
			if g.known {
				use.Typical = g.typical
			}
			none := color.LovibondFromEBC(0)
			use.pale = float64(u.Mass) * none * g.colorYield()
			use.color = float64(u.Mass) * (color.LovibondFromEBC(u.Color) - none) * g.colorYield()
			if _, ok := g.protonsOf(u); ok && g.meant.In.Way == recipe.WithMash {
				use.proton = proton
				proton++
			}
			g.stated(u.Lot, &use)
			if use.sugar {
				d.sugar += float64(u.Mass)
			} else {
				d.absorbing += float64(u.Mass)
			}
			d.Malts = append(d.Malts, use)
		}
	}
}

// stated notes what the analysis of a lot says.
func (g *grain) stated(lot string, use *MaltUse) {
	for _, l := range g.lots {
		if l.Lot == lot {
			use.Stated.Extract, use.Stated.Moisture, use.Stated.Color = l.Extract != nil, l.Moisture != nil, l.Color != nil
		}
	}
}

func (d *Brewday) keepHops(w *work, p *path) {
	for i := range w.charges {
		c := &w.charges[i]
		typical, known := data.Hop(c.hop)
		h := HopCharge{Hop: c.hop, Mass: quantity.Mass(c.mass), Dry: c.meant.At.Stage == recipe.AtDry, Kept: 1, alpha: quantity.Fraction(c.alpha * float64(c.form)), carry: carryOver(c.meant.At)}
		if len(c.uses) > 0 {
			u := c.uses[0]
			h.Lot, h.Stated = u.Lot, u.Lot != ""
			if u.Label > 0 {
				h.Kept = float64(u.Alpha / u.Label)
			}
		}
		if known {
			h.Range = typical.Alpha
		}
		for _, l := range c.lots {
			if l.Lot == h.Lot && l.Hops.Alpha == nil {
				h.Stated = false
			}
		}
		if !h.Dry {
			d.kettle = append(d.kettle, i)
			d.dosings = append(d.dosings, snapped(p.history, p.history.DosingAt(w.when(p, i))))
		}
		d.Hops = append(d.Hops, h)
	}
}

// snapped moves a dosing at the very end of a segment to the start of the next:
// what separates them is the rounding of sums.
func snapped(h hops.History, at hops.Dosing) hops.Dosing {
	const rounding = 1e-9 // min
	if at.Segment < len(h) && h[at.Segment].Duration-at.Into < rounding {
		return hops.Dosing{Segment: at.Segment + 1}
	}
	return at
}

func (d *Brewday) keepMash(w *work) {
	if w.mashBalance == nil {
		return
	}
	d.balance = w.mashBalance
	d.phOffset = quantity.PH(w.in.House.Mash.PHOffset)
	d.atAcid = w.plan.Mash.PH - d.phOffset
	d.slope = mash.Slope(*d.balance, d.atAcid)
	d.demand = d.balance.Liquor.AcidDemand
}

func (d *Brewday) keepGas(w *work) {
	c := &w.plan.Cellar
	if c.CO2 <= 0 {
		return
	}
	d.air = carbonation.AirPressure(w.in.House.Altitude)
	d.keg = c.Sugar == ""
	if c.Priming > 0 {
		d.gas = float64(c.CO2 - c.Residual)
	}
}

// treatedIons returns the ions of the liquor when base and salts differ.
func (d *Brewday) treatedIons(t *Truth) chem.Ions {
	l := &d.plan.Liquor
	out := l.Base
	for i := range out {
		out[i] = l.Base[i]*t.Base[i] + (l.Ions[i]-l.Base[i])*t.Salts/t.Liquor
	}
	return out
}
