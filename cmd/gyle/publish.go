// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"os"
	"slices"
	"time"

	"gyle/plan"
	"gyle/publish"
	"gyle/recipe"
)

// publishCommand hands recipes on.
type publishCommand struct {
	Recipes []string `arg:"" name:"recipe" help:"Recipes: files, or names in the book."`
	House   string   `required:"" short:"H" placeholder:"HOUSE" help:"Brewhouse of the author, whose numbers are shown."`
	Stock   string   `short:"s" placeholder:"STOCK" help:"Stock of the author."`
	Water   string   `short:"w" placeholder:"WATER" help:"Water of the author."`
	Style   string   `placeholder:"STYLE" help:"Style; without it the one beside the recipe, or in the book."`

	Page     string `placeholder:"FILE" help:"Write a page that brews on the reader's own kit."`
	Text     string `placeholder:"FILE" help:"Write the recipe as plain text; - prints it."`
	Markdown string `placeholder:"FILE" help:"Write the recipe as Markdown; - prints it."`
	Label    string `placeholder:"FILE" help:"Write what may stand on a bottle; - prints it."`
	Bottle   string `placeholder:"VOLUME" help:"What one bottle holds, for the label."`
	Dated    string `placeholder:"TEXT" help:"Date for the label, as it is to be printed."`

	teaching

	evidence

	Site     string `placeholder:"DIR" help:"Write a static site of all these recipes and their styles."`
	Title    string `placeholder:"TEXT" help:"Title of the site."`
	By       string `placeholder:"NAME" help:"Who publishes the site."`
	Address  string `placeholder:"URL" help:"Where the site will stand; it gets a feed then."`
	Language string `enum:"en,de" default:"en" help:"Language of pages: en or de."`
	shelving
	printing
}

// Help is shown by "gyle publish --help".
func (publishCommand) Help() string {
	return `Examples:

  gyle publish ferry-brown-4.yaml --house garage.yaml --stock garage-shed.yaml --water saltpan-lane.yaml --page ferry-brown.html
  gyle publish ferry-brown-3.yaml --house garage.yaml --gyle gyle-17.yaml --tasting tasting-2-3.yaml --page ferry-brown.html
  gyle publish ferry-brown-4.yaml --house garage.yaml --cards cards --size tall --sheets sheets --paper letter
  gyle publish ferry-brown-3 ferry-brown-4 --house garage --book my.gylebook --site public --title "Saltpan Lane"

The page is one file: it works from a disk, a letter or any web server, without a network, and sends nothing anywhere. A
site that is published again changes only what changed.`
}

// Run publishes.
func (c *publishCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	if c.Page == "" && c.Text == "" && c.Markdown == "" && c.Label == "" && c.Site == "" && !c.wanted() {
		return usage("publish: say what to write: --page, --text, --markdown, --label, --cards, --sheets or --site")
	}
	if len(c.Recipes) > 1 && (c.Page != "" || c.Text != "" || c.Markdown != "" || c.Label != "" || c.wanted()) {
		return usage("publish: one recipe at a time, except for --site")
	}
	beers, err := c.beers(l)
	if err != nil {
		return err
	}
	for _, write := range []struct {
		target string
		make   func(publish.Bundle) ([]byte, error)
	}{
		{c.Page, c.page}, {c.Text, asBytes(publish.Text)}, {c.Markdown, asBytes(publish.Markdown)}, {c.Label, c.label},
	} {
		if write.target == "" {
			continue
		}
		content, err := write.make(beers[0].Bundle)
		if err != nil {
			return err
		}
		if err := s.put(write.target, content); err != nil {
			return err
		}
	}
	if c.wanted() {
		if err := c.teach(s, beers[0].Bundle); err != nil {
			return err
		}
	}
	if c.Site != "" {
		return c.site(s, beers)
	}
	return nil
}

// asBytes makes bytes of what writes a text.
func asBytes(write func(publish.Bundle) (string, error)) func(publish.Bundle) ([]byte, error) {
	return func(b publish.Bundle) ([]byte, error) {
		t, err := write(b)
		return []byte(t), err
	}
}

func (c *publishCommand) page(b publish.Bundle) ([]byte, error) {
	engine, err := publish.EmbeddedEngine()
	if err != nil {
		return nil, err
	}
	return publish.Page(b, engine)
}

func (c *publishCommand) label(b publish.Bundle) ([]byte, error) {
	p, err := makePlan(b.Input)
	if err != nil {
		return nil, err
	}
	return []byte(publish.LabelFor(p, b.ABV(), c.Bottle, c.Dated, c.printer()).In(c.Language).Text()), nil
}

// put writes a file whole, or prints it where the name is -.
func (s *streams) put(name string, content []byte) error {
	if name == "-" {
		_, err := s.out.Write(content)
		return err
	}
	if err := replaceFile(name, content); err != nil {
		return plainly(name, err)
	}
	fmt.Fprintf(s.out, "%s is written, %d kB\n", name, (len(content)+999)/1000)
	return nil
}

// beers reads the recipes with all that they are published with.
func (c *publishCommand) beers(l *library) ([]publish.SiteBeer, error) {
	var list []publish.SiteBeer
	var near folders
	var shared plan.Input // house, stock and water are read once
	for i, name := range c.Recipes {
		input := planCommand{Recipe: name, House: c.House, Stock: c.Stock, Water: c.Water}
		in, err := shared, error(nil)
		if i == 0 {
			in, err = input.input(l)
			shared = in
		} else {
			in.Recipe, err = load(l, recipe.Kind, name, recipe.Parse)
		}
		if err != nil {
			return nil, err
		}
		if len(c.Recipes) == 1 { // of many, a page says so that is made anew
			if _, err := makePlan(in); err != nil {
				return nil, err
			}
		}
		updated, err := changed(l, name)
		if err != nil {
			return nil, err
		}
		b := publish.SiteBeer{Slug: stem(name), Updated: updated, Bundle: publish.Bundle{Input: in, Lang: c.Language, Printer: c.printer()}}
		if b.Bundle.Style, err = near.style(l, c.Style, name, in.Recipe.Style); err != nil {
			return nil, err
		}
		if b.Bundle.Versions, err = versionsOf(l, &near, name, in.Recipe); err != nil {
			return nil, err
		}
		if err := c.testify(l, &near, name, &b.Bundle); err != nil {
			return nil, err
		}
		list = append(list, b)
	}
	return list, nil
}

// changed tells when a recipe was last changed: its file, or its revision in
// the book. A site published again must say the same.
func changed(l *library, name string) (time.Time, error) {
	if info, err := os.Stat(name); err == nil {
		return info.ModTime().UTC().Truncate(time.Second), nil
	}
	p, err := l.find(recipe.Kind, name)
	return p.changed.UTC().Truncate(time.Second), err
}

// site writes a static site of the recipes and their styles.
func (c *publishCommand) site(s *streams, beers []publish.SiteBeer) error {
	engine, err := publish.EmbeddedEngine()
	if err != nil {
		return err
	}
	site := publish.Site{Title: c.Title, By: c.By, URL: c.Address, Lang: c.Language, Beers: beers}
	if site.Title == "" {
		site.Title = "Recipes"
	}
	for _, b := range beers {
		slug := b.Input.Recipe.Style
		if b.Style == nil || slices.ContainsFunc(site.Styles, func(st publish.SiteStyle) bool { return st.Slug == slug }) {
			continue
		}
		site.Styles = append(site.Styles, publish.SiteStyle{Slug: slug, Updated: b.Updated, Style: b.Style})
	}
	if err := os.MkdirAll(c.Site, 0o755); err != nil {
		return plainly(c.Site, err)
	}
	const often = 50 // files between two lines
	w, err := site.Publish(c.Site, engine, func(done, of int) {
		if done%often == 0 && done < of {
			fmt.Fprintf(s.err, "%d of %d files\n", done, of)
		}
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(s.out, "%s: %d new, %d changed, %d removed, %d as they were\n", c.Site, w.New, w.Changed, w.Removed, w.Same)
	for _, name := range w.Gone {
		fmt.Fprintf(s.out, "removed %s\n", name)
	}
	return nil
}
