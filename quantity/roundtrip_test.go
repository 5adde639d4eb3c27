// SPDX-License-Identifier: MIT

package quantity

import (
	"encoding"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// finite draws numbers of any size, among them short decimals as people type
// them.
func finite() *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.Float64Range(-math.MaxFloat64/1e4, math.MaxFloat64/1e4),
		rapid.Float64Range(0, 2),
		rapid.Float64Range(-50, 2000),
		rapid.Map(rapid.IntRange(-2_000_000, 2_000_000), func(n int) float64 { return float64(n) / 1000 }),
	)
}

// backAgain checks that the text of any value is read back to the last bit,
// and that the text of what was read is the same text.
func backAgain[T encoding.TextMarshaler](draw *rapid.Generator[T], parse func(string) (T, error)) func(*testing.T) {
	return rapid.MakeCheck(func(t *rapid.T) {
		want := draw.Draw(t, "value")
		text, err := want.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		got, err := parse(string(text))
		if err != nil {
			t.Fatal(err)
		}
		if !sameBits(got, want) {
			t.Fatalf("%#v is written %q and read as %#v", want, text, got)
		}
		if again, _ := got.MarshalText(); string(again) != string(text) {
			t.Fatalf("%q is read and written as %q", text, again)
		}
	})
}

// sameBits compares the numbers in two values bit by bit.
func sameBits(a, b any) bool {
	return sameValueBits(reflect.ValueOf(a), reflect.ValueOf(b))
}

func sameValueBits(a, b reflect.Value) bool {
	switch a.Kind() {
	case reflect.Float64:
		return same(a.Float(), b.Float())
	case reflect.Struct:
		for i := range a.NumField() {
			if !sameValueBits(a.Field(i), b.Field(i)) {
				return false
			}
		}
		return true
	}
	return a.Int() == b.Int()
}

// measure draws values of a type that is a number.
func measure[T ~float64]() *rapid.Generator[T] {
	return rapid.Map(finite(), func(x float64) T { return T(x) })
}

func temperatures() *rapid.Generator[Temperature] {
	return rapid.OneOf(rapid.Map(finite(), Celsius), rapid.Map(finite(), Kelvin), rapid.Map(rapid.Float64Range(-30, 300), Fahrenheit))
}

func gravities() *rapid.Generator[Gravity] {
	return rapid.Custom(func(t *rapid.T) Gravity {
		scale := GravityScale(rapid.IntRange(0, 1).Draw(t, "scale"))
		return Gravity{rapid.OneOf(rapid.Float64Range(0.98, 1.2), finite()).Draw(t, "value"), scale}
	})
}

func colors() *rapid.Generator[Color] {
	return rapid.Custom(func(t *rapid.T) Color {
		return Color{finite().Draw(t, "value"), ColorScale(rapid.IntRange(0, 2).Draw(t, "scale"))}
	})
}

func TestReadBackToTheLastBit(t *testing.T) {
	t.Run("Temperature", backAgain(temperatures(), ParseTemperature))
	t.Run("Warming", backAgain(measure[Warming](), ParseWarming))
	t.Run("Mass", backAgain(measure[Mass](), ParseMass))
	t.Run("Volume", backAgain(measure[Volume](), ParseVolume))
	t.Run("Duration", backAgain(measure[Duration](), ParseDuration))
	t.Run("Length", backAgain(measure[Length](), ParseLength))
	t.Run("Rate", backAgain(measure[Rate](), ParseRate))
	t.Run("Fraction", backAgain(measure[Fraction](), ParseFraction))
	t.Run("SG", backAgain(measure[SG](), ParseSG))
	t.Run("Plato", backAgain(measure[Plato](), ParsePlato))
	t.Run("Brix", backAgain(measure[Brix](), ParseBrix))
	t.Run("Gravity", backAgain(gravities(), ParseGravity))
	t.Run("Color", backAgain(colors(), ParseColor))
	t.Run("EBC", backAgain(measure[EBC](), ParseEBC))
	t.Run("IBU", backAgain(measure[IBU](), ParseIBU))
	t.Run("Carbonation", backAgain(measure[Carbonation](), ParseCarbonation))
	t.Run("Concentration", backAgain(measure[Concentration](), ParseConcentration))
	t.Run("Charge", backAgain(measure[Charge](), ParseCharge))
	t.Run("PH", backAgain(measure[PH](), ParsePH))
	t.Run("Dose", backAgain(measure[Dose](), ParseDose))
	t.Run("Ratio", backAgain(measure[Ratio](), ParseRatio))
	t.Run("OilContent", backAgain(measure[OilContent](), ParseOilContent))
	t.Run("PitchRate", backAgain(measure[PitchRate](), ParsePitchRate))
	t.Run("Pressure", backAgain(measure[Pressure](), ParsePressure))
	t.Run("GaugePressure", backAgain(measure[GaugePressure](), ParseGaugePressure))
	t.Run("Power", backAgain(measure[Power](), ParsePower))
	t.Run("HeatCapacity", backAgain(measure[HeatCapacity](), ParseHeatCapacity))
	t.Run("MassFlow", backAgain(measure[MassFlow](), ParseMassFlow))
	t.Run("VolumeAt", backAgain(rapid.Custom(func(t *rapid.T) VolumeAt {
		v := VolumeAt{measure[Volume]().Draw(t, "volume"), temperatures().Draw(t, "at")}
		if v.At.IsZero() {
			v.At = Temperature{} // not minus zero: both mean that none was given
		}
		return v
	}), ParseVolumeAt))
	t.Run("Estimate", backAgain(rapid.Custom(func(t *rapid.T) Estimate {
		return Estimate{finite().Draw(t, "value"), rapid.Float64Range(0, 1e6).Draw(t, "sd")}
	}), ParseEstimate))
	t.Run("FractionEstimate", backAgain(rapid.Custom(func(t *rapid.T) FractionEstimate {
		return FractionEstimate{measure[Fraction]().Draw(t, "value"), Fraction(rapid.Float64Range(0, 1).Draw(t, "sd"))}
	}), ParseFractionEstimate))
}

// spans draws ranges of a measure, some of them open.
func spans[T any](draw *rapid.Generator[T]) *rapid.Generator[Span[T]] {
	return rapid.Custom(func(t *rapid.T) Span[T] {
		k := kindOf[T]()
		s := Span[T]{draw.Draw(t, "low"), draw.Draw(t, "high")}
		if !oneScale(s.Low, s.High) {
			s.High = s.Low
		}
		if k.position(s.Low) > k.position(s.High) {
			s.Low, s.High = s.High, s.Low
		}
		switch rapid.IntRange(0, 5).Draw(t, "open") {
		case 0:
			s.Low = k.open(s.High, math.Inf(-1))
		case 1:
			s.High = k.open(s.Low, math.Inf(1))
		}
		return s
	})
}

func TestRangesReadBack(t *testing.T) {
	t.Run("Temperature", backAgain(spans(temperatures()), ParseSpan[Temperature]))
	t.Run("Gravity", backAgain(spans(gravities()), ParseSpan[Gravity]))
	t.Run("SG", backAgain(spans(measure[SG]()), ParseSpan[SG]))
	t.Run("Color", backAgain(spans(colors()), ParseSpan[Color]))
	t.Run("Fraction", backAgain(spans(measure[Fraction]()), ParseSpan[Fraction]))
	t.Run("Mass", backAgain(spans(measure[Mass]()), ParseSpan[Mass]))
	t.Run("Volume", backAgain(spans(measure[Volume]()), ParseSpan[Volume]))
	t.Run("Duration", backAgain(spans(measure[Duration]()), ParseSpan[Duration]))
	t.Run("OilContent", backAgain(spans(measure[OilContent]()), ParseSpan[OilContent]))
	t.Run("PH", backAgain(spans(measure[PH]()), ParseSpan[PH]))
	t.Run("Pressure", backAgain(spans(measure[Pressure]()), ParseSpan[Pressure]))
	t.Run("float64", backAgain(spans(finite()), ParseSpan[float64]))
}

// What a brewer writes in percent, grams and degrees Celsius comes back as it
// was written.
func TestShortNumbersStayShort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := float64(rapid.IntRange(0, 100_000).Draw(t, "hundredths")) / 100
		for text, want := range map[string]string{
			Percent(n).String(): decimal(n) + " %",
			Celsius(n).String(): decimal(n) + " °C",
			Volume(n).String():  volumeText(Volume(n)),
		} {
			if text != want {
				t.Fatalf("got %q, want %q", text, want)
			}
		}
		if n > 0 && n < 1000 && Grams(n).String() != decimal(n)+" g" {
			t.Fatalf("got %q, want %s g", Grams(n), decimal(n))
		}
	})
}

func TestCanonicalText(t *testing.T) {
	for _, test := range []struct {
		value encoding.TextMarshaler
		want  string
	}{
		{Volume(22), "22 L"}, {Millilitres(3.3), "3.3 mL"}, {SG(1.05), "1.050"}, {SG(1.0425), "1.0425"}, {SG(1), "1.000"},
		{Plato(12.4), "12.4 °P"}, {Percent(3.7), "3.7 %"}, {Duration(75), "75 min"}, {Days(3), "3 d"}, {Hours(36), "36 h"},
		{Hours(2), "120 min"}, {Seconds(46), "46 s"}, {Seconds(100), "100 s"}, {Seconds(90), "1.5 min"}, {Dose(1.4), "1.4 g/L"},
		{Celsius(67), "67 °C"}, {Celsius(-18), "-18 °C"}, {Mass(4.95), "4.95 kg"}, {Grams(37.5), "37.5 g"},
		{Gravity{12.4, ScalePlato}, "12.4 °P"}, {GravitySG(1.05), "1.050"}, {Color{60, ScaleLovibond}, "60 °L"},
		{VolumeAt{26.4, Celsius(95)}, "26.4 L @ 95 °C"}, {VolumeAt{Volume: 22}, "22 L"},
		{Estimate{0.94, 0.08}, "0.94 ± 0.08"}, {FractionEstimate{Percent(76), Percent(2)}, "76 ± 2 %"},
		{Span[Fraction]{Percent(73), Percent(76)}, "73..76 %"}, {Span[Temperature]{Celsius(18), Celsius(20)}, "18..20 °C"},
		{Span[SG]{1.046, 1.054}, "1.046..1.054"}, {Span[IBU]{IBU(math.Inf(-1)), 34}, "..34 IBU"},
		{Span[Fraction]{Percent(70), Fraction(math.Inf(1))}, "70 %.."}, {Exactly(PH(5.45)), "5.45"},
		{Span[Mass]{Grams(500), 2}, "500 g..2 kg"}, {Span[Gravity]{Gravity{10.6, ScalePlato}, Gravity{12.4, ScalePlato}}, "10.6..12.4 °P"},
	} {
		if text, err := test.value.MarshalText(); err != nil || string(text) != test.want {
			t.Errorf("got %q, %v; want %q", text, err, test.want)
		}
	}
}

func TestNotANumberIsNotWritten(t *testing.T) {
	for _, value := range []encoding.TextMarshaler{
		Volume(math.NaN()), SG(math.Inf(1)), Kelvin(math.NaN()), Span[IBU]{34, 24}, Span[IBU]{24, IBU(math.NaN())}, Estimate{1, -1},
	} {
		if text, err := value.MarshalText(); err == nil || !strings.HasPrefix(err.Error(), "write ") {
			t.Errorf("wrote %q, error %v", text, err)
		}
	}
}

func TestRangeAsWritten(t *testing.T) {
	want := Span[Temperature]{Celsius(18), Celsius(20)}
	for _, text := range []string{"18..20 °C", "18 .. 20 °C", "18 °C..20 °C", "18–20 °C", "18 to 20 °C", "18-20 °C", "18 - 20C", "64.4..68 °F"} {
		got, err := ParseSpan[Temperature](text)
		if err != nil || math.Abs(float64(got.Low.Sub(want.Low))) > 1e-9 || math.Abs(float64(got.High.Sub(want.High))) > 1e-9 {
			t.Errorf("%q is read as %v, %v", text, got, err)
		}
	}
	cold, err := ParseSpan[Temperature]("-2..-1 °C")
	if err != nil || cold != (Span[Temperature]{Celsius(-2), Celsius(-1)}) {
		t.Errorf("got %v, %v", cold, err)
	}
	if small, err := ParseSpan[Dose]("1e-5 g/L"); err != nil || small != Exactly(Dose(1e-5)) {
		t.Errorf("got %v, %v", small, err)
	}
}

func TestRangeHas(t *testing.T) {
	ferment, err := ParseSpan[Temperature]("18..20 °C")
	if err != nil {
		t.Fatal(err)
	}
	atMost, err := ParseSpan[IBU]("..34 IBU")
	if err != nil {
		t.Fatal(err)
	}
	anyPlato := Span[Gravity]{GravityPlato(10), GravityPlato(12)}
	for name, holds := range map[string]bool{
		"low end belongs":         ferment.Has(Celsius(18)),
		"high end belongs":        ferment.Has(Celsius(20)),
		"21 °C doesn't":           !ferment.Has(Celsius(21)),
		"not a number doesn't":    !ferment.Has(Kelvin(math.NaN())),
		"no bitterness belongs":   atMost.Has(0),
		"35 IBU doesn't":          !atMost.Has(35),
		"low end is open":         !atMost.HasLow() && atMost.HasHigh(),
		"SG isn't in °P":          !anyPlato.Has(GravitySG(1.045)),
		"°P is in °P":             anyPlato.Has(GravityPlato(11)),
		"colours compare as EBC":  Span[Color]{Color{28, ScaleEBC}, Color{44, ScaleEBC}}.Has(Color{17.8, ScaleSRM}),
		"plain numbers have ends": Span[float64]{0.5, 0.68}.Has(0.58),
	} {
		if !holds {
			t.Error(name)
		}
	}
}
