// SPDX-License-Identifier: MIT

package recipe

import (
	"gyle/internal/document"
	"gyle/quantity"
)

// Kind is the first key of a recipe document: "gyle: recipe/1".
const Kind = "recipe"

// Recipe is one version of a beer.
type Recipe struct {
	Name    string             `gyle:"name,required"`
	Version int                `gyle:"version"`
	Parent  int                `gyle:"parent"` // version this one was made from
	By      string             `gyle:"by"`
	Change  *Change            `gyle:"change,flow"`
	Style   string             `gyle:"style"` // id of the style it is meant for
	Size    *quantity.Volume   `gyle:"size"`  // collected wort its author brews; a plan may ask for another
	Aims    Aims               `gyle:"aims,flow"`
	Grist   []Grain            `gyle:"grist,required"`
	Mash    Mash               `gyle:"mash,flow"`
	Boil    *quantity.Duration `gyle:"boil"`
	Hops    []Charge           `gyle:"hops"`
	Water   *Water             `gyle:"water,flow"`
	Yeast   *Yeast             `gyle:"yeast,flow"`
	Package *Package           `gyle:"package,flow"`
	Note    string             `gyle:"note"`
}

// Change says what a version does differently from its parent, and what the
// brewer expects of it. It is what a blind tasting puts to the test.
type Change struct {
	What   string `gyle:"what,required"`
	Why    string `gyle:"why"`
	Expect string `gyle:"expect"`
}

// Aims are the numbers the beer is brewed to. Those left out follow from the
// rest of the recipe.
type Aims struct {
	OG    *quantity.Gravity     `gyle:"og"`
	FG    *quantity.Gravity     `gyle:"fg"`
	IBU   *quantity.IBU         `gyle:"ibu"`
	Color *quantity.Color       `gyle:"color"`
	CO2   *quantity.Carbonation `gyle:"co2"`
}

// Grain is a malt, cereal, sugar or extract of the grist.
type Grain struct {
	Malt  string             `gyle:"malt,required"`
	Share *quantity.Fraction `gyle:"share"` // of the mass of the grist
	Mass  *quantity.Mass     `gyle:"mass"`  // instead of a share, on the house and size of Recipe
	Color *quantity.Color    `gyle:"color"` // the product meant, where the name leaves it open
	In    Entry              `gyle:"in"`
	Role  Role               `gyle:"role"`
	Why   string             `gyle:"why"`
}

// Mash is how the grist is mashed.
type Mash struct {
	Ratio  *quantity.Ratio `gyle:"ratio"` // mash liquor to grist
	PH     *quantity.PH    `gyle:"ph"`    // of a cooled sample
	Rests  []Rest          `gyle:"rests"`
	Sparge string          `gyle:"sparge"` // "none" for a full-volume mash; empty lets the house decide
}

// Charge is one hop addition. It has a bitterness, a dose or a mass.
type Charge struct {
	Hop        string               `gyle:"hop,required"`
	Bitterness *quantity.IBU        `gyle:"bitterness"`
	Dose       *quantity.Dose       `gyle:"dose"` // per litre of wort at knock-out; of beer for dry hops
	Mass       *quantity.Mass       `gyle:"mass"` // on the size of the recipe
	Oil        *quantity.OilContent `gyle:"oil"`  // oil of the hops the dose was meant for
	At         Moment               `gyle:"at,required"`
	Why        string               `gyle:"why"`
}

// Water is what the treated liquor is meant to hold, and what may be used to
// get there.
type Water struct {
	Ca    *quantity.Concentration `gyle:"Ca"`
	Mg    *quantity.Concentration `gyle:"Mg"`
	Na    *quantity.Concentration `gyle:"Na"`
	Cl    *quantity.Concentration `gyle:"Cl"`
	SO4   *quantity.Concentration `gyle:"SO4"`
	HCO3  *quantity.Concentration `gyle:"HCO3"`
	Salts []string                `gyle:"salts"` // salts the brewer is willing to use
	Soft  *quantity.Fraction      `gyle:"soft"`  // most distilled or reverse-osmosis water that may be blended in
	Acid  string                  `gyle:"acid"`  // acid for the mash
}

// Yeast is how the yeast is expected to behave, not whose it is.
type Yeast struct {
	Kind        string                               `gyle:"kind,required"`
	Attenuation *quantity.Span[quantity.Fraction]    `gyle:"attenuation"` // apparent
	Temperature *quantity.Span[quantity.Temperature] `gyle:"temperature"`
	Pitch       *quantity.PitchRate                  `gyle:"pitch"`
}

// Package is how the beer is put up.
type Package struct {
	In    string `gyle:"in"`    // bottles or keg
	Sugar string `gyle:"sugar"` // priming sugar for bottles
}

// Parse reads a recipe document. The error is document.Faults: every fault
// with its position.
func Parse(file string, text []byte) (*Recipe, error) {
	r := new(Recipe)
	if _, err := document.Unmarshal(file, text, Kind, r); err != nil {
		return nil, err
	}
	return r, nil
}

// Text returns the canonical text of r.
func (r *Recipe) Text() ([]byte, error) { return document.Marshal(Kind, r) }
