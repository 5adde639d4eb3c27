// SPDX-License-Identifier: MIT

package guest

import (
	"fmt"

	"gyle/data"
	"gyle/quantity"
	"gyle/stock"
	"gyle/water"
)

func (t *Table) kettleQuestions(s *setup, pr quantity.Printer) []Question {
	h := t.house
	litres, degrees := unitsOf(pr, "L", "US gal"), unitsOf(pr, "°C", "°F")
	yield := t.plan.Grist.Yield
	volume := func(low, high float64, usual string, put func(*setup, quantity.Volume)) func(*setup, string) error {
		return reads(quantity.ParseVolume, low, high, usual, put)
	}
	list := []Question{
		{ID: "size", Label: "Wort in the fermenter", Hint: "how much you want to collect", Value: pr.Volume(s.size), Units: litres,
			set: volume(0.5, 5000, "between 0.5 L and 5000 L", func(s *setup, v quantity.Volume) { s.size = v })},
		{ID: "kettle", Label: "Kettle holds", Hint: "to the brim", Value: optional(h.Kettle.Vessel, pr.Volume), Units: litres,
			set: volume(0.5, 10000, "between 0.5 L and 10000 L", func(s *setup, v quantity.Volume) { s.house.Kettle.Vessel = &v })},
		{ID: "mash tun", Label: "Mash vessel holds", Hint: "the kettle again where you mash in it", Value: optional(h.Mash.Vessel, pr.Volume), Units: litres,
			set: volume(0.5, 10000, "between 0.5 L and 10000 L", func(s *setup, v quantity.Volume) { s.house.Mash.Vessel = &v })},
		{ID: "kettle loss", Label: "Left in the kettle", Hint: "with trub and hops, cold", Value: pr.Volume(h.Kettle.Loss), Units: litres,
			set: volume(0, 500, "0 L to a tenth of the brew", func(s *setup, v quantity.Volume) { s.house.Kettle.Loss = v })},
		{ID: "yield", Label: "Yield", Hint: "extract in the kettle of the extract in the malt; 70 % to 80 % is usual", Value: pr.Fraction(yield, 1), Units: "%",
			set: reads(quantity.ParseFraction, 0.2, 1, "between 20 % and 100 %; 70 % to 80 % is usual", func(s *setup, f quantity.Fraction) {
				s.house.Mash.Yield, s.house.Mash.Conversion = &quantity.FractionEstimate{Value: f}, nil
			})},
		{ID: "absorption", Label: "Wort kept by the grain", Hint: "squeezed 0.6 L/kg, drained 0.9 L/kg", Value: pr.Ratio(h.Mash.Absorption), Units: unitsOf(pr, "L/kg", "US qt/lb"),
			set: reads(quantity.ParseRatio, 0, 3, "between 0.5 L/kg and 1.2 L/kg", func(s *setup, r quantity.Ratio) { s.house.Mash.Absorption = r })},
		{ID: "evaporation", Label: "Boils off in an hour", Hint: "of the full kettle, or litres or gallons of water", Value: t.evaporationText(pr), Units: "%", set: setEvaporation},
		{ID: "grain", Label: "Grain is stored at", Value: pr.Temperature(h.Mash.Grain), Units: degrees,
			set: setTemperature(-30, 45, "−30 °C to 45 °C", func(s *setup, x quantity.Temperature) { s.house.Mash.Grain = x })},
		{ID: "altitude", Label: "Height above the sea", Hint: "wort boils cooler high up", Value: pr.Length(h.Altitude), Units: unitsOf(pr, "m", "ft"),
			set: reads(quantity.ParseLength, -450, 6000, "between −450 m and 6000 m", func(s *setup, l quantity.Length) {
				s.house.Altitude, s.house.Kettle.BoilsAt = l, nil
			})},
	}
	return grouped(groupKettle, list)
}

func grouped(name string, list []Question) []Question {
	for i := range list {
		list[i].Group = name
	}
	return list
}

// optional prints a measure that may not be known.
func optional[T any](x *T, print func(T) string) string {
	if x == nil {
		return ""
	}
	return print(*x)
}

// evaporationText says the author's evaporation as a share of the full kettle.
func (t *Table) evaporationText(pr quantity.Printer) string {
	if full := fullMass(t.plan); full > 0 {
		return pr.Fraction(quantity.Fraction(float64(t.plan.Boil.PerHour)/full), 1)
	}
	return pr.Mass(t.plan.Boil.PerHour)
}

func setEvaporation(s *setup, text string) (err error) {
	s.evaporation, err = parseEvaporation(text)
	return err
}

func setTemperature(low, high float64, usual string, put func(*setup, quantity.Temperature)) func(*setup, string) error {
	return func(s *setup, text string) error {
		x, err := quantity.ParseTemperature(text)
		if err != nil {
			return hinted(err)
		}
		if err := within(quantity.Plato(x.Celsius()), low, high, usual); err != nil {
			return err
		}
		put(s, x)
		return nil
	}
}

func coolingQuestions(s *setup, pr quantity.Printer) []Question {
	minutes := func(put func(*setup, quantity.Duration)) func(*setup, string) error {
		return reads(quantity.ParseDuration, 0, 24*60, "between 0 min and a day", put)
	}
	c := s.cooling
	return grouped(groupCooling, []Question{
		{ID: "cooling", Label: "The wort gets cold", Value: c.kind, Choice: []Choice{
			{coolKettle, "in the kettle, by a coil or a jacket"},
			{coolRunOff, "on its way to the fermenter, through a cooler"},
			{coolPump, "going round through a cooler, then running off"},
		}, set: setCooling},
		{ID: "to 30", Label: "From the boil to 30 °C", Hint: "where the whole kettle is cooled", Value: pr.Duration(c.to30), Units: "min",
			set: minutes(func(s *setup, d quantity.Duration) { s.cooling.to30 = d })},
		{ID: "cold water", Label: "Cooling water", Value: pr.Temperature(c.water), Units: unitsOf(pr, "°C", "°F"),
			set: setTemperature(-10, 60, "−10 °C to 60 °C", func(s *setup, x quantity.Temperature) { s.cooling.water = x })},
		{ID: "rest", Label: "Rest before it runs off", Hint: "hot, for trub to settle", Value: pr.Duration(c.settle), Units: "min",
			set: minutes(func(s *setup, d quantity.Duration) { s.cooling.settle = d })},
		{ID: "run-off", Label: "Runs off in", Hint: "where hot wort leaves through a cooler", Value: pr.Duration(c.runOff), Units: "min",
			set: minutes(func(s *setup, d quantity.Duration) { s.cooling.runOff = d })},
	})
}

func setCooling(s *setup, text string) error {
	switch text {
	case coolKettle, coolRunOff, coolPump:
		s.cooling.kind = text
		return nil
	}
	return asked{"no such way of cooling: " + text, "choose one of the three"}
}

func maltQuestions(s *setup, pr quantity.Printer) []Question {
	var list []Question
	for i, m := range s.stock.Malts {
		name := m.Malt
		if typical, ok := data.Malt(m.Malt); ok {
			name = typical.Name
		}
		list = append(list,
			Question{ID: "color " + m.Malt, Label: name + ": colour", Value: pr.Color(*m.Color), Units: unitsOf(pr, "EBC", "°L"), set: setMaltColor(i)},
			Question{ID: "extract " + m.Malt, Label: name + ": extract", Hint: "fine grind, of the dry malt", Value: pr.Fraction(*m.Extract, 1), Units: "%",
				set: reads(quantity.ParseFraction, 0.1, 1.05, "between 10 % and 105 %", func(s *setup, f quantity.Fraction) { s.stock.Malts[i].Extract = &f })},
			Question{ID: "moisture " + m.Malt, Label: name + ": moisture", Value: pr.Fraction(*m.Moisture, 1), Units: "%",
				set: reads(quantity.ParseFraction, 0, 0.3, "between 0 % and 30 %", func(s *setup, f quantity.Fraction) { s.stock.Malts[i].Moisture = &f })})
	}
	return grouped(groupMalt, list)
}

func setMaltColor(i int) func(*setup, string) error {
	return func(s *setup, text string) error {
		c, err := quantity.ParseColor(text)
		if err != nil {
			return hinted(err)
		}
		if err := within(c.EBC(), 0, 2500, "pale malt has 3 EBC, black malt 1500 EBC"); err != nil {
			return err
		}
		s.stock.Malts[i].Color = &c
		return nil
	}
}

func hopQuestions(s *setup, pr quantity.Printer) []Question {
	var list []Question
	for i, h := range s.stock.Hops {
		name := h.Hop
		if typical, ok := data.Hop(h.Hop); ok {
			name = typical.Name
		}
		list = append(list, Question{ID: "alpha " + h.Hop, Label: name + ": alpha acids", Hint: "today; old hops have less than their packet says", Value: pr.Fraction(*h.Alpha, 1), Units: "%",
			set: reads(quantity.ParseFraction, 0.001, 0.3, "between 0.1 % and 30 %", func(s *setup, f quantity.Fraction) { s.stock.Hops[i].Alpha = &f })},
			Question{ID: "form " + h.Hop, Label: name + ": form", Value: formOf(h), Choice: []Choice{{"pellets", "pellets"}, {"cones", "cones"}, {"bag", "in a bag"}}, set: setHopForm(i)})
	}
	return grouped(groupHops, list)
}

func formOf(h stock.Hops) string {
	if h.Form == "" {
		return "pellets"
	}
	return h.Form
}

func setHopForm(i int) func(*setup, string) error {
	return func(s *setup, text string) error {
		if text != "pellets" && text != "cones" && text != "bag" {
			return asked{"no such form of hops: " + text, "pellets, cones or bag"}
		}
		s.stock.Hops[i].Form = text
		return nil
	}
}

// waterIons are the ions asked for, with where a report holds them.
var waterIons = []struct {
	symbol, name string
	of           func(*water.Printed) **quantity.Concentration
}{
	{"Ca", "Calcium", func(p *water.Printed) **quantity.Concentration { return &p.Ca }},
	{"Mg", "Magnesium", func(p *water.Printed) **quantity.Concentration { return &p.Mg }},
	{"Na", "Sodium", func(p *water.Printed) **quantity.Concentration { return &p.Na }},
	{"HCO3", "Bicarbonate", func(p *water.Printed) **quantity.Concentration { return &p.HCO3 }},
	{"Cl", "Chloride", func(p *water.Printed) **quantity.Concentration { return &p.Cl }},
	{"SO4", "Sulfate", func(p *water.Printed) **quantity.Concentration { return &p.SO4 }},
}

func waterQuestions(s *setup, pr quantity.Printer) []Question {
	if s.water == nil {
		return nil
	}
	s.plainWater()
	var list []Question
	for _, ion := range waterIons {
		list = append(list, Question{ID: "water " + ion.symbol, Label: fmt.Sprintf("%s (%s)", ion.name, ion.symbol), Value: optional(*ion.of(&s.water.Printed), pr.Concentration), Units: "mg/L",
			set: reads(quantity.ParseConcentration, 0, 5000, "between 0 mg/L and 5000 mg/L", func(s *setup, c quantity.Concentration) {
				s.plainWater()
				*ion.of(&s.water.Printed) = &c
			})})
	}
	return grouped(groupWater, list)
}
