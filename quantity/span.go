// SPDX-License-Identifier: MIT

package quantity

import (
	"fmt"
	"math"
	"strings"
)

// A span with an open end has an infinite number there: "..34 IBU" has a Low
// of minus infinity, "70 %.." a High of plus infinity.

// numbers is the kind of ranges of bare numbers, Span[float64].
var numbers = newKind(kind[float64]{
	what:     "a number",
	bare:     func(n number) (float64, *trouble) { return n.value, nil },
	text:     decimal,
	position: func(x float64) float64 { return x },
	open:     func(_ float64, infinity float64) float64 { return infinity },
})

// kindOf returns the kind of T. It panics when T is no measure, which is a
// fault of the program.
func kindOf[T any]() *kind[T] {
	var none T
	if m, ok := any(none).(measured[T]); ok {
		return m.kind()
	}
	if k, ok := any(numbers).(*kind[T]); ok {
		return k
	}
	panic(fmt.Sprintf("quantity: a range of %T can't be read, written or ordered", none))
}

// Exactly returns the range that holds x alone.
func Exactly[T any](x T) Span[T] { return Span[T]{x, x} }

// Has reports whether x lies in s, both ends included. Gravities on different
// scales have to be converted first: a specific gravity lies in no range of
// degrees Plato. An x that is not a number lies in no range.
func (s Span[T]) Has(x T) bool {
	k := kindOf[T]()
	if !oneScale(s.Low, x) || !oneScale(s.High, x) {
		return false
	}
	p := k.position(x)
	return k.position(s.Low) <= p && p <= k.position(s.High)
}

// HasLow reports whether s is bounded below.
func (s Span[T]) HasLow() bool { return !math.IsInf(kindOf[T]().position(s.Low), -1) }

// HasHigh reports whether s is bounded above.
func (s Span[T]) HasHigh() bool { return !math.IsInf(kindOf[T]().position(s.High), 1) }

// oneScale reports whether two measures are on one scale.
func oneScale[T any](a, b T) bool {
	g, isGravity := any(a).(Gravity)
	if !isGravity {
		return true
	}
	return g.Scale == any(b).(Gravity).Scale
}

// ParseSpan reads a range "low..high", for example "18..20 °C". The unit may
// stand once, at the end. A single value is a range of itself. An end may be
// left open: "..34 IBU", "70 %..". A dash, a hyphen between two numbers or the
// word "to" serve as well as two points.
func ParseSpan[T any](text string) (Span[T], error) {
	k := kindOf[T]()
	s, fault := readSpan(k, clean(text))
	if fault != nil {
		return Span[T]{}, fault.in(text, k.what)
	}
	return s, nil
}

// cutRange parts a text at the sign of a range.
func cutRange(s string) (low, high string, found bool) {
	for _, sign := range []string{"..", "…", "–", " to "} {
		if low, high, found = strings.Cut(s, sign); found {
			return strings.TrimSpace(low), strings.TrimSpace(high), true
		}
	}
	if i := hyphenBetweenNumbers(s); i > 0 {
		return strings.TrimSpace(s[:i]), strings.TrimSpace(s[i+1:]), true
	}
	return s, "", false
}

// hyphenBetweenNumbers finds the hyphen of "18-20 °C" and "18 - 20 °C", or
// returns -1. The minus signs of "-18 °C" and "1e-5" don't count.
func hyphenBetweenNumbers(s string) int {
	for i := 1; i+1 < len(s); i++ {
		if s[i] != '-' {
			continue
		}
		before, after := strings.TrimSpace(s[:i]), strings.TrimSpace(s[i+1:])
		if before != "" && after != "" && isDigit(before[len(before)-1]) && isDigit(after[0]) {
			return i
		}
	}
	return -1
}

func readSpan[T any](k *kind[T], text string) (Span[T], *trouble) {
	lowText, highText, found := cutRange(text)
	if !found {
		value, fault := k.read(text)
		return Span[T]{value, value}, fault
	}
	if lowText == "" && highText == "" {
		var none T
		return Span[T]{k.open(none, math.Inf(-1)), k.open(none, math.Inf(1))}, nil
	}
	s, fault := readEnds(k, lowText, highText)
	if fault != nil {
		return Span[T]{}, fault
	}
	if !oneScale(s.Low, s.High) {
		return Span[T]{}, &trouble{"its ends are on different scales", "write both ends on one scale"}
	}
	if k.position(s.Low) > k.position(s.High) {
		swapped := Span[T]{s.High, s.Low}
		return Span[T]{}, &trouble{"the range begins above its end", fmt.Sprintf("swap the ends: %q", swapped.text(k))}
	}
	return s, nil
}

// readEnds reads the ends of a range; an empty text is an open end.
func readEnds[T any](k *kind[T], lowText, highText string) (s Span[T], fault *trouble) {
	if highText == "" {
		s.Low, fault = k.read(lowText)
		s.High = k.open(s.Low, math.Inf(1))
		return s, fault
	}
	if s.High, fault = k.read(highText); fault != nil {
		return s, fault
	}
	if lowText == "" {
		s.Low = k.open(s.High, math.Inf(-1))
		return s, nil
	}
	s.Low, fault = k.read(k.borrowUnit(lowText, highText))
	return s, fault
}

// borrowUnit gives a number without a unit the unit of another.
func (k *kind[T]) borrowUnit(bare, other string) string {
	n, unit, fault := scan(bare)
	_, borrowed, _ := scan(other)
	if fault != nil || unit != "" || (k.alone != nil && k.alone(n.value)) || borrowed == "" || cutsAtDigit(borrowed) {
		return bare
	}
	return bare + " " + borrowed
}

// cutsAtDigit reports whether a unit goes on with another number, as the hours
// of "1 h 15 min" do. ("mL/100 g" is one unit.)
func cutsAtDigit(unit string) bool {
	before, after := cutBeforeDigit(unit)
	return after != "" && !strings.Contains(before, "/") && !strings.Contains(before, "CO")
}

// text writes s canonically, the unit once if both ends have the same.
func (s Span[T]) text(k *kind[T]) string {
	hasLow, hasHigh := s.HasLow(), s.HasHigh()
	switch {
	case !hasLow && !hasHigh:
		return ".."
	case !hasLow:
		return ".." + k.text(s.High)
	case !hasHigh:
		return k.text(s.Low) + ".."
	}
	low, high := k.text(s.Low), k.text(s.High)
	if low == high {
		return low
	}
	number, _, _ := strings.Cut(low, " ")
	if k.borrowUnit(number, high) == low {
		low = number
	}
	return low + ".." + high
}

// String returns s as it is written in a document.
func (s Span[T]) String() string { return s.text(kindOf[T]()) }

// MarshalText writes s canonically.
func (s Span[T]) MarshalText() ([]byte, error) {
	k := kindOf[T]()
	low, high := k.position(s.Low), k.position(s.High)
	if math.IsNaN(low) || math.IsNaN(high) || low > high || math.IsInf(low, 1) || math.IsInf(high, -1) {
		return nil, fmt.Errorf("write a range of %s: its ends are no range", k.what)
	}
	return []byte(s.text(k)), nil
}

// UnmarshalText reads s as [ParseSpan] does.
func (s *Span[T]) UnmarshalText(text []byte) error {
	read, err := ParseSpan[T](string(text))
	if err == nil {
		*s = read
	}
	return err
}
