// SPDX-License-Identifier: MIT

package main

import (
	"slices"
	"strings"

	"gyle/internal/document"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science"
	"gyle/science/color"
	"gyle/science/gravity"
)

// whyCommand says how a figure comes about.
type whyCommand struct {
	What    []string `arg:"" help:"A figure (ibu, strike, color …), a formula (hops.IsoRate), or a measure to convert (26.4 L @ 95 °C)."`
	Recipe  string   `short:"r" placeholder:"RECIPE" help:"Recipe whose number is explained."`
	House   string   `short:"H" placeholder:"HOUSE" help:"House it is planned on."`
	Stock   string   `short:"s" placeholder:"STOCK" help:"Stock."`
	Water   string   `short:"w" placeholder:"WATER" help:"Water."`
	Cooling string   `placeholder:"NAME" help:"Way of cooling."`
	Grain   string   `placeholder:"TEMPERATURE" help:"With strike: the temperature the grain really had."`
	Gravity string   `placeholder:"GRAVITY" help:"With volume: gravity of the wort, to get its extract."`
	To      string   `placeholder:"VOLUME" help:"With volume and gravity: volume it is made up to with water, or boiled down to."`
	JSON    bool     `name:"json" help:"Print the answer for programs."`
	shelving
	printing
}

// Help is shown by "gyle why --help".
func (whyCommand) Help() string {
	return `Examples:

  gyle why ibu --recipe ferry-brown-4.yaml --house garage.yaml
  gyle why strike --recipe ferry-brown-4.yaml --house garage.yaml --grain "4 °C"
  gyle why volume "26.4 L @ 95 °C" --gravity 1.0425
  gyle why color "35 EBC"
  gyle why 5 gal
  gyle why hops.IsoRate

What can be asked: ` + strings.Join(plan.Topics(), ", ") + `; every formula by its name.`
}

// Run explains.
func (c *whyCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	a, err := c.answer(l)
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(s.out, a)
	}
	a.print(&sheet{w: s.out})
	return nil
}

// answer finds out what is asked.
func (c *whyCommand) answer(l *library) (answer, error) {
	name, rest := c.What[0], strings.Join(c.What[1:], " ")
	if reason, ok := plan.Explain(strings.Join(c.What, " ")); ok {
		name, rest = reason.Name, ""
	}
	if f, ok := science.Lookup(name); ok && rest == "" {
		return answer{Formulas: []formula{formulaOf(f)}}, nil
	}
	reason, ok := plan.Explain(name)
	name = reason.Name
	if !ok {
		return c.convert(l, strings.Join(c.What, " "))
	}
	switch {
	case name == "volume" && rest != "":
		return c.volume(l, rest)
	case name == "color" && rest != "":
		return c.color(rest)
	case rest != "":
		return answer{}, usage("%s takes no measure: what is meant by %q?", name, rest)
	}
	if c.Recipe != "" || c.House != "" {
		return c.inPlan(l, name)
	}
	return answerOf(reason), nil
}

// inPlan explains a number of one plan.
func (c *whyCommand) inPlan(l *library, name string) (answer, error) {
	if c.Recipe == "" || c.House == "" {
		return answer{}, usage("a number of a plan needs --recipe and --house")
	}
	p, err := c.plan(l)
	if err != nil {
		return answer{}, err
	}
	if c.Grain != "" {
		return c.strikeMiss(p)
	}
	reason, _ := p.Why(name, c.printer())
	return answerOf(reason), nil
}

func (c *whyCommand) plan(l *library) (*plan.Plan, error) {
	in, err := (&planCommand{Recipe: c.Recipe, House: c.House, Stock: c.Stock, Water: c.Water, Cooling: c.Cooling}).input(l)
	if err != nil {
		return nil, err
	}
	return makePlan(in)
}

// convert reads a measure of any sort and says what it is in other units.
func (c *whyCommand) convert(l *library, text string) (answer, error) {
	pr := c.printer()
	if _, err := quantity.ParseVolumeAt(text); err == nil && strings.ContainsRune(text, '@') {
		return c.volume(l, text)
	}
	if strings.Trim(text, "0123456789.,-") == "" {
		return c.bare(text)
	}
	var first error
	for _, read := range conversions {
		lines, err := read(text, pr)
		if err == nil {
			a := answer{Title: text}
			for _, line := range lines {
				a.add(line...)
			}
			return a, nil
		}
		if p, ok := err.(*quantity.ParseError); ok && decisive(p) && first == nil {
			first = withHint("gyle", p)
		}
	}
	if first != nil {
		return answer{}, first
	}
	hint := "ask for one of " + strings.Join(plan.Topics(), ", ") + "; for a formula (hops.IsoRate); or give a measure with its unit"
	if near, ok := document.Nearest(text, slices.Concat(plan.Topics(), plan.Labels(), formulaNames())); ok {
		hint = "did you mean " + near + "?"
	}
	return answer{}, usage("nothing is known of %q\n   %s", text, hint)
}

// bare reads a number without unit: a gravity says by itself what it is.
func (c *whyCommand) bare(text string) (answer, error) {
	g, err := quantity.ParseGravity(text)
	if err != nil {
		return answer{}, usage("%s of what?\n   give the number with its unit: %s L, %s °C, %s °P", text, text, text, text)
	}
	a, pr := answer{Title: text}, c.printer()
	a.add("specific gravity 20/20", pr.Number(float64(gravity.SGOf(g)), 4))
	a.add("°P", pr.Number(float64(gravity.PlatoOf(g)), 2))
	return a, nil
}

// decisive reports whether an error says that the unit was understood and
// refused, rather than that the text is of another sort.
func decisive(p *quantity.ParseError) bool {
	return !strings.Contains(p.Msg, "is unknown") && !strings.Contains(p.Msg, "is a unit of") && !strings.Contains(p.Msg, "begin with a number") && !strings.Contains(p.Msg, "unit is missing")
}

func formulaNames() []string {
	var names []string
	for _, f := range science.All() {
		names = append(names, f.Name)
	}
	return names
}

// conversions read one sort of measure each.
var conversions = []func(string, quantity.Printer) ([][]string, error){
	func(t string, pr quantity.Printer) ([][]string, error) {
		v, err := quantity.ParseVolume(t)
		return [][]string{{"litres", pr.Number(v.Litres(), 3)}, {"US gallons", pr.Number(v.USGallons(), 3)}, {"imperial gallons", pr.Number(v.ImperialGallons(), 3)}}, err
	},
	func(t string, pr quantity.Printer) ([][]string, error) {
		m, err := quantity.ParseMass(t)
		return [][]string{{"kilograms", pr.Number(m.Kilograms(), 4)}, {"pounds", pr.Number(m.Pounds(), 3)}, {"ounces", pr.Number(m.Ounces(), 2)}}, err
	},
	func(t string, pr quantity.Printer) ([][]string, error) {
		v, err := quantity.ParseTemperature(t)
		return [][]string{{"°C", pr.Number(v.Celsius(), 1)}, {"°F", pr.Number(v.Fahrenheit(), 1)}}, err
	},
	func(t string, pr quantity.Printer) ([][]string, error) {
		g, err := quantity.ParseGravity(t)
		if err != nil {
			return nil, err
		}
		return [][]string{{"specific gravity 20/20", pr.Number(float64(gravity.SGOf(g)), 4)}, {"°P", pr.Number(float64(gravity.PlatoOf(g)), 2)}}, nil
	},
	func(t string, pr quantity.Printer) ([][]string, error) {
		v, err := quantity.ParseColor(t)
		if err != nil {
			return nil, err
		}
		return [][]string{{"EBC", pr.Number(float64(v.EBC()), 1)}, {"SRM", pr.Number(v.EBC().SRM(), 1)}, {"°L, of a malt", pr.Number(color.LovibondFromEBC(v.EBC()), 1)}}, nil
	},
	func(t string, pr quantity.Printer) ([][]string, error) {
		v, err := quantity.ParseGaugePressure(t)
		return [][]string{{"bar above the air", pr.Number(float64(v), 3)}, {"psi above the air", pr.Number(float64(v)*14.5037738, 1)}}, err
	},
	func(t string, pr quantity.Printer) ([][]string, error) {
		v, err := quantity.ParseCarbonation(t)
		return [][]string{{"volumes", pr.Number(float64(v), 2)}, {"g/L", pr.Number(v.GramsPerLitre(), 2)}}, err
	},
}
