// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/url"
	"slices"
	"strings"

	"gyle/internal/document"
	"gyle/recipe"
)

// recipeForm is a recipe in the fields of a form. A field is named after its
// place in the document, so that a fault finds the field that it blames.
type recipeForm struct {
	W      writtenRecipe
	Faults map[string]document.Fault // by field
	Others []document.Fault          // that no field is to blame for
	New    string                    // path of the row that was just added
	Lists  recipeLists

	raw document.Faults // as the document has them
}

// recipeLists are the words that a field may offer.
type recipeLists struct{ Malts, Hops, Styles, Yeasts, Sugars, Acids []string }

// recipeField is one field as the page draws it.
type recipeField struct {
	Path, Label, Value string
	Example, Hint      string
	List               string        // id of the list of documentWords that it offers
	Options            []recipeTerm  // of a field that knows all its documentWords
	Row                string        // which row it stands in, for screen readers: "grain 2"
	Fault              *fieldTrouble // nil where there is none
	Wide, Area, First  bool
}

// fieldTrouble is what is wrong with a field and what to write instead.
type fieldTrouble struct{ Text, Hint string }

// recipeTerm is a word of a document with what it means.
type recipeTerm struct{ Value, Text string }

// ID is the name of the field on the page.
func (f recipeField) ID() string { return fieldID(f.Path) }

func fieldID(path string) string {
	return "f-" + strings.NewReplacer("[", "-", "]", "", ".", "-").Replace(path)
}

// recipeRow is the place of an entry of a list.
func recipeRow(list string, i int) string { return fmt.Sprintf("%s[%d]", list, i) }

// mostRecipeRows is how many rows of a list are read from a form.
const mostRecipeRows = 100

// readRecipeForm takes the fields of a form, rows without a word included.
func readRecipeForm(form url.Values) writtenRecipe {
	get := func(path string) string { return strings.TrimSpace(strings.ReplaceAll(form.Get(path), "\r\n", "\n")) }
	var w writtenRecipe
	for path, value := range w.scalars() {
		*value = get(path)
	}
	w.Size, w.Boil, w.Aims.CO2 = withUsualUnit(w.Size, "L"), withUsualUnit(w.Boil, "min"), withUsualUnit(w.Aims.CO2, "vol")
	w.Aims.Color, w.Mash.Ratio = withUsualUnit(w.Aims.Color, "EBC"), withUsualUnit(w.Mash.Ratio, "L/kg")
	for _, ion := range []*string{&w.Water.Ca, &w.Water.Mg, &w.Water.Na, &w.Water.Cl, &w.Water.SO4, &w.Water.HCO3} {
		*ion = withUsualUnit(*ion, "mg/L")
	}
	w.Water.Salts = commaWords(get("water.salts"))
	for i := range mostRecipeRows {
		if at := recipeRow("grist", i); form.Has(at + ".malt") {
			g := writtenGrain{Malt: get(at + ".malt"), Color: withUsualUnit(get(at+".color"), "EBC"), In: get(at + ".in"), Role: get(at + ".role"), Why: get(at + ".why")}
			g.setAmount(get(at + ".share"))
			w.Grist = append(w.Grist, g)
		}
		if at := recipeRow("hops", i); form.Has(at + ".hop") {
			c := writtenCharge{Hop: get(at + ".hop"), Oil: withUsualUnit(get(at+".oil"), "mL/100 g"), At: get(at + ".at"), Why: get(at + ".why")}
			c.setAmount(get(at + ".bitterness"))
			w.Hops = append(w.Hops, c)
		}
		if at := recipeRow("mash.rests", i); form.Has(at) {
			w.Mash.Rests = append(w.Mash.Rests, get(at))
		}
	}
	return w.withoutEmpty()
}

// commaWords reads a list of words, as in "gypsum, calcium-chloride".
func commaWords(text string) (list []string) {
	for _, word := range strings.Split(text, ",") {
		if word = strings.TrimSpace(word); word != "" {
			list = append(list, word)
		}
	}
	return list
}

// rows says at which row of the form each row of the document stands: rows in
// which nothing is written are no part of it.
type rows struct{ grist, hops, rests []int }

// compact leaves out the rows in which nothing is written.
func (w writtenRecipe) compact() (writtenRecipe, rows) {
	var at rows
	w.Grist, at.grist = withoutRows(w.Grist, func(g writtenGrain) bool { return g == writtenGrain{} })
	w.Hops, at.hops = withoutRows(w.Hops, func(c writtenCharge) bool { return c == writtenCharge{} })
	w.Mash.Rests, at.rests = withoutRows(w.Mash.Rests, func(rest string) bool { return rest == "" })
	return w, at
}

func withoutRows[T any](list []T, empty func(T) bool) (kept []T, at []int) {
	for i, row := range list {
		if !empty(row) {
			kept, at = append(kept, row), append(at, i)
		}
	}
	return kept, at
}

// field turns a place in the document into one in the form: rows are counted
// with the empty ones, and a grain or a charge has one field for its amount.
func (at rows) field(path string) string {
	for list, places := range map[string][]int{"grist": at.grist, "hops": at.hops, "mash.rests": at.rests} {
		for i, row := range places {
			if rest, ok := strings.CutPrefix(path, recipeRow(list, i)); ok {
				return recipeRow(list, row) + amountField(list, rest)
			}
		}
	}
	return path
}

func amountField(list, rest string) string {
	switch {
	case list == "grist" && (rest == ".mass" || rest == ""):
		return ".share"
	case list == "hops" && (rest == ".mass" || rest == ".dose" || rest == ""):
		return ".bitterness"
	}
	return rest
}

// judge reads the form as a document and puts each fault beside its field. It
// returns the recipe where there is none.
func (f *recipeForm) judge() (*recipe.Recipe, error) {
	w, at := f.W.compact()
	r, err := w.read()
	var faults document.Faults
	if err != nil && !errors.As(err, &faults) {
		return nil, err
	}
	f.raw, f.Others, f.Faults = faults, nil, map[string]document.Fault{}
	fields := f.paths()
	for _, fault := range faults {
		path := at.field(fault.Field)
		fault = plainer(path, fault)
		if _, taken := f.Faults[path]; fields[path] && !taken {
			f.Faults[path] = fault
		} else {
			f.Others = append(f.Others, fault)
		}
	}
	if len(faults) > 0 {
		return nil, nil
	}
	return r, nil
}

// plainer words a fault for a form, where a field takes what the document
// keeps apart.
func plainer(path string, fault document.Fault) document.Fault {
	switch {
	case strings.HasPrefix(fault.Hint, "add ") && strings.HasSuffix(fault.Hint, ":"):
		fault.Hint = "" // it names the key of the document
	case strings.HasPrefix(path, "hops[") && strings.HasSuffix(path, ".bitterness") && fault.Field != "":
		fault.Hint = "write 28 IBU, 1.4 g/L or 35 g"
	case strings.HasPrefix(path, "grist[") && strings.HasSuffix(path, ".share") && strings.HasSuffix(fault.Field, "]"):
		fault.Hint = "write 12 % or 0.6 kg"
	case path == "aims":
		fault.Field = "aims.og"
	}
	return fault
}

// paths are the places that have a field.
func (f *recipeForm) paths() map[string]bool {
	paths := map[string]bool{"water.salts": true}
	w := f.W
	for path := range w.scalars() {
		paths[path] = true
	}
	for i := range f.W.Grist {
		for _, name := range []string{".malt", ".share", ".color", ".in", ".role", ".why"} {
			paths[recipeRow("grist", i)+name] = true
		}
	}
	for i := range f.W.Hops {
		for _, name := range []string{".hop", ".bitterness", ".oil", ".at", ".why"} {
			paths[recipeRow("hops", i)+name] = true
		}
	}
	for i := range f.W.Mash.Rests {
		paths[recipeRow("mash.rests", i)] = true
	}
	delete(paths, "version")
	delete(paths, "parent")
	return paths
}

// Field is the field of a single value.
func (f *recipeForm) Field(path string) recipeField {
	w := f.W
	out := recipeFieldWords[path]
	out.Path = path
	if value, ok := w.scalars()[path]; ok {
		out.Value = *value
	}
	if path == "water.salts" && f.W.Water != nil {
		out.Value = strings.Join(f.W.Water.Salts, ", ")
	}
	return f.faulted(out)
}

// Row is a field of an entry of a list.
func (f *recipeForm) Row(list string, i int, name string) recipeField {
	out := recipeFieldWords[list+"."+name]
	out.Path = recipeRow(list, i)
	if name != "" {
		out.Path += "." + name
	}
	if i > 0 {
		out.Example = ""
	}
	out.First = f.New == recipeRow(list, i) && slices.Contains([]string{"malt", "hop", ""}, name)
	out.Row = fmt.Sprintf("%s %d", map[string]string{"grist": "grain", "hops": "charge", "mash.rests": "rest"}[list], i+1)
	switch list {
	case "grist":
		g := f.W.Grist[i]
		out.Value = map[string]string{"malt": g.Malt, "share": g.amount(), "color": g.Color, "in": g.In, "role": g.Role, "why": g.Why}[name]
	case "hops":
		c := f.W.Hops[i]
		out.Value = map[string]string{"hop": c.Hop, "bitterness": c.amount(), "oil": c.Oil, "at": c.At, "why": c.Why}[name]
	default:
		out.Value = f.W.Mash.Rests[i]
	}
	return f.faulted(out)
}

func (f *recipeForm) faulted(out recipeField) recipeField {
	if fault, ok := f.Faults[out.Path]; ok {
		out.Fault = &fieldTrouble{fault.Msg, fault.Hint}
	}
	return out
}

// FaultCount is how many faults there are in all.
func (f *recipeForm) FaultCount() int { return len(f.Faults) + len(f.Others) }

// recipeTrouble is a fault with a link to its field.
type recipeTrouble struct{ ID, Label, Text, Hint string }

// Troubles lists all faults in the order of the form.
func (f *recipeForm) Troubles() (list []recipeTrouble) {
	for _, fault := range f.Others {
		list = append(list, recipeTrouble{Text: fault.Msg, Hint: fault.Hint, Label: fault.Field})
	}
	places := make([]string, 0, len(f.Faults))
	for path := range f.Faults {
		places = append(places, path)
	}
	slices.Sort(places)
	for _, path := range places {
		fault := f.Faults[path]
		list = append(list, recipeTrouble{fieldID(path), fieldLabel(path), fault.Msg, fault.Hint})
	}
	return list
}

// fieldLabel names a field by its label and its row.
func fieldLabel(path string) string {
	list, rest, ok := strings.Cut(path, "[")
	if !ok {
		return recipeFieldWords[path].Label
	}
	number, name, _ := strings.Cut(rest, "]")
	var i int
	fmt.Sscan(number, &i)
	return fmt.Sprintf("%s, line %d", recipeFieldWords[list+"."+strings.TrimPrefix(name, ".")].Label, i+1)
}

// addRow adds an empty row to a list.
func (f *recipeForm) addRow(list string) {
	switch list {
	case "grist":
		f.W.Grist = append(f.W.Grist, writtenGrain{})
		f.New = recipeRow(list, len(f.W.Grist)-1)
	case "hops":
		f.W.Hops = append(f.W.Hops, writtenCharge{})
		f.New = recipeRow(list, len(f.W.Hops)-1)
	case "mash.rests":
		f.W.Mash.Rests = append(f.W.Mash.Rests, "")
		f.New = recipeRow(list, len(f.W.Mash.Rests)-1)
	}
}

// dropRow takes a row out of a list.
func (f *recipeForm) dropRow(path string) {
	var i int
	list, rest, _ := strings.Cut(path, "[")
	if _, err := fmt.Sscanf(rest, "%d]", &i); err != nil || i < 0 {
		return
	}
	switch {
	case list == "grist" && i < len(f.W.Grist):
		f.W.Grist = slices.Delete(f.W.Grist, i, i+1)
	case list == "hops" && i < len(f.W.Hops):
		f.W.Hops = slices.Delete(f.W.Hops, i, i+1)
	case list == "mash.rests" && i < len(f.W.Mash.Rests):
		f.W.Mash.Rests = slices.Delete(f.W.Mash.Rests, i, i+1)
	}
}
