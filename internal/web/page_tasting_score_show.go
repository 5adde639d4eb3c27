// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"html"
	"slices"
	"strings"

	"gyle/blind"
	"gyle/causes"
	"gyle/data"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/tasting"
)

// beersBody is what score sheets and profiles say of the beers one by one.
type beersBody struct {
	Ranges []rangeBody
	Traces []traceBody
}

// rangeBody is one beer against the sensory ranges of its style.
type rangeBody struct {
	*blind.OfStyle
	Drawn []rangeRow
}

// rangeRow is one quality with its drawing.
type rangeRow struct {
	blind.StyleRow
	Drawing string
}

// traceBody is what may lie behind the off-notes of one beer.
type traceBody struct {
	Letter, Beer string
	Gyle, Brew   string // id and name of the brewing in whose log was looked
	Lack         string // why no log was looked into
	Tasting      string // id of the tasting, where it isn't this page's
	Title        string
	Notes        []noteBody
}

// noteBody is an off-note with hints.
type noteBody struct {
	causes.Named
	Hints []causes.Hint
}

// table fills what is said of the beers one by one.
func (s *Server) table(ctx context.Context, b *beersBody, t *tasting.Tasting, pr quantity.Printer) error {
	for _, beer := range t.Beers {
		if st := s.styleOf(ctx, beer); st != nil {
			if of := blind.Against(t, beer.Letter, st, pr); of != nil {
				one := rangeBody{OfStyle: of}
				for _, row := range of.Rows {
					one.Drawn = append(one.Drawn, rangeRow{row, rangeDrawing(row, pr)})
				}
				b.Ranges = append(b.Ranges, one)
			}
		}
		trace, err := s.traceOf(ctx, t, beer, pr)
		if err != nil {
			return err
		}
		if len(trace.Notes) > 0 {
			b.Traces = append(b.Traces, trace)
		}
	}
	return nil
}

// traceOf looks in the log of a beer's gyle for what may lie behind the off-notes
// that were named in it.
func (s *Server) traceOf(ctx context.Context, t *tasting.Tasting, beer tasting.Beer, pr quantity.Printer) (b traceBody, err error) {
	named := causes.Of(t, beer.Letter)
	if len(named) == 0 {
		return b, nil
	}
	brew, err := s.brewOf(ctx, beer)
	switch {
	case errors.Is(err, ErrNotFound) || isFault(err):
		b.Lack = "The gyle of this beer isn’t in the book or can’t be read: only the usual causes can be listed."
	case err != nil:
		return b, err
	case brew == nil:
		b.Lack = "The tasting doesn’t say which gyle this beer is: only the usual causes can be listed."
	default:
		b.Gyle, b.Brew = beer.Gyle, brewName(brew.Gyle)
	}
	b.look(t, beer, named, brew, pr)
	return b, nil
}

// look asks what may lie behind each note.
func (b *traceBody) look(t *tasting.Tasting, beer tasting.Beer, named []causes.Named, brew *causes.Brew, pr quantity.Printer) {
	b.Letter, b.Beer = beer.Letter, blind.NameOf(t, beer.Letter)
	in := causes.Brew{Gyle: &gyle.Gyle{}}
	if brew != nil {
		in = *brew
	}
	in.Packed, in.Tasted, in.Kept = beer.Packed, t.Date, beer.Kept
	for _, n := range named {
		if trace, known := causes.Look(n.Note, in, pr); known {
			if n.Open {
				trace.Hints = nil // one judge against another: nothing follows from it
			}
			b.Notes = append(b.Notes, noteBody{n, trace.Hints})
		}
	}
}

// brewOf reads the gyle of a beer; nil where the tasting names none.
func (s *Server) brewOf(ctx context.Context, beer tasting.Beer) (*causes.Brew, error) {
	if beer.Gyle == "" {
		return nil, nil
	}
	g, d, err := s.gyle(ctx, beer.Gyle)
	if err != nil {
		return nil, err
	}
	if d.Deleted {
		return nil, ErrNotFound
	}
	made, _, err := s.reconstructed(ctx, g)
	if err != nil && !isFault(err) {
		return nil, err
	}
	return &causes.Brew{Gyle: g, Made: made}, nil // without a reconstruction the log alone is looked at
}

// tastedTraces lists what tastings said of a gyle with hints into its log.
func (s *Server) tastedTraces(ctx context.Context, slug string, brew causes.Brew, pr quantity.Printer) (list []traceBody, err error) {
	named, err := s.book.References(ctx, gyle.Kind, slug)
	if err != nil {
		return nil, err
	}
	for _, n := range named {
		if n.Kind != tasting.Kind {
			continue
		}
		d, err := s.book.Get(ctx, tasting.Kind, n.Slug)
		if err != nil || d.Deleted {
			continue // removed meanwhile
		}
		t, err := parsed(s, d.Slug, d.Text, tasting.Parse)
		if err != nil {
			continue // its own page tells what is wrong with it
		}
		i := slices.IndexFunc(t.Beers, func(b tasting.Beer) bool { return b.Gyle == slug })
		if i < 0 {
			continue
		}
		trace := traceBody{Gyle: slug, Brew: brewName(brew.Gyle), Tasting: d.Slug, Title: d.Title}
		trace.look(t, t.Beers[i], causes.Of(t, t.Beers[i].Letter), &brew, pr)
		if len(trace.Notes) > 0 {
			list = append(list, trace)
		}
	}
	return list, nil
}

// rangeDrawing draws the range of a style as an open bracket on a ruled scale,
// and where the panel finds the beer: a dot with its interval, filled inside,
// crossed outside, open where nothing is decided.
func rangeDrawing(row blind.StyleRow, pr quantity.Printer) string {
	const left, width, rail, high = 10.0, 300.0, 26.0, 44.0
	x := func(level float64) float64 { return left + width*level/row.Of }
	half := row.Of / quantity.MostLevel / 2
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="range" viewBox="0 0 %.0f %.0f" role="img" aria-label="%s">`, left*2+width, high, html.EscapeString(row.Says))
	fmt.Fprintf(&b, `<path class="rail" d="M%.1f %.0fH%.1f"/>`, x(0), rail, x(row.Of))
	for level := range int(row.Of) + 1 {
		fmt.Fprintf(&b, `<path class="rail" d="M%.1f %.0fv6"/><text x="%.1f" y="%.0f">%d</text>`, x(float64(level)), rail-3, x(float64(level)), high-2, level)
	}
	from, to := max(0, row.Low-half), min(row.Of, row.High+half)
	fmt.Fprintf(&b, `<path class="wanted" d="M%.1f %.0fv-12H%.1fv12"/>`, x(from), rail-2, x(to))
	if row.Conflict {
		fmt.Fprintf(&b, `<path class="reach" d="M%.1f %.0fH%.1f"/><circle class="open" cx="%.1f" cy="%.0f" r="5"/><circle class="open" cx="%.1f" cy="%.0f" r="5"/></svg>`, x(row.From), rail, x(row.To), x(row.From), rail, x(row.To), rail)
		return b.String()
	}
	fmt.Fprintf(&b, `<path class="reach" d="M%.1f %.0fH%.1f"/>`, x(max(0, row.From)), rail, x(min(row.Of, row.To)))
	switch row.Fit {
	case "inside":
		fmt.Fprintf(&b, `<circle class="filled" cx="%.1f" cy="%.0f" r="5.5"/>`, x(row.Middle), rail)
	case "outside":
		fmt.Fprintf(&b, `<path class="crossed" d="M%.1f %.1fl10 10m0 -10l-10 10"/>`, x(row.Middle)-5, rail-5)
	default:
		fmt.Fprintf(&b, `<circle class="open" cx="%.1f" cy="%.0f" r="5.5"/>`, x(row.Middle), rail)
	}
	return b.String() + "</svg>"
}

// ClassOf is the class of the standard terminology that a term stands in.
func (sheetForm) ClassOf(term string) string {
	found, _ := data.Term(term)
	return found.Class
}
