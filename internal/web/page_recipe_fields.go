// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"slices"

	"gyle/data"
	"gyle/style"
)

// recipeFieldWords are the labels, examples and explanations of the fields, by
// their place in the document. Rows of a list share theirs.
var recipeFieldWords = map[string]recipeField{
	"name":  {Label: "Name", Example: "Harbour Stout"},
	"by":    {Label: "By"},
	"style": {Label: "Style", List: "styles", Hint: "whose rules it is held against"},
	"size":  {Label: "Usual size", Example: "20 L", Hint: "cold wort; a plan may ask for another"},
	"note":  {Label: "Note", Area: true, Wide: true},

	"change.what":   {Label: "What changed", Wide: true},
	"change.why":    {Label: "Why", Wide: true},
	"change.expect": {Label: "Expected", Wide: true},

	"aims.og":    {Label: "Original gravity", Example: "1.050", Hint: "or 12.4 °P"},
	"aims.fg":    {Label: "Final gravity", Example: "1.012", Hint: "empty: follows from the yeast"},
	"aims.ibu":   {Label: "Bitterness", Example: "30 IBU", Hint: "empty: the sum of the charges"},
	"aims.color": {Label: "Colour", Example: "25 EBC", Hint: "or 12.7 SRM"},
	"aims.co2":   {Label: "Carbonation", Example: "2.2 vol", Hint: "or 4.3 g/L"},

	"grist.malt":  {Label: "Malt", Example: "pale-ale", List: "malts"},
	"grist.share": {Label: "Share", Example: "80 %"},
	"grist.color": {Label: "Colour", Example: "150 EBC"},
	"grist.in":    {Label: "Goes in", Example: "mash", List: "entries"},
	"grist.role":  {Label: "There for", Options: []recipeTerm{{"", "not said"}, {"base", "base"}, {"color", "colour"}, {"flavour", "flavour"}}},
	"grist.why":   {Label: "Why", Wide: true},

	"mash.ratio":  {Label: "Liquor to grist", Example: "3.3 L/kg"},
	"mash.ph":     {Label: "pH", Example: "5.45", Hint: "of a cooled sample"},
	"mash.sparge": {Label: "Sparge", Options: []recipeTerm{{"", "as the house"}, {"none", "none"}}},
	"mash.rests.": {Label: "Rest", Example: "67 °C for 60 min"},
	"boil":        {Label: "Boil", Example: "60 min", Hint: "empty: as the house does"},

	"hops.hop":        {Label: "Hop", Example: "challenger", List: "hops"},
	"hops.bitterness": {Label: "Amount", Example: "25 IBU"},
	"hops.at":         {Label: "When", Example: "boil 60 min", List: "moments"},
	"hops.oil":        {Label: "Oil meant", Example: "0.9 mL/100 g"},
	"hops.why":        {Label: "Why", Wide: true},

	"water.Ca":    {Label: "Calcium", Example: "100 mg/L"},
	"water.Mg":    {Label: "Magnesium"},
	"water.Na":    {Label: "Sodium"},
	"water.Cl":    {Label: "Chloride", Example: "100 mg/L"},
	"water.SO4":   {Label: "Sulfate", Example: "60 mg/L"},
	"water.HCO3":  {Label: "Bicarbonate"},
	"water.salts": {Label: "Salts to use", Example: "gypsum, calcium-chloride", Wide: true},
	"water.acid":  {Label: "Acid for the mash", List: "acids", Example: "lactic-88"},

	"yeast.kind":        {Label: "Kind", Example: "english-ale", List: "yeasts"},
	"yeast.attenuation": {Label: "Attenuation", Example: "72..76 %", Hint: "apparent"},
	"yeast.temperature": {Label: "Temperature", Example: "18..20 °C"},
	"yeast.pitch":       {Label: "Pitch", Example: "0.75 M/mL/°P", Hint: "million cells per mL and °P"},

	"package.in":    {Label: "Put up in", Options: []recipeTerm{{"", "not said"}, {"bottles", "bottles"}, {"keg", "keg"}}},
	"package.sugar": {Label: "Priming sugar", List: "sugars", Example: "sucrose"},
}

// recipeLists gathers the words that fields offer: what the shed holds first,
// then what is typical.
func (s *Server) recipeLists(ctx context.Context, g *recipeGround) (recipeLists, error) {
	l := recipeLists{Yeasts: data.YeastNames(), Sugars: data.SugarNames(), Acids: data.AcidNames()}
	if g.Stock != nil {
		for _, lot := range g.Stock.Malts {
			l.Malts = append(l.Malts, lot.Malt)
		}
		for _, lot := range g.Stock.Hops {
			l.Hops = append(l.Hops, lot.Hop)
		}
	}
	l.Malts, l.Hops = eachOnce(l.Malts, data.MaltNames()), eachOnce(l.Hops, data.HopNames())
	styles, _, err := s.book.List(ctx, style.Kind, Part{Limit: mostRecipeChoices})
	for _, d := range styles {
		l.Styles = append(l.Styles, d.Slug)
	}
	return l, err
}

// eachOnce joins lists and names each word once.
func eachOnce(first, then []string) (list []string) {
	for _, word := range append(slices.Clone(first), then...) {
		if !slices.Contains(list, word) {
			list = append(list, word)
		}
	}
	return list
}
