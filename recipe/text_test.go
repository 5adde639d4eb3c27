// SPDX-License-Identifier: MIT

package recipe_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gyle/internal/document/documenttest"
	"gyle/quantity"
	"gyle/recipe"
)

// minutes draws times as a brewer types them, to a tenth of a minute.
func minutes(from int) *rapid.Generator[quantity.Duration] {
	return rapid.Map(rapid.IntRange(from, 100_000), func(n int) quantity.Duration { return quantity.Duration(n) / 10 })
}

// degrees draws temperatures to a tenth of a degree.
func degrees() *rapid.Generator[quantity.Temperature] {
	return rapid.Map(rapid.IntRange(-50, 1100), func(n int) quantity.Temperature { return quantity.Celsius(float64(n) / 10) })
}

func TestMomentReadsWhatItWrites(t *testing.T) {
	documenttest.BackAgain(t, rapid.Custom(func(t *rapid.T) recipe.Moment {
		m := recipe.Moment{Stage: rapid.SampledFrom([]recipe.Stage{recipe.AtMash, recipe.AtFirstWort, recipe.AtBoil, recipe.AtFlameOut, recipe.AtStand, recipe.AtDry}).Draw(t, "stage")}
		switch m.Stage {
		case recipe.AtBoil:
			m.Time = minutes(0).Draw(t, "time")
		case recipe.AtStand:
			m.Time, m.Temperature = minutes(1).Draw(t, "time"), degrees().Draw(t, "temperature")
		case recipe.AtDry:
			m.Time = minutes(1).Draw(t, "time")
			if rapid.Bool().Draw(t, "with temperature") {
				m.Temperature = degrees().Draw(t, "temperature")
			}
		}
		return m
	}))
}

// spoken draws a time in the units and with the decimal sign of any brewer.
func spoken() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		number := fmt.Sprintf("%d%s%d", rapid.IntRange(1, 200).Draw(t, "whole"), rapid.SampledFrom([]string{".", ","}).Draw(t, "sign"), rapid.IntRange(0, 9).Draw(t, "tenth"))
		return number + " " + rapid.SampledFrom([]string{"min", "h", "d", "s"}).Draw(t, "unit")
	})
}

func TestMomentAsSpoken(t *testing.T) {
	documenttest.Settles[recipe.Moment](t, rapid.Custom(func(t *rapid.T) string {
		stage := rapid.SampledFrom([]string{"boil", "BOIL", "stand", "dry", "Dry"}).Draw(t, "stage")
		time := rapid.SampledFrom([]string{"", "for ", "of "}).Draw(t, "word") + spoken().Draw(t, "time")
		if strings.EqualFold(stage, "boil") {
			return stage + "  " + time
		}
		temperature := fmt.Sprintf("%s%d %s", rapid.SampledFrom([]string{"", "at ", "@ "}).Draw(t, "word"), rapid.IntRange(33, 99).Draw(t, "degrees"), rapid.SampledFrom([]string{"°C", "C", "°F", "F"}).Draw(t, "scale"))
		if rapid.Bool().Draw(t, "temperature first") {
			return stage + " " + temperature + " " + time
		}
		return stage + " " + time + " " + temperature
	}))
}

func TestEntryReadsWhatItWrites(t *testing.T) {
	documenttest.BackAgain(t, rapid.Custom(func(t *rapid.T) recipe.Entry {
		e := recipe.Entry{Way: rapid.SampledFrom([]recipe.Way{recipe.WithMash, recipe.LateMash, recipe.ColdSteep, recipe.InKettle}).Draw(t, "way")}
		if e.Way == recipe.LateMash || e.Way == recipe.ColdSteep {
			e.Time = minutes(1).Draw(t, "time")
		}
		return e
	}))
}

func TestRestReadsWhatItWrites(t *testing.T) {
	documenttest.BackAgain(t, rapid.Custom(func(t *rapid.T) recipe.Rest {
		return recipe.Rest{Temperature: degrees().Draw(t, "temperature"), Time: minutes(1).Draw(t, "time")}
	}))
}

func TestRestAsSpoken(t *testing.T) {
	documenttest.Settles[recipe.Rest](t, rapid.Custom(func(t *rapid.T) string {
		scale := rapid.SampledFrom([]string{"°C", "C", "°F"}).Draw(t, "scale")
		word := rapid.SampledFrom([]string{" ", " for ", ", "}).Draw(t, "word")
		return fmt.Sprintf("%d %s%s%s", rapid.IntRange(35, 80).Draw(t, "degrees"), scale, word, spoken().Draw(t, "time"))
	}))
}

func TestRoleReadsWhatItWrites(t *testing.T) {
	documenttest.BackAgain(t, rapid.SampledFrom([]recipe.Role{recipe.RoleNone, recipe.RoleBase, recipe.RoleColor, recipe.RoleFlavour}))
}

// Two versions differ in nothing when they are the same, and exchange what was
// before and after when they are exchanged.
func TestDifferencesBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := someRecipe().Draw(t, "a"), someRecipe().Draw(t, "b")
		if found := recipe.Differences(a, a); len(found) != 0 {
			t.Fatalf("a recipe differs from itself: %v", found)
		}
		there, back := recipe.Differences(a, b), recipe.Differences(b, a)
		if len(there) != len(back) {
			t.Fatalf("%d differences one way, %d the other:\n%v\n%v", len(there), len(back), there, back)
		}
		n := recipe.Independent(there)
		if n > len(there) || (n == 0) != (len(there) == 0) {
			t.Fatalf("%d independent of %d differences", n, len(there))
		}
	})
}

// someRecipe draws a recipe of a few grains and hops.
func someRecipe() *rapid.Generator[*recipe.Recipe] {
	return rapid.Custom(func(t *rapid.T) *recipe.Recipe {
		r := &recipe.Recipe{Name: "Beer"}
		for _, malt := range []string{"pale-ale", "crystal", "oats-flaked"} {
			if rapid.Bool().Draw(t, malt) {
				share := quantity.Fraction(rapid.IntRange(1, 100).Draw(t, "share")) / 100
				r.Grist = append(r.Grist, recipe.Grain{Malt: malt, Share: &share})
			}
		}
		for _, hop := range []string{"fuggle", "fuggle", "challenger"} {
			if rapid.Bool().Draw(t, hop) {
				dose := quantity.Dose(rapid.IntRange(1, 5).Draw(t, "dose"))
				at := recipe.Moment{Stage: recipe.AtBoil, Time: quantity.Duration(rapid.SampledFrom([]int{60, 30, 10, 0}).Draw(t, "minutes"))}
				r.Hops = append(r.Hops, recipe.Charge{Hop: hop, Dose: &dose, At: at})
			}
		}
		return r
	})
}
