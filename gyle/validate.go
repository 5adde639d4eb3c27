// SPDX-License-Identifier: MIT

package gyle

import (
	"fmt"
	"strings"

	"gyle/internal/document"
	"gyle/quantity"
)

// adder notes a fault at a path.
type adder func(path, hint, format string, args ...any)

// Validate finds the faults that no single field shows.
func (g *Gyle) Validate(s *document.Source) document.Faults {
	var faults document.Faults
	add := func(path, hint, format string, args ...any) {
		faults = append(faults, s.Fault(path, fmt.Sprintf(format, args...), hint))
	}
	g.validateInstruments(add)
	at := g.Log.places(add)
	for i, e := range g.Log {
		path := fmt.Sprintf("log[%d]", i)
		e.validateBody(path, add)
		e.validatePointers(path, at, add)
		if e.Reading != nil {
			g.validateInstrumentOf(*e.Reading, path+".reading", add)
		}
	}
	return faults
}

// places returns where each ID stands, and complains of those that stand twice.
func (l Log) places(add adder) map[ID]int {
	at := make(map[ID]int, len(l))
	for i, e := range l {
		if before, twice := at[e.ID]; twice {
			add(fmt.Sprintf("log[%d].id", i), "each entry has an id of its own; to change an entry, write a correction: {of: "+string(e.ID)+"}", "entry %s stands already at log[%d]", e.ID, before)
			continue
		}
		at[e.ID] = i
	}
	return at
}

func (g *Gyle) validateInstruments(add adder) {
	seen := map[string]bool{}
	for i, one := range g.Instruments {
		path := fmt.Sprintf("instruments[%d]", i)
		if seen[one.Name] {
			add(path+".name", "give it another name", "there are two instruments called %s", one.Name)
		}
		seen[one.Name] = true
		if _, err := one.Spread(); one.SD != "" && err != nil {
			add(path+".sd", `write it as a reading of this instrument: "0.0005" for a hydrometer, "0.2 L", "0.3 K"`, "%v", err)
		}
		if one.Factor != nil && (one.Of != OfRefractometer || *one.Factor <= 0) {
			add(path+".factor", "common factors are 1.02 to 1.06", "only a refractometer has a factor, and it is more than nothing")
		}
	}
}

// validateInstrumentOf complains of a reading whose instrument isn't among
// those of the gyle, where it lists any.
func (g *Gyle) validateInstrumentOf(r Reading, path string, add adder) {
	if r.With == "" || len(g.Instruments) == 0 {
		return
	}
	one, known := g.Find(r.With)
	if !known {
		names := make([]string, len(g.Instruments))
		for i, x := range g.Instruments {
			names[i] = x.Name
		}
		hint := "the instruments are " + strings.Join(names, ", ")
		if near, ok := document.Nearest(r.With, names); ok {
			hint = "did you mean " + near + "?"
		}
		add(path+".with", hint, "%q is no instrument of this gyle", r.With)
		return
	}
	if one.Of != r.Of {
		add(path+".with", "", "%s reads %s, not %s", one.Name, one.Of, r.Of)
	}
}

// validateBody checks that an entry says one thing, and says it wholly.
func (e Entry) validateBody(path string, add adder) {
	bodies := 0
	for _, has := range []bool{e.Reading != nil, e.Deed != nil, e.Interruption != nil, e.Choice != nil, e.Series != nil, e.Override != nil} {
		if has {
			bodies++
		}
	}
	switch c := e.Correction; {
	case bodies > 1:
		add(path, "make an entry of each", "an entry is one of reading, deed, interruption, choice, series and override")
	case c != nil && c.Strike && bodies > 0:
		add(path, "take strike or the body away", "a correction strikes an entry or says what it should have been")
	case c != nil && !c.Strike && c.Time.IsZero() && bodies == 0 && e.Note == "":
		add(path+".correction", "add the right reading or deed, or strike: yes", "the correction doesn't say what is right")
	case c == nil && bodies == 0 && e.Note == "":
		add(path, "add reading, deed, interruption, choice, series, override or note", "the entry says nothing")
	}
	if e.Reading != nil {
		e.Reading.validate(path+".reading", add)
	}
	if e.Deed != nil {
		e.Deed.validate(path+".deed", add)
	}
	if e.Series != nil {
		e.Series.validate(path+".series", add)
	}
	if i := e.Interruption; i != nil && !i.To.IsZero() && i.To.Before(i.From.Time) {
		add(path+".interruption.to", "", "it ends before it begins")
	}
}

func (r Reading) validate(path string, add adder) {
	m, err := understand(r.Value, r.Of)
	if err != nil {
		hint := ""
		if e, ok := err.(*quantity.ParseError); ok {
			hint = e.Hint
		}
		add(path+".value", hint, "%v", err)
		return
	}
	if !m.Sample.IsZero() && !r.Sample.IsZero() {
		add(path+".sample", "keep one of the two", "the temperature of the sample is given twice")
	}
}

// needs says what a deed can't be without.
var needs = map[Do]struct {
	fields string
	met    func(Deed) bool
	hint   string
}{
	SaltsIn:   {"a salt and a mass", Deed.hasMass, "add what: gypsum, mass: 4 g"},
	AcidIn:    {"an acid and a volume", Deed.hasVolume, "add what: lactic-88, volume: 1.8 mL"},
	WaterIn:   {"a volume", func(d Deed) bool { return d.Volume != nil }, "add volume: 1.5 L @ 100 °C"},
	WortAway:  {"a volume", func(d Deed) bool { return d.Volume != nil }, "add volume: 2 L"},
	ExtractIn: {"a malt or sugar and a mass", Deed.hasMass, "add what: dry-extract, mass: 0.18 kg"},
	HopsIn:    {"a hop and a mass", Deed.hasMass, "add what: challenger, mass: 35 g"},
	DryHops:   {"a hop and a mass", Deed.hasMass, "add what: challenger, mass: 35 g"},
	Pitched:   {"an amount", func(d Deed) bool { return d.Mass != nil || d.Volume != nil || d.Cells > 0 }, "add mass: 18 g, volume: 1 L or cells: 180 (10⁹)"},
	Packaged:  {"a volume or a count", func(d Deed) bool { return d.Volume != nil || d.Count > 0 }, "add volume: 19.3 L or count: 38"},
}

func (d Deed) hasMass() bool   { return d.What != "" && d.Mass != nil }
func (d Deed) hasVolume() bool { return d.What != "" && d.Volume != nil }

func (d Deed) validate(path string, add adder) {
	if n, found := needs[d.Do]; found && !n.met(d) {
		add(path, n.hint, "%s needs %s", d.Do, n.fields)
	}
	if d.Mass != nil && *d.Mass < 0 {
		add(path+".mass", "", "a mass can't be negative")
	}
	if d.Volume != nil && d.Volume.Volume < 0 {
		add(path+".volume", "", "a volume can't be negative")
	}
	if d.Time < 0 {
		add(path+".time", "", "a time can't be negative")
	}
	if d.Cells < 0 || d.Count < 0 {
		add(path, "", "a count can't be negative")
	}
}

// validatePointers checks that what an entry points at is there and is another.
func (e Entry) validatePointers(path string, at map[ID]int, add adder) {
	if e.Choice != nil && e.Choice.Over != "" {
		if _, known := at[e.Choice.Over]; !known {
			add(path+".choice.over", "write the id of the reading", "there is no entry %s", e.Choice.Over)
		}
	}
	if e.Correction == nil {
		return
	}
	_, known := at[e.Correction.Of]
	switch {
	case e.Correction.Of == e.ID:
		add(path+".correction.of", "write the id of an earlier entry", "an entry can't correct itself")
	case !known:
		add(path+".correction.of", "write the id of the entry that was wrong", "there is no entry %s", e.Correction.Of)
	}
}
