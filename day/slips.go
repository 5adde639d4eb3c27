// SPDX-License-Identifier: MIT

package day

import (
	"fmt"
	"slices"

	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/boil"
	"gyle/science/gravity"
	"gyle/science/hops"
)

// longerBoil is the planned course with minutes of boil added at its end: the
// charges that are in stay in, those of the stand come later.
func longerBoil(p *plan.Plan, more quantity.Duration) plan.Course {
	c := p.Course()
	for i, name := range c.Names {
		if name == "boil" {
			c.History[i] = hops.Steady(c.History[i].Start(), c.History[i].Duration+more)
		}
	}
	for i, at := range c.At {
		if at >= c.BoilEnd {
			c.At[i] = at + more
		}
	}
	c.BoilEnd += more
	return c
}

// withBoil is the planned course with a boil of another length, known before it
// begins: boil charges keep their minutes before its end, hops that are in the
// kettle from the first wort on boil all of it.
func withBoil(p *plan.Plan, d quantity.Duration) plan.Course {
	c := p.Course()
	more := d - (c.BoilEnd - c.Boil)
	for i, name := range c.Names {
		if name == "boil" {
			c.History[i] = hops.Steady(c.History[i].Start(), d)
		}
	}
	for i, line := range p.Hops.Charges {
		if line.At.Stage != recipe.AtMash && line.At.Stage != recipe.AtFirstWort {
			c.At[i] = max(c.At[i]+more, c.Boil)
		}
	}
	c.BoilEnd += more
	return c
}

// Trip is a boil that lost its heat for a while.
type Trip struct {
	Into   quantity.Duration    // after the beginning of the boil
	Off    quantity.Duration    // how long there was no heat
	Lowest quantity.Temperature // that the kettle fell to; zero: as it cools by itself
	Boil   quantity.Duration    // as it stood before; zero: as planned
	Full   Kettle               // the full kettle as it was read; zero: as planned
}

// Tripped says what can be done when the heat went off in the boil: keep the
// clock, or make up for it at the end, with all hops or without the late ones.
func Tripped(p *plan.Plan, t Trip) Offer {
	s := stopped(p, t)
	o := Offer{At: gyle.AtBoil, Missed: fmt.Sprintf("no heat for %.0f min: down to %s, and %.1f min until it boils again",
		t.Off.Minutes(), quantity.Printer{}.Temperature(s.lowest), s.back.Minutes())}
	keep := s.ticket(0, 0)
	keep.Name, keep.Does = "keep the clock", "Keep the clock: the boil ends when it was to end."
	longer := s.ticket(s.lost, 0)
	longer.Name, longer.Boil = fmt.Sprintf("extend %.0f min", s.lost.Minutes()), s.trip.Boil+s.lost
	longer.Does = "Boil on until as much has gone as was planned; late hops keep their minutes before the end."
	for _, x := range []*Ticket{&keep, &longer} {
		x.Price = price(heating(p, x.Minutes), lost(p, x.Volume), gravityOff(p, x.OG), bitternessOff(p, x.IBU))
		x.keepBitterness(p)
	}
	o.Tickets = []Ticket{keep, longer}
	if late := lastBoilCharge(p); late >= 0 && late != bittering(p) {
		c := p.Hops.Charges[late]
		less := s.ticket(s.lost, late+1)
		less.Name, less.Boil = longer.Name+" without "+c.Hop, longer.Boil
		less.Does = fmt.Sprintf("Boil on, and leave %s %s out.", c.Hop, c.At)
		less.Price = price(heating(p, less.Minutes), lost(p, less.Volume), bitternessOff(p, less.IBU), "the aroma of the late hops")
		o.Tickets = append(o.Tickets, less)
	}
	return o
}

// lastBoilCharge is the charge that boils the shortest; -1 for none.
func lastBoilCharge(p *plan.Plan) int {
	last := -1
	for i, c := range p.Hops.Charges {
		if c.At.Stage == recipe.AtBoil && (last < 0 || c.At.Time < p.Hops.Charges[last].At.Time) {
			last = i
		}
	}
	return last
}

// bitternessOff says how a bitterness misses the plan.
func bitternessOff(p *plan.Plan, b quantity.IBU) string {
	return signed(float64(b-p.Hops.IBU), 1) + " IBU"
}

// interrupted is a boil with a stretch that wasn't one.
type interrupted struct {
	p      *plan.Plan
	trip   Trip
	lowest quantity.Temperature
	back   quantity.Duration // from the heat's return until it boils
	lost   quantity.Duration // of boil
	cooled hops.Segment
}

func stopped(p *plan.Plan, t Trip) interrupted {
	if t.Boil <= 0 {
		t.Boil = p.Boil.Time
	}
	if t.Full.SG == 0 {
		t.Full = Kettle{Volume: quantity.VolumeAt{Volume: p.Volumes.FullKettle}, SG: p.Gravity.FullKettle}
	}
	house, at := p.HouseDocument(), p.Boil.Temperature
	s := interrupted{p: p, trip: t, lowest: t.Lowest}
	room := house.Kettle.Room
	if room.IsZero() {
		room = quantity.Celsius(20)
	}
	if s.lowest.IsZero() {
		s.lowest = boil.CoolingTemperature(at, room, kettleTau(p), t.Off)
	}
	s.cooled = hops.Linear(at, s.lowest, t.Off)
	full, _ := t.Full.mass()
	wort := quantity.Mass(full - float64(p.Boil.PerHour)*t.Into.Hours())
	s.back = boil.HeatUpTime(wort, gravity.PlatoFromSG(t.Full.SG), s.lowest, at, house.Kettle.Power, house.Kettle.Efficiency, house.Kettle.HeatLoss)
	s.lost = t.Off + s.back
	return s
}

// kettleTau is the time constant of a kettle left alone; common practice where
// the house doesn't say, as in package plan.
func kettleTau(p *plan.Plan) quantity.Duration {
	if tau := p.HouseDocument().Kettle.Cools; tau > 0 {
		return tau
	}
	return 120
}

// ticket works out a boil that ends later by so much, without a charge.
func (s interrupted) ticket(later quantity.Duration, without int) Ticket {
	p := s.p
	w := boilOf(p, s.trip.Full).wort(s.trip.Boil+later-s.lost, 0, 0)
	course := s.course(later)
	w.course, w.without = &course, without
	t := ticket(p, w)
	t.Minutes = later
	return t
}

// course is the planned course with the interruption in it. What went in
// before stays in; later boil charges keep their minutes before the new end.
func (s interrupted) course(later quantity.Duration) plan.Course {
	c := withBoil(s.p, s.trip.Boil)
	i := slices.Index(c.Names, "boil")
	at := s.p.Boil.Temperature
	rest := max(s.trip.Boil+later-s.trip.Into-s.lost, 0)
	c.History = slices.Replace(c.History, i, i+1,
		hops.Steady(at, s.trip.Into), s.cooled, hops.Linear(s.lowest, at, s.back), hops.Steady(at, rest))
	c.Names = slices.Replace(c.Names, i, i+1, "boil", "off", "heat", "boil")
	for k, when := range c.At {
		if when > c.Boil+s.trip.Into {
			c.At[k] = when + later
		}
	}
	c.BoilEnd += later
	return c
}

// Slow is a cooling that lags: the kettle is at Now, After the cooler was
// turned on.
type Slow struct {
	After quantity.Duration
	Now   quantity.Temperature
}

// SlowCooling says what can be done with the late hops when the kettle cools
// slower than planned: wait for their temperature, put them in now, put fewer in
// now. Where no charge waits for the cooling, there are no tickets.
func SlowCooling(p *plan.Plan, s Slow) Offer {
	o := Offer{At: gyle.AtCooling}
	way, ok := coolingWay(p)
	stand := standCharge(p)
	if !ok || stand < 0 || !way.Water.Below(s.Now) || !s.Now.Below(p.Boil.Temperature) {
		return o
	}
	lag := cooling{p: p, at: s, water: way.Water, tau: boil.TauFromReadings(p.Boil.Temperature, s.Now, way.Water, s.After), stand: stand}
	c := p.Hops.Charges[stand]
	target := c.At.Temperature
	if !target.Below(s.Now) {
		return o
	}
	reached := boil.CoolingTime(p.Boil.Temperature, target, way.Water, lag.tau)
	planned := boil.CoolingTime(p.Boil.Temperature, target, way.Water, *way.Tau)
	o.Missed = fmt.Sprintf("%s after %.0f min: %s only after %.0f min, not %.0f", quantity.Printer{}.Temperature(s.Now), s.After.Minutes(),
		quantity.Printer{}.Temperature(target), reached.Minutes(), planned.Minutes())

	wait := lag.ticket(reached, 1)
	wait.Name, wait.Does = "wait", fmt.Sprintf("Wait until %s, then %s in for its full stand.", quantity.Printer{}.Temperature(target), c.Hop)
	now := lag.ticket(s.After, 1)
	now.Name, now.Does = "hops now", fmt.Sprintf("%s in now; cool on, and stand until its time is up.", capital(c.Hop))
	for _, t := range []*Ticket{&wait, &now} {
		t.Minutes = reached - planned
		t.Price = price(fmt.Sprintf("%.0f min", t.Minutes.Minutes()), bitternessOff(p, t.IBU))
	}
	o.Tickets = []Ticket{wait, now}
	if share, found := lag.shareFor(now, p.Hops.IBU); found {
		less := lag.ticket(s.After, share)
		less.Name, less.Minutes = "fewer hops now", now.Minutes
		less.Does = fmt.Sprintf("%.0f g of %s in now instead of %.0f g.", share*c.Mass.Grams(), c.Hop, c.Mass.Grams())
		less.Hops = []HopChange{{Hop: c.Hop, At: c.At.String(), Mass: quantity.Mass(share) * c.Mass, Was: c.Mass}}
		less.Price = price(fmt.Sprintf("%.0f min", less.Minutes.Minutes()), bitternessOff(p, less.IBU), fmt.Sprintf("%.0f %% of the late aroma", 100*(1-share)))
		o.Tickets = append(o.Tickets, less)
	}
	return o
}

// cooling is a kettle that cools with another time constant than planned.
type cooling struct {
	p     *plan.Plan
	at    Slow
	water quantity.Temperature
	tau   quantity.Duration
	stand int // the charge that waits
}

// ticket works out the beer when the waiting charge goes in at a time after
// the cooler was turned on, at a share of its mass.
func (l cooling) ticket(in quantity.Duration, share float64) Ticket {
	c := l.p.Course()
	before := c.BoilEnd
	stretched := quantity.Duration(0)
	for i, name := range c.Names {
		if !cools(name) {
			continue
		}
		from, to := c.History[i].Start(), c.History[i].End()
		slower := hops.CoolingTo(from, to, l.water, l.tau)
		if stretched == 0 {
			stretched = slower.Duration - c.History[i].Duration
		}
		c.History[i] = slower
	}
	for i, at := range c.At {
		if i != l.stand && at > before {
			c.At[i] = at + stretched
		}
	}
	c.At[l.stand] = before + in
	t := ticket(l.p, wort{full: l.p.Gravity.FullKettle, og: l.p.Gravity.OG, volume: l.p.Volumes.KnockOut, course: &c})
	t.IBU -= t.charges[l.stand] * quantity.IBU(1-share)
	t.charges[l.stand] *= quantity.IBU(share)
	return t
}

// shareFor is the share of the waiting charge that brings the whole to an aim.
func (l cooling) shareFor(whole Ticket, aim quantity.IBU) (float64, bool) {
	late := float64(whole.charges[l.stand])
	if late <= 0 || whole.IBU <= aim {
		return 0, false
	}
	share := 1 - float64(whole.IBU-aim)/late
	return share, share > 0.1
}

// standCharge is the hottest charge of a stand; -1 for none.
func standCharge(p *plan.Plan) int {
	best := -1
	for i, c := range p.Hops.Charges {
		if c.At.Stage == recipe.AtStand && (best < 0 || p.Hops.Charges[best].At.Temperature.Below(c.At.Temperature)) {
			best = i
		}
	}
	return best
}
