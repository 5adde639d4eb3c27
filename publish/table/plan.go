// SPDX-License-Identifier: MIT

package table

import (
	"strings"
	"time"

	"gyle/data"
	"gyle/day"
	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
)

// Grist is what is weighed out, a line for each malt and lot.
func Grist(p *plan.Plan, pr quantity.Printer) Table {
	u := units{pr}
	t := Table{Head: []string{"malt", "lot", "goes in", u.massHead(), "share %", "share meant %", "extract %", "color EBC"}}
	for _, g := range p.Grist.Lines {
		for i, lot := range g.Lots {
			share, meant := "", ""
			if i == 0 { // of the malt as a whole
				share, meant = u.percent(g.Share), u.percent(g.Meant)
			}
			t.Rows = append(t.Rows, []string{g.Name, lot.Lot, g.In.String(), u.mass(lot.Mass), share, meant, u.percent(lot.Extract), u.number(float64(lot.Color), 1)})
		}
	}
	return t
}

// Hops are the charges, a line for each charge and lot.
func Hops(p *plan.Plan, pr quantity.Printer) Table {
	u := units{pr}
	t := Table{Head: []string{"hop", "lot", "when", u.smallHead(), "dose g/L", "alpha %", "bitterness IBU"}}
	for _, c := range p.Hops.Charges {
		name := c.Hop
		if typical, ok := data.Hop(c.Hop); ok {
			name = typical.Name
		}
		for i, lot := range c.Lots {
			dose, ibu := "", ""
			if i == 0 { // of the charge as a whole
				dose, ibu = u.number(float64(c.Dose), 3), u.number(float64(c.IBU), 1)
			}
			t.Rows = append(t.Rows, []string{name, lot.Lot, c.At.String(), u.small(lot.Mass), dose, u.percent(c.Alpha), ibu})
		}
	}
	return t
}

// Day is the brew day of a plan: when each task is due, from the weighing-out.
func Day(p *plan.Plan, pr quantity.Printer) (Table, error) {
	// The day of a plan has no date; times are shown from its beginning.
	midnight := time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)
	g := &gyle.Gyle{Name: p.Recipe, Date: quantity.Date{Time: midnight}, Plan: day.Snapshot(p, "", midnight)}
	d, err := day.Of(g, day.Options{Start: gyle.At(midnight), Printer: pr})
	if err != nil {
		return Table{}, err
	}
	u := units{pr}
	t := Table{Head: []string{"after min", "task", "takes min", "figures"}}
	for _, task := range d.Tasks {
		var figures []string
		for _, n := range task.Numbers {
			figures = append(figures, strings.TrimSpace(n.What+" "+n.Planned))
		}
		after := task.At.Sub(midnight).Minutes()
		t.Rows = append(t.Rows, []string{u.number(after, 0), task.What, u.number(task.Time.Minutes(), 0), strings.Join(figures, "; ")})
	}
	return t, nil
}
