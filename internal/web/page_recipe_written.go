// SPDX-License-Identifier: MIT

package web

import (
	"strings"

	"gyle/internal/document"
	"gyle/quantity"
	"gyle/recipe"
)

// writtenRecipe is a recipe as it is written: every value is text, faulty or
// not. The fields of a form fill it, and the reader of documents finds its
// faults, so that a form and a text obey the same rules.
type writtenRecipe struct {
	Name    string          `gyle:"name"`
	Version string          `gyle:"version"`
	Parent  string          `gyle:"parent"`
	By      string          `gyle:"by"`
	Change  *writtenChange  `gyle:"change,flow"`
	Style   string          `gyle:"style"`
	Size    string          `gyle:"size"`
	Aims    writtenAims     `gyle:"aims,flow"`
	Grist   []writtenGrain  `gyle:"grist"`
	Mash    writtenMash     `gyle:"mash,flow"`
	Boil    string          `gyle:"boil"`
	Hops    []writtenCharge `gyle:"hops"`
	Water   *writtenWater   `gyle:"water,flow"`
	Yeast   *writtenYeast   `gyle:"yeast,flow"`
	Package *writtenPackage `gyle:"package,flow"`
	Note    string          `gyle:"note"`
}

type writtenChange struct {
	What   string `gyle:"what"`
	Why    string `gyle:"why"`
	Expect string `gyle:"expect"`
}

type writtenAims struct {
	OG    string `gyle:"og"`
	FG    string `gyle:"fg"`
	IBU   string `gyle:"ibu"`
	Color string `gyle:"color"`
	CO2   string `gyle:"co2"`
}

type writtenGrain struct {
	Malt  string `gyle:"malt"`
	Share string `gyle:"share"`
	Mass  string `gyle:"mass"`
	Color string `gyle:"color"`
	In    string `gyle:"in"`
	Role  string `gyle:"role"`
	Why   string `gyle:"why"`
}

type writtenMash struct {
	Ratio  string   `gyle:"ratio"`
	PH     string   `gyle:"ph"`
	Rests  []string `gyle:"rests"`
	Sparge string   `gyle:"sparge"`
}

type writtenCharge struct {
	Hop        string `gyle:"hop"`
	Bitterness string `gyle:"bitterness"`
	Dose       string `gyle:"dose"`
	Mass       string `gyle:"mass"`
	Oil        string `gyle:"oil"`
	At         string `gyle:"at"`
	Why        string `gyle:"why"`
}

type writtenWater struct {
	Ca    string   `gyle:"Ca"`
	Mg    string   `gyle:"Mg"`
	Na    string   `gyle:"Na"`
	Cl    string   `gyle:"Cl"`
	SO4   string   `gyle:"SO4"`
	HCO3  string   `gyle:"HCO3"`
	Salts []string `gyle:"salts"`
	Acid  string   `gyle:"acid"`
}

type writtenYeast struct {
	Kind        string `gyle:"kind"`
	Attenuation string `gyle:"attenuation"`
	Temperature string `gyle:"temperature"`
	Pitch       string `gyle:"pitch"`
}

type writtenPackage struct {
	In    string `gyle:"in"`
	Sugar string `gyle:"sugar"`
}

// readWritten reads the text of a recipe without understanding its values.
func readWritten(text string) (writtenRecipe, error) {
	var w writtenRecipe
	_, err := document.Unmarshal("recipe.yaml", []byte(text), recipe.Kind, &w)
	return w, err
}

// text writes the document, faulty or not.
func (w writtenRecipe) text() (string, error) {
	text, err := document.Marshal(recipe.Kind, w)
	return string(text), err
}

// read understands the values. The error is document.Faults.
func (w writtenRecipe) read() (*recipe.Recipe, error) {
	text, err := w.text()
	if err != nil {
		return nil, err
	}
	return recipe.Parse("recipe.yaml", []byte(text))
}

// amount is what a grain is written with.
func (g writtenGrain) amount() string { return g.Share + g.Mass }

// setAmount takes an amount as it is spoken: "12 %", "12" or "0.6 kg".
func (g *writtenGrain) setAmount(text string) {
	g.Share, g.Mass = "", ""
	if _, err := quantity.ParseMass(text); err == nil && !bareNumber(text) {
		g.Mass = text
		return
	}
	g.Share = withUsualUnit(text, "%")
}

// amount is what a charge is written with.
func (c writtenCharge) amount() string { return c.Bitterness + c.Dose + c.Mass }

// setAmount takes an amount as it is spoken: "28 IBU", "28", "1.4 g/L" or
// "35 g".
func (c *writtenCharge) setAmount(text string) {
	c.Bitterness, c.Dose, c.Mass = "", "", ""
	switch {
	case text == "":
	case bareNumber(text):
		c.Bitterness = withUsualUnit(text, "IBU")
	case readable(quantity.ParseDose(text)):
		c.Dose = text
	case readable(quantity.ParseMass(text)):
		c.Mass = text
	default:
		c.Bitterness = text
	}
}

func readable[T any](_ T, err error) bool { return err == nil }

// bareNumber reports whether a text is a number without a unit.
func bareNumber(text string) bool {
	return text != "" && strings.Trim(text, "0123456789.,") == ""
}

// withUsualUnit adds the unit that a field says in its label to a bare number.
func withUsualUnit(text, unit string) string {
	if bareNumber(text) {
		return text + " " + unit
	}
	return text
}

// scaled returns w with its shares scaled so that they add up to 100 %, and
// what they add up to as they stand, in percent. Shares that can't be read
// don't count.
func (w writtenRecipe) scaled() (scaled writtenRecipe, sum float64) {
	shares := make([]quantity.Fraction, len(w.Grist))
	for i, g := range w.Grist {
		if share, err := quantity.ParseFraction(g.Share); err == nil && share > 0 {
			shares[i] = share
			sum += share.Percent()
		}
	}
	if sum <= 0 {
		return w, sum
	}
	w.Grist = append([]writtenGrain(nil), w.Grist...)
	for i := range w.Grist {
		if shares[i] > 0 {
			w.Grist[i].Share = (shares[i] / quantity.Fraction(sum/100)).String()
		}
	}
	return w, sum
}

// without returns w without the values that are at fault, for a first look at
// the rest of it.
func (w writtenRecipe) without(faults document.Faults) writtenRecipe {
	at := map[string]bool{}
	for _, f := range faults {
		at[f.Field] = true
	}
	w.Grist = keepFaultless(w.Grist, "grist", at)
	w.Hops = keepFaultless(w.Hops, "hops", at)
	w.Mash.Rests = keepFaultless(w.Mash.Rests, "mash.rests", at)
	for field, value := range w.scalars() {
		if at[field] {
			*value = ""
		}
	}
	return w.withoutEmpty()
}

// keepFaultless keeps the rows of a list in which no fault lies.
func keepFaultless[T any](rows []T, list string, at map[string]bool) (kept []T) {
	for i, row := range rows {
		place := recipeRow(list, i)
		faulty := false
		for field := range at {
			faulty = faulty || field == place || strings.HasPrefix(field, place+".")
		}
		if !faulty {
			kept = append(kept, row)
		}
	}
	return kept
}

// scalars are the values of w that stand in no list, by their field. Parts
// that are missing are made, and hidden again by withoutEmpty.
func (w *writtenRecipe) scalars() map[string]*string {
	w.Change, w.Water, w.Yeast, w.Package = cloned(w.Change), cloned(w.Water), cloned(w.Yeast), cloned(w.Package)
	return map[string]*string{
		"name": &w.Name, "version": &w.Version, "parent": &w.Parent, "by": &w.By, "style": &w.Style, "size": &w.Size, "boil": &w.Boil, "note": &w.Note,
		"change.what": &w.Change.What, "change.why": &w.Change.Why, "change.expect": &w.Change.Expect,
		"aims.og": &w.Aims.OG, "aims.fg": &w.Aims.FG, "aims.ibu": &w.Aims.IBU, "aims.color": &w.Aims.Color, "aims.co2": &w.Aims.CO2,
		"mash.ratio": &w.Mash.Ratio, "mash.ph": &w.Mash.PH, "mash.sparge": &w.Mash.Sparge,
		"water.Ca": &w.Water.Ca, "water.Mg": &w.Water.Mg, "water.Na": &w.Water.Na, "water.Cl": &w.Water.Cl, "water.SO4": &w.Water.SO4, "water.HCO3": &w.Water.HCO3, "water.acid": &w.Water.Acid,
		"yeast.kind": &w.Yeast.Kind, "yeast.attenuation": &w.Yeast.Attenuation, "yeast.temperature": &w.Yeast.Temperature, "yeast.pitch": &w.Yeast.Pitch,
		"package.in": &w.Package.In, "package.sugar": &w.Package.Sugar,
	}
}

func cloned[T any](p *T) *T {
	c := new(T)
	if p != nil {
		*c = *p
	}
	return c
}

// withoutEmpty hides the parts in which nothing is written.
func (w writtenRecipe) withoutEmpty() writtenRecipe {
	if w.Change != nil && *w.Change == (writtenChange{}) {
		w.Change = nil
	}
	if y := w.Yeast; y != nil && *y == (writtenYeast{}) {
		w.Yeast = nil
	}
	if p := w.Package; p != nil && *p == (writtenPackage{}) {
		w.Package = nil
	}
	if a := w.Water; a != nil && len(a.Salts) == 0 && a.Ca+a.Mg+a.Na+a.Cl+a.SO4+a.HCO3+a.Acid == "" {
		w.Water = nil
	}
	return w
}
