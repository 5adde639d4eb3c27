// SPDX-License-Identifier: MIT

package gyle_test

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/format"
	"os"
	"regexp"
	"strings"
	"testing"
)

const licenceLine = "// SPDX-License-Identifier: MIT\n"

// TestEveryFile checks the licence line and the format of every file.
func TestEveryFile(t *testing.T) {
	for _, file := range readHouse(t).files {
		if !bytes.HasPrefix(file.text, []byte(licenceLine)) {
			t.Errorf("%s: the first line is not %q", file.path, strings.TrimSpace(licenceLine))
		}
		formatted, err := format.Source(file.text)
		if err != nil {
			t.Errorf("%s: %v", file.path, err)
		} else if !bytes.Equal(formatted, file.text) {
			t.Errorf("%s: run gofmt -w %s", file.path, file.path)
		}
	}
}

// TestPackageComments checks that each package has exactly one comment, and
// that it begins as go doc expects.
func TestPackageComments(t *testing.T) {
	comments := map[string][]string{}
	for _, file := range readHouse(t).files {
		if file.isTest() {
			continue
		}
		folder, name := file.folder(), file.syntax.Name.Name
		comments[folder] = append(comments[folder], "")
		if file.syntax.Doc == nil {
			continue
		}
		comments[folder][len(comments[folder])-1] = file.path
		want := "Package " + name + " "
		if name == "main" {
			want = "Command "
		}
		if !strings.HasPrefix(file.syntax.Doc.Text(), want) {
			t.Errorf("%s: the package comment doesn't begin with %q", file.path, want)
		}
	}
	for folder, files := range comments {
		if found := strings.Fields(strings.Join(files, " ")); len(found) != 1 {
			t.Errorf("%s: %d package comments, want one: %v", folder, len(found), found)
		}
	}
}

// A file holds one subject, and a function fits on a screen.
const (
	longestFile     = 500
	longestFunction = 60
)

// longFunctions lists the functions that may be longer, each with the reason.
var longFunctions = map[string]string{}

// TestLengths checks the length of files and functions. Tests, data and
// generated files are lists by nature and may be long.
func TestLengths(t *testing.T) {
	h := readHouse(t)
	seen := map[string]bool{}
	for _, file := range h.files {
		if file.isTest() || file.generated() || strings.HasPrefix(file.path, "data/") {
			continue
		}
		if file.lines > longestFile {
			t.Errorf("%s: %d lines; split files of more than %d by subject", file.path, file.lines, longestFile)
		}
		for _, decl := range file.syntax.Decls {
			function, ok := decl.(*ast.FuncDecl)
			if !ok {
				continue
			}
			lines := h.set.Position(function.End()).Line - h.set.Position(function.Pos()).Line + 1
			name := fmt.Sprintf("%s: %s", file.path, function.Name.Name)
			if lines <= longestFunction {
				continue
			}
			seen[name] = true
			if longFunctions[name] == "" {
				t.Errorf("%s: %d lines; a function fits on a screen of %d", name, lines, longestFunction)
			}
		}
	}
	for name := range longFunctions {
		if !seen[name] {
			t.Errorf("%s: is not long, or gone; take it off the list", name)
		}
	}
}

var requirement = regexp.MustCompile(`(?m)^(?:require)?\s+([a-z][^\s]*/[^\s]*|[a-z]+\.[a-z]+/[^\s]+)\s+(v[^\s]+)( // indirect)?\s*$`)

// pinned lists the versions that were tested together: the SQLite driver is
// compiled for one version of its C library.
var pinned = map[string]string{"modernc.org/sqlite": "v1.62.0", "modernc.org/libc": "v1.80.1"}

// TestDependencies checks that every module we use directly is accounted for
// in docs/dependencies.md, and that the pinned versions stand.
func TestDependencies(t *testing.T) {
	text, err := os.ReadFile("go.mod")
	if err != nil {
		t.Fatal(err)
	}
	docs, err := os.ReadFile("docs/dependencies.md")
	if err != nil {
		t.Fatal(err)
	}
	versions, direct := map[string]string{}, map[string]bool{}
	for _, m := range requirement.FindAllStringSubmatch(string(text), -1) {
		versions[m[1]] = m[2]
		direct[m[1]] = m[3] == ""
	}
	for module, version := range pinned {
		if versions[module] != version {
			t.Errorf("go.mod: %s is %q, tested with %s", module, versions[module], version)
		}
	}
	for _, file := range readHouse(t).files {
		for _, imported := range file.imports {
			if module := moduleOf(imported, versions); module != "" {
				direct[module] = true
			}
		}
	}
	for module, ours := range direct {
		if ours && accountOf(string(docs), module) == nil {
			t.Errorf("docs/dependencies.md: no row for %s with its version, licence, why, and what we would do without it", module)
		}
	}
	for _, cells := range accounts(string(docs)) {
		if module := cells[0]; versions[module] != cells[1] {
			t.Errorf("docs/dependencies.md: %s is listed as %s, go.mod has %q", module, cells[1], versions[module])
		}
	}
}

// moduleOf returns the module of go.mod that holds a package, or "".
func moduleOf(imported string, versions map[string]string) string {
	found := ""
	for module := range versions {
		if (imported == module || strings.HasPrefix(imported, module+"/")) && len(module) > len(found) {
			found = module
		}
	}
	return found
}

// accounts returns the rows of the table of modules: module, version, licence,
// why, and what we would do without it.
func accounts(docs string) [][]string {
	var rows [][]string
	for line := range strings.Lines(docs) {
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		for i := range cells {
			cells[i] = strings.Trim(strings.TrimSpace(cells[i]), "`")
		}
		if len(cells) == 5 && strings.Contains(cells[0], "/") {
			rows = append(rows, cells)
		}
	}
	return rows
}

// accountOf returns the row of one module if all its cells are filled.
func accountOf(docs, module string) []string {
	for _, cells := range accounts(docs) {
		if cells[0] == module && cells[1] != "" && cells[2] != "" && cells[3] != "" && cells[4] != "" {
			return cells
		}
	}
	return nil
}
