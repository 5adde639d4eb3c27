// SPDX-License-Identifier: MIT

package data

import (
	"fmt"
	"slices"
	"sync"
)

// Range is a typical range: the smallest and the largest usual value. A pair
// of equal numbers means that one published mean is known and no scatter.
type Range [2]float64

// Low returns the smallest usual value.
func (r Range) Low() float64 { return r[0] }

// High returns the largest usual value.
func (r Range) High() float64 { return r[1] }

// Mid returns the middle of the range, for planning.
func (r Range) Mid() float64 { return (r[0] + r[1]) / 2 }

// Origin says where the figures of a record come from and how well that was
// checked. Every record has both.
type Origin struct {
	Basis        string `yaml:"basis"`        // "published: ...", "common practice" or "memory ..."
	Verification string `yaml:"verification"` // "read", "practice", "computed", "memory" ...
	Note         string `yaml:"note"`         // what else should be known; often empty
}

// A shelf holds the records of one section of one file: as text until a record
// is asked for, parsed from then on.
type shelf[T any] struct {
	file, section string // "malts.yaml", "records"

	cut   sync.Once
	texts map[string]string // id → the text of one record
	ids   []string          // sorted

	mu     sync.Mutex
	parsed map[string]T
}

func newShelf[T any](file, section string) *shelf[T] {
	return &shelf[T]{file: file, section: section, parsed: map[string]T{}}
}

// get returns the record called id.
func (s *shelf[T]) get(id string) (record T, ok bool) {
	s.cut.Do(s.cutFile)
	text, ok := s.texts[id]
	if !ok {
		return record, false
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if record, ok := s.parsed[id]; ok {
		return record, true
	}
	record, err := parseRecord[T](text)
	if err != nil {
		panic(fmt.Sprintf("read %s, record %s: %v", s.file, id, err)) // the tests parse every record
	}
	s.parsed[id] = record
	return record, true
}

// sortedIDs returns the ids of all records, sorted. The caller may change it.
func (s *shelf[T]) sortedIDs() []string {
	s.cut.Do(s.cutFile)
	return slices.Clone(s.ids)
}
