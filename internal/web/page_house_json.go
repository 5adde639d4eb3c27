// SPDX-License-Identifier: MIT

package web

import (
	"net/http"

	"gyle/plan"
)

// documentJSON is a document for other programs, with what its sheet works
// out.
type documentJSON struct {
	Document any `json:"document"`
	Computed any `json:"computed"`
}

// sendDocumentJSON answers with a document as [plan.WriteJSON] writes it.
func sendDocumentJSON(w http.ResponseWriter, document, computed any) error {
	text, err := plan.WriteJSON(documentJSON{document, computed})
	if err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", "application/json; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(http.StatusOK)
	_, err = w.Write(text)
	return err
}
