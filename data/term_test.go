// SPDX-License-Identifier: MIT

package data

import (
	"slices"
	"testing"
)

// The abstract of Meilgaard, Dalgliesh and Clapperton (J. Inst. Brew. 85 (1979)
// 38) counts 14 classes, 44 first-tier terms and 122 terms in all. Class 1 and
// the codes below were read in a public copy of the list.
func TestTerms(t *testing.T) {
	tiers, classes := map[int]int{}, map[string]bool{}
	names := TermNames()
	for _, name := range names {
		term, known := Term(name)
		if !known || term.Name != name {
			t.Errorf("%s: found %+v", name, term)
		}
		tiers[term.Tier]++
		classes[term.Class] = true
	}
	if len(names) != 122 || tiers[1] != 44 || tiers[2] != 78 || len(classes) != 14 {
		t.Errorf("%d terms, tiers %v, %d classes", len(names), tiers, len(classes))
	}
	for code, want := range map[string]string{"0110": "alcoholic", "0131": "isoamyl acetate", "0150": "acetaldehyde", "0173": "hop oil"} {
		if term, known := Term(code); !known || term.Name != want {
			t.Errorf("%s is %q, want %q", code, term.Name, want)
		}
	}
	if term, known := Term(" Astringent "); !known || term.ID != "1340" {
		t.Errorf("astringent is %+v", term)
	}
	if _, known := Term("tasty"); known {
		t.Error("tasty is no term")
	}
}

func TestNotes(t *testing.T) {
	for _, id := range NoteIDs() {
		note, _ := Note(id)
		if len(note.Causes) == 0 || note.Basis == "" || note.Verification == "" {
			t.Errorf("%s: %+v", id, note)
		}
		for _, term := range note.Terms {
			if found, known := Term(term); !known || found.Name != term {
				t.Errorf("%s: %q is no term", id, term)
			}
		}
	}
	for text, want := range map[string][]string{
		"Roast a bit sharp at the end": {"astringent"}, "not sharp": nil, "no harsh end": nil, "sweetcorn, a little cardboard": {"dms", "papery"},
		"oats, smooth": nil, "nail varnish": {"estery"}, "sharper": nil,
	} {
		if got := NotesIn(text); !slices.Equal(got, want) {
			t.Errorf("%q speaks of %v, want %v", text, got, want)
		}
	}
}
