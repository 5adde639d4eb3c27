// SPDX-License-Identifier: MIT

package judge

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/data"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// shift is shares of the grist that move from grain to grain.
type shift struct {
	by    []float64 // by grain of the beer
	other int       // the grain that gives or takes the difference; -1 if none can
	added string    // a malt that the grist doesn't have yet
	more  float64   // its share
}

func (w *work) newShift() shift { return shift{by: make([]float64, len(w.beer.grains)), other: -1} }

// take takes so much from the grains allowed, the largest first, and returns
// what it couldn't get.
func (w *work) take(s *shift, want float64, allowed func(i int) bool) float64 {
	for _, i := range w.bySize(allowed) {
		got := math.Min(want, w.beer.grains[i].share+s.by[i])
		s.by[i] -= got
		if want -= got; want <= 1e-12 {
			return 0
		}
	}
	return want
}

// bySize returns the grains allowed, the largest first.
func (w *work) bySize(allowed func(i int) bool) []int {
	var order []int
	for i := range w.beer.grains {
		if allowed(i) && w.beer.grains[i].share > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(w.beer.grains[b].share, w.beer.grains[a].share) })
	return order
}

// base returns the grain that takes a difference: the largest with role base,
// else the largest base malt, else the largest that isn't there for colour. It
// is -1 if none of those allowed can.
func (w *work) base(allowed func(i int) bool) int {
	best, bestRank := -1, math.Inf(-1)
	for i, g := range w.beer.grains {
		if !allowed(i) || g.share <= 0 {
			continue
		}
		rank := g.share
		switch {
		case g.role == recipe.RoleBase:
			rank += 20
		case g.class == "base":
			rank += 10
		case g.role == recipe.RoleColor:
			rank -= 10
		}
		if rank > bestRank {
			best, bestRank = i, rank
		}
	}
	return best
}

// mendShare moves the excess of a sum from its largest grain to the base malt,
// or what is missing from the base malt to its largest grain.
func (w *work) mendShare(p places, got chosen, sel *style.Selection, v *Verdict) {
	in := func(i int) bool { return got.in[i] }
	out := func(i int) bool { return !got.in[i] }
	s := w.newShift()
	s.other = w.base(out)
	d := p.excess(v.Value) / 100
	if d > 0 {
		if s.other < 0 {
			v.Mend = fmt.Sprintf("%s of it must go to another grain", w.in(percent).difference(100*d))
			return
		}
		w.take(&s, d, in)
		s.by[s.other] += d
		w.tellShift(s, v)
		return
	}
	order := w.bySize(in)
	if len(order) > 0 {
		s.by[order[0]] -= d
	}
	w.raise(s, -d, len(order) == 0, sel, out, v)
}

// raise gets so much from the base malt, and from others where that isn't
// enough, for a grain that s already raises or for a new one.
func (w *work) raise(s shift, want float64, isNew bool, sel *style.Selection, from func(i int) bool, v *Verdict) {
	if isNew {
		if s.added = w.example(sel); s.added == "" {
			v.Mend = fmt.Sprintf("add %s of %s", w.in(percent).withUnit(w.in(percent).number(100*want, 2)), sel.Phrase())
			return
		}
		s.more = want
	}
	if s.other >= 0 {
		want = w.take(&s, want, func(i int) bool { return i == s.other })
	}
	if want > 0 {
		want = w.take(&s, want, func(i int) bool { return from(i) && i != s.other })
	}
	if want > 1e-9 {
		v.Mend = fmt.Sprintf("%s more of %s", w.in(percent).difference(100*want), sel.Phrase())
		return
	}
	w.tellShift(s, v)
}

// mendLargest brings every grain that is too large down to the limit, or the
// largest up to it.
func (w *work) mendLargest(p places, got chosen, sel *style.Selection, v *Verdict) {
	s := w.newShift()
	lines, share := w.largest(got)
	out := func(i int) bool { return !got.in[i] }
	if p.excess(v.Value) < 0 {
		if len(lines) > 0 {
			s.by[lines[0]] = p.low/100 - share
		}
		s.other = w.base(out)
		w.raise(s, p.low/100-share, len(lines) == 0, sel, out, v)
		return
	}
	excess := 0.0
	for _, kind := range w.kinds(got) {
		sum := 0.0
		for _, i := range kind {
			sum += w.beer.grains[i].share
		}
		if d := sum - p.high/100; d > 0 {
			w.take(&s, d, func(i int) bool { return slices.Contains(kind, i) })
			excess += d
		}
	}
	if s.other = w.base(out); s.other < 0 {
		v.Mend = fmt.Sprintf("%s of it must go to another grain", w.in(percent).difference(100*excess))
		return
	}
	s.by[s.other] += excess
	w.tellShift(s, v)
}

// mendCount lets the smallest grains go, or adds what is missing.
func (w *work) mendCount(p places, got chosen, sel *style.Selection, v *Verdict) {
	d := p.excess(v.Value)
	if d < 0 {
		w.mendTooFew(int(math.Ceil(-d-1e-9)), got, sel, v)
		return
	}
	kinds := w.kinds(got)
	size := func(lines []int) (sum float64) {
		for _, i := range lines {
			sum += w.beer.grains[i].share
		}
		return sum
	}
	slices.SortStableFunc(kinds, func(a, b []int) int { return cmp.Compare(size(a), size(b)) })
	s := w.newShift()
	freed := 0.0
	for _, lines := range kinds[:int(math.Ceil(d-1e-9))] {
		for _, i := range lines {
			freed += w.beer.grains[i].share
			s.by[i] = -w.beer.grains[i].share
		}
	}
	if s.other = w.base(func(i int) bool { return s.by[i] == 0 }); s.other < 0 {
		v.Mend = "the smallest of them must go"
		return
	}
	s.by[s.other] += freed
	w.tellShift(s, v)
}

// newShare is how much of a new grain a mend proposes. Common practice: the
// smallest share that is tasted of most malts.
const newShare = 0.01

// mendTooFew parts the largest grain chosen in favour of others of its sort.
func (w *work) mendTooFew(missing int, got chosen, sel *style.Selection, v *Verdict) {
	order := w.bySize(func(i int) bool { return got.in[i] })
	from := w.base(func(i int) bool { return !got.in[i] })
	if len(order) > 0 {
		from = order[0]
	}
	extra := w.example(sel)
	if missing > 1 || extra == "" || from < 0 {
		v.Mend = fmt.Sprintf("%d more of %s", missing, sel.Phrase())
		return
	}
	s := w.newShift()
	s.other, s.added = from, extra
	s.more = math.Min(newShare, w.beer.grains[from].share/2)
	s.by[from] = -s.more
	w.tellShift(s, v)
}

// example returns a malt that a selection picks and the grist doesn't have:
// the first that the selection names, else the first of the typical malts that
// is no extract.
func (w *work) example(sel *style.Selection) string {
	p := w.pick(sel)
	has := func(word string) bool {
		return slices.ContainsFunc(w.beer.grains, func(g grain) bool { return g.id == maltID(word) && g.share > 0 })
	}
	for _, word := range append(w.named(sel, 0), data.MaltIDs()...) {
		g := newGrain(word, nil)
		if picked, _ := p(&g); picked && !has(word) && g.class != "extract" {
			return word
		}
	}
	return ""
}

// named returns the words in a selection, and in its groups, that may be malts.
func (w *work) named(sel *style.Selection, depth int) []string {
	var words []string
	for _, t := range sel.Terms {
		switch t.Sort {
		case style.ByMalt, style.ByClass: // "wheat" is what the usual malt of its class is called
			words = append(words, t.Name)
		case style.ByGroup:
			words = append(words, w.named(w.group(t.Name, depth), depth+1)...)
		}
	}
	return words
}

// tellShift puts a shift into words: "oats-flaked 18 → 16 %, pale-ale takes 2
// points", with masses where the grist has one.
func (w *work) tellShift(s shift, v *Verdict) {
	var parts []string
	last := ""
	for i, by := range s.by {
		if math.Abs(by) < 1e-12 {
			continue
		}
		g := w.beer.grains[i]
		to := math.Max(g.share+by, 0)
		v.Changes = append(v.Changes, Change{What: ShareTo, Name: g.malt, Index: g.index, To: to})
		if i == s.other {
			verb := "takes"
			if by < 0 {
				verb = "gives"
			}
			last = fmt.Sprintf("%s %s %s%s", g.malt, verb, w.in(percent).difference(100*by), w.massText(by))
			continue
		}
		parts = append(parts, fmt.Sprintf("%s %s → %s%s", g.malt, w.in(percent).number(100*g.share, 2), w.in(percent).withUnit(w.in(percent).number(100*to, 2)), w.massText(by)))
	}
	if s.added != "" {
		v.Changes = append(v.Changes, Change{What: ShareTo, Name: s.added, Index: -1, To: s.more})
		parts = append(parts, fmt.Sprintf("%s of %s%s", w.in(percent).withUnit(w.in(percent).number(100*s.more, 2)), s.added, w.massText(s.more)))
	}
	if last != "" {
		parts = append(parts, last)
	}
	v.Mend = strings.Join(parts, ", ")
}

// massText says what a share weighs: " (+0.41 kg)", or nothing.
func (w *work) massText(share float64) string {
	if w.beer.mass <= 0 {
		return ""
	}
	sign := "+"
	if share < 0 {
		sign = "−"
	}
	return " (" + sign + w.beer.reader.Mass(quantity.Mass(math.Abs(share))*w.beer.mass) + ")"
}

// lateEntry is how a grain comes in late where none does yet. Common practice.
const lateEntry = "last 15 min"

// mendLate moves what is missing from the mash to its last minutes, or back.
func (w *work) mendLate(p places, got chosen, late float64, v *Verdict) {
	d := late - p.nearest(v.Value)/100*got.sum // more than zero: too much comes late
	to, verb := "mash", "with the rest of the mash"
	if d < 0 {
		to = lateEntry
		for i := range w.beer.grains {
			if g := &w.beer.grains[i]; got.in[i] && g.isLate() {
				to = g.in.String()
			}
		}
		verb = "late: " + to
	}
	s := w.newShift()
	w.take(&s, math.Abs(d), func(i int) bool {
		g := &w.beer.grains[i]
		return got.in[i] && (d > 0 && g.isLate() || d < 0 && g.in.Way == recipe.WithMash)
	})
	var parts []string
	for i, by := range s.by {
		if by == 0 {
			continue
		}
		g := w.beer.grains[i]
		v.Changes = append(v.Changes, Change{What: EntryOf, Name: g.malt, Index: g.index, To: -by, At: to})
		parts = append(parts, fmt.Sprintf("%s of %s%s", w.in(percent).withUnit(w.in(percent).number(-100*by, 2)), g.malt, strings.Replace(w.massText(-by), "+", "", 1)))
	}
	if len(parts) > 0 {
		v.Mend = strings.Join(parts, ", ") + " " + verb
	}
}
