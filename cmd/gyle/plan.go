// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"strings"

	"gyle/brewhouse"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/water"
)

// planCommand realises a recipe on a house.
type planCommand struct {
	Recipe  string            `arg:"" help:"Recipe: a file, or a name in the book."`
	House   string            `required:"" short:"H" placeholder:"HOUSE" help:"Brewhouse."`
	Stock   string            `short:"s" placeholder:"STOCK" help:"Stock; without it typical malts and hops are taken."`
	Water   string            `short:"w" placeholder:"WATER" help:"Water; without it the liquor is left as it is."`
	Style   string            `placeholder:"STYLE" help:"Style to judge by; without it the one beside the recipe, or in the book."`
	Size    string            `placeholder:"VOLUME" help:"Collected wort: 20 L, 5 US gal."`
	Cooling string            `placeholder:"NAME" help:"Name of a way of cooling of the house."`
	Swap    map[string]string `help:"Hop to use instead of another: challenger=northdown." placeholder:"HOP=HOP"`
	KeepOil bool              `help:"Keep the oil of late and dry charges instead of their grams."`
	On      string            `placeholder:"DAY" help:"Day of brewing, 2026-11-25; without it the day the stock was counted."`
	Chance  bool              `help:"Say what may come of it: bands, the chance to be inside each rule, and what is to blame."`
	JSON    bool              `name:"json" help:"Print the plan for programs."`
	Table   string            `enum:",grist,hops,day" default:"" placeholder:"NAME" help:"Print a table as CSV, with units in its head: grist, hops or day."`
	Intent  bool              `help:"Print the recipe as intent: shares, bitterness, doses."`
	shelving
	printing
}

// Help is shown by "gyle plan --help".
func (planCommand) Help() string {
	return `Examples:

  gyle plan ferry-brown-4.yaml --house boathouse.yaml --stock boathouse-shed.yaml --water saltpan-lane.yaml
  gyle plan ferry-brown-4 --house boathouse --stock boathouse-shed --water saltpan-lane --book my.gylebook

The plan keeps what the recipe means (gravity, volume, bitterness of each boil charge, grams per litre of late
charges, colour) and lists what it can't keep, with the price. What the vessels can't hold is refused.

With --chance the plan is brewed ten thousand times on paper, each time with other lots, another house and other readings
within what is known of them.`
}

// Run makes the plan and prints it.
func (c *planCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	in, err := c.input(l)
	if err != nil {
		return err
	}
	if !c.JSON {
		in.Reader = c.printer()
	}
	p, err := makePlan(in)
	if err != nil {
		return err
	}
	switch {
	case c.Table != "":
		return printPlanTable(s, p, c.Table, c.printer())
	case c.Intent:
		text, err := p.RecipeDocument().Text()
		if err == nil {
			_, err = s.out.Write(text)
		}
		return err
	case c.JSON && c.Chance:
		return c.chanceJSON(s, l, p)
	case c.JSON:
		text, err := p.JSON()
		if err == nil {
			_, err = fmt.Fprintf(s.out, "%s\n", text)
		}
		return err
	}
	printPlan(&sheet{w: s.out}, p, c.printer())
	printCost(&sheet{w: s.out}, p, in.Stock, c.printer())
	return c.judgeAndChoose(s, l, in, p)
}

// makePlan makes a plan, or says of which recipe and house it can't.
func makePlan(in plan.Input) (*plan.Plan, error) {
	p, err := plan.Make(in)
	if err != nil {
		return nil, fmt.Errorf("%s can't be planned on %s:\n%w", recipeTitle(in.Recipe), in.House.Name, err)
	}
	return p, nil
}

// judgeAndChoose prints the verdicts of the style and the other ways of cooling.
func (c *planCommand) judgeAndChoose(s *streams, l *library, in plan.Input, p *plan.Plan) error {
	st, err := styleOf(l, c.Style, c.Recipe, p.Style)
	if err != nil {
		return err
	}
	out := &sheet{w: s.out}
	switch {
	case c.Chance:
		if err := printChance(out, st, p, c.printer()); err != nil {
			return err
		}
	case st != nil:
		if err := printPlanJudgement(out, st, p, c.printer()); err != nil {
			return err
		}
	}
	others, err := plan.Alternatives(in)
	if err != nil || len(others) == 0 {
		return err
	}
	out.heading("Other ways of cooling")
	for _, o := range others {
		printChoice(out, o, st, c.printer())
	}
	out.flush()
	return nil
}

// input reads the documents and the wishes.
func (c *planCommand) input(l *library) (plan.Input, error) {
	var in plan.Input
	var err error
	if in.Recipe, err = load(l, recipe.Kind, c.Recipe, recipe.Parse); err != nil {
		return in, err
	}
	if in.House, err = load(l, brewhouse.Kind, c.House, brewhouse.Parse); err != nil {
		return in, err
	}
	if in.Stock, err = load(l, stock.Kind, c.Stock, stock.Parse); err != nil {
		return in, err
	}
	if in.Water, err = load(l, water.Kind, c.Water, water.Parse); err != nil {
		return in, err
	}
	in.Cooling, in.Swap, in.KeepOil = c.Cooling, c.Swap, c.KeepOil
	if c.Size != "" {
		if in.Size, err = quantity.ParseVolume(c.Size); err != nil {
			return in, withHint("--size", err)
		}
		if in.Size <= 0 {
			return in, usage("--size: a brew is larger than nothing")
		}
	}
	if c.On != "" {
		if err = in.On.UnmarshalText([]byte(c.On)); err != nil {
			return in, withHint("--on", err)
		}
	}
	return in, nil
}

// withHint puts the hint of a reading error on a line of its own.
func withHint(what string, err error) error {
	if p, ok := err.(*quantity.ParseError); ok && p.Hint != "" {
		return &usageError{fmt.Errorf("%s: %w\n   %s", what, err, p.Hint)}
	}
	return &usageError{fmt.Errorf("%s: %w", what, err)}
}

// printPlan prints the sheet of a plan from the malt store to the bottle.
func printPlan(s *sheet, p *plan.Plan, pr quantity.Printer) {
	title := p.Recipe
	if p.Version > 0 {
		title = fmt.Sprintf("%s %d", title, p.Version)
	}
	s.heading("%s on %s, %s collected", title, p.House, pr.Volume(p.Volumes.Collected))
	for _, e := range p.Echo {
		s.note(" ", e)
	}
	printFigures(s, p, pr)
	printGrist(s, p, pr)
	printLiquor(s, p, pr)
	printMash(s, p, pr)
	printKettle(s, p, pr)
	printHops(s, p, pr)
	printCellar(s, p, pr)
	printPoints(s, p)
}

// printFigures prints what the beer is expected to be.
func printFigures(s *sheet, p *plan.Plan, pr quantity.Printer) {
	for _, f := range p.Figures {
		if f.Figure == quantity.Calcium {
			break // ions stand with the liquor
		}
		aim := ""
		if f.Aim != nil {
			aim = "aim " + pr.Figure(f.Figure, *f.Aim)
		}
		s.row(f.Figure.Label(), pr.FigureBand(f.Figure, f.Band()), aim)
	}
	s.flush()
}

func printGrist(s *sheet, p *plan.Plan, pr quantity.Printer) {
	s.heading("Grist: %s, yield %s of the laboratory extract", pr.Mass(p.Grist.Mass), pr.Fraction(p.Grist.Yield, 1))
	s.row("", ">mass", ">share", ">extract", ">colour", "lot")
	for _, l := range p.Grist.Lines {
		s.row(l.Malt, ">"+pr.Mass(l.Mass), ">"+pr.Fraction(l.Share, 2), ">"+pr.Fraction(l.ExtractShare, 1), ">"+pr.Fraction(l.ColorShare, 1), lotText(l, pr), entryText(l))
	}
	s.flush()
}

// lotText names the lots of a grain, with the mass of each where it is split.
func lotText(l plan.GrainLine, pr quantity.Printer) string {
	var parts []string
	for _, u := range l.Lots {
		name := u.Lot
		if name == "" {
			name = "typical"
		}
		text := fmt.Sprintf("%s (%s extract, %s)", name, pr.Fraction(u.Extract, 1), pr.EBC(u.Color))
		if len(l.Lots) > 1 {
			text = pr.Mass(u.Mass) + " of " + text
		}
		if u.Short {
			text += " — short!"
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, " + ")
}

func entryText(l plan.GrainLine) string {
	if l.In.IsZero() {
		return ""
	}
	return l.In.String()
}

func printLiquor(s *sheet, p *plan.Plan, pr quantity.Printer) {
	l := p.Liquor
	s.heading("Liquor: %s", pr.Volume(l.Total))
	s.row("mash", ">"+pr.Volume(l.Mash), "strike at "+pr.Temperature(l.Strike))
	if l.Infused > 0.005 {
		s.row("for the later rests", ">"+pr.Volume(l.Infused), "as the mash says; measured cold")
	}
	if l.Steep > 0.005 {
		s.row("cold steep", ">"+pr.Volume(l.Steep))
	}
	if l.Sparge > 0.005 {
		s.row("sparge", ">"+pr.Volume(l.Sparge), "no hotter than "+pr.Temperature(l.SpargeAt))
	}
	if l.Soft > 0 {
		s.row("soft water", ">"+pr.Volume(l.Soft), "of the liquor: distilled or reverse-osmosis")
	}
	for _, salt := range l.Salts {
		s.row(salt.Name, ">"+pr.Mass(salt.Mass), "into all of the liquor")
	}
	if l.SpargeAcid != nil {
		s.row(l.SpargeAcid.Name, fmt.Sprintf(">%s mL", pr.Number(l.SpargeAcid.ML, 1)), "into the sparge liquor")
	}
	s.flush()
	if ions := ionText(p, pr); ions != "" {
		s.note(" ", "treated liquor: "+ions)
	}
}

// ionText lists the ions of the treated liquor.
func ionText(p *plan.Plan, pr quantity.Printer) string {
	var parts []string
	for _, f := range p.Figures {
		switch f.Figure {
		case quantity.Calcium, quantity.Magnesium, quantity.Sodium, quantity.Chloride, quantity.Sulfate, quantity.Bicarbonate, quantity.SulfateToChloride:
			parts = append(parts, string(f.Figure)+" "+strings.TrimSuffix(pr.Figure(f.Figure, f.Value), " mg/L"))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, ", ") + " (mg/L; the ratio by mass)"
}

func printMash(s *sheet, p *plan.Plan, pr quantity.Printer) {
	m := p.Mash
	s.heading("Mash: %s in the vessel", pr.Volume(m.Volume))
	for _, step := range m.Steps {
		what := step.What
		if step.Time > 0 {
			what += " for " + pr.Duration(step.Time)
		}
		s.row(">"+fmt.Sprintf("%.0f min", step.At.Minutes()), pr.Temperature(step.Temperature), what)
	}
	if m.Acid != nil {
		s.row("", fmt.Sprintf("%s mL", pr.Number(m.Acid.ML, 1)), m.Acid.Name+" with the grain")
	}
	s.flush()
	if r := m.Rail; r != nil {
		s.note(" ", fmt.Sprintf("pH: grist alone %s, with the water %s, with salts %s, with acid %s ± %s, after the late grain %s",
			pr.PH(r.Distilled), pr.PH(r.Water), pr.PH(r.Salts), pr.PH(r.Acid), pr.Number(m.PHSD, 2), pr.PH(r.Late)))
	}
	if m.AcidSafety != "" {
		s.note("!", m.AcidSafety)
	}
}

func printKettle(s *sheet, p *plan.Plan, pr quantity.Printer) {
	v, b := p.Volumes, p.Boil
	s.heading("Kettle: boil %s at %s", pr.Duration(b.Time), pr.Temperature(b.Temperature))
	s.row("full kettle", ">"+pr.Volume(v.FullKettle), pr.SG(p.Gravity.FullKettle), "reads "+pr.VolumeAt(v.FullKettleHot))
	s.row("knock-out", ">"+pr.Volume(v.KnockOut), pr.SG(p.Gravity.OG), "reads "+pr.VolumeAt(v.KnockOutHot))
	s.row("evaporated", ">"+pr.Mass(b.Evaporation), "", fmt.Sprintf("%s an hour, %s in all", pr.Mass(b.PerHour), pr.Fraction(b.Share, 1)))
	s.row("to the boil", ">"+pr.Duration(b.HeatUp))
	s.flush()
	s.note(" ", fmt.Sprintf("DMS light: %s (about %.0f µg/L in cold wort, up to %.0f; %s)", b.DMS.Light, float64(b.DMS.Wort), float64(b.DMS.High), b.DMS.Assumes))
}

func printHops(s *sheet, p *plan.Plan, pr quantity.Printer) {
	h := p.Hops
	if len(h.Charges) == 0 {
		s.heading("Hops: none")
		return
	}
	s.heading("Hops: %s, cooling by %s", pr.FigureBand(quantity.Bitterness, quantity.BandOf(float64(h.IBU), float64(h.SD))), h.Cooling)
	header := []string{"", "", ">mass", ">alpha", ">IBU"}
	for _, step := range h.Path {
		header = append(header, ">"+step.Name)
	}
	s.row(header...)
	for _, c := range h.Charges {
		s.row(chargeRow(c, pr)...)
	}
	times := []string{"", "", "", "", ""}
	for _, step := range h.Path {
		times = append(times, fmt.Sprintf(">%.0f min %.0f→%.0f °C", step.Time.Minutes(), step.From.Celsius(), step.To.Celsius()))
	}
	s.row(times...)
	s.flush()
	s.note(" ", fmt.Sprintf("Tinseth's formula, for comparison, says %s of the same boil charges. Under each step stands the bitterness earned in it.", pr.IBU(h.Tinseth)))
}

// chargeRow is one hop charge with what it earns in each step.
func chargeRow(c plan.ChargeLine, pr quantity.Printer) []string {
	name := c.Hop
	if c.Meant != "" {
		name += " (for " + c.Meant + ")"
	}
	for _, u := range c.Lots {
		if u.Lot != "" {
			name += " " + u.Lot
		}
	}
	ibu := ">" + pr.Number(float64(c.IBU), 1)
	if c.Dry {
		ibu = ">–"
	}
	row := []string{name, c.At.String(), ">" + pr.Mass(c.Mass), ">" + pr.Fraction(c.Alpha, 1), ibu}
	for _, e := range c.Earned {
		if e == 0 {
			row = append(row, ">·")
		} else {
			row = append(row, ">"+pr.Number(float64(e), 1))
		}
	}
	return row
}

func printCellar(s *sheet, p *plan.Plan, pr quantity.Printer) {
	c := p.Cellar
	s.heading("Cellar: %s to package", pr.Volume(p.Volumes.Packaged))
	yeast := c.Yeast
	if yeast == "" {
		yeast = "yeast"
	}
	temperature := ""
	if c.Temperature != nil {
		temperature = pr.Temperature(c.Temperature.Low) + " to " + pr.Temperature(c.Temperature.High)
	}
	s.row(yeast, fmt.Sprintf("%.0f × 10⁹ cells", c.Cells), fmt.Sprintf("as dry yeast %s (%s to %s)", pr.Mass(c.Dry), pr.Mass(c.DryRange.Low), pr.Mass(c.DryRange.High)), temperature)
	s.row("final gravity", pr.SG(p.Gravity.FG), fmt.Sprintf("%s to %s over the yeast's attenuation", pr.SG(p.Gravity.FGRange.Low), pr.SG(p.Gravity.FGRange.High)))
	if c.CO2 > 0 {
		if c.Sugar != "" {
			s.row("bottles", pr.Mass(c.Priming)+" "+c.Sugar, fmt.Sprintf("to %s from %s (warmest %s); %s in the bottle at 20 °C", pr.Carbonation(c.CO2), pr.Carbonation(c.Residual), pr.Temperature(c.Warmest), pr.GaugePressure(c.Bottle)))
		}
		s.row("keg at 5 °C", pr.GaugePressure(c.Keg), "holds "+pr.Carbonation(c.CO2))
	}
	s.flush()
	if c.Sugar != "" {
		s.note("!", "Prime only beer whose gravity has stood still: each thousandth still to ferment adds half a volume of gas. Bottles can burst.")
	}
}

func printPoints(s *sheet, p *plan.Plan) {
	s.heading("Kept")
	for _, k := range p.Kept {
		s.note("+", pointText(k))
	}
	if len(p.NotKept) > 0 {
		s.heading("Not kept")
		for _, k := range p.NotKept {
			s.note("−", pointText(k))
		}
	}
	if len(p.Cautions)+len(p.Typical) > 0 {
		s.heading("Mind")
	}
	for _, c := range p.Cautions {
		s.note("!", c)
	}
	for _, t := range p.Typical {
		s.note("~", t)
	}
}

func pointText(k plan.Point) string {
	if k.Price == "" {
		return k.What
	}
	return k.What + " (" + k.Price + ")"
}
