// SPDX-License-Identifier: MIT

package web

import (
	"math"
	"strings"

	"gyle/data"
	"gyle/internal/chart"
	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/color"
	"gyle/science/gravity"
	"gyle/science/mash"
	"gyle/style"
)

// rules sorts the verdicts: the broken ones, those at an edge, how many are
// inside, and those that can't be judged. Idle rules are left out.
func (f *figuredRecipe) rules() (broken, edge []judge.Verdict, inside int, unknown []judge.Verdict) {
	if f.Judged == nil {
		return nil, nil, 0, nil
	}
	for _, v := range f.Judged.Verdicts {
		switch v.Word {
		case judge.Edge:
			edge = append(edge, v)
		case judge.Inside:
			inside++
		case judge.Unknown:
			unknown = append(unknown, v)
		}
	}
	return f.Judged.Broken(), edge, inside, unknown
}

// cuvette is the path through which laboratories look at wort, in cm.
const cuvette = 1

// wortSwatch is the colour of a malt: that of its laboratory wort in a cuvette.
func wortSwatch(c quantity.EBC) chart.RGB {
	r, g, b := color.Swatch(c, cuvette)
	return chart.RGB{R: r, G: g, B: b}
}

// strips draws a grist by mass, extract and colour, with what changed against
// an older one.
func (f *figuredRecipe) strips(id, label string, before *recipe.Recipe, pr quantity.Printer, narrow bool) string {
	version := chart.GristVersion{Label: label}
	for i, g := range f.Recipe.Grist {
		part := f.gristPart(i, g)
		if part.Change = gristChange(g, before, pr); part.Mass == 0 && part.Change == "" {
			continue
		}
		version.Parts = append(version.Parts, part)
	}
	return drawn(chart.Sheet{ID: id, Printer: pr}, narrow, func(s chart.Sheet) string {
		return chart.GristStrips(s, chart.Grists{Versions: []chart.GristVersion{version}})
	})
}

// drawn draws for phones and pages; or only narrow, for the margin beside a form,
// which is as wide as a phone everywhere.
func drawn(s chart.Sheet, narrow bool, draw func(chart.Sheet) string) string {
	if narrow {
		s.Width = chart.Phone
		return draw(s)
	}
	return chart.Responsive(s, draw)
}

// gristPart says what a grain brings: by the plan, or as is typical of it.
func (f *figuredRecipe) gristPart(i int, g recipe.Grain) chart.GristPart {
	if f.Plan != nil && i < len(f.Plan.Grist.Lines) {
		l := f.Plan.Grist.Lines[i]
		return chart.GristPart{Name: l.Malt, Mass: float64(l.Share), Extract: float64(l.ExtractShare), Color: float64(l.ColorShare), Swatch: wortSwatch(l.Color)}
	}
	part := chart.GristPart{Name: g.Malt, Mass: gristAmount(g)}
	typical, known := data.Malt(g.Malt)
	ebc := quantity.EBC(typical.ColourEBC.Mid())
	if g.Color != nil {
		ebc = g.Color.EBC()
	}
	part.Swatch = wortSwatch(ebc)
	part.Color = part.Mass * color.LovibondFromEBC(ebc) * float64(mash.ColorYield(darkEntry(g.In)))
	if known {
		part.Extract = part.Mass * typical.ExtractAsIs() * float64(mash.ExtractYield(darkEntry(g.In)))
	}
	return part
}

// gristAmount is the share of a grain, or its mass where masses are written.
func gristAmount(g recipe.Grain) float64 {
	switch {
	case g.Share != nil:
		return float64(*g.Share)
	case g.Mass != nil:
		return float64(*g.Mass)
	}
	return 0
}

// darkEntry is an entry as the chapter on mashing has it.
func darkEntry(e recipe.Entry) mash.Entry {
	switch e.Way {
	case recipe.LateMash:
		return mash.Late
	case recipe.ColdSteep:
		return mash.ColdSteep
	}
	return mash.FromStart
}

// leastChange is the smallest change of a share that is drawn: half of the
// last digit of a share in tenths of a percent.
const leastChange = 0.0005

// gristChange says what became of a grain since an older recipe.
func gristChange(g recipe.Grain, before *recipe.Recipe, pr quantity.Printer) string {
	if before == nil || g.Share == nil {
		return ""
	}
	for _, old := range before.Grist {
		if old.Malt != g.Malt || old.Share == nil {
			continue
		}
		var changes []string
		if d := *g.Share - *old.Share; d > leastChange || d < -leastChange {
			changes = append(changes, strings.TrimSuffix(pr.Fraction(*old.Share, 1), " %")+" → "+pr.Fraction(*g.Share, 1))
		}
		if g.In != old.In {
			changes = append(changes, g.In.String())
		}
		return strings.Join(changes, ", ")
	}
	return "new, " + pr.Fraction(*g.Share, 1)
}

// wedge draws the colour of the beer by path length; nothing where no colour
// is known.
func (f *figuredRecipe) wedge(id string, pr quantity.Printer, narrow bool) string {
	shade := f.find(quantity.BeerColor)
	if !shade.known {
		return ""
	}
	w := chart.Wedge{Label: shade.Text}
	for _, cm := range wedgePaths {
		r, g, b := color.Swatch(quantity.EBC(shade.value), cm)
		w.Stops = append(w.Stops, chart.WedgeStop{CM: cm, Color: chart.RGB{R: r, G: g, B: b}})
	}
	return drawn(chart.Sheet{ID: id, Printer: pr}, narrow, func(s chart.Sheet) string {
		return chart.ColorWedge(s, chart.Wedges{Predicted: w})
	})
}

// wedgePaths are the path lengths at which the wedge is coloured, in cm; it is
// blended between them.
var wedgePaths = []float64{0.3, 0.6, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6, 6.5, 7, 7.5, 8}

// recipeStyleArea is what a style says of gravity and bitterness; nil where it
// doesn't limit both.
func recipeStyleArea(st *style.Style) *chart.StyleArea {
	if st == nil {
		return nil
	}
	area := &chart.StyleArea{Name: st.Name}
	var og, ibu bool
	for i := range st.Rules {
		rule := &st.Rules[i]
		if rule.Subject() != style.OnFigure || rule.When != nil {
			continue
		}
		span := rule.Range()
		switch rule.FigureName() {
		case quantity.OG:
			area.OG, og = gravitySpan(rule), true
		case quantity.Bitterness:
			area.IBU, ibu = quantity.Span[quantity.IBU]{Low: quantity.IBU(span.Low), High: quantity.IBU(span.High)}, true
		case quantity.BUGU:
			area.RatioLow, area.RatioHigh = closedEnd(span.Low), closedEnd(span.High)
		}
	}
	if !og || !ibu {
		return nil
	}
	return area
}

// gravitySpan is the range of a rule on gravity as specific gravities.
func gravitySpan(rule *style.Rule) quantity.Span[quantity.SG] {
	written := rule.GravityRange()
	if written == nil {
		span := rule.Range()
		return quantity.Span[quantity.SG]{Low: quantity.SG(span.Low), High: quantity.SG(span.High)}
	}
	span := quantity.Span[quantity.SG]{Low: quantity.SG(math.Inf(-1)), High: quantity.SG(math.Inf(1))}
	if written.HasLow() {
		span.Low = gravity.SGOf(written.Low)
	}
	if written.HasHigh() {
		span.High = gravity.SGOf(written.High)
	}
	return span
}

// closedEnd is an end of a range, 0 where it is open.
func closedEnd(end float64) float64 {
	if math.IsInf(end, 0) {
		return 0
	}
	return end
}
