// SPDX-License-Identifier: MIT

package web

import (
	"gyle/guest"
	"gyle/internal/document"
)

// fromPublished takes the document of a kind out of a published page that was
// pasted, its source or what was copied from the screen. Any other text stays
// as it is, and so does one that begins as a document.
func fromPublished(kind, text string) string {
	if _, _, known := document.KindOf([]byte(text)); known {
		return text
	}
	k, ok, err := guest.FromText([]byte(text))
	if found := k.Document(kind); err == nil && ok && found != "" {
		return found
	}
	return text
}
