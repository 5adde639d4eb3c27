// SPDX-License-Identifier: MIT

package blind

import (
	"math"
	"strings"

	"gyle/quantity"
)

// words prints numbers as sentences have them.
type words struct{ quantity.Printer }

// percent prints a share without decimals.
func (w words) percent(share float64) string { return w.Fraction(quantity.Fraction(share), 0) }

// percents prints a reach of shares: "9 to 70 %".
func (w words) percents(r Reach) string {
	return w.Number(100*r.Low, 0) + " to " + w.percent(r.High)
}

// p prints a probability with two figures that count: 0.0144, 0.096, 0.31.
func (w words) p(p float64) string {
	switch {
	case p < 0.0001:
		return "below " + w.Number(0.0001, 4)
	case p < 0.02:
		return w.Number(p, 4)
	case p < 0.1:
		return w.Number(p, 3)
	}
	return w.Number(p, 2)
}

// reach prints an interval of other numbers: "0.7 to 3.4", "1.2 or more".
func (w words) reach(r Reach, decimals int) string {
	if r.Open {
		return w.Number(r.Low, decimals) + " or more"
	}
	return w.Number(r.Low, decimals) + " to " + w.Number(r.High, decimals)
}

// signed prints a number with its sign.
func (w words) signed(x float64) string {
	text := w.Number(math.Abs(x), 1)
	switch {
	case strings.Trim(text, "0.,") == "":
		return text
	case x < 0:
		return "−" + text
	}
	return "+" + text
}

func reachOf(s quantity.Span[float64], level float64) Reach {
	low, high, open := s.Low, s.High, false
	if math.IsInf(high, 0) || math.IsNaN(high) {
		high, open = 0, true
	}
	if math.IsInf(low, 0) || math.IsNaN(low) {
		low = 0
	}
	return Reach{Level: level, Low: low, High: high, Open: open}
}
