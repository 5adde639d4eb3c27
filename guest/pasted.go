// SPDX-License-Identifier: MIT

package guest

import "strings"

// headOf returns the kind that a line begins a document of: "gyle: recipe/1".
func headOf(line string) (kind string, ok bool) {
	rest, ok := strings.CutPrefix(line, "gyle:")
	kind, version, slash := strings.Cut(strings.TrimSpace(rest), "/")
	return kind, ok && slash && kind != "" && version != "" && strings.Trim(version, "0123456789") == ""
}

// inDocument reports whether a document may have such a line: empty, indented,
// an entry of a list, a remark, or a key at the margin. The engine of pages
// does without regular expressions, which would make it a tenth larger.
func inDocument(line string) bool {
	if line == "" || strings.ContainsRune(" \t-#", rune(line[0])) {
		return true
	}
	key, rest, ok := strings.Cut(line, ":")
	letters := "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 "
	return ok && (rest == "" || rest[0] == ' ') && strings.Trim(key, letters) == ""
}

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
		if head, ok := headOf(line); ok {
			done()
			kind = head
		} else if kind != "" && !inDocument(line) {
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
