// SPDX-License-Identifier: MIT

package tasting

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strconv"
)

// Arrived returns when an answer came in.
func (a Answer) Arrived() Time {
	if a.Came.IsZero() {
		return a.At
	}
	return a.Came
}

// subject is what an answer is about: a set, or a glass of it.
type subject struct {
	taster string
	set    int
	code   Code
}

func (f *Flight) subject(a Answer) subject {
	s := subject{taster: a.Taster, set: a.Set}
	if f.Kind.ByGlass() {
		s.code = a.Code
	}
	return s
}

// late reports whether an answer came too late to count: after the flight was
// closed, or after its key was opened.
func (f *Flight) late(a Answer) bool {
	came := a.Arrived()
	opened := f.Key != nil && !f.Key.Opened.IsZero() && !came.Before(f.Key.Opened.Time)
	return opened || f.Closed != nil && came.After(f.Closed.At.Time)
}

// Standing is the answer that counts, with what was said before it and what
// came too late.
type Standing struct {
	Answer
	Earlier []Answer // what it stands in place of, the first one first
	TooLate []Answer // corrections that came when the flight was closed or the key open
}

// Changed reports whether the assessor changed their mind.
func (s Standing) Changed() bool { return len(s.Earlier) > 0 }

// Standing returns the answers that count, in the order of the first answer to
// each set or glass. An answer that came too late doesn't count at all; it is
// among those of [Flight.TooLate].
func (f *Flight) Standing() (all []Standing) {
	place := map[subject]int{}
	for _, a := range f.Answers {
		about := f.subject(a)
		i, known := place[about]
		switch late := f.late(a); {
		case late && known:
			all[i].TooLate = append(all[i].TooLate, a)
		case late:
		case known:
			all[i].Earlier = append(all[i].Earlier, all[i].Answer)
			all[i].Answer = a
		default:
			place[about] = len(all)
			all = append(all, Standing{Answer: a})
		}
	}
	return all
}

// TooLate returns the answers that don't count because they came too late.
func (f *Flight) TooLate() (late []Answer) {
	for _, a := range f.Answers {
		if f.late(a) {
			late = append(late, a)
		}
	}
	return late
}

// Missing returns the sets that have not been answered in full.
func (f *Flight) Missing() (missing []Serving) {
	answered := map[subject]bool{}
	for _, s := range f.Standing() {
		answered[f.subject(s.Answer)] = true
	}
	for _, serving := range f.Serving {
		about := subject{taster: serving.Taster, set: serving.Set}
		whole := answered[about]
		if f.Kind.ByGlass() {
			whole = !slices.ContainsFunc(serving.Codes, func(code Code) bool {
				about.code = code
				return !answered[about]
			})
		}
		if !whole {
			missing = append(missing, serving)
		}
	}
	return missing
}

// Head returns the hash at the end of the chain of the first answers: each
// link hashes the one before it together with one answer, so that none can be
// changed or taken away unnoticed.
func (f *Flight) Head(count int) string {
	link := make([]byte, 0, sha256.Size)
	for _, a := range f.Answers[:min(count, len(f.Answers))] {
		sum := sha256.Sum256(append(link, a.line()...))
		link = append(link[:0:0], sum[:]...)
	}
	return hex.EncodeToString(link)
}

// line is an answer as it is hashed: a line of JSON, numbers as texts.
func (a Answer) line() []byte {
	scores := make([][2]string, 0, len(a.Scores))
	for _, s := range a.Scores {
		scores = append(scores, [2]string{s.Key, strconv.FormatFloat(s.Value, 'g', -1, 64)})
	}
	return oneLine([]any{a.ID, a.At.String(), a.Came.String(), a.Taster, a.Set, a.Code, a.Codes, a.Says, scores, a.Comment, a.Corrects, a.Why})
}

// Close ends a flight: answers that come later don't count.
func (f *Flight) Close(at Time) {
	f.Closed = &Closing{At: at, Count: len(f.Answers), Head: f.Head(len(f.Answers))}
}
