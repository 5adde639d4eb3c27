// SPDX-License-Identifier: MIT

package card

import (
	"fmt"

	"gyle/publish/font"
	"gyle/recipe"
)

// versions tell how the beer came to be: what was changed, why, what was
// expected, and what a panel found.
func (w *work) versions() section {
	s := section{name: "versions", title: "Versions"}
	for i, r := range w.Versions {
		e := entry{mark: openMark, label: fmt.Sprintf("Version %d", r.Version)}
		if r.Parent > 0 {
			e.label += fmt.Sprintf(", from %d", r.Parent)
		}
		e.notes = w.changeNotes(r)
		if i > 0 && w.Versions[i-1].Version == r.Parent {
			e.notes = append(e.notes, differences(w.Versions[i-1], r)...)
		}
		if said := w.Panel[r.Version]; font.Clean(said) != "" {
			e.notes = append(e.notes, note{text: "Panel: " + said, ink: measured})
		}
		s.blocks = append(s.blocks, w.entry(e))
	}
	return s
}

// changeNotes are the author's words on a version.
func (w *work) changeNotes(r *recipe.Recipe) (notes []note) {
	if r.Change == nil {
		if r.Parent == 0 {
			notes = []note{{text: "The beginning"}}
		}
		return notes
	}
	for _, part := range []struct{ what, text string }{{"", r.Change.What}, {"why: ", r.Change.Why}, {"expected: ", r.Change.Expect}} {
		if font.Clean(part.text) != "" {
			notes = append(notes, note{text: capital(part.what + part.text)})
		}
	}
	return notes
}

// differences are the numbers that moved.
func differences(from, to *recipe.Recipe) (notes []note) {
	for _, d := range recipe.Differences(from, to) {
		switch d.Part {
		case "grist":
			d.What = maltName(d.What)
		case "hops":
			d.What = hopName(d.What)
		}
		notes = append(notes, note{text: capital(d.String())})
	}
	return notes
}
