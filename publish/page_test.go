// SPDX-License-Identifier: MIT

package publish

import (
	"os"
	"strings"
	"sync"
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/internal/engine"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// built builds the engine once; what is fresh is left alone.
var built = sync.OnceValues(func() (Engine, error) {
	if _, err := engine.Build("..", "engine"); err != nil {
		return Engine{}, err
	}
	return EngineIn(os.DirFS("engine"))
})

func ferryBrown(t testing.TB) Bundle {
	t.Helper()
	b := Bundle{Style: examplestest.Load(t, "oat-brown-ale", style.Parse), Input: plan.Input{Recipe: examplestest.Load(t, "ferry-brown-4", recipe.Parse),
		House: examplestest.Load(t, "garage", brewhouse.Parse), Stock: examplestest.Load(t, "garage-shed", stock.Parse), Water: examplestest.Load(t, "saltpan-lane", water.Parse)}}
	for _, name := range []string{"ferry-brown-1", "ferry-brown-2", "ferry-brown-3", "ferry-brown-4"} {
		b.Versions = append(b.Versions, examplestest.Load(t, name, recipe.Parse))
	}
	return b
}

func TestPageShowsTheAuthorsNumbersWithoutScript(t *testing.T) {
	page, err := Page(ferryBrown(t), Engine{Packing: "gzip", Packed: "AA+/BB==", Support: "// none"})
	if err != nil {
		t.Fatal(err)
	}
	text := string(page)
	for _, want := range []string{"Ferry Brown 4", "1.050", "35 EBC", "Bramling Cross", "stand 80 °C 20 min", "3.23 kg", "roast too sharp", "AA+/BB==", "lang=\"en\"", "gyle: recipe/1"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page doesn't hold %q", want)
		}
	}
}

// A page is in one language from its first line; only what the author wrote
// and what the engine computes stays as it is.
func TestPageInGerman(t *testing.T) {
	b := ferryBrown(t)
	b.Lang = "de"
	page, err := Page(b, Engine{})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`lang="de"`, "Das Rezept", "Sudblatt", "Auf Ihrer Anlage"} {
		if !strings.Contains(string(page), want) {
			t.Errorf("the page doesn't hold %q", want)
		}
	}
	b.Lang = "xx"
	if _, err := Page(b, Engine{}); err == nil {
		t.Error("a page in the language xx was written")
	}
}

// No text of a document can become a part of the page.
func TestPageKeepsHostileTextsText(t *testing.T) {
	const evil = `</script><script>alert(1)</script><img src=x onerror=alert(2)>"'&]]>` + "\u2028"
	b := ferryBrown(t)
	r := *b.Input.Recipe
	r.Name, r.By, r.Note = evil, evil, evil
	r.Grist = append([]recipe.Grain{}, r.Grist...)
	r.Grist[0].Why = evil
	r.Change = &recipe.Change{What: evil, Why: evil, Expect: evil}
	b.Input.Recipe, b.Versions = &r, []*recipe.Recipe{&r}
	st := *b.Style
	st.Name, st.Prose = evil, evil
	b.Style = &st
	page, err := Page(b, Engine{Support: "// none"})
	if err != nil {
		t.Fatal(err)
	}
	text := string(page)
	for _, bad := range []string{"<script>alert", "<img src=x", "\u2028"} {
		if n := strings.Count(text, bad); n > 0 && bad != "\u2028" {
			t.Errorf("the page holds %q %d times", bad, n)
		}
	}
	if n := strings.Count(text, "<script"); n != 4 {
		t.Errorf("%d scripts on the page, want 4", n)
	}
}
