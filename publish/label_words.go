// SPDX-License-Identifier: MIT

package publish

import (
	"strings"

	"gyle/guest"
)

// labelGerman are the words of a label beyond those of a page. Names of
// ingredients keep theirs.
var labelGerman = strings.NewReplacer(
	"contains ", "enthält ", "Contains alcohol. Not for children, in pregnancy, or before driving.", "Enthält Alkohol. Nicht für Kinder, in der Schwangerschaft oder vor dem Fahren.",
	"Check your country's rules: what a label must say, and whether home-brewed beer may be given away or sold, differs.", "Die Regeln des eigenen Landes prüfen: was auf ein Etikett muss und ob selbst gebrautes Bier verschenkt oder verkauft werden darf, ist verschieden.",
	"Bottle-conditioned: keep cool and upright, pour off the yeast.", "Flaschengärung: kühl und aufrecht lagern, von der Hefe abgießen.",
	"barley", "Gerste", "oats, by law", "Hafer, nach dem Gesetz", "oats", "Hafer", "wheat", "Weizen", "rye", "Roggen", "spelt", "Dinkel",
	"gluten", "Gluten", "milk", "Milch", "lactose", "Laktose", "sulphites", "Sulfite", "fish", "Fisch", "egg", "Ei", "nuts", "Schalenfrüchte", "soya", "Soja",
)

// In puts a label into a language, "de"; others are English. It is no more of
// a legal advice there.
func (l Label) In(lang string) Label {
	if lang != guest.German {
		return l
	}
	l.lang = lang
	l.Contains = labelGerman.Replace(l.Contains)
	l.Cautions = replaced(l.Cautions, labelGerman.Replace)
	l.Basis = replaced(l.Basis, func(text string) string {
		allergen, names, _ := strings.Cut(text, ": ")
		return labelGerman.Replace(allergen) + ": " + names
	})
	l.Ingredients = replaced(l.Ingredients, func(name string) string {
		switch name {
		case "water":
			return "Wasser"
		case "yeast":
			return "Hefe"
		}
		if hop, ok := strings.CutSuffix(name, " hops"); ok {
			return "Hopfen " + hop
		}
		if sugar, ok := strings.CutSuffix(name, " for the bottles"); ok {
			return guest.In(lang, sugar) + " für die Flaschen"
		}
		return name
	})
	return l
}

func replaced(list []string, with func(string) string) []string {
	out := make([]string, len(list))
	for i, text := range list {
		out[i] = with(text)
	}
	return out
}

// heads are the words in front of the ingredients and of the allergens.
func (l Label) heads() (ingredients, allergens string) {
	if l.lang == guest.German {
		return "Zutaten: ", "Allergene nach Zutaten: "
	}
	return "Ingredients: ", "Allergens by ingredient: "
}
