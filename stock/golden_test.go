// SPDX-License-Identifier: MIT

package stock_test

import (
	"testing"

	"golang.org/x/tools/txtar"

	"gyle/internal/document/documenttest"
	"gyle/stock"
)

// TestDocuments compares the canonical text or the faults.
func TestDocuments(t *testing.T) {
	documenttest.Golden(t, "testdata/*.txtar", func(files []txtar.File) string {
		return documenttest.Canonical(t, files[0], stock.Parse)
	})
}
