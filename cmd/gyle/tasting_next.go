// SPDX-License-Identifier: MIT

package main

import (
	"context"

	"gyle/blind"
	"gyle/internal/web"
	"gyle/recipe"
)

// tastingNext says which question is worth a panel.
type tastingNext struct {
	Recipe string `arg:"" help:"A version of the beer: a name in the book."`
	JSON   bool   `name:"json" help:"Print for programs."`
	shelving
	printing
}

// Help is shown by "gyle tasting next --help".
func (tastingNext) Help() string {
	return `Example:

  gyle tasting next ferry-brown-4 --book my.gylebook

Each version against the one that it came from: what a difference test and a preference are expected to teach, the panel that
they need, and what a verdict could not tell apart: several changes, or one batch of each version.`
}

// Run prints.
func (c *tastingNext) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	if c.shelving.Book == "" || isFile(c.Recipe) {
		return usage("the versions of a beer and what panels said of them stand in a book: --book FILE.gylebook, and a name in it")
	}
	p, err := l.find(recipe.Kind, c.Recipe)
	if err != nil {
		return err
	}
	r, err := recipe.Parse(p.file, p.text)
	if err != nil {
		return err
	}
	steps, titles, err := web.TastingSteps(context.Background(), webBook{l.book}, r.Name)
	if err != nil {
		return err
	}
	questions := blind.Next(steps, c.printer())
	if c.JSON {
		return printJSON(s.out, questions)
	}
	out := &sheet{w: s.out}
	defer out.flush()
	if len(questions) == 0 {
		out.note("?", r.Name+" has one version only: nothing to hold it against.")
	}
	for _, q := range questions {
		out.heading("%s against %s", titles[q.Later], titles[q.Earlier])
		out.note("○", q.Says(c.printer()))
		out.note(" ", q.Believed)
		for _, text := range q.Cautions {
			out.note("?", text)
		}
	}
	return nil
}
