// SPDX-License-Identifier: MIT

package blind

import (
	"fmt"
	"math"
	"slices"

	"gyle/science/sensory"
	"gyle/tasting"
)

// Slope is how one attribute went from the first beer to the second.
type Slope struct {
	Attribute string   `json:"attribute"`
	From      float64  `json:"from"` // means
	To        float64  `json:"to"`
	Mean      float64  `json:"mean"` // of the differences of the same tasters
	SD        float64  `json:"sd"`
	N         int      `json:"n"`
	P         float64  `json:"p"`         // this attribute alone
	Corrected float64  `json:"corrected"` // after Holm, among all that were asked
	Shown     bool     `json:"shown"`     // it stays when all questions are weighed together
	Threads   []Thread `json:"threads"`
}

// Thread is what one taster scored.
type Thread struct {
	Taster string  `json:"taster"`
	From   float64 `json:"from"`
	To     float64 `json:"to"`
}

func (out *Flight) profile(t *tasting.Tasting, f *tasting.Flight, w words) {
	both := t.Letters(f)
	if len(both) != 2 {
		out.severalBeers(f, both, w)
		return
	}
	var pairs []sensory.AttributePair
	for _, name := range f.Attributes {
		pair, slope := sensory.AttributePair{Name: name}, Slope{Attribute: name}
		tasters, rows := f.ScoresOf(name, both)
		for i, row := range rows {
			if math.IsNaN(row[0]) || math.IsNaN(row[1]) {
				continue // who tasted one of them only can't be compared
			}
			pair.Parent, pair.Child = append(pair.Parent, row[0]), append(pair.Child, row[1])
			slope.Threads = append(slope.Threads, Thread{tasters[i], row[0], row[1]})
		}
		if len(pair.Parent) >= 2 {
			pairs = append(pairs, pair)
			out.Slopes = append(out.Slopes, slope)
		}
	}
	if len(pairs) == 0 {
		out.Says = "Nobody scored both beers, or one taster only."
		return
	}
	for i, change := range sensory.CompareProfiles(pairs) {
		s := &out.Slopes[i]
		s.From, s.To, s.Mean, s.SD, s.N, s.P, s.Corrected = change.Parent, change.Child, change.Mean, change.SD, change.N, change.P, change.Corrected
		s.Shown = s.Corrected <= alphaOf(f)
	}
	out.Says = slopesSay(out.Slopes, w)
	if n := len(pairs); n > 1 {
		out.More = append(out.More, fmt.Sprintf("%d attributes asked at once would give a false alarm in %s of evenings; the chances are corrected for it (Holm).", n, w.percent(sensory.FalseAlarm(n, alphaOf(f)))))
	}
}

func slopesSay(slopes []Slope, w words) (text string) {
	for _, s := range slopes {
		if !s.Shown {
			continue
		}
		if text != "" {
			text += "; "
		}
		text += fmt.Sprintf("%s %s → %s (%s, corrected p %s)", s.Attribute, w.Number(s.From, 1), w.Number(s.To, 1), w.signed(s.Mean), w.p(s.Corrected))
	}
	if text == "" {
		return fmt.Sprintf("No change shown in any of %d attributes; small ones may hide in a panel of this size.", len(slopes))
	}
	return "Change shown: " + text + "."
}

// severalBeers tests attribute by attribute whether more than two beers differ.
func (out *Flight) severalBeers(f *tasting.Flight, beers []string, w words) {
	var names []string
	var chances []float64
	for _, name := range f.Attributes {
		_, rows := f.ScoresOf(name, beers)
		rows = slices.DeleteFunc(rows, func(row []float64) bool { return slices.ContainsFunc(row, math.IsNaN) })
		cube := make([][][]float64, len(rows))
		for i, row := range rows {
			for _, score := range row {
				cube[i] = append(cube[i], []float64{score})
			}
		}
		table, err := sensory.AnalyseProfile(cube)
		if err != nil || math.IsNaN(table.P) {
			out.Warnings = append(out.Warnings, name+" can't be judged: too few tasters scored all beers.")
			continue
		}
		names, chances = append(names, name), append(chances, table.P)
	}
	shown := ""
	for i, p := range sensory.Holm(chances) {
		if p <= alphaOf(f) {
			shown += fmt.Sprintf(", %s (corrected p %s)", names[i], w.p(p))
		}
	}
	out.Says = fmt.Sprintf("No difference shown in any of %d attributes.", len(names))
	if shown != "" {
		out.Says = "The beers differ in " + shown[2:] + "."
	}
}

// Ranking is what a flight of orders shows.
type Ranking struct {
	Letters   []string  `json:"letters"`
	Sums      []float64 `json:"sums,omitempty"` // of the ranks; 1 stands for the first
	P         float64   `json:"p"`
	Method    string    `json:"method"`
	Agreement float64   `json:"agreement"` // Kendall's W
}

func (out *Flight) ranking(t *tasting.Tasting, f *tasting.Flight, w words) {
	beers := t.Letters(f)
	_, rows := f.Orders(beers)
	whole := !slices.ContainsFunc(rows, func(row []float64) bool { return slices.Contains(row, 0) })
	if !whole {
		out.blocks(f, beers, rows, w)
		return
	}
	ranks := sensory.Ranks(rows)
	if err := ranks.Check(); err != nil {
		out.Says = "The orders can't be judged: " + err.Error() + "."
		return
	}
	test, agreement := ranks.Friedman(), ranks.Kendall()
	out.Ranking = &Ranking{Letters: beers, Sums: ranks.Sums(), P: test.P, Method: test.Method, Agreement: agreement.W}
	out.Says = fmt.Sprintf("No order shown (p %s).", w.p(test.P))
	if test.P <= alphaOf(f) {
		out.Says = fmt.Sprintf("An order is shown (p %s); rank sums", w.p(test.P))
		for i, sum := range ranks.Sums() {
			out.Says += fmt.Sprintf(" %s %s", NameOf(t, beers[i]), w.Number(sum, 0))
		}
		out.Says += "."
	}
	out.More = append(out.More, fmt.Sprintf("Agreement of the panel: Kendall’s W %s of 1.", w.Number(agreement.W, 2)))
	if len(f.Expect) == len(beers) {
		out.expectedOrder(f, beers, rows, w)
	}
}

// expectedOrder tests an order that was named beforehand.
func (out *Flight) expectedOrder(f *tasting.Flight, beers []string, rows [][]float64, w words) {
	var turned sensory.Ranks
	for _, row := range rows {
		var one []float64
		for _, letter := range f.Expect {
			one = append(one, row[slices.Index(beers, letter)])
		}
		turned = append(turned, one)
	}
	test := turned.Page()
	out.More = append(out.More, fmt.Sprintf("The expected order against chance: p %s (Page).", w.p(test.P)))
}

// blocks judges orders of assessors who each got some of the beers.
func (out *Flight) blocks(f *tasting.Flight, beers []string, rows [][]float64, w words) {
	var blocks []sensory.Block
	for _, row := range rows {
		var b sensory.Block
		for column, rank := range row {
			if rank > 0 {
				b.Beers, b.Ranks = append(b.Beers, column), append(b.Ranks, rank)
			}
		}
		blocks = append(blocks, b)
	}
	test, err := sensory.Durbin(len(beers), blocks)
	if err != nil {
		out.Says = "The orders can't be judged: " + err.Error() + "."
		return
	}
	out.Ranking = &Ranking{Letters: beers, P: test.P, Method: test.Method}
	out.Says = fmt.Sprintf("No order shown (p %s).", w.p(test.P))
	if test.P <= alphaOf(f) {
		out.Says = fmt.Sprintf("An order is shown (p %s).", w.p(test.P))
	}
}
