// SPDX-License-Identifier: MIT

package recipe_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"gyle/internal/document/documenttest"
	"gyle/recipe"
)

// TestDocuments reads recipes, and compares the canonical text or the faults.
func TestDocuments(t *testing.T) {
	documenttest.Golden(t, "testdata/documents/*.txtar", func(files []txtar.File) string {
		return documenttest.Canonical(t, files[0], recipe.Parse)
	})
}

// TestDifferences compares two versions each: what differs, what follows from
// what, and how many changes a taster could tell apart.
func TestDifferences(t *testing.T) {
	documenttest.Golden(t, "testdata/differences/*.txtar", func(files []txtar.File) string {
		if len(files) == 1 {
			t.Fatal("two versions are compared")
		}
		return differences(parsed(t, files[0].Name, files[0].Data), parsed(t, files[1].Name, files[1].Data))
	})
}

// TestDemoChangesOneThing checks the versions of the example: each declares
// one change, and each makes one.
func TestDemoChangesOneThing(t *testing.T) {
	var versions []*recipe.Recipe
	for i := 1; i <= 4; i++ {
		name := filepath.Join("..", "examples", fmt.Sprintf("ferry-brown-%d.yaml", i))
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		versions = append(versions, parsed(t, name, text))
	}
	for i := range versions[1:] {
		found := recipe.Differences(versions[i], versions[i+1])
		if n := recipe.Independent(found); n != 1 {
			t.Errorf("version %d to %d makes %d changes, not 1:\n%s", i+1, i+2, n, differences(versions[i], versions[i+1]))
		}
	}
	if n := recipe.Independent(recipe.Differences(versions[1], versions[3])); n != 2 {
		t.Errorf("version 2 to 4 makes %d changes, not 2:\n%s", n, differences(versions[1], versions[3]))
	}
	if found := recipe.Differences(versions[3], versions[3]); len(found) != 0 || recipe.Independent(found) != 0 {
		t.Errorf("version 4 differs from itself: %v", found)
	}
}

func parsed(t *testing.T, name string, text []byte) *recipe.Recipe {
	t.Helper()
	r, err := recipe.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func differences(a, b *recipe.Recipe) string {
	var out strings.Builder
	found := recipe.Differences(a, b)
	for _, d := range found {
		mark := "· "
		if d.Follows() {
			mark = "  → "
		}
		fmt.Fprintln(&out, mark+d.String())
	}
	fmt.Fprintln(&out, "independent:", recipe.Independent(found))
	return out.String()
}
