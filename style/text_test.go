// SPDX-License-Identifier: MIT

package style_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gyle/internal/document/documenttest"
	"gyle/style"
)

// joined draws one to four terms joined by "+", with space around it or not.
func joined(term *rapid.Generator[string]) *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		plus := rapid.SampledFrom([]string{" + ", "+", "  +\t"}).Draw(t, "plus")
		return strings.Join(rapid.SliceOfN(term, 1, 4).Draw(t, "terms"), plus)
	})
}

func id() *rapid.Generator[string] { return rapid.StringMatching(`[a-z]{2,8}(-[a-z0-9]{1,4})?`) }

// grains draws a term of a selection.
func grains() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		what := rapid.OneOf(
			rapid.Map(rapid.SampledFrom(style.Classes), func(c string) string { return "class " + c }),
			rapid.SampledFrom([]string{"role flavour", "role base", "all"}),
			rapid.Map(id(), func(s string) string { return "group " + s }),
			id(),
		).Draw(t, "what")
		low := rapid.IntRange(1, 900).Draw(t, "colour")
		limit := rapid.SampledFrom([]string{"", fmt.Sprintf(" above %d EBC", low), fmt.Sprintf(" below %d EBC", low), fmt.Sprintf(" %d..%d EBC", low, low+100)}).Draw(t, "limit")
		return what + limit
	})
}

func TestSelectionReadsWhatItWrites(t *testing.T) {
	documenttest.Settles[style.Selection](t, joined(grains()))
}

// moments draws a term of windows; spans of the boil go either way.
func moments() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		a, b := rapid.IntRange(0, 120).Draw(t, "a"), rapid.IntRange(0, 120).Draw(t, "b")
		return rapid.SampledFrom([]string{
			"boil start", "flame-out", "stand", "dry", "first wort", "mash", "boil",
			fmt.Sprintf("boil %d min..", a), fmt.Sprintf("boil ..%d min", a), fmt.Sprintf("boil %d..%d min", a, b),
		}).Draw(t, "moment")
	})
}

func TestWindowsReadWhatTheyWrite(t *testing.T) {
	documenttest.Settles[style.Windows](t, joined(moments()))
}

// A window of the boil is the same counted down as counted up.
func TestWindowsCountDown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.IntRange(0, 120).Draw(t, "a"), rapid.IntRange(0, 120).Draw(t, "b")
		sign := rapid.SampledFrom([]string{".5", ",5", ""}).Draw(t, "half")
		up, down := window(t, fmt.Sprintf("boil %d..%d%s min", min(a, b), max(a, b), sign)), window(t, fmt.Sprintf("boil %d%s..%d min", max(a, b), sign, min(a, b)))
		if up.Boil != down.Boil || up.Boil.Low != float64(min(a, b)) || math.Abs(up.Boil.High-float64(max(a, b))) > 0.5 {
			t.Fatalf("%v up, %v down, of %d and %d%s", up.Boil, down.Boil, a, b, sign)
		}
	})
}

func window(t *rapid.T, text string) style.Window {
	var w style.Windows
	if err := w.UnmarshalText([]byte(text)); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return w.Terms[0]
}

func TestConditionReadsWhatItWrites(t *testing.T) {
	documenttest.Settles[style.Condition](t, rapid.Custom(func(t *rapid.T) string {
		n := rapid.IntRange(1, 99).Draw(t, "number")
		side := rapid.SampledFrom([]string{"above", "below"}).Draw(t, "side")
		return rapid.OneOf(
			rapid.Map(joined(rapid.OneOf(id(), rapid.Map(id(), func(s string) string { return "group " + s }))), func(s string) string { return "hop " + s }),
			rapid.Map(joined(grains()), func(s string) string { return "malt " + s }),
			rapid.Just(fmt.Sprintf("ibu %s %d", side, n)),
			rapid.Just(fmt.Sprintf("og %s 1.0%02d", side, n)),
			rapid.Just(fmt.Sprintf("abv %d..%d %%", n, n+1)),
		).Draw(t, "condition")
	}))
}
