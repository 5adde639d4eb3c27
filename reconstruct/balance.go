// SPDX-License-Identifier: MIT

package reconstruct

import (
	"fmt"
	"slices"

	"gyle/quantity"
	"gyle/science/gravity"
	"gyle/science/reconcile"
)

// books are the balances of a day over a list of variables: what was read, what
// is known of the house, and the wort at each point, which is never read
// itself.
type books struct {
	day       Day
	variables []reconcile.Variable
	slots     []slot // beside variables
	points    []state
	malts     []int
	liquor    []int
	labFactor int
	yield     int
	absorbed  int
	dead      int
	steps     []stepSlots
	lines     []func(x []float64) float64 // the balances
	names     []string
	settled   []int // variables whose slip has been explained
}

// slot says what a variable is.
type slot struct {
	reading *Reading // nil: something known of the house, or the wort itself
	where   string   // "volume in the full kettle"
	point   int      // -1: none
	grist   bool
}

// state holds the variables of the wort at a point.
type state struct{ volume, sg int }

// stepSlots holds the variables of a step; -1 where it is a plain number.
type stepSlots struct {
	evaporated, lost int
	water, extract   []int
}

// open writes the balances of a day.
func open(d Day) *books {
	d.Known = d.Known.withUsual()
	b := &books{day: d, labFactor: -1, yield: -1, absorbed: -1, dead: -1}
	b.addMash()
	for i, p := range d.Points {
		b.addPoint(i, p)
	}
	for i := range d.Steps {
		if i+1 < len(d.Points) {
			b.addStep(i)
		}
	}
	b.mashBalances()
	return b
}

// add appends a variable and returns its place.
func (b *books) add(name string, e quantity.Estimate, s slot) int {
	b.variables = append(b.variables, reconcile.Variable{Name: name, Value: e.Value, SD: e.SD})
	b.slots = append(b.slots, s)
	return len(b.variables) - 1
}

// read appends the variable of a reading.
func (b *books) read(r *Reading, where string, point int) int {
	return b.add(where, r.True(), slot{reading: r, where: where, point: point})
}

// known appends something known beforehand; exact numbers need no variable.
func (b *books) known(name string, e quantity.Estimate) int {
	if e.SD <= 0 {
		return -1
	}
	return b.add(name, e, slot{where: name, point: -1})
}

// balance appends a balance.
func (b *books) balance(name string, left func(x []float64) float64) {
	b.names = append(b.names, name)
	b.lines = append(b.lines, left)
}

func (b *books) addMash() {
	for i := range b.day.Grist {
		m := &b.day.Grist[i]
		b.malts = append(b.malts, b.read(&m.Mass, "mass of "+m.Name, -1))
		b.slots[len(b.slots)-1].grist = true
	}
	for i := range b.day.Liquor {
		where := "liquor"
		if len(b.day.Liquor) > 1 {
			where = fmt.Sprintf("liquor %d", i+1)
		}
		b.liquor = append(b.liquor, b.read(&b.day.Liquor[i], where, -1))
	}
	if len(b.malts) > 0 {
		b.labFactor = b.known("extract of the malts", quantity.Estimate{Value: 1, SD: labExtractSpread})
		b.yield = b.known("yield of the house", b.day.Known.Yield)
		b.absorbed = b.known("absorption of the house", b.day.Known.Absorption)
		b.dead = b.known("wort left in the mash", b.day.Known.Dead)
	}
}

// addPoint adds the wort at a point with its readings.
func (b *books) addPoint(i int, p Point) {
	s := state{}
	s.volume = b.add("volume, "+p.Name, quantity.Estimate{Value: b.startVolume(), SD: reconcile.Unmeasured}, slot{point: i})
	s.sg = b.add("gravity, "+p.Name, quantity.Estimate{Value: b.startSG(), SD: reconcile.Unmeasured}, slot{point: i})
	b.points = append(b.points, s)
	for k := range p.Volumes {
		at := b.read(&b.day.Points[i].Volumes[k], "volume, "+p.Name, i)
		b.balance("reading", func(x []float64) float64 { return x[at] - x[s.volume] })
	}
	for k := range p.Gravities {
		at := b.read(&b.day.Points[i].Gravities[k], "gravity, "+p.Name, i)
		b.balance("reading", func(x []float64) float64 { return 100 * (x[at] - x[s.sg]) })
	}
}

// startVolume is where the search for the volume of any point begins: the median
// of all volumes that were read, so that one bad reading doesn't lead astray.
func (b *books) startVolume() float64 {
	var read []float64
	for _, p := range b.day.Points {
		for _, v := range p.Volumes {
			read = append(read, v.True().Value)
		}
	}
	if len(read) < 2 {
		sum := 0.0
		for _, l := range b.day.Liquor {
			sum += l.True().Value
		}
		if sum > 0 {
			read = append(read, sum)
		}
	}
	if len(read) == 0 {
		return 1
	}
	return median(read)
}

// startSG is where the search for the gravity of any point begins.
func (b *books) startSG() float64 {
	const ordinary = 1.045
	var read []float64
	for _, p := range b.day.Points {
		for _, g := range p.Gravities {
			read = append(read, g.True().Value)
		}
	}
	if len(read) == 0 {
		return ordinary
	}
	return min(max(median(read), 1.005), 1.12)
}

func median(x []float64) float64 {
	slices.Sort(x)
	n := len(x)
	return (x[(n-1)/2] + x[n/2]) / 2
}

// addStep adds what happens between two points with its balances of mass and
// extract.
func (b *books) addStep(i int) {
	step := &b.day.Steps[i]
	to := b.day.Points[i+1].Name
	s := stepSlots{
		evaporated: b.known("evaporation before "+to, step.Evaporated),
		lost:       b.known("wort lost before "+to, step.Lost),
	}
	for k := range step.Water {
		s.water = append(s.water, b.read(&step.Water[k], "water before "+to, -1))
	}
	for k := range step.Extract {
		s.extract = append(s.extract, b.read(&step.Extract[k].Mass, step.Extract[k].Name+" before "+to, -1))
	}
	b.steps = append(b.steps, s)
	from, next := b.points[i], b.points[i+1]
	b.balance("mass to "+to, func(x []float64) float64 {
		left := massAt(x, from) - massAt(x, next) - value(x, s.evaporated, step.Evaporated)
		left -= massAt(x, from) * value(x, s.lost, step.Lost) / x[from.volume]
		for _, w := range s.water {
			left += float64(gravity.WortMass(quantity.Volume(x[w]), 1))
		}
		for _, e := range s.extract {
			left += x[e]
		}
		return left
	})
	b.balance("extract to "+to, func(x []float64) float64 {
		left := extractAt(x, from)*(1-value(x, s.lost, step.Lost)/x[from.volume]) - extractAt(x, next)
		for k, e := range s.extract {
			left += x[e] * float64(step.Extract[k].Extract)
		}
		return left
	})
}

// mashBalances close water and extract from the sacks to the first point.
func (b *books) mashBalances() {
	if len(b.malts) == 0 || len(b.points) == 0 {
		return
	}
	first, known := b.points[0], b.day.Known
	b.balance("extract from the mash", func(x []float64) float64 {
		lab := 0.0
		for k, m := range b.malts {
			lab += x[m] * float64(b.day.Grist[k].Extract)
		}
		return value(x, b.yield, known.Yield)*value(x, b.labFactor, quantity.Estimate{Value: 1})*lab - extractAt(x, first)
	})
	if len(b.liquor) == 0 {
		return
	}
	b.balance("water from the mash", func(x []float64) float64 {
		left := -value(x, b.dead, known.Dead) - x[first.volume]
		for _, l := range b.liquor {
			left += x[l]
		}
		for _, m := range b.malts {
			left -= x[m] * value(x, b.absorbed, known.Absorption)
		}
		return left
	})
}

// value returns a variable, or the plain number it stands for.
func value(x []float64, at int, e quantity.Estimate) float64 {
	if at < 0 {
		return e.Value
	}
	return x[at]
}

func massAt(x []float64, s state) float64 {
	return float64(gravity.WortMass(quantity.Volume(x[s.volume]), quantity.SG(x[s.sg])))
}

func extractAt(x []float64, s state) float64 {
	return float64(gravity.ExtractMass(quantity.Volume(x[s.volume]), quantity.SG(x[s.sg])))
}

// problem returns the books as science/reconcile takes them.
func (b *books) problem() reconcile.Problem {
	return reconcile.Problem{
		Variables: b.variables,
		Count:     len(b.lines),
		Balances: func(x, left []float64) {
			for i, line := range b.lines {
				left[i] = line(x)
			}
		},
	}
}

// hold gives the wort itself a wide guess, for days of which too little is
// known to determine it. It returns how many guesses there are.
func (b *books) hold() int {
	const wideVolume, wideSG = 0.3, 0.015 // estimates: a third of the kettle, fifteen points
	for _, p := range b.points {
		b.variables[p.volume].SD = wideVolume * b.startVolume()
		b.variables[p.sg].SD = wideSG
	}
	return 2 * len(b.points)
}
