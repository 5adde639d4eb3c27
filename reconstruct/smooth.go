// SPDX-License-Identifier: MIT

package reconstruct

import (
	"errors"
	"fmt"
	"math"

	"gyle/quantity"
	"gyle/science/gravity"
	"gyle/science/reconcile"
)

// Smoothed is a day whose books balance.
type Smoothed struct {
	Points     []Wort
	Yield      quantity.Estimate // extract in the full kettle over extract by the laboratory
	Absorption quantity.Estimate
	Evaporated []quantity.Estimate // kg, by step
	Lost       []quantity.Estimate // L, by step
	Seen       Seen                // what the readings alone say of the house
	Readings   []Checked           // in the order of the day
	// P is the probability of readings as far apart as these when nothing is
	// wrong; Freedom is how many checks there are.
	P       float64
	Freedom int
	// Guessed says that too little was read to determine the wort, and a wide
	// guess stands in.
	Guessed bool
	// Open is what is left of the worst balance, in kg and L.
	Open float64
	// Suspects are the readings that can't be right, most likely first: one of them
	// is wrong. The day is smoothed with the best explanation of the first. Beside
	// readings they may be something the house usually does, see
	// [Suspect.IsReading].
	Suspects []Suspect
	// Also are what stands out when the first suspect is explained: further slips
	// of the same day.
	Also []Suspect
}

// Seen is what the readings of one day say of the constants of a house when
// what was known of each beforehand is left out: what there is to learn from the
// day. A constant that the readings don't determine is nil.
type Seen struct {
	Yield, Absorption *quantity.Estimate
	Evaporated        []*quantity.Estimate // kg, by step
	Lost              []*quantity.Estimate // L, by step
}

// seen takes what was known of each constant out again: what is left is what the
// readings alone say. Balances of a brew are so nearly straight that solving
// again without it moves the result by less than a hundredth of its SD.
func (b *books) seen(p reconcile.Problem, s *reconcile.Solution, tests map[int]reconcile.Test) Seen {
	look := func(at int) *quantity.Estimate {
		if at >= 0 && !p.Variables[at].Measured() { // it was left out already
			return &quantity.Estimate{Value: s.Values[at], SD: s.SD(at)}
		}
		t, checked := tests[at]
		if !checked {
			return nil
		}
		known := p.Variables[at]
		return &quantity.Estimate{Value: known.Value - t.Error, SD: math.Sqrt(max(t.ErrorSD*t.ErrorSD-known.SD*known.SD, 0))}
	}
	out := Seen{Yield: look(b.yield), Absorption: look(b.absorbed)}
	for _, step := range b.steps {
		out.Evaporated = append(out.Evaporated, look(step.evaporated))
		out.Lost = append(out.Lost, look(step.lost))
	}
	return out
}

// Wort is the smoothed wort at one point.
type Wort struct {
	Name    string
	Volume  quantity.Estimate // L at 20 °C
	SG      quantity.Estimate
	Mass    quantity.Estimate // kg
	Extract quantity.Estimate // kg
}

// Checked is a reading with what the balances say of it.
type Checked struct {
	Reading  Reading
	Where    string
	Meant    quantity.Estimate // on the scale of the balances: L at 20 °C, SG, kg
	Smoothed quantity.Estimate
	Z        float64 // adjustment over its standard deviation; 0 where nothing checks it
	P        float64 // of the largest of so many; 1 where nothing checks it
}

// Smooth balances the books of a day. Where the readings can't be true together
// it names suspects and smooths again with the best explanation.
func Smooth(d Day) (*Smoothed, error) {
	if !d.hasVolume() {
		return nil, errors.New("smooth the day: neither liquor nor wort was measured by volume")
	}
	b := open(d)
	p, s, guessed, err := b.solve()
	if err != nil {
		return nil, fmt.Errorf("smooth the day: %w", err)
	}
	out := b.report(p, s)
	out.Suspects = b.suspects(p, s)
	for slips := 0; slips < mostSlips; slips++ {
		worst, found := out.latest(slips)
		if !found {
			break
		}
		better, again := b.explained(p, worst)
		if better == nil {
			break
		}
		b.settled = append(b.settled, worst.variable)
		next := b.report(again, better)
		next.Readings, next.P, next.Freedom = keepChecks(out.Readings, next.Readings), out.P, out.Freedom
		next.Suspects, next.Also = out.Suspects, out.Also
		if more := b.suspects(again, better); len(more) > 0 && slips+1 < mostSlips {
			next.Also = append(next.Also, more[0])
		}
		out, p = next, again
	}
	out.Guessed = guessed
	for _, w := range out.Points {
		if !(w.Volume.Value > 0 && w.SG.Value > 0.98 && w.SG.Value < 1.3) {
			return nil, fmt.Errorf("smooth the day: the readings contradict one another; they make %.1f L of %.3f in the %s", w.Volume.Value, w.SG.Value, w.Name)
		}
	}
	return out, nil
}

// hasVolume reports whether anything says how much wort there was.
func (d Day) hasVolume() bool {
	for _, p := range d.Points {
		if len(p.Volumes) > 0 {
			return true
		}
	}
	return len(d.Points) > 0 && len(d.Liquor) > 0
}

// mostSlips is how many slips of one day are sought. With more than a few, the
// readings that are left check nothing. Own choice.
const mostSlips = 3

// latest returns the suspect that was found last and isn't explained yet.
func (s *Smoothed) latest(explained int) (Suspect, bool) {
	switch {
	case explained == 0 && len(s.Suspects) > 0:
		return s.Suspects[0], true
	case explained > 0 && len(s.Also) >= explained:
		return s.Also[explained-1], true
	}
	return Suspect{}, false
}

// keepChecks takes the smoothed values of the second solution and the tests of
// the first, in which the bad reading stands out.
func keepChecks(first, second []Checked) []Checked {
	for i := range second {
		second[i].Z, second[i].P, second[i].Meant = first[i].Z, first[i].P, first[i].Meant
	}
	return second
}

// solve balances the books, with guesses where too little was read.
func (b *books) solve() (p reconcile.Problem, s *reconcile.Solution, guessed bool, err error) {
	p = b.problem()
	s, err = reconcile.Solve(p)
	if err == nil {
		return p, s, false, nil
	}
	guesses := b.hold()
	p = b.problem()
	if s, err = reconcile.Solve(p); err != nil {
		return p, nil, true, err
	}
	s.Freedom = max(s.Freedom-guesses, 0)
	return p, s, true, nil
}

// explained solves again with a reading as it was probably meant.
func (b *books) explained(p reconcile.Problem, worst Suspect) (*reconcile.Solution, reconcile.Problem) {
	if len(worst.Explanations) == 0 {
		return nil, p
	}
	e := worst.Explanations[0]
	again := p.Without(worst.variable)
	if !e.Unknown {
		again = p.With(worst.variable, e.Corrected.Value, e.Corrected.SD)
	}
	s, err := reconcile.Solve(again)
	if err != nil {
		return nil, p
	}
	return s, again
}

// report writes a solution down for people.
func (b *books) report(p reconcile.Problem, s *reconcile.Solution) *Smoothed {
	out := &Smoothed{P: reconcile.GlobalTest(s), Freedom: s.Freedom}
	for i, point := range b.points {
		out.Points = append(out.Points, Wort{
			Name:    b.day.Points[i].Name,
			Volume:  quantity.Estimate{Value: s.Values[point.volume], SD: s.SD(point.volume)},
			SG:      quantity.Estimate{Value: s.Values[point.sg], SD: s.SD(point.sg)},
			Mass:    estimateOf(s, []int{point.volume, point.sg}, func(x []float64) float64 { return massAt(x, point) }),
			Extract: estimateOf(s, []int{point.volume, point.sg}, func(x []float64) float64 { return extractAt(x, point) }),
		})
	}
	out.Yield = b.constant(s, b.yield, b.day.Known.Yield)
	out.Absorption = b.constant(s, b.absorbed, b.day.Known.Absorption)
	for i, step := range b.steps {
		out.Evaporated = append(out.Evaporated, b.constant(s, step.evaporated, b.day.Steps[i].Evaporated))
		out.Lost = append(out.Lost, b.constant(s, step.lost, b.day.Steps[i].Lost))
	}
	tests := map[int]reconcile.Test{}
	for _, t := range reconcile.Tests(p, s) {
		tests[t.Variable] = t
	}
	for i, sl := range b.slots {
		if sl.reading == nil {
			continue
		}
		c := Checked{Reading: *sl.reading, Where: sl.where, Meant: sl.reading.True(), P: 1,
			Smoothed: quantity.Estimate{Value: s.Values[i], SD: s.SD(i)}}
		if t, ok := tests[i]; ok {
			c.Z, c.P = t.Z, t.P
		}
		out.Readings = append(out.Readings, c)
	}
	out.Seen = b.seen(p, s, tests)
	for _, left := range s.Left {
		out.Open = max(out.Open, math.Abs(left))
	}
	return out
}

// constant returns something known of the house after the day.
func (b *books) constant(s *reconcile.Solution, at int, known quantity.Estimate) quantity.Estimate {
	if at < 0 {
		return known
	}
	return quantity.Estimate{Value: s.Values[at], SD: s.SD(at)}
}

// estimateOf carries the covariance of some values through a function of them.
func estimateOf(s *reconcile.Solution, of []int, f func(x []float64) float64) quantity.Estimate {
	x := append([]float64(nil), s.Values...)
	middle := f(x)
	slopes := make([]float64, len(of))
	for k, i := range of {
		step := 1e-6 * max(math.Abs(s.Values[i]), 1e-3)
		x[i] = s.Values[i] + step
		slopes[k] = (f(x) - middle) / step
		x[i] = s.Values[i]
	}
	variance := 0.0
	for k, i := range of {
		for l, j := range of {
			variance += slopes[k] * slopes[l] * s.Covariance[i][j]
		}
	}
	return quantity.Estimate{Value: middle, SD: math.Sqrt(max(variance, 0))}
}

// AsRead is the wort at a point by its first two readings alone, before the
// books are balanced.
type AsRead struct {
	Name    string
	Volume  quantity.Volume
	SG      quantity.SG
	Extract quantity.Mass
}

// AsRead returns the points that have both a volume and a gravity, as read.
// Their extracts should agree, unless some was added or left behind.
func (d Day) AsRead() []AsRead {
	var out []AsRead
	for _, p := range d.Points {
		if len(p.Volumes) == 0 || len(p.Gravities) == 0 {
			continue
		}
		v, sg := quantity.Volume(p.Volumes[0].True().Value), quantity.SG(p.Gravities[0].True().Value)
		out = append(out, AsRead{p.Name, v, sg, gravity.ExtractMass(v, sg)})
	}
	return out
}

// LabExtract is the extract of the grist by the laboratory, in kg.
func (d Day) LabExtract() quantity.Mass {
	sum := 0.0
	for _, m := range d.Grist {
		sum += m.Mass.True().Value * float64(m.Extract)
	}
	return quantity.Mass(sum)
}

// Yields returns the yield that the first full reading of the wort shows, and
// the yield it would show if the hot volume were taken for a cold one: the
// trap behind many a brewhouse that works better than it does. They are equal
// where the volume was read cold, and zero where grist or readings are missing.
func (d Day) Yields() (right, takenAsCold quantity.Fraction) {
	lab, read := d.LabExtract(), d.AsRead()
	if lab <= 0 || len(read) == 0 {
		return 0, 0
	}
	for _, p := range d.Points {
		if p.Name == read[0].Name {
			cold := quantity.Volume(p.Volumes[0].Value)
			return quantity.Fraction(read[0].Extract / lab), quantity.Fraction(gravity.ExtractMass(cold, read[0].SG) / lab)
		}
	}
	return 0, 0
}
