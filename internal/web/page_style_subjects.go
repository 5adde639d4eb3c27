// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"slices"
	"strings"

	"gyle/quantity"
	"gyle/style"
)

// ruleSubject is something that a rule may be about, as its form teaches it.
type ruleSubject struct {
	Subject style.Subject
	Name    string // in the list to choose from
	About   string
	Example string
	What    string // label of the field that says what is ruled
	Hint    string // how to write it
	Unit    string // of the range
	In      string // examples of a range; empty for a rule without one
}

const (
	grainsHint  = `Malts by name, joined by +: oats-flaked + oats-malted. Or a class: class crystal, class roasted above 600 EBC. Or a role: role flavour. Or a group of your own: group dark.`
	momentsHint = `Moments joined by +: boil start, boil 45 min.., boil 15..0 min, flame-out, stand, dry, first wort, mash.`
	shareRange  = `From and to: 8..16 %. Up to: ..20 %. At least: 75 %..`
)

// ruleSubjects are in the order in which a style is thought up.
var ruleSubjects = []ruleSubject{
	{style.OnFigure, "A number of the beer or its water", "Gravity, alcohol, bitterness, colour, gas, mash pH, a mineral.", "bitterness 24 to 34 IBU",
		"Which number", "", "", "From and to, with the unit: 1.046..1.054, 24..34 IBU, 28..44 EBC, 4.3..5.2 %. Up to: ..34 IBU. At least: 60 mg/L.."},
	{style.OnShare, "A share of the grist", "How much of the weight one malt, a class of malts, or several together may be.", "oats 8 to 16 % of the grist",
		"Which grains", grainsHint, "%", shareRange},
	{style.OnLargest, "The largest single share", "However many of a class there are, none of them alone more than this.", "no single crystal malt above 6 %",
		"Among which grains", grainsHint, "%", shareRange},
	{style.OnCount, "A count", "How many grains of a sort the grist may hold.", "at most two flavour malts",
		"Of which grains", grainsHint, "", "From and to: 1..3. Up to: ..2. At least: 1.."},
	{style.OnLate, "A late share", "How much of a malt comes in late in the mash or is steeped cold.", "all roast in the last 15 minutes",
		"Of which grains", grainsHint, "%", shareRange},
	{style.OnIBUFrom, "Where the bitterness comes from", "The share of all bitterness that charges at these moments give.", "at least 75 % from long boiling",
		"From charges at", momentsHint, "%", shareRange},
	{style.OnCharges, "When hops may go in", "Hops at these moments and at no other.", "hops only at the start of the boil",
		"Hops only at", momentsHint, "", ""},
	{style.OnDose, "A dose of hops", "Grams of hops per litre, all charges at these moments together.", "late hops 0.5 to 2 g/L",
		"Hops at", momentsHint, "g/L", "From and to: 0.5..2 g/L. Up to: ..1 g/L."},
	{style.OnYeast, "The yeast", "Its attenuation, its temperature, or how much of it is pitched.", "no warmer than 21 °C",
		"Which behaviour", "", "", "Attenuation in %: 69..76 %. Temperature: ..21 °C. Pitch: 0.7..1 M/mL/°P."},
}

func subjectNamed(name string) (ruleSubject, bool) {
	i := slices.IndexFunc(ruleSubjects, func(s ruleSubject) bool { return string(s.Subject) == name })
	if i < 0 {
		return ruleSubject{}, false
	}
	return ruleSubjects[i], true
}

var severities = []formChoice{
	{"advice", "advice: usually so"},
	{"limit", "limit: else another style"},
	{"option", "option: never broken"},
}

var yeastTraits = []formChoice{
	{"", "choose"}, {"attenuation", "attenuation"}, {"temperature", "temperature"}, {"pitch", "pitching rate"},
}

func figureChoices() []formChoice {
	list := []formChoice{{"", "choose"}}
	for _, f := range quantity.Figures() {
		label := f.Label()
		if u := f.Unit(); u != "" {
			label += ", " + u
		}
		list = append(list, formChoice{string(f), label})
	}
	return list
}

// ruleGroups are the fields of a rule on a subject; at is where it stands.
func ruleFields(sub ruleSubject, at string, parts int) []formGroup {
	what := formField{Path: at + "." + string(sub.Subject), Label: sub.What, Hint: sub.Hint, Wide: true}
	switch sub.Subject {
	case style.OnFigure:
		what.Options = figureChoices()
	case style.OnYeast:
		what.Options = yeastTraits
	}
	first := formGroup{Title: sub.Name, About: sub.About, Fields: []formField{what}}
	if sub.In != "" {
		first.Fields = append(first.Fields, formField{Path: at + ".in", Label: "Range", Hint: sub.In, Unit: sub.Unit})
	}
	first.Fields = append(first.Fields,
		formField{Path: at + ".severity", Label: "How much you mean it", Options: severities},
		formField{Path: at + ".why", Label: "Why", Wide: true, Hint: "One sentence. It is quoted whenever a recipe breaks the rule."})
	groups := []formGroup{first}
	if sub.Subject == style.OnShare {
		groups = append(groups, partFields(at, parts))
	}
	return append(groups, formGroup{Title: "Only under a condition", About: "Left empty, the rule always holds.", Fields: []formField{{
		Path: at + ".when", Label: "Holds only with", Wide: true,
		Hint: "hop cascade + centennial, hop group NAME, malt class roasted, or a number: ibu above 40, og below 1.040.",
	}}})
}

// spareParts is how many empty rows stand under the parts of a sum.
const spareParts = 2

func partFields(at string, parts int) formGroup {
	g := formGroup{Title: "Of which", Across: 2,
		About: "Limits within the sum, as shares of the whole grist: Munich and crystal together up to 15 %, of which crystal up to 5 %."}
	for i := range parts + spareParts {
		row := fmt.Sprintf("%s.of which[%d]", at, i)
		g.Fields = append(g.Fields,
			formField{Path: row + ".share", Label: fmt.Sprintf("Part %d", i+1)},
			formField{Path: row + ".in", Label: fmt.Sprintf("Range of part %d", i+1), Unit: "%"})
	}
	return g
}

// ruleSentence says a rule as its author would.
func ruleSentence(r *style.Rule, phrase, span string) string {
	var b strings.Builder
	if r.When != nil {
		b.WriteString("With " + r.When.String() + ": ")
	}
	switch r.Subject() {
	case style.OnFigure:
		b.WriteString("the " + phrase + " is " + span)
	case style.OnShare:
		b.WriteString(phrase + " makes up " + span + " of the grist")
	case style.OnLargest:
		b.WriteString("the " + phrase + " makes up " + span + " of the grist")
	case style.OnCount:
		b.WriteString("the grist holds " + span + " of " + r.Count.Phrase())
	case style.OnLate:
		b.WriteString("of " + r.Late.Phrase() + ", " + span + " comes in late or is steeped cold")
	case style.OnIBUFrom:
		b.WriteString("of the bitterness, " + span + " comes from " + r.IBUFrom.Phrase())
	case style.OnCharges:
		b.WriteString("hops go in only at " + r.Charges.Phrase())
	case style.OnDose:
		b.WriteString("hops at " + r.Dose.Phrase() + " are " + span)
	case style.OnYeast:
		b.WriteString("the " + r.Yeast + " of the yeast is " + span)
	}
	for i, p := range r.OfWhich {
		joint := ", of which "
		if i > 0 {
			joint = " and "
		}
		b.WriteString(joint + p.Share.Phrase() + " " + p.In)
	}
	b.WriteString(". " + map[style.Severity]string{
		style.Limit: "This is a limit", style.Advice: "This is advice", style.Option: "This is an option, never broken"}[r.Severity])
	if r.Why != "" {
		b.WriteString(", because: “" + strings.TrimSuffix(r.Why, ".") + "”")
	}
	return upperFirst(b.String()) + "."
}
