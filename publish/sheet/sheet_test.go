// SPDX-License-Identifier: MIT

package sheet_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/plan"
	"gyle/publish/card"
	"gyle/publish/sheet"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

func ferryBrown(t testing.TB) card.Bundle {
	t.Helper()
	b := card.Bundle{Style: examplestest.Load(t, "oat-brown-ale", style.Parse), Recipe: examplestest.Load(t, "ferry-brown-4", recipe.Parse)}
	b.Versions = []*recipe.Recipe{examplestest.Load(t, "ferry-brown-3", recipe.Parse), b.Recipe}
	p, err := plan.Make(plan.Input{
		Recipe: b.Recipe, House: examplestest.Load(t, "garage", brewhouse.Parse),
		Stock: examplestest.Load(t, "garage-shed", stock.Parse), Water: examplestest.Load(t, "saltpan-lane", water.Parse),
	})
	if err != nil {
		t.Fatal(err)
	}
	b.Plan = p
	return b
}

// kinds are the sheets by name.
var kinds = map[string]func(card.Bundle, sheet.Paper) ([]byte, error){"recipe": sheet.Recipe, "brew": sheet.Brew, "guide": sheet.Guide}

func TestSameBytesEveryTime(t *testing.T) {
	b := ferryBrown(t)
	for name, write := range kinds {
		one, err := write(b, sheet.A4)
		if err != nil {
			t.Fatal(name, err)
		}
		other, err := write(ferryBrown(t), sheet.A4)
		if err != nil || !bytes.Equal(one, other) {
			t.Errorf("%s: the second time the bytes differ (%v)", name, err)
		}
	}
}

// textOf reads a PDF with pdftotext.
func textOf(t *testing.T, pdf []byte) string {
	t.Helper()
	program, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext (poppler-utils) isn't there to read sheets with")
	}
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(program, "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(string(out)), " ")
}

// TestSheetsSay reads sheets as a printer's customer does. The numbers are
// those of the demonstration's plan (regression values).
func TestSheetsSay(t *testing.T) {
	b := ferryBrown(t)
	for name, wanted := range map[string][]string{
		"recipe": {"Ferry Brown 4", "65.3 % · 3.23 kg", "Enzymes and the biscuit base", "yield 76.0 % of the laboratory extract", "20.0 L in the fermenter (20 °C)", "Hedge and currant", "Version 4, from 3", "page 1 of"},
		"brew":   {"Brew sheet for Garage", "3.23 kg", "72.8 °C", "1.0447", "25.6 L", "5.45", "goggles and gloves", "Bottles can burst", "What slipped, and why"},
		"guide":  {"Oat brown ale", "above 34 it leaves the style", "1.046–1.054", "silk without sweetness", "cocoa, not ash", "60–75 %"},
	} {
		for _, paper := range []sheet.Paper{sheet.A4, sheet.Letter} {
			pdf, err := kinds[name](b, paper)
			if err != nil {
				t.Fatal(name, err)
			}
			text := textOf(t, pdf)
			for _, w := range wanted {
				if !strings.Contains(text, w) {
					t.Errorf("%s on %s doesn't say %q:\n%s", name, paper.Name, w, text)
				}
			}
		}
	}
	b.Printer.System = quantity.USCustomary
	pdf, err := sheet.Brew(b, sheet.Letter)
	if err != nil {
		t.Fatal(err)
	}
	if text := textOf(t, pdf); !strings.Contains(text, "US gal") || !strings.Contains(text, "°F") || strings.Contains(text, " kg") {
		t.Errorf("the sheet in US units says:\n%s", text)
	}
}

// TestHostileTexts writes texts that no face can show, and markup.
func TestHostileTexts(t *testing.T) {
	for _, text := range []string{
		`<script>alert("x")</script>`, ") Tj ET /JavaScript (x", `\) \\ \(`, "שלום עולם", "🍺🏴‍☠️ beer", "\x00\x1b[31m", "\xff\xfe", "{pages}",
		strings.Repeat("Malz", 300), strings.Repeat("word ", 300), "\u202Eeil", "a\u0301\u0300", "中文啤酒", "",
		`)>>endobj 1 0 obj<</OpenAction<</S/JavaScript/JS(x)>>>>`, "\\051 ((( \\", "\r\n%%EOF\r\nendstream", "</script>]]>", strings.Repeat("Name ", 2000), strings.Repeat("(", 10_000),
	} {
		b := ferryBrown(t)
		r, s := *b.Recipe, *b.Style
		r.Name, r.By, r.Note = text, text, text
		r.Grist = append([]recipe.Grain(nil), r.Grist...)
		r.Grist[0].Why = text
		s.Name, s.Prose = text, text
		b.Recipe, b.Style = &r, &s
		for name, write := range kinds {
			if len(text) > 5000 && name != "recipe" {
				continue // once is enough: it takes long
			}
			pdf, err := write(b, sheet.A4)
			if err != nil {
				t.Errorf("%s of %.20q: %v", name, text, err)
			} else if !bytes.HasPrefix(pdf, []byte("%PDF-")) || bytes.Contains(pdf, []byte("/JavaScript")) || bytes.Contains(pdf, []byte("/OpenAction<<")) || bytes.Count(pdf, []byte("%%EOF")) != 1 {
				t.Errorf("%s of %.20q is no plain PDF", name, text)
			}
		}
	}
}

func TestRefused(t *testing.T) {
	for name, write := range kinds {
		if _, err := write(card.Bundle{}, sheet.A4); err == nil {
			t.Errorf("%s is written of nothing", name)
		}
	}
	if _, err := sheet.PaperNamed("a3"); err == nil {
		t.Error("there is a paper a3")
	}
}

// TestShow writes the demonstration's sheets where GYLE_SHOW says, to be looked at.
func TestShow(t *testing.T) {
	dir := os.Getenv("GYLE_SHOW")
	if dir == "" {
		t.Skip("set GYLE_SHOW to a folder to see the sheets")
	}
	for name, write := range kinds {
		pdf, err := write(ferryBrown(t), sheet.A4)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name+".pdf"), pdf, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func BenchmarkBrew(b *testing.B) {
	bundle := ferryBrown(b)
	for b.Loop() {
		if _, err := sheet.Brew(bundle, sheet.A4); err != nil {
			b.Fatal(err)
		}
	}
}
