// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// fullBook makes a book with a bit of everything that an export must carry.
func fullBook(t *testing.T) *Book {
	b, ctx := openTest(t), context.Background()
	put(t, b, "recipe", "brown", "title: Brown, \"first\"\nstyle: ale\n")
	put(t, b, "recipe", "brown", "title: Brown\nstyle: ale\nüber: ½\n")
	put(t, b, "style", "ale", "title: Ale\n")
	put(t, b, "style", "lager", "title: Lager\n")
	put(t, b, "recipe", "gone", "title: Gone\nstyle: lager\n")
	put(t, b, "gyle", "g1", "title: G1\nrecipe: brown\n")
	must(t, second(b.Delete(ctx, Removal{Kind: "recipe", Slug: "gone", Author: "Ada", Why: "thin,\r\nsour", Base: 1})))
	must(t, second(b.Delete(ctx, Removal{Kind: "style", Slug: "lager", Base: 1})))
	must(t, second(b.Undelete(ctx, Removal{Kind: "style", Slug: "lager", Base: 2})))
	must(t, second(b.AppendEvents(ctx, "g1", []Event{
		{Kind: "reading", At: time.Date(2026, 2, 1, 9, 0, 0, 123e6, time.UTC), Body: []byte(`{ "sg": "1.049" }`)},
		{Kind: "correction", Corrects: 1, Token: "t-1", Author: "Bo", Body: []byte(`{"sg":"1.050\n,\""}`)},
	})))
	must(t, b.SetSetting(ctx, "units", "metric"))
	return b
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func second[T any](_ T, err error) error { return err }

func readFolder(t *testing.T, folder string) map[string]string {
	t.Helper()
	files := map[string]string{}
	must(t, filepath.WalkDir(folder, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		name, _ := filepath.Rel(folder, path)
		files[filepath.ToSlash(name)] = string(text)
		return err
	}))
	return files
}

func exported(t *testing.T, b *Book) (folder string, files map[string]string) {
	t.Helper()
	folder = filepath.Join(t.TempDir(), "out")
	must(t, b.Export(context.Background(), folder))
	return folder, readFolder(t, folder)
}

func TestExportImportExportIsIdentical(t *testing.T) {
	from, ctx := fullBook(t), context.Background()
	folder, want := exported(t, from)
	for _, name := range []string{"recipe/brown.yaml", "style/ale.yaml", "gyle/g1.yaml", "revisions.csv", "events.csv", "settings.csv"} {
		if want[name] == "" {
			t.Errorf("the export has no %s", name)
		}
	}
	if _, ok := want["recipe/gone.yaml"]; ok {
		t.Errorf("the export shows a deleted document")
	}
	to := openTest(t)
	report, err := to.Import(ctx, folder, "Cy")
	if err != nil || report != (ImportReport{Documents: 5, Revisions: 9, Events: 2, Settings: 1}) {
		t.Fatalf("Import = %+v, %v", report, err)
	}
	if _, got := exported(t, to); !maps.Equal(got, want) {
		t.Errorf("export of the import differs:\n%v\nwant\n%v", got, want)
	}
	again, err := to.Import(ctx, folder, "Cy")
	if err != nil || again != (ImportReport{}) {
		t.Errorf("second import = %+v, %v; want nothing added", again, err)
	}
	compareViews(t, from, to)
}

// compareViews looks at what the tables of the export don't show.
func compareViews(t *testing.T, from, to *Book) {
	t.Helper()
	ctx := context.Background()
	a, err1 := from.Recent(ctx, 20)
	b, err2 := to.Recent(ctx, 20)
	sortItems := func(x, y Item) int { return strings.Compare(x.Kind+x.Slug, y.Kind+y.Slug) }
	slices.SortFunc(a, sortItems)
	slices.SortFunc(b, sortItems)
	if err1 != nil || err2 != nil || !slices.Equal(a, b) {
		t.Errorf("documents differ:\n%+v\n%+v", a, b)
	}
	for _, slug := range []string{"brown", "gone"} {
		a, _ := from.Named(ctx, "recipe", slug)
		b, _ := to.Named(ctx, "recipe", slug)
		if !slices.Equal(a, b) || len(a) != 1 {
			t.Errorf("references of %s differ: %+v, %+v", slug, a, b)
		}
	}
	if hits, _, _ := to.Search(ctx, Query{Words: "über"}); len(hits) != 1 || hits[0].Slug != "brown" {
		t.Errorf("search in the imported book found %+v", hits)
	}
}

func TestImportTakesEditedFiles(t *testing.T) {
	from, ctx := fullBook(t), context.Background()
	folder, _ := exported(t, from)
	write := func(name, text string) { must(t, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o666)) }
	write("recipe/brown.yaml", "title: Brown\nedited: in the folder\n")
	write("recipe/new.yaml", "title: New\nstyle: ale\n")
	report, err := from.Import(ctx, folder, "Cy")
	if err != nil || report != (ImportReport{Documents: 1, Revisions: 2}) {
		t.Fatalf("Import = %+v, %v", report, err)
	}
	r, err := from.Get(ctx, "recipe", "brown")
	if err != nil || r.Number != 3 || r.Author != "Cy" || !strings.Contains(r.Text, "edited") {
		t.Errorf("edited recipe = %+v, %v", r, err)
	}
}

func TestImportTakesDocumentsAlone(t *testing.T) {
	folder, b := t.TempDir(), openTest(t)
	must(t, os.Mkdir(filepath.Join(folder, "water"), 0o777))
	must(t, os.WriteFile(filepath.Join(folder, "water", "tap.yaml"), []byte("title: Tap\r\n"), 0o666))
	report, err := b.Import(context.Background(), folder, "Cy")
	if err != nil || report != (ImportReport{Documents: 1, Revisions: 1}) {
		t.Errorf("Import = %+v, %v", report, err)
	}
}

func TestImportIsAllOrNothing(t *testing.T) {
	sound, _ := exported(t, fullBook(t))
	b := openTest(t)
	for name, test := range map[string]struct {
		spoil func(folder string) error
		want  []string
	}{
		"faults of all documents": {
			spoil: func(folder string) error {
				return errors.Join(
					os.WriteFile(filepath.Join(folder, "recipe/brown.yaml"), []byte("title: Brown\nfault\n"), 0o666),
					os.WriteFile(filepath.Join(folder, "style/ale.yaml"), []byte("fault\n"), 0o666))
			},
			want: []string{"recipe/brown.yaml:2:1: a fault", "style/ale.yaml:1:1: a fault"},
		},
		"wrong folder": {
			spoil: func(folder string) error { return os.Mkdir(filepath.Join(folder, "recipes"), 0o777) },
			want:  []string{"recipes: no kind of document"},
		},
		"missing file": {
			spoil: func(folder string) error { return os.Remove(filepath.Join(folder, "style/ale.yaml")) },
			want:  []string{"style/ale.yaml: missing"},
		},
		"gap in the log": {
			spoil: func(folder string) error { return replace(filepath.Join(folder, eventsFile), "g1,2,", "g1,3,") },
			want:  []string{`events.csv:3: seq "3" where 2 comes next`},
		},
		"log of nothing": {
			spoil: func(folder string) error { return replace(filepath.Join(folder, eventsFile), "g1,", "g2,") },
			want:  []string{`events.csv:2: gyle "g2": not in this book`},
		},
		"bad body": {
			spoil: func(folder string) error {
				return replace(filepath.Join(folder, eventsFile), `"{""sg"":""1.049""}"`, "1.049x")
			},
			want: []string{"events.csv:2: body of the entry"},
		},
		"bad time": {
			spoil: func(folder string) error {
				return replace(filepath.Join(folder, revisionsFile), "2026-03-01T", "1 March ")
			},
			want: []string{"revisions.csv:2: time "},
		},
		"wrong head": {
			spoil: func(folder string) error { return replace(filepath.Join(folder, settingsFile), "key,", "key;") },
			want:  []string{"settings.csv:1: the first line must be key,value"},
		},
		"broken quotes": {
			spoil: func(folder string) error { return replace(filepath.Join(folder, settingsFile), "units", "un\"its") },
			want:  []string{"settings.csv: parse error on line 2"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			must(t, os.CopyFS(folder, os.DirFS(sound)))
			must(t, test.spoil(folder))
			_, err := b.Import(context.Background(), folder, "Cy")
			var refused *ImportError
			if !errors.As(err, &refused) {
				t.Fatalf("Import: %v, want an ImportError", err)
			}
			for _, want := range test.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("the error lacks %q:\n%v", want, err)
				}
			}
			if found, _ := b.Recent(context.Background(), 1); len(found) != 0 {
				t.Errorf("a refused import left %+v", found)
			}
		})
	}
}

func replace(path, old, new string) error {
	text, err := os.ReadFile(path)
	if err == nil && !strings.Contains(string(text), old) {
		return errors.New(path + " lacks " + old)
	}
	return errors.Join(err, os.WriteFile(path, []byte(strings.ReplaceAll(string(text), old, new)), 0o666))
}

func TestImportRefusesTwoHistories(t *testing.T) {
	from, ctx := fullBook(t), context.Background()
	folder, _ := exported(t, from)
	to := openTest(t)
	put(t, to, "style", "ale", "title: Another ale\n")
	if _, err := to.Import(ctx, folder, "Cy"); err == nil || !strings.Contains(err.Error(), "style ale: revision 1 is another one in the book") {
		t.Errorf("import over another history: %v", err)
	}
	put(t, from, "recipe", "brown", "title: Brown\nin the book\n")
	must(t, os.WriteFile(filepath.Join(folder, "recipe/brown.yaml"), []byte("title: Brown\nin the folder\n"), 0o666))
	if _, err := from.Import(ctx, folder, "Cy"); err == nil || !strings.Contains(err.Error(), "was changed in the folder and in the book") {
		t.Errorf("import of a file edited on both sides: %v", err)
	}
}

func TestExportWantsAnEmptyFolder(t *testing.T) {
	folder := t.TempDir()
	must(t, os.WriteFile(filepath.Join(folder, "mine"), nil, 0o666))
	if err := openTest(t).Export(context.Background(), folder); err == nil {
		t.Error("exported over somebody's files")
	}
}
