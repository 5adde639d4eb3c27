// SPDX-License-Identifier: MIT

package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// The ranges are those of the demo style, an oat brown ale.
func TestFigureReadsAndPrintsRanges(t *testing.T) {
	for _, test := range []struct {
		figure    Figure
		text      string
		low, high float64
		shown     string
	}{
		{OG, "1.046..1.054", 1.046, 1.054, "1.046–1.054"},
		{FG, "1011..1016", 1.011, 1.016, "1.011–1.016"},
		{ABV, "4.3..5.2 %", 0.043, 0.052, "4.3–5.2 %"},
		{Bitterness, "24..34", 24, 34, "24–34 IBU"},
		{Bitterness, "..34 IBU", math.Inf(-1), 34, "up to 34 IBU"},
		{BUGU, "0,50..0,68", 0.5, 0.68, "0.50–0.68"},
		{BeerColor, "28..44 EBC", 28, 44, "28–44 EBC"},
		{BeerColor, "10..20 SRM", 19.7, 39.4, "20–39 EBC"},
		{Attenuation, "69..76 %", 0.69, 0.76, "69–76 %"},
		{Attenuation, "70 %..", 0.7, math.Inf(1), "70 % or more"},
		{CO2, "2.0..2.4 vol", 2, 2.4, "2.0–2.4 vol"},
		{MashPH, "5.35..5.50", 5.35, 5.5, "5.35–5.50"},
		{Calcium, "60..120 mg/L", 60, 120, "60–120 mg/L"},
		{Chloride, "100 ppm", 100, 100, "100 mg/L"},
		{SulfateToChloride, "0.4..0.9", 0.4, 0.9, "0.40–0.90"},
		{ResidualAlkalinity, "-1..2 mEq/L", -1, 2, "−1.0 to 2.0 mEq/L"},
		{Sodium, "..", math.Inf(-1), math.Inf(1), "any"},
	} {
		got, err := test.figure.ParseSpan(test.text)
		if err != nil || !nearly(got.Low, test.low) || !nearly(got.High, test.high) {
			t.Errorf("%s: ParseSpan(%q) = %v, %v; want %v..%v", test.figure, test.text, got, err, test.low, test.high)
		}
		if shown := test.figure.FormatSpan(got); shown != test.shown {
			t.Errorf("%s: %q is printed %q, want %q", test.figure, test.text, shown, test.shown)
		}
	}
}

func nearly(a, b float64) bool { return a == b || math.Abs(a-b) < 1e-12 }

func TestFigurePrints(t *testing.T) {
	american := Printer{System: USCustomary}
	for _, test := range []struct{ got, want string }{
		{OG.Format(1.05), "1.050"}, {ABV.Format(0.0477), "4.8 %"}, {Bitterness.Format(29.04), "29 IBU"}, {Attenuation.Format(0.731), "73 %"},
		{MashPH.Format(5.448), "5.45"}, {Calcium.Format(110.3), "110 mg/L"}, {BeerColor.Format(34.6), "35 EBC"}, {american.Figure(BeerColor, 34.6), "17.6 SRM"},
		{Bitterness.FormatBand(Band{26.7, 29.04, 31.3}), "29 IBU (26.7–31.3)"}, {Bitterness.FormatBand(BandOf(29, 0)), "29 IBU"},
		{ABV.FormatBand(BandOf(0.0477, 0.0004)), "4.77 % (4.73–4.81)"}, {ABV.FormatBand(BandOf(0.0477, 0.0015)), "4.8 % (4.62–4.92)"},
	} {
		if test.got != test.want {
			t.Errorf("got %q, want %q", test.got, test.want)
		}
	}
}

func TestFigureInPlato(t *testing.T) {
	if _, err := OG.ParseSpan("11.5..13 °P"); err == nil {
		t.Error("OG.ParseSpan reads °P without a formula")
	}
	got, err := OG.ParseGravitySpan("11.5..13 °P")
	if want := (Span[Gravity]{GravityPlato(11.5), GravityPlato(13)}); err != nil || got != want {
		t.Errorf("got %v, %v; want %v", got, err, want)
	}
	if _, err := ABV.ParseGravitySpan("5 %"); err == nil {
		t.Error("ABV is read as a gravity")
	}
}

func TestLookupFigure(t *testing.T) {
	for _, f := range Figures() {
		for _, name := range []string{string(f), strings.ToUpper(string(f)), f.Label()} {
			if got, err := LookupFigure(name); err != nil || got != f {
				t.Errorf("LookupFigure(%q) = %q, %v", name, got, err)
			}
		}
		if !f.Known() {
			t.Errorf("%s isn't known", f)
		}
	}
	for name, hint := range map[string]string{"atenuation": `"attenuation"`, "colr": `"color"`, "flavour": "write one of og, fg", "": "write one of og"} {
		_, err := LookupFigure(name)
		var fault *ParseError
		if !errors.As(err, &fault) || !strings.Contains(fault.Hint, hint) {
			t.Errorf("LookupFigure(%q): %#v, want the hint %s", name, err, hint)
		}
	}
	if Figure("haze").Known() {
		t.Error("haze is known")
	}
}
