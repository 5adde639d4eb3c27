// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"time"

	"gyle/brewhouse"
	"gyle/calendar"
	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/shed"
	"gyle/stock"
)

// calendarCommand says which fermenter holds which beer on which days.
type calendarCommand struct {
	House string   `arg:"" help:"Brewhouse: a file, or a name in the book."`
	Gyles []string `arg:"" optional:"" help:"Gyles to look at; in a book all of the house are found."`
	For   string   `placeholder:"DAY" help:"Ask for a fermenter from this day, 2026-12-14, and say when one is free. Exit code 1 if it is taken."`
	In    string   `placeholder:"NAME" help:"Fermenter to ask for; without it the first of the house."`
	Days  int      `placeholder:"N" help:"Days to ask for; without them as many as an ordinary beer needs."`
	On    string   `placeholder:"DAY" help:"Day that is taken for today."`
	JSON  bool     `name:"json" help:"Print for programs."`
	shelving
}

// Help is shown by "gyle calendar --help".
func (calendarCommand) Help() string {
	return `Examples:

  gyle calendar garage --book my.gylebook
  gyle calendar garage --book my.gylebook --for 2026-12-14 --in "fermenter 1"
  gyle calendar garage.yaml gyle-17.yaml gyle-24.yaml

A fermenter is kept from the brew day for as long as the beer may need: fermentation, dry hops, chilling, or until the day
that the gyle gives. The log goes before the plan: what was packaged has left its fermenter.`
}

// Run prints the calendar, or what is in the way of a wish.
func (c *calendarCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	house, err := load(l, brewhouse.Kind, c.House, brewhouse.Parse)
	if err != nil {
		return err
	}
	today := calendar.DayOf(time.Now())
	if c.On != "" {
		if err := today.UnmarshalText([]byte(c.On)); err != nil {
			return withHint("--on", err)
		}
	}
	gyles, err := gylesOf(l, c.Gyles, func(g *gyle.Gyle) bool { return len(c.Gyles) > 0 || g.House == c.House })
	if err != nil {
		return err
	}
	var stays []calendar.Stay
	var nowhere []string
	for _, g := range gyles {
		if stay, ok := calendar.StayOf(g.name, g.gyle, house); ok {
			stays = append(stays, stay)
		} else {
			nowhere = append(nowhere, g.name)
		}
	}
	made := calendar.Of(calendar.Vessels(house), stays, today)
	if c.For != "" {
		return c.ask(s, made, house)
	}
	if c.JSON {
		return printJSON(s.out, made.Record(c.House, nowhere))
	}
	printCalendar(&sheet{w: s.out}, made, nowhere)
	return nil
}

// namedGyle is a gyle with its name.
type namedGyle struct {
	name string
	gyle *gyle.Gyle
}

// gylesOf reads gyles by name, or all of the book, and keeps some.
func gylesOf(l *library, names []string, keep func(*gyle.Gyle) bool) (list []namedGyle, err error) {
	if len(names) == 0 && l.path != "" {
		if err := l.open(); err != nil {
			return nil, err
		}
		if names, err = l.slugs([]string{gyle.Kind}); err != nil {
			return nil, err
		}
	}
	for _, name := range names {
		g, _, err := readGyle(l, name)
		if err != nil {
			return nil, err
		}
		if keep(g) {
			list = append(list, namedGyle{name, g})
		}
	}
	return list, nil
}

// ask says whether a fermenter is free, and else when.
func (c *calendarCommand) ask(s *streams, made *calendar.Calendar, house *brewhouse.House) error {
	want := calendar.Stay{Vessel: c.In}
	if err := want.From.UnmarshalText([]byte(c.For)); err != nil {
		return withHint("--for", err)
	}
	if want.Vessel == "" {
		want.Vessel = made.Vessels[0]
	}
	days := c.Days
	if days <= 0 {
		_, days = calendar.NeedOf(nil, house).Days()
	}
	want.To = calendar.After(want.From, days)
	clash := made.Reserve(want)
	if clash != nil {
		if c.JSON {
			if err := printJSON(s.out, clash.Record()); err != nil {
				return err
			}
			return errFaults
		}
		return clash
	}
	if c.JSON {
		return printJSON(s.out, calendar.ClashRecord{Vessel: want.Vessel, From: want.From.String(), Free: want.From.String()})
	}
	_, err := fmt.Fprintf(s.out, "%s is free from %s for %d days\n", want.Vessel, want.From, days)
	return err
}

func printCalendar(out *sheet, c *calendar.Calendar, nowhere []string) {
	defer out.flush()
	for _, v := range c.Vessels {
		out.heading("%s", v)
		any := false
		for _, s := range c.Stays {
			if s.Vessel == v {
				out.row(s.From.String(), "to "+s.To.String(), fmt.Sprintf(">%d days", s.Days()), s.Gyle, string(s.State), s.Why)
				any = true
			}
		}
		if !any {
			out.note(" ", "free")
		}
		out.flush()
	}
	for _, clash := range c.Clashes {
		free := c.FirstFree(clash.Want)
		out.note("!", fmt.Sprintf("%s is wanted by %s on %s while %s is in it until %s; free from %s", clash.Want.Vessel, clash.Want.Gyle, clash.Want.From, clash.Has.Gyle, clash.Has.To, free.From))
	}
	for _, name := range nowhere {
		out.note("?", name+" has no day or names no fermenter")
	}
}

// lotsCommand says what gyles have used and reserve of each lot, and what is left.
type lotsCommand struct {
	Stock string   `arg:"" help:"Stock: a file, or a name in the book."`
	Gyles []string `arg:"" optional:"" help:"Gyles to look at; in a book all that name the stock are found."`
	JSON  bool     `name:"json" help:"Print for programs."`
	shelving
	printing
}

// Help is shown by "gyle lots --help".
func (lotsCommand) Help() string {
	return `Examples:

  gyle lots garage-shed --book my.gylebook
  gyle lots garage-shed.yaml gyle-24.yaml

What was brewed on or before the day of counting is in the count already.`
}

// Run prints the accounts of the lots.
func (c *lotsCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	st, err := load(l, stock.Kind, c.Stock, stock.Parse)
	if err != nil {
		return err
	}
	gyles, err := gylesOf(l, c.Gyles, func(g *gyle.Gyle) bool { return len(c.Gyles) > 0 || g.Stock == c.Stock })
	if err != nil {
		return err
	}
	var uses []shed.Use
	for _, g := range gyles {
		uses = append(uses, shed.UsesOf(g.name, g.gyle)...)
	}
	lots := shed.Lots(st, uses)
	if c.JSON {
		return printJSON(s.out, shed.Records(lots))
	}
	out, pr := &sheet{w: s.out}, c.printer()
	out.heading("%s, counted %s", st.Name, st.Counted)
	out.row("lot", "", ">counted", ">used", ">reserved", ">left", "")
	for _, lot := range lots {
		counted, left, short := ">not weighed", ">", ""
		if lot.Counted != nil {
			counted, left = ">"+pr.Mass(*lot.Counted), ">"+pr.Mass(lot.Left)
		}
		if lot.Short > 0 {
			short = pr.Mass(lot.Short) + " short!"
		}
		out.row(lot.Name, lot.What, counted, orDot(lot.Used, pr), orDot(lot.Reserved, pr), left, short)
	}
	out.flush()
	return nil
}

// orDot prints a mass, and a dot for none.
func orDot(m quantity.Mass, pr quantity.Printer) string {
	if m <= 0 {
		return ">·"
	}
	return ">" + pr.Mass(m)
}

// printCost prints what a plan costs and which malts come from several lots.
func printCost(out *sheet, p *plan.Plan, st *stock.Stock, pr quantity.Printer) {
	for _, split := range shed.Splits(p) {
		out.note("±", split.Words(pr))
	}
	if st == nil {
		return
	}
	cost := shed.CostOf(p, st, pr)
	if !cost.Priced() {
		return
	}
	out.heading("Cost: %s a litre", cost.With(cost.PerLitre, pr))
	for _, g := range cost.Groups {
		for i, item := range g.Items {
			name, money := "", ""
			if i == 0 {
				name, money = g.Name, ">"+cost.With(g.Money, pr)
			}
			out.row(name, money, item.What, item.Lot, ">"+item.Amount, ">"+cost.With(item.Money, pr))
		}
	}
	out.flush()
	out.note("=", cost.Sum(pr))
	for _, name := range cost.Unpriced {
		out.note("?", "no price: "+name)
	}
}
