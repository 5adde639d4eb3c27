// SPDX-License-Identifier: MIT

package web

import (
	"bytes"
	"context"
	"slices"

	brewday "gyle/day"
	"gyle/gyle"
	"gyle/quantity"
)

// brewing is an open gyle on the first page: what it does, and what is next.
type brewing struct {
	Document
	Stage string // "in the kettle", "fermenting", "planned"
	Next  string
	Clock string // of the next task
}

// mostBrewing is how many open gyles the first page names.
const mostBrewing = 6

// brewing lists the gyles lately written or logged that aren't packaged yet.
func (s *Server) brewing(ctx context.Context, recent []Document, pr quantity.Printer) (list []brewing, err error) {
	for _, d := range recent {
		if d.Kind != gyle.Kind || len(list) == mostBrewing {
			continue
		}
		if s.surelyPackaged(ctx, d.Slug) {
			continue
		}
		g, _, err := s.gyle(ctx, d.Slug)
		if err != nil {
			continue // its own page tells what is wrong with it
		}
		if b, open := s.brewingOf(d, g, pr); open {
			list = append(list, b)
		}
	}
	return list, nil
}

// surelyPackaged looks for the packaging among the deeds of a log alone: a log may
// have thousands of readings, and a first page names many gyles. Where an entry
// was struck or corrected it leaves the answer to who reads the whole log.
func (s *Server) surelyPackaged(ctx context.Context, slug string) bool {
	deeds, err := s.book.EventsOf(ctx, slug, "deed")
	if err != nil {
		return false
	}
	has := func(words string) bool {
		return slices.ContainsFunc(deeds, func(e Event) bool { return bytes.Contains(e.Body, []byte(words)) })
	}
	if !has("do: "+string(gyle.Packaged)) || has("correction:") {
		return false
	}
	struck, err := s.book.EventsOf(ctx, slug, "strike")
	return err == nil && len(struck) == 0
}

// brewingOf says how far a gyle is; closed once it is packaged.
func (s *Server) brewingOf(d Document, g *gyle.Gyle, pr quantity.Printer) (b brewing, open bool) {
	standing := g.Log.Standing()
	did := func(do gyle.Do) bool {
		return slices.ContainsFunc(standing, func(e gyle.Entry) bool { return e.Deed != nil && e.Deed.Do == do })
	}
	b.Document = d
	switch {
	case did(gyle.Packaged):
		return b, false
	case did(gyle.Pitched):
		b.Stage, b.Next = "fermenting", "read the gravity"
		if f := s.fermentOf(g, pr); f != nil && f.WorstCase != "" { // something was read
			b.Stage += ", " + f.Verdict
			b.Next = "package it"
			if len(f.Advice) > 0 {
				b.Next = f.Advice[0]
			}
		}
		return b, true
	}
	laid, err := brewday.Of(g, brewday.Options{Printer: pr, Now: s.nowIn(g)})
	if err != nil {
		return b, false
	}
	b.Stage = "planned for " + g.Date.String()
	if len(standing) > 0 {
		b.Stage = "on the brew day of " + g.Date.String()
	}
	if next, ok := laid.Next(); ok {
		b.Next, b.Clock = next.What, next.At.Format("15:04")
	}
	return b, true
}
