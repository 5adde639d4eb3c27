// SPDX-License-Identifier: MIT

package quantity

import (
	"math"
	"strconv"
	"strings"
)

// System is a system of units in which people are told measures.
type System int

// The systems. US customary units are pounds and ounces, US gallons, quarts
// and fluid ounces, degrees Fahrenheit, SRM and psi.
const (
	Metric System = iota
	USCustomary
)

// Printer prints measures for people: rounded, in the units they think in.
// (A document holds exact numbers: see the MarshalText methods.) The zero
// Printer is metric, with a decimal point.
//
// How many decimals a measure gets follows what can be weighed and read:
//
//   - mass: kg with 2 decimals from 1 kg on, whole grams from 100 g, 0.1 g below;
//     lb and 0.1 oz from 1 lb on, 0.01 oz below
//   - volume: 0.1 L from 10 L on, 0.01 L below, 0.1 mL below 0.1 L;
//     0.01 US gal, US qt below a gallon, 0.1 US fl oz below a quart, 0.1 mL below an ounce
//   - temperature: 0.1 degrees
//   - specific gravity: the third decimal, and the fourth unless it is 0
//   - extract: 0.1 °P
type Printer struct {
	System       System
	DecimalComma bool
}

// Number prints x with so many decimals, a real minus sign, and no minus
// before zero.
func (p Printer) Number(x float64, decimals int) string {
	text := strconv.FormatFloat(x, 'f', max(decimals, 0), 64)
	if strings.HasPrefix(text, "-") {
		text = text[1:]
		if strings.Trim(text, "0.") != "" {
			text = "−" + text
		}
	}
	if p.DecimalComma {
		text = strings.Replace(text, ".", ",", 1)
	}
	return text
}

// Signed prints a difference with its sign, and none for nothing.
func (p Printer) Signed(x float64, decimals int) string {
	text := p.Number(x, decimals)
	if x > 0 && text != p.Number(0, decimals) {
		return "+" + text
	}
	return text
}

// with prints a number with its unit.
func (p Printer) with(x float64, decimals int, unit string) string {
	return joinUnit(p.Number(x, decimals), unit)
}

func joinUnit(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}

// american reports whether US customary units are wanted.
func (p Printer) american() bool { return p.System == USCustomary }

// atLeast reports whether x is at least limit once it is rounded to decimals.
func atLeast(x, limit float64, decimals int) bool {
	power := math.Pow(10, float64(decimals))
	return math.Round(math.Abs(x)*power) >= limit*power
}

// Mass prints m: "4.95 kg", "35.0 g"; "10 lb 14.6 oz", "1.23 oz".
func (p Printer) Mass(m Mass) string {
	if p.american() {
		return p.poundsAndOunces(m)
	}
	switch grams := m.Grams(); {
	case atLeast(grams, 1000, 0):
		return p.with(m.Kilograms(), 2, "kg")
	case atLeast(grams, 100, 1):
		return p.with(grams, 0, "g")
	default:
		return p.with(grams, 1, "g")
	}
}

func (p Printer) poundsAndOunces(m Mass) string {
	if !atLeast(m.Ounces(), 16, 2) {
		return p.with(m.Ounces(), 2, "oz")
	}
	sign := 1.0
	if m < 0 {
		sign = -1
	}
	tenths := math.Round(math.Abs(m.Ounces()) * 10)
	pounds := math.Floor(tenths / 160)
	return p.with(sign*pounds, 0, "lb") + " " + p.with((tenths-160*pounds)/10, 1, "oz")
}

// Volume prints v: "22.0 L", "3.3 mL"; "5.81 US gal".
func (p Printer) Volume(v Volume) string {
	if p.american() {
		return p.americanVolume(v)
	}
	switch litres := v.Litres(); {
	case atLeast(litres, 10, 2):
		return p.with(litres, 1, "L")
	case atLeast(litres, 0.1, 4) || v == 0:
		return p.with(litres, 2, "L")
	default:
		return p.with(v.Millilitres(), 1, "mL")
	}
}

func (p Printer) americanVolume(v Volume) string {
	switch gallons := v.USGallons(); {
	case atLeast(gallons, 1, 2) || v == 0:
		return p.with(gallons, 2, "US gal")
	case atLeast(gallons*4, 1, 2):
		return p.with(gallons*4, 2, "US qt")
	case atLeast(gallons*128, 1, 1):
		return p.with(gallons*128, 1, "US fl oz")
	default:
		return p.with(v.Millilitres(), 1, "mL")
	}
}

// VolumeAt prints a volume as it was read: "26.4 L at 95.0 °C".
func (p Printer) VolumeAt(v VolumeAt) string {
	if v.At.IsZero() {
		return p.Volume(v.Volume)
	}
	return p.Volume(v.Volume) + " at " + p.Temperature(v.At)
}

// Temperature prints t: "67.0 °C", "152.6 °F".
func (p Printer) Temperature(t Temperature) string {
	if p.american() {
		return p.with(t.Fahrenheit(), 1, "°F")
	}
	return p.with(t.Celsius(), 1, "°C")
}

// Warming prints a difference of temperatures: "1.3 K", "2.3 °F".
func (p Printer) Warming(d Warming) string {
	if p.american() {
		return p.with(float64(d)*1.8, 1, "°F")
	}
	return p.with(float64(d), 1, "K")
}

// Duration prints d: "46 s", "75 min", "5 h 30 min", "3 d 4 h".
func (p Printer) Duration(d Duration) string {
	sign, d := 1.0, d
	if d < 0 {
		sign, d = -1, -d
	}
	switch {
	case d != 0 && !atLeast(d.Seconds(), 120, 0):
		return p.with(sign*d.Seconds(), 0, "s")
	case !atLeast(d.Minutes(), 180, 0):
		return p.with(sign*d.Minutes(), 0, "min")
	case !atLeast(d.Minutes(), 48*60, 0):
		return p.twoParts(sign, math.Round(d.Minutes()), 60, "h", "min")
	}
	return p.twoParts(sign, math.Round(d.Hours()), 24, "d", "h")
}

// twoParts prints a whole number of small units in large and small ones.
func (p Printer) twoParts(sign, small, size float64, largeUnit, smallUnit string) string {
	large := math.Floor(small / size)
	text := p.with(sign*large, 0, largeUnit)
	if rest := small - size*large; rest > 0 {
		text += " " + p.with(rest, 0, smallUnit)
	}
	return text
}

// Length prints l, whole metres or feet: it is used for altitudes.
func (p Printer) Length(l Length) string {
	if p.american() {
		return p.with(float64(l)/0.3048, 0, "ft")
	}
	return p.with(float64(l), 0, "m")
}
