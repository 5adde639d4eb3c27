// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"math"

	"gyle/brewhouse"
	"gyle/day"
	"gyle/gyle"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/water"
)

// options prints what can be done about an entry that was just logged: nothing
// where it needs no answer, or where the documents of the plan aren't at hand.
// The entry is logged, so that nothing here is a failure.
func (c *logCommand) options(out *sheet, l *library, g *gyle.Gyle, e gyle.Entry) {
	if g.Plan == nil || e.Reading == nil && e.Interruption == nil {
		return
	}
	in, err := c.planInput(l, g)
	if err != nil {
		out.note("?", "no options: "+err.Error())
		return
	}
	p, same := day.Again(g, in)
	if p == nil {
		return
	}
	id := e.ID
	if e.Correction != nil {
		id = e.Correction.Of
	}
	o, err := day.Answer(g, p, id)
	if err != nil {
		return
	}
	if o.Missed != "" && len(o.Tickets) > 0 {
		out.heading("%s", o.Missed)
	}
	pr := c.printer()
	for _, t := range o.Tickets {
		minutes := ""
		if m := t.Minutes.Minutes(); math.Abs(m) >= 0.5 {
			minutes = fmt.Sprintf("%+.0f min", m)
		}
		out.row(t.Name, ">"+pr.SG(t.OG), ">"+pr.Volume(t.Volume), ">"+pr.IBU(t.IBU), ">"+pr.EBC(t.Color), ">"+minutes, "costs "+t.Price)
	}
	out.flush()
	for _, t := range o.Tickets {
		if t.Caution != "" {
			out.note("!", t.Name+": "+t.Caution)
		}
	}
	for _, n := range o.Notes {
		out.note("?", n)
	}
	if len(o.Tickets) > 0 && !same {
		out.note("?", "the documents of the plan have changed since; the options reckon with them as they are now")
	}
}

// planInput reads the documents that a gyle was planned from, beside its file or
// in the book.
func (c *logCommand) planInput(l *library, g *gyle.Gyle) (in plan.Input, err error) {
	if in.Recipe, err = beside(l, "", c.Gyle, recipe.Kind, g.Recipe.ID, recipe.Parse); err != nil {
		return in, err
	}
	if in.House, err = beside(l, "", c.Gyle, brewhouse.Kind, g.House, brewhouse.Parse); err != nil {
		return in, err
	}
	if in.Stock, err = beside(l, "", c.Gyle, stock.Kind, g.Stock, stock.Parse); err != nil {
		return in, err
	}
	in.Water, err = beside(l, "", c.Gyle, water.Kind, g.Water, water.Parse)
	return in, err
}
