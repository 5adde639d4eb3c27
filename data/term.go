// SPDX-License-Identifier: MIT

package data

import (
	"slices"
	"strings"
	"sync"
)

// TermType is a word of the standard terminology of beer flavour. Its ID has four
// digits, of which the first two are its class and what is alike in it.
type TermType struct {
	ID     string `yaml:"id"`    // "1340"
	Name   string `yaml:"name"`  // "astringent"
	Class  string `yaml:"class"` // "mouthfeel"
	Tier   int    `yaml:"tier"`  // 1 for everyday use, 2 for trained panels
	Origin `yaml:",inline"`
}

var terms = newShelf[TermType]("terms.yaml", "records")

// termCodes are the codes of the terms by their names in small letters.
var termCodes = sync.OnceValue(func() map[string]string {
	codes := map[string]string{}
	for _, code := range terms.sortedIDs() {
		t, _ := terms.get(code)
		codes[strings.ToLower(t.Name)] = code
	}
	return codes
})

// Term returns the term of a code or a name: "1340" or "Astringent".
func Term(word string) (TermType, bool) {
	word = strings.ToLower(strings.TrimSpace(word))
	if code, known := termCodes()[word]; known {
		word = code
	}
	return terms.get(word)
}

// TermNames returns the names of all terms in the order of their codes.
func TermNames() (names []string) {
	for _, code := range terms.sortedIDs() {
		t, _ := terms.get(code)
		names = append(names, t.Name)
	}
	return names
}

// NoteType is something that tasters complain about, with what usually lies
// behind it. Whether it is a fault is for the style to say.
type NoteType struct {
	ID       string      `yaml:"id"`
	Name     string      `yaml:"name"`
	Terms    []string    `yaml:"terms"`    // of the standard terminology
	Words    []string    `yaml:"words"`    // that tasters say for it
	Much     []string    `yaml:"much"`     // attributes of which too much is this note
	Little   []string    `yaml:"little"`   // attributes of which too little is this note
	Compound string      `yaml:"compound"` // that is tasted; empty where it is many
	Causes   []NoteCause `yaml:"causes"`   // the most usual first
	Origin   `yaml:",inline"`
}

// NoteCause is a usual cause of a note.
type NoteCause struct {
	Sign  string `yaml:"sign"`  // what a log may show of it, see package causes; empty: no log does
	Says  string `yaml:"says"`  // the cause
	Lever string `yaml:"lever"` // what is usually done about it
}

var notes = newShelf[NoteType]("off-notes.yaml", "records")

// Note returns the off-note called id.
func Note(id string) (NoteType, bool) { return notes.get(id) }

// NoteIDs returns the ids of all off-notes, sorted.
func NoteIDs() []string { return notes.sortedIDs() }

// NotesIn finds the off-notes that a text speaks of, by their terms and words.
// A negated word ("not sharp", "no butter") doesn't count.
func NotesIn(text string) (ids []string) {
	said := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" \t\n.,;:!?()\"“”'’/", r) })
	for _, id := range notes.sortedIDs() {
		note, _ := notes.get(id)
		if slices.ContainsFunc(slices.Concat(note.Terms, note.Words), func(word string) bool { return spoken(said, word) }) {
			ids = append(ids, id)
		}
	}
	return ids
}

// negations are the words before another that take it back.
var negations = []string{"no", "not", "less", "without", "never", "hardly", "isn", "nor"}

// spoken reports whether a word, or a few in a row, is among those said and not
// denied.
func spoken(said []string, word string) bool {
	parts := strings.FieldsFunc(strings.ToLower(word), func(r rune) bool { return r == ' ' || r == '/' })
	for i := 0; i+len(parts) <= len(said); i++ {
		if !slices.Equal(said[i:i+len(parts)], parts) {
			continue
		}
		before := said[max(0, i-2):i]
		if !slices.ContainsFunc(before, func(w string) bool { return slices.Contains(negations, w) }) {
			return true
		}
	}
	return false
}
