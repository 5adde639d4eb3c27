// SPDX-License-Identifier: MIT

package publish

import (
	"strings"
	"unicode"
)

// typed leaves out of a text what no keyboard writes: control characters, which
// a terminal might obey, other than the ends of lines and tabs.
func typed(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' && r != '\t' {
			return -1
		}
		return r
	}, text)
}
