// SPDX-License-Identifier: MIT

package chart

import (
	"math"
	"strings"

	"gyle/quantity"
)

// BrewDay is a day at the kettle on one axis of time.
type BrewDay struct {
	Course  []BrewPoint // in the order of time
	Tasks   []BrewTask
	Charges []BrewCharge
	Now     *quantity.Duration
}

// BrewPoint is a point of the day's course. Bittering is how fast bitterness
// is made from then on, against the fastest of the day: 0 to 1.
type BrewPoint struct {
	At          quantity.Duration
	Temperature quantity.Temperature
	Bittering   float64
}

// BrewTask is something to do, with its numbers as text. Plan, Measured and
// Done are in the three inks; what is empty isn't shown.
type BrewTask struct {
	At       quantity.Duration
	Name     string
	Plan     string
	Measured string
	Done     string // what was corrected
}

// BrewCharge is a hop charge that hangs on the temperature line.
type BrewCharge struct {
	At   quantity.Duration
	Hop  string
	Mass quantity.Mass
}

// brewDay is the drawing in the making.
type brewDay struct {
	*drawing
	data        BrewDay
	y           scale // minutes down the page
	x           scale // degrees across the panel
	left, right float64
	unit        string
	places      []float64 // of the tasks
	sizes       []float64
}

// BrewDayAxis draws the day down the page: the temperature as a line at the
// side, hop charges hanging on it as weights, tasks with their numbers, and
// the paper darkened where bitterness is being made.
func BrewDayAxis(s Sheet, data BrewDay) string {
	const title = "Brew day"
	d := &brewDay{drawing: newDrawing(s, title), data: knownDay(data)}
	if len(d.data.Course)+len(d.data.Tasks) == 0 {
		return empty(s, title, "No brew day has been planned yet.")
	}
	d.layout()
	d.darken()
	d.hours()
	d.degreesAxis()
	d.course()
	d.weights()
	d.tasks()
	d.now()
	d.key(d.inkKey(), 12, d.y.to+d.tail(), d.width-12, false)
	d.desc = d.describe()
	return d.String()
}

// knownDay leaves out what has no time.
func knownDay(data BrewDay) BrewDay {
	var known BrewDay
	for _, p := range data.Course {
		if finite(float64(p.At), p.Temperature.Celsius()) {
			known.Course = append(known.Course, p)
		}
	}
	for _, t := range data.Tasks {
		if finite(float64(t.At)) {
			known.Tasks = append(known.Tasks, t)
		}
	}
	for _, c := range data.Charges {
		if finite(float64(c.At), float64(c.Mass)) && c.Mass > 0 {
			known.Charges = append(known.Charges, c)
		}
	}
	if data.Now != nil && finite(float64(*data.Now)) {
		known.Now = data.Now
	}
	return known
}

const (
	bitteringColor = "#4a4030"

	dayTop       = 40.0
	unitsAMinute = 2.4
)

// layout makes the day long enough for its minutes and for its words.
func (d *brewDay) layout() {
	d.left, d.right = 46, 46+max(104, d.width*0.3)
	var minutes, degree extent
	for _, p := range d.data.Course {
		minutes.add(p.At.Minutes())
		value, _ := degrees(d.sheet.Printer, p.Temperature)
		degree.add(value)
	}
	words := 0.0
	for _, t := range d.data.Tasks {
		minutes.add(t.At.Minutes())
		size := d.taskHeight(t)
		d.sizes = append(d.sizes, size)
		words += size
	}
	for _, c := range d.data.Charges {
		minutes.add(c.At.Minutes())
	}
	if d.data.Now != nil {
		minutes.add(d.data.Now.Minutes())
	}
	length := max(min(max((minutes.high-minutes.low)*unitsAMinute, 200), 1600), words+10)
	d.y = scale{minutes.low, max(minutes.high, minutes.low+1), dayTop + 12, dayTop + 12 + length}
	d.height = d.key(d.inkKey(), 12, d.y.to+d.tail(), d.width-12, true) + 6
	_, d.unit = degrees(d.sheet.Printer, quantity.Celsius(20))
	low, high := degree.padded(0.08, 20)
	d.x = scale{low, high, d.left + 6, d.right - 8}
	d.placeTasks()
}

// tail is the room below the last minute: more of it when a charge hangs there.
func (d *brewDay) tail() float64 {
	for _, c := range d.data.Charges {
		if d.y.at(c.At.Minutes()) > d.y.to-24 {
			return 70
		}
	}
	return 44
}

// placeTasks moves the words of the tasks apart.
func (d *brewDay) placeTasks() {
	wishes := make([]float64, len(d.data.Tasks))
	for i, t := range d.data.Tasks {
		wishes[i] = d.y.at(t.At.Minutes()) - 7 + d.sizes[i]/2
	}
	d.places = spread(wishes, d.sizes, dayTop, d.y.to+d.tail()-4)
}

// darken lays ink over the paper where bitterness is made.
func (d *brewDay) darken() {
	for i := 0; i+1 < len(d.data.Course); i++ {
		p, q := d.data.Course[i], d.data.Course[i+1]
		if !finite(p.Bittering) || p.Bittering <= 0 {
			continue
		}
		top, bottom := d.y.at(p.At.Minutes()), d.y.at(q.At.Minutes())
		if bottom > top {
			look := look{class: "bittering", fill: bitteringColor, opacity: 0.42 * min(p.Bittering, 1)}
			d.rect(d.left, top, d.right-d.left, bottom-top, look)
			look.opacity *= 0.3 // words stand here
			d.rect(d.right, top, d.width-8-d.right, bottom-top, look)
		}
	}
}

// hours rules the page like a brewing sheet.
func (d *brewDay) hours() {
	step := 30.0
	for (d.y.high-d.y.low)/step > 16 {
		step *= 2
	}
	for m := step * math.Ceil(d.y.low/step); m <= d.y.high; m += step {
		y := d.y.at(m)
		d.line(d.left-4, y, d.right, y, look{ink: ruled, stroke: 0.8})
		d.text(d.left-8, y+4, clock(m), letters{figure: true, size: smallSize, anchor: "end"})
	}
	d.text(d.left-8, dayTop-10, "h:min", letters{italic: true, size: 11, anchor: "end"})
	d.line(d.right, dayTop, d.right, d.y.to+12, look{stroke: 1.6})
	d.line(d.left, dayTop, d.left, d.y.to+12, look{stroke: 0.8})
}

// degreesAxis writes the temperatures above the panel.
func (d *brewDay) degreesAxis() {
	if len(d.data.Course) == 0 {
		return
	}
	values, decimals := ticks(d.x.low, d.x.high, int((d.x.to-d.x.from)/34))
	for _, v := range values {
		x := d.x.at(v)
		d.line(x, dayTop, x, d.y.to+12, look{ink: ruled, stroke: 0.6})
		d.text(x, dayTop-5, d.sheet.Printer.Number(v, decimals), letters{figure: true, size: 11.5, anchor: "middle"})
	}
	d.text((d.left+d.right)/2, dayTop-22, d.unit, letters{italic: true, size: smallSize, anchor: "middle"})
}

// course draws the planned temperature.
func (d *brewDay) course() {
	var points []point
	for _, p := range d.data.Course {
		points = append(points, point{d.temperature(p), d.y.at(p.At.Minutes())})
	}
	d.polyline(points, look{ink: Planned, stroke: 2.2})
}

func (d *brewDay) temperature(p BrewPoint) float64 {
	value, _ := degrees(d.sheet.Printer, p.Temperature)
	return d.x.at(value)
}

// taskItems are the numbers of a task in their inks.
func (d *brewDay) taskItems(t BrewTask) []keyItem {
	var items []keyItem
	for _, entry := range []struct {
		ink  Ink
		text string
	}{{Planned, t.Plan}, {Measured, t.Measured}, {Corrected, t.Done}} {
		if entry.text != "" {
			items = append(items, d.inkItem(entry.ink, entry.text))
		}
	}
	return items
}

// taskLeft is where the words of tasks begin.
func (d *brewDay) taskLeft() float64 { return d.right + 22 }

func (d *brewDay) taskName(t BrewTask) []string {
	return wrap(t.Name, letters{bold: true}, d.width-12-d.taskLeft())
}

// taskHeight is the height of the words of a task.
func (d *brewDay) taskHeight(t BrewTask) float64 {
	names := 17 * float64(len(d.taskName(t)))
	return names + d.key(d.taskItems(t), d.taskLeft()-4, 0, d.width-12, true) + 7
}

// tasks writes the tasks beside the axis, each led to its time.
func (d *brewDay) tasks() {
	for i, t := range d.data.Tasks {
		y := d.y.at(t.At.Minutes())
		top := d.places[i] - d.sizes[i]/2
		d.circle(d.right, y, 2.6, look{fill: "ink"})
		d.polyline([]point{{d.right, y}, {d.right + 12, top + 8}, {d.right + 18, top + 8}}, look{stroke: 0.8})
		for _, line := range d.taskName(t) {
			top += 17
			d.text(d.taskLeft(), top-4, line, letters{bold: true})
		}
		d.key(d.taskItems(t), d.taskLeft()-4, top, d.width-12, false)
	}
}

// inkKey lists the inks of the numbers on the page.
func (d *brewDay) inkKey() []keyItem {
	var used [3]bool
	for _, t := range d.data.Tasks {
		for i, text := range []string{t.Plan, t.Measured, t.Done} {
			used[i] = used[i] || text != ""
		}
	}
	var items []keyItem
	for i, word := range []string{"planned", "measured", "corrected"} {
		if used[i] {
			items = append(items, d.inkItem([]Ink{Planned, Measured, Corrected}[i], word))
		}
	}
	for _, p := range d.data.Course {
		if p.Bittering > 0 {
			return append(items, keyItem{label: "the darker, the faster bitterness is made", draw: func(x, y float64) {
				for i, opacity := range []float64{0.1, 0.25, 0.42} {
					d.rect(x-9+6*float64(i), y-6, 6, 12, look{class: "bittering", fill: bitteringColor, opacity: opacity})
				}
			}})
		}
	}
	return items
}

// now lays a ruler across the hours and the panel.
func (d *brewDay) now() {
	if d.data.Now == nil {
		return
	}
	y := d.y.at(d.data.Now.Minutes())
	d.rect(6, y-1.5, d.right-6, 3, look{fill: "ink"})
	d.text(d.left+4, y-6, "now "+clock(d.data.Now.Minutes()), letters{bold: true, size: smallSize, halo: true})
}

func (d *brewDay) describe() string {
	p := d.sheet.Printer
	var parts []string
	for _, t := range d.data.Tasks {
		text := clock(t.At.Minutes()) + " " + t.Name
		for _, entry := range []struct{ word, text string }{{"plan", t.Plan}, {"measured", t.Measured}, {"done", t.Done}} {
			if entry.text != "" {
				text += ", " + entry.word + " " + entry.text
			}
		}
		parts = append(parts, text+".")
	}
	for _, c := range d.data.Charges {
		parts = append(parts, clock(c.At.Minutes())+" "+p.Mass(c.Mass)+" "+c.Hop+".")
	}
	return strings.Join(parts, " ")
}
