// SPDX-License-Identifier: MIT

package quantity

import (
	"math"
	"strconv"
	"strings"
)

// decimal writes the shortest decimal that reads back as x.
func decimal(x float64) string {
	if a := math.Abs(x); a != 0 && (a < 1e-6 || a >= 1e15) {
		return strconv.FormatFloat(x, 'e', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// inUnit returns a text that reads back, through make, as exactly the wanted
// value, and whether there is one of 15 significant digits or fewer. Guess is
// the value in the other unit, as well as arithmetic could tell.
func inUnit(want, guess float64, make func(float64) float64) (text string, found bool) {
	return inUnitDigits(want, guess, 15, make)
}

func inUnitDigits(want, guess float64, most int, make func(float64) float64) (text string, found bool) {
	for digits := 0; digits < most; digits++ {
		x, err := strconv.ParseFloat(strconv.FormatFloat(guess, 'e', digits, 64), 64)
		if err == nil && same(make(x), want) {
			return decimal(x), true
		}
	}
	return "", false
}

// same reports whether a and b are the same number to the last bit.
func same(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }

// plain writes a measure in the unit in which it is kept.
func plain[T ~float64](unit string) func(T) string {
	return func(value T) string { return decimal(float64(value)) + unit }
}

// percentText writes a share in percent. Where no short number of percent
// divided by 100 gives the share, it writes 17 digits, which are read as
// decimals; see [percentOf].
func percentText(f float64) string {
	if text, found := inUnit(f, f*100, func(p float64) float64 { return p / 100 }); found {
		return text + " %"
	}
	digits := strconv.FormatFloat(f, 'e', 16, 64)
	mantissa, exponent, _ := strings.Cut(digits, "e")
	e, _ := strconv.Atoi(exponent)
	return layOut(mantissa, e+2) + " %"
}

// layOut writes a mantissa d.ddd times a power of ten, without the power
// where that takes few zeros.
func layOut(mantissa string, exponent int) string {
	sign := ""
	if strings.HasPrefix(mantissa, "-") {
		sign, mantissa = "-", mantissa[1:]
	}
	digits := strings.Replace(mantissa, ".", "", 1)
	switch {
	case exponent < -6 || exponent > 14:
		return sign + mantissa + "e" + strconv.Itoa(exponent)
	case exponent < 0:
		return sign + "0." + strings.Repeat("0", -exponent-1) + digits
	}
	return sign + digits[:exponent+1] + "." + digits[exponent+1:]
}

// percentOf reads a number of percent. Up to 15 digits it gives what [Percent]
// gives; longer numbers are taken at their decimal value, because some shares
// are not the hundredth part of any binary number.
func percentOf(n number) Fraction {
	if n.digits > 15 {
		return Fraction(n.shifted(-2))
	}
	return Percent(n.value)
}

// sgText writes a specific gravity with three decimals at least.
func sgText(s float64) string {
	text := decimal(s)
	if strings.Contains(text, "e") {
		return text + " SG"
	}
	whole, decimals, _ := strings.Cut(text, ".")
	for len(decimals) < 3 {
		decimals += "0"
	}
	text = whole + "." + decimals
	if !plausibleSG(s) {
		return text + " SG"
	}
	return text
}

// plausibleSG reports whether s can be taken for a specific gravity when no
// unit says so.
func plausibleSG(s float64) bool { return s >= 0.9 && s <= 1.3 }

// celsiusText writes a temperature in °C, or in K where no short number of
// degrees Celsius gives it exactly.
func celsiusText(t Temperature) string {
	text, found := inUnitDigits(t.kelvin, t.Celsius(), 17, func(c float64) float64 { return Celsius(c).kelvin })
	if !found {
		return decimal(t.kelvin) + " K"
	}
	return text + " °C"
}

// massText writes a mass in kg, or in g below 1 kg.
func massText(m Mass) string {
	if math.Abs(float64(m)) < 1 && m != 0 {
		if text, found := inUnit(float64(m), m.Grams(), func(g float64) float64 { return float64(Grams(g)) }); found {
			return text + " g"
		}
	}
	return decimal(float64(m)) + " kg"
}

// volumeText writes a volume in L, or in mL below 0.1 L.
func volumeText(v Volume) string {
	if math.Abs(float64(v)) < 0.1 && v != 0 {
		if text, found := inUnit(float64(v), v.Millilitres(), func(ml float64) float64 { return float64(Millilitres(ml)) }); found {
			return text + " mL"
		}
	}
	return decimal(float64(v)) + " L"
}

// durationText writes whole days and hours from one day on, whole seconds
// where minutes have long decimals, and minutes otherwise.
func durationText(d Duration) string {
	if long := math.Abs(float64(d)) >= 24*60; long {
		if days := math.Round(d.Days()); Days(days) == d {
			return decimal(days) + " d"
		}
		if hours := math.Round(d.Hours()); Hours(hours) == d {
			return decimal(hours) + " h"
		}
	}
	minutes := decimal(float64(d))
	_, decimals, _ := strings.Cut(minutes, ".")
	seconds := math.Round(d.Seconds())
	if whole := Seconds(seconds) == d && d != 0; whole && (math.Abs(float64(d)) < 1 || len(decimals) > 2) {
		return decimal(seconds) + " s"
	}
	return minutes + " min"
}
