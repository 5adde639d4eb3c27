// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"sort"
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
	Recipe  string   `short:"r" help:"Recipe whose number is explained."`
	House   string   `short:"H" help:"House it is planned on."`
	Stock   string   `short:"s" help:"Stock."`
	Water   string   `short:"w" help:"Water."`
	Cooling string   `help:"Way of cooling."`
	Grain   string   `help:"With strike: the temperature the grain really had."`
	Gravity string   `help:"With volume: gravity of the wort, to get its extract."`
	To      string   `help:"With volume and gravity: volume it is made up to with water, or boiled down to."`
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
func (c *whyCommand) Run(s *streams) error {
	out := &sheet{w: s.out}
	defer out.flush()
	name, rest := c.What[0], strings.Join(c.What[1:], " ")
	if f, ok := science.Lookup(name); ok && rest == "" {
		printFormula(out, f)
		return nil
	}
	reason, ok := plan.Explain(name)
	if !ok {
		return c.convert(out, strings.Join(c.What, " "))
	}
	switch {
	case name == "volume" && rest != "":
		return c.volume(out, rest)
	case name == "color" && rest != "":
		return c.color(out, rest)
	case rest != "":
		return fmt.Errorf("%s takes no measure: what is meant by %q?", name, rest)
	}
	if c.Recipe != "" || c.House != "" {
		return c.inPlan(out, name)
	}
	printReason(out, reason)
	return nil
}

// inPlan explains a number of one plan.
func (c *whyCommand) inPlan(out *sheet, name string) error {
	if c.Recipe == "" || c.House == "" {
		return fmt.Errorf("a number of a plan needs --recipe and --house")
	}
	p, err := c.plan()
	if err != nil {
		return err
	}
	if c.Grain != "" {
		return c.strikeMiss(out, p)
	}
	reason, _ := p.Why(name, c.printer())
	printReason(out, reason)
	return nil
}

func (c *whyCommand) plan() (*plan.Plan, error) {
	in, err := (&planCommand{Recipe: c.Recipe, House: c.House, Stock: c.Stock, Water: c.Water, Cooling: c.Cooling}).input()
	if err != nil {
		return nil, err
	}
	return plan.Make(in)
}

// printReason prints a reason with its inputs and the formulas behind it.
func printReason(out *sheet, r plan.Reason) {
	title := strings.ToUpper(r.Label[:1]) + r.Label[1:]
	if r.Value != "" {
		title += ": " + r.Value
	}
	out.heading("%s", title)
	out.note(" ", r.Says)
	for _, i := range r.Inputs {
		out.row(i.Name, i.Value, i.From)
	}
	out.flush()
	for _, name := range r.Formulas {
		if f, ok := science.Lookup(name); ok {
			printFormula(out, f)
		}
	}
}

// printFormula prints one formula with what is known of it.
func printFormula(out *sheet, f science.Formula) {
	out.heading("%s", f.Name)
	out.note(" ", f.Summary)
	for line := range strings.SplitSeq(f.Text, "\n") {
		out.row("   " + line)
	}
	out.flush()
	if f.Notes != "" {
		out.note(" ", f.Notes)
	}
	out.row("source", f.Source)
	out.row("holds for", f.Valid)
	out.row("checked", f.Check)
	out.row("known", f.Tag)
	out.flush()
	keys := f.Cited()
	sort.Strings(keys)
	for _, k := range keys {
		out.note("   "+k+":", science.Sources[k])
	}
}

// convert reads a measure of any sort and says what it is in other units.
func (c *whyCommand) convert(out *sheet, text string) error {
	pr := c.printer()
	if v, err := quantity.ParseVolumeAt(text); err == nil && strings.ContainsAny(text, "@") {
		_ = v
		return c.volume(out, text)
	}
	var first error
	for _, read := range conversions {
		lines, err := read(text, pr)
		if err == nil {
			out.heading("%s", text)
			for _, l := range lines {
				out.row(l...)
			}
			return nil
		}
		if p, ok := err.(*quantity.ParseError); ok && decisive(p) && first == nil {
			first = withHint("gyle", p)
		}
	}
	if first != nil {
		return first
	}
	hint := "ask for one of " + strings.Join(plan.Topics(), ", ") + "; for a formula (hops.IsoRate); or give a measure with its unit"
	if near, ok := document.Nearest(text, append(plan.Topics(), formulaNames()...)); ok {
		hint = "did you mean " + near + "?"
	}
	return fmt.Errorf("nothing is known of %q\n   %s", text, hint)
}

// decisive reports whether an error says that the unit was understood and
// refused, rather than that the text is of another sort.
func decisive(p *quantity.ParseError) bool {
	return !strings.Contains(p.Msg, "is unknown") && !strings.Contains(p.Msg, "begin with a number") && !strings.Contains(p.Msg, "unit is missing")
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
