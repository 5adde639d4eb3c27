// SPDX-License-Identifier: MIT

package main

import (
	"errors"
	"fmt"
	"time"

	"gyle/brewhouse"
	"gyle/cellar"
	"gyle/gyle"
	"gyle/internal/web"
	"gyle/quantity"
	"gyle/science/carbonation"
)

// packageCommand says what may come of a filling, and logs it.
type packageCommand struct {
	Gyle    string                  `arg:"" help:"Gyle: a file, or a name in the book."`
	House   string                  `short:"H" placeholder:"HOUSE" help:"House, for its altitude and the relief valve of its fermenter; without it the one that the gyle names."`
	Into    string                  `placeholder:"PACKAGE" help:"crown bottles, heavy bottles, PET bottles or keg." default:"crown bottles"`
	CO2     quantity.Carbonation    `name:"co2" placeholder:"VOL" help:"Carbonation: 2.2 vol; without it the plan's."`
	Volume  quantity.Volume         `placeholder:"VOLUME" help:"How much; without it what the plan packages."`
	Sugar   string                  `placeholder:"SUGAR" help:"For priming; without it the plan's, else sucrose."`
	Store   quantity.Temperature    `placeholder:"TEMP" help:"The warmest that it will be kept; without it 20 °C."`
	Held    quantity.Temperature    `placeholder:"TEMP" help:"The warmest the beer was since it finished; without it as the log has it."`
	Keg     quantity.Temperature    `placeholder:"TEMP" help:"At which a keg stands; without it 5 °C."`
	Rating  *quantity.GaugePressure `placeholder:"PRESSURE" help:"What the keg is rated for: 4 bar."`
	Closed  quantity.Temperature    `placeholder:"TEMP" help:"Say what the fermenter has to bear when it is closed at this temperature."`
	Relief  *quantity.GaugePressure `placeholder:"PRESSURE" help:"Rating of the fermenter's relief valve; without it as the gyle or the house has it."`
	Log     bool                    `help:"Log that it was filled. What is refused needs --because."`
	Set     *quantity.GaugePressure `placeholder:"PRESSURE" help:"Log that the fermenter was set to a pressure. Above its rating it needs --because."`
	Count   int                     `placeholder:"N" help:"How many bottles or kegs."`
	Because string                  `placeholder:"WORDS" help:"Why it is done in spite of a refusal. It stays in the log for ever, with the cautions."`
	Time    string                  `placeholder:"TIME" help:"When it was, as 2026-03-16T13:28:00+01:00; without it, now."`
	Who     string                  `placeholder:"NAME" help:"Who does it."`
	shelving
	printing
}

// Help is shown by "gyle package --help".
func (packageCommand) Help() string {
	return `Examples:

  gyle package gyle-17.yaml --held 20C
  gyle package gyle-17.yaml --into keg --rating 3bar
  gyle package gyle-17.yaml --closed 20C --co2 2.4vol --relief 1bar
  gyle package gyle-17 --book my.gylebook --log --count 38

A filling is judged by the worst that may come of it: what the gravity may still fall is gas in the bottle. A refusal is about
safety; it can be set aside in writing, and stays in the log with its cautions. Follow your local code.`
}

// Run says what may come of it, or logs it.
func (c *packageCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	g, p, err := readGyle(l, c.Gyle)
	if err != nil {
		return err
	}
	at := gyle.At(time.Now())
	if c.Time != "" {
		if err := at.UnmarshalText([]byte(c.Time)); err != nil {
			return fmt.Errorf("--time: %w", err)
		}
	}
	beer := cellar.Of(g, at)
	if beer == nil {
		return errors.New("nothing was pitched yet, so there is nothing to fill")
	}
	house, err := beside(l, c.House, c.Gyle, brewhouse.Kind, g.House, brewhouse.Parse)
	if err != nil {
		return err
	}
	filling, err := c.filling(g, beer, house)
	if err != nil {
		return err
	}
	out := &sheet{w: s.out}
	c.print(out, g, beer, filling)
	c.printClosed(out, beer, house, filling)
	entries, err := c.entries(filling, beer, house)
	var refused *cellar.ErrRefused
	if errors.As(err, &refused) {
		return errors.New("refused: nothing was logged\n   if you must, write your reason with --because; it stays in the log with the cautions")
	}
	if err != nil || len(entries) == 0 {
		return err
	}
	for i := range entries {
		entries[i].ID, entries[i].Time, entries[i].Who = web.NewEntryID(time.Now()), at, c.Who
		out.note("logged", entries[i].WordsIn(c.printer()))
	}
	return appendTo(l, p, c.Gyle, entries...)
}

// filling judges the filling that is asked for.
func (c *packageCommand) filling(g *gyle.Gyle, beer *cellar.Beer, house *brewhouse.House) (cellar.Filling, error) {
	w := cellar.Wish{CO2: c.CO2, Volume: c.Volume, Sugar: c.Sugar, Warmest: c.Store, Held: c.Held, Keg: c.Keg, Rating: c.Rating}
	var err error
	if w.Into, err = cellar.PackageOf(c.Into); err != nil {
		return cellar.Filling{}, hinted(err)
	}
	if p := g.Plan; p != nil {
		if w.CO2 == 0 {
			w.CO2 = p.Cellar.CO2
		}
		if w.Volume == 0 {
			w.Volume = p.Volumes.Packaged
		}
		if w.Sugar == "" {
			w.Sugar = p.Cellar.Sugar
		}
	}
	if house != nil {
		w.Air = carbonation.AirPressure(house.Altitude)
	}
	return beer.Fill(w)
}

// relief is the rating of the fermenter's relief valve: as asked, else as the
// gyle or the house has it.
func (c *packageCommand) relief(beer *cellar.Beer, house *brewhouse.House) *quantity.GaugePressure {
	switch {
	case c.Relief != nil:
		return c.Relief
	case beer.Vessel != nil:
		return beer.Vessel
	case house != nil:
		return house.Fermenter.Relief
	}
	return nil
}

func (c *packageCommand) entries(f cellar.Filling, beer *cellar.Beer, house *brewhouse.House) ([]gyle.Entry, error) {
	switch {
	case c.Set != nil:
		return cellar.SetPressure(*c.Set, "", c.relief(beer, house), c.Because)
	case c.Log:
		return f.Entries(c.Count, c.Because)
	}
	return nil, nil
}

func (c *packageCommand) print(out *sheet, g *gyle.Gyle, beer *cellar.Beer, f cellar.Filling) {
	pr := c.printer()
	verdict := string(beer.Finding.Verdict)
	if verdict == "" {
		verdict = "not decided yet"
	}
	out.note("○", gyleTitle(g)+", "+g.Date.String())
	out.row("fermentation", verdict)
	if beer.Forced > 0 {
		out.row("forced test", pr.SG(beer.Forced))
	}
	out.heading("%s of %s in %s", pr.Carbonation(f.Wish.CO2), gyleTitle(g), cellar.Packages[f.Wish.Into])
	out.row("at worst", pr.Carbonation(f.Verdict.WorstCase))
	out.row("pressure then", pr.GaugePressure(f.Verdict.Pressure)+" at "+pr.Temperature(f.Wish.Warmest))
	out.row("at 40 °C", pr.GaugePressure(f.Verdict.HotDay))
	out.row("in the beer now", pr.Carbonation(f.Residual))
	if f.Priming > 0 {
		out.row("priming", pr.Mass(f.Priming)+" of "+f.Wish.Sugar+" for "+pr.Volume(f.Wish.Volume))
	}
	if f.Wish.Into == carbonation.Keg {
		out.row("keg gauge", pr.GaugePressure(f.Keg)+" at "+pr.Temperature(f.Wish.Keg))
	}
	out.flush()
	mark := "!"
	if f.Refused() {
		mark = "✕ refused:"
	}
	for _, caution := range f.Verdict.Cautions {
		out.note(mark, caution)
		mark = "!"
	}
	for _, r := range f.Reasons {
		out.note("?", "the gravity may still fall: "+r)
	}
	for _, n := range f.Notes {
		out.note(" ", n)
	}
	for _, advice := range beer.Proves() {
		out.note("→", advice)
	}
}

func (c *packageCommand) printClosed(out *sheet, beer *cellar.Beer, house *brewhouse.House, f cellar.Filling) {
	if c.Closed.IsZero() {
		return
	}
	pr := c.printer()
	h := beer.Closed(f.Wish.CO2, c.Closed, f.Wish.Air, c.relief(beer, house))
	out.heading("Closed at %s", pr.Temperature(h.At))
	out.row("on the gauge", pr.GaugePressure(h.Need))
	if h.CloseAt > 0 {
		out.row("close at", pr.SG(h.CloseAt))
	}
	out.flush()
	switch {
	case h.Refused != "":
		out.note("✕ refused:", h.Refused)
		out.note(" ", "it holds at most "+pr.Carbonation(h.Instead)+" at that temperature")
	case h.Rating == nil:
		out.note("!", "nobody said what the vessel bears: read it on the relief valve before you close it")
	}
}
