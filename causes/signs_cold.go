// SPDX-License-Identifier: MIT

package causes

import (
	"fmt"

	"gyle/cellar"
	"gyle/data"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/gravity"
)

// Where the cold side begins to be suspected. All are common practice.
const (
	pitchLeast   = 0.9 // of the least usual rate of the yeast
	usualPitch   = 0.75
	pitchWarmest = 2.0 // K above the plan
	warmOver     = 0.5 // K above the range of the yeast
	cooledBy     = 3.0 // K below the warmest
	unfinished   = 0.002
	packedSoon   = 10 // days after pitching
	yeastLong    = 28 // days after pitching
	dryMost      = 5  // g/L
	dryLong      = 5  // days
	primedOff    = 0.05
	agedFrom     = 90 // days
	storeWarm    = 15 // °C
	attenuated   = 0.002
)

// pitched and packed are the moments between which the beer ferments.
func (r *reader) pitched() (gyle.Entry, bool) { return r.first(gyle.Pitched) }

func (r *reader) packed() (gyle.Time, gyle.Entry) {
	if e, done := r.first(gyle.Packaged); done {
		return e.When(), e
	}
	if !r.Packed.IsZero() {
		return gyle.Time{Time: r.Packed.Time}, gyle.Entry{}
	}
	return gyle.Time{}, gyle.Entry{}
}

// pitchLow compares the cells with the wort that they got.
func (r *reader) pitchLow() Sign {
	e, pitched := r.pitched()
	if !pitched || e.Deed.Cells <= 0 {
		return silent("no number of cells is logged")
	}
	volume := quantity.Volume(0)
	if list := r.readings(gyle.OfVolume, gyle.AtFermenter); len(list) > 0 {
		volume = quantity.Volume(list[0].value)
	} else if r.plan != nil {
		volume = r.plan.Volumes.Collected
	}
	og, known := r.original()
	if !known || volume <= 0 {
		return silent("neither the wort’s volume nor its gravity is logged")
	}
	rate := e.Deed.Cells * 1e3 / (volume.Litres() * 1e3 * float64(gravity.PlatoFromSG(og)))
	least := usualPitch
	if yeast, known := data.Yeast(r.yeast()); known && yeast.PitchRate != nil {
		least = yeast.PitchRate.Low()
	}
	text := fmt.Sprintf("%s billion cells in %s of %s: %s, and %s is usual", r.pr.Number(e.Deed.Cells, 0), r.pr.Volume(volume), r.pr.SG(og),
		r.pr.PitchRate(quantity.PitchRate(rate)), r.pr.PitchRate(quantity.PitchRate(least)))
	return decide(rate < least*pitchLeast, text, e)
}

// yeast is the yeast that was pitched, else planned.
func (r *reader) yeast() string {
	if e, pitched := r.pitched(); pitched && e.Deed.What != "" {
		return e.Deed.What
	}
	if r.plan != nil {
		return r.plan.Cellar.Yeast
	}
	return ""
}

func (r *reader) yeastPhenolic() Sign {
	yeast, known := data.Yeast(r.yeast())
	if !known || yeast.Phenolic == nil {
		return silent("the log doesn’t tell whether its yeast makes clove")
	}
	text := yeast.Name + " makes none"
	if *yeast.Phenolic {
		text = yeast.Name + " makes it"
	}
	return decide(*yeast.Phenolic, text)
}

func (r *reader) notAerated() Sign {
	if e, done := r.first(gyle.Aerated); done {
		return against("aerated at "+r.clock(e.When()), e)
	}
	return silent("nothing is logged of air at pitching")
}

func (r *reader) pitchedWarm() Sign {
	e, pitched := r.pitched()
	if !pitched || r.plan == nil || r.plan.Cellar.Pitch.IsZero() {
		return silent("no temperature at pitching is logged beside a plan")
	}
	list := between(r.readings(gyle.OfTemperature, gyle.AtFermenter), e.When().Add(-30), e.When().Add(60))
	if len(list) == 0 {
		return silent("no temperature at pitching is logged")
	}
	x := list[0]
	text := r.celsius(x.value) + " at pitching, " + r.pr.Temperature(r.plan.Cellar.Pitch) + " planned"
	return decide(x.value-r.plan.Cellar.Pitch.Celsius() > pitchWarmest, text, x.entry)
}

// fermenting are the temperatures in the fermenter.
func (r *reader) fermenting() []read {
	e, pitched := r.pitched()
	if !pitched {
		return nil
	}
	until, _ := r.packed()
	return between(r.readings(gyle.OfTemperature, gyle.AtFermenter), e.When(), until)
}

func (r *reader) fermentWarm() Sign {
	list := r.fermenting()
	most, from := 0.0, ""
	if yeast, known := data.Yeast(r.yeast()); known {
		most, from = yeast.Temperature.High(), "usual for the yeast"
	}
	if r.plan != nil && r.plan.Cellar.Range != nil {
		most, from = r.plan.Cellar.Range.High.Celsius(), "the plan’s limit"
	}
	if len(list) == 0 || from == "" {
		return silent("no temperature of the fermentation is logged")
	}
	x := highest(list)
	text := fmt.Sprintf("%s at the warmest (%s), %s is %s", r.celsius(x.value), r.clock(x.when), r.celsius(most), from)
	return decide(x.value > most+warmOver, text, x.entry)
}

// cooledEarly looks for a fall of the temperature while the gravity was still to
// fall.
func (r *reader) cooledEarly() Sign {
	list, until := r.fermenting(), gyle.Time{}
	until, _ = r.packed()
	beer := cellar.Of(r.Gyle, until)
	if beer == nil || len(list) == 0 || len(beer.Judged()) == 0 {
		return silent("temperatures and gravities of the fermentation aren’t both logged")
	}
	most, end := list[0], beer.Judged()[len(beer.Judged())-1].SG
	if beer.Forced > 1 {
		end = beer.Forced
	}
	for _, x := range list {
		if x.value > most.value {
			most = x
		}
		if x.value > most.value-cooledBy {
			continue
		}
		at := x.when.Since(beer.Pitched)
		then := beer.Judged()[0].SG
		for _, g := range beer.Judged() {
			if g.At <= at {
				then = g.SG
			}
		}
		text := fmt.Sprintf("%s on %s, after %s, at a gravity of %s; it ended at %s", r.celsius(x.value), r.clock(x.when), r.celsius(most.value), r.pr.SG(then), r.pr.SG(end))
		return decide(float64(then-end) > unfinished, text, x.entry)
	}
	return against("it was not cooled before it was packaged")
}

// stay is how long the beer was on its yeast.
func (r *reader) stay(judge func(days float64) bool) Sign {
	e, pitched := r.pitched()
	until, packed := r.packed()
	if !pitched || until.IsZero() {
		return silent("pitching and packaging aren’t both logged")
	}
	n := days(e.When(), until)
	return decide(judge(n), fmt.Sprintf("packaged %s days after pitching", r.pr.Number(n, 0)), e, packed)
}

func (r *reader) packedEarly() Sign { return r.stay(func(n float64) bool { return n < packedSoon }) }
func (r *reader) onYeastLong() Sign { return r.stay(func(n float64) bool { return n > yeastLong }) }

func (r *reader) unproven() Sign {
	list := r.readings(gyle.OfGravity, gyle.AtForcedTest)
	if len(list) == 0 {
		return shows("no forced test is logged")
	}
	return against("a forced test is logged for "+r.clock(list[0].when), list[0].entry)
}

// final compares the end of the fermentation with the plan's; side is −1 for a
// drier beer, +1 for a sweeter one.
func (r *reader) final(side float64) Sign {
	if r.Made == nil || r.plan == nil || r.plan.Gravity.FG <= 0 || len(r.readings(gyle.OfGravity, gyle.AtFermenter)) == 0 {
		return silent("no end of the fermentation is logged beside a plan")
	}
	fg := r.Made.Brewed.FG
	text := "it ended at " + r.pr.SG(fg) + ", " + r.pr.SG(r.plan.Gravity.FG) + " planned"
	return decide(side*float64(fg-r.plan.Gravity.FG) > attenuated, text)
}

func (r *reader) dryHopsMuch() Sign {
	list := r.deeds(gyle.DryHops)
	if len(list) == 0 {
		return against("no dry hops are logged")
	}
	sum := quantity.Mass(0)
	for _, e := range list {
		if e.Deed.Mass != nil {
			sum += *e.Deed.Mass
		}
	}
	text, much := r.pr.Mass(sum)+" of dry hops", false
	if r.plan != nil && r.plan.Volumes.Collected > 0 {
		dose := sum.Grams() / r.plan.Volumes.Collected.Litres()
		text += fmt.Sprintf(" (%s)", r.pr.Dose(quantity.Dose(dose)))
		much = dose > dryMost
	}
	if until, _ := r.packed(); !until.IsZero() {
		n := days(list[0].When(), until)
		text += fmt.Sprintf(" for %s days", r.pr.Number(n, 0))
		much = much || n > dryLong
	}
	return decide(much, text, list...)
}

// primed compares the priming sugar with the plan's.
func (r *reader) primed(side float64) Sign {
	e, done := r.first(gyle.Primed)
	if !done || e.Deed.Mass == nil || r.plan == nil || r.plan.Cellar.Priming <= 0 {
		return silent("no priming is logged beside a plan")
	}
	text := fmt.Sprintf("%s of %s instead of %s", r.pr.Mass(*e.Deed.Mass), e.Deed.What, r.pr.Mass(r.plan.Cellar.Priming))
	return decide(side*float64(*e.Deed.Mass/r.plan.Cellar.Priming-1) > primedOff, text, e)
}

func (r *reader) aged() Sign {
	from, _ := r.packed()
	if !r.Packed.IsZero() {
		from = gyle.Time{Time: r.Packed.Time}
	}
	if from.IsZero() || r.Tasted.IsZero() {
		return silent("the age of the bottle isn’t known")
	}
	n := r.Tasted.Sub(from.Time).Hours() / 24
	return decide(n > agedFrom, fmt.Sprintf("%s days old when it was tasted", r.pr.Number(n, 0)))
}

func (r *reader) keptWarm() Sign {
	if r.Kept.IsZero() {
		return silent("nothing says how warm the bottles were kept")
	}
	return decide(r.Kept.Celsius() > storeWarm, "kept at "+r.pr.Temperature(r.Kept))
}
