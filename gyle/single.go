// SPDX-License-Identifier: MIT

package gyle

import (
	"errors"
	"fmt"
	"strings"

	"gyle/internal/document"
)

// Text returns the canonical text of one entry, as a device sends it. The
// error of its clock isn't in it: that is found out where it arrives.
func (e Entry) Text() ([]byte, error) {
	e.Clock = 0
	text, err := document.Marshal(Kind, e)
	if err != nil {
		return nil, err
	}
	_, rest, _ := strings.Cut(string(text), "\n") // without the line that names the kind
	return []byte(rest), nil
}

// ParseEntry reads the text of one entry and finds its faults. What it points
// at may not have arrived yet.
func ParseEntry(text []byte) (Entry, error) {
	entries, err := ParseEntries([]string{string(text)})
	if err != nil {
		return Entry{}, err
	}
	return entries[0], nil
}

// ParseEntries reads the texts of entries, all of them or none, in a fraction of
// the time that they take one by one. The places of faults count the lines of
// all texts together.
func ParseEntries(texts []string) ([]Entry, error) {
	var log strings.Builder
	log.WriteString("gyle: gyle/1\nlog:\n")
	for _, text := range texts {
		mark := "- "
		for line := range strings.SplitSeq(strings.TrimRight(text, "\n"), "\n") {
			log.WriteString(mark + line + "\n")
			mark = "  "
		}
	}
	var g struct {
		Log Log `gyle:"log"`
	}
	s, err := document.Unmarshal("entry", []byte(log.String()), Kind, &g)
	if err != nil {
		return nil, err
	}
	if len(g.Log) != len(texts) {
		return nil, errors.New("read an entry: the text isn't one entry")
	}
	var faults document.Faults
	for i, e := range g.Log {
		e.validateBody(fmt.Sprintf("log[%d]", i), func(path, hint, format string, args ...any) {
			faults = append(faults, s.Fault(path, fmt.Sprintf(format, args...), hint))
		})
	}
	if len(faults) > 0 {
		return nil, faults
	}
	return g.Log, nil
}

// Sort names what an entry is, by its body: reading, deed, interruption,
// choice, series, override, note or strike.
func (e Entry) Sort() string {
	switch {
	case e.Reading != nil:
		return "reading"
	case e.Deed != nil:
		return "deed"
	case e.Interruption != nil:
		return "interruption"
	case e.Choice != nil:
		return "choice"
	case e.Series != nil:
		return "series"
	case e.Override != nil:
		return "override"
	case e.Note != "":
		return "note"
	}
	return "strike"
}
