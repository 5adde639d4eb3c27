// SPDX-License-Identifier: MIT

package cellar

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"strings"
	"testing"
	"time"

	"gyle/examples"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/carbonation"
	"gyle/science/ferment"
)

// noon of the day of pitching.
var noon = time.Date(2026, 3, 7, 12, 0, 0, 0, time.FixedZone("", 3600))

func hours(h float64) gyle.Time { return gyle.At(noon).Add(quantity.Hours(h)) }

// brew is a gyle that was pitched at noon, with a plan that expects 1.0127.
func brew(entries ...gyle.Entry) *gyle.Gyle {
	g := &gyle.Gyle{Name: "Ferry Brown 3", Plan: &gyle.Plan{Gravity: gyle.Gravities{OG: 1.0486, FG: 1.0127}, Cellar: gyle.Cellar{CO2: 2.2}}}
	g.Log = append(g.Log, gyle.Entry{ID: "p", Time: hours(0), Deed: &gyle.Deed{Do: gyle.Pitched, Cells: 182}})
	for i, e := range entries {
		e.ID = gyle.ID(fmt.Sprint("e", i))
		g.Log = append(g.Log, e)
	}
	return g
}

func sg(h float64, value string) gyle.Entry {
	return gyle.Entry{Time: hours(h), Reading: &gyle.Reading{Of: gyle.OfGravity, At: gyle.AtFermenter, Value: value}}
}

func forced(h float64, value, mark string) gyle.Entry {
	return gyle.Entry{Time: hours(h), Reading: &gyle.Reading{Of: gyle.OfGravity, At: gyle.AtForcedTest, Value: value, Mark: mark}}
}

func warm(h float64, value string) gyle.Entry {
	return gyle.Entry{Time: hours(h), Reading: &gyle.Reading{Of: gyle.OfTemperature, At: gyle.AtFermenter, Value: value}}
}

func dry(h float64) gyle.Entry {
	mass := quantity.Grams(40)
	return gyle.Entry{Time: hours(h), Deed: &gyle.Deed{Do: gyle.DryHops, What: "bramling-cross", Mass: &mass}}
}

// The verdicts of the published scenario: needs 7 and 8.
func TestVerdicts(t *testing.T) {
	done := []gyle.Entry{sg(138, "1.0125"), sg(159, "1.0124"), sg(183, "1.0129"), sg(210, "1.0126")}
	for name, test := range map[string]struct {
		log  []gyle.Entry
		want ferment.Verdict
	}{
		"proven":           {append(done, forced(100, "1.0122", "")), ferment.StableAndProven},
		"without a test":   {done, ferment.Stable},
		"falling":          {[]gyle.Entry{sg(100, "1.0130"), sg(124, "1.0115"), sg(172, "1.0110")}, ferment.Falling},
		"stuck":            {[]gyle.Entry{sg(100, "1.0200"), sg(136, "1.0200"), sg(173, "1.0200"), forced(100, "1.0122", "")}, ferment.Stuck},
		"nothing was read": {nil, ferment.Undecided},
	} {
		if got := Of(brew(test.log...), hours(300)).Finding.Verdict; got != test.want {
			t.Errorf("%s: %q, want %q", name, got, test.want)
		}
	}
	if Of(&gyle.Gyle{}, hours(0)) != nil {
		t.Error("a beer before it was pitched")
	}
}

// A gyle that stuck at 1.0200, where the forced test ended at 1.0122: 7.8 points
// times 0.49 on top of 2.2 volumes are 6.0, and crown bottles are refused
// (published with the scenario, need 8).
func TestStuckIsRefused(t *testing.T) {
	b := Of(brew(sg(100, "1.0200"), sg(136, "1.0200"), sg(173, "1.0200"), forced(100, "1.0122", "")), hours(180))
	f, err := b.Fill(Wish{CO2: 2.2})
	if err != nil || !f.Refused() || math.Abs(float64(f.Verdict.WorstCase)-6.0) > 0.05 {
		t.Fatalf("%v, refused %t, %.2f vol", err, f.Refused(), float64(f.Verdict.WorstCase))
	}
	if p := b.Proves(); len(p) < 3 || !strings.Contains(p[0], "Warm") || !strings.Contains(p[1], "Rouse") || !strings.Contains(p[2], "yeast") {
		t.Errorf("the advice is %q", p)
	}
	var refused *ErrRefused
	if _, err := f.Entries(40, "  "); !errors.As(err, &refused) || len(refused.Cautions) == 0 {
		t.Fatalf("without a reason: %v", err)
	}
	entries, err := f.Entries(40, "champagne bottles, kept in the cellar at 8 °C")
	if err != nil || len(entries) != 2 || entries[0].Override == nil || entries[1].Deed.Do != gyle.Packaged {
		t.Fatalf("with a reason: %v, %+v", err, entries)
	}
	if o := entries[0].Override; len(o.Refused) == 0 || o.Refused[0] != f.Verdict.Cautions[0] || o.Why == "" {
		t.Errorf("the cautions are lost: %+v", o)
	}
}

// The published scenario: 19.3 L for 2.2 volumes at 20 °C want 101 g of sucrose,
// 85 g if 12 °C is wrongly used; a keg at 5 °C stands at 0.65 bar.
func TestScenarioIsFilled(t *testing.T) {
	text, err := fs.ReadFile(examples.Documents(), "gyle-17.yaml")
	if err != nil {
		t.Fatal(err)
	}
	g, err := gyle.Parse("gyle-17.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	b := Of(g, gyle.At(time.Date(2026, 3, 16, 13, 0, 0, 0, time.UTC)))
	if b.Finding.Verdict != ferment.StableAndProven || b.Refract == nil {
		t.Fatalf("%q, refractometer %v", b.Finding.Verdict, b.Refract)
	}
	for _, test := range []struct{ held, grams float64 }{{20, 101}, {12, 85}} {
		f, err := b.Fill(Wish{CO2: 2.2, Volume: 19.3, Held: quantity.Celsius(test.held)})
		if err != nil || f.Refused() || math.Abs(f.Priming.Grams()-test.grams) > 1 {
			t.Errorf("%g °C: %v, %.1f g, want %g", test.held, err, f.Priming.Grams(), test.grams)
		}
		if math.Abs(float64(f.Keg)-0.65) > 0.005 {
			t.Errorf("the keg at 5 °C wants %.3f bar", float64(f.Keg))
		}
	}
}

// A raw 8.7 °Bx after a start at 12.4 (factor 1.03) is between 1.0192 and
// 1.0252 by the formulas (published with the scenario, need 21).
func TestRefractometerIsABand(t *testing.T) {
	factor := 1.03
	brix := func(h float64, value string) gyle.Entry {
		return gyle.Entry{Time: hours(h), Reading: &gyle.Reading{Of: gyle.OfRefractometer, At: gyle.AtFermenter, Value: value, With: "refractometer"}}
	}
	g := brew(brix(0, "12.4"), brix(47, "8.7"), sg(47, "1.0252"))
	g.Instruments = []gyle.Instrument{{Name: "refractometer", Of: gyle.OfRefractometer, Factor: &factor}}
	b := Of(g, hours(50))
	if b.Refract == nil || math.Abs(float64(b.Refract.All.Low)-1.0192) > 5e-5 || math.Abs(float64(b.Refract.All.High)-1.0252) > 4e-4 {
		t.Fatalf("%+v", b.Refract)
	}
	if now, _ := b.Now(); math.Abs(float64(now)-1.0252) > 1e-6 {
		t.Errorf("the hydrometer loses: %v", now)
	}
}

// Dry hops that lay warm for three days or more may take 0.5 to 2 °P off the
// end; each point of gravity is 0.49 volumes. A forced test of the hopped beer
// proves the end.
func TestHopCreepIsAllowedFor(t *testing.T) {
	readings := []gyle.Entry{sg(138, "1.0126"), sg(170, "1.0126"), sg(214, "1.0126"), sg(250, "1.0126"), sg(290, "1.0126")}
	with := func(more ...gyle.Entry) Filling {
		t.Helper()
		f, err := Of(brew(append(append([]gyle.Entry{}, readings...), more...)...), hours(290)).Fill(Wish{CO2: 2.2})
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	if f := with(forced(100, "1.0126", "")); f.Fall.High != 0 || f.Refused() {
		t.Errorf("no dry hops: %+v", f.Fall)
	}
	f := with(forced(100, "1.0126", ""), dry(200), warm(210, "18"))
	if low, high := float64(f.Fall.Low)*1000, float64(f.Fall.High)*1000; math.Abs(low-1.95) > 0.1 || math.Abs(high-7.8) > 0.1 || !f.Refused() {
		t.Errorf("dry hops: %.2f to %.2f points, refused %t", low, high, f.Refused())
	}
	if want := 2.2 + 7.8*0.49; math.Abs(float64(f.Verdict.WorstCase)-want) > 0.05 {
		t.Errorf("worst case %.2f, want %.2f", float64(f.Verdict.WorstCase), want)
	}
	if f := with(forced(100, "1.0126", ""), dry(200), warm(210, "4")); f.Fall.High != 0 || !strings.Contains(strings.Join(f.Reasons, " "), "hop creep") {
		t.Errorf("in the cold: %+v %q", f.Fall, f.Reasons)
	}
	if f := with(forced(100, "1.0126", ""), dry(250)); f.Fall.High != 0 {
		t.Errorf("less than three days: %+v", f.Fall)
	}
	if f := with(forced(280, "1.0126", "hopped"), dry(200)); f.Fall.High != 0 || f.Refused() {
		t.Errorf("proven with the hops: %+v", f.Fall)
	}
	if keg, err := Of(brew(append(readings, dry(200))...), hours(290)).Fill(Wish{CO2: 2.2, Into: carbonation.Keg, Rating: bar(8)}); err != nil || keg.Refused() {
		t.Errorf("a keg of 8 bar: %v, %+v", err, keg.Verdict)
	}
}

func bar(x float64) *quantity.GaugePressure { p := quantity.GaugePressure(x); return &p }

// 2.4 volumes at 20 °C need 1.88 bar: a vessel of 1 bar is refused (published
// with the needs).
func TestVesselCapsThePressure(t *testing.T) {
	b := Of(brew(), hours(10))
	h := b.Closed(2.4, quantity.Celsius(20), 0, bar(1))
	if math.Abs(float64(h.Need)-1.88) > 0.005 || h.Refused == "" || h.CloseAt != 0 {
		t.Errorf("%+v", h)
	}
	// What it holds instead is within it.
	if p := carbonation.PressureFor(h.Instead, h.At, carbonation.SeaLevel); math.Abs(float64(p)-1) > 0.01 {
		t.Errorf("instead %.2f vol want %.3f bar", float64(h.Instead), float64(p))
	}
	if h.Cold.IsZero() || carbonation.PressureFor(2.4, h.Cold, carbonation.SeaLevel) > 1 {
		t.Errorf("cold enough at %v", h.Cold)
	}
	if h := b.Closed(2.4, quantity.Celsius(20), 0, bar(2)); h.Refused != "" || h.CloseAt <= 1.0127 {
		t.Errorf("a vessel of 2 bar: %+v", h)
	}
	if _, err := SetPressure(1.88, "fermenter 1", bar(1), ""); err == nil {
		t.Error("set above the rating")
	}
	if entries, err := SetPressure(1.88, "fermenter 1", bar(1), "a new valve, 2 bar, fitted today"); err != nil || len(entries) != 2 || entries[0].Override == nil {
		t.Errorf("in writing: %v, %+v", err, entries)
	}
	if entries, err := SetPressure(0.8, "fermenter 1", bar(1), ""); err != nil || len(entries) != 1 {
		t.Errorf("below the rating: %v, %+v", err, entries)
	}
}

// An instrument that reads by itself decides where nobody took enough readings
// by hand: slope and the fall to come.
func TestLoggerDecides(t *testing.T) {
	curve := ferment.Logistic{Start: 12.05, End: 3.25, Steepness: 0.085 / 60, Middle: quantity.Hours(40)}
	rows := func(until int) *gyle.Series {
		var b strings.Builder
		for h := 0; h <= until; h++ {
			sg := 1 + float64(curve.At(quantity.Hours(float64(h))))/(258.6-227.1/258.2*float64(curve.At(quantity.Hours(float64(h)))))
			fmt.Fprintf(&b, "%s %.4f 19.5\n", hours(float64(h)).Format(time.RFC3339), sg)
		}
		return &gyle.Series{At: gyle.AtFermenter, Columns: []gyle.Column{{Of: gyle.OfGravity, Unit: "SG"}, {Of: gyle.OfTemperature, Unit: "°C"}}, Rows: b.String()}
	}
	for until, want := range map[int]ferment.Verdict{60: ferment.Falling, 240: ferment.Stable} {
		b := Of(brew(gyle.Entry{Time: hours(float64(until)), Series: rows(until)}), hours(300))
		if b.Finding.Verdict != want || !b.ByLogger {
			t.Errorf("after %d h: %q by the logger %t, want %q", until, b.Finding.Verdict, b.ByLogger, want)
		}
		if b.Warmest != quantity.Celsius(19.5) {
			t.Errorf("warmest %v", b.Warmest)
		}
	}
}
