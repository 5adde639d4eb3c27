// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"gyle/style"
)

// ruled makes a style of so many rules, written as in a document.
func ruled(t testing.TB, rules ...string) *style.Style {
	t.Helper()
	text := "gyle: style/1\nname: Test\ngroups:\n  american-c: [cascade, centennial]\n  sweet: [munich, class crystal]\nrules:\n"
	for _, r := range rules {
		text += "- " + r + "\n"
	}
	return parsed(t, "test", text, style.Parse)
}

// impossible is dark without roast and weak: black beer can't be had of it.
func impossible(t testing.TB) Wish {
	w := shelf(ruled(t,
		`{figure: og, in: ..1.040, severity: limit, why: a light beer}`,
		`{figure: ibu, in: 20..30 IBU, severity: limit, why: quiet}`,
		`{figure: color, in: 60 EBC.., severity: limit, why: black}`,
		`{share: class roasted, in: ..2 %, severity: limit, why: no ash}`,
		`{share: class dehusked roasted, in: ..0 %, severity: limit, why: no tricks}`,
		`{share: class crystal, in: ..10 %, severity: limit, why: not sweet}`,
		`{share: class base, in: 50 %.., severity: limit, why: enzymes}`,
		`{share: class sugar, in: ..10 %, severity: advice, why: body}`,
	))
	return w
}

func conflictOf(t testing.TB, w Wish) *Conflict {
	t.Helper()
	_, err := Find(context.Background(), w)
	var c *Conflict
	if !errors.As(err, &c) {
		t.Fatalf("no conflict: %v", err)
	}
	return c
}

func TestImpossibleStyle(t *testing.T) {
	w := impossible(t)
	c := conflictOf(t, w)
	checkConflict(t, w, c)
	var rules []int
	for _, one := range c.Clashes {
		rules = append(rules, one.Rule)
	}
	// The gravity, the colour, the roast, the dehusked roast, and the crystal, which
	// could make it black too (10 % of 300 EBC).
	if want := []int{0, 2, 3, 4}; !subset(want, rules) {
		t.Errorf("rules %v clash, want at least %v", rules, want)
	}
	if s := c.Error(); !strings.Contains(s, "“no ash”") || !strings.Contains(s, "“no tricks”") {
		t.Errorf("the reasons aren't quoted: %s", s)
	}
	if len(c.Choices) == 0 {
		t.Error("there is no way out")
	}
}

// With nothing but pale and roasted malts on the shelf, it is exactly the four
// rules that clash.
func TestImpossibleFour(t *testing.T) {
	w := Wish{Style: ruled(t,
		`{figure: ibu, in: 20..30 IBU, severity: limit}`,
		`{share: class roasted, in: ..2 %, severity: limit, why: no ash}`,
		`{figure: color, in: 60 EBC.., severity: limit, why: black}`,
		`{share: munich, in: ..40 %, severity: advice, why: not a bock}`,
		`{share: class dehusked roasted, in: ..0 %, severity: limit, why: no tricks}`,
		`{figure: og, in: ..1.040, severity: limit, why: a light beer}`,
		`{figure: abv, in: 2.5..4.5 %, severity: limit}`,
	), Hops: []Hop{{Hop: "challenger"}}}
	for _, m := range []string{"pilsner-malt", "pale-ale", "munich", "chocolate", "black-malt", "dehusked-roasted-malt-dark"} {
		w.Malts = append(w.Malts, Malt{Malt: m})
	}
	c := conflictOf(t, w)
	var rules []int
	for _, one := range c.Clashes {
		rules = append(rules, one.Rule)
	}
	if !slices.Equal(rules, []int{1, 2, 4, 5}) {
		t.Errorf("rules %v clash, want roast, colour, dehusked and gravity\n%v", rules, c)
	}
	checkConflict(t, w, c)
	if len(c.Choices) != 3 { // no wort is strong enough to be black with so little roast
		t.Errorf("%d ways out, want one for each but the gravity\n%v", len(c.Choices), c)
	}
}

func subset(some, all []int) bool {
	return !slices.ContainsFunc(some, func(x int) bool { return !slices.Contains(all, x) })
}

// A choice does help, and one unit of the last digit less doesn't.
func TestChoicesHelp(t *testing.T) {
	for _, wish := range []Wish{impossible(t), withoutOats(t)} {
		w, err := begin(context.Background(), wish)
		if err != nil {
			t.Fatal(err)
		}
		c, places := w.conflict(w.demands)
		for _, choice := range c.Choices {
			ds := slices.Clone(w.demands)
			d := &ds[places[choice.Clash]]
			digit := 0.1
			if d.kind == onFigure {
				digit = math.Pow(10, -float64(d.figure.Decimals()))
			}
			end, inward := &d.low, digit
			if choice.To/d.scale > d.high {
				end, inward = &d.high, -digit
			}
			for _, off := range []float64{0, 1.01 * inward} {
				*end = (choice.To + off) / d.scale
				if got := w.feasible(ds); got != (off == 0) {
					t.Errorf("%s, off %g: feasible %v", choice.Says, off, got)
				}
			}
		}
	}
}

func withoutOats(t testing.TB) Wish {
	w := clubWish(t, "garage")
	w.Without = []string{"oats-flaked"}
	w.Strict = true
	return w
}

// Advice gives way to limits, and the result says so.
func TestAdviceGivesWay(t *testing.T) {
	w := shelf(ruled(t,
		`{figure: og, in: 1.045..1.050, severity: limit}`,
		`{figure: color, in: 40..50 EBC, severity: limit}`,
		`{figure: ibu, in: 20..30 IBU, severity: limit}`,
		`{share: class roasted + class dehusked roasted, in: ..1 %, severity: advice, why: soft}`,
		`{share: class base, in: 85 %.., severity: limit}`,
	))
	r := found(t, w)
	limitsKept(t, "advice", r.Judgement)
	if len(r.GivenUp) != 1 || !strings.Contains(strings.Join(r.Says, " "), "advice given up: allow roasted + dehusked roasted up to") {
		t.Errorf("given up %v, says %q", r.GivenUp, r.Says)
	}
	w.Strict = true
	checkConflict(t, w, conflictOf(t, w))
}

// A wish clashes like a rule.
func TestWishesClash(t *testing.T) {
	w := withoutOats(t)
	c := conflictOf(t, w)
	if len(c.Clashes) != 2 || c.Clashes[1].Rule != -1 || !strings.Contains(c.Clashes[1].Phrase, "do without oats-flaked") {
		t.Errorf("%v", c)
	}
	checkConflict(t, w, c)
}
