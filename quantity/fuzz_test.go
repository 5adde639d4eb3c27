// SPDX-License-Identifier: MIT

package quantity

import (
	"encoding"
	"errors"
	"testing"
)

// written are texts of all kinds, to begin fuzzing with.
var written = []string{
	"26,4 L @ 95 °C", "26.4 @95", "1042.5", "1,050", "12.4 °P", "5 US gal", "5 gal", "0.75 × 10⁶/mL/°P", "35 EBC", "60 °L", "10 L",
	"3.7 %", "3.70000000000000001 %", "1 h 15 min", "1 lb 4 oz", "4 g/hL", "2.4 vol", "12 psi", "1.2 mL/100 g", "73..76 %", "..34 IBU",
	"70 %..", "1.046–1.054", "500 g..2 kg", "0.94 ± 0.08", "76 +- 2 %", "-0", "−18 °C", "1\u202f250 mL", "1,250 kg", "1e308 hL", "..", "1..2..3", "1e5 min",
}

// fuzz checks that a text is refused with a ParseError or read as a value
// whose text is read as the same value.
func fuzz[T encoding.TextMarshaler](f *testing.F, parse func(string) (T, error)) {
	for _, text := range written {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		value, err := parse(text)
		if err != nil {
			var fault *ParseError
			if !errors.As(err, &fault) || fault.Text != text || fault.What == "" || fault.Msg == "" {
				t.Fatalf("%q: error %#v", text, err)
			}
			return
		}
		canonical, err := value.MarshalText()
		if err != nil {
			t.Fatalf("%q is read as %#v, which can't be written: %v", text, value, err)
		}
		again, err := parse(string(canonical))
		if err != nil || !sameBits(again, value) {
			t.Fatalf("%q is read as %#v, written %q and read as %#v, %v", text, value, canonical, again, err)
		}
	})
}

func FuzzParseVolumeAt(f *testing.F)         { fuzz(f, ParseVolumeAt) }
func FuzzParseMass(f *testing.F)             { fuzz(f, ParseMass) }
func FuzzParseGravity(f *testing.F)          { fuzz(f, ParseGravity) }
func FuzzParseColor(f *testing.F)            { fuzz(f, ParseColor) }
func FuzzParseFraction(f *testing.F)         { fuzz(f, ParseFraction) }
func FuzzParseDuration(f *testing.F)         { fuzz(f, ParseDuration) }
func FuzzParsePitchRate(f *testing.F)        { fuzz(f, ParsePitchRate) }
func FuzzParseFractionEstimate(f *testing.F) { fuzz(f, ParseFractionEstimate) }
func FuzzParseSpanTemperature(f *testing.F)  { fuzz(f, ParseSpan[Temperature]) }
func FuzzParseSpanGravity(f *testing.F)      { fuzz(f, ParseSpan[Gravity]) }
func FuzzParseSpanDuration(f *testing.F)     { fuzz(f, ParseSpan[Duration]) }
func FuzzParseSpanOilContent(f *testing.F)   { fuzz(f, ParseSpan[OilContent]) }
