// SPDX-License-Identifier: MIT

package mash

import (
	"strings"

	"gyle/quantity"
)

// The classes of malt that [TypicalClass] knows.
const (
	Pilsner       = "pilsner"
	PaleTwoRow    = "pale two-row"
	PaleAle       = "pale ale"
	Vienna        = "vienna"
	MunichLight   = "munich light"
	MunichDark    = "munich dark"
	Smoked        = "smoked"
	WheatPale     = "wheat pale"
	WheatDark     = "wheat dark"
	Rye           = "rye"
	Oat           = "oat"
	Spelt         = "spelt"
	RawWheat      = "raw wheat"
	RawBarley     = "raw barley"
	RawOats       = "raw oats"
	RawRye        = "raw rye"
	RiceMaize     = "rice or maize"
	Dextrin       = "dextrin"
	Caramel       = "caramel"
	Melanoidin    = "melanoidin"
	AmberBrown    = "biscuit, amber or brown"
	Roasted       = "roasted"
	Dehusked      = "dehusked roasted"
	RoastedBarley = "roasted barley"
	Acidulated    = "acidulated"
	Extract       = "extract"
	BaseByColor   = "base by colour" // a base malt of unknown kind
	Inert         = "inert"          // sugars, starch, hulls: no part in the balance
)

// Class is a customary kind of malt. Of a base malt the pH in distilled water
// stands in Value, of a titrated one the acidity up to pH 5.7 in mEq/kg.
type Class struct {
	Name   string
	Color  quantity.Span[quantity.EBC]
	Base   bool
	Value  float64
	Buffer float64 // mEq/(kg pH)
	SD     float64 // between lots: of a base malt in pH, else as a share of Value
}

// Classes are the customary kinds of malt. The figures are estimates drawn
// together from recalled titrations of Troester (2009; ±20 %) and from Briggs
// et al. (2004), both second-hand; a lot that was measured replaces them. Two
// classes are computed from the colour: of [Caramel] the acidity, of
// [BaseByColor] the pH; their Value here belongs to the middle of the range.
var Classes = []Class{
	{Pilsner, span(3, 4.5), true, 5.75, 38, .10},
	{PaleTwoRow, span(3.5, 5), true, 5.65, 38, .10},
	{PaleAle, span(5, 8), true, 5.68, 38, .08},
	{Vienna, span(6, 10), true, 5.57, 38, .08},
	{MunichLight, span(12, 18), true, 5.48, 40, .08},
	{MunichDark, span(20, 30), true, 5.40, 42, .08},
	{Smoked, span(3, 8), true, 5.65, 38, .12},
	{WheatPale, span(3, 5), true, 5.97, 38, .10},
	{WheatDark, span(14, 20), true, 5.75, 40, .15},
	{Rye, span(5, 10), true, 5.95, 38, .12},
	{Oat, span(3, 8), true, 5.90, 34, .15},
	{Spelt, span(3, 8), true, 5.90, 38, .15},
	{RawWheat, span(2, 4), true, 6.15, 30, .2},
	{RawBarley, span(2, 4), true, 5.90, 32, .2},
	{RawOats, span(2, 4), true, 6.20, 30, .2},
	{RawRye, span(4, 8), true, 6.10, 32, .2},
	{RiceMaize, span(1, 3), true, 6.00, 12, .3},
	{Dextrin, span(3, 6), false, 9, 38, .30},
	{Caramel, span(20, 400), false, 43.18, 35, .20},
	{Melanoidin, span(50, 90), false, 33, 40, .25},
	{AmberBrown, span(45, 200), false, 25, 38, .30},
	{Roasted, span(500, 1500), false, 42, 35, .20},
	{Dehusked, span(800, 1500), false, 40, 35, .20},
	{RoastedBarley, span(600, 1500), false, 38, 35, .20},
	{Acidulated, span(3, 7), false, 320, 35, .25},
	{Extract, span(6, 160), true, 5.5, 30, .2},
	{BaseByColor, BaseColorValid, true, 5.548, 38, .10},
	{Inert, span(0, 0), true, 0, 0, 0},
}

func span(low, high quantity.EBC) quantity.Span[quantity.EBC] {
	return quantity.Span[quantity.EBC]{Low: low, High: high}
}

// BaseColorValid is the range of BasePHFromColor.
var BaseColorValid = span(3, 25)

// BasePHFromColor returns the pH in distilled water of a base malt of which
// only the colour is known.
//
//	pHDI = 5.80 − 0.018·EBC
//
// Units: malt colour in EBC.
//
//   - Source: derived: a line through the barley classes of Classes; hansen2015, abstract: mash pH follows malt colour.
//   - Valid: BaseColorValid, barley.
//   - Check: 15 EBC: 5.53, beside 5.48 for light Munich malt.
//   - Tag: estimate
func BasePHFromColor(c quantity.EBC) quantity.PH { return quantity.PH(5.80 - 0.018*float64(c)) }

// CaramelAcidity returns the acidity up to pH 5.7 of caramel malt, in mEq/kg.
//
//	A57 = 10 + 0.158·EBC
//
// Units: A57 in mEq/kg, malt colour in EBC.
//
//   - Source: troester2009, titrations from memory, ±20 %; the line is fitted to them.
//   - Valid: 20..400 EBC.
//   - Check: 120 EBC: 28.96.
//   - Tag: from memory
func CaramelAcidity(c quantity.EBC) float64 { return 10 + 0.158*float64(c) }

// TypicalClass returns what a malt of a class is like, with the standard
// deviation between lots: in pH for a base malt (of its PHDI), in mEq/kg for a
// titrated one (of its Acidity57). The colour counts for [Caramel] and
// [BaseByColor] alone. The mass is left for the caller.
func TypicalClass(class string, ebc quantity.EBC) (malt Malt, sd float64, ok bool) {
	for _, c := range Classes {
		if c.Name != class {
			continue
		}
		switch class {
		case Caramel:
			c.Value = CaramelAcidity(ebc)
		case BaseByColor:
			c.Value = float64(BasePHFromColor(ebc))
		}
		if c.Base {
			return Malt{Name: class, Base: true, PHDI: quantity.PH(c.Value), Buffer: c.Buffer}, c.SD, true
		}
		return Malt{Name: class, Acidity57: c.Value, Buffer: c.Buffer}, c.SD * c.Value, true
	}
	return Malt{}, 0, false
}

// classWords lead from words in the name of a malt to its class. The first row
// of which all words occur wins, so that the particular comes before the
// general.
var classWords = []struct{ words, class string }{
	{"colouring extract", Extract},
	{"dehusked", Dehusked},
	{"acidulated", Acidulated},
	{"sour malt", Acidulated},
	{"hulls", Inert},
	{"husks", Inert},
	{"starch", Inert},
	{"cassava", Inert},
	{"roasted barley", RoastedBarley},
	{"roasted wheat", RoastedBarley},
	{"roasted crystal", Caramel},
	{"chocolate", Roasted},
	{"coffee", Roasted},
	{"black", Roasted},
	{"roasted", Roasted},
	{"dextrin", Dextrin},
	{"caramel", Caramel},
	{"crystal", Caramel},
	{"melanoidin", Melanoidin},
	{"aromatic", Melanoidin},
	{"brumalt", Melanoidin},
	{"biscuit", AmberBrown},
	{"amber", AmberBrown},
	{"brown", AmberBrown},
	{"smoked wheat", WheatPale},
	{"smoked", Smoked},
	{"flaked barley", RawBarley},
	{"raw barley", RawBarley},
	{"torrefied barley", RawBarley},
	{"flaked wheat", RawWheat},
	{"raw wheat", RawWheat},
	{"torrefied wheat", RawWheat},
	{"spelt flakes", RawWheat},
	{"flaked oats", RawOats},
	{"oats flaked", RawOats},
	{"oat flakes", RawOats},
	{"raw oats", RawOats},
	{"flaked rye", RawRye},
	{"raw rye", RawRye},
	{"maize", RiceMaize},
	{"flaked rice", RiceMaize},
	{"rice grits", RiceMaize},
	{"vienna", Vienna},
	{"munich dark", MunichDark},
	{"munich light", MunichLight},
	{"pale ale", PaleAle},
	{"mild ale", PaleAle},
	{"two row", PaleTwoRow},
	{"six row", PaleTwoRow},
	{"pilsner", Pilsner},
	{"lager", Pilsner},
	{"chit", Pilsner},
	{"wheat dark", WheatDark},
	{"spelt", Spelt},
	{"emmer", Spelt},
	{"triticale", WheatPale},
	{"wheat", WheatPale},
	{"rye", Rye},
	{"oat", Oat},
	{"oats", Oat},
}

// ClassFor returns the class of a malt from its name or its identifier
// ("munich-malt-dark"), its general class in the table of typical malts
// ("base", "crystal", "kilned", "adjunct" …) and its colour. Sugars and
// extracts are told by the general class. What no word tells is judged by
// general class and colour; malts of other cereals (millet, sorghum,
// buckwheat, rice) have no class of their own and come out as [RiceMaize],
// which is a poor guess: measure them. The empty string means: unknown.
func ClassFor(name, class string, ebc quantity.EBC) string {
	switch class {
	case "sugar":
		return Inert
	case "extract":
		return Extract
	}
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return r == '-' || r == ' ' || r == ',' || r == '(' || r == ')' || r == '/'
	})
	for _, row := range classWords {
		if containsAll(words, strings.Fields(row.words)) {
			return row.class
		}
	}
	return classByColor(class, ebc)
}

func containsAll(words, wanted []string) bool {
	for _, w := range wanted {
		found := false
		for _, word := range words {
			found = found || word == w
		}
		if !found {
			return false
		}
	}
	return true
}

// classByColor judges a malt whose name says nothing.
func classByColor(class string, ebc quantity.EBC) string {
	switch class {
	case "acidulated":
		return Acidulated
	case "adjunct":
		return RiceMaize
	case "base":
		return BaseByColor
	case "crystal":
		if ebc < 12 {
			return Dextrin
		}
		return Caramel
	case "dehusked roasted":
		return Dehusked
	case "kilned":
		switch {
		case ebc <= 11:
			return Vienna
		case ebc <= BaseColorValid.High:
			return BaseByColor
		}
		return Melanoidin
	case "oats":
		return Oat
	case "roasted":
		return Roasted
	case "rye":
		return Rye
	case "smoked":
		return Smoked
	case "wheat":
		if ebc > 10 {
			return WheatDark
		}
		return WheatPale
	}
	return ""
}
