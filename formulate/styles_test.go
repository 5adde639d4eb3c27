// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"gyle/data"
	"gyle/judge"
	"gyle/quantity"
	"gyle/style"
)

// typicalMalts and typicalHops are a well-stocked shelf.
var (
	typicalMalts = []string{
		"pilsner-malt", "pale-ale", "vienna", "munich", "wheat-malt-pale", "flaked-oats", "flaked-maize", "caramel-malt-50-ebc",
		"crystal", "caramel-malt-300-ebc", "brown", "chocolate", "black-malt", "dehusked-roasted-malt-dark", "sucrose",
	}
	typicalHops = []string{"magnum", "challenger"}
)

// numbered makes a style of the printed numbers and of what is common practice
// of any grist: base malt half of it, sugar and roast not too much.
func numbered(t testing.TB, n data.StyleNumbersType) *style.Style {
	const ebc = 1.97 // EBC per SRM, the convention of the table
	text := fmt.Sprintf("gyle: style/1\nname: %q\nrules:\n", n.Name)
	text += fmt.Sprintf("- {figure: og, in: %.4f..%.4f, severity: limit}\n", n.OG.Low(), n.OG.High())
	text += fmt.Sprintf("- {figure: fg, in: %.4f..%.4f, severity: limit}\n", n.FG.Low(), n.FG.High())
	text += fmt.Sprintf("- {figure: abv, in: %.2f..%.2f %%, severity: limit}\n", n.ABV.Low(), n.ABV.High())
	text += fmt.Sprintf("- {figure: ibu, in: %.1f..%.1f IBU, severity: limit}\n", n.IBU.Low(), n.IBU.High())
	text += fmt.Sprintf("- {figure: color, in: %.3f..%.3f EBC, severity: limit}\n", ebc*n.SRM.Low(), ebc*n.SRM.High())
	text += "- {share: class base + class wheat + class kilned, in: 50 %.., severity: limit, why: enzymes for the rest}\n"
	text += "- {share: class sugar, in: ..20 %, severity: limit}\n"
	text += "- {share: class roasted + class dehusked roasted, in: ..12 %, severity: limit}\n"
	text += "- {share: class crystal, in: ..15 %, severity: advice}\n"
	return parsed(t, n.ID, text, style.Parse)
}

func shelf(s *style.Style) Wish {
	w := Wish{Style: s}
	for _, m := range typicalMalts {
		w.Malts = append(w.Malts, Malt{Malt: m})
	}
	for _, h := range typicalHops {
		w.Hops = append(w.Hops, Hop{Hop: h})
	}
	return w
}

// Every style with printed numbers (Beer Style Guidelines 2021, by package data)
// is solved from typical ingredients, and judge agrees; or the conflict is a true
// one: together the clashes can't be kept, and without any of them they can.
func TestNumberedStyles(t *testing.T) {
	solved, conflicts := 0, 0
	for _, id := range data.StyleIDs() {
		n, _ := data.StyleNumbers(id)
		if !n.Complete() {
			continue
		}
		w := shelf(numbered(t, n))
		w.NoRooms = true
		r, err := Find(context.Background(), w)
		var c *Conflict
		switch {
		case errors.As(err, &c):
			conflicts++
			t.Logf("%s: %v", id, c)
			checkConflict(t, w, c)
		case err != nil:
			t.Errorf("%s: %v", id, err)
		default:
			solved++
			checkJudged(t, id, r)
		}
	}
	t.Logf("%d styles solved, %d conflicts", solved, conflicts)
	if solved+conflicts < 80 {
		t.Errorf("only %d styles had numbers", solved+conflicts)
	}
}

// checkJudged holds a result against judge, which reads the document anew.
func checkJudged(t testing.TB, name string, r *Result) {
	t.Helper()
	for _, v := range r.Judgement.Verdicts {
		if v.Word == judge.Unknown || v.Word == judge.Outside {
			t.Errorf("%s: %s\n%s", name, v.Line(), r.Text)
		}
	}
	// The aims are those of the plan: a colour that the grist doesn't give would be
	// no solution. 1 %: yields hang on the wort, aims are rounded.
	for _, f := range []quantity.Figure{quantity.BeerColor, quantity.Bitterness} {
		planned, _ := r.Plan.Find(f)
		meant, _ := judge.Meant(r.Recipe)
		if d := planned.Value - meant[f]; d > 0.01*meant[f]+0.06 || d < -0.01*meant[f]-0.06 {
			t.Errorf("%s: %s %.3f meant, %.3f planned", name, f, meant[f], planned.Value)
		}
	}
}

// checkConflict drops each clash in turn.
func checkConflict(t complainer, wish Wish, c *Conflict) {
	t.Helper()
	w, err := begin(context.Background(), wish)
	if err != nil {
		t.Fatal(err)
	}
	var ds []demand
	for _, one := range c.Clashes {
		for _, d := range w.demands {
			if d.Rule == one.Rule && d.Part == one.Part && d.Phrase == one.Phrase {
				ds = append(ds, d)
			}
		}
	}
	if len(ds) != len(c.Clashes) || w.feasible(ds) {
		t.Errorf("%s: no conflict: %v", wish.Style.Name, c)
	}
	for i := range ds {
		fewer := append(append([]demand(nil), ds[:i]...), ds[i+1:]...)
		if !w.feasible(fewer) {
			t.Errorf("%s: %s isn't needed for the conflict", wish.Style.Name, strings.TrimSpace(ds[i].Phrase))
		}
	}
}

// complainer is what tests and drawn tests have in common.
type complainer interface {
	Helper()
	Fatal(args ...any)
	Errorf(format string, args ...any)
}
