// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"

	"gyle/brewhouse"
	"gyle/formulate"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// formulateCommand finds recipes that fit a style.
type formulateCommand struct {
	Style      string   `arg:"" help:"Style: a file, or a name in the book."`
	Stock      string   `short:"s" placeholder:"STOCK" help:"Use what is in this stock; without it, what most brewers can get."`
	House      string   `short:"H" placeholder:"HOUSE" help:"Brewhouse to find it for; without it a middling one on paper."`
	Water      string   `short:"w" placeholder:"WATER" help:"Water of the house."`
	Size       string   `placeholder:"VOLUME" help:"Collected wort: 20 L, 5 US gal."`
	Like       string   `placeholder:"RECIPE" help:"Recipe to start from, or to be near to."`
	Aim        string   `placeholder:"AIM" help:"What to care for: middle (of the style), near (to --like), cheapest, lots (to be used up), fewest (ingredients)."`
	Must       []string `sep:"none" placeholder:"MALT=5%" help:"Malt or hop that must be used; a malt with its least share."`
	Without    []string `sep:"," placeholder:"NAME" help:"Malt, hop or yeast that must not be used."`
	UseUp      []string `sep:"," placeholder:"MALT" help:"Malt to be used up, for --aim lots."`
	Name       string   `help:"Name of the beer."`
	Robust     bool     `help:"On a house: of the recipes that fit, the one that is likeliest to turn out inside."`
	Strict     bool     `help:"Never give up advice: a conflict with it is told."`
	Variations int      `placeholder:"N" help:"Clearly different beers instead, each reached from --like or from what is found."`
	Swap       []string `sep:"none" placeholder:"NAME=OTHER,…" help:"Put another malt or hop in the place of one of --like."`
	Out        string   `placeholder:"FILE" help:"Write the recipe into a file that isn't there yet."`
	JSON       bool     `name:"json" help:"Print it for programs."`
	shelving
	printing
}

// Help is shown by "gyle formulate --help".
func (formulateCommand) Help() string {
	return `Examples:

  gyle formulate oat-brown-ale.yaml --stock garage-shed.yaml --house garage.yaml --water saltpan-lane.yaml
  gyle formulate oat-brown-ale.yaml --must crystal=5% --without chocolate
  gyle formulate oat-brown-ale.yaml --like ferry-brown-3.yaml --variations 3
  gyle formulate oat-brown-ale.yaml --like ferry-brown-3.yaml --swap challenger=northdown,magnum

The rules of the style are the rules that judge a recipe. Where they can't hold together, the smallest set that
contradicts itself is told with its reasons, and what would help. The room of an ingredient is the least and the most it
may be with all else free.`
}

// Run finds a recipe and prints it.
func (c *formulateCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	wish, err := c.wish(l)
	if err != nil {
		return err
	}
	switch {
	case len(c.Swap) > 0:
		return c.swaps(s, wish)
	case c.Variations > 0:
		return c.variations(s, wish)
	}
	r, err := formulate.Find(context.Background(), wish)
	if err != nil {
		return c.refuse(s, err)
	}
	if err := c.write(r.Text); err != nil {
		return err
	}
	if c.JSON {
		return printJSON(s.out, r)
	}
	if c.Out == "" {
		fmt.Fprint(s.out, r.Text)
	}
	printFormulated(&sheet{w: s.out}, r, c.printer())
	return nil
}

// refuse tells what conflicts: to a program as a document, to people as text.
func (c *formulateCommand) refuse(s *streams, err error) error {
	var conflict *formulate.Conflict
	if c.JSON && errors.As(err, &conflict) {
		return errors.Join(errFaults, printJSON(s.out, map[string]any{"conflict": conflict}))
	}
	return err
}

// write writes the recipe into the file that was asked for, never over another.
func (c *formulateCommand) write(text string) error {
	if c.Out == "" {
		return nil
	}
	f, err := os.OpenFile(c.Out, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, os.ErrExist) {
		return usage("%s is there already: name another file", c.Out)
	}
	if err != nil {
		return fmt.Errorf("write %s: %w", c.Out, err)
	}
	_, err = f.WriteString(text)
	return errors.Join(err, f.Close())
}

// wish reads the documents and the wishes.
func (c *formulateCommand) wish(l *library) (w formulate.Wish, err error) {
	if w.Style, err = load(l, style.Kind, c.Style, style.Parse); err != nil {
		return w, err
	}
	if w.House, err = load(l, brewhouse.Kind, c.House, brewhouse.Parse); err != nil {
		return w, err
	}
	if w.Stock, err = load(l, stock.Kind, c.Stock, stock.Parse); err != nil {
		return w, err
	}
	if w.Water, err = load(l, water.Kind, c.Water, water.Parse); err != nil {
		return w, err
	}
	if w.Start, err = load(l, recipe.Kind, c.Like, recipe.Parse); err != nil {
		return w, err
	}
	w.Name, w.StyleID, w.Objective, w.Without = c.Name, styleName(c.Style), formulate.Objective(c.Aim), c.Without
	w.Robust, w.Strict = c.Robust, c.Strict
	if c.Size != "" {
		if w.Size, err = quantity.ParseVolume(c.Size); err != nil {
			return w, withHint("--size", err)
		}
	}
	if w.Malts, w.Hops = formulate.Shelf(w.Style); w.Stock != nil {
		w.Malts, w.Hops = formulate.FromStock(w.Stock)
	}
	return w, c.uses(&w)
}

// styleName is the name by which a recipe finds its style.
func styleName(name string) string {
	if isFile(name) {
		return stem(name)
	}
	return name[strings.LastIndexByte(name, '/')+1:]
}

// uses reads what must be used, and what is to be used up.
func (c *formulateCommand) uses(w *formulate.Wish) error {
	for _, must := range c.Must {
		name, share, given := strings.Cut(must, "=")
		var least quantity.Fraction
		if given {
			var err error
			if least, err = quantity.ParseFraction(strings.TrimSpace(share)); err != nil {
				return withHint("--must "+name, err)
			}
		}
		if err := w.Use(strings.TrimSpace(name), least); err != nil {
			return usage("--must: %w", err)
		}
	}
	for _, malt := range c.UseUp {
		if err := w.UseUp(malt); err != nil {
			return usage("--use-up: %w", err)
		}
	}
	switch known := formulate.Objectives(); {
	case c.Aim == "":
		return nil
	case c.Aim == string(formulate.Near) && w.Start == nil:
		return usage("--aim near: near to what? name a recipe: --like RECIPE")
	default:
		for _, o := range known {
			if c.Aim == string(o) {
				return nil
			}
		}
		return usage("--aim: there is no aim %q; there are %v", c.Aim, known)
	}
}

// variations prints clearly different beers of the style.
func (c *formulateCommand) variations(s *streams, wish formulate.Wish) error {
	from := wish.Start
	if from == nil {
		r, err := formulate.Find(context.Background(), wish)
		if err != nil {
			return c.refuse(s, err)
		}
		from = r.Recipe
	}
	all, err := formulate.Variations(context.Background(), wish, from, c.Variations)
	if err != nil {
		return c.refuse(s, err)
	}
	if c.JSON {
		return printJSON(s.out, all)
	}
	out := &sheet{w: s.out}
	out.heading("%s: %d of %d variations", recipeTitle(from), len(all), c.Variations)
	for _, v := range all {
		out.note("·", v.Says)
	}
	for i, v := range all {
		fmt.Fprintf(s.out, "\n# %d: %s\n%s", i+1, v.Says, v.Text)
	}
	return nil
}

// swaps prints a recipe with another ingredient in the place of one.
func (c *formulateCommand) swaps(s *streams, wish formulate.Wish) error {
	if wish.Start == nil {
		return usage("--swap: in which recipe? --like RECIPE")
	}
	var all []formulate.Swap
	for _, one := range c.Swap {
		from, to, ok := strings.Cut(one, "=")
		if !ok {
			return usage("--swap: write %s=OTHER", one)
		}
		found, err := formulate.Swaps(context.Background(), wish, wish.Start, from, strings.Split(to, ","))
		if err != nil {
			return err
		}
		all = append(all, found...)
	}
	if c.JSON {
		return printJSON(s.out, all)
	}
	out := &sheet{w: s.out}
	for _, one := range all {
		printSwap(out, one)
	}
	return nil
}
