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
	var g struct {
		Log Log `gyle:"log"`
	}
	var log strings.Builder
	log.WriteString("gyle: gyle/1\nlog:\n")
	for i, line := range strings.Split(strings.TrimRight(string(text), "\n"), "\n") {
		mark := "  "
		if i == 0 {
			mark = "- "
		}
		log.WriteString(mark + line + "\n")
	}
	s, err := document.Unmarshal("entry", []byte(log.String()), Kind, &g)
	if err != nil {
		return Entry{}, err
	}
	if len(g.Log) != 1 {
		return Entry{}, errors.New("read an entry: the text isn't one entry")
	}
	var faults document.Faults
	g.Log[0].validateBody("log[0]", func(path, hint, format string, args ...any) {
		faults = append(faults, s.Fault(path, fmt.Sprintf(format, args...), hint))
	})
	if len(faults) > 0 {
		return Entry{}, faults
	}
	return g.Log[0], nil
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
