// SPDX-License-Identifier: MIT

package chart

// Ink says what a mark stands for. Its class is ink-planned, ink-measured or
// ink-corrected; a stylesheet changes an ink by setting the CSS property
// "color" of the class. Other classes are chart (the svg, also
// rule-mark for the smallest of them), paper, rule (ruled
// lines), words, figure (numbers), halo (the paper-coloured rim of letters)
// and swatch (colours of malt and beer).
type Ink int

// The inks. The zero ink is the printed text and lines of the book itself.
const (
	printed Ink = iota
	Planned
	Measured
	Corrected
	ruled
)

// The colours that show where no stylesheet says otherwise. Against the paper
// every ink but the ruled lines has a contrast above 5.5 to 1.
const (
	paperColor  = "#fcf8ee"
	printColor  = "#2a2520"
	wordsFont   = "Charter, 'Bitstream Charter', Georgia, 'Liberation Serif', serif"
	figuresFont = "'Gill Sans', 'Liberation Sans', Arial, sans-serif"
)

// class and color of an ink.
func (k Ink) class() string {
	return [...]string{"", "ink-planned", "ink-measured", "ink-corrected", "rule"}[k]
}

func (k Ink) color() string {
	return [...]string{"", "#605d57", "#1a2750", "#a5121a", "#d3c8ae"}[k]
}

// look is how a shape is drawn: stroke and fill in an ink or a named colour.
type look struct {
	ink     Ink
	class   string
	fill    string // "", "ink", "paper", a colour or url(#pattern)
	stroke  float64
	color   string // of the stroke; the ink when empty
	dash    string
	opacity float64 // of the whole shape; 0 is opaque
}

// Dashes: planned things are dashed, limits are dotted.
const (
	dashed = "5 3.5"
	dotted = "1 3.5"
)

// attributes are the attributes of a look, as name-value pairs.
func (l look) attributes() []string {
	var a []string
	if class := joinClasses(l.ink.class(), l.class); class != "" {
		a = append(a, "class", class)
	}
	if color := l.ink.color(); color != "" {
		a = append(a, "color", color)
	}
	a = append(a, "fill", l.fillValue())
	if l.stroke > 0 {
		color := l.color
		if color == "" {
			color = "currentColor"
		}
		a = append(a, "stroke", color, "stroke-width", num(l.stroke))
	}
	if l.dash != "" {
		a = append(a, "stroke-dasharray", l.dash)
	}
	if l.dash == dotted {
		a = append(a, "stroke-linecap", "round")
	}
	if l.opacity > 0 {
		a = append(a, "opacity", num(l.opacity))
	}
	return a
}

func (l look) fillValue() string {
	switch l.fill {
	case "":
		return "none"
	case "ink":
		return "currentColor"
	case "paper":
		return paperColor
	}
	return l.fill
}

func joinClasses(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " " + b
}

// RGB is a colour of malt or beer on a screen.
type RGB struct{ R, G, B uint8 }

// hex writes c as SVG does.
func (c RGB) hex() string {
	const digits = "0123456789abcdef"
	text := []byte("#")
	for _, part := range []uint8{c.R, c.G, c.B} {
		text = append(text, digits[part>>4], digits[part&15])
	}
	return string(text)
}

// dark reports whether paper-coloured lines show on c better than black ones.
// The weights are those of luma in ITU-R BT.601.
func (c RGB) dark() bool {
	return 0.299*float64(c.R)+0.587*float64(c.G)+0.114*float64(c.B) < 128
}
