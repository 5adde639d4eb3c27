// SPDX-License-Identifier: MIT

package chart

import (
	"math"

	"gyle/quantity"
)

// scale maps values from low to high onto the drawing, from one coordinate to
// another. Values beyond its ends are put at the ends.
type scale struct{ low, high, from, to float64 }

func (s scale) at(value float64) float64 {
	if !(s.high > s.low) {
		return s.from
	}
	share := (value - s.low) / (s.high - s.low)
	return s.from + (s.to-s.from)*min(max(share, 0), 1)
}

// extent gathers the ends of the data.
type extent struct {
	low, high float64
	any       bool
}

func (e *extent) add(values ...float64) {
	for _, v := range values {
		if !finite(v) {
			continue
		}
		if !e.any {
			e.low, e.high, e.any = v, v, true
		}
		e.low, e.high = min(e.low, v), max(e.high, v)
	}
}

// padded widens the extent by a share of its width, and to a least width.
func (e extent) padded(share, least float64) (low, high float64) {
	width := max(e.high-e.low, least)
	middle := (e.low + e.high) / 2
	half := width * (0.5 + share)
	return middle - half, middle + half
}

// tickStep returns the step of 1, 2 or 5 times a power of ten that makes about
// count steps.
func tickStep(low, high float64, count int) float64 {
	raw := (high - low) / float64(max(count, 1))
	if !(raw > 0) || !finite(raw) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, step := range []float64{1, 2, 5} {
		if step*power >= raw*0.999 {
			return step * power
		}
	}
	return 10 * power
}

// ticks returns the round numbers from low to high and their decimals.
func ticks(low, high float64, count int) (values []float64, decimals int) {
	step := tickStep(low, high, count)
	decimals = max(0, int(-math.Floor(math.Log10(step)+1e-9)))
	for n := math.Ceil(low/step - 1e-9); n*step <= high+step*1e-9 && len(values) < 100; n++ {
		values = append(values, n*step)
	}
	return values, decimals
}

// degrees is a temperature on the reader's scale, and its unit.
func degrees(p quantity.Printer, t quantity.Temperature) (float64, string) {
	if p.System == quantity.USCustomary {
		return t.Fahrenheit(), "°F"
	}
	return t.Celsius(), "°C"
}
