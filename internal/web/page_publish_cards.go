// SPDX-License-Identifier: MIT

package web

import (
	"archive/zip"
	"cmp"
	"context"
	"fmt"
	"io"
	"net/http"
	"strings"

	"gyle/publish"
	"gyle/publish/card"
	"gyle/publish/sheet"
	"gyle/style"
)

// cardBundle is what cards and sheets of a plan are made from.
func cardBundle(b publish.Bundle, p planned) card.Bundle {
	return card.Bundle{Style: b.Style, Recipe: p.plan.RecipeDocument(), Plan: p.plan, Versions: b.Versions, Panel: b.Panel(), Printer: b.Printer}
}

func planCards(w http.ResponseWriter, r *http.Request, b publish.Bundle, p planned) error {
	return sendCards(w, r, cardBundle(b, p), readPlanQuery(r.URL.Query()).Recipe)
}

func planSheets(w http.ResponseWriter, r *http.Request, b publish.Bundle, p planned) error {
	return sendSheet(w, r, cardBundle(b, p), readPlanQuery(r.URL.Query()).Recipe, sheet.Set)
}

// ofStyle hands a style on that has no beer beside it.
func (s *Server) ofStyle(hand func(http.ResponseWriter, *http.Request, card.Bundle, string) error) handle {
	return func(w http.ResponseWriter, r *http.Request) error {
		_, d, err := s.read(r)
		if err != nil {
			return err
		}
		if d.Deleted {
			return ErrNotFound
		}
		st, err := parsed(s, d.Slug, d.Text, style.Parse)
		if err != nil {
			return &RefusedError{d.Title + " has faults: mend them before it is handed on."}
		}
		return hand(w, r, card.Bundle{Style: st, Printer: handOf(r).printer()}, d.Slug)
	}
}

// sendSheet answers with a sheet on the paper that is asked for: paper=a4 or
// paper=letter.
func sendSheet(w http.ResponseWriter, r *http.Request, b card.Bundle, name string, write func(card.Bundle, sheet.Paper) ([]byte, error)) error {
	paper, err := sheet.PaperNamed(cmp.Or(r.URL.Query().Get("paper"), sheet.A4.Name))
	if err != nil {
		return unknownWish(err)
	}
	pdf, err := write(b, paper)
	if err != nil {
		return err
	}
	asFile(w, "application/pdf", name+"."+paper.Name+".pdf")
	_, err = w.Write(pdf)
	return err
}

// sendCards answers with a deck of cards: shape=wide, tall or a5, theme=paper,
// white or night, and pixels=1 for PNG beside the drawings. Pixels take most of
// a second of a processor a card; without them it is a matter of milliseconds.
func sendCards(w http.ResponseWriter, r *http.Request, b card.Bundle, name string) error {
	q := r.URL.Query()
	size, err := card.SizeNamed(cmp.Or(q.Get("shape"), card.Wide.Name))
	if err != nil {
		return unknownWish(err)
	}
	theme, err := card.ThemeNamed(cmp.Or(q.Get("theme"), card.Paper.Name))
	if err != nil {
		return unknownWish(err)
	}
	deck, err := card.Deck(b, size, theme)
	if err != nil {
		return err
	}
	pixels := q.Get("pixels") == "1"
	if pixels {
		release, err := pixelTurn(r.Context())
		if err != nil {
			return nil // whoever asked has gone
		}
		defer release()
	}
	asFile(w, "application/zip", name+"."+size.Name+".cards.zip")
	if err := writeCards(r.Context(), w, deck, pixels); err != nil {
		// The file is on its way: break it off, so that no half of it is taken
		// for the whole.
		panic(http.ErrAbortHandler)
	}
	return nil
}

// unknownWish refuses what no card or sheet can be, in a sentence.
func unknownWish(err error) error {
	text := err.Error()
	return &RefusedError{strings.ToUpper(text[:1]) + text[1:] + "."}
}

// drawing lets one deck at a time be drawn as pixels: the other processors are
// for people who are brewing.
var drawing = make(chan struct{}, 1)

// pixelTurn waits until no other deck is drawn as pixels.
func pixelTurn(ctx context.Context) (release func(), err error) {
	select {
	case drawing <- struct{}{}:
		return func() { <-drawing }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// writeCards packs cards one after the other, as they are drawn: each as SVG,
// as PNG where pixels are wanted, and the text of all.
func writeCards(ctx context.Context, to io.Writer, deck []card.Card, pixels bool) error {
	pack := zip.NewWriter(to)
	var text strings.Builder
	for _, c := range deck {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := put(pack, c.Name+".svg", zip.Deflate, c.SVG()); err != nil {
			return err
		}
		if pixels {
			png, err := c.PNG()
			if err != nil {
				return err
			}
			if err := put(pack, c.Name+".png", zip.Store, png); err != nil { // it is packed already
				return err
			}
		}
		fmt.Fprintf(&text, "%s\n%s\n\n%s\n\n", c.Name, c.Title, c.Text)
	}
	if err := put(pack, "cards.txt", zip.Deflate, []byte(text.String())); err != nil {
		return err
	}
	return pack.Close()
}

func put(pack *zip.Writer, name string, method uint16, content []byte) error {
	f, err := pack.CreateHeader(&zip.FileHeader{Name: name, Method: method})
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	return err
}
