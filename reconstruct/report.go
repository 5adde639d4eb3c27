// SPDX-License-Identifier: MIT

package reconstruct

import (
	"fmt"
	"math"
	"strings"

	"gyle/quantity"
)

// Sentences says what a reconstruction found, in the order in which a brewer
// asks: can the readings be right, what was brewed, what did the slips do.
func (r *Reconstruction) Sentences() []string {
	out := r.bookkeeping()
	out = append(out, r.beerSentence())
	for _, c := range r.Compared {
		if c.Style != nil && !c.Inside {
			out = append(out, fmt.Sprintf("%s %s is outside the style (%s)", c.Figure.Label(), r.reader.FigureBand(c.Figure, c.Brewed), r.reader.FigureSpan(c.Figure, *c.Style)))
		}
	}
	for _, e := range r.Effects {
		out = append(out, e.Sentence)
	}
	if len(r.Effects) > 0 {
		out = append(out, "against the plan in all: "+r.Total.Text(r.reader))
	}
	return append(out, r.Notes...)
}

// bookkeeping says whether the books balance, and which reading to doubt.
func (r *Reconstruction) bookkeeping() []string {
	var out []string
	p := r.reader
	if n := len(r.AsRead); n >= 2 {
		first, last := r.AsRead[0], r.AsRead[1]
		out = append(out, fmt.Sprintf("as read, %s of extract in the %s and %s at %s: %s %%",
			r.extract(first.Extract), first.Name, r.extract(last.Extract), last.Name, signed(100*(float64(last.Extract/first.Extract)-1), 1)))
	}
	s := r.Smoothed
	switch {
	case s.Guessed:
		out = append(out, "too little was read to determine the wort: its volume and gravity are partly guessed")
	case len(s.Suspects) == 0 && s.Freedom > 0:
		out = append(out, fmt.Sprintf("the readings agree: %d checks, and readings apart as far as these are found in %s of sound logs", s.Freedom, p.Fraction(quantity.Fraction(s.P), 0)))
	}
	for _, x := range s.Suspects {
		out = append(out, x.Sentence)
	}
	for _, x := range s.Also {
		out = append(out, "besides, "+x.Sentence)
	}
	return out
}

// beerSentence says what was brewed.
func (r *Reconstruction) beerSentence() string {
	p := r.reader
	b := r.Beer
	text := fmt.Sprintf("as brewed: %s of %s at knock-out, ", p.Volume(b.KnockOut.Volume), p.SG(b.KnockOut.SG))
	if r.Brewed.Grist > 0 {
		text += fmt.Sprintf("yield %s, ", p.Fraction(b.Yield, 1))
	}
	text += fmt.Sprintf("%s kg/h boiled off (%s in all), ", p.Number(float64(r.Brewed.PerHour), 2), p.Fraction(b.Share, 1))
	for _, c := range r.Compared {
		if c.Figure == quantity.Bitterness {
			text += p.FigureBand(c.Figure, c.Brewed)
			if c.Planned > 0 {
				text += " instead of " + p.Number(c.Planned, 1)
			}
		}
	}
	if r.Brewed.Lovibond > 0 {
		text += ", " + p.EBC(b.Color)
	}
	if r.Brewed.DMS.High > 0 {
		text += ", DMS light " + b.DMS.Light
	}
	return strings.TrimSuffix(strings.TrimSuffix(text, " "), ",")
}

// extract prints a mass of extract, to the gram in kilograms.
func (r *Reconstruction) extract(m quantity.Mass) string {
	if r.reader.System == quantity.USCustomary {
		return r.reader.Mass(m)
	}
	return r.reader.Number(float64(m), 3) + " kg"
}

// signed prints a number with its sign.
func signed(x float64, decimals int) string {
	s := quantity.Printer{}.Number(math.Abs(x), decimals)
	if x < 0 {
		return "−" + s
	}
	return "+" + s
}
