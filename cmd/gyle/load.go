// SPDX-License-Identifier: MIT

package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"gyle/brewhouse"
	"gyle/internal/document"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// kinds of documents that can be read, with what reads them.
var kinds = map[string]func(file string, text []byte) (any, error){
	style.Kind:     func(f string, b []byte) (any, error) { return style.Parse(f, b) },
	recipe.Kind:    func(f string, b []byte) (any, error) { return recipe.Parse(f, b) },
	brewhouse.Kind: func(f string, b []byte) (any, error) { return brewhouse.Parse(f, b) },
	stock.Kind:     func(f string, b []byte) (any, error) { return stock.Parse(f, b) },
	water.Kind:     func(f string, b []byte) (any, error) { return water.Parse(f, b) },
}

// loadAny reads a document of any kind.
func loadAny(file string) (any, error) {
	text, err := readFile(file)
	if err != nil {
		return nil, err
	}
	kind, _, ok := document.KindOf(text)
	read, known := kinds[kind]
	if !ok || !known {
		// The reader says what a first key looks like, with its position.
		_, err := recipe.Parse(file, text)
		if err == nil {
			err = fmt.Errorf("%s: %q is no kind of document", file, kind)
		}
		return nil, err
	}
	return read(file, text)
}

// load reads a document of one kind; an empty name gives nothing.
func load[T any](file string, parse func(string, []byte) (*T, error)) (*T, error) {
	if file == "" {
		return nil, nil
	}
	text, err := readFile(file)
	if err != nil {
		return nil, err
	}
	return parse(file, text)
}

// readFile reads a file and says plainly when there is none.
func readFile(file string) ([]byte, error) {
	text, err := os.ReadFile(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no file %s%s", file, nearbyFile(file))
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", file, err)
	}
	return text, nil
}

// nearbyFile proposes the document whose name is nearest.
func nearbyFile(file string) string {
	found, err := filepath.Glob(filepath.Join(filepath.Dir(file), "*.yaml"))
	if err != nil {
		return ""
	}
	if near, ok := document.Nearest(file, found); ok {
		return "\n   did you mean " + near + "?"
	}
	return ""
}

// styleOf finds the style of a recipe: the file named, else the document of
// that id beside the recipe. It is nil where there is none.
func styleOf(named, recipeFile, id string) (*style.Style, error) {
	if named != "" {
		return load(named, style.Parse)
	}
	if id == "" {
		return nil, nil
	}
	beside := filepath.Join(filepath.Dir(recipeFile), id+".yaml")
	if _, err := os.Stat(beside); err != nil {
		return nil, nil
	}
	return load(beside, style.Parse)
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
