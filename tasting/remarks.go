// SPDX-License-Identifier: MIT

package tasting

import (
	"fmt"
	"slices"
	"strings"

	"gyle/quantity"
)

// Weight is how much a remark weighs.
type Weight int

// The weights.
const (
	Advice Weight = iota // would have been better otherwise
	Doubt                // must be told with the outcome
	Void                 // the answers prove nothing
)

// String returns the weight as a word.
func (w Weight) String() string { return [...]string{"advice", "doubt", "void"}[w] }

// Remark is what a sound document still shows of a tasting that is not as it
// should be.
type Remark struct {
	Path   string // where in the document
	Weight Weight
	Text   string
	Hint   string
}

// How far bottles may differ in age before the age is part of the question, and
// how many glasses a sitting bears (common practice).
const (
	ageApart    = 10 // days
	mostGlasses = 6
)

// Remarks lists what should be told with the outcome of a tasting, or done
// before it begins.
func (t *Tasting) Remarks() []Remark {
	r := &remarker{tasting: t}
	r.beers()
	r.conditions()
	for i := range t.Flights {
		f, at := &t.Flights[i], fmt.Sprintf("flights[%d]", i)
		r.rule(f, at)
		r.orders(f, at)
		r.codes(f, at)
		r.sealing(f, at)
		r.answers(f, at)
	}
	return r.all
}

// Voided reports whether a flight has a remark that makes it void.
func (t *Tasting) Voided(name string) bool {
	for i := range t.Flights {
		prefix := fmt.Sprintf("flights[%d]", i)
		if t.Flights[i].Name == name {
			return slices.ContainsFunc(t.Remarks(), func(r Remark) bool {
				return r.Weight == Void && (r.Path == prefix || strings.HasPrefix(r.Path, prefix+"."))
			})
		}
	}
	return false
}

type remarker struct {
	tasting *Tasting
	all     []Remark
}

func (r *remarker) add(weight Weight, path, hint, format string, args ...any) {
	r.all = append(r.all, Remark{Path: path, Weight: weight, Text: fmt.Sprintf(format, args...), Hint: hint})
}

func (r *remarker) beers() {
	var first, last Beer
	for _, b := range r.tasting.Beers {
		if b.Packed.IsZero() {
			continue
		}
		if first.Packed.IsZero() || b.Packed.Before(first.Packed.Time) {
			first = b
		}
		if last.Packed.IsZero() || b.Packed.After(last.Packed.Time) {
			last = b
		}
	}
	if !first.Packed.IsZero() {
		if days := int(last.Packed.Sub(first.Packed.Time).Hours() / 24); days > ageApart && !r.tasting.controlled() {
			r.add(Doubt, "beers", "keep the older one cold, or add a control: an old and a fresh bottle of the same recipe",
				"%s is %d days older than %s: the question is recipe and age together", first.Letter, days, last.Letter)
		}
	}
	if len(r.tasting.Flights) > 0 && !r.tasting.batches() {
		r.add(Advice, "beers", "split one wort for a claim about an ingredient, or brew each version again",
			"each version is one batch: what is found holds for these batches")
	}
	r.carbonation()
}

// controlled reports whether a beer is there to show what batch and age do.
func (t *Tasting) controlled() bool {
	return slices.ContainsFunc(t.Beers, func(b Beer) bool { return b.Control })
}

// batches reports whether the beers share a wort, or a recipe was brewed more
// than once, so that batch and recipe aren't the same thing.
func (t *Tasting) batches() bool {
	if t.controlled() {
		return true
	}
	splits, recipes := map[string]int{}, map[string]int{}
	for _, b := range t.Beers {
		if b.Split != "" {
			splits[b.Split]++
		}
		if b.Recipe != "" {
			recipes[b.Recipe]++
		}
	}
	for _, b := range t.Beers {
		if splits[b.Split] > 1 || recipes[b.Recipe] > 1 {
			return true
		}
	}
	return false
}

func (r *remarker) carbonation() {
	var least, most *quantity.Carbonation
	for _, b := range r.tasting.Beers {
		if b.CO2 == nil {
			continue
		}
		if least == nil || *b.CO2 < *least {
			least = b.CO2
		}
		if most == nil || *b.CO2 > *most {
			most = b.CO2
		}
	}
	if least != nil && float64(*most-*least) > 0.2 {
		r.add(Doubt, "beers", "make it alike before pouring: it gives a beer away", "carbonation differs by %.1f vol", float64(*most-*least))
	}
}

func (r *remarker) conditions() {
	c := r.tasting.Conditions
	if len(r.tasting.Flights) == 0 {
		return
	}
	var missing []string
	for _, part := range []struct {
		what  string
		known bool
	}{{"sample", c.Sample != nil}, {"temperature", !c.Temperature.IsZero()}, {"glass", c.Glass != ""}, {"masked", c.Masked != ""}, {"pour", c.Pour != ""}} {
		if !part.known {
			missing = append(missing, part.what)
		}
	}
	if len(missing) > 0 {
		r.add(Advice, "conditions", "write them down: glasses that differ in more than the beer void a tasting", "nothing is said of %s", strings.Join(missing, ", "))
	}
	if c.Pourer != "" && slices.ContainsFunc(r.tasting.Panel, func(a Assessor) bool { return a.ID == c.Pourer || a.Name == c.Pourer }) {
		r.add(Doubt, "conditions.pourer", "who knows the key doesn't taste", "%s pours and tastes", c.Pourer)
	}
}

func (r *remarker) rule(f *Flight, at string) {
	if f.Alpha == 0 {
		r.add(Advice, at+".alpha", "add alpha: 5 % before the first answer", "nothing says which risk of a false alarm is taken")
	}
	if f.Aim == nil && f.Kind.Choice() {
		r.add(Advice, at+".aim", "add aim: {share: 50 %, power: 80 %}", "nothing says which difference the panel shall find")
	}
	glasses := map[string]int{}
	for _, s := range f.Serving {
		glasses[s.Taster] += len(s.Codes)
		if s.Reference != "" {
			glasses[s.Taster]++
		}
	}
	for _, s := range f.Serving {
		if n := glasses[s.Taster]; n > mostGlasses {
			r.add(Advice, at+".serving", "make two flights with a pause between them", "%d glasses in one flight tire a palate", n)
			return
		}
	}
}

func (r *remarker) codes(f *Flight, at string) {
	for i, s := range f.Serving {
		path := fmt.Sprintf("%s.serving[%d].codes", at, i)
		for j, code := range s.Codes {
			if why := code.Ominous(); why != "" {
				r.add(Advice, fmt.Sprintf("%s[%d]", path, j), "take another", "%s %s", code, why)
			}
			for _, other := range s.Codes[:j] {
				if code.Apart(other) < 2 {
					r.add(Advice, fmt.Sprintf("%s[%d]", path, j), "take another", "%s and %s on one tray differ in one digit", other, code)
				}
			}
		}
	}
}

func (r *remarker) sealing(f *Flight, at string) {
	if len(f.Serving) > 0 && (f.Design == nil || f.Design.Commitment == "") {
		r.add(Doubt, at+".design", "seal the key before pouring, and print the commitment", "the key was not sealed: nobody can check that it wasn't changed")
	}
	if f.Key == nil {
		return
	}
	switch {
	case r.tasting.Verify(f) == Differs:
		r.add(Void, at+".key", "", "the key, the plan or the rule is not what was sealed")
	case f.Design != nil && !f.Key.Opened.IsZero() && f.Key.Opened.Before(f.Design.At.Time):
		r.add(Void, at+".key.opened", "", "the key was open before the design was fixed")
	}
	if f.Key.Opened.IsZero() {
		r.add(Doubt, at+".key", "add opened: with the time", "nothing says when the key was opened")
	}
	if f.Closed != nil && !f.Key.Opened.IsZero() && f.Key.Opened.Before(f.Closed.At.Time) {
		r.add(Void, at+".key.opened", "", "the key was opened before the answers were closed")
	}
	if missing := f.Missing(); f.Closed == nil && len(missing) > 0 && len(f.Answers) > 0 {
		r.add(Void, at+".key.opened", "", "the key was opened while %d sets had no answer", len(missing))
	}
	if f.Closed != nil && f.Closed.Head != "" && f.Head(f.Closed.Count) != f.Closed.Head {
		r.add(Void, at+".closed.head", "", "the answers are not those that were closed")
	}
}

func (r *remarker) answers(f *Flight, at string) {
	for i, a := range f.Answers {
		path := fmt.Sprintf("%s.answers[%d]", at, i)
		switch {
		case f.late(a):
			r.add(Doubt, path, "", "the answer of %s came too late and doesn't count", a.Taster)
		case a.Corrects != "":
			why := a.Why
			if why == "" {
				why = "no reason given"
			}
			r.add(Doubt, path, "", "%s changed an answer: %s", a.Taster, why)
		}
	}
	if f.Key != nil {
		if missing := f.Missing(); len(missing) > 0 && !f.stopped() {
			r.add(Doubt, at+".serving", "", "%d of %d sets were not answered", len(missing), len(f.Serving))
		}
	}
	for i, a := range r.tasting.Panel {
		if a.Trained || f.Kind != Profile {
			continue
		}
		r.add(Advice, fmt.Sprintf("panel[%d]", i), "train the panel on the attributes, or ask which beer has more of one (2-afc)", "the panel scores a profile without training")
		break
	}
}
