// SPDX-License-Identifier: MIT

package formulate

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
)

// Variation is another beer of the same style.
type Variation struct {
	Recipe    *recipe.Recipe
	Text      string
	Judgement judge.Judgement
	Says      string  // what is different, in one sentence
	Distance  float64 // from the recipe it began with; 1 is the whole room of one ingredient or figure
}

// push is a direction in which a beer may go.
type push struct {
	name    string
	demands []demand
}

// Variations proposes up to k clearly different beers inside the style of the
// wish, each reached from the recipe by going one way, and changing as little
// else as the rules allow. Among all ways those are chosen that lie farthest
// from the recipe and from each other, in shares and aims measured by their
// rooms. Fewer come back where the style leaves no more.
func Variations(ctx context.Context, wish Wish, r *recipe.Recipe, k int) ([]Variation, error) {
	wish.Start, wish.Objective = r, Near
	w, err := begin(ctx, wish)
	if err != nil {
		return nil, err
	}
	w.few = true
	ds, err := w.settleDemands(w.demands)
	if err != nil {
		return nil, err
	}
	from, err := w.startDraft(ds)
	if err != nil {
		return nil, err
	}
	rooms, err := w.rooms(from)
	if err != nil {
		return nil, err
	}
	scale := w.scaleOf(ds, from, rooms)
	drafts := w.pushed(ds, rooms, from)
	chosen := scale.farthest(w, from, drafts, k)
	var out []Variation
	for _, d := range chosen {
		v, err := w.variation(from, d, scale)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, w.err
}

// startDraft is the recipe of the start in numbers.
func (w *work) startDraft(ds []demand) (*draft, error) {
	d := &draft{ds: ds, asked: ds, og: 1.050}
	figures, _ := judge.Meant(w.wish.Start)
	og, known := figures[quantity.OG]
	if !known {
		return nil, fmt.Errorf("vary %s: the recipe doesn't aim at an original gravity", w.wish.Start.Name)
	}
	d.og = og
	if d.end.fg = figures[quantity.FG]; d.end.fg == 0 {
		d.end.fg = og
	}
	for _, c := range w.columns {
		d.shares = append(d.shares, w.startShare(c))
	}
	for i := range w.charges {
		d.doses = append(d.doses, w.startDose(i, og))
	}
	return d, nil
}

// far is how far into its room a push goes, as a share of it.
const far = 0.8

// pushes lists the ways to go.
func (w *work) pushes(ds []demand, rooms []Room) []push {
	var out []push
	figures := map[quantity.Figure][2]push{}
	for _, f := range []quantity.Figure{quantity.OG, quantity.BeerColor, quantity.Bitterness, quantity.FG, quantity.BUGU} {
		s := (&draft{ds: ds}).allowed(f)
		if empty(s) || math.IsInf(s.High-s.Low, 0) || s.High-s.Low < 1e-9 {
			continue
		}
		down := wishFor(onFigure, nil, math.Inf(-1), s.Low+(1-far)*(s.High-s.Low), 1, "less", "")
		up := wishFor(onFigure, nil, s.Low+far*(s.High-s.Low), math.Inf(1), 1, "more", "")
		down.figure, up.figure = f, f
		figures[f] = [2]push{{string(f) + " down", []demand{down}}, {string(f) + " up", []demand{up}}}
		out = append(out, figures[f][0], figures[f][1])
	}
	for _, pair := range [][2]quantity.Figure{{quantity.OG, quantity.Bitterness}, {quantity.BeerColor, quantity.Bitterness}, {quantity.OG, quantity.BeerColor}} {
		a, b := figures[pair[0]], figures[pair[1]]
		for i := range 4 {
			if one, two := a[i/2], b[i%2]; one.name != "" && two.name != "" {
				out = append(out, push{one.name + ", " + two.name, slices.Concat(one.demands, two.demands)})
			}
		}
	}
	for i, room := range rooms {
		width := room.Most - room.Least
		if room.Unit == "%" && width < 0.02 || !(width > 0) {
			continue
		}
		if part := room.Least + (1-far)*width; part < room.Now {
			out = append(out, push{room.Name + " down", []demand{w.holdRoom(i, math.Inf(-1), part)}})
		}
		if part := room.Least + far*width; part > room.Now {
			out = append(out, push{room.Name + " up", []demand{w.holdRoom(i, part, math.Inf(1))}})
		}
	}
	return out
}

// holdRoom is a demand on the ingredient of a room.
func (w *work) holdRoom(i int, low, high float64) demand {
	if n := len(w.wish.Malts); i >= n {
		return wishFor(onDose, pickWhere(len(w.charges), func(k int) bool { return w.charges[k].hop == i-n }), low, high, 1, "way", "")
	}
	return wishFor(onShare, pickWhere(len(w.columns), func(k int) bool { return w.columns[k].malt == i }), low, high, 100, "way", "")
}

// pushed returns the drafts that the pushes lead to, in practical steps.
func (w *work) pushed(ds []demand, rooms []Room, from *draft) []draft {
	var out []draft
	for _, p := range w.pushes(ds, rooms) {
		found := w.search(slices.Concat(ds, p.demands))
		for i := range min(len(found), 3) {
			if d, ok := w.weigh(found[i]); ok {
				d.asked = ds
				out = append(out, d)
				break
			}
		}
	}
	return out
}

// scale measures how different two beers are: shares and doses by their rooms,
// figures by the ranges of the style.
type scale struct {
	names  []string
	widths []float64
}

// scaleOf builds the scale of a style and a shelf.
func (w *work) scaleOf(ds []demand, from *draft, rooms []Room) *scale {
	s := &scale{}
	for _, room := range rooms {
		s.names = append(s.names, room.Name)
		s.widths = append(s.widths, room.Most-room.Least)
	}
	for _, f := range aimed {
		limits := (&draft{ds: ds}).allowed(f)
		s.names, s.widths = append(s.names, string(f)), append(s.widths, limits.High-limits.Low)
	}
	return s
}

// aimed are the figures that a scale looks at.
var aimed = []quantity.Figure{quantity.OG, quantity.FG, quantity.Bitterness, quantity.BeerColor}

// place is a beer as a point.
func (w *work) place(d *draft) []float64 {
	var x []float64
	for m := range w.wish.Malts {
		sum := 0.0
		for i, c := range w.columns {
			if c.malt == m {
				sum += d.shares[i]
			}
		}
		x = append(x, sum)
	}
	for h := range w.wish.Hops {
		sum := 0.0
		for i, c := range w.charges {
			if c.hop == h {
				sum += d.doses[i]
			}
		}
		x = append(x, sum)
	}
	return append(x, d.og, d.end.fg, w.bitterness(d.doses), w.colorOf(d.og, d.shares))
}

// steps returns how far b lies from a in each direction; 0 where no width is known.
func (s *scale) steps(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		if width := s.widths[i]; width > 1e-9 && !math.IsInf(width, 0) {
			out[i] = (b[i] - a[i]) / width
		}
	}
	return out
}

func (s *scale) distance(a, b []float64) float64 {
	sum := 0.0
	for _, x := range s.steps(a, b) {
		sum += x * x
	}
	return math.Sqrt(sum)
}

// clearly is the least distance between two beers that count as different: half
// of the room of one ingredient or figure. A design choice.
const clearly = 0.5

// farthest chooses k drafts, each as far as can be from all that are chosen.
func (s *scale) farthest(w *work, from *draft, drafts []draft, k int) []*draft {
	taken := [][]float64{w.place(from)}
	var out []*draft
	for len(out) < k {
		best, at := clearly, -1
		for i := range drafts {
			x, nearest := w.place(&drafts[i]), math.Inf(1)
			for _, t := range taken {
				nearest = math.Min(nearest, s.distance(t, x))
			}
			if nearest > best+1e-9 {
				best, at = nearest, i
			}
		}
		if at < 0 {
			break
		}
		out = append(out, &drafts[at])
		taken = append(taken, w.place(&drafts[at]))
	}
	return out
}

// variation writes a draft down as a variation.
func (w *work) variation(from, d *draft, s *scale) (Variation, error) {
	one := *w
	one.columns, one.charges = slices.Clone(w.columns), slices.Clone(w.charges)
	got, _, r, err := one.settle(d)
	if err != nil {
		return Variation{}, err
	}
	a, b := w.place(from), one.place(got)
	says := w.differences(a, b, s)
	r.Change = &recipe.Change{What: says}
	v := Variation{Says: says, Distance: s.distance(a, b)}
	if v.Recipe, v.Text, err = printed(r); err != nil {
		return Variation{}, err
	}
	v.Judgement, err = judge.RecipeFor(w.wish.Reader, w.wish.Style, v.Recipe)
	return v, err
}

// differences says in one sentence in what b differs most from a.
func (w *work) differences(a, b []float64, s *scale) string {
	steps := s.steps(a, b)
	order := make([]int, len(steps))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, k int) int { return cmp.Compare(math.Abs(steps[k]), math.Abs(steps[i])) })
	const least, most = 0.15, 4
	var parts []string
	for _, i := range order {
		if math.Abs(steps[i]) >= least && len(parts) < most {
			parts = append(parts, w.difference(i, a[i], b[i]))
		}
	}
	if len(parts) == 0 {
		return "hardly different"
	}
	return strings.Join(parts, ", ")
}

// words are how a figure that falls or rises is spoken of.
var words = map[quantity.Figure][2]string{
	quantity.OG: {"weaker", "stronger"}, quantity.FG: {"drier", "fuller"},
	quantity.Bitterness: {"less bitter", "more bitter"}, quantity.BeerColor: {"paler", "darker"},
}

func (w *work) difference(i int, from, to float64) string {
	malts, hops := len(w.wish.Malts), len(w.wish.Hops)
	number, reader := w.wish.Reader.Number, w.wish.Reader
	switch {
	case i < malts:
		name := w.wish.Malts[i].Malt
		switch {
		case to < 1e-6:
			return "no " + name
		case from < 1e-6:
			return fmt.Sprintf("%s %% of %s", number(100*to, 1), name)
		}
		return fmt.Sprintf("%s %s instead of %s %%", name, number(100*to, 1), number(100*from, 1))
	case i < malts+hops:
		name := w.wish.Hops[i-malts].Hop
		if to < 1e-6 {
			return "no " + name
		}
		return fmt.Sprintf("%s %s instead of %s", name, reader.Dose(quantity.Dose(to)), reader.Dose(quantity.Dose(from)))
	}
	f := aimed[i-malts-hops]
	word := words[f][0]
	if to > from {
		word = words[f][1]
	}
	return fmt.Sprintf("%s (%s instead of %s)", word, reader.Figure(f, to), reader.Figure(f, from))
}
