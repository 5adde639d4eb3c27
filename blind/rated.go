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
