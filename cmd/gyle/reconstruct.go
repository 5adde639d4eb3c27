// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/reconstruct"
	"gyle/style"
)

// reconstructCommand works out from the log what was really brewed.
type reconstructCommand struct {
	Gyle   string   `arg:"" help:"Gyle: a file, or a name in the book."`
	House  string   `short:"H" placeholder:"HOUSE" help:"House it was brewed on; without it the one that the gyle names."`
	Style  string   `placeholder:"STYLE" help:"Style to hold the beer against; without it the one that the gyle names."`
	Before []string `placeholder:"GYLE" help:"Brews of the same house before this one, to learn from; in a book they are found."`
	JSON   bool     `name:"json" help:"Print for programs."`
	shelving
	printing
}

// Help is shown by "gyle reconstruct --help".
func (reconstructCommand) Help() string {
	return `Examples:

  gyle reconstruct gyle-17.yaml
  gyle reconstruct gyle-21 --book my.gylebook

The readings check one another: what goes into a kettle must come out of it. A reading that can't be right is named with the
slip that explains it best. Then comes the beer as brewed beside the plan and the style, what each slip of the day did to
it, one at a time, and what the brew teaches of the house.`
}

// brewed is a brew with its reconstruction.
type brewed struct {
	gyle    *gyle.Gyle
	made    *reconstruct.Reconstruction
	learned []reconstruct.Learned
	misses  []reconstruct.Miss
	pr      quantity.Printer
}

// Run reconstructs.
func (c *reconstructCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	b, err := c.reconstruct(l)
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(s.out, b.json())
	}
	b.print(&sheet{w: s.out})
	return nil
}

func (c *reconstructCommand) reconstruct(l *library) (*brewed, error) {
	g, _, err := readGyle(l, c.Gyle)
	if err != nil {
		return nil, err
	}
	house, err := beside(l, c.House, c.Gyle, brewhouse.Kind, g.House, brewhouse.Parse)
	if err != nil {
		return nil, err
	}
	st, err := beside(l, c.Style, c.Gyle, style.Kind, g.Style, style.Parse)
	if err != nil {
		return nil, err
	}
	before, err := c.before(l, g)
	if err != nil {
		return nil, err
	}
	book := reconstruct.LearnFrom(house, before, gyleTitle)
	r, err := reconstruct.Make(book.Before(g, house, st))
	if err != nil {
		return nil, err
	}
	book.House.Add(r.Lessons(gyleTitle(g)))
	return &brewed{gyle: g, made: r, learned: book.House.All(), misses: r.Misses(gyleTitle(g)), pr: c.printer()}, nil
}

// before finds the brews of the house before this one.
func (c *reconstructCommand) before(l *library, g *gyle.Gyle) (list []*gyle.Gyle, err error) {
	names := c.Before
	if len(names) == 0 && !isFile(c.Gyle) {
		if names, err = l.slugs([]string{gyle.Kind}); err != nil {
			return nil, err
		}
	}
	for _, name := range names {
		other, _, err := readGyle(l, name)
		if err != nil {
			return nil, err
		}
		if other.House == g.House && other.Date.Before(g.Date.Time) {
			list = append(list, other)
		}
	}
	return list, nil
}

// beside finds a document that a gyle names: the one named on the command line,
// else the one beside the file of the gyle, else the one in the book; nil where
// there is none.
func beside[T any](l *library, named, of, kind, id string, parse func(string, []byte) (*T, error)) (*T, error) {
	if named != "" {
		return load(l, kind, named, parse)
	}
	if id == "" {
		return nil, nil
	}
	if isFile(of) {
		if file := filepath.Join(filepath.Dir(of), id+".yaml"); isFile(file) {
			return load(l, kind, file, parse)
		}
	}
	if there, err := l.holds(kind, id); err != nil || !there {
		return nil, err
	}
	p, err := l.inBook(kind, id, id)
	if err != nil {
		return nil, err
	}
	return parse(p.file, p.text)
}

// print prints the sheet of a reconstruction.
func (b *brewed) print(out *sheet) {
	defer out.flush()
	out.note("○", gyleTitle(b.gyle)+", "+b.gyle.Date.String())
	b.books(out)
	b.beer(out)
	if len(b.made.Effects) > 0 {
		out.heading("What each slip did to the beer")
		for _, e := range b.made.Effects {
			out.note("±", e.Sentence)
		}
		out.note("=", "against the plan in all: "+b.made.Total.String())
	}
	for _, n := range b.made.Notes {
		out.note("?", n)
	}
	out.heading("What the house has taught")
	for _, l := range b.learned {
		if len(l.Evidence) > 0 {
			out.note("·", l.String())
		}
	}
	out.heading("Predicted and measured")
	for _, m := range b.misses {
		out.row(m.What, ">"+estimateText(m.Predicted), ">"+estimateText(m.Measured), m.Unit, fmt.Sprintf("%+.1f sd", m.Z))
	}
}

// books prints the balances and who is suspected.
func (b *brewed) books(out *sheet) {
	out.heading("The books")
	pr := b.pr
	for _, w := range b.made.AsRead {
		out.row("as read", w.Name, ">"+pr.Volume(w.Volume), ">"+pr.SG(w.SG), ">"+extractText(float64(w.Extract)))
	}
	if len(b.made.AsRead) > 1 { // behind the kettle, wort stays with the trub
		first, last := b.made.AsRead[0], b.made.AsRead[1]
		out.row("", last.Name+" less "+first.Name, "", "", fmt.Sprintf(">%+.1f %%", 100*(float64(last.Extract/first.Extract)-1)))
	}
	for _, w := range b.made.Smoothed.Points {
		out.row("balanced", w.Name, ">"+pr.Number(w.Volume.Value, 2)+" ± "+pr.Number(w.Volume.SD, 2)+" L", ">"+pr.Number(w.SG.Value, 4)+" ± "+pr.Number(w.SG.SD, 4), ">"+extractText(w.Extract.Value))
	}
	out.flush()
	for _, x := range b.made.Smoothed.Suspects {
		out.note("✕", x.Sentence)
	}
	for _, x := range b.made.Smoothed.Also {
		out.note("✕", "besides, "+x.Sentence)
	}
	if len(b.made.Smoothed.Suspects) == 0 && b.made.Smoothed.Freedom > 0 {
		out.note("●", fmt.Sprintf("the readings agree (%d checks, P %.2f)", b.made.Smoothed.Freedom, b.made.Smoothed.P))
	}
}

func extractText(kg float64) string { return fmt.Sprintf("%.3f kg extract", kg) }

// beer prints the beer as brewed beside plan and style.
func (b *brewed) beer(out *sheet) {
	out.heading("The beer")
	out.row("", "○ planned", "● brewed", "style")
	for _, c := range b.made.Compared {
		planned, rule := "", ""
		if c.Planned != 0 {
			planned = ">" + b.pr.Figure(c.Figure, c.Planned)
		}
		if c.Style != nil {
			rule = b.pr.FigureSpan(c.Figure, *c.Style)
			if !c.Inside {
				rule += " ✕ outside"
			}
		}
		out.row(c.Figure.Label(), planned, ">"+b.pr.FigureBand(c.Figure, c.Brewed), rule)
	}
	out.flush()
	out.note(" ", fmt.Sprintf("%s of it from charges of the last 20 min and later; DMS light %s", b.pr.IBU(b.made.Beer.Late), b.made.Beer.DMS.Light))
}

func estimateText(e quantity.Estimate) string {
	decimals := 2
	if e.Value > 0.9 && e.Value < 1.2 && e.SD < 0.01 {
		decimals = 4
	}
	return fmt.Sprintf("%.*f ± %.*f", decimals, e.Value, decimals, e.SD)
}

// reconstructionJSON is a reconstruction for programs.
type reconstructionJSON struct {
	Gyle     string         `json:"gyle"`
	AsRead   []wortJSON     `json:"asRead"`
	Balanced []wortJSON     `json:"balanced"`
	P        float64        `json:"p"`
	Checks   int            `json:"checks"`
	Suspects []string       `json:"suspects"`
	Beer     []comparedJSON `json:"beer"`
	LateIBU  float64        `json:"lateIBU"`
	DMS      string         `json:"dms"`
	Effects  []effectJSON   `json:"effects"`
	Notes    []string       `json:"notes"`
	Learned  []learnedJSON  `json:"learned"`
	Misses   []missJSON     `json:"misses"`
}

// wortJSON is wort at a point: L at 20 °C, SG, kg of extract.
type wortJSON struct {
	Name      string  `json:"name"`
	Volume    float64 `json:"volume"`
	VolumeSD  float64 `json:"volumeSD,omitempty"`
	SG        float64 `json:"sg"`
	SGSD      float64 `json:"sgSD,omitempty"`
	Extract   float64 `json:"extract"`
	ExtractSD float64 `json:"extractSD,omitempty"`
}

// comparedJSON is one figure of the beer in the unit of the figure.
type comparedJSON struct {
	Figure  string   `json:"figure"`
	Planned *float64 `json:"planned,omitempty"`
	Brewed  float64  `json:"brewed"`
	Low     float64  `json:"low"`
	High    float64  `json:"high"`
	Style   string   `json:"style,omitempty"`
	Inside  *bool    `json:"inside,omitempty"`
}

// effectJSON is what one slip did.
type effectJSON struct {
	Slip     string  `json:"slip"`
	Sentence string  `json:"sentence"`
	IBU      float64 `json:"ibu"`
	Volume   float64 `json:"volume"`
	OG       float64 `json:"og"`
}

type learnedJSON struct {
	Constant string   `json:"constant"`
	Unit     string   `json:"unit,omitempty"`
	Value    float64  `json:"value"`
	SD       float64  `json:"sd"`
	Brews    []string `json:"brews"`
}

type missJSON struct {
	What      string  `json:"what"`
	Unit      string  `json:"unit,omitempty"`
	Predicted float64 `json:"predicted"`
	Measured  float64 `json:"measured"`
	Z         float64 `json:"z"`
}

func (b *brewed) json() reconstructionJSON {
	r := b.made
	out := reconstructionJSON{
		Gyle: gyleTitle(b.gyle), P: r.Smoothed.P, Checks: r.Smoothed.Freedom, LateIBU: float64(r.Beer.Late), DMS: r.Beer.DMS.Light,
		AsRead: []wortJSON{}, Balanced: []wortJSON{}, Suspects: []string{}, Beer: []comparedJSON{}, Effects: []effectJSON{}, Notes: append([]string{}, r.Notes...), Learned: []learnedJSON{}, Misses: []missJSON{},
	}
	for _, w := range r.AsRead {
		out.AsRead = append(out.AsRead, wortJSON{Name: w.Name, Volume: float64(w.Volume), SG: float64(w.SG), Extract: float64(w.Extract)})
	}
	for _, w := range r.Smoothed.Points {
		out.Balanced = append(out.Balanced, wortJSON{w.Name, w.Volume.Value, w.Volume.SD, w.SG.Value, w.SG.SD, w.Extract.Value, w.Extract.SD})
	}
	for _, x := range append(r.Smoothed.Suspects, r.Smoothed.Also...) {
		out.Suspects = append(out.Suspects, x.Sentence)
	}
	for _, c := range r.Compared {
		out.Beer = append(out.Beer, b.comparedJSON(c))
	}
	for _, e := range r.Effects {
		out.Effects = append(out.Effects, effectJSON{e.Slip, e.Sentence, float64(e.Change.IBU), float64(e.Change.Volume), e.Change.OG})
	}
	for _, l := range b.learned {
		if len(l.Evidence) > 0 {
			out.Learned = append(out.Learned, learnedJSON{l.Name, l.Unit, l.Value.Value, l.Value.SD, l.Brews()})
		}
	}
	for _, m := range b.misses {
		out.Misses = append(out.Misses, missJSON{m.What, m.Unit, m.Predicted.Value, m.Measured.Value, m.Z})
	}
	return out
}

func (b *brewed) comparedJSON(c reconstruct.Compared) comparedJSON {
	one := comparedJSON{Figure: string(c.Figure), Brewed: c.Brewed.Mid, Low: c.Brewed.Low, High: c.Brewed.High}
	if c.Planned != 0 {
		one.Planned = &c.Planned
	}
	if c.Style != nil {
		inside := c.Inside
		one.Style, one.Inside = strings.TrimSpace(b.pr.FigureSpan(c.Figure, *c.Style)), &inside
	}
	return one
}
