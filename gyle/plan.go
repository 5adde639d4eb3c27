// SPDX-License-Identifier: MIT

package gyle

import "gyle/quantity"

// Plan is the plan as it stood when the brewing began. It is never computed
// anew: a formula that changes later leaves it as it was. Volumes are at 20 °C
// unless they say at which temperature they read so.
type Plan struct {
	Made     Date   `gyle:"made"`
	Program  string `gyle:"program"`  // that made it, with its version
	Formulas string `gyle:"formulas"` // fingerprint of all formulas of that program
	Start    Time   `gyle:"start"`    // when the brew day is to begin, with the weighing-out
	Cooling  string `gyle:"cooling"`  // the way of cooling it holds for
	Cooler   Cooler `gyle:"cooler,flow"`

	Volumes Volumes   `gyle:"volumes,flow"`
	Gravity Gravities `gyle:"gravity,flow"`
	Figures []Figure  `gyle:"figures,flow"`

	Grist  []Grain    `gyle:"grist,flow"`
	Yield  Yield      `gyle:"yield,flow"`
	Liquor Liquor     `gyle:"liquor,flow"`
	Salts  []Salt     `gyle:"salts,flow"`
	Mash   Mash       `gyle:"mash,flow"`
	Steps  []Step     `gyle:"mash steps,flow"`
	Boil   Boil       `gyle:"boil,flow"`
	Hops   []Charge   `gyle:"hops,flow"`
	Path   []PathStep `gyle:"path,flow"` // of the kettle from the boil on
	Cellar Cellar     `gyle:"cellar,flow"`
}

// Cooler is what cools the kettle as a whole; zero where only the wort on its
// way is cooled.
type Cooler struct {
	Tau   quantity.Duration    `gyle:"tau"`
	Water quantity.Temperature `gyle:"water"`
}

// Volumes are the volumes of a plan at 20 °C, and how they read hot.
type Volumes struct {
	FullKettle    quantity.Volume   `gyle:"full kettle"`
	FullKettleHot quantity.VolumeAt `gyle:"full kettle hot"`
	KnockOut      quantity.Volume   `gyle:"knock-out"`
	KnockOutHot   quantity.VolumeAt `gyle:"knock-out hot"`
	Collected     quantity.Volume   `gyle:"collected"` // in the fermenter
	Packaged      quantity.Volume   `gyle:"packaged"`
}

// Gravities are the gravities of a plan.
type Gravities struct {
	FullKettle quantity.SG       `gyle:"full kettle"`
	OG         quantity.SG       `gyle:"og"`
	FG         quantity.SG       `gyle:"fg"`
	ABV        quantity.Fraction `gyle:"abv"`
	Extract    quantity.Mass     `gyle:"extract"` // in the kettle at knock-out
}

// Figure is a number of the beer as planned, in the unit of the figure; see
// [quantity.Figure.ParseSpan].
type Figure struct {
	Figure quantity.Figure `gyle:"figure,required"`
	Value  float64         `gyle:"value,required"`
	SD     float64         `gyle:"sd"`
}

// Grain is what to weigh of one lot.
type Grain struct {
	Malt    string            `gyle:"malt,required"`
	Lot     string            `gyle:"lot"`
	Mass    quantity.Mass     `gyle:"mass,required"`
	In      string            `gyle:"in"`      // as in a recipe: "last 15 min"; empty: with the mash
	Extract quantity.Fraction `gyle:"extract"` // of the mass as it is weighed
	Color   quantity.EBC      `gyle:"color"`
}

// Yield is the extract expected in the kettle over the extract by the laboratory.
type Yield struct {
	Value      quantity.Fraction `gyle:"value"`
	SD         quantity.Fraction `gyle:"sd"`
	Absorption quantity.Ratio    `gyle:"absorption"`
	Dead       quantity.Volume   `gyle:"dead"`
}

// Liquor is the brewing liquor of a plan.
type Liquor struct {
	Mash       quantity.Volume      `gyle:"mash"`
	Infused    quantity.Volume      `gyle:"infused"`
	Sparge     quantity.Volume      `gyle:"sparge"`
	Soft       quantity.Volume      `gyle:"soft"` // distilled or reverse-osmosis water in all of it
	Strike     quantity.Temperature `gyle:"strike"`
	SpargeAt   quantity.Temperature `gyle:"sparge at"`
	Grain      quantity.Temperature `gyle:"grain"`   // that the strike temperature counts on
	HeatUp     quantity.Duration    `gyle:"heat-up"` // of the liquor for the mash, to the strike temperature
	SpargeAcid *Acid                `gyle:"sparge acid,flow"`
}

// Salt is one salt for the whole of the liquor.
type Salt struct {
	Salt string        `gyle:"salt,required"`
	Mass quantity.Mass `gyle:"mass,required"`
}

// Acid is an amount of an acid.
type Acid struct {
	Acid   string          `gyle:"acid,required"`
	Volume quantity.Volume `gyle:"volume,required"`
}

// Mash is the pH of a planned mash.
type Mash struct {
	PH   quantity.PH `gyle:"ph"` // of a cooled sample
	SD   float64     `gyle:"sd"`
	Acid *Acid       `gyle:"acid"`
}

// Step is one thing to do at the mash, At after doughing-in.
type Step struct {
	At          quantity.Duration    `gyle:"at,keep"`
	What        string               `gyle:"what,required"`
	Temperature quantity.Temperature `gyle:"temperature"`
	Time        quantity.Duration    `gyle:"time"`
}

// Boil is a planned boil.
type Boil struct {
	Time        quantity.Duration    `gyle:"time"`
	Temperature quantity.Temperature `gyle:"temperature"`
	HeatUp      quantity.Duration    `gyle:"heat-up"`
	PerHour     quantity.Mass        `gyle:"evaporation"` // in an hour
}

// Charge is one hop charge of a plan from one lot.
type Charge struct {
	Hop   string            `gyle:"hop,required"`
	At    string            `gyle:"at,required"` // as in a recipe: "boil 60 min"
	Lot   string            `gyle:"lot"`
	Mass  quantity.Mass     `gyle:"mass,required"`
	Alpha quantity.Fraction `gyle:"alpha"` // on the brew day
	IBU   quantity.IBU      `gyle:"ibu"`
}

// PathStep is one stretch of the kettle's temperature from the boil on.
type PathStep struct {
	Name string               `gyle:"name,required"`
	Time quantity.Duration    `gyle:"time,keep"`
	From quantity.Temperature `gyle:"from"`
	To   quantity.Temperature `gyle:"to"`
}

// Cellar is what is planned once the wort is cold.
type Cellar struct {
	Yeast   string                               `gyle:"yeast"`
	Dry     quantity.Mass                        `gyle:"dry"`   // as dry yeast
	Cells   float64                              `gyle:"cells"` // 10⁹
	Pitch   quantity.Temperature                 `gyle:"pitch"` // temperature of the wort
	Range   *quantity.Span[quantity.Temperature] `gyle:"temperature"`
	CO2     quantity.Carbonation                 `gyle:"co2"`
	Sugar   string                               `gyle:"sugar"`
	Priming quantity.Mass                        `gyle:"priming"`
}
