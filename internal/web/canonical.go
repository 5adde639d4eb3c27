// SPDX-License-Identifier: MIT

package web

import (
	"gyle/brewhouse"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// mergeDocuments brings two changes of a document together. A form writes the
// whole text canonically, so that two people who each touched one line differ
// in all of them: then the three are compared in their canonical form, if
// mine and theirs have it already.
func mergeDocuments(kind, base, mine, theirs string) (merged string, ok bool) {
	if merged, ok = merge(base, mine, theirs); ok {
		return merged, true
	}
	began, ok := canonicalText(kind, base)
	if !ok || !isCanonical(kind, mine) || !isCanonical(kind, theirs) {
		return "", false
	}
	return merge(began, mine, theirs)
}

func isCanonical(kind, text string) bool {
	written, ok := canonicalText(kind, text)
	return ok && written == text
}

// canonicalText returns the text of a document as the program would write it.
func canonicalText(kind, text string) (string, bool) {
	switch kind {
	case style.Kind:
		return canonicalBy(style.Parse, text)
	case recipe.Kind:
		return canonicalBy(recipe.Parse, text)
	case brewhouse.Kind:
		return canonicalBy(brewhouse.Parse, text)
	case stock.Kind:
		return canonicalBy(stock.Parse, text)
	case water.Kind:
		return canonicalBy(water.Parse, text)
	}
	return "", false
}

func canonicalBy[D interface{ Text() ([]byte, error) }](parse func(string, []byte) (D, error), text string) (string, bool) {
	d, err := parse("", []byte(text))
	if err != nil {
		return "", false
	}
	written, err := d.Text()
	return string(written), err == nil
}
