// SPDX-License-Identifier: MIT

package card

import (
	"fmt"
	"strconv"
	"strings"

	"gyle/plan"
	"gyle/publish/font"
	"gyle/quantity"
	"gyle/recipe"
)

// stripPart is a grain of the strips, with its number in the list above.
type stripPart struct {
	number int
	line   plan.GrainLine
	color  Color
}

// strips are three bars: the shares of mass, extract and colour.
func (w *work) strips(parts []stripPart) block {
	b := block{from: Line{Kind: Entry, Label: "Where it comes from"}}
	for _, bar := range []struct {
		name  string
		share func(plan.GrainLine) quantity.Fraction
	}{
		{"Mass", func(l plan.GrainLine) quantity.Fraction { return l.Share }},
		{"Extract", func(l plan.GrainLine) quantity.Fraction { return l.ExtractShare }},
		{"Colour", func(l plan.GrainLine) quantity.Fraction { return l.ColorShare }},
	} {
		var said []string
		for _, p := range parts {
			said = append(said, fmt.Sprintf("%s %s", maltName(p.line.Malt), w.Printer.Fraction(bar.share(p.line), 1)))
		}
		if bar.name != "Mass" { // that stands with each grain
			b.from.Notes = append(b.from.Notes, bar.name+": "+strings.Join(said, ", "))
		}
		b.rows = append(b.rows, row{
			lines: 1, label: phrase{text: "Shares of " + strings.ToLower(bar.name)}, value: phrase{text: strings.Join(said, ", ")},
			draw: func(s *Scene, x, y float64) { w.strip(s, x, y, bar.name, parts, bar.share) },
		})
	}
	return b
}

// strip draws one bar with its name before it.
func (w *work) strip(s *Scene, x, y float64, name string, parts []stripPart, share func(plan.GrainLine) quantity.Fraction) {
	z, t := w.size, w.theme
	em := z.Text
	s.add(Words{x, y + baseline*z.Pitch, em, font.Book, t.Print, name})
	left := x + font.Book.Width("Extract", em) + 0.6*em
	width := x + z.inner() - left
	top, height := y+0.12*z.Pitch, 0.76*z.Pitch
	sum := 0.0
	for _, p := range parts {
		sum += float64(share(p.line))
	}
	if !(sum > 0) {
		return
	}
	edge := em / 24
	for _, p := range parts {
		part := float64(share(p.line)) / sum * width
		s.add(Rect{left, top, part, height, p.color, 0}, Rect{left, top, part, height, t.Print, min(edge, part)})
		text := strconv.Itoa(p.number)
		wide := font.FiguresBold.Width(text, em)
		if wide+0.5*em <= part {
			s.add(Words{left + (part-wide)/2, y + baseline*z.Pitch, em, font.FiguresBold, readable(p.color), text})
		}
		left += part
	}
}

// readable is black or white, whichever stands out more from a colour.
func readable(c Color) Color {
	black, white := Color{0x1a, 0x17, 0x13}, Color{0xff, 0xff, 0xff}
	if Contrast(c, black) > Contrast(c, white) {
		return black
	}
	return white
}

// path draws the temperature of the kettle from the boil to the cold with the
// charges hanging on it, and says it in words beneath.
func (w *work) path() block {
	const height = 4 // lines
	p := w.Plan
	b := block{}
	steps := w.pathSteps()
	if len(p.Hops.Path) > 0 {
		b.rows = append(b.rows, row{lines: height, draw: func(s *Scene, x, y float64) { w.drawPath(s, x, y, height*w.size.Pitch) }})
	}
	words := w.paragraph(font.BookItalic, w.theme.Print, fmt.Sprintf("Path of the kettle, cooled by %s: %s. Bitterness in all %s.", p.Hops.Cooling, strings.Join(steps, ", "), w.Printer.IBU(p.Hops.IBU)))
	b.rows = append(b.rows, words.rows...)
	b.from = words.from
	return b
}

func (w *work) pathSteps() (list []string) {
	for _, s := range w.Plan.Hops.Path {
		text := s.Name + " " + w.Printer.Duration(s.Time)
		if s.From != s.To {
			text += fmt.Sprintf(" (%s to %s)", w.whole(s.From), w.whole(s.To))
		} else {
			text += " (" + w.whole(s.From) + ")"
		}
		list = append(list, text)
	}
	return list
}

// whole prints a temperature in whole degrees.
func (w *work) whole(t quantity.Temperature) string {
	if w.Printer.System == quantity.USCustomary {
		return w.Printer.Number(t.Fahrenheit(), 0) + " °F"
	}
	return w.Printer.Number(t.Celsius(), 0) + " °C"
}

// drawPath draws the temperature line into a box.
func (w *work) drawPath(s *Scene, x, y, height float64) {
	z, t := w.size, w.theme
	em := z.Text
	var total, boil float64
	for _, step := range w.Plan.Hops.Path {
		total += float64(step.Time)
		if step.Name == "boil" {
			boil += float64(step.Time)
		}
	}
	if !(total > 0) {
		return
	}
	left := x + font.Figures.Width("100 °C", em) + 0.5*em
	right := x + z.inner() - em
	top, bottom := y+0.55*z.Pitch, y+height-0.45*z.Pitch
	hot, cold := w.Plan.Hops.Path[0].From.Celsius(), 0.0
	across := func(minutes float64) float64 { return left + minutes/total*(right-left) }
	down := func(t quantity.Temperature) float64 { return bottom - (t.Celsius()-cold)/(hot-cold)*(bottom-top) }
	points, at := [][2]float64{}, 0.0
	for _, step := range w.Plan.Hops.Path {
		points = append(points, [2]float64{across(at), down(step.From)})
		at += float64(step.Time)
		points = append(points, [2]float64{across(at), down(step.To)})
	}
	last := w.Plan.Hops.Path[len(w.Plan.Hops.Path)-1].To
	for _, mark := range []quantity.Temperature{w.Plan.Hops.Path[0].From, last} {
		s.add(Words{x, down(mark) + 0.25*em, em, font.Figures, t.Planned, w.whole(mark)})
	}
	s.add(Stroke{points, em / 11, t.Planned})
	for i, c := range w.Recipe.Hops {
		minute, ok := w.dosed(c.At, boil)
		if !ok {
			continue
		}
		s.add(w.weight(across(minute), down(w.temperatureAt(minute)), i+1)...)
	}
}

// weight is a charge hanging on the line of temperature.
func (w *work) weight(x, y float64, number int) []Item {
	em := w.size.Text
	drop, r := 1.15*em, 0.58*em
	text := strconv.Itoa(number)
	return []Item{
		Stroke{[][2]float64{{x, y}, {x, y + drop}}, em / 18, w.theme.Planned},
		Dot{x, y + drop + r, r, w.theme.Paper, 0},
		Dot{x, y + drop + r, r, w.theme.Planned, em / 14},
		Words{x - font.FiguresBold.Width(text, em)/2, y + drop + r + 0.34*em, em, font.FiguresBold, w.theme.Planned, text},
	}
}

// dosed is when a charge goes in, in minutes from the start of the boil; not
// ok where it is not in the kettle then.
func (w *work) dosed(m recipe.Moment, boil float64) (minute float64, ok bool) {
	switch m.Stage {
	case recipe.AtBoil:
		return max(boil-float64(m.Time), 0), true
	case recipe.AtFirstWort:
		return 0, true
	case recipe.AtFlameOut:
		return boil, true
	case recipe.AtStand:
		at := 0.0
		for _, step := range w.Plan.Hops.Path {
			if at >= boil && step.From.Sub(m.Temperature) < 0.5 { // K: rounding
				return at, true
			}
			at += float64(step.Time)
		}
	}
	return 0, false
}

// temperatureAt is the temperature of the kettle at a minute, on straight lines
// between the ends of the steps.
func (w *work) temperatureAt(minute float64) quantity.Temperature {
	at := 0.0
	path := w.Plan.Hops.Path
	for _, step := range path {
		if end := at + float64(step.Time); minute <= end && step.Time > 0 {
			share := (minute - at) / float64(step.Time)
			return step.From.Add(quantity.Warming(share * float64(step.To.Sub(step.From))))
		}
		at += float64(step.Time)
	}
	return path[len(path)-1].To
}
