// SPDX-License-Identifier: MIT

package judge

import (
	"math"
	"slices"
	"strings"

	"gyle/recipe"
	"gyle/style"
)

// inWindows reports whether a charge goes in at one of the moments.
//
// The start of the boil is that of the recipe, where it says one: on a house
// that boils longer the charge still goes in as it is meant. Hops at flame-out
// are in a window of the boil that ends with it, "boil 15..0 min".
func (w *work) inWindows(c charge, ws *style.Windows) bool {
	return slices.ContainsFunc(ws.Terms, func(one style.Window) bool { return w.inWindow(c, one) })
}

func (w *work) inWindow(c charge, one style.Window) bool {
	switch one.Stage {
	case "boil start":
		return c.at.Stage == recipe.AtBoil && c.at.Time >= w.beer.boil
	case string(recipe.AtBoil):
		ends := one.Boil.Has(0) && !math.IsInf(one.Boil.High, 1)
		return c.at.Stage == recipe.AtBoil && one.Boil.Has(float64(c.at.Time)) || c.at.Stage == recipe.AtFlameOut && ends
	case string(recipe.AtFlameOut):
		return c.at.Stage == recipe.AtFlameOut || c.at.Stage == recipe.AtBoil && c.at.Time == 0
	}
	return string(c.at.Stage) == one.Stage
}

// bitter is the bitterness of the charges, in and out of some windows.
type bitter struct {
	in       []bool
	ibu      []float64 // by charge; what isn't known of one is its part of the rest
	selected float64
	total    float64
	lack     string
}

// bitterness shares the bitterness out among the charges. The charges that
// don't say theirs have what is left of the aim, if all of them stand on one
// side of the windows.
func (w *work) bitterness(ws *style.Windows) bitter {
	b := bitter{in: make([]bool, len(w.beer.charges)), ibu: make([]float64, len(w.beer.charges))}
	known, doses := 0.0, 0.0
	var open []int
	for i, c := range w.beer.charges {
		b.in[i] = w.inWindows(c, ws)
		switch {
		case c.isDry():
		case c.ibu != nil:
			b.ibu[i] = *c.ibu
			known += *c.ibu
		default:
			open = append(open, i)
			doses += amount(c)
		}
	}
	if lack := w.openBitterness(b.in, open); lack != "" {
		b.lack = lack
		return b
	}
	if len(open) > 0 {
		rest := math.Max(w.beer.figures[aimIBU].value-known, 0)
		for _, i := range open {
			b.ibu[i] = rest * amount(w.beer.charges[i]) / doses
		}
	}
	for i, ibu := range b.ibu {
		b.total += ibu
		if b.in[i] {
			b.selected += ibu
		}
	}
	if b.total <= 0 {
		b.lack = "no charge gives bitterness"
	}
	return b
}

// amount is how much a charge weighs beside others that don't say their
// bitterness.
func amount(c charge) float64 {
	if c.dose != nil {
		return *c.dose
	}
	return c.mass.Grams()
}

// openBitterness says why charges without a bitterness of their own can't be
// shared out.
func (w *work) openBitterness(in []bool, open []int) string {
	if len(open) == 0 {
		return ""
	}
	lack := "the bitterness of " + w.beer.charges[open[0]].String() + " depends on the kettle: a plan knows it"
	if _, known := w.beer.figures[aimIBU]; !known {
		return lack
	}
	for _, i := range open {
		if in[i] != in[open[0]] || amount(w.beer.charges[i]) <= 0 {
			return lack
		}
	}
	return ""
}

func (w *work) onIBUFrom(r *style.Rule, v *Verdict) {
	p, judged := w.spread(v, percent, r.Range(), 100)
	if !judged {
		return
	}
	b := w.bitterness(r.IBUFrom)
	if b.lack != "" {
		v.unknown(b.lack)
		return
	}
	p.put(v, 100*b.selected/b.total)
	if v.Broken() {
		w.mendIBUFrom(p, b, r.IBUFrom, v)
	}
}

func (w *work) onCharges(r *style.Rule, v *Verdict) {
	v.Low, v.High = math.Inf(-1), math.Inf(1)
	v.Range = r.Charges.Phrase()
	if v.Word == Idle {
		return
	}
	var stray []int
	var names []string
	for i, c := range w.beer.charges {
		if !w.inWindows(c, r.Charges) {
			stray = append(stray, i)
			names = append(names, c.String())
		}
	}
	v.Value, v.High = float64(len(stray)), 0
	v.Word, v.Text = Inside, "all charges"
	if len(w.beer.charges) == 0 {
		v.Text = "no hops"
	}
	if len(stray) == 0 {
		return
	}
	v.Text = strings.Join(names, ", ")
	if v.Severity == style.Option {
		v.Word, v.Lack = Idle, "an option that isn't taken up"
		return
	}
	v.Word, v.Off = Outside, plural(len(stray), "charge", "charges")+" at another moment"
	w.mendCharges(stray, r.Charges, v)
}

func (w *work) onDose(r *style.Rule, v *Verdict) {
	p, judged := w.spread(v, dosing, r.Range(), 1)
	if !judged {
		return
	}
	sum := 0.0
	var in []int
	for i, c := range w.beer.charges {
		if !w.inWindows(c, r.Dose) {
			continue
		}
		if c.dose == nil {
			v.unknown("the dose of " + c.String() + " depends on the kettle: a plan knows it")
			return
		}
		sum += *c.dose
		in = append(in, i)
	}
	p.put(v, sum)
	if v.Broken() {
		w.mendDose(p, in, r.Dose, v)
	}
}
