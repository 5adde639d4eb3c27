// SPDX-License-Identifier: MIT

package formulate

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"gyle/style"
)

// Ease lets a rule of a style give way: its nearer end is moved out to a number in
// the unit it is printed in; not a number leaves the rule out. Part is a part of
// the rule from 1, or 0. The style itself stays as it is.
func Ease(s *style.Style, rule, part int, to float64) (*style.Style, error) {
	if rule < 0 || rule >= len(s.Rules) || part < 0 || part > len(s.Rules[rule].OfWhich) {
		return nil, fmt.Errorf("there is no rule %d.%d in %s", rule, part, s.Name)
	}
	eased := *s
	eased.Rules = append([]style.Rule{}, s.Rules...)
	r := &eased.Rules[rule]
	r.OfWhich = append([]style.Part{}, r.OfWhich...)
	switch {
	case math.IsNaN(to) && part == 0:
		// Places of rules must stay, so that what is left out becomes an option.
		r.Severity = style.Option
	case math.IsNaN(to):
		r.OfWhich = append(r.OfWhich[:part-1:part-1], r.OfWhich[part:]...)
	case part == 0:
		r.In = easedRange(r.In, to)
	default:
		r.OfWhich[part-1].In = easedRange(r.OfWhich[part-1].In, to)
	}
	text, err := eased.Text()
	if err != nil {
		return nil, err
	}
	out, err := style.Parse(s.Name, text)
	if err != nil {
		return nil, fmt.Errorf("ease rule %d of %s: %w", rule+1, s.Name, err)
	}
	return out, nil
}

// easedRange moves the end of a written range that lies before a number out to it.
func easedRange(in string, to float64) string {
	low, high, isRange := strings.Cut(in, "..")
	number := func(text string) (float64, string, bool) {
		text = strings.TrimSpace(text)
		end := strings.LastIndexAny(text, "0123456789") + 1
		x, err := strconv.ParseFloat(strings.TrimSpace(text[:end]), 64)
		return x, text[end:], err == nil && end > 0
	}
	written := strconv.FormatFloat(to, 'g', -1, 64)
	if !isRange {
		x, unit, _ := number(low)
		if to > x {
			return strings.TrimSuffix(low, unit) + ".." + written + unit
		}
		return written + ".." + low
	}
	if x, unit, known := number(high); known && to > x {
		return low + ".." + written + unit
	}
	if x, unit, known := number(low); known && to < x {
		return written + unit + ".." + high
	}
	return in
}
