// SPDX-License-Identifier: MIT

package formulate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/quantity"
	"gyle/style"
)

// conflict finds a set of demands that can't be kept together, of which none
// can be left out, with their places among ds. Whether demands can be kept is
// no one linear problem: grist, gravity and hops touch, so the deletion filter
// (J. W. Chinneck and E. W. Dravnieks, ORSA Journal on Computing 3 (1991) 157, from
// memory) asks the whole search. Demands are left out one after the other; whatever
// doesn't mend the conflict stays out. In the end each one that is left mends it.
// The order decides which of several conflicts is found, so a few are tried and
// the smallest is kept.
func (w *work) conflict(ds []demand) (*Conflict, []int) {
	var places []int
	for k := range 3 {
		if got := w.filter(ds, order(ds, k)); places == nil || len(got) < len(places) {
			places = got
		}
	}
	slices.Sort(places)
	c := &Conflict{}
	for _, i := range places {
		clash := ds[i].Clash
		clash.Name, clash.Wish = ds[i].name, ds[i].wanted()
		c.Clashes = append(c.Clashes, clash)
	}
	for k, i := range places {
		c.Choices = append(c.Choices, w.choices(ds, i, k)...)
	}
	slices.SortStableFunc(c.Choices, func(a, b Choice) int { return cmp.Compare(a.Cost, b.Cost) })
	c.More = len(c.Choices) == 0
	if c.More { // another conflict is left whatever is given up: mend this one alone
		var alone []demand
		for _, i := range places {
			alone = append(alone, ds[i])
		}
		for k := range alone {
			c.Choices = append(c.Choices, w.choices(alone, k, k)...)
		}
		slices.SortStableFunc(c.Choices, func(a, b Choice) int { return cmp.Compare(a.Cost, b.Cost) })
	}
	return c, places
}

// wanted is what a wish asks of an ingredient.
func (d *demand) wanted() Wanted {
	switch {
	case d.Rule >= 0 || d.name == "":
		return ""
	case d.kind == onStock || d.kind == onHopStock:
		return WantedStock
	case d.verb != "":
		return WantedMust
	case d.high == 0:
		return WantedWithout
	case !math.IsInf(d.low, 0):
		return WantedLeast
	}
	return WantedMost
}

// order returns the order in which demands are tried to be left out: advice
// first and wishes last, from the front or from the back; or plainly backwards.
func order(ds []demand, k int) []int {
	all := make([]int, len(ds))
	for i := range all {
		all[i] = i
	}
	if k > 0 {
		slices.Reverse(all)
	}
	if k == 2 {
		return all
	}
	rank := func(d demand) int {
		switch {
		case d.Rule < 0:
			return 2
		case d.Severity == style.Limit:
			return 1
		}
		return 0
	}
	slices.SortStableFunc(all, func(a, b int) int { return cmp.Compare(rank(ds[a]), rank(ds[b])) })
	return all
}

// filter leaves out what the conflict doesn't need. Many are tried at once, and
// one by one where that mends it.
func (w *work) filter(ds []demand, order []int) []int {
	out := make([]bool, len(ds))
	still := func(without []int) bool {
		for _, i := range without {
			out[i] = true
		}
		if !w.feasible(keep(ds, out)) {
			return true
		}
		for _, i := range without {
			out[i] = false
		}
		return false
	}
	var try func(some []int)
	try = func(some []int) {
		if len(some) == 0 || still(some) || len(some) == 1 {
			return
		}
		try(some[:len(some)/2])
		try(some[len(some)/2:])
	}
	try(order)
	var places []int
	for i := range ds {
		if !out[i] {
			places = append(places, i)
		}
	}
	return places
}

// keep returns the demands that aren't out.
func keep(ds []demand, out []bool) []demand {
	var kept []demand
	for i, d := range ds {
		if !out[i] {
			kept = append(kept, d)
		}
	}
	return kept
}

// choices returns how the demand at place i may give way so that all others can
// be kept; none where that doesn't help.
func (w *work) choices(ds []demand, i, clash int) []Choice {
	with := slices.Clone(ds)
	d := &with[i]
	meant := *d
	d.low, d.high = math.Inf(-1), math.Inf(1)
	if d.kind == onCharges {
		d.picks = pickWhere(len(d.picks), func(int) bool { return true })
	}
	if !w.feasible(with) {
		return nil
	}
	if meant.verb != "" || meant.kind == onCharges {
		return []Choice{{Clash: clash, To: math.NaN(), Cost: 1, Says: cmp.Or(meant.verb, "allow hops at other moments")}}
	}
	var out []Choice
	if !math.IsInf(meant.high, 0) {
		d.low = meant.low
		if to, ok := w.loosen(with, &d.high, meant.high, 1, meant.reach()); ok {
			out = append(out, w.choice(&meant, clash, to, true))
		}
	}
	if !math.IsInf(meant.low, 0) {
		d.high, d.low = meant.high, meant.low
		if to, ok := w.loosen(with, &d.low, meant.low, -1, meant.reach()); ok {
			out = append(out, w.choice(&meant, clash, to, false))
		}
	}
	if len(out) > 0 {
		return out
	}
	return []Choice{{Clash: clash, To: math.NaN(), Cost: 1, Says: "leave out: " + meant.Phrase}}
}

// reach is how far an end of a demand may be let out at most, in its own unit.
func (d *demand) reach() float64 {
	switch {
	case d.kind == onShare || d.kind == onLargest || d.kind == onLate || d.kind == onIBUFrom:
		return 1
	case d.kind == onFigure && d.figure.IsGravity():
		return 0.1
	case d.kind == onFigure && (d.figure == quantity.ABV || d.figure == quantity.Attenuation):
		return 0.5
	case d.kind == onYeast && d.trait == "attenuation":
		return 0.5
	}
	return math.Max(4*math.Max(math.Abs(finite(d.low)), math.Abs(finite(d.high))), 20)
}

// loosen lets an end out as little as helps, by bisection. End points into with.
func (w *work) loosen(with []demand, end *float64, from, sign, reach float64) (float64, bool) {
	*end = from + sign*reach
	if !w.feasible(with) {
		return 0, false
	}
	near, far := 0.0, reach
	for range 40 {
		mid := (near + far) / 2
		*end = from + sign*mid
		if w.feasible(with) {
			far = mid
		} else {
			near = mid
		}
		if far-near < 1e-8*reach {
			break
		}
	}
	return from + sign*far, true
}

// choice says how a demand gives way. The number is rounded away from the rule,
// so that what is printed does help.
func (w *work) choice(d *demand, clash int, to float64, up bool) Choice {
	shown, end := to*d.scale, d.low*d.scale
	if up {
		end = d.high * d.scale
	}
	decimals := 1
	if d.kind == onFigure {
		decimals = d.figure.Decimals()
	} else if d.kind == onDose {
		decimals = 2
	}
	shown = outward(shown, decimals, up)
	if digit := math.Pow(10, -float64(decimals)); math.Abs(shown-end) < digit/1000 { // it must give way
		shown = outward(end+map[bool]float64{true: digit, false: -digit}[up], decimals, up)
	}
	c := Choice{Clash: clash, To: shown, Cost: math.Abs(shown-end) / math.Max(math.Abs(end-d.origin()), 1e-9)}
	text := w.shown(d, shown, decimals)
	c.Says = d.giveWay(text, shown, up)
	return c
}

// shown prints an end of a demand as its reader writes it. Rounding a rounded
// number again into other units may lose a digit of it.
func (w *work) shown(d *demand, x float64, decimals int) string {
	reader := w.wish.Reader
	if reader.System == quantity.USCustomary {
		switch d.kind {
		case onFigure:
			return reader.Figure(d.figure, x/d.scale)
		case onDose:
			return reader.Dose(quantity.Dose(x / d.scale))
		case onStock, onHopStock:
			return reader.Mass(quantity.Mass(x / d.scale))
		}
	}
	return strings.TrimSpace(reader.Number(x, decimals) + " " + d.unit)
}

// giveWay says that a demand is let out to a number.
func (d *demand) giveWay(text string, shown float64, up bool) string {
	switch {
	case d.kind == onStock || d.kind == onHopStock:
		return fmt.Sprintf("get %s of %s", text, d.name)
	case d.Rule < 0 && d.high == 0:
		return fmt.Sprintf("use %s after all, %s", d.name, text)
	case d.Rule < 0 && d.name != "" && up:
		return fmt.Sprintf("allow %s of %s", text, d.name)
	case d.Rule < 0 && d.name != "":
		return fmt.Sprintf("be content with %s of %s", text, d.name)
	case d.kind == onFigure:
		return fmt.Sprintf("accept %s (%s)", text, d.Phrase)
	case up:
		return fmt.Sprintf("allow %s up to %s", d.Phrase, text)
	case shown <= 0:
		return fmt.Sprintf("do without %s", d.Phrase)
	}
	return fmt.Sprintf("allow %s down to %s", d.Phrase, text)
}

// origin is from where a demand's numbers are reckoned: gravities begin at 1.
func (d *demand) origin() float64 {
	if d.kind == onFigure && d.figure.IsGravity() {
		return 1
	}
	return 0
}

// outward rounds x up, or down, to so many decimals. What bisection leaves is
// not rounded to a whole step more.
func outward(x float64, decimals int, up bool) float64 {
	const left = 1e-3
	scale := math.Pow(10, float64(decimals))
	if up {
		return math.Ceil(x*scale-left) / scale
	}
	return (math.Floor(x*scale+left) + 0) / scale // no negative zero
}
