// SPDX-License-Identifier: MIT

package water_test

import (
	"fmt"
	"testing"

	"golang.org/x/tools/txtar"

	"gyle/internal/document/documenttest"
	"gyle/water"
)

// TestDocuments compares the canonical text and the charge of the alkalinity,
// or the faults.
func TestDocuments(t *testing.T) {
	documenttest.Golden(t, "testdata/*.txtar", func(files []txtar.File) string {
		text := documenttest.Canonical(t, files[0], water.Parse)
		w, err := water.Parse(files[0].Name, files[0].Data)
		if err != nil || w.Alkalinity == nil {
			return text
		}
		return text + fmt.Sprintf("\n%.3f mEq/L\n", float64(w.Alkalinity.Charge()))
	})
}
