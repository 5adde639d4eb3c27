// SPDX-License-Identifier: MIT

package web

import "slices"

// chapter is a kind of document as the contents list names it.
type chapter struct {
	Kind  string
	Name  string // of the list: "Beers"
	One   string // of a single one: "recipe"
	About string // a sentence for the head of the list
}

// allChapters are in the order of the contents list.
var allChapters = []chapter{
	{"recipe", "Beers", "recipe", "A recipe says what a beer is: its gravity, the shares of its grist, the bitterness of each charge. Kilos come with the house."},
	{"style", "Styles", "style", "A style is what its author says of a kind of beer: rules, each with a range and a reason."},
	{"brewhouse", "Houses", "house", "A house is one place where beer is brewed: its vessels, its heat, its losses and its habits."},
	{"stock", "Store", "store", "A store holds the lots in one shed, with their analyses and dates."},
	{"water", "Water", "water", "A water is the report of one supply, as printed, and what its labels meant."},
	{"gyle", "Gyles", "gyle", "A gyle is one brewing: its plan, and the log of what was measured."},
	{"tasting", "Tastings", "tasting", "A tasting puts a question to a panel, without names on the glasses."},
}

// chaptersOf keeps the chapters of some kinds; nil keeps all.
func chaptersOf(kinds []string) (kept []chapter) {
	for _, c := range allChapters {
		if kinds == nil || slices.Contains(kinds, c.Kind) {
			kept = append(kept, c)
		}
	}
	return kept
}

// chapter finds the chapter of a kind; an unknown kind is [ErrNotFound].
func (s *Server) chapter(kind string) (chapter, error) {
	i := slices.IndexFunc(s.chapters, func(c chapter) bool { return c.Kind == kind })
	if i < 0 {
		return chapter{}, ErrNotFound
	}
	return s.chapters[i], nil
}

// kindName is what a reader calls a document of a kind.
func kindName(kind string) string {
	for _, c := range allChapters {
		if c.Kind == kind {
			return c.One
		}
	}
	return kind
}
