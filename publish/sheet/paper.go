// SPDX-License-Identifier: MIT

package sheet

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"gyle/publish/font"
)

// Paper is the paper of a sheet.
type Paper struct {
	Name          string
	width, height float64 // mm
}

// The papers.
var (
	A4     = Paper{"a4", 210, 297}
	Letter = Paper{"letter", 215.9, 279.4}
)

// PaperNamed finds a paper by its name.
func PaperNamed(name string) (Paper, error) {
	for _, p := range []Paper{A4, Letter} {
		if p.Name == name {
			return p, nil
		}
	}
	return Paper{}, fmt.Errorf("there is no paper %q: there are a4, letter", name)
}

// Sizes of the sheet in mm, of letters in points. Design choices.
const (
	leftMargin = 20.0 // room for holes
	margin     = 15.0
	footer     = 14.0
	text       = 10.0 // pt
	title      = 22.0
	head       = 12.0
	lineHeight = 5.0
	mmPerPoint = 25.4 / 72
)

// ink is a grey or coloured ink.
type ink struct{ r, g, b int }

var (
	printed   = ink{0x1e, 0x1e, 0x1e}
	planned   = ink{0x6a, 0x6a, 0x6a}
	measured  = ink{0x1a, 0x27, 0x50}
	corrected = ink{0xa5, 0x12, 0x1a}
	ruled     = ink{0xc8, 0xc8, 0xc8}
)

// style is a face at a size in an ink.
type style struct {
	face font.Face
	size float64
	ink  ink
}

var (
	words   = style{font.Book, text, printed}
	says    = style{font.BookItalic, text, printed}
	small   = style{font.BookItalic, 8.5, planned}
	numbers = style{font.FiguresBold, text, measured}
	grey    = style{font.Figures, text, planned}
	heading = style{font.FiguresBold, head, planned}
)

// page is a sheet being written: a cursor that goes down the paper.
type page struct {
	pdf   *fpdf.Fpdf
	paper Paper
	y     float64
}

// newPage begins a sheet. Every page says whose it is and which of how many.
func newPage(p Paper, name string) *page {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: p.width, Ht: p.height}})
	epoch := time.Unix(0, 0).UTC()
	pdf.SetCreationDate(epoch)
	pdf.SetModificationDate(epoch)
	pdf.SetCatalogSort(true)
	pdf.SetTitle(font.Clean(name), true)
	pdf.SetCreator("gyle", true)
	pdf.SetLang("en")
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(leftMargin, margin, margin)
	for f, name := range fontNames {
		pdf.AddUTF8FontFromBytes(name[0], name[1], font.Face(f).TTF())
	}
	pdf.AliasNbPages("{pages}")
	g := &page{pdf: pdf, paper: p}
	pdf.SetFooterFunc(func() {
		y := p.height - 8
		g.put(small, leftMargin, y, clipTo(g, small, name, g.width()*0.7))
		number := fmt.Sprintf("page %d of {pages}", pdf.PageNo())
		g.put(style{font.Figures, 8.5, planned}, p.width-margin-22, y, number)
	})
	g.turn()
	return g
}

// fontNames are the names of the faces in a PDF.
var fontNames = [...][2]string{font.Book: {"book", ""}, font.BookItalic: {"book", "I"}, font.Figures: {"figures", ""}, font.FiguresBold: {"figures", "B"}}

func (g *page) width() float64 { return g.paper.width - leftMargin - margin }

// turn begins a new page.
func (g *page) turn() {
	g.pdf.AddPage()
	g.y = margin
}

// need turns the page where less than a height is left.
func (g *page) need(height float64) {
	if g.y+height > g.paper.height-footer {
		g.turn()
	}
}

func (g *page) use(s style) {
	g.pdf.SetFont(fontNames[s.face][0], fontNames[s.face][1], s.size)
	g.pdf.SetTextColor(s.ink.r, s.ink.g, s.ink.b)
}

// put writes one line with its base line at y.
func (g *page) put(s style, x, y float64, line string) {
	if line == "" {
		return
	}
	g.use(s)
	g.pdf.Text(x, y, line)
}

func (g *page) widthOf(s style, line string) float64 {
	g.use(s)
	return g.pdf.GetStringWidth(line)
}

// clipTo returns a text, or its beginning with dots where it is too long. It is
// for the foot alone, whose text stands on the sheet in full.
func clipTo(g *page, s style, text string, width float64) string {
	text = s.face.Printable(text)
	if g.widthOf(s, text) <= width {
		return text
	}
	const dots = " …"
	end, used := 0, g.widthOf(s, dots)
	for i, r := range text {
		if used += g.widthOf(s, string(r)); used > width {
			break
		}
		end = i + len(string(r))
	}
	return text[:end] + dots
}

// lines breaks a text into lines of a width; a word that is too long is broken
// anywhere.
func (g *page) lines(s style, text string, width float64) (list []string) {
	line := ""
	for word := range strings.SplitSeq(s.face.Printable(text), " ") {
		joined := strings.TrimSpace(line + " " + word)
		if g.widthOf(s, joined) <= width {
			line = joined
			continue
		}
		if line != "" {
			list = append(list, line)
		}
		line = ""
		for _, r := range word {
			if line != "" && g.widthOf(s, line+string(r)) > width {
				list = append(list, line)
				line = ""
			}
			line += string(r)
		}
	}
	if line != "" {
		list = append(list, line)
	}
	return list
}

// paragraph writes running text from x on.
func (g *page) paragraph(s style, x float64, text string) {
	for _, line := range g.lines(s, text, g.paper.width-margin-x) {
		g.need(lineHeight)
		g.y += lineHeight
		g.put(s, x, g.y-1.4, line)
	}
}

// title writes the title of the sheet.
func (g *page) title(name, what string) {
	for _, line := range g.lines(style{font.Book, title, printed}, name, g.width()) {
		g.need(10)
		g.y += 9.5
		g.put(style{font.Book, title, printed}, leftMargin, g.y-2, line)
	}
	g.paragraph(says, leftMargin, what)
	g.y += 1
	g.rule(leftMargin, g.y, g.width(), printed, 0.3)
	g.rule(leftMargin, g.y+0.8, g.width(), printed, 0.3)
	g.y += 2
}

// section writes a heading that stays with a few lines behind it.
func (g *page) section(text string) {
	g.need(9 + 3*lineHeight)
	g.y += 8.5
	g.pdf.Bookmark(font.Book.Printable(text), 0, g.y-6)
	g.put(heading, leftMargin, g.y-2.2, heading.face.Printable(text))
	g.rule(leftMargin, g.y-0.6, g.width(), ruled, 0.25)
	g.y += 0.6
}

func (g *page) rule(x, y, width float64, i ink, thick float64) {
	g.pdf.SetDrawColor(i.r, i.g, i.b)
	g.pdf.SetLineWidth(thick)
	g.pdf.Line(x, y, x+width, y)
}

// bytes ends the sheet.
func (g *page) bytes() ([]byte, error) {
	var out bytes.Buffer
	if err := g.pdf.Output(&out); err != nil {
		return nil, fmt.Errorf("write a sheet as PDF: %w", err)
	}
	return out.Bytes(), nil
}
