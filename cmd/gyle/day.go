// SPDX-License-Identifier: MIT

package main

import (
	"cmp"
	"fmt"
	"strings"

	"gyle/day"
	"gyle/gyle"
)

// dayCommand prints the brew day of one gyle, or of several on one axis.
type dayCommand struct {
	Gyle  []string `arg:"" help:"Gyles: files, or names in the book."`
	Start string   `placeholder:"TIME" help:"When the weighing-out begins, as 2026-03-07T08:00:00+01:00; without it as the gyle has it."`
	JSON  bool     `name:"json" help:"Print for programs."`
	shelving
	printing
}

// Help is shown by "gyle day --help".
func (dayCommand) Help() string {
	return `Examples:

  gyle day gyle-17.yaml
  gyle day gyle-31 gyle-32 --book my.gylebook

Each task stands at its time, with its numbers: planned (○), done (●), or silent in the log (–). With several gyles, the letter says
whose it is, and what two of them want at once, a brewer or a vessel, is named (✕).`
}

// Run prints the day.
func (c *dayCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	o := day.Options{Printer: c.printer()}
	if c.Start != "" {
		if err := o.Start.UnmarshalText([]byte(c.Start)); err != nil {
			return fmt.Errorf("--start: %w", err)
		}
	}
	var gyles []*gyle.Gyle
	var days []*day.Day
	for _, name := range c.Gyle {
		g, _, err := readGyle(l, name)
		if err != nil {
			return err
		}
		d, err := day.Of(g, o)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		gyles, days = append(gyles, g), append(days, d)
	}
	joint := day.Together(days...)
	if c.JSON {
		return printJSON(s.out, joint)
	}
	c.print(&sheet{w: s.out}, gyles, joint)
	return nil
}

// letterOf names a gyle among several: A, B, C …, AA.
func letterOf(i int) string {
	const letters = 26
	return strings.Repeat(string(rune('A'+i%letters)), i/letters+1)
}

func (c *dayCommand) print(out *sheet, gyles []*gyle.Gyle, joint day.Joint) {
	defer out.flush()
	for i, g := range gyles {
		out.row(letterOf(i), gyleTitle(g), g.Date.String(), g.House, g.Brewer)
	}
	date := ""
	for _, t := range joint.Tasks {
		if d := t.At.Format("Monday 2 January 2006"); d != date {
			out.heading("%s", d)
			date = d
		}
		mark := map[day.State]string{day.Done: "●", day.Passed: "–"}[t.State]
		var numbers []string
		for _, n := range t.Numbers {
			numbers = append(numbers, strings.TrimSpace(n.What+" "+cmp.Or(n.Measured, n.Planned)))
		}
		out.row(cmp.Or(mark, "○"), t.At.Format("15:04"), letterOf(t.Day), t.What, strings.Join(numbers, ", "))
	}
	if len(joint.Clashes) > 0 {
		out.heading("Two at once")
	}
	for _, x := range joint.Clashes {
		what := letterOf(x.Days[0]) + " and " + letterOf(x.Days[1])
		if x.Tasks[0] != "" {
			what = x.Tasks[0] + " (" + letterOf(x.Days[0]) + ") and " + x.Tasks[1] + " (" + letterOf(x.Days[1]) + ")"
		}
		out.row("✕", x.From.Format("15:04")+" to "+x.To.Format("15:04"), cmp.Or(x.Who, x.Vessel), what)
	}
}
