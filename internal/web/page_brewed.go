// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"math"
	"net/http"
	"slices"

	"gyle/brewhouse"
	"gyle/causes"
	"gyle/gyle"
	"gyle/internal/chart"
	"gyle/quantity"
	"gyle/reconstruct"
	"gyle/style"
)

// brewedBody is the sheet of what was really brewed.
type brewedBody struct {
	Document Document
	Path     string
	Lack     string // why it can't be reconstructed
	Made     *reconstruct.Reconstruction
	Worts    []wortRow
	Loss     string // of extract, full kettle to knock-out
	Suspects []string
	Agree    string
	Figures  []figureRow
	Late     string
	Slips    []slipRow
	Total    string
	Learned  []reconstruct.Learned
	Ferment  *fermentBody
	Tasted   []traceBody // the off-notes that tastings named in it
}

// wortRow is the wort at a point, as read and as the books leave it.
type wortRow struct {
	Name                            string
	ReadVolume, ReadSG, ReadExtract string
	Volume, SG, Extract             string
}

// figureRow is a figure of the beer in three inks.
type figureRow struct {
	Name, Planned, Brewed, Style string
	Outside                      bool
}

// slipRow is what one slip did to the bitterness, as a bar either way.
type slipRow struct {
	Sentence string
	Bar      int // −10 to 10
	IBU      string
}

// Left and Right are the lengths of the bar, in tenths.
func (s slipRow) Left() int  { return max(-s.Bar, 0) }
func (s slipRow) Right() int { return max(s.Bar, 0) }

// brewName is how a brew is called in lists.
func brewName(g *gyle.Gyle) string {
	if g.Number > 0 {
		return fmt.Sprintf("%s, gyle %d", g.Name, g.Number)
	}
	return g.Name + ", " + g.Date.String()
}

// optional reads a document that a gyle names; nil where the book lacks it.
func optional[T any](ctx context.Context, s *Server, kind, slug string, parse func(string, []byte) (*T, error)) (*T, error) {
	var unread fieldFaults
	return documentAt(ctx, s, kind, kind, slug, parse, &unread)
}

// reconstructed reconstructs a gyle with what the brews before it taught, its
// sentences in litres.
func (s *Server) reconstructed(ctx context.Context, g *gyle.Gyle) (*reconstruct.Reconstruction, []reconstruct.Learned, error) {
	return s.reconstructedFor(ctx, g, quantity.Printer{})
}

// reconstructedFor reconstructs a gyle with the sentences in the units of a reader.
func (s *Server) reconstructedFor(ctx context.Context, g *gyle.Gyle, pr quantity.Printer) (*reconstruct.Reconstruction, []reconstruct.Learned, error) {
	house, err := optional(ctx, s, brewhouse.Kind, g.House, brewhouse.Parse)
	if err != nil {
		return nil, nil, err
	}
	st, err := optional(ctx, s, style.Kind, g.Style, style.Parse)
	if err != nil {
		return nil, nil, err
	}
	chain, err := s.taught(ctx, g.House, house)
	if err != nil {
		return nil, nil, err
	}
	book := bookAfter(before(chain, g), house)
	in := book.Before(g, house, st)
	in.Reader = pr
	r, err := reconstruct.Make(in)
	if err != nil {
		return nil, nil, &RefusedError{err.Error()}
	}
	after := *book.House // the one that is kept stays as it is
	after.Sights = slices.Clone(after.Sights)
	after.Add(r.Lessons(brewName(g)))
	return r, after.All(), nil
}

// brewedPage shows what was really brewed and how it ferments.
func (s *Server) brewedPage(w http.ResponseWriter, r *http.Request) error {
	g, d, err := s.gyle(r.Context(), r.PathValue("slug"))
	if err != nil {
		return err
	}
	pr := handOf(r).printer()
	body := brewedBody{Document: d, Path: d.Path(), Ferment: s.fermentOf(g, pr).draw(pr)}
	made, learned, err := s.reconstructedFor(r.Context(), g, pr)
	var lack *RefusedError
	switch {
	case errors.As(err, &lack):
		body.Lack = lack.Reason
	case err != nil:
		return err
	default:
		body.fill(made, learned, pr)
	}
	if body.Tasted, err = s.tastedTraces(r.Context(), d.Slug, causes.Brew{Gyle: g, Made: made}, pr); err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, "page_brewed", Sheet{Title: d.Title + ", as brewed", Chapter: gyle.Kind, Folio: folio(d), Path: d.Path(), Body: body})
}

func (b *brewedBody) fill(r *reconstruct.Reconstruction, learned []reconstruct.Learned, pr quantity.Printer) {
	b.Made = r
	units := reconstruct.UnitsFor(pr)
	plusMinus := func(e quantity.Estimate, factor float64, decimals int) string {
		return pr.Number(e.Value*factor, decimals) + " ± " + pr.Number(e.SD*factor, decimals)
	}
	for _, w := range r.Smoothed.Points {
		row := wortRow{
			Name: w.Name, Volume: plusMinus(w.Volume, units.PerLitre, 2) + " " + units.Volume, SG: plusMinus(w.SG, 1, 4),
			Extract: plusMinus(w.Extract, units.PerKilogram, 3) + " " + units.Mass,
		}
		for _, read := range r.AsRead {
			if read.Name == w.Name {
				row.ReadVolume, row.ReadSG, row.ReadExtract = pr.Number(float64(read.Volume)*units.PerLitre, 2)+" "+units.Volume, pr.Number(float64(read.SG), 4), pr.Number(float64(read.Extract)*units.PerKilogram, 3)+" "+units.Mass
			}
		}
		b.Worts = append(b.Worts, row)
	}
	if n := len(r.AsRead); n > 1 {
		b.Loss = pr.Signed(100*(float64(r.AsRead[1].Extract/r.AsRead[0].Extract)-1), 1) + " %"
	}
	for _, x := range r.Smoothed.Suspects {
		b.Suspects = append(b.Suspects, x.Sentence)
	}
	for _, x := range r.Smoothed.Also {
		b.Suspects = append(b.Suspects, "Besides, "+x.Sentence)
	}
	if len(b.Suspects) == 0 && r.Smoothed.Freedom > 0 {
		b.Agree = fmt.Sprintf("The readings agree: %d checks, and in %.0f of 100 sound logs they lie further apart than here.", r.Smoothed.Freedom, 100*r.Smoothed.P)
	}
	b.figures(r, pr)
	b.Late = pr.IBU(r.Beer.Late)
	most := 0.1
	for _, e := range r.Effects {
		most = math.Max(most, math.Abs(float64(e.Change.IBU)))
	}
	for _, e := range r.Effects {
		b.Slips = append(b.Slips, slipRow{e.Sentence, int(math.Round(10 * float64(e.Change.IBU) / most)), pr.Signed(float64(e.Change.IBU), 1) + " IBU"})
	}
	if len(r.Effects) > 0 {
		b.Total = r.Total.Text(pr)
	}
	for _, l := range learned {
		if len(l.Evidence) > 0 {
			b.Learned = append(b.Learned, l)
		}
	}
}

func (b *brewedBody) figures(r *reconstruct.Reconstruction, pr quantity.Printer) {
	for _, c := range r.Compared {
		row := figureRow{Name: c.Figure.Label(), Brewed: pr.FigureBand(c.Figure, c.Brewed)}
		if c.Planned != 0 {
			row.Planned = pr.Figure(c.Figure, c.Planned)
		}
		if c.Style != nil {
			row.Style, row.Outside = pr.FigureSpan(c.Figure, *c.Style), !c.Inside
		}
		b.Figures = append(b.Figures, row)
	}
}

// learnedBody is what a house has learned from its brews, and the ledger of
// misses.
type learnedBody struct {
	Document Document
	Learned  []reconstruct.Learned
	Untaught []reconstruct.Learned
	Silent   []string
	Panels   []missPanel
}

type missPanel struct{ What, Drawing string }

// learnedPage shows what the brews of a house have taught.
func (s *Server) learnedPage(w http.ResponseWriter, r *http.Request) error {
	d, err := s.book.Get(r.Context(), brewhouse.Kind, r.PathValue("slug"))
	if err != nil {
		return err
	}
	house, err := optional(r.Context(), s, brewhouse.Kind, d.Slug, brewhouse.Parse)
	if err != nil {
		return err
	}
	chain, err := s.taught(r.Context(), d.Slug, house)
	if err != nil {
		return err
	}
	book := bookAfter(chain, house)
	body := learnedBody{Document: d, Silent: book.Silent}
	for _, l := range book.House.All() {
		if len(l.Evidence) > 0 {
			body.Learned = append(body.Learned, l)
		} else {
			body.Untaught = append(body.Untaught, l)
		}
	}
	body.Panels = panelsOf(book.Misses, handOf(r).printer())
	return s.show(w, r, http.StatusOK, "page_learned", Sheet{Title: "Learned in the " + d.Title, Chapter: brewhouse.Kind, Body: body})
}

// Reference is the temperature that volumes are told at.
func (brewedBody) Reference() quantity.Temperature { return quantity.Celsius(20) }

// Value prints what is known of a constant, with its error and its unit.
func (learnedBody) Value(pr quantity.Printer, l reconstruct.Learned) string {
	factor, unit := l.For(pr)
	return pr.Number(l.Value.Value*factor, l.Decimals) + " ± " + pr.Number(l.Value.SD*factor, l.Decimals) + " " + unit
}

// Number prints a value of a constant without its unit.
func (learnedBody) Number(pr quantity.Printer, l reconstruct.Learned, x float64) string {
	factor, _ := l.For(pr)
	return pr.Number(x*factor, l.Decimals)
}

// panelsOf draws a panel for each quantity that was predicted and measured.
func panelsOf(misses []reconstruct.Miss, pr quantity.Printer) (panels []missPanel) {
	pairs := map[string][]chart.MissPair{}
	units := map[string]string{}
	var order []string
	for _, m := range misses {
		if _, known := units[m.What]; !known {
			order = append(order, m.What)
		}
		units[m.What] = m.Unit
		pairs[m.What] = append(pairs[m.What], chart.MissPair{Brew: m.Brew, Predicted: m.Predicted.Value, Measured: m.Measured.Value})
	}
	for i, what := range order {
		sheet := chart.Sheet{ID: fmt.Sprintf("miss-%d", i), Width: chart.Phone, Printer: pr}
		panels = append(panels, missPanel{what, chart.MissPanel(sheet, what, units[what], pairs[what])})
	}
	return panels
}
