// SPDX-License-Identifier: MIT

package quantity

import (
	"math"
	"testing"
)

// Wanted texts: the measure rounded by hand from the definitions of the units.
func TestPrint(t *testing.T) {
	metric, american, comma := Printer{}, Printer{System: USCustomary}, Printer{DecimalComma: true}
	for _, test := range []struct{ got, want string }{
		{metric.Mass(4.95), "4.95 kg"}, {metric.Mass(Grams(37.5)), "37.5 g"}, {metric.Mass(Grams(180)), "180 g"},
		{metric.Mass(Grams(999.7)), "1.00 kg"}, {metric.Mass(0.09996), "100 g"}, {metric.Mass(0), "0.0 g"},
		{american.Mass(4.95), "10 lb 14.6 oz"}, {american.Mass(Grams(35)), "1.23 oz"}, {american.Mass(Pounds(0.9999)), "1 lb 0.0 oz"},
		{american.Mass(Pounds(10.9999)), "11 lb 0.0 oz"}, {american.Mass(-Pounds(1.5)), "−1 lb 8.0 oz"},
		{metric.Volume(22), "22.0 L"}, {metric.Volume(1.476), "1.48 L"}, {metric.Volume(9.96), "9.96 L"}, {metric.Volume(9.999), "10.0 L"},
		{metric.Volume(Millilitres(3.3)), "3.3 mL"}, {american.Volume(22), "5.81 US gal"}, {american.Volume(1.476), "1.56 US qt"},
		{american.Volume(Millilitres(100)), "3.4 US fl oz"}, {american.Volume(Millilitres(3.3)), "3.3 mL"},
		{metric.VolumeAt(VolumeAt{26.4, Celsius(95)}), "26.4 L at 95.0 °C"}, {comma.VolumeAt(VolumeAt{26.4, Celsius(95)}), "26,4 L at 95,0 °C"},
		{metric.Temperature(Celsius(67)), "67.0 °C"}, {american.Temperature(Celsius(67)), "152.6 °F"}, {metric.Temperature(Celsius(-18)), "−18.0 °C"},
		{metric.Temperature(Celsius(-0.01)), "0.0 °C"}, {metric.Warming(1.3), "1.3 K"}, {american.Warming(1.3), "2.3 °F"},
		{metric.Duration(Seconds(46)), "46 s"}, {metric.Duration(75), "75 min"}, {metric.Duration(330), "5 h 30 min"}, {metric.Duration(Days(3)), "3 d"},
		{metric.Duration(Hours(76)), "3 d 4 h"}, {metric.Duration(-75), "−75 min"}, {metric.Duration(0), "0 min"},
		{metric.SG(1.05), "1.050"}, {metric.SG(1.0425), "1.0425"}, {metric.SG(1.04999), "1.050"}, {comma.SG(1.0425), "1,0425"},
		{metric.Gravity(GravityPlato(12.388)), "12.4 °P"}, {metric.EBC(34.6), "35 EBC"}, {american.EBC(34.6), "17.6 SRM"}, {metric.EBC(6), "6.0 EBC"},
		{metric.IBU(29.04), "29 IBU"}, {metric.IBU(2.6), "2.6 IBU"}, {metric.Carbonation(2.4), "2.4 vol (4.7 g/L)"}, {american.Carbonation(2.4), "2.4 vol"},
		{metric.Fraction(Percent(65.3), 1), "65.3 %"}, {metric.PH(5.45), "5.45"}, {metric.Concentration(110.2), "110 mg/L"}, {metric.Concentration(3.1), "3.1 mg/L"},
		{metric.Dose(1.4), "1.40 g/L"}, {metric.Dose(0.04), "4.0 g/hL"}, {american.Dose(1.4), "0.19 oz/US gal"},
		{metric.Ratio(3.3), "3.30 L/kg"}, {american.Ratio(3.3), "1.58 US qt/lb"}, {metric.GaugePressure(0.8), "0.80 bar"}, {american.GaugePressure(0.8), "11.6 psi"},
		{metric.MassFlow(0.1), "0.10 kg/s"}, {metric.MassFlow(2.63 / 3600), "2.63 kg/h"}, {metric.Length(850), "850 m"}, {american.Length(Feet(2800)), "2800 ft"},
	} {
		if test.got != test.want {
			t.Errorf("got %q, want %q", test.got, test.want)
		}
	}
}

// No digit of a value is finer than its band; the wanted texts follow from the
// rule in the comment of FormatBand.
func TestBandsAreNotFinerThanTheyBear(t *testing.T) {
	for _, test := range []struct {
		band Band
		unit string
		want string
	}{
		{Band{26.7, 29.04, 31.3}, "IBU", "29 IBU (26.7–31.3)"},
		{Band{22, 29, 36}, "", "29 (22–36)"},
		{BandOf(1.0127, 0.0015), "", "1.013 (1.0112–1.0142)"},
		{BandOf(5.45, 0.04), "", "5.45 (5.41–5.49)"},
		{BandOf(76, 2), "%", "76 % (74–78)"},
		{BandOf(0.94, 0.08), "", "0.94 (0.86–1.02)"},
		{BandOf(5.45, 0.1), "", "5.5 (5.35–5.55)"},
		{BandOf(312, 23), "mg/L", "312 mg/L (289–335)"},
		{BandOf(0.1, 0.4), "mEq/L", "0.1 mEq/L (−0.3 to 0.5)"},
		{BandOf(29, 0), "IBU", "29.00 IBU"},
	} {
		if got := FormatBand(test.band, test.unit); got != test.want {
			t.Errorf("got %q, want %q", got, test.want)
		}
	}
	for _, test := range []struct {
		value, sd float64
		want      string
	}{{28.97, 2.3, "29"}, {0.9372, 0.08, "0.94"}, {1.01273, 0.0015, "1.013"}, {0.9372, 0.1, "0.9"}, {28.97, 0, "28.97"}, {28.97, math.NaN(), "28.97"}} {
		if got := NoFinerThan(test.value, test.sd); got != test.want {
			t.Errorf("NoFinerThan(%v, %v) = %q, want %q", test.value, test.sd, got, test.want)
		}
	}
}
