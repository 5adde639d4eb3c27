// SPDX-License-Identifier: MIT

package main

import (
	"fmt"

	"gyle/brewhouse"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// compareCommand sets two plans side by side.
type compareCommand struct {
	Recipes []string `arg:"" name:"recipe" help:"One recipe (with two houses) or two recipes (on one house)."`
	House   []string `required:"" short:"H" sep:"none" placeholder:"HOUSE" help:"Brewhouse; give it twice for two houses."`
	Stock   []string `short:"s" sep:"none" placeholder:"STOCK" help:"Stock; once for both, or one for each side."`
	Water   string   `short:"w" placeholder:"WATER" help:"Water."`
	Style   string   `placeholder:"STYLE" help:"Style to judge by; without it the one beside the recipe, or in the book."`
	Size    string   `placeholder:"VOLUME" help:"Collected wort on both sides; without it what each house usually brews."`
	JSON    bool     `name:"json" help:"Print both plans and what differs for programs."`
	shelving
	printing
}

// Help is shown by "gyle compare --help".
func (compareCommand) Help() string {
	return `Examples:

  gyle compare ferry-brown-4.yaml --house garage.yaml --stock garage-shed.yaml --house boathouse.yaml --stock boathouse-shed.yaml
  gyle compare ferry-brown-3.yaml ferry-brown-4.yaml --house garage.yaml --stock garage-shed.yaml

With one recipe on two houses it also says what would come of multiplying the weights instead, and what each way of
cooling of the second house would make of the beer.`
}

// side is one of the two plans with what it was made of.
type side struct {
	file string
	in   plan.Input
	plan *plan.Plan
}

// Run makes both plans and prints them facing each other.
func (c *compareCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	a, b, err := c.sides(l)
	if err != nil {
		return err
	}
	st, err := styleOf(l, c.Style, a.file, a.plan.Style)
	if err != nil {
		return err
	}
	if c.JSON {
		return c.json(s, a, b, st)
	}
	out, pr := &sheet{w: s.out}, c.printer()
	compareFigures(out, a.plan, b.plan, pr)
	compareGrist(out, a.plan, b.plan, pr)
	compareKettle(out, a.plan, b.plan, pr)
	compareHops(out, a.plan, b.plan, pr)
	if len(c.Recipes) == 1 {
		if err := compareHouses(out, a, b, st, pr); err != nil {
			return err
		}
	} else {
		compareChange(out, a.plan, b.plan)
	}
	out.flush()
	return nil
}

// sides pairs recipes, houses and stocks.
func (c *compareCommand) sides(l *library) (a, b side, err error) {
	switch {
	case len(c.Recipes) > 2 || len(c.House) > 2:
		return a, b, usage("compare sets two things side by side: %d recipes and %d houses are too many", len(c.Recipes), len(c.House))
	case len(c.Recipes) == 1 && len(c.House) == 1:
		return a, b, usage("compare needs a second recipe or a second --house")
	case len(c.Recipes) == 2 && len(c.House) == 2:
		return a, b, usage("compare one recipe on two houses, or two recipes on one house: with both, nobody could say which made the difference")
	}
	if a, err = c.side(l, 0); err != nil {
		return a, b, err
	}
	b, err = c.side(l, 1)
	return a, b, err
}

func (c *compareCommand) side(l *library, i int) (s side, err error) {
	s.file = at(c.Recipes, i)
	if s.in.Recipe, err = load(l, recipe.Kind, s.file, recipe.Parse); err != nil {
		return s, err
	}
	if s.in.House, err = load(l, brewhouse.Kind, at(c.House, i), brewhouse.Parse); err != nil {
		return s, err
	}
	if s.in.Stock, err = load(l, stock.Kind, at(c.Stock, i), stock.Parse); err != nil {
		return s, err
	}
	if s.in.Water, err = load(l, water.Kind, c.Water, water.Parse); err != nil {
		return s, err
	}
	if c.Size != "" {
		if s.in.Size, err = quantity.ParseVolume(c.Size); err != nil {
			return s, withHint("--size", err)
		}
		if s.in.Size <= 0 {
			return s, usage("--size: a brew is larger than nothing")
		}
	}
	if !c.JSON {
		s.in.Reader = c.printer()
	}
	s.plan, err = makePlan(s.in)
	return s, err
}

// at returns the i-th of a list, or its last, or nothing.
func at(list []string, i int) string {
	switch {
	case len(list) == 0:
		return ""
	case i < len(list):
		return list[i]
	}
	return list[len(list)-1]
}

// name says which plan a column belongs to.
func name(p *plan.Plan) string {
	if p.Version > 0 {
		return fmt.Sprintf("%s %d, %s", p.Recipe, p.Version, p.House)
	}
	return p.Recipe + ", " + p.House
}

func compareFigures(s *sheet, a, b *plan.Plan, pr quantity.Printer) {
	s.heading("%s | %s", name(a), name(b))
	for _, f := range a.Figures {
		g, ok := b.Find(f.Figure)
		if !ok {
			continue
		}
		s.row(f.Figure.Label(), pr.FigureBand(f.Figure, f.Band()), pr.FigureBand(g.Figure, g.Band()))
	}
	s.flush()
}

func compareGrist(s *sheet, a, b *plan.Plan, pr quantity.Printer) {
	s.heading("Grist")
	s.row("in all", ">"+pr.Mass(a.Grist.Mass), ">", ">"+pr.Mass(b.Grist.Mass))
	others := map[string]plan.GrainLine{}
	for _, l := range b.Grist.Lines {
		others[l.Malt] = l
	}
	for _, l := range a.Grist.Lines {
		o, ok := others[l.Malt]
		delete(others, l.Malt)
		if !ok {
			s.row(l.Malt, ">"+pr.Mass(l.Mass), ">"+pr.Fraction(l.Share, 2), ">–", ">–")
			continue
		}
		s.row(l.Malt, ">"+pr.Mass(l.Mass), ">"+pr.Fraction(l.Share, 2), ">"+pr.Mass(o.Mass), ">"+pr.Fraction(o.Share, 2), entryText(o))
	}
	for _, l := range b.Grist.Lines {
		if o, only := others[l.Malt]; only {
			s.row(o.Malt, ">–", ">–", ">"+pr.Mass(o.Mass), ">"+pr.Fraction(o.Share, 2))
		}
	}
	s.flush()
}

func compareKettle(s *sheet, a, b *plan.Plan, pr quantity.Printer) {
	s.heading("Kettle")
	for _, row := range []struct {
		what string
		of   func(*plan.Plan) string
	}{
		{"liquor", func(p *plan.Plan) string { return pr.Volume(p.Liquor.Total) }},
		{"full kettle", func(p *plan.Plan) string {
			return pr.Volume(p.Volumes.FullKettle) + " " + pr.SG(p.Gravity.FullKettle)
		}},
		{"knock-out", func(p *plan.Plan) string { return pr.Volume(p.Volumes.KnockOut) + " " + pr.SG(p.Gravity.OG) }},
		{"collected", func(p *plan.Plan) string { return pr.Volume(p.Volumes.Collected) }},
		{"boil", func(p *plan.Plan) string {
			return fmt.Sprintf("%s, %s evaporated", pr.Duration(p.Boil.Time), pr.Fraction(p.Boil.Share, 1))
		}},
		{"DMS light", func(p *plan.Plan) string { return p.Boil.DMS.Light }},
		{"cooling", func(p *plan.Plan) string { return p.Hops.Cooling }},
	} {
		s.row(row.what, row.of(a), row.of(b))
	}
	s.flush()
}

// compareHops sets the charges of both plans under one another, each with the
// bitterness it earns in every step.
func compareHops(s *sheet, a, b *plan.Plan, pr quantity.Printer) {
	for _, p := range []*plan.Plan{a, b} {
		s.heading("Charges of %s: %s", name(p), pr.FigureBand(quantity.Bitterness, quantity.BandOf(float64(p.Hops.IBU), float64(p.Hops.SD))))
		header := []string{"", "", ">mass", ">alpha", ">IBU"}
		for _, step := range p.Hops.Path {
			header = append(header, ">"+step.Name)
		}
		s.row(header...)
		for _, c := range p.Hops.Charges {
			s.row(chargeRow(c, pr)...)
		}
	}
	s.flush()
}

// compareHouses says what multiplying would have done, and what the ways of
// cooling of the second house make of the beer.
func compareHouses(s *sheet, a, b side, st *style.Style, pr quantity.Printer) error {
	naive, err := plan.Multiply(a.plan, b.plan)
	if err != nil {
		return err
	}
	s.heading("If the weights of %s were only multiplied by %.2f", a.plan.House, naive[0].Factor)
	for _, m := range naive {
		text := ""
		for i, ch := range m.Charges {
			if i > 0 {
				text += " + "
			}
			text += fmt.Sprintf("%s %s gives %s", pr.Mass(ch.Mass), ch.Hop, pr.Number(float64(ch.IBU), 1))
		}
		s.note("−", fmt.Sprintf("%s: %s = %s IBU, %+.0f %%", m.Cooling, text, pr.Number(float64(m.IBU), 1), 100*m.Excess))
	}
	s.heading("Cures on %s", b.plan.House)
	printChoice(s, b.plan, st, pr)
	others, err := plan.Alternatives(b.in)
	if err != nil {
		return err
	}
	for _, o := range others {
		printChoice(s, o, st, pr)
	}
	return comparePoints(s, b.plan)
}

func comparePoints(s *sheet, p *plan.Plan) error {
	s.heading("Kept and not kept on %s", p.House)
	for _, k := range p.Kept {
		s.note("+", pointText(k))
	}
	for _, k := range p.NotKept {
		s.note("−", pointText(k))
	}
	return nil
}

// printChoice prints what one way of cooling asks for and which rules it breaks.
func printChoice(s *sheet, p *plan.Plan, st *style.Style, pr quantity.Printer) {
	text := ""
	for _, c := range p.Hops.Charges {
		if c.Dry {
			continue
		}
		if text != "" {
			text += " + "
		}
		text += fmt.Sprintf("%s %s (%s IBU)", pr.Mass(c.Mass), c.Hop, pr.Number(float64(c.IBU), 1))
	}
	s.note("·", fmt.Sprintf("%s: %s → %s IBU", p.Hops.Cooling, text, pr.Number(float64(p.Hops.IBU), 1)))
	for _, k := range p.NotKept {
		s.note("    −", pointText(k))
	}
	if st != nil {
		printBroken(s, st, p, pr)
	}
}

// compareChange says what changed between two versions and warns when more
// than one thing did.
func compareChange(s *sheet, a, b *plan.Plan) {
	later := b.RecipeDocument()
	s.heading("The change")
	if c := later.Change; c != nil {
		s.note(" ", "declared: "+c.What)
		if c.Why != "" {
			s.note(" ", "because: "+c.Why)
		}
		if c.Expect != "" {
			s.note(" ", "expected: "+c.Expect)
		}
	}
	found := recipe.Differences(a.RecipeDocument(), later)
	for _, d := range found {
		mark := "·"
		if d.Follows() {
			mark = "  →"
		}
		s.note(mark, d.String())
	}
	if recipe.Independent(found) > 1 {
		s.note("!", "More than one thing changed. A blind test could not say which one it tasted: which is the question?")
	}
}
