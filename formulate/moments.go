// SPDX-License-Identifier: MIT

package formulate

import (
	"math"
	"slices"

	"gyle/data"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// Usual moments of hops, where a rule asks for a kind of moment and the brewer
// named none. Common practice.
var (
	usualStand = recipe.Moment{Stage: recipe.AtStand, Time: 20, Temperature: quantity.Celsius(80)}
	usualDry   = recipe.Moment{Stage: recipe.AtDry, Time: quantity.Days(3), Temperature: quantity.Celsius(14)}
	lateBoil   = recipe.Moment{Stage: recipe.AtBoil, Time: 10}
)

// usualMash is how a recipe is mashed of which nobody said how: one rest in the
// middle of what is common practice.
func (w *work) mashing() recipe.Mash {
	if s := w.wish.Start; s != nil {
		return s.Mash
	}
	return recipe.Mash{Rests: []recipe.Rest{{Temperature: quantity.Celsius(67), Time: 60}}}
}

// needsMash reports whether a malt goes into the mash: sugar and extract go
// straight into the kettle.
func needsMash(malt string) bool {
	t, ok := data.Malt(malt)
	return !ok || (t.Class != "sugar" && t.Class != "extract")
}

// makeCharges makes a charge for each hop at each moment it may go in.
func (w *work) makeCharges() {
	suggested := w.suggestedMoments()
	for i, h := range w.wish.Hops {
		moments := h.At
		if len(moments) == 0 {
			moments = suggested
		}
		for _, at := range moments {
			w.charges = append(w.charges, charge{hop: i, at: at})
		}
	}
}

// suggestedMoments are the start of the boil and one moment for every window in
// which a rule asks for hops.
func (w *work) suggestedMoments() []recipe.Moment {
	out := []recipe.Moment{{Stage: recipe.AtBoil, Time: w.boil}}
	add := func(ws *style.Windows) {
		for _, one := range ws.Terms {
			if at := w.momentIn(one); !slices.Contains(out, at) {
				out = append(out, at)
			}
		}
	}
	for i := range w.wish.Style.Rules {
		switch r := &w.wish.Style.Rules[i]; r.Subject() {
		case style.OnCharges:
			add(r.Charges)
		case style.OnDose:
			if r.Range().Low > 0 {
				add(&style.Windows{Terms: r.Dose.Terms[:1]})
			}
		case style.OnIBUFrom:
			if r.Range().Low > 0 {
				add(&style.Windows{Terms: r.IBUFrom.Terms[:1]})
			}
			if r.Range().High < 1 {
				out = append(out, lateBoil)
			}
		}
	}
	return compact(out)
}

func compact(all []recipe.Moment) []recipe.Moment {
	var out []recipe.Moment
	for _, m := range all {
		if !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	return out
}

// momentIn returns the usual moment of a window.
func (w *work) momentIn(one style.Window) recipe.Moment {
	switch recipe.Stage(one.Stage) {
	case recipe.AtStand:
		return usualStand
	case recipe.AtDry:
		return usualDry
	case recipe.AtFlameOut, recipe.AtFirstWort, recipe.AtMash:
		return recipe.Moment{Stage: recipe.Stage(one.Stage)}
	case recipe.AtBoil:
		for _, usual := range []float64{float64(w.boil), float64(lateBoil.Time), 20, 5} {
			if one.Boil.Has(usual) {
				return recipe.Moment{Stage: recipe.AtBoil, Time: quantity.Duration(usual)}
			}
		}
		return recipe.Moment{Stage: recipe.AtBoil, Time: quantity.Duration(math.Max(one.Boil.Low, 0))}
	}
	return recipe.Moment{Stage: recipe.AtBoil, Time: w.boil} // the start of the boil
}

// markDoses marks the charges that have to be written as doses so that the
// rules of doses can be judged.
func (w *work) markDoses() {
	for i := range w.charges {
		c := &w.charges[i]
		c.byDose = c.dry()
		for _, d := range w.demands {
			if d.kind == onDose && d.Rule >= 0 && d.picks[i] {
				c.byDose = true
			}
		}
	}
}
