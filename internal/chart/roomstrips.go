// SPDX-License-Identifier: MIT

package chart

import "math"

// Room is how little and how much of one thing there may be, and how much there is.
type Room struct {
	Name, Now   string // "crystal", "6.0 %"
	Low, High   string // the ends in words
	Least, Most float64
	Value       float64
	Unknown     bool // the ends aren't known
}

// RoomGroup is rooms on one scale that begins at nothing. Without a common scale
// each room fills its line.
type RoomGroup struct {
	Name  string
	Own   bool // each room has a scale of its own
	Rooms []Room
}

// Measures of the strips.
const (
	roomLine     = 34.0
	roomLineTall = 52.0 // with the name above the strip
	roomHead     = 26.0
	roomNames    = 170.0
	roomEnds     = 66.0
)

// RoomStrips draws rooms as thin ruled lines between two stops, with a filled
// mark where the recipe stands.
func RoomStrips(s Sheet, title string, groups []RoomGroup) string {
	d := newDrawing(s, title)
	narrow := d.width < 560
	y := 6.0
	for _, g := range groups {
		if len(g.Rooms) == 0 {
			continue
		}
		d.text(0, y+14, g.Name, letters{italic: true})
		y += roomHead
		most := 0.0
		for _, r := range g.Rooms {
			if most = max(most, r.Value); !r.Unknown && finite(r.Most) {
				most = max(most, r.Most)
			}
		}
		for _, r := range g.Rooms {
			y += d.roomLine(r, scale{low: 0, high: most}, g.Own, y, narrow)
		}
		y += 10
	}
	d.height = y
	return d.String()
}

// roomLine draws one room and returns how tall its line is.
func (d *drawing) roomLine(r Room, x scale, own bool, y float64, narrow bool) float64 {
	tall, middle := roomLine, y+roomLine/2
	x.from, x.to = roomNames+roomEnds+40, d.width-roomEnds
	if narrow {
		tall, middle = roomLineTall, y+36
		x.from, x.to = roomEnds, d.width-roomEnds
		d.text(0, y+17, fit(r.Name, letters{}, d.width-80), letters{})
		d.text(d.width, y+17, r.Now, letters{figure: true, anchor: "end", bold: true, ink: Planned})
	} else {
		d.text(0, middle+5, fit(r.Name, letters{}, roomNames-30), letters{})
		d.text(roomNames+42, middle+5, r.Now, letters{figure: true, anchor: "end", bold: true, ink: Planned})
	}
	d.line(1, y+tall, d.width-1, y+tall, look{ink: ruled, stroke: 1})
	d.desc += r.Name + " " + r.Now
	if r.Unknown || !finite(r.Least, r.Most) {
		d.desc += ". "
		return tall
	}
	d.desc += ", room " + r.Low + " to " + r.High + ". "
	if own {
		x.low, x.high = r.Least, r.Most
	}
	left, right := x.at(r.Least), x.at(r.Most)
	d.line(left, middle, right, middle, look{stroke: 1.4})
	for _, end := range []float64{left, right} {
		d.line(end, middle-6, end, middle+6, look{stroke: 1.4})
	}
	small := letters{figure: true, size: smallSize}
	d.text(right+7, middle+4, r.High, small)
	small.anchor = "end"
	d.text(left-7, middle+4, r.Low, small)
	at := x.at(math.Max(r.Value, x.low))
	d.rect(at-3, middle-8, 6, 16, look{ink: Planned, fill: "ink"})
	return tall
}
