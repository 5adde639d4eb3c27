// SPDX-License-Identifier: MIT

package publish

import (
	"html"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gyle/examples/examplestest"
	"gyle/quantity"
	"gyle/style"
)

var (
	unseen = regexp.MustCompile(`(?s)<(script|style|pre)\b.*?</(script|style|pre)>|<meta[^>]*>|<[^>]*>`)
	spoken = regexp.MustCompile(`(?s) (?:aria-label|placeholder|data-starting|data-faults|data-none)="([^"]*)"`)
	word   = regexp.MustCompile(`\p{L}+`)
)

// vocabulary are the words of the program in a language.
func vocabulary(t *testing.T, w *Words, side int) map[string]bool {
	t.Helper()
	list, err := os.ReadFile("../guest/german.txt")
	if err != nil {
		t.Fatal(err)
	}
	var texts []string
	for line := range strings.Lines(string(list)) {
		if parts := strings.Split(strings.TrimSpace(line), "|"); len(parts) == 2 && !strings.HasPrefix(line, "#") {
			texts = append(texts, parts[side])
		}
	}
	var fields func(v reflect.Value)
	fields = func(v reflect.Value) {
		for i := range v.NumField() {
			switch f := v.Field(i); f.Kind() {
			case reflect.String:
				texts = append(texts, f.String())
			case reflect.Struct:
				fields(f)
			}
		}
	}
	fields(reflect.ValueOf(*w))
	words := map[string]bool{}
	for _, one := range word.FindAllString(strings.ToLower(strings.Join(texts, " ")), -1) {
		words[one] = true
	}
	return words
}

// silent is a bundle without a word of its author.
func silent(t *testing.T, b Bundle) Bundle {
	t.Helper()
	r := *b.Input.Recipe
	r.Note, r.Change = "", nil
	r.Grist, r.Hops = slices.Clone(r.Grist), slices.Clone(r.Hops)
	for i := range r.Grist {
		r.Grist[i].Why = ""
	}
	for i := range r.Hops {
		r.Hops[i].Why = ""
	}
	b.Input.Recipe, b.Versions = &r, nil
	st := *examplestest.Load(t, "oat-brown-ale", style.Parse)
	st.Prose, st.Note, st.Taste, st.Rules = "", "", nil, slices.Clone(st.Rules)
	for i := range st.Rules {
		st.Rules[i].Why = ""
	}
	b.Style = &st
	return b
}

// No word of the program's English is left on a German page: the words of its
// sheet, its questions and its rules are held against all that it says in
// English. Names of ingredients and houses are names.
func TestGermanPageSpeaksGerman(t *testing.T) {
	english, german := vocabulary(t, &English, 0), vocabulary(t, &German, 1)
	names := map[string]bool{"hand": true, "form": true, "gal": true}
	for _, text := range []string{"Ferry Brown Oat brown ale A Quillmark Garage Saltpan Lane Brewing Circle supply",
		"Pale ale malt Flaked oats Munich malt light Caramel malt Brown malt Chocolate malt London ale fruity Bramling Cross Challenger pale-ale oats-flaked oats-malted munich vienna brown amber sugar crystal class roasted chocolate challenger bramling-cross"} {
		for _, one := range word.FindAllString(strings.ToLower(text), -1) {
			names[one] = true
		}
	}
	for _, pr := range []quantity.Printer{{DecimalComma: true}, {System: quantity.USCustomary}} {
		b := silent(t, witnessed(t))
		b.Lang, b.Printer = "de", pr
		b.Tastings = nil // their words are those of their authors
		page, err := Page(b, Engine{Support: "// none"})
		if err != nil {
			t.Fatal(err)
		}
		text := unseen.ReplaceAllString(string(page), " ")
		for _, said := range spoken.FindAllStringSubmatch(string(page), -1) {
			text += " " + said[1]
		}
		text = html.UnescapeString(text)
		left := map[string]bool{}
		for _, one := range word.FindAllString(strings.ToLower(text), -1) {
			if english[one] && !german[one] && !names[one] {
				left[one] = true
			}
		}
		for one := range left {
			at := regexp.MustCompile(`(?i).{0,40}\b` + one + `\b.{0,40}`).FindString(text)
			t.Errorf("%q is left: …%s…", one, strings.TrimSpace(at))
		}
		for _, want := range []string{"Stammwürze", "innerhalb (Grenze)", "Nachguss", "Ihre Pfanne", "Verdampft in der Stunde", "volle Pfanne", "insgesamt", "Kochen 60 min", "Wie es gebraut wurde"} {
			if !strings.Contains(text, want) {
				t.Errorf("the page doesn't say %q", want)
			}
		}
	}
}

// A verdict is worded anew in German, with the same numbers.
func TestGermanVerdicts(t *testing.T) {
	b := witnessed(t)
	b.Lang, b.Printer.DecimalComma = "de", true
	said := b.Panel()
	for version, want := range map[int]string{
		3: "Unterschied gezeigt: 11 von 18 richtig, Raten gibt 6,0 (p 0,0144). Etwa 42 % der Verkoster können sie unterscheiden (9 % bis 70 %, Bereich zu 90 %).",
		2: "Nicht gezeigt; bis zu 51 % der Verkoster könnten sie trotzdem unterscheiden: 6 von 14 richtig",
	} {
		if !strings.Contains(said[version], want) {
			t.Errorf("version %d: %s", version, said[version])
		}
	}
}
