// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"gyle/plan"
	"gyle/publish"
	"gyle/publish/card"
	print "gyle/publish/sheet"
)

// teaching are the wishes for cards and sheets; publishCommand embeds it.
type teaching struct {
	Cards string            `placeholder:"DIR" help:"Write teaching cards into a folder, as SVG and PNG, with their text."`
	Size  string            `enum:"wide,tall,a5" default:"wide" help:"Cards: wide (1920 × 1080), tall (1080 × 1920) or a5."`
	Theme string            `enum:"paper,white,night" default:"paper" help:"Cards: paper, white or night."`
	Color map[string]string `placeholder:"NAME=#RRGGBB" help:"Own colours of cards: paper, print, planned, measured, corrected, lines."`

	Sheets string `placeholder:"DIR" help:"Write sheets to print into a folder, as PDF: recipe, brew day, style."`
	Paper  string `enum:"a4,letter" default:"a4" help:"Sheets: a4 or letter."`
}

// wanted reports whether cards or sheets are asked for.
func (c *teaching) wanted() bool { return c.Cards != "" || c.Sheets != "" }

// teach writes the cards and sheets of a beer.
func (c *teaching) teach(s *streams, b publish.Bundle) error {
	theme, err := c.theme()
	if err != nil {
		return err
	}
	p, err := plan.Make(b.Input)
	if err != nil {
		return err
	}
	bundle := card.Bundle{Style: b.Style, Recipe: p.RecipeDocument(), Plan: p, Versions: b.Versions, Panel: b.Panel(), Printer: b.Printer}
	if c.Cards != "" {
		if err := c.cards(s, bundle, theme); err != nil {
			return err
		}
	}
	if c.Sheets != "" {
		return c.sheets(s, bundle)
	}
	return nil
}

// theme is the theme with the colours that were given.
func (c *teaching) theme() (card.Theme, error) {
	theme, err := card.ThemeNamed(c.Theme)
	if err != nil {
		return theme, err
	}
	places := map[string]*card.Color{
		"paper": &theme.Paper, "print": &theme.Print, "planned": &theme.Planned, "measured": &theme.Measured, "corrected": &theme.Corrected, "lines": &theme.Lines,
	}
	for name, text := range c.Color {
		place, known := places[name]
		if !known {
			return theme, usage("--color: there is no %s to colour: write paper, print, planned, measured, corrected or lines", name)
		}
		if *place, err = card.ParseColor(text); err != nil {
			return theme, &usageError{fmt.Errorf("--color: %w", err)}
		}
	}
	return theme, nil
}

func (c *teaching) cards(s *streams, b card.Bundle, theme card.Theme) error {
	size, err := card.SizeNamed(c.Size)
	if err != nil {
		return err
	}
	deck, err := card.Deck(b, size, theme)
	if err != nil {
		return err
	}
	folder := newFolder(c.Cards)
	var text strings.Builder
	for _, one := range deck {
		pixels, err := one.PNG()
		if err != nil {
			return err
		}
		folder.put(one.Name+".svg", one.SVG())
		folder.put(one.Name+".png", pixels)
		fmt.Fprintf(&text, "%s\n%s\n\n%s\n\n", one.Name, one.Title, one.Text)
	}
	folder.put("cards.txt", []byte(text.String()))
	return folder.done(s, fmt.Sprintf("%d cards, %s", len(deck), c.Size))
}

func (c *teaching) sheets(s *streams, b card.Bundle) error {
	paper, err := print.PaperNamed(c.Paper)
	if err != nil {
		return err
	}
	folder := newFolder(c.Sheets)
	var names []string
	for _, one := range []struct {
		name  string
		write func(card.Bundle, print.Paper) ([]byte, error)
		can   bool
	}{{"recipe", print.Recipe, true}, {"brew", print.Brew, true}, {"style", print.Guide, b.Style != nil}} {
		if !one.can {
			continue
		}
		pdf, err := one.write(b, paper)
		if err != nil {
			return err
		}
		folder.put(one.name+".pdf", pdf)
		names = append(names, one.name)
	}
	return folder.done(s, "sheets of "+strings.Join(names, ", ")+" on "+c.Paper)
}

// folder collects files and writes them into a folder.
type folder struct {
	path  string
	names []string
	texts map[string][]byte
}

func newFolder(path string) *folder { return &folder{path: path, texts: map[string][]byte{}} }

func (f *folder) put(name string, text []byte) {
	f.names = append(f.names, name)
	f.texts[name] = text
}

// done writes the files and says what they are.
func (f *folder) done(s *streams, what string) error {
	if err := os.MkdirAll(f.path, 0o755); err != nil {
		return plainly(f.path, err)
	}
	slices.Sort(f.names)
	for _, name := range f.names {
		file := filepath.Join(f.path, name)
		if err := os.WriteFile(file, f.texts[name], 0o644); err != nil {
			return plainly(file, err)
		}
	}
	fmt.Fprintf(s.out, "%s: %s\n", f.path, what)
	return nil
}
