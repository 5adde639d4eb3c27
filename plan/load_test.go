// SPDX-License-Identifier: MIT

package plan_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/water"
)

// example reads a file of the demo scenario.
func example(t testing.TB, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "examples", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func readRecipe(t testing.TB, text string) *recipe.Recipe {
	t.Helper()
	return must[*recipe.Recipe](t)(recipe.Parse("recipe.yaml", []byte(text)))
}

func readHouse(t testing.TB, text string) *brewhouse.House {
	t.Helper()
	return must[*brewhouse.House](t)(brewhouse.Parse("house.yaml", []byte(text)))
}

func readStock(t testing.TB, text string) *stock.Stock {
	t.Helper()
	return must[*stock.Stock](t)(stock.Parse("stock.yaml", []byte(text)))
}

// ferryBrown is the input of the demo scenario: a version of Ferry Brown on a
// house, with the lots of a shed and the water of Saltpan Lane.
func ferryBrown(t testing.TB, version, house, shed string) plan.Input {
	t.Helper()
	supply := must[*water.Water](t)(water.Parse("saltpan-lane.yaml", example(t, "saltpan-lane")))
	in := plan.Input{
		Recipe: readRecipe(t, string(example(t, "ferry-brown-"+version))),
		House:  readHouse(t, string(example(t, house))),
		Water:  supply,
	}
	if shed != "" {
		in.Stock = readStock(t, string(example(t, shed)))
	}
	return in
}

func onGarage(t testing.TB, version string) plan.Input {
	return ferryBrown(t, version, "garage", "garage-shed")
}

func onBoathouse(t testing.TB, version string) plan.Input {
	return ferryBrown(t, version, "boathouse", "boathouse-shed")
}

func made(t testing.TB, in plan.Input) *plan.Plan {
	t.Helper()
	return must[*plan.Plan](t)(plan.Make(in))
}

// edited returns a document of the demo scenario with texts replaced.
func edited(t testing.TB, name string, oldnew ...string) string {
	t.Helper()
	text := string(example(t, name))
	for i := 0; i < len(oldnew); i += 2 {
		if !strings.Contains(text, oldnew[i]) {
			t.Fatalf("%s holds no %q", name, oldnew[i])
		}
		text = strings.Replace(text, oldnew[i], oldnew[i+1], 1)
	}
	return text
}
