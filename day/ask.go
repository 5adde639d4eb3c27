// SPDX-License-Identifier: MIT

package day

import (
	"strconv"
	"strings"

	"gyle/gyle"
	"gyle/quantity"
)

// Ask is one thing that the log wants to know of a task: a reading to take, or
// a deed whose amount may differ from the plan.
type Ask struct {
	Label   string        `json:"label"`
	Planned string        `json:"planned,omitempty"` // as the plan has it
	Reading *gyle.Reading `json:"-"`                 // its value is still to be read
	Deed    *gyle.Deed    `json:"-"`                 // with the amount of the plan
}

// Asks lists what the log wants to know of a task, from the plan of the gyle.
// It doesn't depend on the log, so that a device without network has it, too.
func Asks(g *gyle.Gyle, t Task, pr quantity.Printer) []Ask {
	a := asker{plan: g.Plan, pr: pr}
	a.deeds(t)
	for _, n := range t.Numbers {
		if n.of != "" {
			a.list = append(a.list, Ask{Label: n.What, Planned: n.Planned, Reading: &gyle.Reading{Of: n.of, At: n.at}})
		}
	}
	a.also(t)
	return a.list
}

// IsReading reports whether something is to be read.
func (a Ask) IsReading() bool { return a.Reading != nil }

// HasAmount reports whether a deed has an amount that could differ.
func (a Ask) HasAmount() bool { return a.Deed != nil && (a.Deed.Mass != nil || a.Deed.Volume != nil) }

// Entry makes an entry, without ID and time, of what was typed. A deed without
// words was done as planned; a reading without words wasn't taken, and gives
// no entry.
func (a Ask) Entry(g *gyle.Gyle, typed string) (e gyle.Entry, echo string, err error) {
	typed = strings.TrimSpace(typed)
	if a.Reading != nil {
		if typed == "" {
			return e, "", nil
		}
		r := *a.Reading
		r.Value = typed
		return g.Read(r)
	}
	d := *a.Deed
	if typed != "" {
		d.Mass, d.Volume = nil, nil
		if err := d.SetAmount(a.withUnit(typed)); err != nil {
			return e, "", err
		}
	}
	e = gyle.Entry{Deed: &d}
	return e, e.Words(), nil
}

// withUnit gives a bare number the unit that the plan has for the amount.
func (a Ask) withUnit(typed string) string {
	if _, err := strconv.ParseFloat(strings.Replace(typed, ",", ".", 1), 64); err != nil {
		return typed
	}
	_, unit, _ := strings.Cut(a.Planned, "\u00a0")
	if unit == "" {
		_, unit, _ = strings.Cut(a.Planned, " ")
	}
	unit, _, _ = strings.Cut(unit, " ")
	return typed + " " + unit
}

// asker collects the asks of a task.
type asker struct {
	plan *gyle.Plan
	pr   quantity.Printer
	list []Ask
}

func (a *asker) did(label string, d gyle.Deed) {
	ask := Ask{Label: label, Deed: &d}
	switch {
	case d.Mass != nil:
		ask.Planned = a.pr.Mass(*d.Mass)
	case d.Volume != nil:
		ask.Planned = a.pr.VolumeAt(*d.Volume)
	}
	a.list = append(a.list, ask)
}

func mass(m quantity.Mass) *quantity.Mass { return &m }

func cold(v quantity.Volume) *quantity.VolumeAt { return &quantity.VolumeAt{Volume: v} }

// deeds asks for what is done in a task.
func (a *asker) deeds(t Task) {
	name, number, _ := strings.Cut(t.Key, " ")
	n, _ := strconv.Atoi(number)
	switch name {
	case "weigh":
		a.did("weighed out", gyle.Deed{Do: gyle.Weighed})
	case "treat":
		a.treat()
	case "heat":
		a.did("heat on", gyle.Deed{Do: gyle.HeatOn, Place: gyle.AtLiquor})
	case "crush":
		a.did("crushed", gyle.Deed{Do: gyle.Crushed})
	case "dough-in":
		a.grain(func(in string) bool { return in == "" }, "")
	case "mash":
		a.mashStep(n - 1)
	case "acid":
		a.acid()
	case "run-off":
		a.runOff()
	case "sparge":
		a.sparge()
	case "hops":
		a.hops(n - 1)
	}
	a.kettle(t, name)
}

// kettle asks for the deeds of the boil and behind it.
func (a *asker) kettle(t Task, name string) {
	switch name {
	case "boil":
		a.did("it boils", gyle.Deed{Do: gyle.BoilStart})
	case "knock-out":
		a.did("heat off", gyle.Deed{Do: gyle.KnockOut})
	case "path":
		a.path(t)
	case "aerate":
		a.did("aerated", gyle.Deed{Do: gyle.Aerated})
	case "pitch":
		c := a.plan.Cellar
		d := gyle.Deed{Do: gyle.Pitched, What: c.Yeast, Cells: c.Cells}
		if c.Dry > 0 {
			d.Mass, d.Cells = mass(c.Dry), 0
		}
		a.did("yeast", d)
	}
}

// also asks for readings that no number of the plan stands for.
func (a *asker) also(t Task) {
	read := func(label, planned string, of gyle.Of, at gyle.Place) {
		a.list = append(a.list, Ask{Label: label, Planned: planned, Reading: &gyle.Reading{Of: of, At: at}})
	}
	switch {
	case t.Key == "collected":
		read("gravity", a.pr.SG(a.plan.Gravity.OG), gyle.OfGravity, gyle.AtFermenter)
		read("temperature", a.pr.Temperature(a.plan.Cellar.Pitch), gyle.OfTemperature, gyle.AtFermenter)
	case strings.HasPrefix(t.Key, "path "):
		at := gyle.AtCooling
		if t.What == "Stand" {
			at = gyle.AtStand
		}
		read("temperature now", "", gyle.OfTemperature, at)
	}
}

func (a *asker) treat() {
	for _, s := range a.plan.Salts {
		a.did(strings.ReplaceAll(s.Salt, "-", " "), gyle.Deed{Do: gyle.SaltsIn, What: s.Salt, Mass: mass(s.Mass)})
	}
	if acid := a.plan.Mash.Acid; acid != nil {
		a.did(acidLabel(acid.Acid), gyle.Deed{Do: gyle.AcidIn, What: acid.Acid, Volume: cold(acid.Volume), Place: gyle.AtMash})
	}
	a.did("liquor in", gyle.Deed{Do: gyle.LiquorIn, Volume: cold(a.plan.Liquor.Mash)})
}

func acidLabel(id string) string { return strings.ReplaceAll(id, "-", " ") + ", goggles on" }

// grain asks for the malts of one moment.
func (a *asker) grain(in func(string) bool, malt string) {
	for _, g := range a.plan.Grist {
		if in(g.In) && (malt == "" || malt == g.Malt) {
			a.did(strings.TrimSpace(g.Malt+" "+g.Lot), gyle.Deed{Do: gyle.GrainIn, What: g.Malt, Lot: g.Lot, Mass: mass(g.Mass), Moment: g.In})
		}
	}
}

func (a *asker) mashStep(i int) {
	if i < 0 || i >= len(a.plan.Steps) {
		return
	}
	s := a.plan.Steps[i]
	if malt, isGrain := strings.CutSuffix(s.What, " in"); isGrain {
		a.grain(func(in string) bool { return in != "" }, malt)
		return
	}
	if s.What == "heat" {
		a.did("heat on", gyle.Deed{Do: gyle.HeatOn, Place: gyle.AtMash, Temperature: s.Temperature})
	}
}

func (a *asker) acid() {
	d := gyle.Deed{Do: gyle.AcidIn, What: "lactic-acid-88", Place: gyle.AtMash, Volume: cold(quantity.Millilitres(1))}
	if planned := a.plan.Mash.Acid; planned != nil {
		d.What = planned.Acid
	}
	a.list = append(a.list, Ask{Label: acidLabel(d.What), Planned: "0 mL", Deed: &d})
}

func (a *asker) runOff() {
	if a.plan.Liquor.Mash > 0 {
		a.did("running off", gyle.Deed{Do: gyle.RunOffStart})
		return
	}
	a.did("liquor in", gyle.Deed{Do: gyle.LiquorIn, Volume: cold(a.plan.Liquor.Sparge)})
	for _, g := range a.plan.Grist {
		a.did(strings.TrimSpace(g.Malt+" "+g.Lot), gyle.Deed{Do: gyle.ExtractIn, What: g.Malt, Lot: g.Lot, Mass: mass(g.Mass)})
	}
}

func (a *asker) sparge() {
	l := a.plan.Liquor
	a.did("liquor", gyle.Deed{Do: gyle.Sparged, Volume: cold(l.Sparge), Temperature: l.SpargeAt})
	if acid := l.SpargeAcid; acid != nil {
		a.did(acidLabel(acid.Acid), gyle.Deed{Do: gyle.AcidIn, What: acid.Acid, Volume: cold(acid.Volume), Place: gyle.AtLiquor})
	}
}

func (a *asker) hops(i int) {
	if i < 0 || i >= len(a.plan.Hops) {
		return
	}
	c := a.plan.Hops[i]
	a.did(strings.TrimSpace(c.Hop+" "+c.Lot), gyle.Deed{Do: gyle.HopsIn, What: c.Hop, Lot: c.Lot, Mass: mass(c.Mass), Moment: c.At})
}

func (a *asker) path(t Task) {
	switch {
	case t.What == "Stand":
		a.did("the stand begins", gyle.Deed{Do: gyle.StandStart})
	case t.What == "Run-off":
		a.did("to the fermenter", gyle.Deed{Do: gyle.Transfer})
	default:
		a.did("cooler on", gyle.Deed{Do: gyle.CoolerOn})
	}
}
