// SPDX-License-Identifier: MIT

package gyle_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gyle/gyle"
	"gyle/quantity"
)

// What people type at the kettle, and what is understood. The conversions are
// definitions.
func TestReadingsAsSpoken(t *testing.T) {
	for _, test := range []struct {
		text   string
		asked  gyle.Of
		of     gyle.Of
		value  float64
		unit   string
		sample float64 // °C; 0: none
		echo   string
	}{
		{"26,4 @95", "", gyle.OfVolume, 26.4, "L", 95, "26.4 L at 95 °C"},
		{"26.4 L at 95 °C", "", gyle.OfVolume, 26.4, "L", 95, "26.4 L at 95 °C"},
		{"26.4 @203F", gyle.OfVolume, gyle.OfVolume, 26.4, "L", 95, "26.4 L at 95 °C"},
		{"20.1", gyle.OfVolume, gyle.OfVolume, 20.1, "L", 0, "20.1 L"},
		{"1042.5", "", gyle.OfGravity, 1.0425, "SG", 0, "1.0425"},
		{"1.0425 @24", "", gyle.OfGravity, 1.0425, "SG", 24, "1.0425 at 24 °C"},
		{"1,0425", "", gyle.OfGravity, 1.0425, "SG", 0, "1.0425"},
		{"0.998", "", gyle.OfGravity, 0.998, "SG", 0, "0.998"},
		{"10.6P", "", gyle.OfGravity, 10.6, "°P", 0, "10.6 °P"},
		{"12.4 Bx", "", gyle.OfRefractometer, 12.4, "°Bx", 0, "12.4 °Bx"},
		{"8.7", gyle.OfRefractometer, gyle.OfRefractometer, 8.7, "°Bx", 0, "8.7 °Bx"},
		{"5,46", gyle.OfPH, gyle.OfPH, 5.46, "pH", 0, "pH 5.46"},
		{"pH 5.46", "", gyle.OfPH, 5.46, "pH", 0, "pH 5.46"},
		{"5.21 @65", gyle.OfPH, gyle.OfPH, 5.21, "pH", 65, "pH 5.21 at 65 °C"},
		{"65.7C", "", gyle.OfTemperature, 65.7, "°C", 0, "65.7 °C"},
		{"65,7", gyle.OfTemperature, gyle.OfTemperature, 65.7, "°C", 0, "65.7 °C"},
		{"150 F", "", gyle.OfTemperature, 65.5556, "°C", 0, "65.6 °C"},
		{"2.63 kg/h", "", gyle.OfEvaporation, 2.63, "kg/h", 0, "2.63 kg/h"},
		{"0.8 bar", "", gyle.OfPressure, 0.8, "bar", 0, "0.8 bar"},
		{"35 g", "", gyle.OfMass, 0.035, "kg", 0, "35 g"},
		{"4 h 10 min", gyle.OfTime, gyle.OfTime, 250, "min", 0, "4 h 10 min"},
		{"29 IBU", gyle.OfBitterness, gyle.OfBitterness, 29, "IBU", 0, "29 IBU"},
	} {
		m, err := gyle.ParseReading(test.text, test.asked)
		if err != nil {
			t.Errorf("%q (%s): %v", test.text, test.asked, err)
			continue
		}
		sample := 0.0
		if !m.Sample.IsZero() {
			sample = m.Sample.Celsius()
		}
		if m.Of != test.of || math.Abs(m.Value-test.value) > 1e-4 || m.Unit != test.unit || math.Abs(sample-test.sample) > 1e-9 || m.Echo != test.echo {
			t.Errorf("%q (%s) is read as %+v", test.text, test.asked, m)
		}
	}
}

// What could mean several things, or nothing that can be, is refused with what
// to write instead.
func TestReadingsRefused(t *testing.T) {
	for _, test := range []struct {
		text  string
		asked gyle.Of
		hint  string // part of it
	}{
		{"5,46", "", "pH 5.46"},
		{"12.4", "", "12.4 °P, 12.4 °Bx"},
		{"65.7", "", "65.7 °C"},
		{"1.05", "", `"1.050" or "1.05 L"`},
		{"5 gal", "", "gal"},
		{"5 gal", gyle.OfVolume, "gal"},
		{"12.4", gyle.OfGravity, ""},
		{"1.425", gyle.OfGravity, "1.425 °P"},
		{"1.425 °P", gyle.OfPH, ""},
		{"1300", gyle.OfGravity, ""},
		{"60 °P", "", "decimal mark"},
		{"54.6", gyle.OfPH, ""},
		{"152", gyle.OfTemperature, "152 °F"},
		{"26.4 @ hot", "", "@ 95 °C"},
		{"26.4 @ 203", "", "@ 203 °F"},
		{"", "", ""},
		{"about ten", gyle.OfVolume, ""},
		{"3 L", "wetness", "volume or gravity"},
	} {
		m, err := gyle.ParseReading(test.text, test.asked)
		if err == nil {
			t.Errorf("%q (%s) is read as %+v", test.text, test.asked, m)
			continue
		}
		var fault *quantity.ParseError
		if !errors.As(err, &fault) || !strings.Contains(fault.Hint+fault.Msg, test.hint) {
			t.Errorf("%q (%s): %v, hint %q; it should say %q", test.text, test.asked, err, fault.Hint, test.hint)
		}
	}
}

// A reading has its measure in the type that belongs to it.
func TestMeasuredAs(t *testing.T) {
	volume, err := gyle.Reading{Of: gyle.OfVolume, Value: "26,4", Sample: quantity.Celsius(95)}.Measured()
	if err != nil || volume.Volume() != (quantity.VolumeAt{Volume: 26.4, At: quantity.Celsius(95)}) {
		t.Errorf("%+v (%v)", volume, err)
	}
	for text, want := range map[string]quantity.Gravity{"1042.5": quantity.GravitySG(1.0425), "10.6P": quantity.GravityPlato(10.6)} {
		if m, err := (gyle.Reading{Of: gyle.OfGravity, Value: text}).Measured(); err != nil || m.Gravity() != want {
			t.Errorf("%s: %+v (%v)", text, m, err)
		}
	}
	if m, err := (gyle.Reading{Of: gyle.OfTemperature, Value: "65.7C"}).Measured(); err != nil || math.Abs(m.Temperature().Celsius()-65.7) > 1e-9 {
		t.Errorf("%+v (%v)", m, err)
	}
}

// The error of an instrument is read in the unit of what it measures.
func TestSpread(t *testing.T) {
	for _, test := range []struct {
		of   gyle.Of
		sd   string
		want float64
	}{
		{gyle.OfGravity, "0.0005", 0.0005},
		{gyle.OfGravity, "0.1 °P", 0.1},
		{gyle.OfVolume, "200 mL", 0.2},
		{gyle.OfTemperature, "0.3 K", 0.3},
		{gyle.OfPH, "0.03", 0.03},
		{gyle.OfRefractometer, "0.1", 0.1},
		{gyle.OfMass, "5 g", 0.005},
		{gyle.OfVolume, "", 0},
	} {
		got, err := gyle.Instrument{Name: "x", Of: test.of, SD: test.sd}.Spread()
		if err != nil || math.Abs(got-test.want) > 1e-12 {
			t.Errorf("%s of %s: %v (%v)", test.sd, test.of, got, err)
		}
	}
	if _, err := (gyle.Instrument{Of: gyle.OfVolume, SD: "0 L"}).Spread(); err == nil {
		t.Error("an instrument without error")
	}
}
