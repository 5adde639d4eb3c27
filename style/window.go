// SPDX-License-Identifier: MIT

package style

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"gyle/quantity"
)

// Windows picks hop charges by their moment: terms joined by "+". A term is
// "boil start", "boil 45 min..", "boil 15..0 min", "flame-out", "stand",
// "dry", "first wort" or "mash".
type Windows struct{ Terms []Window }

// Window is one term of [Windows].
type Window struct {
	Stage string                 // as in a recipe, or "boil start"
	Boil  quantity.Span[float64] // minutes before the end of the boil, for "boil"
	raw   string
}

const windowHint = `write moments joined by +: "boil start", "boil 45 min..", "boil 15..0 min", "flame-out", "stand", "dry", "first wort", "mash"`

// UnmarshalText reads windows.
func (w *Windows) UnmarshalText(b []byte) error {
	var terms []Window
	for part := range strings.SplitSeq(string(b), "+") {
		t, err := readWindow(strings.Join(strings.Fields(part), " "))
		if err != nil {
			return err
		}
		terms = append(terms, t)
	}
	w.Terms = terms
	return nil
}

// MarshalText writes w as UnmarshalText reads it.
func (w Windows) MarshalText() ([]byte, error) { return []byte(w.String()), nil }

func (w Windows) String() string {
	var parts []string
	for _, t := range w.Terms {
		parts = append(parts, t.raw)
	}
	return strings.Join(parts, " + ")
}

// Phrase returns w as a brewer says it: "boils of 45 min or more", "the last
// 10 min of the boil".
func (w Windows) Phrase() string {
	var parts []string
	for _, t := range w.Terms {
		parts = append(parts, t.phrase())
	}
	return strings.Join(parts, ", ")
}

func (w Window) phrase() string {
	if w.Stage != "boil" {
		return w.Stage
	}
	low, high := w.Boil.Low, w.Boil.High
	switch {
	case math.IsInf(high, 1) && low <= 0:
		return "any boil"
	case math.IsInf(high, 1):
		return fmt.Sprintf("boils of %g min or more", low)
	case low <= 0:
		return fmt.Sprintf("the last %g min of the boil", high)
	}
	return fmt.Sprintf("boils of %g to %g min", low, high)
}

func readWindow(s string) (Window, error) {
	w := Window{Stage: s, raw: s}
	switch s {
	case "boil start", "flame-out", "stand", "dry", "first wort", "mash":
		return w, nil
	case "boil":
		w.Boil = quantity.Span[float64]{Low: 0, High: math.Inf(1)}
		return w, nil
	}
	rest, ok := strings.CutPrefix(s, "boil ")
	if !ok {
		return w, &quantity.ParseError{Text: s, Msg: fmt.Sprintf("%q is no moment for hops", s), Hint: windowHint}
	}
	// Brewers count down: "15..0 min" is the last quarter of an hour.
	low, high, isRange := strings.Cut(rest, "..")
	if isRange {
		unit := strings.TrimLeft(high, "0123456789.,")
		a, errA := decimal(low)
		b, errB := decimal(strings.TrimSuffix(high, unit))
		if errA == nil && errB == nil && a > b {
			rest = strings.TrimSuffix(high, unit) + ".." + low + unit
		}
	}
	span, err := readSpan[quantity.Duration](rest)
	if err != nil {
		return w, err
	}
	w.Stage, w.Boil = "boil", span
	return w, nil
}

// decimal reads a number with a point or a comma.
func decimal(s string) (float64, error) {
	return strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(s), ",", "."), 64)
}

// Condition says when a rule holds: "hop cascade + centennial", "hop group
// american-c", "malt class roasted" or "og above 1.060".
type Condition struct {
	Hops   []string // ids of hops, or "group NAME"
	Malts  *Selection
	Figure quantity.Figure
	Span   quantity.Span[float64]
	raw    string
}

const conditionHint = `write "hop cascade + centennial", "hop group NAME", "malt class roasted", or a figure: "ibu above 40", "og below 1.040"`

// UnmarshalText reads a condition.
func (c *Condition) UnmarshalText(b []byte) error {
	s := strings.Join(strings.Fields(string(b)), " ")
	got := Condition{raw: s}
	word, rest, _ := strings.Cut(s, " ")
	switch word {
	case "hop", "hops":
		for part := range strings.SplitSeq(rest, "+") {
			if part = strings.TrimSpace(part); part == "" {
				return &quantity.ParseError{Text: s, Msg: "which hop?", Hint: conditionHint}
			}
			got.Hops = append(got.Hops, part)
		}
	case "malt", "malts":
		got.Malts = new(Selection)
		if err := got.Malts.UnmarshalText([]byte(rest)); err != nil {
			return err
		}
	default:
		if err := got.readFigure(word, rest); err != nil {
			return err
		}
	}
	*c = got
	return nil
}

// readFigure reads "above 1.060", "below 40 IBU" or a range.
func (c *Condition) readFigure(word, rest string) error {
	f, err := quantity.LookupFigure(word)
	if err != nil {
		return &quantity.ParseError{Text: c.raw, Msg: fmt.Sprintf("%q is no condition", c.raw), Hint: conditionHint}
	}
	if v, ok := strings.CutPrefix(rest, "above "); ok {
		rest = v + ".."
	} else if v, ok := strings.CutPrefix(rest, "below "); ok {
		rest = ".." + v
	}
	span, err := f.ParseSpan(rest)
	if err != nil {
		return err
	}
	c.Figure, c.Span = f, span
	return nil
}

// MarshalText writes c as UnmarshalText reads it.
func (c Condition) MarshalText() ([]byte, error) { return []byte(c.raw), nil }

func (c Condition) String() string { return c.raw }

func (c *Condition) checkGroups(path string, groups []string, add func(path, msg, hint string)) {
	c.Malts.checkGroups(path, groups, add)
	for _, h := range c.Hops {
		if name, ok := strings.CutPrefix(h, "group "); ok {
			checkGroup(path, name, groups, add)
		}
	}
}
