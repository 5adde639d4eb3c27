// SPDX-License-Identifier: MIT

//go:build !js

package document

import (
	"regexp"
	"strings"
)

// firstKey is the line that says the kind. A document may also be written as
// JSON, which is YAML in braces and quotes.
var firstKey = regexp.MustCompile(`^(?:\{\s*)?(?:gyle:\s+|["']gyle["']\s*:\s*)["']?([^\s"',}#]+)`)

// KindOf looks at the first key of a text, "gyle: recipe/1", without reading
// the rest. It is not ok when the text doesn't begin with such a key.
func KindOf(src []byte) (kind string, version int, ok bool) {
	text := strings.TrimPrefix(string(src[:min(len(src), 4096)]), byteOrderMark)
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if line == "" || line == "---" || line == "{" || line[0] == '#' {
			continue
		}
		found := firstKey.FindStringSubmatch(line)
		if found == nil {
			return "", 0, false
		}
		return splitKind(found[1])
	}
	return "", 0, false
}
