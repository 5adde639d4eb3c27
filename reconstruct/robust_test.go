// SPDX-License-Identifier: MIT

package reconstruct

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gyle/gyle"
	"gyle/quantity"
)

// TestAnyLog takes entries away from the logs of the demonstration at random,
// down to none, and the plan and the house now and then: there is an error or a
// result of finite numbers, never a panic and never an open book.
func TestAnyLog(t *testing.T) {
	random := rand.New(rand.NewPCG(41, 42))
	for range rounds(60, 1000) {
		name, house := "garage-v3.yaml", "garage"
		if random.IntN(2) == 0 {
			name, house = "boathouse-v4.yaml", "boathouse"
		}
		in := brewing(t, name, house)
		keep := random.Float64()
		var log gyle.Log
		for _, e := range in.Gyle.Log {
			if random.Float64() < keep {
				log = append(log, e)
			}
		}
		in.Gyle.Log = log
		if random.IntN(4) == 0 {
			in.Gyle.Plan = nil
		}
		if random.IntN(4) == 0 {
			in.House, in.Style = nil, nil
		}
		r, err := Make(in)
		if err != nil {
			continue
		}
		if r.Smoothed.Open > 1e-9 {
			t.Fatalf("the books are open by %g", r.Smoothed.Open)
		}
		for _, f := range r.Compared {
			if math.IsNaN(f.Brewed.Mid) || math.IsInf(f.Brewed.Mid, 0) {
				t.Fatalf("%s is %g with %d of the entries: %+v", f.Figure, f.Brewed.Mid, len(log), log)
			}
		}
		if text := strings.Join(r.Sentences(), "\n"); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
			t.Fatalf("with %d of the entries, plan %v: %s", len(log), in.Gyle.Plan != nil, text)
		}
		NewHouse(in.House).Add(r.Lessons("brew"))
		r.Misses("brew")
	}
}

// TestTwoSlips spoils two readings of the Garage's log: both are found, the
// larger first.
func TestTwoSlips(t *testing.T) {
	d := garageDay()
	d.Points[0].Volumes[0].At = quantity.Temperature{} // hot read as cold
	d.Points[1].Gravities[0].Value = 1.0122            // °P for points
	s := smooth(t, d)
	if len(s.Suspects) == 0 || s.Suspects[0].Reading.Entry != "knock-out gravity" {
		t.Fatalf("suspects %+v", s.Suspects)
	}
	if len(s.Also) == 0 || s.Also[0].Reading.Entry != "full kettle" {
		t.Fatalf("also %+v", s.Also)
	}
	t.Log(s.Suspects[0].Sentence)
	t.Log(s.Also[0].Sentence)
	within(t, "full kettle", s.Points[0].Volume.Value, 25.43, 0.2)
	within(t, "knock-out", s.Points[1].SG.Value, 1.0487, 0.0006)
}

// TestAHouseThatDidOtherwise: two litres stayed in a kettle that usually keeps
// less than one, and the readings all say so. No reading is to blame.
func TestAHouseThatDidOtherwise(t *testing.T) {
	d := garageDay()
	d.Steps[1].Lost = quantity.Estimate{Value: 0.8, SD: 0.15}
	d.Points[2].Volumes[0].Value = 20.0
	s := smooth(t, d)
	if len(s.Suspects) == 0 || s.Suspects[0].IsReading() || !strings.HasPrefix(s.Suspects[0].Sentence, "wort lost before fermenter: not as usual") {
		t.Fatalf("suspects %+v", s.Suspects)
	}
	t.Log(s.Suspects[0].Sentence)
	within(t, "loss", s.Lost[1].Value, 2.1, 0.2)
}

// TestDilution adds 1.48 L of water to 21.0 L of 1.0535 in the fermenter. By
// hand: 22.48 L of 1.050, and the bitterness is 0.934 of what it was.
func TestDilution(t *testing.T) {
	f := garageFacts()
	f.Liquor, f.Yield = 27.84, 0.7735
	f.KettleLoss = 0
	before := f.Brew()
	within(t, "knock-out", float64(before.KnockOut.Volume), 21.0, 0.08)
	within(t, "its gravity", float64(before.KnockOut.SG), 1.0535, 0.0003)
	f.WaterAfter = 1.476
	after := f.Brew()
	within(t, "volume", float64(after.Collected.Volume), float64(before.KnockOut.Volume)+1.48, 0.01)
	within(t, "bitterness", float64(after.IBU/before.IBU), 0.934, 0.001)
	within(t, "gravity", float64(after.Collected.SG), float64(before.KnockOut.SG)-0.0035, 0.0002)
}

// TestSwaps: computed by hand.
func TestSwaps(t *testing.T) {
	for _, test := range []struct {
		x        float64
		decimals int
		want     []float64
	}{
		{26.4, 1, []float64{62.4, 24.6}},
		{1.0425, 4, []float64{0.1425, 1.4025, 1.0245, 1.0452}},
		{22.2, 1, nil},
	} {
		got := Swaps(test.x, test.decimals)
		if len(got) != len(test.want) {
			t.Errorf("Swaps(%g) = %v, want %v", test.x, got, test.want)
			continue
		}
		for i := range got {
			if got[i] != test.want[i] {
				t.Errorf("Swaps(%g) = %v, want %v", test.x, got, test.want)
			}
		}
	}
}

func TestSentencesOfTheDemonstration(t *testing.T) {
	for _, brew := range [][2]string{{"garage-v3.yaml", "garage"}, {"boathouse-v4.yaml", "boathouse"}} {
		r, err := Make(brewing(t, brew[0], brew[1]))
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(r.Sentences(), "\n")
		t.Log(text)
		for _, part := range []string{"as read, ", "the readings agree", "as brewed: ", "against the plan in all: "} {
			if !strings.Contains(text, part) {
				t.Errorf("%s: nothing says %q", brew[0], part)
			}
		}
	}
}
