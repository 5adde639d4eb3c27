// SPDX-License-Identifier: MIT

package day

import (
	"fmt"
	"math"
	"strings"

	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/color"
	"gyle/science/ferment"
	"gyle/science/hops"
)

// Offer is what can be done at a reading that misses the plan, or after
// something went wrong. It has no order in it: doing nothing is always one of
// the tickets.
type Offer struct {
	At      gyle.Place `json:"at"`
	Missed  string     `json:"missed"`  // what is wrong, in words
	Tickets []Ticket   `json:"tickets"` // two to four
	Notes   []string   `json:"notes,omitempty"`
}

// Ticket is one option with what the beer would be and what it costs. Numbers
// that the option leaves as they are planned are those of the plan.
type Ticket struct {
	Name    string                 `json:"name"` // short, the same for the same option: "boil 75 min"
	Does    string                 `json:"does"` // what to do, in words
	OG      quantity.SG            `json:"og"`
	Volume  quantity.Volume        `json:"volume"` // at knock-out, at 20 °C
	IBU     quantity.IBU           `json:"ibu"`
	Color   quantity.EBC           `json:"color"`
	ABV     quantity.Fraction      `json:"abv"`               // with the attenuation of the plan
	PH      quantity.PH            `json:"ph,omitempty"`      // of the mash, cooled
	Mash    quantity.Temperature   `json:"mash,omitzero"`     // of the mash
	Boil    quantity.Duration      `json:"boil,omitempty"`    // from its beginning to its end, where the option changes it
	Minutes quantity.Duration      `json:"minutes"`           // by which the day gets longer
	Add     *Addition              `json:"add,omitempty"`     // what goes in
	Hops    []HopChange            `json:"hops,omitempty"`    // would keep the bitterness
	Lactic  quantity.Concentration `json:"lactic,omitempty"`  // acid in the beer, at most
	Price   string                 `json:"price"`             // what is paid or given up
	Caution string                 `json:"caution,omitempty"` // where it can hurt
	charges []quantity.IBU         // what each charge gives
}

// Addition is something that goes in.
type Addition struct {
	What   string               `json:"what"`
	Mass   quantity.Mass        `json:"mass,omitempty"`
	Volume quantity.Volume      `json:"volume,omitempty"` // measured cold
	At     quantity.Temperature `json:"at,omitzero"`
}

// HopChange is a charge that would bring the bitterness back to the plan's.
type HopChange struct {
	Hop  string        `json:"hop"`
	At   string        `json:"at"`
	Mass quantity.Mass `json:"mass"` // instead of
	Was  quantity.Mass `json:"was"`
}

// Choice is the entry of the log for taking the ticket.
func (o Offer) Choice(taken int, over gyle.ID, why string) gyle.Choice {
	t := o.Tickets[taken]
	c := gyle.Choice{Over: over, Took: t.Name, Why: why, Boil: tidy(t.Boil), Expects: &gyle.Expects{
		OG: tidy(t.OG), Volume: tidy(t.Volume), IBU: tidy(t.IBU), Color: tidy(t.Color), PH: tidy(t.PH), Minutes: tidy(t.Minutes), Price: t.Price,
	}}
	for _, other := range o.Tickets {
		c.Offered = append(c.Offered, other.Name)
	}
	return c
}

// wort is the kettle as it is or will be: everything that bitterness, colour
// and alcohol follow from.
type wort struct {
	full    quantity.SG // at the beginning of the boil
	og      quantity.SG
	volume  quantity.Volume // at knock-out, 20 °C
	diluted float64         // volume after over before a dilution behind the boil; 0: none
	course  *plan.Course    // nil: as planned
	without int             // number of the charge that is left out, from 1
}

// ticket works out what a wort becomes.
func ticket(p *plan.Plan, w wort) Ticket {
	t := Ticket{OG: w.og, Volume: w.volume}
	t.charges = bitterness(p, w)
	for _, b := range t.charges {
		t.IBU += b
	}
	t.Color = colorIn(p, w.volume)
	t.ABV = alcohol(p, w.og)
	return t
}

// bitterness returns what each charge gives in a wort, from what it gives in
// the plan:
//
//	IBU' = IBU · I'/I · V/V' · g'/g
//
// I is the yield by the kinetics, V the wort at knock-out, g the factor of the
// gravity. A dilution behind the boil dilutes the bitterness, too.
func bitterness(p *plan.Plan, w wort) []quantity.IBU {
	planned := p.Course()
	course := w.course
	if course == nil {
		course = &planned
	}
	volume := float64(w.volume)
	if w.diluted > 0 {
		volume /= w.diluted
	}
	factor := float64(p.Volumes.KnockOut) / volume
	factor *= hops.GravityFactor((w.full+undiluted(w))/2) / hops.GravityFactor((p.Gravity.FullKettle+p.Gravity.OG)/2)
	if w.diluted > 0 {
		factor /= w.diluted
	}
	before := planned.History.Outcomes(planned.At)
	out := make([]quantity.IBU, len(p.Hops.Charges))
	for i, after := range course.History.Outcomes(course.At) {
		c := p.Hops.Charges[i]
		if c.Dry || before[i].Iso <= 0 || w.without == i+1 {
			continue
		}
		out[i] = c.IBU * quantity.IBU(after.Iso/before[i].Iso*factor)
	}
	return out
}

// undiluted is the gravity at the end of the boil, before a dilution. Points
// are near enough for the factor of the gravity.
func undiluted(w wort) quantity.SG {
	if w.diluted <= 0 {
		return w.og
	}
	return 1 + (w.og-1)*quantity.SG(w.diluted)
}

// colorIn is the colour of the planned grist in another volume of wort.
func colorIn(p *plan.Plan, v quantity.Volume) quantity.EBC {
	f, ok := p.Find(quantity.BeerColor)
	if !ok || v <= 0 {
		return 0
	}
	return color.EBCFromMCU(color.MCUForEBC(quantity.EBC(f.Value)) * float64(p.Volumes.KnockOut/v))
}

// alcohol is that of a wort fermented as far as planned.
func alcohol(p *plan.Plan, og quantity.SG) quantity.Fraction {
	return ferment.Alcohol(og, ferment.FinalGravity(og, ferment.Attenuation(p.Gravity.OG, p.Gravity.FG)))
}

// keepBitterness says how much of the bittering charge would bring a ticket's
// bitterness to that of the plan.
func (t *Ticket) keepBitterness(p *plan.Plan) {
	const worthIt = 0.3 // IBU: less is nothing on a home brewer's scale
	i := bittering(p)
	miss := float64(p.Hops.IBU - t.IBU)
	if i < 0 || t.charges[i] <= 0 || math.Abs(miss) < worthIt {
		return
	}
	c := p.Hops.Charges[i]
	mass := float64(c.Mass) * (1 + miss/float64(t.charges[i]))
	if mass < 0 {
		return
	}
	t.Hops = append(t.Hops, HopChange{Hop: c.Hop, At: c.At.String(), Mass: quantity.Mass(mass), Was: c.Mass})
}

// bittering is the number of the charge that gives most; -1 for none.
func bittering(p *plan.Plan) int {
	best := -1
	for i, c := range p.Hops.Charges {
		if !c.Dry && c.IBU > 0 && (best < 0 || c.IBU > p.Hops.Charges[best].IBU) {
			best = i
		}
	}
	return best
}

// price joins what is paid.
func price(parts ...string) string {
	var said []string
	for _, part := range parts {
		if part != "" {
			said = append(said, part)
		}
	}
	if len(said) == 0 {
		return "nothing"
	}
	return strings.Join(said, ", ")
}

// heating says what minutes of boil cost.
func heating(p *plan.Plan, d quantity.Duration) string {
	if d < 0.5 {
		return ""
	}
	house := p.HouseDocument()
	return fmt.Sprintf("%.0f min and %.1f kWh", d.Minutes(), float64(house.Kettle.Power)*d.Hours())
}

// lost says how much beer is given up, or gained.
func lost(p *plan.Plan, v quantity.Volume) string {
	const spoken = 0.05 // L
	switch d := float64(p.Volumes.KnockOut - v); {
	case d > spoken:
		return fmt.Sprintf("%.1f L less", d)
	case d < -spoken:
		return fmt.Sprintf("%.1f L more", -d)
	}
	return ""
}

// gravityOff says how a gravity misses the aim.
func gravityOff(p *plan.Plan, og quantity.SG) string {
	points := (og - p.Gravity.OG).Points() + 1000 // Points counts from 1
	if math.Abs(points) < 0.25 {                  // half of what a hydrometer shows
		return ""
	}
	return signed(points, 1) + " points, ABV " + signed((alcohol(p, og)-p.Gravity.ABV).Percent(), 1)
}

// signed prints a difference with its sign, and none for nothing.
func signed(x float64, decimals int) string { return quantity.Printer{}.Signed(x, decimals) }
