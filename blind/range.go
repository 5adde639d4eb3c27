// SPDX-License-Identifier: MIT

package blind

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/quantity"
	"gyle/science/sensory"
	"gyle/style"
	"gyle/tasting"
)

// OfStyle is one beer as a panel tastes it, against what its style asks for. It
// advises: the style's author says what belongs to it, and the panel what it
// found.
type OfStyle struct {
	Letter  string         `json:"letter"`
	Beer    string         `json:"beer"`
	Style   string         `json:"style"`
	Rows    []StyleRow     `json:"rows"`
	Unasked []string       `json:"unasked,omitempty"` // qualities of the style that nobody was asked about
	Count   map[string]int `json:"count"`             // rows by how they fit
	Says    string         `json:"says"`
}

// StyleRow is one quality of a style and where the panel finds it, in levels.
type StyleRow struct {
	Quality   string  `json:"quality"`
	N         int     `json:"n"`
	Low       float64 `json:"low"` // of the style
	High      float64 `json:"high"`
	Of        float64 `json:"of"`     // end of the scale
	Middle    float64 `json:"middle"` // of the panel: the mean, of fewer than four the median
	From      float64 `json:"from"`   // its interval; of fewer than four their range
	To        float64 `json:"to"`
	Fit       string  `json:"fit"` // inside, outside, undecided
	Deviation float64 `json:"deviation,omitempty"`
	Source    string  `json:"source"`             // "profile", or "score sheets"
	Conflict  bool    `json:"conflict,omitempty"` // the judges contradict each other
	Says      string  `json:"says"`
	Note      string  `json:"note,omitempty"` // of the style's author
}

// Against holds what a panel tasted in one beer against the sensory ranges of a
// style. A profile speaks once its key is open and unless it is void; where no
// profile asked for a quality, the levels on score sheets do. It is nil where the
// style has no ranges or nothing was tasted.
func Against(t *tasting.Tasting, letter string, st *style.Style, pr quantity.Printer) *OfStyle {
	w := words{pr}
	out := &OfStyle{Letter: letter, Beer: NameOf(t, letter), Style: st.Name, Count: map[string]int{}}
	for _, quality := range st.Taste {
		wanted, told := quality.Levels()
		if !told {
			continue
		}
		scores, source, conflict := tasted(t, letter, quality.Quality, wanted.Of)
		if len(scores) == 0 {
			out.Unasked = append(out.Unasked, quality.Quality)
			continue
		}
		row := rowOf(quality, wanted, scores, source, w)
		row.Conflict = conflict
		if conflict { // a middle of what contradicts itself says nothing
			row.Fit, row.Deviation = string(sensory.FitUndecided), 0
			row.Says = row.Quality + ": the judges contradict each other; left open."
		}
		out.Rows = append(out.Rows, row)
		out.Count[row.Fit]++
	}
	if len(out.Rows) == 0 {
		return nil
	}
	out.Says = out.sum(w)
	return out
}

// tasted returns what was scored of a quality of a beer, on a scale from 0 to of.
func tasted(t *tasting.Tasting, letter, quality string, of float64) (scores []float64, source string, conflict bool) {
	for i := range t.Flights {
		f := &t.Flights[i]
		at := slices.IndexFunc(f.Attributes, func(a string) bool { return strings.EqualFold(a, quality) })
		if f.Kind != tasting.Profile || at < 0 || f.Key == nil || t.Voided(f.Name) {
			continue
		}
		_, rows := f.ScoresOf(f.Attributes[at], []string{letter})
		for _, row := range rows {
			if !math.IsNaN(row[0]) {
				scores = append(scores, (row[0]-f.Scale.From)/(f.Scale.To-f.Scale.From)*of)
			}
		}
		if len(scores) > 0 {
			return scores, "profile", false
		}
	}
	attributes, says := t.Said(letter)
	for _, a := range attributes {
		if !strings.EqualFold(a, quality) {
			continue
		}
		for _, s := range says[a] {
			if s.Level != nil {
				scores = append(scores, levelOf(*s.Level, s.Scale)/tasting.LevelScale.To*of)
			}
		}
		conflict = pointOf(a, says[a], words{}).Open
	}
	return scores, "score sheets", conflict
}

func rowOf(quality style.Taste, wanted quantity.Levels, scores []float64, source string, w words) StyleRow {
	half := wanted.Of / quantity.MostLevel / 2
	fit := sensory.FitRange(scores, quantity.Span[float64]{Low: wanted.Low, High: wanted.High}, half)
	row := StyleRow{
		Quality: quality.Quality, N: fit.N, Low: wanted.Low, High: wanted.High, Of: wanted.Of,
		Middle: fit.Middle, From: fit.Low, To: fit.High, Fit: string(fit.Fit), Deviation: fit.Deviation, Source: source, Note: quality.Note,
	}
	row.Says = fmt.Sprintf("%s, %s; the panel finds %s of %s (%s to %s, %s), the style asks for %s.", row.Quality, row.Fit,
		w.Number(row.Middle, 1), w.Number(row.Of, 0), w.Number(row.From, 1), w.Number(row.To, 1), row.Voices(), reachWords(quality, wanted, w))
	return row
}

// Voices counts who was heard: "12 tasters", "1 judge".
func (r StyleRow) Voices() string {
	who := "taster"
	if r.Source != "profile" {
		who = "judge"
	}
	if r.N != 1 {
		who += "s"
	}
	return fmt.Sprintf("%d %s", r.N, who)
}

// reachWords is the range of the style as its author said it, and in numbers.
func reachWords(quality style.Taste, wanted quantity.Levels, w words) string {
	reach := w.Number(wanted.Low, scoreDecimals(wanted.Low))
	if wanted.High != wanted.Low {
		reach += " to " + w.Number(wanted.High, scoreDecimals(wanted.High))
	}
	if quality.Range != "" {
		return quality.Range + ", " + reach
	}
	return reach
}

// sum says how many qualities lie where, and names those outside.
func (o *OfStyle) sum(w words) string {
	var outside []string
	for _, r := range o.Rows {
		if r.Fit == string(sensory.FitOutside) {
			side := "too little"
			if r.Middle > r.High {
				side = "too much"
			}
			outside = append(outside, fmt.Sprintf("%s (%s, by %s)", r.Quality, side, w.Number(r.Deviation, 1)))
		}
	}
	text := fmt.Sprintf("Of %d qualities %d inside, %d outside, %d undecided", len(o.Rows), o.Count["inside"], o.Count["outside"], o.Count["undecided"])
	if len(outside) > 0 {
		text += ". Outside: " + strings.Join(outside, ", ")
	}
	return text + "."
}
