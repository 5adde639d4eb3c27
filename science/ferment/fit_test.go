// SPDX-License-Identifier: MIT

package ferment

import (
	"math"
	"math/rand/v2"
	"testing"

	"gyle/quantity"
	"gyle/science/gravity"
)

// readingsOf reads a curve every so many hours, with a scatter in °P from a
// fixed seed.
func readingsOf(curve GravityCurve, from, to, every, scatter float64) (readings []Reading) {
	random := rand.New(rand.NewPCG(7, 11))
	for hour := from; hour <= to; hour += every {
		plato := float64(curve.At(quantity.Hours(hour))) + scatter*random.NormFloat64()
		readings = append(readings, Reading{At: quantity.Hours(hour), SG: gravity.SGFromPlato(quantity.Plato(plato))})
	}
	return readings
}

// A curve's own readings must give the curve back, dry beers included.
func TestFitFindsTheCurve(t *testing.T) {
	for _, curve := range []Logistic{
		sample,
		{Start: 16, End: -0.4, Steepness: PerHour(0.05), Middle: quantity.Hours(70)},
		{Start: 10, End: 3.2, Steepness: PerHour(0.3), Middle: quantity.Hours(20)},
	} {
		fit, ok := FitLogistic(readingsOf(curve, 0, 150, 8, 0), curve.End+0.6)
		if !ok || fit.EndHeld {
			t.Fatalf("no free fit of %+v", curve)
		}
		near(t, "start", float64(fit.Curve.Start), float64(curve.Start), 1e-3)
		near(t, "end", float64(fit.Curve.End), float64(curve.End), 1e-4)
		near(t, "steepness", perHour(fit.Curve.Steepness), perHour(curve.Steepness), 1e-4)
		near(t, "middle", fit.Curve.Middle.Hours(), curve.Middle.Hours(), 1e-2)
	}
}

// With a scatter of 0.1 °P the fit must find that scatter, and two readings in
// three must lie in its band.
func TestFitOfScatteredReadings(t *testing.T) {
	readings := readingsOf(sample, 0, 120, 2, 0.1)
	fit, ok := FitLogistic(readings, 3)
	if !ok {
		t.Fatal("no fit")
	}
	near(t, "end", float64(fit.Curve.End), 2.5, 0.15)
	near(t, "scatter", float64(fit.SD), 0.1, 0.03)
	inside := 0
	for _, reading := range readings {
		band, plato := fit.Band(reading.At), float64(gravity.PlatoFromSG(reading.SG))
		if band.Low <= plato && plato <= band.High {
			inside++
		}
	}
	near(t, "share inside the band", float64(inside)/float64(len(readings)), 0.68, 0.15)
}

// Early readings can't know the end: it is held near the expectation, and the
// band at the end is as wide as the doubt about it. Later readings narrow it.
func TestFitHoldsTheEnd(t *testing.T) {
	end := quantity.Hours(200)
	early, ok := FitLogistic(readingsOf(sample, 0, 30, 6, 0), 2.0)
	if !ok || !early.EndHeld {
		t.Fatalf("fit of early readings: %v, end held: %v", ok, early.EndHeld)
	}
	near(t, "end", float64(early.Curve.End), 2.0, 0.7)
	late, ok := FitLogistic(readingsOf(sample, 0, 110, 10, 0.05), 2.0)
	if !ok || late.EndHeld {
		t.Fatalf("fit of late readings: %v, end held: %v", ok, late.EndHeld)
	}
	width := func(f Fit) float64 { band := f.Band(end); return band.High - band.Low }
	if width(early) < 0.7 || width(late) > 0.4 || width(late) > width(early) {
		t.Errorf("band at the end is %.2f °P wide early and %.2f late", width(early), width(late))
	}
}

func TestFitRefuses(t *testing.T) {
	flat := Logistic{Start: 12, End: 2.5, Steepness: PerHour(0.1), Middle: quantity.Hours(300)}
	for name, readings := range map[string][]Reading{
		"no readings":      nil,
		"three readings":   readingsOf(sample, 0, 60, 30, 0),
		"nothing has come": readingsOf(flat, 0, 60, 6, 0),
	} {
		if fit, ok := FitLogistic(readings, 2.5); ok {
			t.Errorf("%s: made the curve %+v", name, fit.Curve)
		}
	}
}

func TestFallToCome(t *testing.T) {
	fit := Fit{Curve: sample}
	near(t, "fall to come", float64(fit.FallToCome(sample.TimeToWithin(0.1))), 0.1, 1e-9)
}

// Whatever the readings, the answer is finite and inside the bounds.
func TestFitStaysInBounds(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		var readings []Reading
		for i := range 4 + random.IntN(12) {
			readings = append(readings, Reading{At: quantity.Hours(float64(i) * 10), SG: quantity.SG(1 + 0.05*random.Float64())})
		}
		fit, ok := FitLogistic(readings, quantity.Plato(4*random.Float64()))
		if !ok {
			continue
		}
		steepness, band := perHour(fit.Curve.Steepness), fit.Band(quantity.Hours(100))
		if fit.Curve.End < lowestEnd || fit.Curve.End > fit.Curve.Start || steepness > steepest || math.IsNaN(steepness) || math.IsNaN(band.Mid) {
			t.Fatalf("curve out of bounds: %+v", fit.Curve)
		}
	}
}
