// SPDX-License-Identifier: MIT

package chance_test

import (
	"context"
	"io/fs"
	"math"
	"testing"

	"gyle/brewhouse"
	"gyle/chance"
	"gyle/examples"
	"gyle/examples/examplestest"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// on is a version of Ferry Brown on a house of the examples.
func on(t testing.TB, version, house string) plan.Input {
	t.Helper()
	return plan.Input{
		Recipe: examplestest.Load(t, "ferry-brown-"+version, recipe.Parse), House: examplestest.Load(t, house, brewhouse.Parse),
		Stock: examplestest.Load(t, house+"-shed", stock.Parse), Water: examplestest.Load(t, "saltpan-lane", water.Parse),
	}
}

func oatBrown(t testing.TB) *style.Style { return examplestest.Load(t, "oat-brown-ale", style.Parse) }

func made(t testing.TB, in plan.Input) *plan.Plan {
	t.Helper()
	p, err := plan.Make(in)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func simulated(t testing.TB, p *plan.Plan, s *style.Style, o chance.Options) *chance.Outlook {
	t.Helper()
	out, err := chance.Simulate(context.Background(), p, s, o)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6g, want %.6g ± %.2g", what, got, want, tolerance)
	}
}

// only lets one input vary.
func only(names ...string) func(chance.Input) bool {
	return func(in chance.Input) bool {
		for _, name := range names {
			if in.Name == name {
				return true
			}
		}
		return false
	}
}

func exampleText(t testing.TB, name string) string {
	t.Helper()
	text, err := fs.ReadFile(examples.Documents(), name+".yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
