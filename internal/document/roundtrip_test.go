// SPDX-License-Identifier: MIT

package document

import (
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// ferryBrown is a recipe in canonical form.
const ferryBrown = `gyle: recipe/1
name: Ferry Brown
version: 3
tested: yes
aims: {og: 1.05, ibu: 29}
grist:
- {malt: pale-ale, share: 65.3 %}
- {malt: "oats, flaked", share: 12 %, role: body}
steps:
- what: heat
  minutes: 20
- list:
  - - a
    - b
  -` + " " + `- c
rests: [67 °C for 60 min, "76 °C, short"]
notes:
- first
- |-
  two
    lines
water: {Ca: 110, SO4: 60}
lots:
  zeta:
    what: x
  alpha:
    minutes: 5
rule: og above 1.048
rules:
- og below 1.06
- {above: 3}
spare: 0
mash:
  ratio: 3.3
why: |
  Brown, not black.

  Dry enough for a second glass.
`

func TestCanonicalTextIsKept(t *testing.T) {
	var r testRecipe
	if _, err := Unmarshal("ferry.yaml", []byte(ferryBrown), "recipe", &r); err != nil {
		t.Fatal(err)
	}
	got, err := Marshal("recipe", &r)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != ferryBrown {
		t.Errorf("printed:\n%s\nwant:\n%s", got, ferryBrown)
	}
}

func TestLongFlowLineFallsBackToBlock(t *testing.T) {
	r := testRecipe{Name: "x", Grist: []testMalt{{Malt: strings.Repeat("m", 120), Share: 1}}}
	got, err := Marshal("recipe", r)
	if err != nil {
		t.Fatal(err)
	}
	if want := "grist:\n- malt: mmm"; !strings.Contains(string(got), want) {
		t.Errorf("no %q in:\n%s", want, got)
	}
}

// texts draws texts that are likely to need quotes.
func texts() *rapid.Generator[string] {
	awkward := rapid.StringOf(rapid.SampledFrom([]rune("ab 1-?:,[]{}#&*!|>'\"%@`\\\n\t~=.<é°\u2028\u0085\ufeff\r")))
	return rapid.OneOf(awkward, rapid.String().Filter(func(s string) bool { return !strings.ContainsRune(s, 0) }))
}

func keys() *rapid.Generator[string] {
	return texts().Filter(func(s string) bool { return s != "" && len([]rune(s)) <= maxKey })
}

func numbers() *rapid.Generator[float64] {
	return rapid.OneOf(rapid.Float64Range(-1e300, 1e300), rapid.Float64Range(-100, 100))
}

func steps() *rapid.Generator[testStep] {
	return rapid.Custom(func(t *rapid.T) testStep {
		return testStep{
			What:    texts().Draw(t, "what"),
			Minutes: rapid.Uint8().Draw(t, "minutes"),
			List:    rapid.SliceOfN(rapid.SliceOfN(texts(), 0, 3), 0, 3).Draw(t, "list"),
			testWhy: testWhy{texts().Draw(t, "why")},
		}
	})
}

func recipes() *rapid.Generator[testRecipe] {
	return rapid.Custom(func(t *rapid.T) testRecipe {
		r := testRecipe{
			Name:    texts().Draw(t, "name"),
			Version: rapid.Int().Draw(t, "version"),
			Tested:  rapid.Bool().Draw(t, "tested"),
			Aims:    testAims{numbers().Draw(t, "og"), numbers().Draw(t, "ibu")},
			Steps:   rapid.SliceOfN(steps(), 0, 3).Draw(t, "steps"),
			Rests:   rapid.SliceOfN(texts(), 0, 4).Draw(t, "rests"),
			Notes:   rapid.SliceOfN(texts(), 0, 4).Draw(t, "notes"),
			Water:   rapid.MapOfN(keys(), numbers(), 0, 4).Draw(t, "water"),
			Rule:    testRule{Text: texts().Draw(t, "rule")},
			Mash:    testMash{Ratio: numbers().Draw(t, "ratio"), Inner: &testMash{Steps: rapid.SliceOfN(steps(), 0, 2).Draw(t, "inner")}},
			testWhy: testWhy{texts().Draw(t, "why")},
		}
		for range rapid.IntRange(0, 3).Draw(t, "malts") {
			r.Grist = append(r.Grist, testMalt{texts().Draw(t, "malt"), percent(rapid.Float64Range(0, 33).Draw(t, "share")), texts().Draw(t, "role")})
		}
		for _, key := range rapid.SliceOfNDistinct(keys(), 0, 3, rapid.ID).Draw(t, "lots") {
			r.Lots = append(r.Lots, Entry[testStep]{key, steps().Draw(t, "lot")})
		}
		return r
	})
}

// Reading what was printed gives the same values, and printing those gives the
// same text.
func TestPrintedDocumentsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := recipes().Draw(t, "recipe")
		text, err := Marshal("recipe", want)
		if err != nil {
			t.Fatal(err)
		}
		var got testRecipe
		if _, err := Unmarshal("printed.yaml", text, "recipe", &got); err != nil {
			t.Fatalf("%v\nin:\n%s", err, text)
		}
		again, err := Marshal("recipe", got)
		if err != nil || string(again) != string(text) {
			t.Fatalf("%v; first:\n%s\nthen:\n%s", err, text, again)
		}
		if got.Name != want.Name || got.Why != want.Why || got.Aims != want.Aims || got.Rule != want.Rule {
			t.Fatalf("read %+v, want %+v", got, want)
		}
		if len(want.Notes) > 0 && !reflect.DeepEqual(got.Notes, want.Notes) {
			t.Fatalf("read %q, want %q", got.Notes, want.Notes)
		}
		if len(want.Water) > 0 && !reflect.DeepEqual(got.Water, want.Water) {
			t.Fatalf("read %v, want %v", got.Water, want.Water)
		}
	})
}

func BenchmarkUnmarshal(b *testing.B) {
	text := []byte(strings.ReplaceAll(ferryBrown, "Brown, not", strings.Repeat("Brown, not black, never sharp. ", 29)+"not"))
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		var r testRecipe
		if _, err := Unmarshal("ferry.yaml", text, "recipe", &r); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMarshal(b *testing.B) {
	var r testRecipe
	if _, err := Unmarshal("ferry.yaml", []byte(ferryBrown), "recipe", &r); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Marshal("recipe", &r); err != nil {
			b.Fatal(err)
		}
	}
}
