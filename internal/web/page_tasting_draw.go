// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"fmt"
	"html"
	"maps"
	"slices"
	"strings"

	"gyle/blind"
	"gyle/panel"
	"gyle/quantity"
	"gyle/science/sensory"
	"gyle/tasting"
)

// draw makes the drawings of a judged flight.
func (f *flightBody) draw(pr quantity.Printer) {
	switch {
	case f.Choice != nil:
		c := f.Choice
		protocol := sensory.Protocol(c.Protocol)
		n := float64(c.N)
		f.Row = answerRow(c.Dots, n*protocol.Guess(), n*protocol.AtShare(c.Reach.Low), n*protocol.AtShare(c.Reach.High), f.Says)
	case f.Liking != nil:
		l := f.Liking
		n := float64(l.For + l.Against)
		f.Row = answerRow(l.Dots, n/2, n*l.Reach.Low, n*l.Reach.High, f.Says)
	}
	for _, s := range f.Flight.Slopes {
		f.Drawn = append(f.Drawn, slopeBody{s, slopeDrawing(s, f.Planned.Scale, pr)})
	}
}

// answerRow draws a small circle for each answer, filled where it was right,
// the place that guessing would reach, and the interval as a grey reach.
func answerRow(dots []blind.Dot, guess, low, high float64, title string) string {
	const step, radius, middle = 20.0, 7.0, 26.0
	sorted := slices.Clone(dots)
	slices.SortStableFunc(sorted, func(a, b blind.Dot) int { return cmp.Compare(rankOf(a), rankOf(b)) })
	width := step*float64(len(dots)) + 16
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="answers" viewBox="0 0 %.0f 56" style="" role="img" aria-label="%s">`, width, html.EscapeString(title))
	fmt.Fprintf(&b, `<rect class="reach" x="%.1f" y="10" width="%.1f" height="32"/>`, 8+low*step, max(2, (high-low)*step))
	for i, d := range sorted {
		class := "wrong"
		if d.Right {
			class = "right"
		}
		if d.Changed {
			class += " changed"
		}
		fmt.Fprintf(&b, `<circle class="%s" cx="%.1f" cy="%.0f" r="%.0f"/>`, class, 8+(float64(i)+0.5)*step, middle, radius)
	}
	fmt.Fprintf(&b, `<path class="guess" d="M%.1f 4V48"/></svg>`, 8+guess*step)
	return strings.Replace(b.String(), ` style=""`, "", 1)
}

func rankOf(d blind.Dot) int {
	if d.Right {
		return 0
	}
	return 1
}

// slopeDrawing draws one attribute from the first beer to the second: the
// tasters as faint threads, the mean inked only where it stays after correction.
func slopeDrawing(s blind.Slope, scale *tasting.Scale, pr quantity.Printer) string {
	const width, height, left, right = 150.0, 110.0, 34.0, 116.0
	low, high := 0.0, 9.0
	if scale != nil {
		low, high = scale.From, scale.To
	}
	y := func(score float64) float64 { return height - 8 - (score-low)/(high-low)*(height-16) }
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="slope" viewBox="0 0 %.0f %.0f" role="img" aria-label="%s from %s to %s">`, width, height,
		html.EscapeString(s.Attribute), pr.Number(s.From, 1), pr.Number(s.To, 1))
	fmt.Fprintf(&b, `<path class="rail" d="M%.0f 4V%.0fM%.0f 4V%.0f"/>`, left, height-4, right, height-4)
	for _, thread := range s.Threads {
		fmt.Fprintf(&b, `<path class="thread" d="M%.0f %.1fL%.0f %.1f"/>`, left, y(thread.From), right, y(thread.To))
	}
	class := "mean"
	if s.Shown {
		class = "mean shown"
	}
	fmt.Fprintf(&b, `<path class="%s" d="M%.0f %.1fL%.0f %.1f"/>`, class, left, y(s.From), right, y(s.To))
	fmt.Fprintf(&b, `<text x="%.0f" y="%.1f" text-anchor="end">%s</text><text x="%.0f" y="%.1f">%s</text></svg>`,
		left-5, y(s.From)+4, pr.Number(s.From, 1), right+5, y(s.To)+4, pr.Number(s.To, 1))
	return b.String()
}

// alcoholWords says what is poured to each, at most.
func alcoholWords(t *tasting.Tasting, pr quantity.Printer) string {
	poured, known := panel.Poured(t)
	if !known || len(poured) == 0 {
		return capWords(t, pr)
	}
	most := quantity.Mass(0)
	for _, taster := range slices.Sorted(maps.Keys(poured)) {
		most = max(most, poured[taster])
	}
	return strings.TrimSpace("Alcohol poured to each: up to " + pr.Number(most.Grams(), 1) + " g (" + drinks(most, pr) + "). " + capWords(t, pr))
}

// drinks are grams as drinks of 10 g, the commonest size of a standard drink
// (Kalinowski and Humphreys 2016, second-hand: 8 to 20 g in 37 countries).
func drinks(poured quantity.Mass, pr quantity.Printer) string {
	return pr.Number(poured.Grams()/10, 1) + " drinks of 10 g; countries count 8 to 20 g as one"
}
