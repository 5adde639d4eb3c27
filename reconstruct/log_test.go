// SPDX-License-Identifier: MIT

package reconstruct

import (
	"os"
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/style"
)

// The two documents are the brewings of the demonstration, as their logs were
// written.
func brewing(t testing.TB, name, house string) Input {
	t.Helper()
	text, err := os.ReadFile("../gyle/testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	g, err := gyle.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return Input{Gyle: g, House: examplestest.Load(t, house, brewhouse.Parse), Style: examplestest.Load(t, "oat-brown-ale", style.Parse)}
}

func reconstruct(t *testing.T, in Input) *Reconstruction {
	t.Helper()
	r, err := Make(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range r.Smoothed.Suspects {
		t.Log("suspect: ", s.Sentence)
	}
	for _, e := range r.Effects {
		t.Log(e.Sentence)
	}
	t.Log("in all: ", r.Total)
	for _, n := range r.Notes {
		t.Log("note: ", n)
	}
	return r
}

func compared(t *testing.T, r *Reconstruction, f quantity.Figure) Compared {
	t.Helper()
	for _, c := range r.Compared {
		if c.Figure == f {
			return c
		}
	}
	t.Fatalf("%s wasn't compared", f)
	return Compared{}
}

func TestGarageFromItsLog(t *testing.T) {
	r := reconstruct(t, brewing(t, "garage-v3.yaml", "garage"))
	within(t, "full kettle", float64(r.AsRead[0].Volume), 25.44, 0.015)
	within(t, "its gravity", float64(r.AsRead[0].SG), 1.0425, 0.00015)
	within(t, "its extract", float64(r.AsRead[0].Extract), 2.805, 0.01)
	within(t, "extract at knock-out", float64(r.AsRead[1].Extract), 2.791, 0.005)
	right, cold := r.Day.Yields()
	within(t, "yield", float64(right), 0.746, 0.002)
	within(t, "yield if taken as cold", float64(cold), 0.774, 0.002)
	if !strings.Contains(strings.Join(r.Notes, "\n"), "jumps") {
		t.Error("the trap of the hot volume isn't named")
	}
	// By hand 29.1, with the coil as planned. The log has 20 °C after 24 min, a
	// slower chill than planned (tau 10.5 min, not 7): another 0.2 IBU.
	within(t, "bitterness as brewed", float64(r.Beer.IBU), 29.3, 0.1)
	within(t, "bitterness by the slow chill", float64(findEffect(t, r.Effects, "chill in 24 min instead of 19 min").Change.IBU), 0.2, 0.06)
	within(t, "bitterness as planned", float64(r.Plan.IBU), 28.8, 0.1)
	within(t, "colour", float64(r.Beer.Color), 34.6, 0.8)
	within(t, "FG, median of the last", float64(r.Beer.FG), 1.0126, 0.0002)
	if len(r.Smoothed.Suspects) > 0 {
		t.Error("a sound log is suspected")
	}
	if r.Beer.DMS.Light != "green" {
		t.Errorf("DMS %s", r.Beer.DMS.Light)
	}
	ibu := compared(t, r, quantity.Bitterness)
	if !ibu.Inside || ibu.Style == nil || ibu.Style.Low != 24 {
		t.Errorf("bitterness against the style: %+v", ibu)
	}
	if og := compared(t, r, quantity.OG); !og.Inside || og.Style.High != 1.054 {
		t.Errorf("gravity against the style: %+v", og)
	}
	findEffect(t, r.Effects, "a boil of 75 min instead of 60 min")
	findEffect(t, r.Effects, "of liquor instead of")
}

// TestHotReadAsColdInALog strikes the temperature from the entry of the full
// kettle.
func TestHotReadAsColdInALog(t *testing.T) {
	in := brewing(t, "garage-v3.yaml", "garage")
	for i := range in.Gyle.Log {
		if e := &in.Gyle.Log[i]; e.ID == "g26" {
			e.Reading.Value = "26,4 L"
		}
	}
	r := reconstruct(t, in)
	if len(r.Smoothed.Suspects) == 0 || r.Smoothed.Suspects[0].Reading.Entry != "g26" ||
		r.Smoothed.Suspects[0].Explanations[0].Slip != "hot volume read as cold" {
		t.Fatalf("suspects: %+v", r.Smoothed.Suspects)
	}
}

// TestUncorrectedSwap takes the correction of the gravity out: the log then says
// 1.0145 for 1.0415.
func TestUncorrectedSwap(t *testing.T) {
	in := brewing(t, "garage-v3.yaml", "garage")
	var log gyle.Log
	for _, e := range in.Gyle.Log {
		if e.ID != "g28" {
			log = append(log, e)
		}
	}
	in.Gyle.Log = log
	r := reconstruct(t, in)
	if len(r.Smoothed.Suspects) == 0 || r.Smoothed.Suspects[0].Reading.Entry != "g27" ||
		r.Smoothed.Suspects[0].Explanations[0].Slip != "two digits swapped" {
		t.Fatalf("suspects: %+v", r.Smoothed.Suspects)
	}
	within(t, "gravity as corrected", r.Smoothed.Points[0].SG.Value, 1.0425, 0.0004)
}

func TestBoathouseFromItsLog(t *testing.T) {
	r := reconstruct(t, brewing(t, "boathouse-v4.yaml", "boathouse"))
	for _, p := range r.Smoothed.Points {
		t.Logf("%s: %.2f ± %.2f L of %.4f ± %.4f", p.Name, p.Volume.Value, p.Volume.SD, p.SG.Value, p.SG.SD)
	}
	t.Logf("%.2f IBU, late %.2f; planned %.2f", float64(r.Beer.IBU), float64(r.Beer.Late), float64(r.Plan.IBU))
	within(t, "bitterness as planned", float64(r.Plan.IBU), 29.0, 0.1)
	within(t, "early bitterness", float64(r.Beer.IBU-r.Beer.Late), 27.1, 0.25)
	within(t, "late bitterness", float64(r.Beer.Late), 3.5, 0.15)
	within(t, "bitterness as brewed", float64(r.Beer.IBU), 30.5, 0.25)
	within(t, "knock-out", r.Smoothed.Points[1].Volume.Value, 93.0, 0.5)
	within(t, "gravity", r.Smoothed.Points[1].SG.Value, 1.0494, 0.0005)
	ibu := compared(t, r, quantity.Bitterness)
	within(t, "low end of the band", ibu.Brewed.Low, 23, 0.6)
	within(t, "high end of the band", ibu.Brewed.High, 38, 0.6)
	if r.Beer.DMS.Light != "amber" {
		t.Errorf("DMS %s, %.0f µg/L", r.Beer.DMS.Light, float64(r.Beer.DMS.High))
	}
	findEffect(t, r.Effects, "cool to 80 °C in 14 min instead of 5.5 min")
	findEffect(t, r.Effects, "bramling-cross went in at 88 °C instead of at 80 °C")
	findEffect(t, r.Effects, "run-off in 48 min instead of 40 min")
	findEffect(t, r.Effects, "evaporation of")
}

func TestAnEmptyLog(t *testing.T) {
	in := brewing(t, "garage-v3.yaml", "garage")
	in.Gyle.Log = nil
	if _, err := Make(in); err == nil || !strings.Contains(err.Error(), "no volume or gravity") {
		t.Errorf("an empty log gave %v", err)
	}
}

// TestInterruptionInALog puts a tripped element into the Garage's log: at
// minute 30 of the boil for 10 min, down to 95 °C.
func TestInterruptionInALog(t *testing.T) {
	in := brewing(t, "garage-v3.yaml", "garage")
	start := in.Gyle.Log[29].When()
	if in.Gyle.Log[29].Deed.Do != gyle.BoilStart {
		t.Fatal("entry 29 of the log isn't the start of the boil")
	}
	e := gyle.Entry{ID: "g99", Time: start.Add(45), Interruption: &gyle.Interruption{What: "element tripped", From: start.Add(30), To: start.Add(40), Lowest: quantity.Celsius(95)}}
	in.Gyle.Log = append(in.Gyle.Log, e)
	r := reconstruct(t, in)
	// 75 min in all; the pause and the way back to 100 °C are without steam.
	if got := r.Brewed.boilTime(); got >= 65 || got < 55 {
		t.Errorf("steam left for %.1f min", got.Minutes())
	}
	findEffect(t, r.Effects, "element tripped, ")
}
