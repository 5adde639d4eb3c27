// SPDX-License-Identifier: MIT

package formulate

import (
	"fmt"
	"math"
	"slices"

	"gyle/data"
	"gyle/recipe"
)

// enoughEnzymes is the least diastatic power of a mash, in Windisch-Kolbach
// units, below which a plan warns: 30 °Lintner, as WK = 3.5·°L − 16. Common
// practice.
const enoughEnzymes = 3.5*30 - 16

// custom returns what brewers keep to whatever the style says: enzymes enough to
// convert the mash, and no malt beyond its usual ceiling. The brewer's own share
// of a malt, in the wish or in the start, goes before its ceiling.
func (w *work) custom() []demand {
	if w.wish.Unusual {
		return nil
	}
	enzymes := wishFor(onEnzymes, make([]bool, len(w.columns)), 0, math.Inf(1), 1, "enzymes enough for the mash", "")
	out := []demand{enzymes}
	for i, m := range w.wish.Malts {
		t, known := data.Malt(m.Malt)
		if !known || t.MaxShare >= 100 || m.Most != nil || float64(m.Least) > t.MaxShare/100 {
			continue
		}
		of := pickWhere(len(w.columns), func(k int) bool { return w.columns[k].malt == i })
		ceiling := t.MaxShare / 100
		if w.wish.Start != nil {
			own := 0.0
			for k, c := range w.columns {
				if of[k] {
					own += w.startShare(c)
				}
			}
			ceiling = math.Max(ceiling, own)
		}
		d := wishFor(onShare, of, math.Inf(-1), ceiling, 100, fmt.Sprintf("%s up to its usual ceiling of %.4g %%", m.Malt, t.MaxShare), "")
		d.name = m.Malt
		out = append(out, d)
	}
	return out
}

// accustom adds what brewers keep to, as far as the demands leave room for it.
func (w *work) accustom(ds []demand) []demand {
	all := w.custom()
	if with := slices.Concat(ds, all); w.feasible(with) {
		return with
	}
	for _, one := range all {
		if with := append(slices.Clone(ds), one); w.feasible(with) {
			ds = with
		} else {
			w.say("The rules leave no room for what is usual: %s (common practice).", one.Phrase)
		}
	}
	return ds
}

// enzymes asks for enough diastatic power in the mash; malts of which none is
// known don't count.
func (s *sheet) enzymes() []float64 {
	out := make([]float64, s.n)
	for i, c := range s.w.columns {
		t, known := data.Malt(s.w.wish.Malts[c.malt].Malt)
		if known && (c.in.Way == recipe.WithMash || c.in.Way == recipe.LateMash) {
			out[i] = (t.DiastaticWK.Mid() - enoughEnzymes) / enoughEnzymes
		}
	}
	return out
}
