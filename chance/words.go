// SPDX-License-Identifier: MIT

package chance

import (
	"fmt"
	"strings"

	"gyle/quantity"
	"gyle/science/uncertainty"
)

// Label names the figure for people.
func (b Band) Label() string {
	switch b.Figure {
	case Collected:
		return "collected wort"
	case Packaged:
		return "packaged beer"
	}
	return b.Figure.Label()
}

// Text prints a range of the figure about its median: "29 IBU (24–34)".
func (b Band) Text(pr quantity.Printer, r uncertainty.Range) string {
	if b.Figure == Collected || b.Figure == Packaged {
		return pr.Volume(quantity.Volume(b.Median)) + " (" + pr.Volume(quantity.Volume(r.Low)) + " to " + pr.Volume(quantity.Volume(r.High)) + ")"
	}
	return pr.FigureBand(b.Figure, quantity.Band{Low: r.Low, Mid: b.Median, High: r.High})
}

// mostlyOne is the share of the variance from which one input is to blame for
// most of it.
const mostlyOne = 0.5

// worthNaming is the share of the variance from which a second input is named.
const worthNaming = 0.1

// Sentence says what is to blame for the spread of the figure: "most of the
// spread of bitterness comes from the house factor of bitterness (61 %), then
// the alpha acids of challenger (20 %)". It is empty where nothing is.
func (b Band) Sentence(pr quantity.Printer) string {
	if len(b.Blame) == 0 {
		return ""
	}
	named := func(x Blame) string {
		return fmt.Sprintf("the %s (%s)", x.Input, pr.Fraction(quantity.Fraction(x.Share), 0))
	}
	first := b.Blame[0]
	text := "the largest part of the spread of " + b.Label() + " comes from " + named(first)
	if first.Share >= mostlyOne {
		text = "most of the spread of " + b.Label() + " comes from " + named(first)
	}
	var more []string
	for _, next := range b.Blame[1:] {
		if next.Share < worthNaming || len(more) == 2 {
			break
		}
		more = append(more, named(next))
	}
	if len(more) > 0 {
		text += ", then " + strings.Join(more, " and ")
	}
	return text
}

// Chance prints a chance for people: "71 in 100 brews", and at the ends, where
// a count of samples can't say never or always, "fewer than 1 in 100".
func Chance(p Probability) string {
	hundred := 100 * p.Share
	switch {
	case p.Error == 0 && p.Share >= 1:
		return "always"
	case p.Error == 0 && p.Share <= 0:
		return "never"
	case hundred > 99.5:
		return "nearly always"
	case hundred < 0.5:
		return "hardly ever"
	}
	return fmt.Sprintf("%.0f in 100 brews", hundred)
}
