// SPDX-License-Identifier: MIT

package guest

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"gyle/quantity"
)

// German is the second language of pages.
const German = "de"

//go:embed german.txt
var germanText string

// phrase is what the program says, in two languages.
type phrase struct{ from, to string }

// germanPhrases are the phrases by their first word, the longest first.
var germanPhrases = sync.OnceValue(func() map[string][]phrase {
	by := map[string][]phrase{}
	for line := range strings.Lines(germanText) {
		from, to, ok := strings.Cut(strings.TrimSpace(line), "|")
		if !ok || strings.HasPrefix(from, "#") {
			continue
		}
		first := strings.ToLower(wordAt(from))
		by[first] = append(by[first], phrase{from, to})
	}
	for _, list := range by {
		slices.SortStableFunc(list, func(a, b phrase) int { return len(b.from) - len(a.from) })
	}
	return by
})

// In says a text of the program in a language; what it doesn't know stays
// English, and so do names. What an author wrote is never handed to it.
func In(lang, text string) string {
	if lang != German || text == "" {
		return text
	}
	var b strings.Builder
	before := ' ' // the letter before, to begin with whole words only
	for rest := text; rest != ""; {
		if p, ok := phraseAt(rest); ok && !partOfWord(before) {
			b.WriteString(p.to)
			before, _ = utf8.DecodeLastRuneInString(p.from)
			rest = rest[len(p.from):]
			continue
		}
		r, size := utf8.DecodeRuneInString(rest)
		b.WriteString(rest[:size])
		before, rest = r, rest[size:]
	}
	return b.String()
}

// phraseAt finds the longest phrase that a text begins with. A capital may
// stand for a small letter at its beginning.
func phraseAt(text string) (phrase, bool) {
	first := wordAt(text)
	if first == "" {
		return phrase{}, false
	}
	for _, p := range germanPhrases()[strings.ToLower(first)] {
		if len(text) < len(p.from) || !strings.EqualFold(text[:1], p.from[:1]) || text[1:len(p.from)] != p.from[1:] {
			continue
		}
		last, _ := utf8.DecodeLastRuneInString(p.from)
		next, _ := utf8.DecodeRuneInString(text[len(p.from):])
		if len(text) == len(p.from) || !partOfWord(last) || !partOfWord(next) {
			return p, true
		}
	}
	return phrase{}, false
}

// wordAt is the word that a text begins with; empty where it begins otherwise.
func wordAt(text string) string {
	for i, r := range text {
		if !partOfWord(r) {
			return text[:i]
		}
	}
	return text
}

// partOfWord takes hyphens and apostrophes as parts: "pale-ale" isn't "pale".
func partOfWord(r rune) bool { return unicode.IsLetter(r) || r == '-' || r == '\'' || r == '’' }

func (t *Table) say(text string) string { return In(t.lang, text) }

// says puts rows and lines into the language of the table. Ingredients stand
// in the first column of grist and hops and keep their names.
func (t *Table) says(s *Sheet) {
	if t.lang == "" {
		return
	}
	for _, rows := range [][][]string{s.Figures, s.Liquor, s.Mash, s.Kettle} {
		t.rows(rows, 0)
	}
	for _, rows := range [][][]string{s.Grist, s.Hops, s.Cellar} {
		t.rows(rows, 1)
	}
	for i, row := range s.Grist {
		if i == len(s.Grist)-1 {
			row[0] = t.say(row[0]) // "in all"
		}
	}
	for i, row := range s.Cellar {
		if i > 0 {
			row[0] = t.say(row[0]) // the first is the yeast
		}
	}
	for _, list := range [][]string{s.Kept, s.NotKept, s.Cautions} {
		for i := range list {
			list[i] = t.say(list[i])
		}
	}
	for i := range s.Verdicts {
		s.Verdicts[i].Line = t.say(s.Verdicts[i].Line)
	}
	if head, tail, ok := strings.Cut(s.Title, " on "); ok {
		s.Title = head + " " + t.say("on") + " " + tail
	}
}

func (t *Table) rows(rows [][]string, from int) {
	for _, row := range rows {
		for i := from; i < len(row); i++ {
			row[i] = t.say(row[i])
		}
	}
}

// ask puts questions into the language of the table; their ids and values stay.
func (t *Table) ask(list []Question) []Question {
	if t.lang == "" {
		return list
	}
	out := slices.Clone(list)
	for i := range out {
		q := &out[i]
		q.Group, q.Hint = t.say(q.Group), t.say(q.Hint)
		if name, what, ok := strings.Cut(q.Label, ": "); ok {
			q.Label = name + ": " + t.say(what) // an ingredient and what is asked of it
		} else {
			q.Label = t.say(q.Label)
		}
		q.Choice = slices.Clone(q.Choice)
		for j := range q.Choice {
			q.Choice[j].Label = t.say(q.Choice[j].Label)
		}
	}
	return out
}

// answer puts the complaints of a reply into the language of the table.
func (t *Table) answer(r Reply) Reply {
	if t.lang == "" {
		return r
	}
	r.Problem = t.say(r.Problem)
	r.Faults = slices.Clone(r.Faults)
	for i := range r.Faults {
		r.Faults[i].Msg, r.Faults[i].Hint = t.say(r.Faults[i].Msg), t.say(r.Faults[i].Hint)
	}
	return r
}

// Asked returns the questions in the language of the kit. [Table.Questions]
// has them in English.
func (t *Table) Asked(pr quantity.Printer) []Question { return t.ask(t.Questions(pr)) }
