// SPDX-License-Identifier: MIT

package chart

import "fmt"

// Occupancy is what fermenters hold, day by day.
type Occupancy struct {
	Title   string
	Days    []string // the words of each day, first to last: "7 Mar"
	Today   int      // place among the days; outside of them: not drawn
	Vessels []Vessel
}

// Vessel is one fermenter with its beers.
type Vessel struct {
	Name  string
	Beers []Beer
}

// Beer is one stay in a vessel, in days from the first that is drawn; To is the
// day on which the vessel is free again.
type Beer struct {
	Name     string
	From, To int
	Ink      Ink  // Planned, or Measured once it is in the vessel
	Clash    bool // another beer wants the vessel, too
}

// Measures of the bars.
const (
	barLine   = 34.0
	barHeight = 22.0
	barNames  = 110.0
	barWeek   = 7
)

// OccupancyBars draws a line for each fermenter and a bar for each beer in it:
// open and dashed while it is planned, filled once it is there, crossed where two
// want one vessel.
func OccupancyBars(s Sheet, data Occupancy) string {
	d := newDrawing(s, data.Title)
	if len(data.Days) == 0 || len(data.Vessels) == 0 {
		return empty(s, data.Title, "No fermenter has a name yet.")
	}
	narrow := d.width < 560
	x := scale{low: 0, high: float64(len(data.Days)), from: barNames, to: d.width - 4}
	if narrow {
		x.from = 4
	}
	y := 24.0
	step := barWeek
	if narrow {
		step = 2 * barWeek
	}
	small := letters{figure: true, size: smallSize}
	height := y
	for _, v := range data.Vessels {
		height += barTall(v, narrow)
	}
	for day := 0; day < len(data.Days); day += barWeek {
		d.line(x.at(float64(day)), y-6, x.at(float64(day)), height, look{ink: ruled, stroke: 1})
		if day%step == 0 && x.at(float64(day))+46 < d.width {
			d.text(x.at(float64(day))+3, y-10, data.Days[day], small)
		}
	}
	if data.Today >= 0 && data.Today < len(data.Days) {
		at := x.at(float64(data.Today) + 0.5)
		d.line(at, 18, at, height, look{stroke: 1.6, dash: dotted})
		d.text(min(at+4, d.width-40), height+14, "today", letters{size: smallSize})
	}
	for _, v := range data.Vessels {
		y += d.vesselBars(v, x, y, narrow)
	}
	d.height = y + 20
	return d.String()
}

// lanes is how many lines the beers of a vessel need, and the line of each.
func lanes(v Vessel) (count int, lane []int) {
	var ends []int
	for _, b := range v.Beers {
		at := 0
		for at < len(ends) && ends[at] > b.From {
			at++
		}
		if at == len(ends) {
			ends = append(ends, 0)
		}
		ends[at] = b.To
		lane = append(lane, at)
	}
	return max(len(ends), 1), lane
}

func barTall(v Vessel, narrow bool) float64 {
	count, _ := lanes(v)
	tall := float64(count)*(barHeight+4) + barLine - barHeight - 4
	if narrow {
		tall += 20
	}
	return tall
}

// vesselBars draws one vessel and returns how tall its line is.
func (d *drawing) vesselBars(v Vessel, x scale, y float64, narrow bool) float64 {
	tall, top := barTall(v, narrow), y+6
	if narrow {
		d.plated(x.from+2, y+17, fit(v.Name, letters{}, d.width-8), letters{bold: true})
		top += 20
	} else {
		d.text(0, top+barHeight/2+5, fit(v.Name, letters{}, barNames-10), letters{})
	}
	d.desc += v.Name + ": "
	_, lane := lanes(v)
	for i, b := range v.Beers {
		if b.To <= 0 || float64(b.From) >= x.high {
			continue
		}
		left, right := x.at(float64(b.From)), x.at(float64(b.To))
		at := top + float64(lane[i])*(barHeight+4)
		l := look{ink: b.Ink, stroke: 1.6, fill: "paper", dash: dashed}
		if b.Ink == Measured {
			l.fill, l.dash = "ink", ""
		}
		d.rect(left+1, at, max(right-left-2, 2), barHeight, l)
		word := letters{size: smallSize, ink: b.Ink}
		inside := fit(b.Name, word, right-left-12)
		if b.Ink == Measured { // paper letters on the filled bar, drawn as a plate
			d.rect(left+5, at+3, min(textWidth(inside, word)+6, max(right-left-10, 0)), barHeight-6, look{fill: "paper"})
		}
		if right-left > 34 {
			d.text(left+8, at+barHeight/2+4, inside, word)
		}
		if b.Clash {
			d.line(left+1, at, right-1, at+barHeight, look{ink: Corrected, stroke: 1.6})
			d.line(left+1, at+barHeight, right-1, at, look{ink: Corrected, stroke: 1.6})
		}
		d.desc += fmt.Sprintf("%s for %d days. ", b.Name, b.To-b.From)
	}
	if len(v.Beers) == 0 {
		d.desc += "free. "
	}
	d.line(1, y+tall, d.width-1, y+tall, look{ink: ruled, stroke: 1})
	return tall
}
