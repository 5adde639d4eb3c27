// SPDX-License-Identifier: MIT

package guest

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// kitMark stands before the kit in a page, and kitEnd behind it.
var (
	kitMark = []byte(`<script type="application/json" id="kit">`)
	kitEnd  = []byte(`</script>`)
)

// FromPage returns the kit that a published page carries. It is not ok when the
// text is no such page; the error is about a page whose kit is damaged.
func FromPage(page []byte) (k Kit, ok bool, err error) {
	_, rest, ok := bytes.Cut(page, kitMark)
	if !ok {
		return k, false, nil
	}
	text, _, ok := bytes.Cut(rest, kitEnd)
	if !ok {
		return k, true, fmt.Errorf("the page ends within what it carries: it was not saved whole")
	}
	if err := json.Unmarshal(text, &k); err != nil {
		return k, true, fmt.Errorf("read what the page carries: %w", err)
	}
	return k, true, nil
}

// Document returns the document of a kind that a kit carries; empty when it
// has none.
func (k Kit) Document(kind string) string {
	switch kind {
	case "recipe", "":
		return k.Recipe
	case "brewhouse":
		return k.House
	case "style":
		return k.Style
	case "stock":
		return k.Stock
	case "water":
		return k.Water
	}
	return ""
}
