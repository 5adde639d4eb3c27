// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gyle/internal/chart"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
)

// compareSheet is two plans as the page prints them.
type compareSheet struct {
	Title          string
	Names          [2]string
	Paths          [2]string
	BadNews        string
	Multiplied     []multipliedBody
	Factor         string
	Cures          []choiceBody
	Change         *recipe.Change
	Differences    []string
	TwoChanges     bool
	SameBeer       bool
	Parts          []facingPart
	Ladder, Strips string
	Kept, NotKept  []plan.Point
	KeptOn         string
}

// facingPart is a table with the two plans left and right.
type facingPart struct {
	ID, Title string
	Rows      []facingRow
}

// facingRow is one number on both sides.
type facingRow struct {
	What                string
	Left, Right         string
	LeftSub, RightSub   string
	LeftWhy, RightWhy   string
	LeftLost, RightLost bool // the side hasn't got it
	Differs             bool // printed heavier
}

// mark prints the rows on which the sides differ in heavier ink.
func (p *facingPart) mark(differ func(facingRow) bool) {
	for i := range p.Rows {
		p.Rows[i].Differs = differ(p.Rows[i])
	}
}

// markParts marks what differs, but not what must: on two houses every weight
// and volume does.
func (s *compareSheet) markParts() {
	for i := range s.Parts {
		part := &s.Parts[i]
		switch {
		case part.ID == "grist":
			part.mark(func(r facingRow) bool { return r.LeftSub != r.RightSub })
		case part.ID == "beer" || !s.SameBeer:
			part.mark(func(r facingRow) bool { return r.Left != r.Right || r.LeftSub != r.RightSub })
		}
	}
}

// multipliedBody is what one way of cooling makes of multiplied weights.
type multipliedBody struct {
	Cooling string
	Charges []string
	IBU     string
	Excess  string
	Wrong   bool // beyond what a taster would let pass
}

// noticeable is how far bitterness may be off before the page calls it wrong:
// a tenth, about what tasters tell apart (estimate).
const noticeable = 0.10

func compareSheetOf(sides [2]planned, pr quantity.Printer) (*compareSheet, error) {
	a, b := sides[0], sides[1]
	s := &compareSheet{
		Paths: [2]string{a.query.Path(), b.query.Path()}, SameBeer: a.query.Recipe == b.query.Recipe,
		Kept: b.plan.Kept, NotKept: b.plan.NotKept,
	}
	if s.SameBeer {
		s.Title = titleOfPlan(a.plan) + ": " + a.plan.House + " and " + b.plan.House
		s.Names, s.KeptOn = [2]string{a.plan.House, b.plan.House}, "on "+b.plan.House
		if err := s.fillHouses(a, b, pr); err != nil {
			return nil, err
		}
	} else {
		s.Title = titleOfPlan(a.plan) + " and " + titleOfPlan(b.plan) + " on " + a.plan.House
		s.Names, s.KeptOn = [2]string{titleOfPlan(a.plan), titleOfPlan(b.plan)}, "in "+titleOfPlan(b.plan)
		s.fillChange(a, b)
	}
	s.Parts = []facingPart{facingFigures(a, b, pr), facingGrist(a, b, pr), facingKettle(a, b, pr), facingHops(a, b, pr)}
	s.markParts()
	s.drawSides(a, b, pr)
	return s, nil
}

// fillHouses says what multiplying would have done, and what helps.
func (s *compareSheet) fillHouses(a, b planned, pr quantity.Printer) error {
	naive, err := plan.Multiply(a.plan, b.plan)
	if err != nil {
		return err
	}
	slices.SortStableFunc(naive, func(m, n plan.Multiplied) int { return cmp.Compare(math.Abs(n.Excess), math.Abs(m.Excess)) })
	for _, m := range naive {
		s.Multiplied = append(s.Multiplied, multipliedOf(m, pr))
	}
	if len(naive) > 0 {
		worst := naive[0]
		s.Factor = pr.Number(worst.Factor, 2)
		s.BadNews = fmt.Sprintf("If the weights of %s were only multiplied by %s, the beer would have %s IBU on %s by “%s”: %s.",
			a.plan.House, s.Factor, pr.Number(float64(worst.IBU), 1), b.plan.House, worst.Cooling, excessText(worst.Excess, a.plan.Hops.IBU, pr))
	}
	s.Cures = append(s.Cures, choiceOf(b.plan, b.style, pr))
	others, err := plan.Alternatives(b.in)
	if err != nil && !isRefusal(err) {
		return err
	}
	for _, o := range others {
		c, take := choiceOf(o, b.style, pr), b.query
		take.Cooling = o.Hops.Cooling
		c.Path = take.Path()
		s.Cures = append(s.Cures, c)
	}
	s.Cures[0].Path = b.query.Path()
	return nil
}

// excessText says how far the bitterness is from what was meant.
func excessText(excess float64, meant quantity.IBU, pr quantity.Printer) string {
	percent := fmt.Sprintf("%.0f %%", math.Abs(100*excess))
	switch {
	case meant <= 0:
		return "none was meant"
	case percent == "0 %":
		return "as much as meant"
	case excess > 0:
		return percent + " more than the " + pr.Number(float64(meant), 1) + " meant"
	}
	return percent + " less than the " + pr.Number(float64(meant), 1) + " meant"
}

func multipliedOf(m plan.Multiplied, pr quantity.Printer) multipliedBody {
	b := multipliedBody{Cooling: m.Cooling, IBU: pr.Number(float64(m.IBU), 1) + " IBU", Excess: fmt.Sprintf("%+.0f %%", 100*m.Excess), Wrong: math.Abs(m.Excess) >= noticeable}
	for _, c := range m.Charges {
		b.Charges = append(b.Charges, fmt.Sprintf("%s %s, %s IBU", pr.Mass(c.Mass), hopName(c.Hop), pr.Number(float64(c.IBU), 1)))
	}
	return b
}

// fillChange says what the later version does differently.
func (s *compareSheet) fillChange(a, b planned) {
	later := b.plan.RecipeDocument()
	found := recipe.Differences(a.plan.RecipeDocument(), later)
	for _, d := range found {
		s.Differences = append(s.Differences, d.String())
	}
	s.Change, s.TwoChanges = later.Change, recipe.Independent(found) > 1
}

// drawSides draws both sides on one scale.
func (s *compareSheet) drawSides(a, b planned, pr quantity.Printer) {
	ladders := chart.Ladders{Houses: []chart.LadderHouse{ladderHouse(a.plan, s.Names[0]), ladderHouse(b.plan, s.Names[1])}}
	s.Ladder = chart.Responsive(chart.Sheet{ID: "ladders", Width: chart.Page, Printer: pr}, func(sh chart.Sheet) string { return chart.ChargeLadder(sh, ladders) })
	grists := chart.Grists{Versions: []chart.GristVersion{gristVersion(a.plan, s.Names[0]), gristVersion(b.plan, s.Names[1])}}
	s.Strips = chart.Responsive(chart.Sheet{ID: "strips", Width: chart.Page, Printer: pr}, func(sh chart.Sheet) string { return chart.GristStrips(sh, grists) })
}

func facingFigures(a, b planned, pr quantity.Printer) facingPart {
	part := facingPart{ID: "beer", Title: "The beer"}
	for _, f := range a.plan.Figures {
		g, ok := b.plan.Find(f.Figure)
		if !ok {
			continue
		}
		row := facingRow{What: f.Figure.Label(), Left: pr.FigureBand(f.Figure, f.Band()), Right: pr.FigureBand(g.Figure, g.Band())}
		row.LeftWhy, row.RightWhy = whyBoth(a, b, f.Why)
		part.Rows = append(part.Rows, row)
	}
	return part
}

// whyBoth are the addresses of a reason in both plans.
func whyBoth(a, b planned, topic string) (left, right string) {
	return a.query.whyOf(topic), b.query.whyOf(topic)
}

func facingGrist(a, b planned, pr quantity.Printer) facingPart {
	part := facingPart{ID: "grist", Title: "Grist"}
	add := func(what string, left, right *plan.GrainLine) {
		row := facingRow{What: what, LeftLost: left == nil, RightLost: right == nil}
		row.LeftWhy, row.RightWhy = whyBoth(a, b, "grist")
		row.Left, row.LeftSub = grainText(left, pr)
		row.Right, row.RightSub = grainText(right, pr)
		part.Rows = append(part.Rows, row)
	}
	all := facingRow{What: "in all", Left: pr.Mass(a.plan.Grist.Mass), Right: pr.Mass(b.plan.Grist.Mass)}
	all.LeftWhy, all.RightWhy = whyBoth(a, b, "grist")
	part.Rows = append(part.Rows, all)
	others := b.plan.Grist.Lines
	for i := range a.plan.Grist.Lines {
		l := &a.plan.Grist.Lines[i]
		add(maltName(*l), l, grainOf(others, l.Malt))
	}
	for i := range others {
		if grainOf(a.plan.Grist.Lines, others[i].Malt) == nil {
			add(maltName(others[i]), nil, &others[i])
		}
	}
	return part
}

func grainOf(lines []plan.GrainLine, malt string) *plan.GrainLine {
	if i := slices.IndexFunc(lines, func(l plan.GrainLine) bool { return l.Malt == malt }); i >= 0 {
		return &lines[i]
	}
	return nil
}

func grainText(l *plan.GrainLine, pr quantity.Printer) (mass, sub string) {
	if l == nil {
		return "none", ""
	}
	sub = pr.Fraction(l.Share, 2)
	if !l.In.IsZero() {
		sub += ", " + l.In.String()
	}
	return pr.Mass(l.Mass), sub
}

func facingKettle(a, b planned, pr quantity.Printer) facingPart {
	part := facingPart{ID: "kettle", Title: "Kettle"}
	for _, row := range []struct {
		what, topic string
		of          func(*plan.Plan) (figure, sub string)
	}{
		{"liquor", "volume", func(p *plan.Plan) (string, string) { return pr.Volume(p.Liquor.Total), "" }},
		{"full kettle", "volume", func(p *plan.Plan) (string, string) {
			return pr.Volume(p.Volumes.FullKettle), pr.SG(p.Gravity.FullKettle) + ", reads " + pr.VolumeAt(p.Volumes.FullKettleHot)
		}},
		{"boil", "volume", func(p *plan.Plan) (string, string) {
			return pr.Duration(p.Boil.Time), pr.Fraction(p.Boil.Share, 1) + " evaporated"
		}},
		{"knock-out", "volume", func(p *plan.Plan) (string, string) {
			return pr.Volume(p.Volumes.KnockOut), pr.SG(p.Gravity.OG) + ", reads " + pr.VolumeAt(p.Volumes.KnockOutHot)
		}},
		{"collected", "volume", func(p *plan.Plan) (string, string) { return pr.Volume(p.Volumes.Collected), "" }},
		{"DMS light", "dms", func(p *plan.Plan) (string, string) { return p.Boil.DMS.Light, "" }},
		{"cooling", "ibu", func(p *plan.Plan) (string, string) { return p.Hops.Cooling, "" }},
	} {
		r := facingRow{What: row.what}
		r.LeftWhy, r.RightWhy = whyBoth(a, b, row.topic)
		r.Left, r.LeftSub = row.of(a.plan)
		r.Right, r.RightSub = row.of(b.plan)
		part.Rows = append(part.Rows, r)
	}
	return part
}

// facingHops sets the charges side by side, by their place in the recipe.
func facingHops(a, b planned, pr quantity.Printer) facingPart {
	part := facingPart{ID: "hops", Title: "Hops"}
	left, right := a.plan.Hops.Charges, b.plan.Hops.Charges
	for i := range max(len(left), len(right)) {
		row := facingRow{What: fmt.Sprintf("charge %d", i+1), Left: "none", Right: "none", LeftLost: i >= len(left), RightLost: i >= len(right)}
		row.LeftWhy, row.RightWhy = whyBoth(a, b, "ibu")
		if !row.LeftLost {
			row.Left, row.LeftSub = chargeText(left[i], pr)
		}
		if !row.RightLost {
			row.Right, row.RightSub = chargeText(right[i], pr)
		}
		part.Rows = append(part.Rows, row)
	}
	return part
}

func chargeText(c plan.ChargeLine, pr quantity.Printer) (mass, sub string) {
	sub = hopName(c.Hop) + ", " + c.At.Words(pr) + ", " + pr.Fraction(c.Alpha, 1) + " alpha"
	if !c.Dry {
		sub += ", " + pr.Number(float64(c.IBU), 1) + " IBU"
	}
	return pr.Mass(c.Mass), sub
}
