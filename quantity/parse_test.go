// SPDX-License-Identifier: MIT

package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// reading returns a test that text is read as want, within a relative 1e-12:
// the wanted numbers are computed by hand from the definitions of the units.
func reading[T any](parse func(string) (T, error), number func(T) float64, text string, want float64) func(*testing.T) {
	return func(t *testing.T) {
		got, err := parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if x := number(got); math.Abs(x-want) > 1e-12*math.Max(1, math.Abs(want)) {
			t.Errorf("read %q as %v, want %v", text, x, want)
		}
	}
}

func float[T ~float64](x T) float64 { return float64(x) }

// The wanted values follow from the definitions of the units: US gallon 231
// cubic inches of 2.54 cm, imperial gallon 4.54609 L, pound 0.45359237 kg.
func TestReadAsWritten(t *testing.T) {
	volumes := map[string]float64{
		"22 L": 22, "22,5 l": 22.5, "26.4": 26.4, "26,4 litres": 26.4, "750 mL": 0.75, "1.2 hL": 120,
		"5 US gal": 18.92705892, "5 gal US": 18.92705892, "5 imp gal": 22.73045, "5 UK gallons": 22.73045,
		"1 US qt": 0.946352946, "1 imp pt": 0.56826125, "1 US fl. oz.": 0.0295735295625, "1 US bbl": 117.347765304,
		"1\u00a0250 mL": 1.25, "1\u202f250\u2009mL": 1.25, "0,125 L": 0.125, "1e1 L": 10,
	}
	for text, want := range volumes {
		t.Run(text, reading(ParseVolume, float, text, want))
	}
	for text, want := range map[string]float64{"1.050": 1.05, "1,050": 1.05, "1042.5": 1.0425, "1.0425": 1.0425, "1 042,5": 1.0425, "42.5 points": 1.0425, "1.050 SG": 1.05, "0.998": 0.998} {
		t.Run(text, reading(ParseSG, float, text, want))
	}
	for text, want := range map[string]float64{"1.250 kg": 1.25, "35 g": 0.035, "1 lb 4 oz": 0.5669904625, "2 oz": 0.05669904625, "0": 0, "1 250 g": 1.25, "1 t": 1000} {
		t.Run(text, reading(ParseMass, float, text, want))
	}
	for text, want := range map[string]float64{"75 min": 75, "90 s": 1.5, "1 h 15 min": 75, "1h15min": 75, "3 d": 4320, "2 weeks": 20160, "5.5 min": 5.5} {
		t.Run(text, reading(ParseDuration, float, text, want))
	}
	for text, want := range map[string]float64{"67 °C": 67, "67 degC": 67, "67C": 67, "67 deg C": 67, "152.6 °F": 67, "152.6F": 67, "−18 °C": -18, "340.15 K": 67, "67 ℃": 67, "67º C": 67} {
		t.Run(text, reading(ParseTemperature, Temperature.Celsius, text, want))
	}
	for text, want := range map[string]float64{"0.75 M/mL/°P": 0.75, "0.75 million/mL/°P": 0.75, "0.75e6 cells/mL/°P": 0.75, "0.75 × 10⁶/mL/°P": 0.75, "0.75 x 10^6 cells/mL/°P": 0.75} {
		t.Run(text, reading(ParsePitchRate, float, text, want))
	}
	for text, want := range map[string]float64{"2.4 vol": 2.4, "4.7448 g/L": 2.4, "2,4 volumes": 2.4} {
		t.Run(text, reading(ParseCarbonation, float, text, want))
	}
	t.Run("share", reading(ParseFraction, float, "3.7 %", 0.037))
	t.Run("share", reading(ParseFraction, float, "65,3%", 0.653))
	t.Run("dose", reading(ParseDose, float, "1.5 g/L", 1.5))
	t.Run("dose", reading(ParseDose, float, "4 g/hL", 0.04))
	t.Run("dose", reading(ParseDose, float, "1 oz/US gal", 28.349523125/3.785411784))
	t.Run("ratio", reading(ParseRatio, float, "3.3 L/kg", 3.3))
	t.Run("ratio", reading(ParseRatio, float, "1 US qt/lb", 0.946352946/0.45359237))
	t.Run("gauge", reading(ParseGaugePressure, float, "0.8 bar", 0.8))
	t.Run("gauge", reading(ParseGaugePressure, float, "12 psi", 12*0.45359237*9.80665/(0.0254*0.0254)/1e5))
	t.Run("absolute", reading(ParsePressure, float, "1013 hPa", 1.013))
	t.Run("power", reading(ParsePower, float, "2.4 kW", 2.4))
	t.Run("power", reading(ParsePower, float, "750 W", 0.75))
	t.Run("ion", reading(ParseConcentration, float, "110 ppm", 110))
	t.Run("ion", reading(ParseConcentration, float, "110 mg/L", 110))
	t.Run("charge", reading(ParseCharge, float, "2.76 mEq/L", 2.76))
	t.Run("charge", reading(ParseCharge, float, "50.043 mg/L as CaCO3", 1))
	t.Run("heat", reading(ParseHeatCapacity, float, "3.0 kJ/K", 3))
	t.Run("flow", reading(ParseMassFlow, float, "0.10 kg/s", 0.1))
	t.Run("flow", reading(ParseMassFlow, float, "360 kg/h", 0.1))
	t.Run("oil", reading(ParseOilContent, float, "1.2 mL/100 g", 1.2))
	t.Run("oil", reading(ParseOilContent, float, "1.2 mL/100g", 1.2))
	t.Run("pH", reading(ParsePH, float, "pH 5,45", 5.45))
	t.Run("rate", reading(ParseRate, float, "0.012 /min", 0.012))
	t.Run("rate", reading(ParseRate, float, "0.085/h", 0.085/60))
	t.Run("warming", reading(ParseWarming, float, "1.8 °F", 1))
	t.Run("altitude", reading(ParseLength, float, "1000 ft", 304.8))
	t.Run("bitterness", reading(ParseIBU, float, "29", 29))
	t.Run("Brix", reading(ParseBrix, float, "8.7", 8.7))
	t.Run("EBC", reading(ParseEBC, float, "10 SRM", 19.7))
}

func TestGravityKeepsItsScale(t *testing.T) {
	for text, want := range map[string]Gravity{
		"1.050": {1.05, ScaleSG}, "1042.5": {1.0425, ScaleSG}, "12.4 °P": {12.4, ScalePlato}, "10.6P": {10.6, ScalePlato},
		"12.4 Plato": {12.4, ScalePlato}, "12,4 °p": {12.4, ScalePlato},
	} {
		if got, err := ParseGravity(text); err != nil || got != want {
			t.Errorf("ParseGravity(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
}

func TestColorKeepsItsScale(t *testing.T) {
	for text, want := range map[string]Color{"35 EBC": {35, ScaleEBC}, "17.8 SRM": {17.8, ScaleSRM}, "60 °L": {60, ScaleLovibond}, "60 Lovibond": {60, ScaleLovibond}} {
		if got, err := ParseColor(text); err != nil || got != want {
			t.Errorf("ParseColor(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
}

func TestVolumeAtTemperature(t *testing.T) {
	hot := VolumeAt{26.4, Celsius(95)}
	for text, want := range map[string]VolumeAt{
		"26,4 L @ 95 °C": hot, "26.4 @95": hot, "26.4@95C": hot, "26.4 L at 95 °C": hot, "26.4 L": {Volume: 26.4},
		"5 US gal @ 203 °F": {USGallons(5), Fahrenheit(203)},
	} {
		if got, err := ParseVolumeAt(text); err != nil || got != want {
			t.Errorf("ParseVolumeAt(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
}

// What can be mistaken is refused, with the choices.
func TestRefused(t *testing.T) {
	for _, test := range []struct {
		read func(string) error
		text string
		msg  string
		hint string
	}{
		{errorOf(ParseVolume), "5 gal", "US 18.93 L or imperial 22.73 L?", `"5 US gal" or "5 imp gal"`},
		{errorOf(ParseVolume), "1 qt", "US 0.9464 L or imperial 1.137 L?", `"1 US qt" or "1 imp qt"`},
		{errorOf(ParseVolume), "2 pints", "US 0.9464 L or imperial 1.137 L?", "US pt"},
		{errorOf(ParseVolume), "8 fl oz", "which fluid ounce?", "US fl oz"},
		{errorOf(ParseVolume), "1 bbl", "US 117.3 L or imperial 163.7 L?", "US bbl"},
		{errorOf(ParseVolume), "1,250 L", "1.250 or 1250?", `"1.250" or "1250"`},
		{errorOf(ParseVolume), "1,250.5 L", "two decimal marks", "no mark between thousands"},
		{errorOf(ParseVolume), "5 litters", "unknown", ""},
		{errorOf(ParseVolume), "5 imp gall", "unknown", `"5 imp gal"`},
		{errorOf(ParseMass), "5 lbss", "unknown", `"5 lbs"`},
		{errorOf(ParseMass), "1/2 lb", "isn't understood in a number", "decimal number"},
		{errorOf(ParseDuration), "1 h -15 min", "minus sign", ""},
		{errorOf(ParseDuration), "1 h 15", "unit is missing", `"15 min"`},
		{errorOf(ParseEstimate), "0.94 %", "behind the number", "number alone"},
		{errorOf(ParseMass), "1 ton", "metric 1000 kg, short 907 kg or long 1016 kg?", `"1 short ton"`},
		{errorOf(ParseMass), "5", "unit is missing", `"5 kg"`},
		{errorOf(ParseColor), "35", "35 EBC, 35 SRM", `"35 EBC", "35 SRM" or "35 °L"`},
		{errorOf(ParseColor), "10 L", "10 litres or 10 degrees Lovibond?", `"10 °L"`},
		{errorOf(ParseTemperature), "67", "67 °C, or 67 °F (19.4 °C)?", `"67 °C" or "67 °F"`},
		{errorOf(ParseGravity), "12", "12 °P or 1.012?", `"12 °P" or "1.012"`},
		{errorOf(ParseGravity), "12.4", "12.4 °P or 1.0124?", `"12.4 °P" or "1.0124"`},
		{errorOf(ParseGravity), "8.7 °Bx", "corrected", `"8.7 °P"`},
		{errorOf(ParseSG), "12.4 °P", "degrees Plato", "1.050"},
		{errorOf(ParsePlato), "1.050", "specific gravity", "12.4 °P"},
		{errorOf(ParseDose), "1 oz/gal", "US 7.49 g/L or imperial 6.24 g/L?", `"1 oz/US gal"`},
		{errorOf(ParseRatio), "1.25 qt/lb", "US 2.61 L/kg or imperial 3.13 L/kg?", `"1.25 US qt/lb"`},
		{errorOf(ParseCarbonation), "2.4", "2.4 volumes, or 2.4 g/L (1.21 volumes)?", `"2.4 vol"`},
		{errorOf(ParsePressure), "12 psi", "absolute, or above the surrounding air?", `"12 psi abs"`},
		{errorOf(ParsePressure), "1.8 bar", "1.8 or about 2.813 bar absolute?", `"1.8 bar abs"`},
		{errorOf(ParseGaugePressure), "1.8 bar abs", "absolute pressure", "take away"},
		{errorOf(ParseFraction), "3.7", "unit is missing", `"3.7 %"`},
		{errorOf(ParseCharge), "138 mg/L", "milligrams of what?", `"138 mg/L CaCO3"`},
		{errorOf(ParseVolumeAt), "5 US gal @ 180", "which degrees?", "180 °F"},
		{errorOf(ParseVolumeAt), "26.4 @ 203", "which degrees?", "203 °F"},
		{errorOf(ParseDuration), "", "nothing is written", ""},
		{errorOf(ParseDuration), "an hour", "doesn't begin with a number", ""},
		{errorOf(ParseSpan[Temperature]), "20..18 °C", "begins above its end", `"18..20 °C"`},
		{errorOf(ParseSpan[Gravity]), "1.046..13 °P", "different scales", "one scale"},
		{errorOf(ParseEstimate), "0.94 ± -0.08", "can't be negative", ""},
	} {
		err := test.read(test.text)
		var fault *ParseError
		if !errors.As(err, &fault) {
			t.Errorf("%q: got error %v, want a ParseError", test.text, err)
			continue
		}
		if fault.Text != test.text || !strings.Contains(fault.Error(), test.msg) || !strings.Contains(fault.Hint, test.hint) {
			t.Errorf("%q:\n got %v (hint: %s)\nwant %s (hint: %s)", test.text, err, fault.Hint, test.msg, test.hint)
		}
	}
}

func errorOf[T any](parse func(string) (T, error)) func(string) error {
	return func(s string) error {
		_, err := parse(s)
		return err
	}
}
