// SPDX-License-Identifier: MIT

package chart

import (
	"slices"
	"strings"
)

// Sizes of letters, in units.
const (
	wordSize   = 14.0
	smallSize  = 12.0
	figureSize = 12.5
	lineHeight = 1.3
)

// letters is how a text is set.
type letters struct {
	ink    Ink
	size   float64 // wordSize when 0
	anchor string  // "", "middle" or "end"
	figure bool    // a number, in the tabular face
	bold   bool
	italic bool
	halo   bool // with a rim of paper, to stand on lines and patterns
}

func (l letters) height() float64 {
	if l.size == 0 {
		return wordSize
	}
	return l.size
}

// text sets one line with its baseline at y. A line that would leave the
// drawing is moved back into it, and cut with an ellipsis if it can't fit.
func (d *drawing) text(x, y float64, s string, l letters) {
	s = fit(s, l, d.width-2*edge)
	if s == "" {
		return
	}
	pairs := []string{"x", num(d.inside(x, textWidth(s, l), l.anchor)), "y", num(y)}
	writeTag(&d.body, "text", append(pairs, l.attributes()...), ">")
	d.body.WriteString(escape(s) + "</text>\n")
}

// plated sets one line on a plate of paper, to be read on dark ground.
func (d *drawing) plated(x, y float64, s string, l letters) {
	s = fit(s, l, d.width-2*edge-4)
	if s == "" {
		return
	}
	width := textWidth(s, l)
	at := d.inside(x, width+4, l.anchor)
	left := at - map[string]float64{"": 0, "middle": width / 2, "end": width}[l.anchor]
	d.rect(left-2, y-0.85*l.height(), width+4, 1.12*l.height(), look{class: "paper", fill: "paper"})
	d.text(at, y, s, l)
}

// edge is the margin that nothing but paper enters.
const edge = 4.0

// inside moves the anchor of a text so that the whole of it is on the sheet.
func (d *drawing) inside(x, width float64, anchor string) float64 {
	before := map[string]float64{"": 0, "middle": width / 2, "end": width}[anchor]
	return max(edge+before, min(x, d.width-edge-(width-before)))
}

func (l letters) attributes() []string {
	class := "words"
	if l.figure {
		class = "figure"
	}
	if l.halo {
		class += " halo"
	}
	a := []string{"class", joinClasses(class, l.ink.class()), "fill", "currentColor"}
	if color := l.ink.color(); color != "" {
		a = append(a, "color", color)
	}
	if l.figure {
		a = append(a, "font-family", figuresFont)
	}
	if l.size != 0 && l.size != wordSize {
		a = append(a, "font-size", num(l.size))
	}
	if l.anchor != "" {
		a = append(a, "text-anchor", l.anchor)
	}
	if l.bold {
		a = append(a, "font-weight", "bold")
	}
	if l.italic {
		a = append(a, "font-style", "italic")
	}
	if l.halo {
		a = append(a, "stroke", paperColor, "stroke-width", "3", "stroke-linejoin", "round", "paint-order", "stroke")
	}
	return a
}

// textWidth estimates the width of a text, on the safe side: the widths are
// typical of book faces (estimate), since the reader's face isn't known.
func textWidth(s string, l letters) float64 {
	width := 0.0
	for _, r := range s {
		width += runeWidth(r)
	}
	if l.bold {
		width *= 1.08
	}
	return width * l.height()
}

func runeWidth(r rune) float64 {
	switch {
	case strings.ContainsRune("iljtf.,:;'’|!()[] ·", r):
		return 0.34
	case strings.ContainsRune("mwMW%@—…", r):
		return 0.9
	case r >= '0' && r <= '9':
		return 0.57
	case r >= 'A' && r <= 'Z':
		return 0.7
	case r > 0x2E80: // scripts set in squares
		return 1.05
	}
	return 0.54
}

// fit cuts a text with an ellipsis so that it is no wider than width.
func fit(s string, l letters, width float64) string {
	s = strings.Join(strings.Fields(s), " ")
	if textWidth(s, l) <= width {
		return s
	}
	runes := []rune(s)
	for n := min(len(runes)-1, reach(runes, l, width)); n > 0; n-- {
		cut := strings.TrimRight(string(runes[:n]), " ,.") + "…"
		if textWidth(cut, l) <= width {
			return cut
		}
	}
	return ""
}

// reach is how many letters fit into width, and one more: cutting begins there
// and not at the far end of a text of many pages.
func reach(runes []rune, l letters, width float64) int {
	used := 0.0
	for i, r := range runes {
		if used += textWidth(string(r), l); used > width {
			return i + 1
		}
	}
	return len(runes)
}

// wrap breaks a text into lines no wider than width; words too long are cut.
func wrap(s string, l letters, width float64) []string {
	var lines []string
	current := ""
	for _, word := range unbreakable(s) {
		joined := strings.TrimSpace(current + " " + word)
		if textWidth(joined, l) <= width {
			current = joined
			continue
		}
		if current != "" {
			lines = append(lines, current)
		}
		current = fit(word, l, width)
	}
	if current != "" {
		lines = append(lines, current)
	}
	return lines
}

// unbreakable parts a text into words that are never parted: a number stays
// with its unit.
func unbreakable(s string) []string {
	var words []string
	for _, word := range strings.Fields(s) {
		if n := len(words); n > 0 && isUnit(word) && endsInDigit(words[n-1]) {
			words[n-1] += " " + word
			continue
		}
		words = append(words, word)
	}
	return words
}

func isUnit(word string) bool { return len([]rune(strings.TrimRight(word, ",.:;)”"))) <= 3 }

func endsInDigit(word string) bool {
	last := word[len(word)-1]
	return last >= '0' && last <= '9'
}

// spread moves wished places apart so that each has its size around it and all
// lie between low and high, in the order of the wishes. If there is no room,
// they are packed evenly.
func spread(wishes, sizes []float64, low, high float64) []float64 {
	order := make([]int, len(wishes))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return compareFloats(wishes[a], wishes[b]) })
	total := 0.0
	for _, s := range sizes {
		total += s
	}
	squeeze := 1.0
	if total > high-low && total > 0 {
		squeeze = (high - low) / total
	}
	places := make([]float64, len(wishes))
	ahead := low
	for _, i := range order {
		half := sizes[i] * squeeze / 2
		places[i] = max(wishes[i], ahead+half)
		ahead = places[i] + half
	}
	behind := high
	for _, i := range slices.Backward(order) {
		half := sizes[i] * squeeze / 2
		places[i] = min(places[i], behind-half)
		behind = places[i] - half
	}
	return places
}

func compareFloats(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}
