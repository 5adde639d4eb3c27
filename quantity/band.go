// SPDX-License-Identifier: MIT

package quantity

import (
	"math"
	"strings"
)

// Decimals returns how many decimals a number may be given when it is known
// to within halfWidth: its last digit is where the first digit of halfWidth
// stands. It is 0 for a halfWidth of 1 or more.
func Decimals(halfWidth float64) int {
	if !(halfWidth > 0) || math.IsInf(halfWidth, 0) || halfWidth >= 1 {
		return 0
	}
	return min(-firstDigitPlace(halfWidth), 12)
}

// firstDigitPlace returns the power of ten of the first digit of x, which is
// taken at 12 digits so that 0.1 isn't mistaken for 0.0999….
func firstDigitPlace(x float64) int {
	return int(math.Floor(math.Log10(x) + 1e-12))
}

// NoFinerThan prints a value no finer than its standard deviation bears:
// 28.97 with an SD of 2.3 is "29". With an SD of zero or less it prints two
// decimals.
func NoFinerThan(value, sd float64) string {
	if !(sd > 0) {
		return Printer{}.Number(value, 2)
	}
	return Printer{}.Number(value, Decimals(sd))
}

// FormatBand prints a band for people: "29 IBU (26.7–31.3)". The value has no
// finer digit than the first of the half width. The ends have one more if that
// digit is 1 or 2, because rounding would move them noticeably, and if it
// isn't 0 in both.
func FormatBand(b Band, unit string) string { return Printer{}.Band(b, unit) }

// Band prints b as [FormatBand] does.
func (p Printer) Band(b Band, unit string) string { return p.band(b, unit, 2) }

// band prints b. A band without width is printed as a value with so many
// decimals.
func (p Printer) band(b Band, unit string, decimals int) string {
	half := (b.High - b.Low) / 2
	if !(half > 0) || math.IsInf(half, 0) {
		return p.with(b.Mid, decimals, unit)
	}
	decimals = Decimals(half)
	low, high := p.Number(b.Low, decimals), p.Number(b.High, decimals)
	if half/math.Pow(10, float64(firstDigitPlace(half))) < 3-1e-9 && half < 10 {
		fineLow, fineHigh := p.Number(b.Low, decimals+1), p.Number(b.High, decimals+1)
		if !strings.HasSuffix(fineLow, "0") || !strings.HasSuffix(fineHigh, "0") {
			low, high = fineLow, fineHigh
		}
	}
	return p.with(b.Mid, decimals, unit) + " (" + joinRange(low, high) + ")"
}

// joinRange writes a range with a dash, or in words when a minus sign stands
// before a number.
func joinRange(low, high string) string {
	if strings.HasPrefix(low, "−") || strings.HasPrefix(high, "−") {
		return low + " to " + high
	}
	return low + "–" + high
}
