// SPDX-License-Identifier: MIT

package judge

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gyle/recipe"
	"gyle/style"
)

var update = flag.Bool("update", false, "rewrite the wanted judgements in testdata")

// TestGolden judges the recipe of each case. A case is a text archive of three
// files: the style, or where it stands among the examples, the recipe, and the
// whole judgement.
func TestGolden(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) { golden(t, file) })
	}
}

func golden(t *testing.T, file string) {
	archive, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	head, want, ok := strings.Cut(string(archive), "-- want --\n")
	styleText, recipeText, ok2 := strings.Cut(head, "-- recipe.yaml --\n")
	first, styleText, _ := strings.Cut(styleText, "\n")
	if !ok || !ok2 {
		t.Fatal("the case isn't made of a style, a recipe and what is wanted")
	}
	name := strings.TrimSuffix(strings.TrimPrefix(first, "-- "), " --")
	var s *style.Style
	if strings.TrimSpace(styleText) == "" {
		s = example(t, strings.TrimPrefix(name, "examples/"), style.Parse)
	} else {
		s = parsed(t, name, []byte(styleText), style.Parse)
	}
	got := whole(judged(t, s, parsed(t, "recipe.yaml", []byte(recipeText), recipe.Parse)))
	if *update {
		if err := os.WriteFile(file, []byte(head+"-- want --\n"+got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
}

// whole prints a judgement.
func whole(j Judgement) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, held against %q: %d inside, %d edge, %d outside, %d unknown, %d idle\n", j.Subject, j.Style,
		j.Count(Inside), j.Count(Edge), j.Count(Outside), j.Count(Unknown), j.Count(Idle))
	for _, v := range j.Verdicts {
		fmt.Fprintln(&b, v)
	}
	return b.String()
}
