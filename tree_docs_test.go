// SPDX-License-Identifier: MIT

package gyle_test

import (
	"go/ast"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gyle/internal/document"
	"gyle/quantity"
	"gyle/style"
)

var yamlBlock = regexp.MustCompile("(?s)```yaml\n(.*?)```")

// TestDocumentedExamples reads the whole documents that docs/documents.md shows.
func TestDocumentedExamples(t *testing.T) {
	blocks := yamlBlock.FindAllStringSubmatch(readDocs(t), -1)
	seen := map[string]bool{}
	for _, block := range blocks {
		kind, _, ok := document.KindOf([]byte(block[1]))
		if !ok || nouns[kind] == nil {
			t.Errorf("an example in docs/documents.md doesn't begin with a known kind:\n%s", block[1])
			continue
		}
		seen[kind] = true
		reprint(t, "docs/documents.md, "+kind, []byte(block[1]), nouns[kind])
	}
	for kind := range nouns {
		if !seen[kind] {
			t.Errorf("docs/documents.md shows no %s", kind)
		}
	}
}

// TestEveryKeyIsDocumented looks up the keys of all documents, the figures and
// the classes of grain in docs/documents.md.
func TestEveryKeyIsDocumented(t *testing.T) {
	docs := readDocs(t)
	sections := map[string]string{}
	for section := range strings.SplitSeq(docs, "\n## ") {
		name, text, _ := strings.Cut(section, "\n")
		sections[name] = text
	}
	for _, file := range readHouse(t).files {
		if nouns[file.folder()] == nil || file.isTest() {
			continue
		}
		ast.Inspect(file.syntax, func(n ast.Node) bool {
			field, ok := n.(*ast.Field)
			if !ok || field.Tag == nil {
				return true
			}
			tag, err := strconv.Unquote(field.Tag.Value)
			if err != nil {
				t.Errorf("%s: %v", file.path, err)
			}
			key, _, _ := strings.Cut(reflect.StructTag(tag).Get("gyle"), ",")
			if key != "" && key != "-" && !strings.Contains(sections[file.folder()], "`"+key+"`") {
				t.Errorf("docs/documents.md: the part on %s says nothing of `%s` (%s)", file.folder(), key, file.path)
			}
			return true
		})
	}
	for _, figure := range quantity.Figures() {
		if !strings.Contains(sections["style"], "`"+string(figure)+"`") {
			t.Errorf("docs/documents.md: the rules say nothing of the figure `%s`", figure)
		}
	}
	for _, class := range style.Classes {
		if !strings.Contains(sections["style"], "`"+class+"`") {
			t.Errorf("docs/documents.md: the rules say nothing of class `%s`", class)
		}
	}
}

func readDocs(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile("docs/documents.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

var markdownLink = regexp.MustCompile(`\]\(([^)\s]+)\)`)

// TestLinks checks that the pages of documentation lead to files that exist.
func TestLinks(t *testing.T) {
	pages, err := filepath.Glob("docs/*.md")
	if err != nil {
		t.Fatal(err)
	}
	decisions, err := filepath.Glob("docs/decisions/*.md")
	if err != nil {
		t.Fatal(err)
	}
	pages = append(append(pages, decisions...), "README.md", "CONTRIBUTING.md", "data/README.md")
	for _, page := range pages {
		text, err := os.ReadFile(page)
		if err != nil {
			t.Error(err)
			continue
		}
		for _, link := range markdownLink.FindAllStringSubmatch(string(text), -1) {
			target, _, _ := strings.Cut(link[1], "#")
			if target == "" || strings.Contains(target, "://") {
				continue
			}
			if _, err := os.Stat(filepath.Join(filepath.Dir(page), target)); err != nil {
				t.Errorf("%s: the link %s leads nowhere", page, link[1])
			}
		}
	}
}
