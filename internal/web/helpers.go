// SPDX-License-Identifier: MIT

package web

import (
	"html/template"
	"regexp"
	"strings"
	"time"

	"gyle/gyle"
)

// helpers are the functions of templates. Figures are printed by the methods
// of $.Print, in the reader's units: {{$.Print.Mass .Mass}}.
var helpers = template.FuncMap{
	"planned":   func(figure string) template.HTML { return inked("planned", figure) },
	"measured":  func(figure string) template.HTML { return inked("measured", figure) },
	"corrected": func(figure string) template.HTML { return inked("corrected", figure) },
	"fig":       func(figure string) template.HTML { return inked("", figure) },
	"why":       whyLink,
	"day":       day,
	"svg":       func(drawing string) template.HTML { return template.HTML(drawing) },
	"static":    staticPath,
	"kindName":  kindName,
	"add":       func(a, b int) int { return a + b },
	"gyleRow":   func(b gyleBody, r dayRow) rowOfGyle { return rowOfGyle{b, r} },
	"gylePath":  gylePath,
	"held":      held,
	"newID":     func() gyle.ID { return NewEntryID(time.Now()) },
	"frameWith": func(f frame, body any) frame { f.Body = body; return f },
	"paragraphs": func(text string) []string {
		return strings.FieldsFunc(text, func(r rune) bool { return r == '\n' })
	},
}

// loosePattern finds a number and its unit with a space between.
var loosePattern = regexp.MustCompile(`(\d) (%|°[CFP]|k?g|m?L|US gal|L/kg|[mk]?g/L|oz|lb|min|h|d|IBU|EBC|SRM|vol|bar|psi)(\W|$)`)

// held keeps the numbers of a sentence and their units on one line.
func held(text string) string { return loosePattern.ReplaceAllString(text, "$1\u00a0$2$3") }

// inked sets a figure in the tabular face, and in an ink when one is named.
// The stylesheet puts the ink's mark before it.
func inked(ink, figure string) template.HTML {
	class := "fig"
	if ink != "" {
		class = "fig ink-" + ink
	}
	return template.HTML(`<span class="` + class + `">` + template.HTMLEscapeString(figure) + `</span>`)
}

// whyLink leads from a figure to its formula.
func whyLink(formula string) template.HTML {
	name := template.HTMLEscapeString(formula)
	return template.HTML(`<a class="why" href="/why/` + name + `" aria-label="why: ` + name + `">why</a>`)
}

// day is a time as the book writes it.
func day(t time.Time) template.HTML {
	if t.IsZero() {
		return ""
	}
	return template.HTML(`<time datetime="` + t.UTC().Format(time.RFC3339) + `">` + t.Local().Format("2 Jan 2006, 15:04") + `</time>`)
}
