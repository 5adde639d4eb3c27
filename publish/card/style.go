// SPDX-License-Identifier: MIT

package card

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"gyle/data"
	"gyle/judge"
	"gyle/publish/font"
	"gyle/quantity"
	"gyle/style"
)

// beer says what the deck is about: names, makers, prose, notes.
func (w *work) beer() section {
	s := section{name: "beer", title: "The beer"}
	add := func(b block) {
		if len(b.rows) > 0 {
			s.blocks = append(s.blocks, b)
		}
	}
	if w.Recipe != nil {
		w.naming(w.name(), "a beer by ", w.Recipe.By, add)
		add(w.atAGlance())
		w.paragraphs(w.Recipe.Note, add)
	}
	if w.Style != nil {
		w.naming(w.Style.Name, "a style by ", w.Style.By, add)
		w.paragraphs(w.Style.Prose, add)
		w.paragraphs(w.Style.Note, add)
	}
	return s
}

// glances are the figures that brewers tell each other first.
var glances = []quantity.Figure{quantity.OG, quantity.FG, quantity.ABV, quantity.Bitterness, quantity.BeerColor}

// atAGlance is the beer in one line: of the plan, or as it is meant.
func (w *work) atAGlance() block {
	var said []string
	for _, f := range glances {
		if w.Plan != nil {
			if found, ok := w.Plan.Find(f); ok {
				said = append(said, glance(f, w.Printer.Figure(f, found.Value)))
			}
			continue
		}
		for _, a := range w.aims() {
			if a.figure == f {
				said = append(said, glance(f, a.text))
			}
		}
	}
	if len(said) == 0 {
		return block{}
	}
	return w.paragraph(font.Figures, w.theme.Planned, strings.Join(said, " · "))
}

// glance names a value whose unit doesn't tell what it is.
func glance(f quantity.Figure, value string) string {
	switch f {
	case quantity.OG:
		return "OG\u00a0" + value
	case quantity.FG:
		return "FG\u00a0" + value
	case quantity.ABV:
		return value + "\u00a0alcohol"
	}
	return value
}

// naming writes a name and, at its right or beneath it, who made it.
func (w *work) naming(name, what, who string, add func(block)) {
	head := w.heading(name)
	if font.Clean(who) == "" {
		add(head)
		return
	}
	by := w.paragraph(font.BookItalic, w.theme.Print, what+who)
	by.leads = true
	em := w.size.Text
	wide := font.BookItalic.Width(by.rows[0].note.text, em)
	if len(head.rows) != 1 || len(by.rows) != 1 || font.FiguresBold.Width(head.rows[0].label.text, em)+gap*em+wide > w.size.inner() {
		add(head)
		add(by)
		return
	}
	left, right := head.rows[0], by.rows[0]
	left.note = right.note
	write := left.draw
	left.draw = func(s *Scene, x, y float64) {
		write(s, x, y)
		right.draw(s, x+w.size.inner()-wide, y)
	}
	head.rows = []row{left}
	head.from.Label += ", " + by.from.Label
	add(head)
}

// paragraphs writes the paragraphs of a text, which blank lines part. All but
// the first begin a little to the right, as in books.
func (w *work) paragraphs(text string, add func(block)) {
	indent := ""
	for part := range strings.SplitSeq(text, "\n\n") {
		if part = font.Clean(part); part != "" {
			add(w.paragraph(font.Book, w.theme.Print, indent+part))
			indent = strings.Repeat("\u00A0", 5)
		}
	}
}

// ofWater are the figures that stand with the water, not among the numbers.
var ofWater = []quantity.Figure{quantity.Calcium, quantity.Magnesium, quantity.Sodium, quantity.Chloride, quantity.Sulfate, quantity.Bicarbonate, quantity.SulfateToChloride, quantity.ResidualAlkalinity}

// numbers are the style in numbers, with the marks of the beer, or the numbers
// of the beer alone. The reasons stand on cards of their own.
func (w *work) numbers() section {
	s := section{name: "numbers", title: "In numbers"}
	ruled := map[quantity.Figure]bool{}
	for _, e := range w.rulesWhere(isNumber) {
		ruled[e.figure] = true
		e.notes = nil
		s.blocks = append(s.blocks, w.entry(e))
	}
	s.blocks = append(s.blocks, w.unruled(ruled)...)
	if len(s.blocks) > 0 && w.Recipe != nil {
		s.foot = append(s.foot, w.marksSay())
	}
	return s
}

// reasons say why the numbers of the style are what they are.
func (w *work) reasons() section {
	s := section{name: "reasons", title: "Why these numbers"}
	for _, e := range w.rulesWhere(isNumber) {
		if e.span != nil {
			e.mark, e.span = e.span.mark, nil
		}
		s.blocks = append(s.blocks, w.entry(e))
		s.foot = w.basisOf(s.foot, e)
	}
	return s
}

// basisOf adds what weights hold for to a foot, once, where an entry has any.
func (w *work) basisOf(foot []string, e entry) []string {
	if e.weighs && !slices.Contains(foot, w.basis()) {
		return append(foot, w.basis())
	}
	return foot
}

// isNumber picks the rules that belong among the numbers.
func isNumber(r *style.Rule) bool {
	return r.Subject() == style.OnFigure && !slices.Contains(ofWater, r.FigureName())
}

// marksSay says what the marks mean.
func (w *work) marksSay() string {
	text := "Open mark: " + w.name() + " as it is meant."
	if w.Plan != nil {
		text = fmt.Sprintf("Open mark: %s on %s, %s in the fermenter, yield %s.", w.name(), w.Plan.House, w.Printer.Volume(w.Plan.Volumes.Collected), w.Printer.Fraction(w.Plan.Grist.Yield, 1))
	}
	if w.Style != nil {
		text += " Red cross: outside."
	}
	return text
}

// unruled are the figures of the beer that no rule of the style speaks of.
func (w *work) unruled(ruled map[quantity.Figure]bool) (blocks []block) {
	if w.Plan != nil {
		for _, f := range w.Plan.Figures {
			if ruled[f.Figure] || slices.Contains(ofWater, f.Figure) {
				continue
			}
			e := entry{mark: openMark, label: labelOf(f.Figure), value: w.Printer.FigureBand(f.Figure, f.Band())}
			if f.Aim != nil {
				e.notes = []note{{text: "aim " + w.Printer.Figure(f.Figure, *f.Aim)}}
			}
			blocks = append(blocks, w.entry(e))
		}
		return blocks
	}
	if w.Recipe == nil {
		return nil
	}
	for _, a := range w.aims() {
		if !ruled[a.figure] {
			blocks = append(blocks, w.entry(entry{mark: openMark, label: labelOf(a.figure), value: a.text}))
		}
	}
	return blocks
}

type aim struct {
	figure quantity.Figure
	text   string
}

// aims are what a recipe aims at, as it says it.
func (w *work) aims() (list []aim) {
	a, pr := w.Recipe.Aims, w.Printer
	if a.OG != nil {
		list = append(list, aim{quantity.OG, pr.Gravity(*a.OG)})
	}
	if a.FG != nil {
		list = append(list, aim{quantity.FG, pr.Gravity(*a.FG)})
	}
	if a.IBU != nil {
		list = append(list, aim{quantity.Bitterness, pr.IBU(*a.IBU)})
	}
	if a.Color != nil {
		list = append(list, aim{quantity.BeerColor, pr.Color(*a.Color)})
	}
	if a.CO2 != nil {
		list = append(list, aim{quantity.CO2, pr.Carbonation(*a.CO2)})
	}
	return list
}

// labelOf names a figure on a card.
func labelOf(f quantity.Figure) string {
	if f == quantity.BUGU {
		return "BU:GU, IBU a point"
	}
	return capital(f.Label())
}

func capital(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	if n == 0 || strings.HasPrefix(text, "pH") {
		return text
	}
	return string(unicode.ToUpper(r)) + text[n:]
}

// rules are the rules of use with their reasons.
func (w *work) rules() section {
	s := section{name: "rules", title: "Rules of use"}
	list := w.rulesWhere(func(r *style.Rule) bool { return r.Subject() != style.OnFigure })
	s.blocks = w.entries(list)
	if w.Style == nil {
		return s
	}
	names := make([]string, 0, len(w.Style.Groups))
	for name := range w.Style.Groups {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		var members []string
		for _, id := range w.Style.Groups[name] {
			members = append(members, grainOrHop(id))
		}
		s.blocks = append(s.blocks, w.entry(entry{label: "Group " + name, notes: []note{{text: strings.Join(members, ", ")}}}))
	}
	if len(s.blocks) > 0 {
		s.foot = []string{"A limit is where the author says the style ends; advice may be left; an option is a hint. Shares are of the weight of the grist."}
		for _, e := range list {
			s.foot = w.basisOf(s.foot, e)
		}
	}
	return s
}

// grainOrHop is the name of a member of a group.
func grainOrHop(id string) string {
	if h, ok := data.Hop(id); ok {
		return h.Name
	}
	if class, ok := strings.CutPrefix(id, "class "); ok {
		return class
	}
	return maltName(id)
}

// rulesWhere returns the rules of the style that a test picks, and their parts,
// in the author's order.
func (w *work) rulesWhere(picks func(*style.Rule) bool) (list []entry) {
	if w.Style == nil {
		return nil
	}
	for i := range w.Style.Rules {
		r := &w.Style.Rules[i]
		if !picks(r) {
			continue
		}
		e := w.rule(r, place{i, 0}, capital(subjectOf(r)), rangeText(r.In))
		e.figure = r.FigureName()
		list = append(list, e)
		for k, part := range r.OfWhich {
			list = append(list, w.rule(r, place{i, k + 1}, "Of which "+selectionText(part.Share), rangeText(part.In)))
		}
	}
	return list
}

// rule makes the entry of a rule, or of a part of it.
func (w *work) rule(r *style.Rule, at place, label, in string) entry {
	e := entry{label: label, value: in}
	v, judged := w.verdicts[at]
	if judged && v.Range != "" && v.Subject != style.OnCharges {
		e.value = v.Range
	}
	reason := capital(string(r.Severity))
	if r.When != nil && at.part == 0 {
		reason += ", when " + r.When.String()
	}
	if at.part == 0 && font.Clean(r.Why) != "" {
		reason += ": " + r.Why
	}
	if judged && v.Text != "" && v.Word != judge.Idle && v.Subject != style.OnCharges {
		reason = "Here " + v.Text + ". " + reason
	}
	e.notes = []note{{text: reason}}
	if !judged {
		return e
	}
	e.mark = markOf(v.Word)
	if v.Broken() {
		e.weighs = w.Plan != nil && v.Mend != ""
		e.notes = append([]note{{text: brokenText(v), ink: corrected}}, e.notes...)
	}
	if v.Subject == style.OnFigure && v.Text != "" && v.Word != judge.Unknown {
		e.span = &span{low: v.Low, high: v.High, value: v.Value, known: !math.IsNaN(v.Value), mark: e.mark, text: v.Text, said: "here " + v.Text + ", " + string(v.Word)}
		e.mark = noMark
	}
	return e
}

// brokenText says how a rule is broken and what would mend it.
func brokenText(v judge.Verdict) string {
	text := "Outside"
	switch {
	case v.Subject == style.OnCharges && v.Text != "":
		text += ": " + v.Text
	case v.Off != "":
		text += ": " + v.Off
	}
	if v.Mend != "" {
		text += ". To mend it: " + v.Mend
	}
	return text
}

func markOf(word judge.Word) mark {
	switch word {
	case judge.Inside:
		return openMark
	case judge.Edge:
		return edgeMark
	case judge.Outside:
		return crossMark
	}
	return noMark
}

// rangeText puts a range as documents write it in words: "8–16 %", "up to 3 %".
func rangeText(in string) string {
	in = strings.TrimSpace(in)
	low, high, isRange := strings.Cut(in, "..")
	low, high = strings.TrimSpace(low), strings.TrimSpace(high)
	unit := strings.TrimSpace(strings.TrimLeft(high, "0123456789.,−- "))
	switch {
	case !isRange:
		return in
	case low == "":
		return "up to " + high
	case high == "" || high == unit:
		return strings.TrimSpace(low+" "+unit) + " or more"
	}
	return low + "–" + high
}

// subjectOf says what a rule is about, with the names of malts instead of
// their ids.
func subjectOf(r *style.Rule) string {
	if r.Subject() == style.OnFigure {
		return labelOf(r.FigureName())
	}
	switch r.Subject() {
	case style.OnDose:
		return hopsWhen("hops", strings.TrimPrefix(r.Phrase(), "hops at "))
	case style.OnCharges:
		return hopsWhen("hops only", strings.TrimPrefix(r.Phrase(), "hops only at "))
	}
	text := r.Phrase()
	for _, s := range []*style.Selection{r.Share, r.Largest, r.Count, r.Late} {
		if s != nil {
			text = strings.Replace(text, s.Phrase(), selectionText(s), 1)
		}
	}
	return text
}

// hopsWhen says when hops go in as a brewer does: "hops at dry" are dry hops.
func hopsWhen(what, when string) string {
	times := strings.Split(when, ", ")
	if len(times) == 1 && times[0] == "dry" {
		return "dry " + what
	}
	for i, t := range times {
		switch {
		case t == "dry":
			t = "as dry hops"
		case t == "stand":
			t = "in a stand"
		case t == "flame-out" || t == "boil start":
			t = strings.Replace("at "+t, "boil start", "the start of the boil", 1)
		case t == "any boil":
			t = "in the boil"
		default: // the mash, the first wort, boils of so many minutes
			t = strings.Replace("in "+t, "in mash", "in the mash", 1)
			t = strings.Replace(t, "in first wort", "in the first wort", 1)
		}
		times[i] = t
	}
	last := len(times) - 1
	if last == 0 {
		return what + " " + times[0]
	}
	return what + " " + strings.Join(times[:last], ", ") + " or " + times[last]
}

// selectionText names the grains that a selection picks.
func selectionText(s *style.Selection) string {
	var parts []string
	for _, t := range s.Terms {
		text := style.Selection{Terms: []style.Term{t}}.Phrase()
		if t.Sort == style.ByMalt {
			text = strings.Replace(text, t.Name, maltName(t.Name), 1)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, " + ")
}

// taste are the sensory notes of the style.
func (w *work) taste() section {
	s := section{name: "taste", title: "How it tastes"}
	if w.Style == nil {
		return s
	}
	for _, t := range w.Style.Taste {
		e := entry{label: capital(t.Quality), value: t.Reach()}
		if font.Clean(t.Note) != "" {
			e.notes = []note{{text: t.Note}}
		}
		s.blocks = append(s.blocks, w.entry(e))
	}
	return s
}
