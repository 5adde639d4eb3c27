// SPDX-License-Identifier: MIT

package science_test

import (
	"slices"
	"strings"
	"testing"

	"gyle/science"
)

// TestLookup finds a formula by name and its literature by key. The constants
// are those of malowicki2005 as hops.IsoRate states them.
func TestLookup(t *testing.T) {
	f, ok := science.Lookup("hops.IsoRate")
	if !ok {
		t.Fatal("hops.IsoRate is not in the catalogue")
	}
	if !strings.Contains(f.Text, "7.9e11 · exp(−11858/T)") || f.Tag != "verified" {
		t.Errorf("hops.IsoRate reads %q, tag %q", f.Text, f.Tag)
	}
	if !slices.Contains(f.Cited(), "malowicki2005") || !strings.Contains(science.Sources["malowicki2005"], "Shellhammer") {
		t.Errorf("hops.IsoRate cites %v", f.Cited())
	}
	if _, ok := science.Lookup("hops.NoSuchFormula"); ok {
		t.Error("a formula was found that doesn't exist")
	}
}

// TestAll checks that the catalogue is in order, as Lookup needs it, and that
// callers can't change it.
func TestAll(t *testing.T) {
	all := science.All()
	byName := func(a, b science.Formula) int { return strings.Compare(a.Name, b.Name) }
	if len(all) == 0 || !slices.IsSortedFunc(all, byName) {
		t.Fatalf("the catalogue of %d formulas is empty or not sorted", len(all))
	}
	for _, f := range all {
		if found, ok := science.Lookup(f.Name); !ok || found != f {
			t.Errorf("%s is in the catalogue and is not found", f.Name)
		}
	}
	name := all[0].Name
	all[0].Name = "changed"
	if science.All()[0].Name != name {
		t.Error("a caller changed the catalogue")
	}
}
