// SPDX-License-Identifier: MIT

package gyle

import (
	"bytes"
	"cmp"
	"slices"
	"time"

	"gyle/internal/document"
)

// Log is the log of a gyle in the order in which entries arrived. It only
// grows.
type Log []Entry

// Fact is one event as the log knows it now, beside what was first written.
type Fact struct {
	Entry       Entry   // as it counts: the body and the time of the last correction, the ID of the original
	Original    Entry   // as it was written
	Corrections []Entry // those that count, in their order
	Struck      bool    // it never happened
}

// Corrected reports whether the fact isn't as it was first written.
func (f Fact) Corrected() bool { return len(f.Corrections) > 0 }

// Current folds the corrections into what they correct and returns all events
// in the order in which they really were, the struck ones included. A
// correction may itself be corrected or struck; striking it brings back what it
// had corrected. One that points at nothing known counts for nothing until its
// original arrives.
func (l Log) Current() []Fact {
	f := newFolder(l)
	facts := make([]Fact, 0, len(f.sorted))
	for _, e := range f.sorted {
		if e.Correction == nil {
			facts = append(facts, f.fold(e))
		}
	}
	return inOrder(facts, func(f *Fact) *Entry { return &f.Entry })
}

// Standing returns the events that count, as they count, in their order.
func (l Log) Standing() []Entry {
	f := newFolder(l)
	entries := make([]Entry, 0, len(f.sorted))
	for i := range f.sorted {
		e := &f.sorted[i]
		switch {
		case e.Correction != nil:
		case len(f.of[e.ID]) == 0: // most of a long log
			entries = append(entries, *e)
		default:
			if fact := f.fold(*e); !fact.Struck {
				entries = append(entries, fact.Entry)
			}
		}
	}
	return inOrder(entries, func(e *Entry) *Entry { return e })
}

// folder folds corrections into entries.
type folder struct {
	sorted Log
	of     map[ID][]Entry // corrections by what they point at, in order
	open   []ID           // being folded: a ring of corrections ends here
}

func newFolder(l Log) *folder {
	f := &folder{sorted: inOrder(l, func(e *Entry) *Entry { return e }), of: map[ID][]Entry{}}
	for i := range f.sorted {
		if c := f.sorted[i].Correction; c != nil {
			f.of[c.Of] = append(f.of[c.Of], f.sorted[i])
		}
	}
	return f
}

func (f *folder) fold(e Entry) Fact {
	fact := Fact{Entry: e, Original: e}
	if slices.Contains(f.open, e.ID) {
		return fact
	}
	f.open = append(f.open, e.ID)
	for _, c := range f.of[e.ID] {
		inner := f.fold(c)
		if inner.Struck {
			continue
		}
		fact.Corrections = append(fact.Corrections, c)
		fact.Struck = inner.Entry.Correction.Strike
		fact.Entry = corrected(fact.Entry, inner.Entry)
	}
	f.open = f.open[:len(f.open)-1]
	return fact
}

// corrected returns an entry as a correction says it was. A correction that
// corrects a correction keeps pointing where that did.
func corrected(e, by Entry) Entry {
	out := e
	if by.hasBody() {
		out.Reading, out.Deed, out.Interruption, out.Choice, out.Note = by.Reading, by.Deed, by.Interruption, by.Choice, by.Note
		out.Series, out.Override = by.Series, by.Override
	}
	if !by.Correction.Time.IsZero() {
		out.Time, out.Clock = by.Correction.Time, 0
	}
	return out
}

// hasBody reports whether the entry says something of its own.
func (e Entry) hasBody() bool {
	return e.Reading != nil || e.Deed != nil || e.Interruption != nil || e.Choice != nil || e.Series != nil || e.Override != nil || e.Note != ""
}

// Strike returns the entry that takes another one back: the undo of every
// entry, corrections included.
func Strike(of, id ID, at Time, who, why string) Entry {
	return Entry{ID: id, Time: at, Who: who, Correction: &Correction{Of: of, Strike: true, Why: why}}
}

// Lost returns the entries of a log that a later form of it has no more, or has
// otherwise: a log only grows, so there should be none. The measured error of a
// clock may be stated later.
func (l Log) Lost(later Log) []ID {
	kept := make(map[ID]*Entry, len(later))
	for i := range later {
		kept[later[i].ID] = &later[i]
	}
	var lost []ID
	for _, e := range l {
		if now := kept[e.ID]; now == nil || !bytes.Equal(canonical(e), canonical(*now)) {
			lost = append(lost, e.ID)
		}
	}
	return lost
}

// Sorted returns the entries by the time at which they were made, the clocks'
// errors taken off; those of the same time by their IDs.
func (l Log) Sorted() Log {
	return slices.Clone(inOrder(l, func(e *Entry) *Entry { return e }))
}

// inOrder returns a list in the order of its entries: itself, if it is in order,
// else a copy. The times are worked out once: a log may be long.
func inOrder[T any](list []T, entry func(*T) *Entry) []T {
	type place struct {
		when time.Time
		id   ID
		at   int
	}
	earlier := func(a, b place) int { return cmp.Or(a.when.Compare(b.when), cmp.Compare(a.id, b.id)) }
	at := func(i int) place {
		e := entry(&list[i])
		return place{e.When().Time, e.ID, i}
	}
	sorted := true
	for i, before := 1, (place{}); sorted && i < len(list); i++ {
		if i == 1 {
			before = at(0)
		}
		now := at(i)
		sorted, before = earlier(before, now) <= 0, now
	}
	if sorted {
		return list
	}
	places := make([]place, len(list))
	for i := range list {
		places[i] = at(i)
	}
	slices.SortStableFunc(places, earlier)
	out := make([]T, len(list))
	for i, p := range places {
		out[i] = list[p.at]
	}
	return out
}

// Conflict is an ID under which two devices have different entries. It can't
// happen to devices that draw their IDs at random; it happens when somebody
// edits a log by hand. Merge keeps one of them and tells the other.
type Conflict struct{ Kept, Other Entry }

// Merge brings logs together: every entry once, in the order of [Log.Sorted].
// The order of the logs makes no difference. Two entries of one ID that differ
// only in the measured error of the clock are the same.
func Merge(logs ...Log) (Log, []Conflict) {
	var all Log
	for _, l := range logs {
		all = append(all, l...)
	}
	text := make(map[ID][]byte, len(all))
	at := make(map[ID]int, len(all))
	var out Log
	var conflicts []Conflict
	for _, e := range all {
		i, twice := at[e.ID]
		if !twice {
			at[e.ID] = len(out)
			out = append(out, e)
			continue
		}
		if text[e.ID] == nil {
			text[e.ID] = canonical(out[i])
		}
		out[i], text[e.ID], conflicts = settle(out[i], e, text[e.ID], conflicts)
	}
	slices.SortFunc(conflicts, func(a, b Conflict) int {
		return cmp.Or(cmp.Compare(a.Kept.ID, b.Kept.ID), bytes.Compare(canonical(a.Other), canonical(b.Other)))
	})
	conflicts = slices.CompactFunc(conflicts, func(a, b Conflict) bool {
		return a.Kept.ID == b.Kept.ID && bytes.Equal(canonical(a.Other), canonical(b.Other))
	})
	for i := range conflicts {
		conflicts[i].Kept = out[at[conflicts[i].Kept.ID]]
	}
	return out.Sorted(), conflicts
}

// settle keeps one of two entries of an ID, whichever comes first.
func settle(kept, e Entry, keptText []byte, conflicts []Conflict) (Entry, []byte, []Conflict) {
	text := canonical(e)
	switch order := bytes.Compare(text, keptText); {
	case order < 0:
		return e, text, append(conflicts, Conflict{e, kept})
	case order > 0:
		return kept, keptText, append(conflicts, Conflict{kept, e})
	}
	if e.Clock < kept.Clock {
		return e, text, conflicts
	}
	return kept, keptText, conflicts
}

// canonical returns the text of an entry without the error of its clock.
func canonical(e Entry) []byte {
	e.Clock = 0
	text, err := document.Marshal(Kind, e)
	if err != nil {
		return []byte(err.Error())
	}
	return text
}
