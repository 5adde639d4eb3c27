// SPDX-License-Identifier: MIT

package day_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/water"
)

// load reads a document of the demo scenario.
func load[T any](t testing.TB, parse func(string, []byte) (T, error), path ...string) T {
	t.Helper()
	name := filepath.Join(append([]string{".."}, path...)...) + ".yaml"
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// brewing reads one of the two brewings that the demo scenario logs.
func brewing(t testing.TB, name string) *gyle.Gyle {
	t.Helper()
	return load(t, gyle.Parse, "gyle", "testdata", name)
}

// garage plans a version of Ferry Brown in the garage.
func garage(t testing.TB, version string) *plan.Plan {
	t.Helper()
	return planned(t, plan.Input{House: load(t, brewhouse.Parse, "examples", "garage"), Stock: load(t, stock.Parse, "examples", "garage-shed")}, version)
}

// boathouse plans version 4 with the lots of the club.
func boathouse(t testing.TB) *plan.Plan {
	t.Helper()
	in := plan.Input{House: load(t, brewhouse.Parse, "examples", "boathouse"), Stock: load(t, stock.Parse, "examples", "boathouse-shed")}
	in.Swap, in.KeepOil = map[string]string{"challenger": "northdown"}, true
	return planned(t, in, "4")
}

func planned(t testing.TB, in plan.Input, version string) *plan.Plan {
	t.Helper()
	in.Recipe = load(t, recipe.Parse, "examples", "ferry-brown-"+version)
	in.Water = load(t, water.Parse, "examples", "saltpan-lane")
	p, err := plan.Make(in)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// near fails unless got lies within the tolerance of want.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.6g, want %g ± %g", what, got, want, tolerance)
	}
}
