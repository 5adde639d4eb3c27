// SPDX-License-Identifier: MIT

package chart

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"gyle/quantity"
)

var update = flag.Bool("update", false, "rewrite the golden drawings in testdata")

// TestGolden compares each drawing of the example, on a phone and on a page,
// with the one that was last looked at and found good.
func TestGolden(t *testing.T) {
	for _, drawing := range drawings {
		for _, place := range []struct {
			name  string
			width float64
		}{{"phone", Phone}, {"page", Page}} {
			name := drawing.name + "-" + place.name
			t.Run(name, func(t *testing.T) {
				got := drawing.draw(Sheet{ID: name, Width: place.width})
				compareGolden(t, filepath.Join("testdata", name+".svg"), got)
			})
		}
	}
}

func compareGolden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s has changed; look at it and run go test -update", file)
	}
}

// TestDeterminism draws twice: the same data give the same bytes.
func TestDeterminism(t *testing.T) {
	for _, drawing := range drawings {
		s := Sheet{ID: "x", Printer: quantity.Printer{System: quantity.USCustomary, DecimalComma: true}}
		if first, second := drawing.draw(s), drawing.draw(s); first != second {
			t.Errorf("%s differs from one drawing to the next", drawing.name)
		}
	}
}

// BenchmarkDrawings draws the whole example once for a page.
func BenchmarkDrawings(b *testing.B) {
	for b.Loop() {
		for _, drawing := range drawings {
			drawing.draw(Sheet{ID: "x"})
		}
	}
}
