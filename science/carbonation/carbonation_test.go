// SPDX-License-Identifier: MIT

package carbonation

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gyle/data"
	"gyle/quantity"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.6g, want %.6g ± %.2g", what, got, want, tolerance)
	}
}

func atSeaLevel(gauge float64) quantity.Pressure {
	return Absolute(quantity.GaugePressure(gauge), SeaLevel)
}

// Computed from the formulas above (regression values), tolerance 0.002
// volumes. The table took 1.013 bar as standard air, which makes 0.0004.
func TestVolumesTable(t *testing.T) {
	for _, row := range []struct{ celsius, fit0, henry0, water, fit1, henry1, fit2, henry2 float64 }{
		{0, 1.588, 1.612, 1.717, 3.160, 3.204, 4.731, 4.796},
		{4, 1.385, 1.404, 1.468, 2.755, 2.790, 4.125, 4.176},
		{10, 1.136, 1.149, 1.180, 2.261, 2.284, 3.386, 3.419},
		{15, 0.972, 0.979, 0.996, 1.935, 1.946, 2.898, 2.912},
		{20, 0.839, 0.839, 0.850, 1.670, 1.666, 2.501, 2.494},
		{25, 0.731, 0.722, 0.732, 1.455, 1.435, 2.179, 2.147},
		{30, 0.643, 0.625, 0.636, 1.280, 1.241, 1.918, 1.858},
		{40, 0.514, 0.474, 0.489, 1.024, 0.942, 1.534, 1.410},
	} {
		at := quantity.Celsius(row.celsius)
		near(t, "fit at 0 bar", float64(VolumesDeLange(atSeaLevel(0), at)), row.fit0, 0.002)
		near(t, "fit at 1 bar", float64(VolumesDeLange(atSeaLevel(1), at)), row.fit1, 0.002)
		near(t, "fit at 2 bar", float64(VolumesDeLange(atSeaLevel(2), at)), row.fit2, 0.002)
		near(t, "Henry at 0 bar", float64(VolumesHenry(atSeaLevel(0), at)), row.henry0, 0.002)
		near(t, "Henry at 1 bar", float64(VolumesHenry(atSeaLevel(1), at)), row.henry1, 0.002)
		near(t, "Henry at 2 bar", float64(VolumesHenry(atSeaLevel(2), at)), row.henry2, 0.002)
		near(t, "water", float64(VolumesWaterWeiss(atSeaLevel(0), at)), row.water, 0.002)
	}
}

// Weiss 1974, solubility in pure water; constants second-hand.
func TestSolubilityWeiss(t *testing.T) {
	for _, row := range []struct{ celsius, want float64 }{{0, 0.07758}, {10, 0.05366}, {20, 0.03910}, {25, 0.03397}} {
		near(t, "K0", SolubilityWeiss(quantity.Celsius(row.celsius)), row.want, 0.000006)
	}
}

// 23.39 hPa at 20 °C and 73.8 hPa at 40 °C: usual steam tables, from memory.
func TestVaporPressure(t *testing.T) {
	near(t, "at 20 °C", float64(VaporPressure(quantity.Celsius(20))), 0.02339, 0.00005)
	near(t, "at 40 °C", float64(VaporPressure(quantity.Celsius(40))), 0.0738, 0.0003)
}

// Rows of the archived table behind the polynomial for forced carbonation; the
// fit of the ASBC table must give the same volumes within 0.03.
func TestArchivedTable(t *testing.T) {
	for _, row := range []struct{ fahrenheit, psi, volumes, fit float64 }{
		{38, 11.2, 2.5, 2.499}, {40, 12.3, 2.5, 2.509}, {44, 15.5, 2.6, 2.606}, {50, 23.8, 3.0, 2.983}, {32, 8.2, 2.5, 2.477},
	} {
		gauge, at := row.psi/14.5037738, quantity.Fahrenheit(row.fahrenheit)
		near(t, "fit", float64(VolumesDeLange(atSeaLevel(gauge), at)), row.volumes, 0.03)
		near(t, "fit, computed", float64(VolumesDeLange(atSeaLevel(gauge), at)), row.fit, 0.002)
		// The polynomial meets these rows within 0.4 psi.
		near(t, "polynomial", float64(PressureForced(quantity.Carbonation(row.volumes), at)), gauge, 0.4/14.5)
	}
	// At 68 °F it is 1.3 psi low (computed from both formulas).
	warm := quantity.Fahrenheit(68)
	low := float64(PressureForced(2.5, warm)-PressureFor(2.5, warm, SeaLevel)) * 14.5037738
	near(t, "error at 68 °F in psi", low, -1.3, 0.1)
}

// International standard atmosphere, from memory; computed from the formula above.
func TestAltitude(t *testing.T) {
	near(t, "500 m", float64(AirPressure(500)), 0.9546, 0.00005)
	near(t, "1500 m", float64(AirPressure(1500)), 0.8456, 0.00005)
	near(t, "sea level", float64(AirPressure(0)), 1.01325, 1e-12)
	high := AirPressure(1500)
	near(t, "0.8 bar at 4 °C, 1500 m", float64(VolumesDeLange(Absolute(0.8, high), quantity.Celsius(4))), 2.251, 0.002)
	near(t, "0.8 bar at 4 °C, sea level", float64(VolumesDeLange(atSeaLevel(0.8), quantity.Celsius(4))), 2.481, 0.002)
	near(t, "residual at 1500 m", float64(Residual(quantity.Celsius(20), high)), 0.699, 0.002)
	near(t, "residual at sea level", float64(Residual(quantity.Celsius(20), SeaLevel)), 0.839, 0.002)
}

// Computed from the formula above (regression values).
func TestPressureFor(t *testing.T) {
	for _, row := range []struct{ volumes, cold, cellar float64 }{{2.4, 0.74, 1.88}, {2.7, 0.96, 2.24}, {3.0, 1.18, 2.60}} {
		c := quantity.Carbonation(row.volumes)
		near(t, "at 4 °C", float64(PressureFor(c, quantity.Celsius(4), SeaLevel)), row.cold, 0.005)
		near(t, "at 20 °C", float64(PressureFor(c, quantity.Celsius(20), SeaLevel)), row.cellar, 0.0055)
	}
}

func TestPressureThereAndBack(t *testing.T) {
	for celsius := 0.0; celsius <= 40; celsius += 5 {
		for volumes := 0.5; volumes <= 6; volumes += 0.5 {
			c, at := quantity.Carbonation(volumes), quantity.Celsius(celsius)
			near(t, "fit", float64(VolumesDeLange(PressureDeLange(c, at), at)), volumes, 1e-12)
			near(t, "Henry", float64(VolumesHenry(PressureHenry(c, at), at)), volumes, 1e-12)
		}
	}
}

// M. Hibberd's table as reproduced by D. Draper; between rows, straight lines.
func TestResidualHibberd(t *testing.T) {
	for _, row := range []struct{ celsius, want float64 }{
		{0, 1.7}, {2, 1.6}, {4, 1.5}, {6, 1.4}, {8, 1.3}, {10, 1.2}, {12, 1.12}, {14, 1.05},
		{16, 0.99}, {18, 0.93}, {20, 0.88}, {22, 0.83}, {15, 1.02}, {-1, 1.7}, {30, 0.83},
	} {
		near(t, "residual", float64(ResidualHibberd(quantity.Celsius(row.celsius))), row.want, 1e-9)
	}
}

// Hall 1995, from memory; computed from the formula above.
func TestResidualHall(t *testing.T) {
	near(t, "at 20 °C", float64(ResidualHall(quantity.Celsius(20))), 0.861, 0.0005)
	near(t, "at 4 °C", float64(ResidualHall(quantity.Celsius(4))), 1.483, 0.0005)
	near(t, "at 40 °C, outside its range", float64(ResidualHall(quantity.Celsius(40))), 0.704, 0.0005)
	if HallValid.High.Celsius() > 25 {
		t.Error("Hall's quadratic must not be called valid above 25 °C")
	}
	if ResidualHall(quantity.Celsius(45)) <= ResidualHall(quantity.Celsius(34.6)) {
		t.Error("the minimum should lie at 34.6 °C")
	}
}

// Farmhouse yeasts end at 35 to 40 °C (computed from the formula above).
func TestResidualWarm(t *testing.T) {
	near(t, "at 35 °C", float64(Residual(quantity.Celsius(35), SeaLevel)), 0.57, 0.005)
	near(t, "at 40 °C", float64(Residual(quantity.Celsius(40), SeaLevel)), 0.514, 0.002)
}

// Balance of CO2 with yields rounded to 0.514, 0.489 and 0.444 g/g as printed;
// tolerance 0.2 g.
func TestPrimingSugar(t *testing.T) {
	for _, row := range []struct{ litres, residual, target, sucrose, glucose, monohydrate float64 }{
		{20, 0.86, 2.4, 118.4, 124.6, 137.1}, {20, 0.84, 2.7, 143.0, 150.5, 165.6},
		{19, 0.92, 2.2, 93.5, 98.4, 108.2}, {23, 0.80, 3.0, 194.5, 204.7, 225.2},
	} {
		prime := func(y GasYield) float64 {
			return PrimingSugar(quantity.Carbonation(row.target), quantity.Carbonation(row.residual), quantity.Volume(row.litres), y).Grams()
		}
		near(t, "sucrose", prime(YieldSucrose), row.sucrose, 0.2)
		near(t, "glucose", prime(YieldGlucose), row.glucose, 0.2)
		near(t, "monohydrate", prime(YieldGlucoseMonohydrate), row.monohydrate, 0.2)
	}
	near(t, "g of CO2", quantity.Carbonation(2.4-0.86).GramsPerLitre()*20, 60.89, 0.005)
	// CO2 is no ideal gas, of which a volume would hold 44.0095/22.414 g/L (molar
	// mass and volume from memory).
	near(t, "ideal gas", 44.0095/22.414, 1.964, 0.0006)
	near(t, "a volume over an ideal one", quantity.Carbonation(1).GramsPerLitre()/1.964, 1.0066, 0.0001)
	// Rule of an archived text: 4 g/L of sucrose make about 1 volume; exact 3.84.
	near(t, "a volume", PrimingSugar(1, 0, 1, YieldSucrose).Grams(), 3.84, 0.005)
	if PrimingSugar(0.5, 0.9, 20, YieldSucrose) >= 0 {
		t.Error("a beer that holds too much gas should want less than nothing")
	}
}

// The yields here and those on the shelf of sugars must agree (molar masses).
func TestYieldsMatchTheShelf(t *testing.T) {
	for id, yield := range map[string]GasYield{
		"sucrose": YieldSucrose, "dextrose-monohydrate": YieldGlucoseMonohydrate, "dextrose-anhydrous": YieldGlucose,
	} {
		sugar, ok := data.Sugar(id)
		if !ok {
			t.Fatalf("%s is not on the shelf", id)
		}
		near(t, id, float64(yield), sugar.CO2PerGram, 0.0006)
	}
}

// Computed from the formulas above (regression values).
func TestPrimingSideEffects(t *testing.T) {
	near(t, "alcohol of 5 g/L", PrimingAlcohol(5).Percent(), 0.32, 0.005)
	near(t, "rise of 5 g/L", float64(PrimingRise(5)), 0.00195, 1e-9)
}

// Computed from the formula above (regression values), a beer from 12 °P near
// AE 3 °P, which is SG 1.01173.
func TestFromExtract(t *testing.T) {
	const end = 1.0107
	near(t, "0.001", float64(FromExtract(end+0.001, end)), 0.49, 0.006)
	near(t, "0.003", float64(FromExtract(end+0.003, end)), 1.48, 0.015)
	near(t, "0.005", float64(FromExtract(end+0.005, end)), 2.47, 0.025)
	near(t, "1 °P", float64(FromExtract(1.01569, 1.01173)), VolumesPerPlatoApparent, 0.015)
	near(t, "close the tank at", float64(CloseTankAt(1.010, 2.32, 0.84)), 1.013, 0.00005)
	if FromExtract(1.001, 0.998) <= 0 {
		t.Error("a fall below 1.000 makes gas too")
	}
}

// Computed from the formulas above (regression values), tolerance 0.05 bar.
func TestBottlePressure(t *testing.T) {
	celsius := []float64{4, 20, 25, 30, 40}
	for _, row := range []struct {
		volumes float64
		bar     [5]float64
	}{
		{2.4, [5]float64{0.74, 1.89, 2.35, 2.88, 4.11}},
		{3.0, [5]float64{1.18, 2.61, 3.20, 3.85, 5.40}},
		{3.5, [5]float64{1.54, 3.21, 3.90, 4.66, 6.46}},
		{4.0, [5]float64{1.91, 3.82, 4.60, 5.47, 7.53}},
		{5.0, [5]float64{2.64, 5.03, 6.00, 7.10, 9.67}},
		{6.0, [5]float64{3.37, 6.23, 7.41, 8.72, 11.81}},
	} {
		for i, want := range row.bar {
			got := BottlePressure(quantity.Carbonation(row.volumes), quantity.Celsius(celsius[i]))
			near(t, "bottle", float64(got), want, 0.05)
		}
	}
}

// Computed from the formulas above (regression value): 2.5 volumes and a final
// gravity 0.004 too high.
func TestWorstCase(t *testing.T) {
	j := Judge(Filling{Package: CrownBottle, Target: 2.5, Unproven: 0.004})
	near(t, "volumes", float64(j.WorstCase), 4.46, 0.001)
	near(t, "bar at 20 °C", float64(j.Pressure), 4.4, 0.05)
	near(t, "bar at 40 °C", float64(j.HotDay), 8.5, 0.05)
	if j.Severity != Refuse {
		t.Errorf("severity is %s, want refuse", j.Severity)
	}
}

// The limits are common practice; the cases follow from them.
func TestJudge(t *testing.T) {
	for _, test := range []struct {
		name    string
		filling Filling
		want    Severity
		says    string
	}{
		{"ordinary", Filling{Package: CrownBottle, Target: 2.4}, Fine, ""},
		{"at the limit", Filling{Package: CrownBottle, Target: 3.0}, Fine, ""},
		{"lively", Filling{Package: CrownBottle, Target: 3.4}, Warn, "goggles"},
		{"too much", Filling{Package: CrownBottle, Target: 4.1}, Refuse, "burst"},
		{"heavy glass", Filling{Package: HeavyBottle, Target: 4.1}, Fine, ""},
		{"heavy glass, too much", Filling{Package: HeavyBottle, Target: 6.1}, Refuse, "burst"},
		{"plastic", Filling{Package: PlasticBottle, Target: 4.4}, Fine, ""},
		{"plastic, too much", Filling{Package: PlasticBottle, Target: 4.6}, Refuse, "burst"},
		{"hot store", Filling{Package: CrownBottle, Target: 2.4, Warmest: quantity.Celsius(34)}, Warn, "30 °C"},
		{"not proven", Filling{Package: CrownBottle, Target: 2.2, Unproven: 0.001}, Warn, "forced test"},
		{"stuck at 7.8 points", Filling{Package: CrownBottle, Target: 2.2, Unproven: 0.0078}, Refuse, "6.0 volumes"},
		{"keg", Filling{Package: Keg, Target: 2.4, Rating: 7}, Fine, ""},
		{"keg of unknown rating", Filling{Package: Keg, Target: 2.4}, Warn, "rating"},
		{"vessel of 1 bar", Filling{Package: Keg, Target: 2.4, Rating: 1}, Refuse, "rated for 1.00 bar"},
		{"no number", Filling{Package: CrownBottle, Target: quantity.Carbonation(math.NaN())}, Refuse, "could not be computed"},
		{"below the expected end", Filling{Package: CrownBottle, Target: 4.1, Unproven: -0.003}, Refuse, "burst"},
		{"keg in the sun", Filling{Package: Keg, Target: 2.4, Rating: 3}, Warn, "relief valve"},
	} {
		j := Judge(test.filling)
		if j.Severity != test.want {
			t.Errorf("%s: severity is %s, want %s", test.name, j.Severity, test.want)
		}
		says := func(text string) bool { return strings.Contains(text, test.says) }
		if test.says == "" && len(j.Cautions) > 0 || test.says != "" && !slices.ContainsFunc(j.Cautions, says) {
			t.Errorf("%s: cautions are %q, want something about %q", test.name, j.Cautions, test.says)
		}
	}
}

// A package never becomes safer by more gas, more unproven gravity or more warmth.
func TestJudgeIsMonotonous(t *testing.T) {
	for _, kind := range []Package{CrownBottle, HeavyBottle, PlasticBottle, Keg} {
		before := Fine
		for volumes := 1.0; volumes < 8; volumes += 0.1 {
			j := Judge(Filling{Package: kind, Target: quantity.Carbonation(volumes), Rating: 3})
			if j.Severity < before {
				t.Errorf("%s: %.1f volumes are judged %s after %s", kind, volumes, j.Severity, before)
			}
			before = j.Severity
		}
	}
}

// Computed from the formulas above with 1010 kg/m³ and 1.6 mPa·s.
func TestDraughtLine(t *testing.T) {
	thin := Line{Length: 3, Bore: 0.0048, LitresPerMinute: 3}
	near(t, "speed", thin.Speed(), 2.76, 0.005)
	near(t, "Reynolds number", thin.Reynolds(), 8370, 10)
	near(t, "4.8 mm, 3 L/min", float64(thin.Drop()), 0.80, 0.005)
	near(t, "6.4 mm, 3 L/min", float64(Line{Length: 3, Bore: 0.0064, LitresPerMinute: 3}.Drop()), 0.20, 0.005)
	near(t, "4.8 mm, 2 L/min", float64(Line{Length: 3, Bore: 0.0048, LitresPerMinute: 2}.Drop()), 0.39, 0.005)
	rising := Line{Length: 3, Bore: 0.0048, LitresPerMinute: 3, Rise: 1.5}
	near(t, "rise", float64(rising.Drop()-thin.Drop()), 0.147, 1e-9)
	near(t, "length", float64(rising.LengthFor(rising.Drop())), 3, 1e-9)
}
