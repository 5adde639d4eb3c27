// SPDX-License-Identifier: MIT

package guest

import (
	"regexp"
	"strings"
)

var (
	documentHead = regexp.MustCompile(`^gyle: *([a-z]+)/\d+\s*$`)
	// documentLine is a line that a document may have at its margin.
	documentLine = regexp.MustCompile(`^(-( |$)|#|[A-Za-z][A-Za-z0-9 ]*:( |$)|\s|$)`)
)

// FromText returns what a text carries that was copied out of a published page:
// its source, or the documents as they stand on it with other words around
// them. It is not ok where there is none.
func FromText(text []byte) (k Kit, ok bool, err error) {
	if k, ok, err = FromPage(text); ok || err != nil {
		return k, ok, err
	}
	var kind string
	var lines []string
	done := func() {
		if to := k.place(kind); to != nil && *to == "" {
			*to, ok = strings.TrimRight(strings.Join(lines, "\n"), "\n ")+"\n", true
		}
		kind, lines = "", nil
	}
	for line := range strings.Lines(strings.ReplaceAll(string(text), "\u00a0", " ")) {
		line = strings.TrimRight(line, "\r\n")
		if head := documentHead.FindStringSubmatch(line); head != nil {
			done()
			kind = head[1]
		} else if kind != "" && !documentLine.MatchString(line) {
			done()
		}
		if kind != "" {
			lines = append(lines, line)
		}
	}
	done()
	return k, ok, nil
}

// place is where a kit holds the document of a kind; nil for those it doesn't.
func (k *Kit) place(kind string) *string {
	switch kind {
	case "recipe":
		return &k.Recipe
	case "brewhouse":
		return &k.House
	case "style":
		return &k.Style
	case "stock":
		return &k.Stock
	case "water":
		return &k.Water
	}
	return nil
}
