// SPDX-License-Identifier: MIT

package storetest

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"

	"gyle/internal/store"
)

// Size says how much to write.
type Size struct {
	Recipes  int // recipes
	Versions int // revisions of all recipes together, at least one each
	Others   int // documents each of style, brewhouse, stock and water
	Gyles    int
	Tastings int
	Events   int // log entries of all gyles together
}

// Decades is the size of one brewer's decades.
var Decades = Size{Recipes: 2500, Versions: 10_000, Others: 50, Gyles: 2000, Tastings: 500, Events: 1_000_000}

// Evening is a small book of the same make, for quick tests.
var Evening = Size{Recipes: 10, Versions: 25, Others: 2, Gyles: 8, Tastings: 3, Events: 200}

// A Writer writes the texts. Links are the documents that exist and may be named,
// at most one of each kind; random is the source of all chance.
type Writer struct {
	Text  func(random *rand.Rand, kind, slug string, revision int, links []store.Ref) string
	Event func(random *rand.Rand, gyle string, seq int) store.Event
}

// entriesAtOnce is how many log entries are saved together.
const entriesAtOnce = 1000

// Slug is the name of the document number n (from 0) of a kind.
func Slug(kind string, n int) string { return fmt.Sprintf("%s-%05d", kind, n) }

// Fill writes a book of the given size. The same seed, writer and clock of the
// book make the same book.
func Fill(ctx context.Context, b *store.Book, size Size, seed uint64, writer Writer) error {
	if size.Recipes < 1 || size.Others < 1 || size.Versions < size.Recipes {
		return errors.New("fill a book: it takes one recipe, one of each other kind and a version for each recipe")
	}
	f := &filler{ctx: ctx, book: b, size: size, writer: writer, random: rand.New(rand.NewPCG(seed, 0))}
	for _, step := range []func() error{f.others, f.recipes, f.gyles, f.tastings, f.events} {
		if err := step(); err != nil {
			return fmt.Errorf("fill a book: %w", err)
		}
	}
	return nil
}

type filler struct {
	ctx    context.Context
	book   *store.Book
	size   Size
	writer Writer
	random *rand.Rand
}

func (f *filler) put(kind string, n, base int, links ...store.Ref) error {
	slug := Slug(kind, n)
	text := f.writer.Text(f.random, kind, slug, base+1, links)
	r, err := f.book.Put(f.ctx, store.Draft{Kind: kind, Slug: slug, Text: text, Author: "Ada", Why: "another try", Base: base})
	if err == nil && r.Number != base+1 {
		err = fmt.Errorf("%s: the text of revision %d equals the one before", slug, base+1)
	}
	return err
}

// link names one document of a kind by lot.
func (f *filler) link(kind string, count int) store.Ref {
	return store.Ref{Kind: kind, Slug: Slug(kind, f.random.IntN(count)), Field: kind}
}

func (f *filler) others() error {
	for _, kind := range []string{"style", "brewhouse", "stock", "water"} {
		for n := range f.size.Others {
			if err := f.put(kind, n, 0); err != nil {
				return err
			}
		}
	}
	return nil
}

// recipes goes round the recipes until all versions are written, as brewers do.
func (f *filler) recipes() error {
	for n := range f.size.Versions {
		if err := f.put("recipe", n%f.size.Recipes, n/f.size.Recipes, f.link("style", f.size.Others)); err != nil {
			return err
		}
	}
	return nil
}

func (f *filler) gyles() error {
	for n := range f.size.Gyles {
		links := []store.Ref{f.link("recipe", f.size.Recipes)}
		for _, kind := range []string{"brewhouse", "stock", "water"} {
			links = append(links, f.link(kind, f.size.Others))
		}
		if err := f.put("gyle", n, 0, links...); err != nil {
			return err
		}
	}
	return nil
}

func (f *filler) tastings() error {
	for n := range f.size.Tastings {
		var links []store.Ref
		if f.size.Gyles > 0 {
			links = append(links, f.link("gyle", f.size.Gyles))
		}
		if err := f.put("tasting", n, 0, links...); err != nil {
			return err
		}
	}
	return nil
}

// events gives each gyle its part of the entries.
func (f *filler) events() error {
	for n := range f.size.Gyles {
		slug := Slug("gyle", n)
		entries := f.size.Events / f.size.Gyles
		if n < f.size.Events%f.size.Gyles {
			entries++
		}
		var batch []store.Event
		for seq := 1; seq <= entries; seq++ {
			batch = append(batch, f.writer.Event(f.random, slug, seq))
			if len(batch) < entriesAtOnce && seq < entries {
				continue
			}
			if _, err := f.book.AppendEvents(f.ctx, slug, batch); err != nil {
				return err
			}
			batch = batch[:0]
		}
	}
	return nil
}

// Words writes documents of lines "key: value" for [CheckWords]: about three
// kilobytes of trade words each, and small entries.
var Words = Writer{Text: wordsText, Event: wordsEvent}

var words = strings.Fields(`malt oats wheat barley rye roast crystal amber brown pale chocolate black hop
	challenger bramling bitter aroma boil stand mash rest sparge liquor copper grist wort gravity yeast pitch
	attenuation condition cask bottle keg chloride sulfate calcium colour haze body dry sweet sharp smooth`)

// wordsLines is how many lines of eight words a text has: about 3 kB.
const wordsLines = 60

func wordsText(random *rand.Rand, kind, slug string, revision int, links []store.Ref) string {
	var text strings.Builder
	fmt.Fprintf(&text, "title: %s %s %s\nrevision: %d\n", pick(random), pick(random), slug, revision)
	for _, link := range links {
		fmt.Fprintf(&text, "%s: %s\n", link.Kind, link.Slug)
	}
	for range wordsLines {
		text.WriteString("note:")
		for range 8 {
			text.WriteString(" " + pick(random))
		}
		text.WriteString("\n")
	}
	return text.String()
}

func wordsEvent(random *rand.Rand, gyle string, seq int) store.Event {
	kind := []string{"temperature", "gravity", "volume", "note"}[random.IntN(4)]
	body := fmt.Sprintf(`{"value":%d,"unit":"°C","instrument":"t1","note":"%s %s"}`, random.IntN(1000), pick(random), pick(random))
	return store.Event{Kind: kind, Author: "Ada", Body: []byte(body), Token: fmt.Sprintf("%s-%d", gyle, seq)}
}

func pick(random *rand.Rand) string { return words[random.IntN(len(words))] }

// CheckWords reads title and links from the texts of [Words].
func CheckWords(kind string, text []byte) (title string, refs []store.Ref, err error) {
	for _, line := range strings.Split(string(text), "\n") {
		key, value, _ := strings.Cut(line, ": ")
		switch key {
		case "title":
			title = value
		case "style", "recipe", "brewhouse", "stock", "water", "gyle":
			refs = append(refs, store.Ref{Kind: key, Slug: value, Field: key})
		}
	}
	if title == "" {
		return "", nil, errors.New("no title")
	}
	return title, refs, nil
}
