// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/judge"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
)

func parsed[T any](t complainer, name, text string, parse func(string, []byte) (T, error)) T {
	t.Helper()
	doc, err := parse(name, []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func oatBrown(t complainer) *style.Style { return examplestest.Load(t, "oat-brown-ale", style.Parse) }
func ferryBrown(t complainer) *recipe.Recipe {
	return examplestest.Load(t, "ferry-brown-3", recipe.Parse)
}

// clubWish is the Circle's wish: the oat brown from what one of its sheds holds.
func clubWish(t complainer, house string) Wish {
	s := examplestest.Load(t, house+"-shed", stock.Parse)
	w := Wish{Name: "Oat brown", Style: oatBrown(t), StyleID: "oat-brown-ale", Stock: s, House: examplestest.Load(t, house, brewhouse.Parse)}
	w.Malts, w.Hops = FromStock(s)
	return w
}

func found(t testing.TB, w Wish) *Result {
	t.Helper()
	r, err := Find(context.Background(), w)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// limitsKept complains of broken limits. Of a plan, the figures of the liquor
// are left out where no water was given.
func limitsKept(t testing.TB, name string, j judge.Judgement) {
	t.Helper()
	for _, v := range j.Broken() {
		if v.Severity == style.Limit {
			t.Errorf("%s: %s", name, v.Line())
		}
	}
}

func TestOatBrownFromTheSheds(t *testing.T) {
	for _, house := range []string{"garage", "boathouse"} {
		for _, objective := range []Objective{Middle, Cheapest, Fewest, Lots} {
			w := clubWish(t, house)
			w.Objective = objective
			for i := range w.Malts { // made up
				w.Malts[i].Price, w.Malts[i].UseUp = float64(1+i), i == 1
			}
			r := found(t, w)
			name := house + ", " + string(objective)
			limitsKept(t, name, r.Judgement)
			limitsKept(t, name+", planned", r.Planned)
			if len(r.GivenUp) > 0 {
				t.Errorf("%s: advice was given up: %v", name, r.GivenUp)
			}
		}
	}
}
