// SPDX-License-Identifier: MIT

package data

import (
	"embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"go.yaml.in/yaml/v4"
)

//go:embed *.yaml
var files embed.FS

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
	texts map[string]string // id → the YAML text of one record
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

func (s *shelf[T]) cutFile() {
	content, err := files.ReadFile(s.file)
	if err != nil {
		panic(err) // the file is embedded
	}
	s.texts = map[string]string{}
	for _, text := range recordTexts(string(content), s.section) {
		id := recordID(text)
		s.texts[id] = text
		s.ids = append(s.ids, id)
	}
	slices.Sort(s.ids)
}

// recordStart begins a record in the files of this package.
const recordStart = "\n  - id: "

// recordTexts cuts one section of a file into the texts of its records. A
// section begins with its name at the margin and ends where the next one does.
func recordTexts(content, section string) []string {
	_, body, found := strings.Cut("\n"+content, "\n"+section+":\n")
	if !found {
		return nil
	}
	body = "\n" + body
	body = body[:sectionEnd(body)]
	var texts []string
	for _, piece := range strings.Split(body, recordStart)[1:] {
		texts = append(texts, "- id: "+piece+"\n")
	}
	return texts
}

// sectionEnd returns where the first line that begins at the margin starts.
func sectionEnd(body string) int {
	for at := 0; at+1 < len(body); at++ {
		if body[at] == '\n' && body[at+1] != ' ' && body[at+1] != '\n' {
			return at
		}
	}
	return len(body)
}

// recordID returns the id in the first line of a record's text.
func recordID(text string) string {
	line, _, _ := strings.Cut(strings.TrimPrefix(text, "- id: "), "\n")
	return strings.TrimSpace(line)
}

func parseRecord[T any](text string) (record T, err error) {
	// The other lines keep the four blanks they have in the file; the first
	// one is moved to the same depth.
	var one []T
	err = yaml.Unmarshal([]byte(strings.Replace(text, "- ", "  - ", 1)), &one)
	if err != nil {
		return record, err
	}
	if len(one) != 1 {
		return record, fmt.Errorf("found %d records in one text", len(one))
	}
	return one[0], nil
}
