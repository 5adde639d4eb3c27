// SPDX-License-Identifier: MIT

package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Figure names a number by which a beer or its water is known. Style rules,
// plans and cards all use these names. As a number a figure is a float64 in its
// own unit: see [Figure.ParseSpan].
type Figure string

// The figures, by the names they have in documents.
const (
	OG                 Figure = "og"
	FG                 Figure = "fg"
	ABV                Figure = "abv"
	Bitterness         Figure = "ibu"
	BeerColor          Figure = "color"
	BUGU               Figure = "bu:gu"
	Attenuation        Figure = "attenuation"
	CO2                Figure = "co2"
	MashPH             Figure = "mash-ph"
	Calcium            Figure = "Ca"
	Magnesium          Figure = "Mg"
	Sodium             Figure = "Na"
	Chloride           Figure = "Cl"
	Sulfate            Figure = "SO4"
	Bicarbonate        Figure = "HCO3"
	SulfateToChloride  Figure = "SO4:Cl"
	ResidualAlkalinity Figure = "RA"
)

// figure describes a Figure.
type figure struct {
	name     Figure
	label    string
	unit     string  // as printed
	shown    float64 // how many printed units make one of the canonical unit
	decimals int     // as printed
	parse    func(text string) (Span[float64], error)
	others   []string // further names that are understood
}

// figures in the order in which people read them off a card.
var figures = []figure{
	{OG, "original gravity", "", 1, 3, spanOf[SG], nil},
	{FG, "final gravity", "", 1, 3, spanOf[SG], nil},
	{ABV, "alcohol by volume", "%", 100, 1, spanOf[Fraction], []string{"alcohol"}},
	{Bitterness, "bitterness", "IBU", 1, 0, spanOf[IBU], []string{"bu"}},
	{BeerColor, "colour", "EBC", 1, 0, colorSpan, []string{"ebc"}},
	{BUGU, "bitterness to gravity", "", 1, 2, spanOf[float64], []string{"bugu", "bu/gu"}},
	{Attenuation, "apparent attenuation", "%", 100, 0, spanOf[Fraction], nil},
	{CO2, "carbonation", "vol", 1, 1, spanOf[Carbonation], nil},
	{MashPH, "mash pH", "", 1, 2, spanOf[PH], nil},
	{Calcium, "calcium", "mg/L", 1, 0, spanOf[Concentration], nil},
	{Magnesium, "magnesium", "mg/L", 1, 0, spanOf[Concentration], nil},
	{Sodium, "sodium", "mg/L", 1, 0, spanOf[Concentration], nil},
	{Chloride, "chloride", "mg/L", 1, 0, spanOf[Concentration], nil},
	{Sulfate, "sulfate", "mg/L", 1, 0, spanOf[Concentration], []string{"sulphate"}},
	{Bicarbonate, "bicarbonate", "mg/L", 1, 0, spanOf[Concentration], nil},
	{SulfateToChloride, "sulfate to chloride", "", 1, 2, spanOf[float64], []string{"SO4/Cl"}},
	{ResidualAlkalinity, "residual alkalinity", "mEq/L", 1, 1, spanOf[Charge], nil},
}

// spanOf reads a range of a measure and gives its plain numbers.
func spanOf[T any](text string) (Span[float64], error) {
	s, err := ParseSpan[T](text)
	k := kindOf[T]()
	return Span[float64]{k.position(s.Low), k.position(s.High)}, err
}

// colorSpan reads a range of colours on any scale and gives EBC. (Its ends are
// placed by their EBC.)
func colorSpan(text string) (Span[float64], error) { return spanOf[Color](text) }

// Figures returns all figures in the order in which people read them.
func Figures() []Figure {
	names := make([]Figure, len(figures))
	for i, f := range figures {
		names[i] = f.name
	}
	return names
}

// LookupFigure finds a figure by its name, in capitals or not. The error has a
// hint when the name is nearly one.
func LookupFigure(name string) (Figure, error) {
	wanted := strings.TrimSpace(name)
	var names []string
	for _, f := range figures {
		if strings.EqualFold(wanted, string(f.name)) || strings.EqualFold(wanted, f.label) {
			return f.name, nil
		}
		for _, other := range f.others {
			if strings.EqualFold(wanted, other) {
				return f.name, nil
			}
		}
		names = append(names, string(f.name))
	}
	hint := "write one of " + strings.Join(names, ", ")
	if near := nearest(wanted, names); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	return "", &ParseError{Text: name, What: "a figure", Msg: "there is no figure of this name", Hint: hint}
}

// find returns the description of f.
func (f Figure) find() (figure, bool) {
	for _, known := range figures {
		if known.name == f {
			return known, true
		}
	}
	return figure{}, false
}

// describe returns the description of f. An unknown figure is a number.
func (f Figure) describe() figure {
	if known, found := f.find(); found {
		return known
	}
	return figure{name: f, label: string(f), shown: 1, decimals: 2, parse: spanOf[float64]}
}

// Known reports whether f is one of [Figures].
func (f Figure) Known() bool {
	_, found := f.find()
	return found
}

// Label names f for people: "original gravity".
func (f Figure) Label() string { return f.describe().label }

// Unit returns the unit in which f is printed: "IBU", "%", or nothing.
func (f Figure) Unit() string { return f.describe().unit }

// Decimals returns how many decimals f is printed with.
func (f Figure) Decimals() int { return f.describe().decimals }

// IsGravity reports whether f may be written in degrees Plato too.
func (f Figure) IsGravity() bool { return f == OG || f == FG }

// Shown turns a number of f into what is printed: a share into percent.
func (f Figure) Shown(value float64) float64 { return value * f.describe().shown }

// ParseSpan reads a range of f, "28..44 EBC", in the canonical unit of f:
// specific gravity for OG and FG, a fraction for ABV and Attenuation, IBU, EBC,
// volumes of CO2, pH, mg/L, mEq/L, or a ratio. A gravity in degrees Plato is an
// error here, because turning it into a specific gravity is the business of
// science/gravity; use [Figure.ParseGravitySpan] for it.
func (f Figure) ParseSpan(text string) (Span[float64], error) {
	return f.describe().parse(text)
}

// ParseGravitySpan reads a range of OG or FG on the scale it is written in.
func (f Figure) ParseGravitySpan(text string) (Span[Gravity], error) {
	if !f.IsGravity() {
		return Span[Gravity]{}, &ParseError{Text: text, What: "a gravity", Msg: f.Label() + " is no gravity"}
	}
	return ParseSpan[Gravity](text)
}

// Format prints a number of f for people: "29 IBU", "1.050", "73 %".
func (f Figure) Format(value float64) string { return Printer{}.Figure(f, value) }

// FormatSpan prints a range of f for people: "24–34 IBU", "up to 34 IBU".
func (f Figure) FormatSpan(s Span[float64]) string { return Printer{}.FigureSpan(f, s) }

// FormatBand prints a band of f for people: "29 IBU (26.7–31.3)".
func (f Figure) FormatBand(b Band) string { return Printer{}.FigureBand(f, b) }

// MarshalText writes the name of f.
func (f Figure) MarshalText() ([]byte, error) { return []byte(f), nil }

// UnmarshalText finds f as [LookupFigure] does.
func (f *Figure) UnmarshalText(text []byte) error {
	found, err := LookupFigure(string(text))
	if err == nil {
		*f = found
	}
	return err
}

// shownIn returns how f is printed in a system: its unit, the factor to it
// and the decimals. Colours are SRM where American units are wanted.
func (f Figure) shownIn(system System) (unit string, factor float64, decimals int) {
	d := f.describe()
	if f == BeerColor && system == USCustomary {
		return "SRM", 1 / ebcPerSRM, 1
	}
	return d.unit, d.shown, d.decimals
}

// Figure prints a number of f.
func (p Printer) Figure(f Figure, value float64) string {
	unit, factor, decimals := f.shownIn(p.System)
	return joinUnit(p.Number(value*factor, decimals), unit)
}

// FigureSpan prints a range of f. An open end is put in words.
func (p Printer) FigureSpan(f Figure, s Span[float64]) string {
	unit, factor, decimals := f.shownIn(p.System)
	low, high := p.Number(s.Low*factor, decimals), p.Number(s.High*factor, decimals)
	switch {
	case math.IsInf(s.Low, -1) && math.IsInf(s.High, 1):
		return "any"
	case math.IsInf(s.Low, -1):
		return "up to " + joinUnit(high, unit)
	case math.IsInf(s.High, 1):
		return joinUnit(low, unit) + " or more"
	case low == high:
		return joinUnit(low, unit)
	}
	return joinUnit(joinRange(low, high), unit)
}

// FigureBand prints a band of f.
func (p Printer) FigureBand(f Figure, b Band) string {
	unit, factor, decimals := f.shownIn(p.System)
	return p.band(Band{b.Low * factor, b.Mid * factor, b.High * factor}, unit, decimals)
}
