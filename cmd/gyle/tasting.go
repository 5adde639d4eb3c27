// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"gyle/blind"
	"gyle/internal/web"
	"gyle/publish/table"
	"gyle/tasting"
)

// tastingCommand plans blind tastings and says what they show.
type tastingCommand struct {
	Show tastingShow `cmd:"" default:"withargs" help:"Print the plan of a tasting, or what it shows."`
	Plan tastingPlan `cmd:"" help:"Plan a tasting: what the panel can find, who gets which glasses in which order."`
	Open tastingOpen `cmd:"" help:"Close the answers and open the key."`
	Next tastingNext `cmd:"" help:"Say which question about a beer is worth a panel next."`

	Sheet  tastingSheet  `cmd:"" help:"Enter a judge's score sheet, attribute by attribute."`
	Causes tastingCauses `cmd:"" help:"Look in the log of a gyle for what may lie behind an off-note."`
}

// tastingShow prints a tasting.
type tastingShow struct {
	Tasting string `arg:"" help:"Tasting: a file, or a name in the book."`
	Key     bool   `help:"Print the key, too: which code is which beer. For the pourer alone."`
	Words   string `help:"Pourer's words or link: of a tasting in a book, with --key." placeholder:"WORDS"`
	Ballots string `help:"Write a ballot for each taster, as PDF." placeholder:"FILE.pdf"`
	Cards   string `help:"Write a card for each glass: its code, and what the beers contain; as PDF." placeholder:"FILE.pdf"`
	Pourer  string `help:"Write the pourer's sheet, which shows the key, as PDF." placeholder:"FILE.pdf"`
	Paper   string `enum:"a4,letter" default:"a4" help:"Paper of ballots, cards and the pourer's sheet: a4 or letter."`
	JSON    bool   `name:"json" help:"Print for programs."`
	CSV     bool   `name:"csv" help:"Print the answers that count as CSV; beers stand in it once the key is open."`
	shelving
	printing
}

// Help is shown by "gyle tasting show --help".
func (tastingShow) Help() string {
	return `Examples:

  gyle tasting tasting-2-3 --book my.gylebook
  gyle tasting evening.yaml
  gyle tasting evening.yaml --key
  gyle tasting evening.yaml --ballots ballots.pdf --cards cards.pdf --pourer pourer.pdf

Before the key is open the trays and codes are printed, not what is in the glasses. Afterwards: was a difference shown, how
many can tell, how sure is that; a preference from its own flight; attributes that stay when all are weighed together. That
nothing was shown never means that the beers are the same.`
}

// Run prints.
func (c *tastingShow) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	t, _, err := readTasting(l, c.Tasting)
	if err != nil {
		return err
	}
	if c.Ballots+c.Cards+c.Pourer != "" {
		return c.papers(s, l, t)
	}
	verdict := blind.Of(t, c.printer())
	switch {
	case c.JSON:
		return printJSON(s.out, verdict)
	case c.CSV:
		return printTable(s, table.Answers(t, c.printer()), c.printer())
	}
	out := &sheet{w: s.out}
	printTasting(out, t, verdict, c.printer())
	if err := c.printBeers(out, l, t); err != nil {
		return err
	}
	if !c.Key {
		return nil
	}
	keys, err := keysOf(l, c.Tasting, c.Words)
	if err != nil {
		return err
	}
	return printKeys(out, t, keys)
}

// readTasting reads a tasting from a file or the book.
func readTasting(l *library, name string) (*tasting.Tasting, page, error) {
	p, err := l.find(tasting.Kind, name)
	if err != nil {
		return nil, p, err
	}
	if p.kind != tasting.Kind {
		return nil, p, fmt.Errorf("%s is a %s, and a %s is wanted here", p.file, p.kind, tasting.Kind)
	}
	t, err := tasting.Parse(p.file, p.text)
	return t, p, err
}

// tastingSlug is the name of a tasting in a book.
func tastingSlug(name string) string { return strings.TrimPrefix(name, tasting.Kind+"/") }

// keyFile is where the keys of a tasting in a file are kept: beside it.
func keyFile(name string) string { return strings.TrimSuffix(name, filepath.Ext(name)) + ".key" }

// keysOf finds the sealed keys of a tasting: beside its file, or in the book, where
// the pourer's words unlock them.
func keysOf(l *library, name, words string) (map[string]*tasting.Key, error) {
	if !isFile(name) {
		if words == "" {
			return map[string]*tasting.Key{}, nil
		}
		return web.UnlockAll(context.Background(), webBook{l.book}, tastingSlug(name), words)
	}
	text, err := os.ReadFile(keyFile(name))
	if errors.Is(err, fs.ErrNotExist) {
		return map[string]*tasting.Key{}, nil
	}
	if err != nil {
		return nil, err
	}
	return web.ParseKeys(text)
}

// tastingOpen ends a tasting.
type tastingOpen struct {
	Tasting string `arg:"" help:"Tasting: a file, or a name in the book."`
	Words   string `help:"Pourer's words or link, for a tasting in a book." placeholder:"WORDS"`
	shelving
	printing
}

// Help is shown by "gyle tasting open --help".
func (tastingOpen) Help() string {
	return `Example:

  gyle tasting open evening.yaml
  gyle tasting open oats --book my.gylebook --words WORDS

Answers that come later don't count. The key lies in evening.key beside the file, or locked in the book: the pourer's words,
which were shown when it was planned, unlock it. It is compared with what was sealed.`
}

// Run closes and opens.
func (c *tastingOpen) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	t, _, err := readTasting(l, c.Tasting)
	if err != nil {
		return err
	}
	keys, err := keysOf(l, c.Tasting, c.Words)
	if err != nil {
		return err
	}
	if isFile(c.Tasting) {
		err = openFile(c.Tasting, t, keys)
	} else {
		_, err = web.ChangeTasting(context.Background(), webBook{l.book}, tastingSlug(c.Tasting), "", "key opened", func(kept *tasting.Tasting) error {
			t = kept
			return web.OpenTasting(t, keys, time.Now())
		})
	}
	if err != nil {
		return err
	}
	printTasting(&sheet{w: s.out}, t, blind.Of(t, c.printer()), c.printer())
	return nil
}

func openFile(name string, t *tasting.Tasting, keys map[string]*tasting.Key) error {
	if err := web.OpenTasting(t, keys, time.Now()); err != nil {
		return err
	}
	text, err := t.Text()
	if err != nil {
		return err
	}
	return replaceFile(name, text)
}
