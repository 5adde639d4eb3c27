// SPDX-License-Identifier: MIT

package document

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

// Each text has one byte or shape that no document may have. The golden cases
// in testdata show those that a text file can hold.
func TestUnmarshalRefusesStrangeText(t *testing.T) {
	const head = "gyle: recipe/1\nname: x\n"
	for _, test := range []struct{ name, src, want string }{
		{"NUL", head + "why: a\x00b\n", "f:3:7: a NUL byte"},
		{"escaped NUL", head + "why: \"a\\x00\"\n", "f:3:6: the text holds a NUL character"},
		{"not UTF-8", head + "why: é\xff\n", "f:3:7: this byte is not UTF-8 text"},
		{"control character", head + "why: a\x07\n", "f:3:7: the control character U+0007"},
		{"line separator", head + "why: a\u2028b\n", "f:3:7: the invisible character U+2028"},
		{"mark in the middle", head + "why: \ufeffb\n", "f:3:6: the invisible character U+FEFF"},
		{"old line ends", "gyle: recipe/1\rname: x\r", "f:1:15: a carriage return"},
		{"too long", head + strings.Repeat("#", maxBytes), "f:1:1: the document has 1048599 bytes"},
		{"too many comments", head + strings.Repeat(" #\n", maxComments+1), "f:1:1: the document has more than 10000 comments"},
		{"too deep", head + "why: " + strings.Repeat("[", 40) + strings.Repeat("]", 40) + "\n", "f:3:37: nested more than 32 deep"},
		{"too many values", head + "notes: [" + strings.Repeat("a,", maxNodes) + "]\n", "f:3:199995: the document has more than 100000 values"},
		{"far too deep", head + "why: " + strings.Repeat("[", 100_000), "f:3:"},
		{"nothing", "", "f:1:1: the document is empty"},
	} {
		var r testRecipe
		_, err := Unmarshal("f", []byte(test.src), "recipe", &r)
		var faults Faults
		if !errors.As(err, &faults) || !strings.HasPrefix(faults[0].Summary(), test.want) {
			t.Errorf("%s: %v, want %s", test.name, err, test.want)
		}
	}
}

func TestUnmarshalAcceptsMarkAndWindowsLineEnds(t *testing.T) {
	var r testRecipe
	src := byteOrderMark + strings.ReplaceAll(ferryBrown, "\n", "\r\n")
	if _, err := Unmarshal("f", []byte(src), "recipe", &r); err != nil {
		t.Fatal(err)
	}
	if got, _ := Marshal("recipe", &r); string(got) != ferryBrown {
		t.Errorf("printed:\n%s", got)
	}
}

func TestFaultsAreCut(t *testing.T) {
	src := "gyle: recipe/1\nname: x\ngrist: []\nrules:\n" + strings.Repeat("- {x: 1, y: 2}\n", 1000)
	var r testRecipe
	_, err := Unmarshal("f", []byte(src), "recipe", &r)
	faults, ok := err.(Faults)
	if !ok || len(faults) != maxFaults+1 || faults[maxFaults].Msg != "2800 more faults are not shown" {
		t.Errorf("%d faults, the last: %v", len(faults), faults[len(faults)-1])
	}
}

func TestKindOf(t *testing.T) {
	for _, test := range []struct {
		src     string
		kind    string
		version int
		ok      bool
	}{
		{"gyle: recipe/1\n", "recipe", 1, true},
		{"\ufeff# c\r\n\r\n---\r\ngyle:  'style/12' # c\r\nname: x", "style", 12, true},
		{"name: x\ngyle: recipe/1\n", "", 0, false},
		{"gyle: recipe\n", "", 0, false},
		{"gyle: recipe/0\n", "", 0, false},
		{"gyle:recipe/1\n", "", 0, false},
		{"", "", 0, false},
	} {
		kind, version, ok := KindOf([]byte(test.src))
		if kind != test.kind || version != test.version || ok != test.ok {
			t.Errorf("KindOf(%q) = %q, %d, %v", test.src, kind, version, ok)
		}
	}
}

func TestSourceFindsPlaces(t *testing.T) {
	var r testRecipe
	s, err := Unmarshal("f", []byte(ferryBrown), "recipe", &r)
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		got  Fault
		want string
	}{
		{s.Fault("grist[1].share", "m", ""), "f:8:33: grist[1].share: m"},
		{s.FaultKey("grist[1].share", "m", ""), "f:8:26: grist[1].share: m"},
		{s.Fault("grist[1].color.low", "m", ""), "f:8:3: grist[1].color.low: m"},
		{s.Fault("grist[9].share", "m", ""), "f:6:1: grist[9].share: m"},
		{s.Fault("mash.ph", "m", ""), "f:33:1: mash.ph: m"},
		{s.Fault("yeast", "m", ""), "f:1:1: yeast: m"},
		{s.At("lots").At("alpha").Fault("minutes", "m", ""), "f:27:14: lots.alpha.minutes: m"},
		{(*Source)(nil).Fault("a.b", "m", ""), "a.b: m"},
		{(*Source)(nil).At("a").Fault("b", "m", ""), "a.b: m"},
	} {
		if got := test.got.Summary(); got != test.want {
			t.Errorf("got %s, want %s", got, test.want)
		}
	}
	for path, want := range map[string]bool{"grist[1].share": true, "grist[2]": false, "mash.ratio": true, "mash.rati": false, "name.x": false, "grist[x]": false} {
		if s.Has(path) != want {
			t.Errorf("Has(%q) = %v", path, !want)
		}
	}
}

func TestNearest(t *testing.T) {
	known := []string{"malt", "share", "role", "attenuation", "IBU"}
	for word, want := range map[string]string{
		"mlat": "malt", "shares": "share", "atenuatoin": "attenuation", "ibu": "IBU", "rol": "role",
		"weight": "", "": "", "m": "", strings.Repeat("a", 100): "",
	} {
		if got, ok := Nearest(word, known); got != want || ok != (want != "") {
			t.Errorf("Nearest(%q) = %q, %v; want %q", word, got, ok, want)
		}
	}
}

func TestSortedKeepsEachFaultOnce(t *testing.T) {
	a, b := Fault{Line: 2, Col: 1, Msg: "a"}, Fault{Line: 1, Col: 9, Msg: "b"}
	if got := Sorted(Faults{a, b, a}); fmt.Sprint(got) != fmt.Sprint(Faults{b, a}) {
		t.Errorf("got %v", got)
	}
}

func TestMarshalRefuses(t *testing.T) {
	type needy struct {
		Share *percent `gyle:"share,required"`
	}
	for name, v := range map[string]any{
		"NUL":                 testRecipe{Name: "a\x00"},
		"bytes":               testRecipe{Name: "\xff"},
		"not a number":        testRecipe{Aims: testAims{OG: math.NaN()}},
		"empty key":           testRecipe{Water: map[string]float64{"": 1}},
		"long key":            testRecipe{Water: map[string]float64{strings.Repeat("k", maxKey+1): 1}},
		"repeated key":        testRecipe{Lots: Ordered[testStep]{{Key: "a"}, {Key: "a"}}},
		"not a struct":        []string{"a"},
		"required and absent": needy{},
	} {
		if text, err := Marshal("recipe", v); err == nil {
			t.Errorf("%s: printed %q", name, text)
		}
	}
}

// FuzzUnmarshal checks that reading never panics, that faults lie in the text,
// and that whatever is read without fault prints and reads back the same.
func FuzzUnmarshal(f *testing.F) {
	f.Add([]byte(ferryBrown))
	for _, src := range []string{"", "a: [", "a:\n\tb", "gyle: recipe/1\nname:x", "gyle: recipe/1\nname: &a x\ngrist: *a", "gyle: recipe/1\nname: \"\\u2028\"\ngrist: []\n"} {
		f.Add([]byte(src))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		KindOf(src)
		var r testRecipe
		if _, err := Unmarshal("f", src, "recipe", &r); err != nil {
			checkFaults(t, err, bytes.Count(src, []byte("\n"))+1)
			return
		}
		first, err := Marshal("recipe", &r)
		if err != nil {
			t.Fatalf("read but not printed: %v", err)
		}
		var again testRecipe
		if _, err := Unmarshal("f", first, "recipe", &again); err != nil {
			t.Fatalf("printed but not read: %v\n%s", err, first)
		}
		if second, err := Marshal("recipe", &again); err != nil || !bytes.Equal(first, second) {
			t.Fatalf("%v; first:\n%s\nsecond:\n%s", err, first, second)
		}
	})
}

func checkFaults(t *testing.T, err error, lines int) {
	faults, ok := err.(Faults)
	if !ok || len(faults) == 0 {
		t.Fatalf("%T is not Faults", err)
	}
	for _, fault := range faults {
		if fault.Line < 0 || fault.Line > lines || fault.Msg == "" || fault.Error() == "" {
			t.Fatalf("fault out of the text: %+v", fault)
		}
	}
}
