// SPDX-License-Identifier: MIT

package day

import (
	"fmt"
	"strings"

	"gyle/gyle"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/boil"
)

// How long things take that no plan says. Common practice on small kit.
const (
	weighing  quantity.Duration = 20
	treating  quantity.Duration = 10
	crushing  quantity.Duration = 15
	stirring  quantity.Duration = 5 // grain in, until a temperature can be trusted
	untilPH   quantity.Duration = 10
	untilAcid quantity.Duration = 2
	draining  quantity.Duration = 3 // before the sparge
	runningUp quantity.Duration = 30
	reading   quantity.Duration = 3
	adding    quantity.Duration = 1
	airing    quantity.Duration = 5
	pitching  quantity.Duration = 3
)

// course is what can differ from the plan in the times of a kettle.
type course struct {
	boil    quantity.Duration
	tau     quantity.Duration // of the cooling
	waiting quantity.Duration // before the boil, without heat
	heating quantity.Duration // before the dough-in, without heat
}

// layout is the tasks of a plan, each after another one.
type layout struct {
	plan   *gyle.Plan
	pr     quantity.Printer
	course course
	tasks  []Task
}

func newLayout(p *gyle.Plan, pr quantity.Printer, c course) *layout {
	l := &layout{plan: p, pr: pr, course: c}
	l.prepare()
	l.mash()
	l.kettle()
	l.afterBoil()
	return l
}

func (l *layout) add(t Task) { l.tasks = append(l.tasks, t) }

// number writes down a planned number that a reading of the log may answer.
func number(what, planned string, of gyle.Of, at gyle.Place) Number {
	return Number{What: what, Planned: planned, of: of, at: at}
}

func (l *layout) prepare() {
	p, pr := l.plan, l.pr
	weigh := Task{Key: "weigh", What: "Weigh out", Time: weighing, Hands: true, shows: did(gyle.Weighed)}
	for _, g := range p.Grist {
		weigh.Numbers = append(weigh.Numbers, Number{What: strings.TrimSpace(g.Malt + " " + g.Lot), Planned: pr.Mass(g.Mass)})
	}
	for _, c := range p.Hops {
		weigh.Numbers = append(weigh.Numbers, Number{What: strings.TrimSpace(c.Hop + " " + c.Lot + ", " + c.At), Planned: pr.Mass(c.Mass)})
	}
	l.add(weigh)
	treat := Task{Key: "treat", What: "Treat the liquor", Time: treating, Hands: true, after: "weigh", offset: weighing, shows: did(gyle.SaltsIn)}
	treat.Numbers = append(treat.Numbers, Number{What: "mash liquor", Planned: pr.Volume(p.Liquor.Mash)})
	if soft := p.Liquor.Soft; soft > 0 {
		treat.Numbers = append(treat.Numbers, Number{What: "soft water in all of the liquor", Planned: pr.Volume(soft)})
	}
	for _, s := range p.Salts {
		treat.Numbers = append(treat.Numbers, Number{What: s.Salt, Planned: pr.Mass(s.Mass)})
	}
	if a := p.Mash.Acid; a != nil {
		treat.Numbers = append(treat.Numbers, Number{What: a.Acid + " (goggles; acid into water)", Planned: pr.Volume(a.Volume)})
	}
	l.add(treat)
	if !l.mashes() {
		return
	}
	l.add(Task{Key: "heat", What: "Heat the liquor", Time: p.Liquor.HeatUp, after: "treat", offset: treating, shows: did(gyle.HeatOn),
		Numbers: []Number{number("strike", pr.Temperature(p.Liquor.Strike), gyle.OfTemperature, gyle.AtStrike)}})
	l.add(Task{Key: "crush", What: "Crush", Time: crushing, Hands: true, after: "treat", offset: treating, shows: did(gyle.Crushed)})
}

// mashes reports whether there is a mash at all.
func (l *layout) mashes() bool { return l.plan.Liquor.Mash > 0 }

// fill fills the kettle where nothing is mashed.
func (l *layout) fill() {
	l.add(Task{Key: "run-off", What: "Fill the kettle, stir malt and extract in off the heat", Time: treating, Hands: true, after: "treat", offset: treating,
		shows: either(did(gyle.LiquorIn), did(gyle.ExtractIn)), Numbers: []Number{{What: "liquor", Planned: l.pr.Volume(l.plan.Liquor.Sparge)}}})
	l.hopsAt(recipe.AtMash, "run-off")
	l.hopsAt(recipe.AtFirstWort, "run-off")
	l.fullKettle(treating)
}

func (l *layout) mash() {
	if !l.mashes() {
		l.fill()
		return
	}
	p, pr := l.plan, l.pr
	heated := max(p.Liquor.HeatUp, crushing) + l.course.heating
	doughIn := Task{Key: "dough-in", What: "Dough in", Time: stirring, Hands: true, Alarm: true, after: "heat", offset: heated, shows: did(gyle.GrainIn)}
	doughIn.Numbers = []Number{number("grain", l.temperature(p.Liquor.Grain), gyle.OfTemperature, gyle.AtGrain)}
	if t := l.firstRest(); !t.IsZero() {
		doughIn.Numbers = append(doughIn.Numbers, number("mash", pr.Temperature(t), gyle.OfTemperature, gyle.AtMash))
	}
	l.add(doughIn)
	l.hopsAt(recipe.AtMash, "dough-in")
	if p.Mash.PH > 0 {
		l.add(Task{Key: "ph", What: "Read the pH of a cooled sample", Time: reading, Hands: true, Alarm: true, after: "dough-in", offset: untilPH,
			shows: read(gyle.OfPH, gyle.AtMash), Numbers: []Number{number("pH", pr.PH(p.Mash.PH), gyle.OfPH, gyle.AtMash)}})
		l.add(Task{Key: "acid", What: "Correct the pH, if the reading asks for it", Time: adding, Hands: true, Wish: true, after: "ph", offset: untilAcid, since: "ph",
			shows: did(gyle.AcidIn)})
	}
	end := quantity.Duration(0)
	for i, s := range p.Steps {
		end = max(end, s.At+s.Time)
		if i > 0 {
			l.mashStep(i, s)
		}
	}
	l.runOff(end)
}

// mashStep is late grain, heating, an infusion or a later rest.
func (l *layout) mashStep(i int, s gyle.Step) {
	t := Task{Key: fmt.Sprintf("mash %d", i+1), What: capital(s.What), Alarm: true, Time: adding, Hands: true, after: "dough-in", offset: s.At}
	switch malt, isGrain := strings.CutSuffix(s.What, " in"); {
	case isGrain:
		t.shows = didWith(gyle.GrainIn, malt)
		for _, g := range l.plan.Grist {
			if g.Malt == malt && g.In != "" {
				t.Numbers = append(t.Numbers, Number{What: strings.TrimSpace(g.Malt + " " + g.Lot), Planned: l.pr.Mass(g.Mass)})
			}
		}
	case s.What == "heat":
		t.shows, t.since, t.Time, t.Hands = did(gyle.HeatOn), "dough-in", s.Time, false
		t.Numbers = []Number{{What: "to", Planned: l.pr.Temperature(s.Temperature)}}
	case s.What == "rest":
		t.What, t.Time, t.Hands = fmt.Sprintf("Rest at %s", l.pr.Temperature(s.Temperature)), s.Time, false
	}
	l.add(t)
}

func (l *layout) runOff(end quantity.Duration) {
	p, pr := l.plan, l.pr
	l.add(Task{Key: "run-off", What: "Run off, or lift the basket", Time: runningUp, Alarm: true, after: "dough-in", offset: end, shows: did(gyle.RunOffStart)})
	if p.Liquor.Sparge > 0 {
		t := Task{Key: "sparge", What: "Sparge (hot liquor scalds)", Time: runningUp - draining, after: "run-off", offset: draining, shows: did(gyle.Sparged)}
		t.Numbers = []Number{{What: "liquor", Planned: pr.Volume(p.Liquor.Sparge) + " at " + pr.Temperature(p.Liquor.SpargeAt)}}
		if a := p.Liquor.SpargeAcid; a != nil {
			t.Numbers = append(t.Numbers, Number{What: a.Acid, Planned: pr.Volume(a.Volume)})
		}
		l.add(t)
	}
	l.hopsAt(recipe.AtFirstWort, "run-off")
	l.fullKettle(runningUp)
}

// fullKettle is read so long after the run-off began.
func (l *layout) fullKettle(filled quantity.Duration) {
	p, pr := l.plan, l.pr
	l.add(Task{Key: "full kettle", What: "Mix, then read the full kettle", Time: reading, Hands: true, Alarm: true, after: "run-off", offset: filled,
		shows: readAt(gyle.AtFullKettle, gyle.OfVolume, gyle.OfGravity, gyle.OfRefractometer),
		Numbers: []Number{
			number("volume", pr.VolumeAt(p.Volumes.FullKettleHot), gyle.OfVolume, gyle.AtFullKettle),
			number("gravity", pr.SG(p.Gravity.FullKettle), gyle.OfGravity, gyle.AtFullKettle),
		}})
}

func (l *layout) kettle() {
	p, pr := l.plan, l.pr
	l.add(Task{Key: "boil", What: "Boil", Time: l.course.boil, Alarm: true, after: "full kettle", offset: p.Boil.HeatUp + l.course.waiting, shows: did(gyle.BoilStart),
		Numbers: []Number{
			{What: "for", Planned: pr.Duration(l.course.boil)},
			number("evaporation", fmt.Sprintf("%s kg/h", pr.Number(float64(p.Boil.PerHour), 2)), gyle.OfEvaporation, gyle.AtBoil),
		}})
	l.hopsAt(recipe.AtBoil, "boil")
	l.add(Task{Key: "knock-out", What: "Knock-out: heat off, read the kettle", Time: reading, Hands: true, Alarm: true, after: "boil", offset: l.course.boil,
		shows: either(did(gyle.KnockOut), readAt(gyle.AtKnockOut, gyle.OfVolume)),
		Numbers: []Number{
			number("volume", pr.VolumeAt(p.Volumes.KnockOutHot), gyle.OfVolume, gyle.AtKnockOut),
			number("gravity", pr.SG(p.Gravity.OG), gyle.OfGravity, gyle.AtKnockOut),
		}})
	l.hopsAt(recipe.AtFlameOut, "knock-out")
}

// hopsAt adds the charges of a stage, after a task.
func (l *layout) hopsAt(stage recipe.Stage, after string) {
	for i, c := range l.plan.Hops {
		var at recipe.Moment
		if err := at.UnmarshalText([]byte(c.At)); err != nil || at.Stage != stage {
			continue
		}
		offset := quantity.Duration(0)
		if stage == recipe.AtBoil {
			offset = max(l.course.boil-at.Time, 0)
		}
		l.hops(i, after, offset)
	}
}

func (l *layout) hops(i int, after string, offset quantity.Duration) {
	c := l.plan.Hops[i]
	l.add(Task{Key: fmt.Sprintf("hops %d", i+1), What: capital(c.Hop) + " in, " + c.At, Time: adding, Hands: true, Alarm: true, after: after, offset: offset,
		shows: hopsIn(c.Hop, c.At), Numbers: []Number{{What: strings.TrimSpace(c.Hop + " " + c.Lot), Planned: l.pr.Mass(c.Mass)}}})
}

// afterBoil follows the path of the kettle to the cold wort.
func (l *layout) afterBoil() {
	after, offset, n := "knock-out", quantity.Duration(0), 0
	hung := map[int]bool{}
	for _, s := range l.plan.Path {
		if s.Name == "boil" || s.Name == "heat to the boil" {
			continue
		}
		n++
		t := Task{Key: fmt.Sprintf("path %d", n), What: capital(s.Name), Time: l.stepTime(s), Alarm: s.Name == "stand" || n == 1, after: after, offset: offset,
			shows:   stepShows(s.Name),
			Numbers: []Number{{What: "to", Planned: l.pr.Temperature(s.To)}}}
		l.add(t)
		if s.Name == "stand" {
			l.standHops(s, t, hung)
		}
		after, offset = t.Key, t.Time
	}
	l.add(Task{Key: "collected", What: "Read the collected wort", Time: reading, Hands: true, Alarm: true, after: after, offset: offset,
		shows: readAt(gyle.AtFermenter, gyle.OfVolume), Numbers: []Number{
			number("volume", l.pr.Volume(l.plan.Volumes.Collected), gyle.OfVolume, gyle.AtFermenter),
			{What: "temperature", Planned: l.temperature(l.plan.Cellar.Pitch)},
		}})
	l.add(Task{Key: "aerate", What: "Aerate", Time: airing, Hands: true, after: "collected", offset: reading, shows: did(gyle.Aerated)})
	l.add(Task{Key: "pitch", What: "Pitch", Time: pitching, Hands: true, after: "aerate", offset: airing, shows: did(gyle.Pitched),
		Numbers: []Number{{What: strings.TrimSpace(l.plan.Cellar.Yeast + ", dry"), Planned: l.pr.Mass(l.plan.Cellar.Dry)}}})
}

// standHops hangs the charges of a stand on it, those of the hottest stand
// first: each is in for its own time before the end.
func (l *layout) standHops(s gyle.PathStep, stand Task, hung map[int]bool) {
	for i, c := range l.plan.Hops {
		var at recipe.Moment
		if err := at.UnmarshalText([]byte(c.At)); err != nil || at.Stage != recipe.AtStand || hung[i] || s.From.Below(at.Temperature.Add(-1.5)) || at.Temperature.Below(s.From.Add(-1.5)) {
			continue
		}
		hung[i] = true
		l.hops(i, stand.Key, max(s.Time-at.Time, 0))
	}
}

// stepTime is how long a step takes with the cooling as it is.
func (l *layout) stepTime(s gyle.PathStep) quantity.Duration {
	if tau := l.course.tau; tau > 0 && l.plan.Cooler.Tau > 0 && tau != l.plan.Cooler.Tau && cools(s.Name) {
		if t := boil.CoolingTime(s.From, s.To, l.plan.Cooler.Water, tau); t > 0 {
			return t
		}
	}
	return s.Time
}

// cools reports whether the cooler works in a step of a path.
func cools(name string) bool { return name == "chill" || strings.HasPrefix(name, "cool to") }

func (l *layout) temperature(t quantity.Temperature) string {
	if t.IsZero() {
		return ""
	}
	return l.pr.Temperature(t)
}

func (l *layout) firstRest() quantity.Temperature {
	for _, s := range l.plan.Steps {
		if s.What == "rest" {
			return s.Temperature
		}
	}
	return quantity.Temperature{}
}

// capital writes the first letter large.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
