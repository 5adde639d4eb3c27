// SPDX-License-Identifier: MIT

package quantity

import "testing"

func benchmark[T any](b *testing.B, parse func(string) (T, error), text string) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := parse(text); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParseVolumeAt(b *testing.B)  { benchmark(b, ParseVolumeAt, "26,4 L @ 95 °C") }
func BenchmarkParseGravity(b *testing.B)   { benchmark(b, ParseGravity, "1042.5") }
func BenchmarkParseFraction(b *testing.B)  { benchmark(b, ParseFraction, "65.3 %") }
func BenchmarkParseSpan(b *testing.B)      { benchmark(b, ParseSpan[Temperature], "18..20 °C") }
func BenchmarkParsePitchRate(b *testing.B) { benchmark(b, ParsePitchRate, "0.75 M/mL/°P") }

func BenchmarkMarshalFraction(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Percent(65.3).MarshalText(); err != nil {
			b.Fatal(err)
		}
	}
}
