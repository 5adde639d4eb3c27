// SPDX-License-Identifier: MIT

package judge

import (
	"fmt"

	"gyle/recipe"
	"gyle/style"
)

func (w *work) onShare(r *style.Rule, v *Verdict) {
	p, judged := w.spread(v, percent, r.Range(), 100)
	if judged {
		w.share(p, w.choose(w.pick(r.Share)), r.Share, v)
	}
}

// part judges a part inside a sum: the grains that both pick.
func (w *work) part(r *style.Rule, v *Verdict) {
	part := r.OfWhich[v.Part-1]
	p, judged := w.spread(v, percent, part.Range(), 100)
	if !judged {
		return
	}
	sum, some := w.pick(r.Share), w.pick(part.Share)
	both := func(g *grain) (bool, bool) {
		inSum, known := sum(g)
		if !inSum {
			return false, known
		}
		return some(g)
	}
	w.share(p, w.choose(both), part.Share, v)
}

func (w *work) share(p places, got chosen, s *style.Selection, v *Verdict) {
	if got.lack != "" {
		v.unknown(got.lack)
		return
	}
	p.put(v, got.sum*100)
	if v.Broken() {
		w.mendShare(p, got, s, v)
	}
}

// kind is what one malt is known by: two crystals of different colour are two.
func (g *grain) kind() string { return fmt.Sprintf("%s %.0f", g.id, g.color) }

// largest returns the lines of the grain with the largest share among those
// chosen, and its share.
func (w *work) largest(got chosen) (lines []int, share float64) {
	byKind := map[string][]int{}
	for i := range w.beer.grains {
		if !got.in[i] {
			continue
		}
		kind := w.beer.grains[i].kind()
		byKind[kind] = append(byKind[kind], i)
		sum := 0.0
		for _, k := range byKind[kind] {
			sum += w.beer.grains[k].share
		}
		if sum > share {
			lines, share = byKind[kind], sum
		}
	}
	return lines, share
}

func (w *work) onLargest(r *style.Rule, v *Verdict) {
	p, judged := w.spread(v, percent, r.Range(), 100)
	if !judged {
		return
	}
	got := w.choose(w.pick(r.Largest))
	if got.lack != "" {
		v.unknown(got.lack)
		return
	}
	lines, share := w.largest(got)
	p.put(v, share*100)
	if len(lines) > 0 {
		v.Text += " of " + w.beer.grains[lines[0]].malt
	}
	if v.Broken() {
		w.mendLargest(p, got, r.Largest, v)
	}
}

func (w *work) onCount(r *style.Rule, v *Verdict) {
	p, judged := w.spread(v, grains, r.Range(), 1)
	if !judged {
		return
	}
	got := w.choose(w.pick(r.Count))
	if got.lack != "" {
		v.unknown(got.lack)
		return
	}
	p.put(v, float64(len(w.kinds(got))))
	if v.Broken() {
		w.mendCount(p, got, r.Count, v)
	}
}

// kinds returns the lines of every kind chosen, in the order of the grist.
func (w *work) kinds(got chosen) [][]int {
	var all [][]int
	place := map[string]int{}
	for i := range w.beer.grains {
		if !got.in[i] {
			continue
		}
		kind := w.beer.grains[i].kind()
		at, seen := place[kind]
		if !seen {
			at = len(all)
			place[kind] = at
			all = append(all, nil)
		}
		all[at] = append(all[at], i)
	}
	return all
}

// isLate reports whether a grain comes in late or is steeped cold.
func (g *grain) isLate() bool {
	return g.in.Way == recipe.LateMash || g.in.Way == recipe.ColdSteep
}

func (w *work) onLate(r *style.Rule, v *Verdict) {
	p, judged := w.spread(v, percent, r.Range(), 100)
	if !judged {
		return
	}
	got := w.choose(w.pick(r.Late))
	switch {
	case got.lack != "":
		v.unknown(got.lack)
		return
	case got.sum <= 0:
		v.Word, v.Lack = Idle, "the grist has no "+r.Late.Phrase()
		return
	}
	late := 0.0
	for i := range w.beer.grains {
		if g := &w.beer.grains[i]; got.in[i] && g.isLate() {
			late += g.share
		}
	}
	p.put(v, 100*late/got.sum)
	if v.Broken() {
		w.mendLate(p, got, late, v)
	}
}
