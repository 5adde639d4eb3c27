// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"fmt"
	"os"
	"strconv"
	"strings"
	"time"

	"gyle/blind"
	"gyle/internal/store"
	"gyle/internal/web"
	"gyle/panel"
	"gyle/quantity"
	"gyle/tasting"
)

// tastingPlan plans a tasting.
type tastingPlan struct {
	Question string            `arg:"" help:"What the evening is to settle."`
	Versions []string          `arg:"" help:"Beers, the earlier version first: names of recipes."`
	Kind     string            `help:"How to ask: triangle, duo-trio, 2-afc, 3-afc, tetrad, a-not-a, preference, ranking, profile." default:"triangle"`
	Tasters  int               `short:"n" help:"How many taste." default:"18"`
	Sets     int               `help:"Trays of each taster." default:"1"`
	Glasses  int               `help:"Glasses of each taster: of A or not A, or how many of the beers of a ranking or profile." placeholder:"N"`
	Look     int               `help:"Look once after so many tasters, and end there if a difference is shown (two stages)." placeholder:"N"`
	Known    string            `help:"Letter of the beer that all know: of a duo-trio, or A of A or not A." placeholder:"LETTER"`
	More     string            `help:"2-afc, 3-afc: which should have more: later, earlier, or either." enum:"later,earlier,either" default:"later"`
	Ordered  bool              `help:"Ranking: the beers are expected in this order, the first with least."`
	None     bool              `help:"Preference: having none is an answer."`
	Split    bool              `help:"The beers come from one wort that was parted."`
	Alpha    quantity.Fraction `help:"Risk of a false alarm." default:"5 %"`
	Share    quantity.Fraction `help:"Share of tasters that can tell, which the panel shall find." default:"50 %"`
	Ask      string            `help:"Sentence on the ballot." placeholder:"WORDS"`
	Of       []string          `help:"Attributes: of a profile, or the one that is asked." placeholder:"WORD"`
	Liking   bool              `help:"Ask in a flight of its own which one is preferred."`
	ABV      quantity.Fraction `name:"abv" help:"Alcohol of the strongest, for the sum per taster." placeholder:"SHARE"`
	Sample   quantity.Volume   `help:"What is poured into each glass." default:"50 mL"`
	Cap      quantity.Mass     `help:"Most alcohol for each taster; a plan above it is refused with the ways below it. \"0 g\" for no cap." default:"20 g"`
	Over     string            `help:"Why the plan may go above the cap." placeholder:"WORDS"`
	Seat     []string          `help:"Name of a taster who wishes to be named, in the order of the seats; the others are numbers." placeholder:"NAME"`
	Change   string            `help:"What the later version did differently." placeholder:"WORDS"`
	Expect   string            `help:"What is expected of it." placeholder:"WORDS"`
	Name     string            `help:"Name of the evening." placeholder:"WORDS"`
	Seed     *uint64           `help:"Seed of the orders and codes; without it, drawn. Who knows it knows the key."`
	Out      string            `help:"File to write; the key goes beside it, ending in .key." placeholder:"FILE"`
	As       string            `help:"Name to keep it under in the book, which keeps the key locked; the words for it are printed once." placeholder:"NAME"`
	JSON     bool              `name:"json" help:"Print for programs."`
	shelving
	printing
}

// Help is shown by "gyle tasting plan --help".
func (tastingPlan) Help() string {
	return `Examples:

  gyle tasting plan "Does the late roast show?" ferry-brown-2 ferry-brown-3 --tasters 18 --liking --out evening.yaml
  gyle tasting plan "Which is fuller?" ferry-brown-1 ferry-brown-2 --kind 2-afc --of fullness --as oats --book my.gylebook
  gyle tasting plan "Which is liked best?" v1 v2 v3 v4 v5 v6 --kind ranking --of liking --glasses 3 -n 10 --out ranking.yaml

Rule, orders and codes are fixed and dated now, before any answer. The document shows a hash of the key; the key itself is
for the pourer, who doesn't taste.`
}

// Run plans.
func (c *tastingPlan) Run(s *streams) (err error) {
	if (c.Out == "") == (c.As == "") {
		return usage("say where it goes: --out FILE, or --as NAME in a book (--book)")
	}
	t, err := c.document()
	if err != nil {
		return err
	}
	keys, err := c.draw(t, time.Now())
	if err != nil {
		return err
	}
	text, err := t.Text()
	if err != nil {
		return err
	}
	if _, err := tasting.Parse(c.Out+c.As, text); err != nil {
		return err
	}
	l := c.library()
	defer closing(l, &err)
	words, err := c.keep(l, text, keys)
	if err != nil {
		return err
	}
	if words != "" { // beside what other programs read
		fmt.Fprintf(s.err, "For the pourer alone, shown once: %s\nWithout these words nobody can open the key.\n", words)
	}
	verdict := blind.Of(t, c.printer())
	if c.JSON {
		return printJSON(s.out, verdict)
	}
	printTasting(&sheet{w: s.out}, t, verdict, c.printer())
	return nil
}

// document writes the question down.
func (c *tastingPlan) document() (*tasting.Tasting, error) {
	method := tasting.Method(c.Kind)
	if err := method.UnmarshalText([]byte(c.Kind)); err != nil {
		return nil, usage("--kind: %w", err)
	}
	t := &tasting.Tasting{Name: c.Name, Question: c.Question, Change: c.Change, Expect: c.Expect, Date: tasting.Date{Time: time.Now()}}
	if t.Name == "" {
		t.Name = strings.Join(c.Versions, " against ")
	}
	var letters []string
	for i, version := range c.Versions {
		letters = append(letters, string(rune('A'+i)))
		b := tasting.Beer{Letter: string(rune('A' + i)), Recipe: version}
		if c.ABV > 0 {
			b.ABV = &c.ABV
		}
		if c.Split {
			b.Split = "one wort"
		}
		t.Beers = append(t.Beers, b)
	}
	t.Conditions.Sample = &c.Sample
	if c.Cap > 0 {
		t.Cap = &tasting.Cap{Alcohol: c.Cap, Over: c.Over}
	}
	if len(c.Seat) > c.Tasters {
		return nil, usage("%d names for %d tasters: say --tasters %d", len(c.Seat), c.Tasters, len(c.Seat))
	}
	for i := range c.Tasters {
		t.Panel = append(t.Panel, tasting.Assessor{ID: fmt.Sprintf("%02d", i+1), Name: nameAt(c.Seat, i)})
	}
	f, err := c.flight(method, letters)
	if err != nil {
		return nil, err
	}
	t.Flights = []tasting.Flight{f}
	if c.Liking {
		liking := web.NewFlight("liking", tasting.Preference, nil, letters)
		liking.Alpha, liking.Forced = c.Alpha, !c.None
		t.Flights = append(t.Flights, liking)
	}
	return t, nil
}

// flight is the main flight with the rule of its kind.
func (c *tastingPlan) flight(method tasting.Method, letters []string) (tasting.Flight, error) {
	if method.Pair() && len(letters) != 2 {
		return tasting.Flight{}, usage("%s compares two beers, not %d", method, len(letters))
	}
	f := web.NewFlight("question", method, c.Of, letters)
	f.Alpha = c.Alpha
	if f.Kind.Choice() {
		f.Aim = &tasting.Aim{Share: c.Share, Power: quantity.Percent(80)}
	}
	if c.Ask != "" {
		f.Ask = c.Ask
	}
	switch {
	case (method == tasting.TwoAFC || method == tasting.ThreeAFC) && c.More == "earlier":
		f.Expect = []string{letters[1], letters[0]}
	case method == tasting.TwoAFC && c.More == "either":
		f.Sides, f.Expect = "two", nil
	case method == tasting.Ranking && c.Ordered:
		f.Expect = letters
	case (method == tasting.DuoTrio || method == tasting.ANotA) && c.Known != "":
		f.Reference = c.Known
	case method == tasting.Preference:
		f.Forced = !c.None
	}
	if c.Look == 0 {
		return f, nil
	}
	look, found := blind.LookFor(&f, c.Look, c.Tasters)
	if !found || c.Sets > 1 {
		return f, usage("--look %d: a look comes before the end of %d tasters with one tray each, and needs right answers or a preference", c.Look, c.Tasters)
	}
	f.Look = &look
	return f, nil
}

// draw draws orders and codes of all flights.
func (c *tastingPlan) draw(t *tasting.Tasting, at time.Time) (map[string]*tasting.Key, error) {
	keys := map[string]*tasting.Key{}
	for i := range t.Flights {
		seed, nonce := panel.Draw()
		if c.Seed != nil {
			seed = *c.Seed + uint64(i)
		}
		wish := panel.Wish{Seed: seed, Nonce: nonce}
		if i == 0 { // further questions are asked once
			wish.Sets, wish.Glasses, wish.PerTaster = c.Sets, c.Glasses, c.Glasses
		}
		for _, a := range t.Panel {
			wish.Tasters = append(wish.Tasters, a.ID)
		}
		key, err := panel.Plan(t, &t.Flights[i], wish, tasting.At(at))
		if err != nil {
			return nil, err
		}
		keys[t.Flights[i].Name] = key
	}
	return keys, panel.CheckCap(t)
}

// nameAt is the name of a seat; empty for a number alone.
func nameAt(names []string, i int) string {
	if i < len(names) {
		return names[i]
	}
	return ""
}

// keep writes the document and the key where they belong, and returns the words that
// unlock the key in a book.
func (c *tastingPlan) keep(l *library, text []byte, keys map[string]*tasting.Key) (words string, err error) {
	if c.As != "" {
		if l.path == "" {
			return "", usage("--as %s needs the book: --book FILE.gylebook", strconv.Quote(c.As))
		}
		if err := l.open(); err != nil {
			return "", err
		}
		if _, err := l.book.Put(context.Background(), store.Draft{Kind: tasting.Kind, Slug: c.As, Text: string(text), Why: "planned"}); err != nil {
			return "", err
		}
		return web.LockTastingKeys(context.Background(), webBook{l.book}, c.As, keys)
	}
	if _, err := os.Lstat(c.Out); err == nil {
		return "", fmt.Errorf("%s is there already; a plan is never overwritten", c.Out)
	}
	sealed, err := web.KeysText(keys)
	if err != nil {
		return "", err
	}
	if err := os.WriteFile(keyFile(c.Out), sealed, 0o600); err != nil {
		return "", fmt.Errorf("write the key: %w", err)
	}
	return "", os.WriteFile(c.Out, text, 0o644)
}
