// SPDX-License-Identifier: MIT

package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"

	"gyle/brewhouse"
	"gyle/guest"
	"gyle/internal/document"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// A published page carries its documents, so it may stand wherever a document
// may: "gyle plan ferry-brown.html --house mine.yaml".

// largestPage is the most that is read of a page, in bytes.
const largestPage = 16 << 20

func isPage(name string) bool {
	end := strings.ToLower(filepath.Ext(name))
	return end == ".html" || end == ".htm" || end == ".txt" // as saved, or as copied out of it
}

// readPage reads what a published page carries.
func readPage(name string) (k guest.Kit, err error) {
	file, err := os.Open(name)
	if err != nil {
		return k, err
	}
	defer func() { err = errors.Join(err, file.Close()) }()
	text, err := io.ReadAll(io.LimitReader(file, largestPage))
	if err != nil {
		return k, err
	}
	k, ok, err := guest.FromText(text)
	if err == nil && !ok {
		err = errors.New("it was not published by gyle, or saved without what it carries")
	}
	if err != nil {
		return k, fmt.Errorf("%s: %w", name, err)
	}
	return k, nil
}

// fromPage returns the document of a kind that a page carries.
func fromPage(kind, name string) (page, error) {
	k, err := readPage(name)
	if err != nil {
		return page{}, err
	}
	text := k.Document(kind)
	if text == "" {
		return page{}, fmt.Errorf("%s carries no %s", name, kind)
	}
	found, _, _ := document.KindOf([]byte(text))
	return page{file: name, kind: found, text: []byte(text)}, nil
}

// arrangePage lays the documents of a page out as an import wants them.
func arrangePage(name string) (a arranged, done func(), err error) {
	done = func() {}
	k, err := readPage(name)
	if err != nil {
		return a, done, err
	}
	if a.path, err = os.MkdirTemp("", "gyle-import-"); err != nil {
		return a, done, err
	}
	done = func() { os.RemoveAll(a.path) }
	a.from = map[string]string{}
	slugs := pageSlugs(k)
	for _, kind := range []string{recipe.Kind, style.Kind, brewhouse.Kind, stock.Kind, water.Kind} {
		text := k.Document(kind)
		if text == "" {
			continue
		}
		to := path.Join(kind, slugs[kind]+".yaml")
		a.from[to] = name
		if err := os.MkdirAll(filepath.Join(a.path, kind), 0o755); err != nil {
			return a, done, err
		}
		if err := os.WriteFile(filepath.Join(a.path, to), []byte(text), 0o644); err != nil {
			return a, done, err
		}
	}
	return a, done, nil
}

// pageSlugs names the documents of a page in a book: a recipe by its name and
// version, a style as the recipe calls it, the others by their names.
func pageSlugs(k guest.Kit) map[string]string {
	slugs := map[string]string{}
	if r, err := recipe.Parse("recipe", []byte(k.Recipe)); err == nil {
		name := r.Name
		if r.Version > 0 {
			name += " " + strconv.Itoa(r.Version)
		}
		slugs[recipe.Kind], slugs[style.Kind] = plainSlug(name), plainSlug(r.Style)
	}
	if h, err := brewhouse.Parse("brewhouse", []byte(k.House)); err == nil {
		slugs[brewhouse.Kind] = plainSlug(h.Name)
	}
	if s, err := stock.Parse("stock", []byte(k.Stock)); err == nil {
		slugs[stock.Kind] = plainSlug(s.Name)
	}
	if w, err := water.Parse("water", []byte(k.Water)); err == nil {
		slugs[water.Kind] = plainSlug(w.Name)
	}
	for _, kind := range []string{recipe.Kind, style.Kind, brewhouse.Kind, stock.Kind, water.Kind} {
		if slugs[kind] == "" {
			slugs[kind] = "published"
		}
	}
	return slugs
}

// plainSlug keeps the plain letters and digits of a name.
func plainSlug(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
	return strings.Join(words, "-")
}
