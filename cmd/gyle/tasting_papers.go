// SPDX-License-Identifier: MIT

package main

import (
	"fmt"

	"gyle/internal/web"
	"gyle/panel"
	print "gyle/publish/sheet"
	"gyle/recipe"
	"gyle/tasting"
)

// papers writes ballots, cards and the pourer's sheet as PDF.
func (c *tastingShow) papers(s *streams, l *library, t *tasting.Tasting) error {
	paper, err := print.PaperNamed(c.Paper)
	if err != nil {
		return err
	}
	e := c.evening(l, t)
	for _, one := range []struct {
		file, what string
		write      func() ([]byte, error)
	}{
		{c.Ballots, "ballots", func() ([]byte, error) { return print.Ballots(e, paper) }},
		{c.Cards, "cards", func() ([]byte, error) { return print.Cards(e, paper) }},
		{c.Pourer, "the pourer's sheet, which shows the key", func() ([]byte, error) { return c.pourer(l, e, paper) }},
	} {
		if one.file == "" {
			continue
		}
		pdf, err := one.write()
		if err == nil {
			err = replaceFile(one.file, pdf)
		}
		if err != nil {
			return err
		}
		fmt.Fprintf(s.out, "%s: %s on %s\n", one.file, one.what, c.Paper)
	}
	return nil
}

// pourer writes the pourer's sheet with the keys that are open or at hand.
func (c *tastingShow) pourer(l *library, e print.Evening, paper print.Paper) ([]byte, error) {
	keys, err := keysOf(l, c.Tasting, c.Words)
	if err != nil {
		return nil, err
	}
	for i := range e.Tasting.Flights {
		if f := &e.Tasting.Flights[i]; f.Key != nil {
			keys[f.Name] = f.Key
		}
	}
	return print.Pourer(e, keys, paper)
}

// evening is a tasting with what its papers must tell.
func (c *tastingShow) evening(l *library, t *tasting.Tasting) print.Evening {
	var list []*recipe.Recipe
	for _, b := range t.Beers {
		if b.Recipe == "" {
			continue
		}
		p, err := l.find(recipe.Kind, b.Recipe)
		if err != nil {
			p, err = l.find(recipe.Kind, b.Recipe+".yaml")
		}
		if err != nil {
			continue
		}
		if r, err := recipe.Parse(p.file, p.text); err == nil {
			list = append(list, r)
		}
	}
	e := print.Evening{Tasting: t, Contains: web.ContainTogether(list), Caution: panel.Caution, Alcohol: map[string]string{}}
	if poured, known := panel.Poured(t); known {
		for taster, mass := range poured {
			e.Alcohol[taster] = "Your glasses hold up to " + c.printer().Number(mass.Grams(), 1) + " g of alcohol together."
		}
	}
	return e
}
