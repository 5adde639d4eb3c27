// SPDX-License-Identifier: MIT

// The tests of this package read the files of the whole project and check that
// the house is built as doc.go draws it. They read files with go/parser and
// run no other program: the test cache notices which files were opened, and
// would replay an old pass if another process had read them.
package gyle_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// floors lists the rooms of the house from the ground up. "science/" and
// "cmd/" stand for each folder below them. A package imports only rooms on
// lower floors; what is allowed beside stands in doors. Who wants another door
// writes a decision in docs/decisions first and changes this table.
var floors = [][]string{
	{"quantity", "data", "examples", "schema", "internal/document", "internal/lp", "internal/engine", "internal/engine/make"},
	{"science", "science/", "style", "recipe", "brewhouse", "stock", "water", "gyle", "tasting"},
	{"plan", "reconstruct", "panel", "calendar"},
	{"day", "shed"},
	{"judge", "blind", "cellar"},
	{"chance", "causes"},
	{"formulate", "guest"},
	{"publish"},
	{"internal/store", "internal/web", "internal/chart", "internal/formulas", "internal/describe"},
	{"cmd/"},
}

// doors lists who may import a neighbour on the same floor.
var doors = []struct{ from, to, why string }{
	{"science/", "science/gravity", "every chapter needs the mass of a litre of wort"},
	{"internal/web", "internal/chart", "drawings are parts of pages"},
}

// engine lists the roots of what computes a plan and judges it. It is meant to
// run in a reader's browser, so it must stay small.
var engine = []string{"plan", "day", "formulate", "reconstruct", "judge", "chance", "guest", "cmd/gyle-wasm"}

// heavy lists what the engine must not reach: template packages switch off the
// linker's removal of unused methods, the others are large or of no use there.
var heavy = []string{"html/template", "text/template", "net/http", "github.com/alecthomas/kong"}

// engineModules lists the third-party modules that the engine may use.
var engineModules = []string{"go.yaml.in/yaml/v4"}

// goFile is one file of the project.
type goFile struct {
	path    string // from the root, with slashes
	text    []byte
	syntax  *ast.File
	lines   int
	imports []string
}

func (f *goFile) folder() string { return path.Dir(f.path) }
func (f *goFile) isTest() bool   { return strings.HasSuffix(f.path, "_test.go") }
func (f *goFile) generated() bool {
	return ast.IsGenerated(f.syntax)
}

// house is the project as its files show it.
type house struct {
	set   *token.FileSet
	files []*goFile
}

// readHouse parses every Go file of the project.
func readHouse(t *testing.T) *house {
	t.Helper()
	h := &house{set: token.NewFileSet()}
	err := filepath.WalkDir(".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		if entry.IsDir() {
			if base := entry.Name(); name != "." && (strings.HasPrefix(base, ".") || base == "testdata" || base == "bin") {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(name, ".go") {
			return nil
		}
		file, err := h.read(name)
		if err == nil {
			h.files = append(h.files, file)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(h.files) < 50 {
		t.Fatalf("only %d Go files were found: these tests must run in the root of the project", len(h.files))
	}
	return h
}

func (h *house) read(name string) (*goFile, error) {
	text, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	syntax, err := parser.ParseFile(h.set, name, text, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	file := &goFile{path: name, text: text, syntax: syntax, lines: strings.Count(string(text), "\n")}
	for _, spec := range syntax.Imports {
		imported, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			return nil, err
		}
		file.imports = append(file.imports, imported)
	}
	return file, nil
}

// roomOf returns the room a folder belongs to and its floor. A folder below a
// room, such as internal/store/storetest, belongs to the room.
func roomOf(folder string) (room string, floor int) {
	for i, rooms := range floors {
		for _, r := range rooms {
			if prefix, group := strings.CutSuffix(r, "/"); group {
				if rest, below := strings.CutPrefix(folder, prefix+"/"); below {
					name, _, _ := strings.Cut(rest, "/")
					return prefix + "/" + name, i
				}
				continue
			}
			if folder == r || (r != "science" && strings.HasPrefix(folder, r+"/")) {
				return r, i
			}
		}
	}
	return "", -1
}

// doorOpen reports whether a room may import another on its own floor.
func doorOpen(from, to string) bool {
	for _, d := range doors {
		group := strings.HasSuffix(d.from, "/") && strings.HasPrefix(from, d.from)
		if (from == d.from || group) && to == d.to {
			return true
		}
	}
	return false
}

// TestFloors checks that imports go down only.
func TestFloors(t *testing.T) {
	for _, file := range readHouse(t).files {
		if file.folder() == "." {
			continue // the map and its tests may see everything
		}
		room, floor := roomOf(file.folder())
		if floor < 0 {
			t.Errorf("%s: folder %s stands on no floor; give it a place in the table of tree_test.go", file.path, file.folder())
			continue
		}
		for _, imported := range file.imports {
			folder, ours := strings.CutPrefix(imported, "gyle/")
			if !ours || folder == file.folder() {
				continue
			}
			other, below := roomOf(folder)
			switch {
			case room == "science":
				t.Errorf("%s: package science is pure data and imports nothing of the project, but imports %s", file.path, folder)
			case other == room || below >= 0 && below < floor || doorOpen(room, other):
			case below < 0:
				t.Errorf("%s: imports %s, which stands on no floor", file.path, folder)
			case below == floor:
				t.Errorf("%s: imports %s, its neighbour on floor %d", file.path, folder, floor)
			default:
				t.Errorf("%s: floor %d imports %s on floor %d", file.path, floor, folder, below)
			}
		}
	}
}

// TestEngineStaysSmall walks the imports of the engine through our packages.
func TestEngineStaysSmall(t *testing.T) {
	imports := map[string][]string{}
	for _, file := range readHouse(t).files {
		if !file.isTest() {
			imports[file.folder()] = append(imports[file.folder()], file.imports...)
		}
	}
	if len(imports["plan"]) == 0 {
		t.Fatal("package plan imports nothing: the engine was not found")
	}
	via := map[string]string{} // folder to the folder that imports it
	queue := slices.Clone(engine)
	for len(queue) > 0 {
		folder := queue[0]
		queue = queue[1:]
		for _, imported := range imports[folder] {
			if ours, ok := strings.CutPrefix(imported, "gyle/"); ok {
				if _, seen := via[ours]; !seen {
					via[ours] = folder
					queue = append(queue, ours)
				}
				continue
			}
			thirdParty := strings.Contains(strings.SplitN(imported, "/", 2)[0], ".")
			allowed := slices.ContainsFunc(engineModules, func(m string) bool { return imported == m || strings.HasPrefix(imported, m+"/") })
			if slices.Contains(heavy, imported) || thirdParty && !allowed {
				t.Errorf("the engine reaches %s through %s", imported, route(via, folder))
			}
		}
	}
}

// route tells how a folder was reached.
func route(via map[string]string, folder string) string {
	steps := []string{folder}
	for via[folder] != "" {
		folder = via[folder]
		steps = append(steps, folder)
	}
	slices.Reverse(steps)
	return strings.Join(steps, " → ")
}
