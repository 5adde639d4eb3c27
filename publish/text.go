// SPDX-License-Identifier: MIT

package publish

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"gyle/guest"
)

// Text writes a recipe as plain text for a description or a letter: what the
// beer is and the author's own sheet with the house, its yield and the volume
// it holds for.
func Text(b Bundle) (string, error) {
	v, err := viewOf(b)
	if err != nil {
		return "", err
	}
	return typed(v.write(plainText{})), nil
}

// Markdown writes the same as Markdown, with tables.
func Markdown(b Bundle) (string, error) {
	v, err := viewOf(b)
	if err != nil {
		return "", err
	}
	return typed(v.write(markdown{})), nil
}

func viewOf(b Bundle) (*pageView, error) {
	kit, err := guest.Pack(b.Input, b.Style)
	if err != nil {
		return nil, err
	}
	if b.Lang != English.Lang {
		kit.Lang = b.Lang
	}
	table, err := guest.Open(kit)
	if err != nil {
		return nil, err
	}
	v := &pageView{W: b.words(), Recipe: b.Input.Recipe, Title: title(b.Input.Recipe), House: b.Input.House.Name, Style: b.Style}
	v.describe(b.Printer)
	v.tell(b)
	v.Sheet, err = table.Author(b.Printer)
	return v, err
}

// A hand writes the parts of a text.
type hand interface {
	heading(level int, text string) string
	paragraph(text string) string
	list(items []string) string
	table(head []string, rows [][]string) string
}

func (v *pageView) write(h hand) string {
	var b strings.Builder
	b.WriteString(h.heading(1, v.Title))
	if v.Style != nil {
		b.WriteString(h.paragraph(v.Style.Name))
	}
	if v.Recipe.Note != "" {
		b.WriteString(h.paragraph(v.Recipe.Note))
	}
	b.WriteString(h.heading(2, v.W.RecipeHead))
	var items []string
	for _, a := range v.Aims {
		items = append(items, a.Name+" "+a.Value)
	}
	b.WriteString(h.list(items))
	var rows [][]string
	for _, g := range v.Grist {
		rows = append(rows, []string{g.Malt, g.Share, g.When, g.Why})
	}
	b.WriteString(h.table([]string{v.W.Malt, v.W.Share, v.W.Entry, v.W.Why}, rows))
	rows = nil
	for _, c := range v.Hops {
		rows = append(rows, []string{c.Hop, c.When, c.Amount, c.Why})
	}
	b.WriteString(h.table([]string{v.W.Hop, v.W.Moment, v.W.Amount, v.W.Why}, rows))
	b.WriteString(h.list(append(append(v.Mash, v.waterLine()...), strings.Join(v.Yeast, ", "))))
	v.writeEvidence(&b, h)
	v.writeSheet(&b, h)
	return b.String()
}

// writeEvidence writes how the beer came to be, what panels said, and what was
// brewed.
func (v *pageView) writeEvidence(b *strings.Builder, h hand) {
	if len(v.Versions) > 1 || len(v.Versions) == 1 && len(v.Versions[0].Panel) > 0 {
		b.WriteString(h.heading(2, v.W.VersionsHead))
		var items []string
		for _, one := range v.Versions {
			items = append(items, v.W.told(one))
		}
		b.WriteString(h.list(items))
	}
	for _, one := range v.Brews {
		b.WriteString(h.heading(2, v.W.BrewedHead+": "+one.Name+", "+one.Date))
		b.WriteString(h.table([]string{v.W.Figure, v.W.Planned, v.W.Brewed}, one.Figures))
	}
}

// told is a version in one line: what changed, why, what was expected of it,
// and what came of that.
func (w *Words) told(v versionView) string {
	text := title(v.Recipe)
	if c := v.Change; c != nil {
		text += ": " + c.What + "."
		if c.Why != "" {
			text += " " + w.Why + ": " + c.Why + "."
		}
		if c.Expect != "" {
			text += " " + w.Expect + ": " + c.Expect + "."
		}
	}
	for _, p := range v.Panel {
		text += " " + w.PanelSaid + ", " + p.Date + ": " + strings.Join(p.Says, " ")
	}
	return text
}

func (v *pageView) waterLine() []string {
	var parts []string
	for _, w := range v.Water {
		parts = append(parts, w.Name+" "+w.Value)
	}
	if len(parts) == 0 {
		return nil
	}
	return []string{v.W.WaterHead + ": " + strings.Join(parts, ", ")}
}

func (v *pageView) writeSheet(b *strings.Builder, h hand) {
	s := v.Sheet
	b.WriteString(h.heading(2, v.W.SheetHead+": "+s.Title))
	b.WriteString(h.table([]string{v.W.Figure, v.W.Expected, v.W.Aim}, s.Figures))
	for _, part := range []struct {
		name string
		head []string
		rows [][]string
	}{
		{v.W.Grist, []string{v.W.Malt, v.W.Mass, v.W.Share, v.W.Entry}, s.Grist}, {v.W.Liquor, nil, s.Liquor}, {v.W.Mash, nil, s.Mash}, {v.W.Kettle, nil, s.Kettle},
		{v.W.Hops, []string{v.W.Hop, v.W.Moment, v.W.Mass, v.W.Alpha, v.W.Bitterness}, s.Hops}, {v.W.Cellar, nil, s.Cellar},
	} {
		if len(part.rows) == 0 {
			continue
		}
		b.WriteString(h.heading(3, part.name))
		b.WriteString(h.table(part.head, part.rows))
	}
	if len(s.NotKept) > 0 {
		b.WriteString(h.heading(3, v.W.NotKept))
		b.WriteString(h.list(s.NotKept))
	}
	b.WriteString(h.heading(3, v.W.Mind))
	b.WriteString(h.list(append(s.Cautions, v.W.Safety)))
}

type plainText struct{}

func (plainText) heading(level int, text string) string {
	text = oneLine(text)
	if level == 1 {
		return text + "\n" + strings.Repeat("=", utf8.RuneCountInString(text)) + "\n\n"
	}
	return "\n" + text + "\n" + strings.Repeat("-", utf8.RuneCountInString(text)) + "\n"
}

func (plainText) paragraph(text string) string { return oneLine(text) + "\n\n" }

func (plainText) list(items []string) string {
	var b strings.Builder
	for _, item := range items {
		if item != "" {
			b.WriteString("- " + oneLine(item) + "\n")
		}
	}
	return b.String()
}

func (plainText) table(_ []string, rows [][]string) string {
	var widths []int
	for _, row := range rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(oneLine(cell)))
		}
	}
	var b strings.Builder
	for _, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			cell = oneLine(cell)
			line.WriteString(cell + strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell)+2))
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	return b.String()
}

type markdown struct{}

func (markdown) heading(level int, text string) string {
	return "\n" + strings.Repeat("#", level) + " " + escaped(text) + "\n\n"
}

func (markdown) paragraph(text string) string { return escaped(text) + "\n\n" }

func (markdown) list(items []string) string {
	var b strings.Builder
	for _, item := range items {
		if item != "" {
			b.WriteString("- " + escaped(item) + "\n")
		}
	}
	return b.String() + "\n"
}

func (markdown) table(head []string, rows [][]string) string {
	width := len(head)
	for _, row := range rows {
		width = max(width, len(row))
	}
	if width == 0 {
		return ""
	}
	var b strings.Builder
	line := func(cells []string) {
		for i := range width {
			cell := ""
			if i < len(cells) {
				cell = escaped(cells[i])
			}
			fmt.Fprintf(&b, "| %s ", cell)
		}
		b.WriteString("|\n")
	}
	line(head)
	b.WriteString(strings.Repeat("|---", width) + "|\n")
	for _, row := range rows {
		line(row)
	}
	return b.String() + "\n"
}

// marks are the characters that mean something in Markdown or in the HTML that
// may stand in it.
var marks = strings.NewReplacer(`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`, "<", "&lt;", ">", "&gt;", "&", "&amp;", "|", `\|`, "#", `\#`, "!", `\!`, "~", `\~`)

// escaped makes a text of a document stay text in Markdown, on one line.
func escaped(text string) string { return marks.Replace(oneLine(text)) }

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
