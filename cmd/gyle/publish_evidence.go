// SPDX-License-Identifier: MIT

package main

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"gyle/gyle"
	"gyle/internal/document"
	"gyle/internal/store"
	"gyle/publish"
	"gyle/recipe"
	"gyle/style"
	"gyle/tasting"
)

// evidence says what a recipe is published with beyond itself; publishCommand
// embeds it.
type evidence struct {
	Gyle     []string `placeholder:"GYLE" help:"Brews of the recipe whose figures as brewed are shown; without it those beside the recipe, or in the book."`
	Tasting  []string `placeholder:"TASTING" help:"Tastings whose verdicts are shown; without it those beside the recipe, or in the book."`
	Evidence bool     `negatable:"" default:"true" help:"Look for brews and tastings."`
}

// versionsOf returns a recipe and its ancestors, oldest first, as far as they
// stand beside it or in the book.
func versionsOf(l *library, near *folders, name string, r *recipe.Recipe) ([]*recipe.Recipe, error) {
	others, err := sameBeer(l, near, name, r.Name)
	if err != nil {
		return nil, err
	}
	list := []*recipe.Recipe{r}
	for parent := r.Parent; parent > 0; {
		i := slices.IndexFunc(others, func(o *recipe.Recipe) bool { return o.Version == parent })
		if i < 0 {
			break
		}
		list = append(list, others[i])
		if parent <= others[i].Parent {
			break // no version is its own ancestor
		}
		parent = others[i].Parent
	}
	slices.Reverse(list)
	return list, nil
}

// sameBeer returns the readable recipes of the same name.
func sameBeer(l *library, near *folders, name, beer string) (list []*recipe.Recipe, err error) {
	if isFile(name) {
		for _, r := range near.of(name).recipes {
			if r.Name == beer {
				list = append(list, r)
			}
		}
		return list, nil
	}
	found, err := near.inBook(l, beer)
	for _, one := range found {
		list = append(list, one.recipe)
	}
	return list, err
}

// folders remembers what lies beside the files that were named and what the
// book holds of a beer, so that a thousand recipes are read once.
type folders struct {
	beside   map[string]*neighbours
	beers    map[string][]slugged
	tastings map[string]*tasting.Tasting
	styles   map[string]*style.Style
}

// slugged is a recipe of the book.
type slugged struct {
	slug   string
	recipe *recipe.Recipe
}

// inBook returns the readable recipes of a name in the book.
func (f *folders) inBook(l *library, beer string) ([]slugged, error) {
	if list, known := f.beers[beer]; known {
		return list, nil
	}
	const most = 1000 // versions of one beer
	items, err := l.book.Titled(context.Background(), recipe.Kind, beer, most)
	if err != nil {
		return nil, err
	}
	var list []slugged
	for _, item := range items {
		if r, err := recipe.Parse(item.Slug, []byte(item.Text)); err == nil && r.Name == beer {
			list = append(list, slugged{item.Slug, r})
		}
	}
	remember(&f.beers, beer, list)
	return list, nil
}

// tasting reads a tasting once.
func (f *folders) tasting(l *library, name string) (*tasting.Tasting, error) {
	if t := f.tastings[name]; t != nil {
		return t, nil
	}
	t, _, err := readTasting(l, name)
	if err == nil {
		remember(&f.tastings, name, t)
	}
	return t, err
}

// style finds the style of a recipe, reading each once; the files of one folder
// share theirs.
func (f *folders) style(l *library, named, recipeName, id string) (*style.Style, error) {
	key := strings.Join([]string{named, filepath.Dir(recipeName), id}, "\n")
	if st, known := f.styles[key]; known {
		return st, nil
	}
	st, err := styleOf(l, named, recipeName, id)
	if err == nil {
		remember(&f.styles, key, st)
	}
	return st, err
}

func remember[T any](in *map[string]T, key string, value T) {
	if *in == nil {
		*in = map[string]T{}
	}
	(*in)[key] = value
}

type neighbours struct {
	recipes  []*recipe.Recipe
	byStem   map[string]*recipe.Recipe
	gyles    map[string]*gyle.Gyle // by their files
	tastings []string
}

// of reads the folder of a file, if it wasn't read before. What can't be read
// is passed over: nobody asked for it.
func (f *folders) of(file string) *neighbours {
	folder := filepath.Dir(file)
	if there := f.beside[folder]; there != nil {
		return there
	}
	found := &neighbours{byStem: map[string]*recipe.Recipe{}, gyles: map[string]*gyle.Gyle{}}
	remember(&f.beside, folder, found)
	files, _ := filepath.Glob(filepath.Join(folder, "*.yaml")) // the pattern is sound
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			continue
		}
		switch kind, _, _ := document.KindOf(text); kind {
		case recipe.Kind:
			if r, err := recipe.Parse(name, text); err == nil {
				found.recipes = append(found.recipes, r)
				found.byStem[stem(name)] = r
			}
		case gyle.Kind:
			if g, err := gyle.Parse(name, text); err == nil {
				found.gyles[name] = g
			}
		case tasting.Kind:
			found.tastings = append(found.tastings, name)
		}
	}
	return found
}

// testify adds tastings and brews to what is published. What was named must be
// right; what was found and tells nothing is left out.
func (c *publishCommand) testify(l *library, near *folders, name string, b *publish.Bundle) error {
	gyles, tastings, err := c.witnesses(l, near, name, b)
	if err != nil {
		return err
	}
	for _, one := range tastings {
		t, err := near.tasting(l, one)
		if err != nil {
			return err
		}
		of := versionTasted(l, near, one, t, b.Versions)
		if of == 0 && slices.Contains(c.Tasting, one) {
			return fmt.Errorf("%s: the later of its beers is no version of %s that is published\n   give its beers the recipes that they are: recipe: %s", one, b.Input.Recipe.Name, stem(name))
		}
		told := publish.Tasting{Slug: stem(one), Version: of, Doc: t}
		if of > 0 && told.Judged() {
			b.Tastings = append(b.Tastings, told)
		}
	}
	slices.SortStableFunc(b.Tastings, func(x, y publish.Tasting) int { return x.Doc.Date.Compare(y.Doc.Date.Time) })
	for _, one := range gyles {
		of := reconstructCommand{Gyle: one, shelving: c.shelving, printing: c.printing}
		named := slices.Contains(c.Gyle, one)
		found, err := of.reconstruct(l)
		if err != nil && named {
			return err
		}
		if err != nil {
			continue // an unfinished log tells nothing yet
		}
		if !named && !brewOf(found.gyle, stem(name), b.Input.Recipe) {
			continue
		}
		b.Brews = append(b.Brews, publish.Brew{Gyle: found.gyle, Made: found.made})
	}
	slices.SortStableFunc(b.Brews, func(x, y publish.Brew) int { return x.Gyle.Date.Compare(y.Gyle.Date.Time) })
	return nil
}

// brewOf reports whether a gyle brewed a recipe.
func brewOf(g *gyle.Gyle, slug string, r *recipe.Recipe) bool {
	return g.Recipe.ID == slug && cmp.Or(g.Recipe.Version, r.Version) == r.Version
}

// witnesses are the names of gyles and tastings that may tell of a recipe: the
// named ones, else those beside it, else those of the book that name it or an
// ancestor.
func (c *publishCommand) witnesses(l *library, near *folders, name string, b *publish.Bundle) (gyles, tastings []string, err error) {
	gyles, tastings = c.Gyle, c.Tasting
	if !c.Evidence || len(gyles) > 0 && len(tastings) > 0 {
		return gyles, tastings, nil
	}
	var foundGyles, foundTastings []string
	if isFile(name) {
		beside := near.of(name)
		for _, file := range slices.Sorted(maps.Keys(beside.gyles)) {
			if brewOf(beside.gyles[file], stem(name), b.Input.Recipe) {
				foundGyles = append(foundGyles, file)
			}
		}
		foundTastings = beside.tastings
	} else if foundGyles, foundTastings, err = namedIn(l, near, b); err != nil {
		return nil, nil, err
	}
	if len(gyles) == 0 {
		gyles = foundGyles
	}
	if len(tastings) == 0 {
		tastings = foundTastings
	}
	return gyles, tastings, nil
}

// namedIn lists the gyles of the book that brewed a recipe, and the tastings of
// it and its ancestors.
func namedIn(l *library, near *folders, b *publish.Bundle) (gyles, tastings []string, err error) {
	items, err := near.inBook(l, b.Input.Recipe.Name)
	if err != nil {
		return nil, nil, err
	}
	for _, item := range items {
		r := item.recipe
		if !slices.ContainsFunc(b.Versions, func(v *recipe.Recipe) bool { return v.Version == r.Version }) {
			continue
		}
		found, _, err := l.book.References(context.Background(), recipe.Kind, item.slug, store.Page{Limit: store.MaxLimit})
		if err != nil {
			return nil, nil, err
		}
		for _, ref := range found {
			switch {
			case ref.FromKind == gyle.Kind && r.Version == b.Input.Recipe.Version && !slices.Contains(gyles, ref.FromSlug):
				gyles = append(gyles, ref.FromSlug)
			case ref.FromKind == tasting.Kind && !slices.Contains(tastings, ref.FromSlug):
				tastings = append(tastings, ref.FromSlug)
			}
		}
	}
	return gyles, tastings, nil
}

// versionTasted is the number of the version that a tasting put to the test,
// the later of its beers; 0 where that is none of the versions.
func versionTasted(l *library, near *folders, name string, t *tasting.Tasting, versions []*recipe.Recipe) int {
	if len(t.Beers) == 0 || len(versions) == 0 {
		return 0
	}
	later := t.Beers[len(t.Beers)-1]
	var r *recipe.Recipe
	if isFile(name) {
		r = near.of(name).byStem[later.Recipe]
	} else if later.Recipe != "" {
		r, _ = beside(l, "", name, recipe.Kind, later.Recipe, recipe.Parse)
	}
	if r == nil || r.Name != versions[0].Name || !slices.ContainsFunc(versions, func(v *recipe.Recipe) bool { return v.Version == r.Version }) {
		return 0
	}
	return r.Version
}
