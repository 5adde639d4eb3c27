// SPDX-License-Identifier: MIT

package day

import (
	"cmp"
	"fmt"
	"math"

	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/gravity"
)

// Kettle is what was read of a kettle, corrected: the volume with its
// temperature, the gravity at 20 °C.
type Kettle struct {
	Volume quantity.VolumeAt
	SG     quantity.SG
	Full   quantity.SG // at knock-out: what the full kettle had; zero: as planned
}

// mass returns the wort and its extract.
func (k Kettle) mass() (wort, extract float64) {
	v := gravity.VolumeAt20(k.Volume)
	wort = float64(gravity.WortMass(v, k.SG))
	return wort, wort * float64(gravity.PlatoFromSG(k.SG)) / 100
}

// What counts as a miss. A hydrometer is read to half a point, one time in eight
// worse than three quarters; a kettle to one part in sixty. Estimates.
const (
	missedGravity quantity.SG = 0.00075
	missedVolume  float64     = 0.015
)

// dryExtract is the extract in dry malt extract, of its mass. Common practice:
// 0.94 to 0.97.
const dryExtract quantity.Fraction = 0.95

// roundBoil is to what a boil between two others is rounded.
const roundBoil quantity.Duration = 5

// FullKettle says what can be done with a full kettle. Where the boil as
// planned would hit gravity and volume, the offer has no tickets.
func FullKettle(p *plan.Plan, k Kettle) Offer {
	o := Offer{At: gyle.AtFullKettle}
	b := boilOf(p, k)
	asPlanned := b.after(p.Boil.Time)
	gravityMiss := asPlanned.OG - p.Gravity.OG
	volumeMiss := float64(asPlanned.Volume/p.Volumes.KnockOut) - 1
	switch {
	case gravityMiss < -missedGravity:
		o.Missed = fmt.Sprintf("too weak: %d min would give %s", int(p.Boil.Time.Minutes()+0.5), sg(asPlanned.OG))
		o.Tickets = b.tooWeak()
	case gravityMiss > missedGravity:
		o.Missed = fmt.Sprintf("too strong: %d min would give %s", int(p.Boil.Time.Minutes()+0.5), sg(asPlanned.OG))
		o.Tickets = b.tooStrong()
	case volumeMiss < -missedVolume:
		o.Missed = fmt.Sprintf("too little: %.1f L at knock-out instead of %.1f", float64(asPlanned.Volume), float64(p.Volumes.KnockOut))
		o.Tickets = b.tooLittle()
	case volumeMiss > missedVolume:
		o.Missed = fmt.Sprintf("too much: %.1f L at knock-out instead of %.1f", float64(asPlanned.Volume), float64(p.Volumes.KnockOut))
		o.Tickets = b.tooMuch()
	default:
		return o
	}
	if yield := b.extract / float64(p.Gravity.Extract); math.Abs(yield-1) > hotAsCold {
		o.Notes = append(o.Notes, fmt.Sprintf("The extract is %.0f %% of the plan's. Mix the kettle and read again: layered wort deceives, and a hot volume read as cold is 4 %% too large.", 100*yield))
	}
	return o
}

// hotAsCold is by how much the extract of a hot volume is wrong that was read
// as cold: water shrinks by 4 % from 98 to 20 °C.
const hotAsCold = 0.03

// boiling is a full kettle that is about to boil.
type boiling struct {
	p             *plan.Plan
	full          quantity.SG
	mass, extract float64 // kg
	perMinute     float64 // kg
}

func boilOf(p *plan.Plan, k Kettle) boiling {
	mass, extract := k.mass()
	b := boiling{p: p, full: k.SG, mass: mass, extract: extract, perMinute: float64(p.Boil.PerHour) / 60}
	return b.withKettleSugar()
}

// withKettleSugar counts what the recipe puts into the kettle during the boil.
func (b boiling) withKettleSugar() boiling {
	full, extract := float64(gravity.WortMass(b.p.Volumes.FullKettle, b.p.Gravity.FullKettle)), float64(gravity.ExtractMass(b.p.Volumes.FullKettle, b.p.Gravity.FullKettle))
	knockOut := float64(gravity.WortMass(b.p.Volumes.KnockOut, b.p.Gravity.OG))
	b.mass += max(knockOut+float64(b.p.Boil.Evaporation)-full, 0)
	b.extract += max(float64(b.p.Gravity.Extract)-extract, 0)
	return b
}

// wort returns the wort after a boil, with mass and extract added on the way.
func (b boiling) wort(d quantity.Duration, mass, extract float64) wort {
	m := b.mass + mass - b.perMinute*d.Minutes()
	og := gravity.SGFromPlato(quantity.Plato(100 * (b.extract + extract) / m))
	return wort{full: b.full, og: og, volume: gravity.WortVolume(quantity.Mass(m), og)}
}

// after returns the ticket of a boil of a length. Hops keep their minutes
// before the end.
func (b boiling) after(d quantity.Duration) Ticket { return b.with(d, 0, 0) }

func (b boiling) with(d quantity.Duration, mass, extract float64) Ticket {
	w := b.wort(d, mass, extract)
	course := withBoil(b.p, d)
	w.course = &course
	t := ticket(b.p, w)
	t.Name = fmt.Sprintf("boil %.0f min", d.Minutes())
	t.Boil, t.Minutes = d, d-b.p.Boil.Time
	return t
}

// toAim is how long a boil gives the gravity aimed at.
func (b boiling) toAim() quantity.Duration {
	target := b.extract / (float64(gravity.PlatoFromSG(b.p.Gravity.OG)) / 100)
	return quantity.Duration((b.mass - target) / b.perMinute)
}

// finish says what a ticket does and costs.
func (b boiling) finish(t Ticket, does string, extra ...string) Ticket {
	t.Does = does
	paid := append([]string{heating(b.p, t.Minutes), lost(b.p, t.Volume), gravityOff(b.p, t.OG)}, extra...)
	t.Price = price(paid...)
	t.keepBitterness(b.p)
	if t.Add != nil {
		t.Caution = b.overflow(float64(t.Add.Mass + quantity.Mass(t.Add.Volume)))
	}
	return t
}

// overflow warns where the kettle can't hold so many kilograms more.
func (b boiling) overflow(more float64) string {
	holds := b.p.HouseDocument().Kettle.Vessel
	full := gravity.VolumeHot(gravity.WortVolume(quantity.Mass(b.mass+more), b.full), b.p.Boil.Temperature)
	if holds == nil || full <= *holds {
		return ""
	}
	return fmt.Sprintf("The kettle holds %.1f L and this is %.1f L hot: add it as it boils down, and watch the foam.", float64(*holds), float64(full))
}

// tooWeak: boil to the aim, boil a little longer, boil as planned, extract.
func (b boiling) tooWeak() []Ticket {
	long := b.toAim()
	clock := "The hop clock counts from the new end of the boil."
	var out []Ticket
	if long < 3*b.p.Boil.Time {
		out = append(out, b.finish(b.after(long), "Boil until the gravity is there. "+clock))
	}
	between := quantity.Duration(math.Round(float64((long+b.p.Boil.Time)/2/roundBoil))) * roundBoil
	if between > b.p.Boil.Time+roundBoil/2 && between < long-roundBoil/2 {
		out = append(out, b.finish(b.after(between), "Boil a little longer. "+clock))
	}
	out = append(out, b.finish(b.after(b.p.Boil.Time), "Boil as planned and take what comes."))
	at := b.wort(b.p.Boil.Time, 0, 0)
	need := gravity.SugarFor(gravity.Wort{Volume: at.volume, Extract: gravity.PlatoFromSG(at.og)}, gravity.PlatoFromSG(b.p.Gravity.OG), dryExtract)
	t := b.with(b.p.Boil.Time, float64(need), float64(need)*float64(dryExtract))
	t.Name, t.Add = "extract", &Addition{What: "dry malt extract", Mass: need}
	return append(out, b.finish(t, fmt.Sprintf("Boil as planned with %.2f kg of dry malt extract, stirred in off the heat.", float64(need)), fmt.Sprintf("%.2f kg of extract", float64(need))))
}

// tooStrong: water now, a shorter boil where the hops allow it, or as planned.
func (b boiling) tooStrong() []Ticket {
	d := b.p.Boil.Time
	water := b.extract/(float64(gravity.PlatoFromSG(b.p.Gravity.OG))/100) - (b.mass - b.perMinute*d.Minutes())
	diluted := b
	diluted.full = gravity.SGFromPlato(quantity.Plato(100 * b.extract / (b.mass + water)))
	wet := ticket(b.p, diluted.wort(d, water, 0))
	wet.Name, wet.Boil = "water", d
	wet.Add = &Addition{What: "treated liquor", Volume: gravity.WortVolume(quantity.Mass(water), 1)}
	out := []Ticket{b.finish(wet, fmt.Sprintf("Add %.1f L of liquor now and boil as planned.", float64(wet.Add.Volume)))}
	if short := b.toAim(); short >= longestCharge(b.p) && short < d {
		t := b.after(short)
		t.Caution = "A shorter boil leaves more of the precursor of dimethyl sulphide."
		out = append(out, b.finish(t, "Stop the boil when the gravity is there."))
	}
	return append(out, b.finish(b.after(d), "Boil as planned and take what comes."))
}

// tooLittle: the gravity is right, the volume short.
func (b boiling) tooLittle() []Ticket {
	d := b.p.Boil.Time
	plainly := b.after(d)
	// So much wort of the aimed gravity is missing, made of extract and water.
	missing := float64(gravity.WortMass(b.p.Volumes.KnockOut-plainly.Volume, b.p.Gravity.OG))
	powder := missing * float64(gravity.PlatoFromSG(b.p.Gravity.OG)) / 100 / float64(dryExtract)
	t := b.with(d, missing, powder*float64(dryExtract))
	t.Name = "extract and water"
	t.Add = &Addition{What: "dry malt extract, and water", Mass: quantity.Mass(powder), Volume: gravity.WortVolume(quantity.Mass(missing-powder), 1)}
	return []Ticket{
		b.finish(t, fmt.Sprintf("Add %.2f kg of dry malt extract and %.1f L of liquor, boil as planned.", powder, float64(t.Add.Volume)), fmt.Sprintf("%.2f kg of extract", powder)),
		b.finish(plainly, "Boil as planned: the beer is right, there is less of it."),
	}
}

// tooMuch: the gravity will be right, the volume is more than planned.
func (b boiling) tooMuch() []Ticket {
	d := b.p.Boil.Time
	surplus := b.after(d).Volume - b.p.Volumes.KnockOut
	share := float64(surplus / b.after(d).Volume)
	less := b
	less.mass, less.extract = b.mass*(1-share), b.extract*(1-share)
	// What is left loses as much steam as before: it gets stronger, a little.
	t := less.after(d)
	t.Name = "draw off"
	return []Ticket{
		b.finish(b.after(d), "Boil as planned: more beer, less bitter by as much, unless more hops go in.", "watch the rim of the kettle"),
		b.finish(t, fmt.Sprintf("Draw off %.1f L for starters and boil the rest as planned.", float64(surplus)), "the wort drawn off"),
	}
}

// longestCharge is the longest boil of a charge.
func longestCharge(p *plan.Plan) quantity.Duration {
	longest := quantity.Duration(0)
	for _, c := range p.Hops.Charges {
		if c.At.Stage == "boil" {
			longest = max(longest, c.At.Time)
		}
	}
	return longest
}

func sg(s quantity.SG) string { return quantity.Printer{}.SG(s) }

// KnockedOut says what can be done with wort whose boil is over. Where it hits
// the gravity aimed at, the offer has no tickets.
func KnockedOut(p *plan.Plan, k Kettle) Offer {
	o := Offer{At: gyle.AtKnockOut}
	cold := gravity.VolumeAt20(k.Volume)
	now := wort{full: cmp.Or(k.Full, p.Gravity.FullKettle), og: k.SG, volume: cold}
	keep := ticket(p, now)
	keep.Name, keep.Does = "keep", "Keep it as it is."
	keep.Price = price(gravityOff(p, k.SG))
	switch off := k.SG - p.Gravity.OG; {
	case off > missedGravity:
		o.Missed = fmt.Sprintf("too strong: %s instead of %s", sg(k.SG), sg(p.Gravity.OG))
		o.Tickets = []Ticket{watered(p, now, p.Gravity.OG), keep}
		if half := (k.SG + p.Gravity.OG) / 2; off > 4*missedGravity {
			o.Tickets = []Ticket{o.Tickets[0], watered(p, now, half), keep}
			o.Tickets[1].Name = "half the water"
		}
	case off < -missedGravity:
		o.Missed = fmt.Sprintf("too weak: %s instead of %s", sg(k.SG), sg(p.Gravity.OG))
		o.Tickets = append(strengthened(p, now), keep)
	}
	return o
}

// watered brings wort down with boiled water.
func watered(p *plan.Plan, now wort, target quantity.SG) Ticket {
	w := gravity.Wort{Volume: now.volume, Extract: gravity.PlatoFromSG(now.og)}
	water := gravity.DilutionWater(w, gravity.PlatoFromSG(target))
	after := now
	after.og = target
	after.volume = gravity.AddWater(w, water).Volume
	after.diluted = float64(after.volume / now.volume)
	t := ticket(p, after)
	t.Name = "water"
	t.Add = &Addition{What: "boiled water", Mass: water, Volume: gravity.WortVolume(water, 1)}
	t.Does = fmt.Sprintf("Add %.2f L of boiled water.", float64(t.Add.Volume))
	t.Price = price(fmt.Sprintf("bitterness × %.3f", 1/after.diluted), lost(p, t.Volume), gravityOff(p, target))
	t.Caution = "Boiling water scalds."
	return t
}

// strengthened boils on, or adds extract.
func strengthened(p *plan.Plan, now wort) []Ticket {
	aim := gravity.PlatoFromSG(p.Gravity.OG)
	w := gravity.Wort{Volume: now.volume, Extract: gravity.PlatoFromSG(now.og)}
	steam := float64(w.Mass()) - float64(w.ExtractMass())/(float64(aim)/100)
	longer := quantity.Duration(60 * steam / float64(p.Boil.PerHour))
	on := now
	on.og, on.volume = p.Gravity.OG, gravity.WortVolume(w.Mass()-quantity.Mass(steam), p.Gravity.OG)
	course := longerBoil(p, longer)
	on.course = &course
	boil := ticket(p, on)
	boil.Name, boil.Boil, boil.Minutes = "boil on", p.Boil.Time+longer, longer
	boil.Does = fmt.Sprintf("Boil %.0f min more. All hops boil longer.", longer.Minutes())
	boil.Price = price(heating(p, longer), lost(p, boil.Volume), bitternessOff(p, boil.IBU))

	need := gravity.SugarFor(w, aim, dryExtract)
	sweet := now
	sweet.og, sweet.volume = p.Gravity.OG, gravity.AddSugar(w, need, dryExtract).Volume
	add := ticket(p, sweet)
	add.Name, add.Add = "extract", &Addition{What: "dry malt extract", Mass: need}
	add.Does = fmt.Sprintf("Stir in %.2f kg of dry malt extract and boil five minutes to make it safe.", float64(need))
	add.Price = price(fmt.Sprintf("%.2f kg of extract", float64(need)), lost(p, add.Volume))
	return []Ticket{boil, add}
}
