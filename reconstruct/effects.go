// SPDX-License-Identifier: MIT

package reconstruct

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/quantity"
)

// An Effect is what one slip did to the beer: the beer as brewed beside the
// beer that the same day would have made without this one slip.
type Effect struct {
	Slip     string // "evaporation 2.20 kg/h instead of 3.03 kg/h"
	Without  Beer
	Change   Change // as brewed less without
	Sentence string
}

// Change is the difference of two beers.
type Change struct {
	IBU, Late quantity.IBU
	Volume    quantity.Volume // at knock-out
	OG        float64         // SG
	ABV       quantity.Fraction
	Color     quantity.EBC
	DMS       float64 // µg/L, at the high end of the malt
	Light     string  // "green → amber" where it changed
}

// changeOf returns b less a.
func changeOf(a, b Beer) Change {
	c := Change{
		IBU: b.IBU - a.IBU, Late: b.Late - a.Late, Volume: b.KnockOut.Volume - a.KnockOut.Volume, OG: float64(b.Collected.SG - a.Collected.SG),
		ABV: b.ABV - a.ABV, Color: b.Color - a.Color, DMS: float64(b.DMS.High - a.DMS.High),
	}
	if a.DMS.Light != b.DMS.Light {
		c.Light = a.DMS.Light + " → " + b.DMS.Light
	}
	return c
}

// Effects undoes the slips of a day, one at a time, and says what each did to
// the beer, the largest effect on the bitterness first. Slips act together, so
// the effects don't add up exactly to the whole, which is [Total].
func Effects(planned, brewed Facts) []Effect {
	as := brewed.Brew()
	var out []Effect
	for _, s := range slips(planned, brewed) {
		facts := brewed.clone()
		s.undo(&facts)
		e := Effect{Slip: s.says, Without: facts.Brew()}
		e.Change = changeOf(e.Without, as)
		e.Sentence = e.Slip + ": " + e.Change.Text(planned.reader)
		out = append(out, e)
	}
	slices.SortStableFunc(out, func(a, b Effect) int {
		return int(math.Copysign(1, math.Abs(float64(b.Change.IBU))-math.Abs(float64(a.Change.IBU))))
	})
	return out
}

// Total is the difference of the beer as brewed to the beer as planned.
func Total(planned, brewed Facts) Change { return changeOf(planned.Brew(), brewed.Brew()) }

func (f Facts) clone() Facts {
	f.Boil, f.Cooling, f.Charges = slices.Clone(f.Boil), slices.Clone(f.Cooling), slices.Clone(f.Charges)
	return f
}

// String lists what changed, or says that nothing did.
func (c Change) String() string { return c.Text(quantity.Printer{}) }

// Text is String in the units and with the decimal mark of a reader.
func (c Change) Text(p quantity.Printer) string {
	var parts []string
	add := func(x, least float64, decimals int, unit string) {
		if math.Abs(x) >= least {
			sign := ""
			if x > 0 {
				sign = "+"
			}
			parts = append(parts, sign+p.Number(x, decimals)+unit)
		}
	}
	add(float64(c.IBU), 0.05, 1, " IBU")
	if u := UnitsFor(p); u.Volume != "L" {
		add(float64(c.Volume)*u.PerLitre, 0.05*u.PerLitre, 2, " "+u.Volume)
	} else {
		add(float64(c.Volume), 0.05, 1, " L")
	}
	add(c.OG*1000, 0.1, 1, " gravity points")
	add(100*float64(c.ABV), 0.02, 2, " % alcohol")
	if p.System == quantity.USCustomary {
		add(c.Color.SRM(), 0.1, 1, " SRM")
	} else {
		add(float64(c.Color), 0.2, 1, " EBC")
	}
	if c.Light != "" {
		parts = append(parts, "DMS light "+c.Light)
	} else {
		add(c.DMS, 2, 0, " µg/L DMS")
	}
	if len(parts) == 0 {
		return "no effect worth a number"
	}
	return strings.Join(parts, ", ")
}

// undoing is a slip that can be undone.
type undoing struct {
	says string
	undo func(*Facts)
}

// slips lists where a day differs from its plan.
func slips(planned, brewed Facts) []undoing {
	var out []undoing
	out = append(out, mashSlips(planned, brewed)...)
	out = append(out, boilSlips(planned, brewed)...)
	out = append(out, coolingSlips(planned, brewed)...)
	return append(out, hopSlips(planned, brewed)...)
}

// leastMinutes is the shortest difference in the boil worth a line. Own choice.
const leastMinutes = 1

// differ reports whether two numbers differ by more than a share of the first.
func differ(a, b, share float64) bool { return math.Abs(a-b) > share*math.Abs(a) }

func mashSlips(planned, brewed Facts) []undoing {
	var out []undoing
	p := planned.reader
	if differ(float64(planned.Lab), float64(brewed.Lab), 0.002) || differ(float64(planned.Grist), float64(brewed.Grist), 0.002) {
		out = append(out, undoing{fmt.Sprintf("%s of grist instead of %s", p.Mass(brewed.Grist), p.Mass(planned.Grist)), func(f *Facts) {
			f.Grist, f.Lab, f.Lovibond = planned.Grist, planned.Lab, planned.Lovibond
		}})
	}
	if math.Abs(float64(planned.Liquor-brewed.Liquor)) >= 0.05 {
		out = append(out, undoing{fmt.Sprintf("%s of liquor instead of %s", p.Volume(brewed.Liquor), p.Volume(planned.Liquor)), func(f *Facts) { f.Liquor = planned.Liquor }})
	}
	if differ(float64(planned.Yield), float64(brewed.Yield), 0.002) {
		out = append(out, undoing{fmt.Sprintf("a yield of %s instead of %s", p.Fraction(brewed.Yield, 1), p.Fraction(planned.Yield, 1)), func(f *Facts) { f.Yield = planned.Yield }})
	}
	if differ(float64(planned.Absorption), float64(brewed.Absorption), 0.01) || math.Abs(float64(planned.Dead-brewed.Dead)) > 0.05 {
		out = append(out, undoing{fmt.Sprintf("grain that kept %s instead of %s", p.Ratio(brewed.Absorption), p.Ratio(planned.Absorption)), func(f *Facts) {
			f.Absorption, f.Dead = planned.Absorption, planned.Dead
		}})
	}
	return out
}

func boilSlips(planned, brewed Facts) []undoing {
	var out []undoing
	p := planned.reader
	if differ(float64(planned.PerHour), float64(brewed.PerHour), 0.005) {
		out = append(out, undoing{fmt.Sprintf("evaporation of %s instead of %s kg/h", p.Number(float64(brewed.PerHour), 2), p.Number(float64(planned.PerHour), 2)), func(f *Facts) { f.PerHour = planned.PerHour }})
	}
	if a, b := planned.boilsAt(), brewed.boilsAt(); math.Abs(float64(a.Sub(b))) > 0.15 {
		out = append(out, undoing{fmt.Sprintf("a boil at %s instead of %s", p.Temperature(b), p.Temperature(a)), func(f *Facts) { boilAt(f, a) }})
	}
	meant, was := length(planned.Boil), length(brewed.Boil)
	for _, p := range pausesOf(planned, brewed) {
		was -= p.added
	}
	if math.Abs(float64(meant-was)) >= leastMinutes {
		out = append(out, undoing{fmt.Sprintf("a boil of %s instead of %s", p.Duration(was), p.Duration(meant)), func(f *Facts) { boilLonger(f, meant-was) }})
	}
	out = append(out, pauses(planned, brewed)...)
	if w := brewed.WaterIn - planned.WaterIn; w > 0.02 {
		out = append(out, undoing{fmt.Sprintf("%s of water into the kettle", p.Mass(w)), func(f *Facts) { f.WaterIn = planned.WaterIn }})
	}
	if e := brewed.ExtractIn - planned.ExtractIn; e > 0.005 {
		out = append(out, undoing{fmt.Sprintf("%s of extract into the kettle", p.Mass(e)), func(f *Facts) { f.ExtractIn, f.Extract = planned.ExtractIn, planned.Extract }})
	}
	return out
}

// boilAt moves every boiling leg to a temperature.
func boilAt(f *Facts, t quantity.Temperature) {
	for i := range f.Boil {
		if f.Boil[i].Boils {
			f.Boil[i].From, f.Boil[i].To = t, quantity.Temperature{}
		}
	}
}

// boilLonger stretches the boil at its start, or shortens it, so that the charges
// keep their times before flame-out.
func boilLonger(f *Facts, missing quantity.Duration) {
	for i := range f.Boil {
		if l := &f.Boil[i]; l.Boils {
			change := max(missing, -l.Time)
			l.Time += change
			missing -= change
			if missing >= 0 {
				return
			}
		}
	}
}

func coolingSlips(planned, brewed Facts) []undoing {
	var out []undoing
	p := planned.reader
	for at, l := range brewed.Cooling {
		if at > 0 && brewed.Cooling[at-1].Name == l.Name {
			continue // one stretch in several pieces
		}
		i := slices.IndexFunc(planned.Cooling, func(k Leg) bool { return k.Name == l.Name })
		if i < 0 {
			if l.Time > 1 {
				name := l.Name
				out = append(out, undoing{fmt.Sprintf("%s for %s, which wasn't planned", name, p.Duration(l.Time)), func(f *Facts) {
					f.Cooling = slices.DeleteFunc(f.Cooling, func(k Leg) bool { return k.Name == name })
				}})
			}
			continue
		}
		was, meant := legTime(brewed, l.Name), legTime(planned, l.Name)
		if math.Abs(float64(was-meant)) > max(0.5, 0.03*meant.Minutes()) {
			out = append(out, undoing{fmt.Sprintf("%s in %s instead of %s", l.Name, minutes(was), minutes(meant)), func(f *Facts) {
				f.Cooling = replaceLegs(f.Cooling, l.Name, planned.Cooling[i])
			}})
		}
	}
	if math.Abs(float64(planned.KettleLoss-brewed.KettleLoss)) > 0.1 {
		out = append(out, undoing{fmt.Sprintf("%s left in the kettle instead of %s", p.Volume(brewed.KettleLoss), p.Volume(planned.KettleLoss)), func(f *Facts) { f.KettleLoss = planned.KettleLoss }})
	}
	return out
}

// replaceLegs puts one leg in the place of all of a name.
func replaceLegs(legs []Leg, name string, by Leg) []Leg {
	var out []Leg
	done := false
	for _, l := range legs {
		switch {
		case l.Name != name:
			out = append(out, l)
		case !done:
			out, done = append(out, by), true
		}
	}
	return out
}

// minutes prints a time as a stopwatch is read: to half a minute below a
// quarter of an hour.
func minutes(d quantity.Duration) string {
	half := math.Round(2*d.Minutes()) / 2
	if half < 15 && half != math.Trunc(half) {
		return quantity.Printer{}.Number(half, 1) + " min"
	}
	return quantity.Printer{}.Duration(quantity.Duration(math.Round(d.Minutes())))
}

// legTime returns how long the cooling legs of a name take in all.
func legTime(f Facts, name string) quantity.Duration {
	now := f.boilsAt()
	sum := quantity.Duration(0)
	for _, l := range f.Cooling {
		s := l.segment(now)
		now = s.End()
		if l.Name == name {
			sum += s.Duration
		}
	}
	return sum
}

func hopSlips(planned, brewed Facts) []undoing {
	var out []undoing
	paused := pausesOf(planned, brewed)
	p := planned.reader
	for i, c := range brewed.Charges {
		if i >= len(planned.Charges) || planned.Charges[i].Hop != c.Hop {
			continue
		}
		meant := planned.Charges[i]
		if differ(float64(meant.Mass), float64(c.Mass), 0.005) {
			out = append(out, undoing{fmt.Sprintf("%s of %s instead of %s", p.Mass(c.Mass), c.Hop, p.Mass(meant.Mass)), func(f *Facts) { f.Charges[i].Mass = meant.Mass }})
		}
		if differ(float64(meant.Alpha), float64(c.Alpha), 0.005) {
			out = append(out, undoing{fmt.Sprintf("%s of %s alpha acids instead of %s", c.Hop, p.Fraction(c.Alpha, 1), p.Fraction(meant.Alpha, 1)), func(f *Facts) { f.Charges[i].Alpha = meant.Alpha }})
		}
		moved := c.At.IsZero() != meant.At.IsZero() || c.At.IsZero() && math.Abs(float64(c.Boil-meant.Boil)) >= leastMinutes && math.Abs(float64(c.clockOf(paused)-meant.Boil)) >= leastMinutes ||
			!c.At.IsZero() && math.Abs(float64(c.At.Sub(meant.At))) > 0.5
		if moved {
			out = append(out, undoing{fmt.Sprintf("%s went in %s instead of %s", c.Hop, c.moment(p), meant.moment(p)), func(f *Facts) {
				f.Charges[i].At, f.Charges[i].Boil = meant.At, meant.Boil
			}})
		}
	}
	return out
}

// moment says when a charge goes in.
func (c Charge) moment(p quantity.Printer) string {
	if c.At.IsZero() {
		return p.Duration(c.Boil) + " before flame-out"
	}
	if p.System == quantity.USCustomary {
		return "at " + p.Temperature(c.At)
	}
	return "at " + p.Number(c.At.Celsius(), 0) + " °C"
}
