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
		lines := 1
		if w.narrow(parts, bar.share) {
			lines = 2
		}
		b.rows = append(b.rows, row{
			lines: lines, label: phrase{text: "Shares of " + strings.ToLower(bar.name)}, value: phrase{text: strings.Join(said, ", ")},
			draw: func(s *Scene, x, y float64) { w.strip(s, x, y, bar.name, parts, bar.share) },
		})
	}
	return b
}

// piece is a part of a strip: where it begins, how long it is, and where its
// number stands.
type piece struct {
	stripPart
	from, width float64
	middle      float64 // of its number
	beneath     bool    // the part is too narrow for its number
}

// pieces share a strip out. Numbers that have no room in their part stand
// beneath it, side by side.
func (w *work) pieces(parts []stripPart, share func(plan.GrainLine) quantity.Fraction) (list []piece) {
	sum := 0.0
	for _, p := range parts {
		sum += float64(share(p.line))
	}
	if !(sum > 0) {
		return nil
	}
	em := w.size.Text
	width := w.size.inner() - w.stripLeft()
	from, free := 0.0, 0.0
	for _, p := range parts {
		if share(p.line) <= 0 {
			continue
		}
		q := piece{stripPart: p, from: from, width: float64(share(p.line)) / sum * width}
		from += q.width
		wide := font.FiguresBold.Width(strconv.Itoa(p.number), em)
		q.middle = q.from + q.width/2
		if q.beneath = wide+0.3*em > q.width; q.beneath {
			q.middle = max(q.middle, free+wide/2)
			free = q.middle + wide/2 + 0.35*em
		}
		list = append(list, q)
	}
	w.pushLeft(list, width)
	return list
}

// pushLeft moves the numbers beneath a strip to the left until the last one is
// within its width.
func (w *work) pushLeft(list []piece, width float64) {
	em := w.size.Text
	for i := len(list) - 1; i >= 0; i-- {
		if !list[i].beneath {
			continue
		}
		half := font.FiguresBold.Width(strconv.Itoa(list[i].number), em) / 2
		list[i].middle = min(list[i].middle, width-half)
		width = list[i].middle - half - 0.35*em
	}
}

// narrow reports whether a strip has a part too narrow for its number.
func (w *work) narrow(parts []stripPart, share func(plan.GrainLine) quantity.Fraction) bool {
	for _, p := range w.pieces(parts, share) {
		if p.beneath {
			return true
		}
	}
	return false
}

// stripLeft is where strips begin, behind their names.
func (w *work) stripLeft() float64 { return font.Book.Width("Extract", w.size.Text) + 0.6*w.size.Text }

// strip draws one bar with its name before it.
func (w *work) strip(s *Scene, x, y float64, name string, parts []stripPart, share func(plan.GrainLine) quantity.Fraction) {
	z, t := w.size, w.theme
	em := z.Text
	s.add(Words{x, y + baseline*z.Pitch, em, font.Book, t.Print, name})
	left := x + w.stripLeft()
	top, height := y+0.12*z.Pitch, 0.76*z.Pitch
	edge := em / 24
	for _, p := range w.pieces(parts, share) {
		box := Rect{left + p.from, top, p.width, height, p.color, 0}
		s.add(box)
		box.Color, box.Stroke = t.Print, min(edge, p.width)
		s.add(box)
		text := strconv.Itoa(p.number)
		at := Words{left + p.middle - font.FiguresBold.Width(text, em)/2, y + baseline*z.Pitch, em, font.FiguresBold, readable(p.color), text}
		if p.beneath {
			at.Y += z.Pitch
			at.Color = t.Print
			low := top + height
			s.add(Stroke{[][2]float64{{left + p.from + p.width/2, low}, {left + p.middle, low + 0.2*z.Pitch}}, em / 24, t.Print})
		}
		s.add(at)
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
	text := fmt.Sprintf("Cooled by %s: %s. Bitterness in all %s.", p.Hops.Cooling, strings.Join(steps, "; "), w.Printer.IBU(p.Hops.IBU))
	words := w.paragraph(font.BookItalic, w.theme.Print, text)
	b.rows = append(b.rows, words.rows...)
	b.from = words.from
	return b
}

// pathSteps say the path of the kettle as a brewer does: "boiled for 60 min at
// 100 °C; cooled to 80 °C in 2 min".
func (w *work) pathSteps() (list []string) {
	for _, s := range w.Plan.Hops.Path {
		took := w.Printer.Number(max(float64(s.Time), 1), 0) + " min" // nobody counts seconds here
		held := "at " + w.whole(s.To)
		if s.From != s.To {
			held = "falling from " + w.whole(s.From) + " to " + w.whole(s.To)
		}
		switch {
		case s.Name == "boil":
			list = append(list, "boiled for "+took+" at "+w.whole(s.To))
		case s.Name == "chill":
			list = append(list, "chilled to "+w.whole(s.To)+" in "+took)
		case strings.HasPrefix(s.Name, "cool to "):
			list = append(list, "cooled to "+w.whole(s.To)+" in "+took)
		case s.Name == "heat to the boil":
			list = append(list, "heated to the boil in "+took)
		case s.Name == "run-off":
			list = append(list, "run off in "+took+", "+held)
		case s.Name == "stand":
			list = append(list, "left to stand for "+took+", "+held)
		default:
			list = append(list, "left to "+s.Name+" for "+took+", "+held)
		}
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
			boil = total // where it ends
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
