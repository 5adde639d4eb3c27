// SPDX-License-Identifier: MIT

package chart

import "gyle/quantity"

// numberText prints numbers with so many decimals.
func numberText(p quantity.Printer, decimals int) func(float64) string {
	return func(x float64) string { return p.Number(x, decimals) }
}

// sgText prints specific gravities.
func sgText(p quantity.Printer) func(float64) string {
	return func(x float64) string { return p.SG(quantity.SG(x)) }
}

// spanText writes a range whose ends may be open.
func spanText(low, high float64, format func(float64) string) string {
	switch {
	case finite(low) && finite(high):
		return format(low) + "–" + format(high)
	case finite(low):
		return "from " + format(low)
	case finite(high):
		return "up to " + format(high)
	}
	return "open"
}
