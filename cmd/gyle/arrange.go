// SPDX-License-Identifier: MIT

package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"gyle/internal/document"
	"gyle/internal/store"
)

// arranged is a folder in the order that an import wants: KIND/SLUG.yaml.
type arranged struct {
	path string
	from map[string]string // file in it → file as the brewer named it
}

// arrange takes a folder as it is, or, where documents lie in it loose, makes
// one in which they lie by kind. The caller calls done at the end.
func arrange(folder string) (a arranged, done func(), err error) {
	done = func() {}
	if isFile(folder) && isPage(folder) {
		return arrangePage(folder)
	}
	if isFile(folder) {
		return a, done, notFolder(folder)
	}
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return a, done, fmt.Errorf("there is no folder %s", folder)
	}
	if err != nil {
		return a, done, fmt.Errorf("%s is no folder that can be read", folder)
	}
	var loose []string
	ordered := false
	for _, e := range entries {
		switch {
		case e.IsDir() && slices.Contains(store.Kinds, e.Name()) || e.Name() == "revisions.csv":
			ordered = true
		case !e.IsDir() && isYAML(e.Name()) && !strings.HasPrefix(e.Name(), "."):
			loose = append(loose, e.Name())
		}
	}
	switch {
	case ordered && len(loose) > 0:
		return a, done, fmt.Errorf("%s lies beside the folders of kinds in %s\n   move it into the folder of its kind: recipe, style …", loose[0], folder)
	case ordered:
		return arranged{path: folder}, done, nil
	case len(loose) == 0:
		return a, done, fmt.Errorf("there are no documents in %s\n   expected are files ending in .yaml, or what gyle export wrote", folder)
	}
	if a.path, err = os.MkdirTemp("", "gyle-import-"); err != nil {
		return a, done, err
	}
	done = func() { os.RemoveAll(a.path) }
	return a, done, a.sort(folder, loose)
}

// sort copies loose documents into the folder of their kind. Two kinds may use
// one name, two files may not.
func (a *arranged) sort(folder string, loose []string) error {
	a.from = map[string]string{}
	var wrong []error
	for _, name := range loose {
		file := filepath.Join(folder, name)
		text, err := readFile(file)
		if err != nil {
			wrong = append(wrong, err)
			continue
		}
		kind, _, ok := document.KindOf(text)
		if !ok || kinds[kind] == nil {
			_, _, err := loadAny(&library{}, file)
			wrong = append(wrong, err)
			continue
		}
		to := path.Join(kind, slugOf(name)+".yaml")
		if other, taken := a.from[to]; taken {
			wrong = append(wrong, fmt.Errorf("%s and %s would both be %s %s of the book\n   rename one of them", other, file, kind, slugOf(name)))
			continue
		}
		a.from[to] = file
		if err := os.MkdirAll(filepath.Join(a.path, kind), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(a.path, to), text, 0o644); err != nil {
			return err
		}
	}
	if len(wrong) > 0 {
		return fmt.Errorf("nothing was imported:\n%w", errors.Join(wrong...))
	}
	return nil
}

func isYAML(name string) bool {
	end := strings.ToLower(filepath.Ext(name))
	return end == ".yaml" || end == ".yml"
}

// slugOf makes the name of a document in the book of the name of a file: "Best
// Bitter.yaml" becomes best-bitter.
func slugOf(file string) string {
	return strings.Join(strings.Fields(strings.ToLower(stem(file))), "-")
}

// name gives the faults of an import the names of the files they came from.
func (a arranged) name(err error) error {
	var faults *store.ImportError
	if !errors.As(err, &faults) {
		return err
	}
	for i, f := range faults.Faults {
		if from, ok := a.from[f.File]; ok {
			faults.Faults[i].File = from
		}
	}
	return faults
}
