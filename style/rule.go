// SPDX-License-Identifier: MIT

package style

import (
	"errors"
	"fmt"

	"gyle/quantity"
)

// Rule is one thing the author says of the style: exactly one subject, the
// range it should lie in, and why.
//
//	figure: og               a number of the beer
//	share: A + class B       of the mass of the grist, one term or a sum
//	largest: class crystal   the largest single share within a class
//	count: role flavour      how many grains are of that sort
//	late: class roasted      how much of that sort comes in late or is steeped cold
//	ibu from: boil 45..90 min  share of the bitterness that these charges give
//	charges: only at         hops go in at these moments and no other
//	dose: stand + boil 10..0 min   grams of hops per litre in these moments
//	yeast: attenuation       behaviour of the yeast: attenuation, temperature or pitch
type Rule struct {
	When     *Condition `gyle:"when"` // the rule holds only then
	Figure   string     `gyle:"figure"`
	Share    *Selection `gyle:"share"`
	Largest  *Selection `gyle:"largest"`
	Count    *Selection `gyle:"count"`
	Late     *Selection `gyle:"late"`
	IBUFrom  *Windows   `gyle:"ibu from"`
	Charges  *Windows   `gyle:"charges"`
	Dose     *Windows   `gyle:"dose"`
	Yeast    string     `gyle:"yeast"`
	In       string     `gyle:"in"` // range, in the unit of the subject
	OfWhich  []Part     `gyle:"of which,flow"`
	Severity Severity   `gyle:"severity,required"`
	Why      string     `gyle:"why"`

	figure  quantity.Figure
	span    quantity.Span[float64]
	gravity *quantity.Span[quantity.Gravity]
}

// Part limits a part inside the sum of a share rule: "Munich and crystal
// together up to 15 %, of which crystal up to 5 %".
type Part struct {
	Share *Selection `gyle:"share,required"`
	In    string     `gyle:"in,required"`

	span quantity.Span[float64]
}

// Range returns the range of a part as fractions of the whole grist.
func (p Part) Range() quantity.Span[float64] { return p.span }

// Subject names what a rule is about.
type Subject string

// The subjects of a [Rule], each with its key in the document.
const (
	OnFigure  Subject = "figure"
	OnShare   Subject = "share"
	OnLargest Subject = "largest"
	OnCount   Subject = "count"
	OnLate    Subject = "late"
	OnIBUFrom Subject = "ibu from"
	OnCharges Subject = "charges"
	OnDose    Subject = "dose"
	OnYeast   Subject = "yeast"
)

// subjects returns the subjects that r has: one in a rule without fault.
func (r *Rule) subjects() []Subject {
	var out []Subject
	for _, s := range []struct {
		subject Subject
		has     bool
	}{
		{OnFigure, r.Figure != ""}, {OnShare, r.Share != nil}, {OnLargest, r.Largest != nil},
		{OnCount, r.Count != nil}, {OnLate, r.Late != nil}, {OnIBUFrom, r.IBUFrom != nil},
		{OnCharges, r.Charges != nil}, {OnDose, r.Dose != nil}, {OnYeast, r.Yeast != ""},
	} {
		if s.has {
			out = append(out, s.subject)
		}
	}
	return out
}

// Subject returns what the rule is about.
func (r *Rule) Subject() Subject {
	if all := r.subjects(); len(all) == 1 {
		return all[0]
	}
	return ""
}

// Range returns the range of the rule in the unit of its subject: fractions
// for shares, g/L for doses, grains for counts, the figure's own unit for
// figures, °C for the temperature of yeast. Ends that are not limited are ±Inf.
// A gravity written in °P is returned by GravityRange instead.
func (r *Rule) Range() quantity.Span[float64] { return r.span }

// GravityRange returns the range of a gravity rule as it was written, or nil.
func (r *Rule) GravityRange() *quantity.Span[quantity.Gravity] { return r.gravity }

// Phrase returns the subject of the rule as a brewer says it.
func (r *Rule) Phrase() string {
	switch r.Subject() {
	case OnFigure:
		return r.figure.Label()
	case OnShare:
		return r.Share.Phrase()
	case OnLargest:
		return "largest single of " + r.Largest.Phrase()
	case OnCount:
		return "number of " + r.Count.Phrase()
	case OnLate:
		return "late or steeped share of " + r.Late.Phrase()
	case OnIBUFrom:
		return "bitterness from " + r.IBUFrom.Phrase()
	case OnCharges:
		return "hops only at " + r.Charges.Phrase()
	case OnDose:
		return "hops at " + r.Dose.Phrase()
	case OnYeast:
		return "yeast " + r.Yeast
	}
	return "rule"
}

// validate checks r and reads its range.
func (r *Rule) validate(path string, groups []string, add func(path, msg, hint string)) {
	all := r.subjects()
	if len(all) != 1 {
		msg := "the rule has no subject"
		if len(all) > 1 {
			msg = fmt.Sprintf("the rule has %d subjects", len(all))
		}
		add(path, msg, "give exactly one of figure, share, largest, count, late, ibu from, charges, dose, yeast")
		return
	}
	for _, s := range []*Selection{r.Share, r.Largest, r.Count, r.Late} {
		s.checkGroups(path, groups, add)
	}
	if r.When != nil {
		r.When.checkGroups(path+".when", groups, add)
	}
	if all[0] == OnCharges {
		if r.In != "" {
			add(path+".in", "a rule of moments has no range", "the moments themselves are the rule")
		}
		return
	}
	if r.In == "" {
		add(path, "the rule has no range", "add in: 8..16 %")
		return
	}
	if at, err := r.readRange(all[0]); err != nil {
		msg, hint := explain(err)
		add(path+"."+at, msg, hint)
	}
	if len(r.OfWhich) > 0 && all[0] != OnShare {
		add(path+".of which", "only a rule of shares has parts", "")
	}
	for i := range r.OfWhich {
		p := &r.OfWhich[i]
		p.Share.checkGroups(fmt.Sprintf("%s.of which[%d]", path, i), groups, add)
		span, err := readFractions(p.In)
		if err != nil {
			msg, hint := explain(err)
			add(fmt.Sprintf("%s.of which[%d].in", path, i), msg, hint)
		}
		p.span = span
	}
}

// explain splits an error into its message and its hint.
func explain(err error) (msg, hint string) {
	var p *quantity.ParseError
	if errors.As(err, &p) {
		return p.Error(), p.Hint
	}
	return err.Error(), ""
}

// readRange reads the range in the unit of the subject. With an error it tells
// the key at which the fault stands.
func (r *Rule) readRange(subject Subject) (at string, err error) {
	switch subject {
	case OnFigure:
		return r.readFigureRange()
	case OnShare, OnLargest, OnLate, OnIBUFrom:
		r.span, err = readFractions(r.In)
	case OnCount:
		r.span, err = quantity.ParseSpan[float64](r.In)
	case OnDose:
		r.span, err = readSpan[quantity.Dose](r.In)
	case OnYeast:
		return r.readYeastRange()
	}
	return "in", err
}

func (r *Rule) readYeastRange() (at string, err error) {
	switch r.Yeast {
	case "attenuation":
		r.span, err = readFractions(r.In)
	case "temperature":
		var span quantity.Span[quantity.Temperature]
		span, err = quantity.ParseSpan[quantity.Temperature](r.In)
		r.span = quantity.Span[float64]{Low: span.Low.Celsius(), High: span.High.Celsius()}
	case "pitch":
		r.span, err = readSpan[quantity.PitchRate](r.In)
	default:
		return "yeast", &quantity.ParseError{Text: r.Yeast, Msg: fmt.Sprintf("%q is nothing a rule can say of yeast", r.Yeast), Hint: "write attenuation, temperature or pitch"}
	}
	return "in", err
}

func (r *Rule) readFigureRange() (at string, err error) {
	if r.figure, err = quantity.LookupFigure(r.Figure); err != nil {
		return "figure", err
	}
	if r.figure.IsGravity() {
		span, err := r.figure.ParseGravitySpan(r.In)
		if err == nil {
			r.gravity = &span
		}
		return "in", err
	}
	r.span, err = r.figure.ParseSpan(r.In)
	return "in", err
}

// FigureName returns the figure of a rule on a figure.
func (r *Rule) FigureName() quantity.Figure { return r.figure }

func readFractions(text string) (quantity.Span[float64], error) {
	return readSpan[quantity.Fraction](text)
}

// readSpan reads a range of a measure and turns its ends into plain numbers.
// An open end is ±Inf.
func readSpan[T ~float64](text string) (quantity.Span[float64], error) {
	s, err := quantity.ParseSpan[T](text)
	return quantity.Span[float64]{Low: float64(s.Low), High: float64(s.High)}, err
}
