// SPDX-License-Identifier: MIT

package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/internal/document"
	"gyle/internal/store"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/tasting"
	"gyle/water"
)

// kinds of documents that can be read, with what reads them.
var kinds = map[string]func(file string, text []byte) (any, error){
	style.Kind:     func(f string, b []byte) (any, error) { return style.Parse(f, b) },
	recipe.Kind:    func(f string, b []byte) (any, error) { return recipe.Parse(f, b) },
	brewhouse.Kind: func(f string, b []byte) (any, error) { return brewhouse.Parse(f, b) },
	stock.Kind:     func(f string, b []byte) (any, error) { return stock.Parse(f, b) },
	water.Kind:     func(f string, b []byte) (any, error) { return water.Parse(f, b) },
	gyle.Kind:      func(f string, b []byte) (any, error) { return gyle.Parse(f, b) },
	tasting.Kind:   func(f string, b []byte) (any, error) { return tasting.Parse(f, b) },
}

// loadAny reads a document of any kind and tells the name its faults carry.
func loadAny(l *library, name string) (doc any, p page, err error) {
	if p, err = l.find("", name); err != nil {
		return nil, p, err
	}
	read, known := kinds[p.kind]
	if !known && p.kind != "" {
		return nil, p, unknownKind(p)
	}
	if !known {
		read = kinds[recipe.Kind] // it says what a first key looks like
	}
	doc, err = read(p.file, p.text)
	return doc, p, err
}

// load reads a document of one kind; an empty name gives nothing.
func load[T any](l *library, kind, name string, parse func(string, []byte) (*T, error)) (*T, error) {
	if name == "" {
		return nil, nil
	}
	p, err := l.find(kind, name)
	if err != nil {
		return nil, err
	}
	if p.kind != kind && kinds[p.kind] != nil {
		return nil, fmt.Errorf("%s is a %s, and a %s is wanted here", p.file, p.kind, kind)
	}
	return parse(p.file, p.text)
}

// unknownKind says which kinds there are.
func unknownKind(p page) error {
	hint := "kinds are " + strings.Join(bookKinds(), ", ")
	if near, ok := document.Nearest(p.kind, bookKinds()); ok {
		hint = fmt.Sprintf("write gyle: %s/%d", near, document.Version)
	}
	return fmt.Errorf("%s: %q is no kind of document\n   %s", p.file, p.kind, hint)
}

// readFile reads a file and says plainly when it can't be one of ours.
func readFile(file string) ([]byte, error) {
	info, err := os.Stat(file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("there is no file %s%s", file, nearby(file, "*.yaml"))
	case err == nil && info.IsDir():
		return nil, fmt.Errorf("%s is a folder, not a document%s", file, filesIn(file))
	case err == nil && info.Size() > store.MaxText:
		return nil, fmt.Errorf("%s has %d MB: no document is larger than 1 MB", file, (info.Size()+1<<20-1)>>20)
	}
	text, err := os.ReadFile(file)
	if errors.Is(err, fs.ErrPermission) {
		return nil, fmt.Errorf("%s may not be read by you", file)
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", file, err)
	}
	return text, nil
}

// nearby proposes the file of a pattern whose name, without its ending, is
// nearest.
func nearby(file, pattern string) string {
	found, err := filepath.Glob(filepath.Join(filepath.Dir(file), pattern))
	if err != nil {
		return ""
	}
	byStem := map[string]string{}
	var stems []string
	for _, f := range found {
		byStem[stem(f)] = f
		stems = append(stems, stem(f))
	}
	if near, ok := document.Nearest(stem(file), stems); ok && byStem[near] != file {
		return "\n   did you mean " + byStem[near] + "?"
	}
	return ""
}

// stem is the name of a file without its folder and its ending.
func stem(file string) string {
	base := filepath.Base(file)
	return strings.TrimSuffix(base, filepath.Ext(base))
}

// filesIn says how to name the documents in a folder.
func filesIn(folder string) string {
	pattern := filepath.Join(folder, "*.yaml")
	if found, err := filepath.Glob(pattern); err != nil || len(found) == 0 {
		return ""
	}
	return "\n   name the files in it: " + pattern
}

// styleOf finds the style of a recipe: the one named, else the document of
// that id beside the recipe's file, else the one in the book. It is nil where
// there is none.
func styleOf(l *library, named, recipeName, id string) (*style.Style, error) {
	if named != "" {
		return load(l, style.Kind, named, style.Parse)
	}
	if id == "" {
		return nil, nil
	}
	if isFile(recipeName) {
		if beside := filepath.Join(filepath.Dir(recipeName), id+".yaml"); isFile(beside) {
			return load(l, style.Kind, beside, style.Parse)
		}
	}
	if there, err := l.holds(style.Kind, id); err != nil || !there {
		return nil, err
	}
	p, err := l.inBook(style.Kind, id, id)
	if err != nil {
		return nil, err
	}
	return style.Parse(p.file, p.text)
}

// printing says how numbers are printed; commands embed it.
type printing struct {
	Units string `help:"Units to print in: metric or us." enum:"metric,us" default:"metric"`
	Comma bool   `help:"Print a decimal comma."`
}

func (p printing) printer() quantity.Printer {
	out := quantity.Printer{DecimalComma: p.Comma}
	if p.Units == "us" {
		out.System = quantity.USCustomary
	}
	return out
}
