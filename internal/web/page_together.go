// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"context"
	"net/http"
	"slices"

	brewday "gyle/day"
	"gyle/gyle"
)

// togetherBody is the sheet of all gyles of one day on one axis.
type togetherBody struct {
	Date    string
	Gyles   []togetherGyle
	Rows    []togetherRow
	Clashes []clashLine
}

// togetherGyle heads a column.
type togetherGyle struct {
	Document
	Letter string
	Brewer string
	House  string
}

// togetherRow is one moment, with a cell for each gyle; nil where it has nothing
// to do.
type togetherRow struct {
	Clock string
	Cells []*togetherCell
}

// togetherCell is what one gyle has to do.
type togetherCell struct {
	brewday.Task
	Done, Clash bool
}

// clashLine is a person or a vessel that two gyles want at once.
type clashLine struct{ When, Who, What string }

// mostTogether is how many gyles fit side by side on a sheet.
const mostTogether = 4

// togetherPage lays the gyles of one day side by side: those that the address
// names, else those of the same date.
func (s *Server) togetherPage(w http.ResponseWriter, r *http.Request) error {
	g, d, err := s.gyle(r.Context(), r.PathValue("slug"))
	if err != nil {
		return err
	}
	slugs := r.URL.Query()["with"]
	if len(slugs) == 0 {
		if slugs, err = s.sameDay(r.Context(), g, d.Slug); err != nil {
			return err
		}
	}
	b := togetherBody{Date: g.Date.String()}
	pr := handOf(r).printer()
	var days []*brewday.Day
	for _, slug := range append([]string{d.Slug}, slugs...) {
		if len(days) == mostTogether || slices.ContainsFunc(b.Gyles, func(t togetherGyle) bool { return t.Slug == slug }) {
			continue
		}
		one, document, err := s.gyle(r.Context(), slug)
		if err != nil {
			return err
		}
		laid, err := brewday.Of(one, brewday.Options{Printer: pr, Now: s.nowIn(one)})
		if err != nil {
			continue // begun without a plan: it has no axis
		}
		days = append(days, laid)
		b.Gyles = append(b.Gyles, togetherGyle{document, string(rune('A' + len(b.Gyles))), one.Brewer, one.House})
	}
	b.fill(days)
	return s.show(w, r, http.StatusOK, "page_together", Sheet{Title: "Gyles of " + b.Date, Chapter: gyle.Kind, Path: d.Path(), Body: b})
}

// sameDay finds the other gyles of a date, by the words of their documents.
func (s *Server) sameDay(ctx context.Context, g *gyle.Gyle, slug string) (slugs []string, err error) {
	if g.Date.IsZero() {
		return nil, nil
	}
	const looked = 100
	hits, _, err := s.book.Search(ctx, g.Date.String(), gyle.Kind, Part{Limit: looked})
	if err != nil {
		return nil, err
	}
	for _, h := range hits {
		if h.Kind != gyle.Kind || h.Slug == slug || len(slugs) == mostTogether {
			continue
		}
		if other, d, err := s.gyle(ctx, h.Slug); err == nil && !d.Deleted && other.Date == g.Date && other.Plan != nil {
			slugs = append(slugs, h.Slug)
		}
	}
	slices.Sort(slugs)
	return slugs, nil
}

func (b *togetherBody) fill(days []*brewday.Day) {
	joint := brewday.Together(days...)
	for i := range joint.Tasks {
		t := joint.Tasks[i]
		cell := &togetherCell{Task: t.Task, Done: t.State == brewday.Done}
		cell.Clash = slices.ContainsFunc(joint.Clashes, func(c brewday.Clash) bool {
			which := slices.Index(c.Days[:], t.Day)
			return which >= 0 && c.Tasks[which] == t.What && c.From.Before(t.At.Add(max(t.Time, 1)).Time) && t.At.Before(c.To.Time)
		})
		clock, n := t.At.Format("15:04"), len(b.Rows)
		if n == 0 || b.Rows[n-1].Clock != clock || b.Rows[n-1].Cells[t.Day] != nil {
			b.Rows = append(b.Rows, togetherRow{Clock: clock, Cells: make([]*togetherCell, len(days))})
			n++
		}
		b.Rows[n-1].Cells[t.Day] = cell
	}
	for _, c := range joint.Clashes {
		line := clashLine{When: c.From.Format("15:04") + " to " + c.To.Format("15:04"), Who: cmp.Or(c.Who, c.Vessel)}
		a, z := b.Gyles[c.Days[0]].Letter, b.Gyles[c.Days[1]].Letter
		line.What = "wanted by " + a + " and " + z
		if c.Tasks[0] != "" {
			line.What = c.Tasks[0] + " (" + a + ") and " + c.Tasks[1] + " (" + z + ")"
		}
		b.Clashes = append(b.Clashes, line)
	}
}
