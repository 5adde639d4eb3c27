// SPDX-License-Identifier: MIT

package water

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"gyle/quantity"
)

func log10(x float64) float64 { return math.Log10(x) }

// supply is a water known by its alkalinity alone.
func supply(alkalinity quantity.Charge, ph quantity.PH, celsius float64, endpoint quantity.PH) Supply {
	return Supply{Ions: WithAlkalinity(Ions{}, alkalinity), PH: ph, Temperature: quantity.Celsius(celsius), EndpointPH: endpoint}
}

// Source: computed from the formulas (regression values).
func TestAcidDemand(t *testing.T) {
	for _, test := range []struct {
		water  Supply
		carbon float64
		demand map[quantity.PH]float64
	}{
		{supply(2, 7.8, 20, 4.3), 2.0357, map[quantity.PH]float64{5.2: 1.8473, 5.4: 1.7784, 5.6: 1.6804, 6.0: 1.3704, 4.3: 2}},
		{supply(2, 7.8, 20, 4.5), 2.0652, map[quantity.PH]float64{5.4: 1.8041, 4.5: 2}},
		{supply(5, 7.2, 20, 4.3), 5.7523, map[quantity.PH]float64{5.4: 4.4580, 4.3: 5, 7.2: 0}},
		{supply(4, 7.5, 25, 4.5), 4.3074, map[quantity.PH]float64{5.4: 3.5992, 4.5: 4}},
	} {
		near(t, "total carbon", test.water.TotalCarbon(), test.carbon, 0.0005)
		for ph, want := range test.demand {
			near(t, "U", float64(test.water.AcidDemand(ph)), want, 0.0005)
		}
	}
}

// Source: computed (regression values).
func TestPHAfter(t *testing.T) {
	s := supply(2, 7.8, 20, 4.3)
	for _, row := range []struct{ dose, want float64 }{{0.5, 6.793}, {1.0, 6.338}, {1.5, 5.857}, {1.9, 4.977}, {0, 7.8}, {2, 4.3}} {
		near(t, "pH", float64(s.PHAfter(quantity.Charge(row.dose))), row.want, 0.002)
	}
}

// Source: computed (regression values).
func TestBlend(t *testing.T) {
	pure := Supply{Temperature: quantity.Celsius(20)}
	thinned := Blend(supply(4.589, 7.4, 20, 4.3), 0.4, pure)
	near(t, "thinned pH", float64(thinned.PH), 7.400, 0.001)
	near(t, "thinned carbon", thinned.TotalCarbon(), 3.0081, 0.001)
	near(t, "thinned ALK", float64(thinned.ConservedAlkalinity()), 2.7480, 0.001)
	halves := Blend(supply(4, 7.2, 20, 4.3), 0.5, supply(1, 8.2, 20, 4.3))
	near(t, "halves pH", float64(halves.PH), 7.287, 0.002)
}

func TestBlendCommutes(t *testing.T) {
	for n := range 60 {
		x := float64(n)
		a := supply(quantity.Charge(0.3+4*math.Abs(math.Sin(x))), quantity.PH(6.3+2*math.Abs(math.Sin(2.1*x))), 20, 4.3)
		b := supply(quantity.Charge(0.3+6*math.Abs(math.Sin(3.3*x))), quantity.PH(6.3+2*math.Abs(math.Sin(5.7*x))), 20, 4.3)
		a.Ions[Calcium], b.Ions[Chloride] = 100, 50
		share := quantity.Fraction(math.Abs(math.Sin(7 * x)))
		one, other := Blend(a, share, b), Blend(b, 1-share, a)
		near(t, "pH", float64(one.PH), float64(other.PH), 1e-9)
		near(t, "carbon", one.TotalCarbon(), other.TotalCarbon(), 1e-9)
		for ion := range one.Ions {
			near(t, Ion(ion).String(), one.Ions[ion], other.Ions[ion], 1e-7)
		}
		carbon := (1-float64(share))*a.TotalCarbon() + float64(share)*b.TotalCarbon()
		near(t, "carbon is conserved", one.TotalCarbon(), carbon, 1e-7)
		low, high := min(a.PH, b.PH), max(a.PH, b.PH)
		if one.PH < low-1e-9 || one.PH > high+1e-9 {
			t.Errorf("case %d: blend pH %.3f outside %.3f..%.3f", n, one.PH, low, high)
		}
	}
}

// The lower the target, the more acid; and a closed water never takes more
// than an open one.
func TestAcidDemandFallsWithPH(t *testing.T) {
	for _, alkalinity := range []quantity.Charge{0, 0.5, 3, 8} {
		s := supply(alkalinity, 7.6, 20, 4.3)
		last := quantity.Charge(math.Inf(1))
		for ph := quantity.PH(3); ph < 10; ph += 0.05 {
			demand := s.AcidDemand(ph)
			if demand >= last {
				t.Errorf("A %g: U(%.2f) = %g, not below %g", alkalinity, ph, demand, last)
			}
			if alkalinity > 0 && ph > 4.3 && demand > s.OpenAcidDemand(ph)+1e-9 {
				t.Errorf("A %g: closed U(%.2f) = %g above open", alkalinity, ph, demand)
			}
			last = demand
		}
	}
}

func TestPHAfterUndoesAcidDemand(t *testing.T) {
	s := Supply{Ions: saltpan, PH: 7.6}
	for ph := quantity.PH(4); ph < 7.6; ph += 0.2 {
		near(t, "pH", float64(s.PHAfter(s.AcidDemand(ph))), float64(ph), 1e-6)
	}
}

func TestAssumedPH(t *testing.T) {
	for _, test := range []struct {
		name    string
		water   Supply
		want    quantity.PH
		caution bool
	}{
		{"measured", supply(2, 7.8, 20, 4.3), 7.8, false},
		{"unknown", supply(2, 0, 20, 4.3), 7.5, true},
		{"too close to the endpoint", supply(2, 4.7, 20, 4.3), 7.5, true},
		{"below the endpoint", supply(2, 4.1, 20, 4.3), 4.1, false},
		{"distilled", supply(0, 0, 25, 4.3), 6.9998, false}, // half of pKw 13.9995
	} {
		ph, caution := test.water.AssumedPH()
		near(t, test.name, float64(ph), float64(test.want), 0.0005)
		if (caution != "") != test.caution {
			t.Errorf("%s: caution %q", test.name, caution)
		}
	}
	near(t, "carbon below the endpoint", supply(2, 4.1, 20, 4.3).TotalCarbon(), 0, 0)
}

// Activity moves the acid demand of ordinary liquor by little.
func TestActivityMattersLittle(t *testing.T) {
	plain := Supply{Ions: reportA, PH: 7.4}
	active := plain
	active.IonicStrength = IonicStrength(DissolvedSolids(reportA))
	a, b := float64(plain.AcidDemand(5.4)), float64(active.AcidDemand(5.4))
	if a == b || math.Abs(a-b) > 0.03*a {
		t.Errorf("U(5.4) %g without and %g with activity", a, b)
	}
}

// readTable reads a table of numbers without its comment line.
func readTable(t *testing.T, name string, comma rune) [][]string {
	t.Helper()
	file, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment, reader.Comma = '#', comma
	rows, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 30 {
		t.Fatalf("%s has %d rows", name, len(rows))
	}
	return rows
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return value
}

// Source: testdata/carbonate.py, which reckons with single species and 50 digits.
func TestCarbonateAgainstSpecies(t *testing.T) {
	for _, row := range readTable(t, "carbonate.csv", ',') {
		var v [8]float64
		for n := range v {
			v[n] = number(t, row[n])
		}
		s := supply(quantity.Charge(v[0]), quantity.PH(v[1]), v[3], quantity.PH(v[2]))
		near(t, "total carbon", s.TotalCarbon(), v[5], 2e-6)
		near(t, "acid demand", float64(s.AcidDemand(quantity.PH(v[4]))), v[6], 2e-6)
		near(t, "pH after half", float64(s.PHAfter(quantity.Charge(v[6]/2))), v[7], 2e-5)
	}
}
