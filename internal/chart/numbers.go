// SPDX-License-Identifier: MIT

package chart

import (
	"math"
	"strconv"

	"gyle/quantity"
)

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

// clock writes minutes as hours and minutes: "1:30".
func clock(minutes float64) string {
	sign := ""
	if minutes < 0 {
		sign, minutes = "−", -minutes
	}
	whole := int64(math.Round(minutes))
	rest := strconv.FormatInt(whole%60, 10)
	if len(rest) < 2 {
		rest = "0" + rest
	}
	return sign + strconv.FormatInt(whole/60, 10) + ":" + rest
}
