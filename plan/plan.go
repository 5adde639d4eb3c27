// SPDX-License-Identifier: MIT

package plan

import (
	"gyle/brewhouse"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/boil"
	"gyle/science/hops"
	"gyle/science/mash"
	chem "gyle/science/water"
	"gyle/stock"
	"gyle/water"
)

// Input is what a plan is made of. Recipe and House are needed; without Stock
// typical values stand in, without Water the liquor is left as it is.
type Input struct {
	Recipe *recipe.Recipe
	House  *brewhouse.House
	Stock  *stock.Stock
	Water  *water.Water
	Options
}

// Options are the wishes of the brewer for this one plan.
type Options struct {
	Size    quantity.Volume   // collected wort; 0: what the house or the recipe usually brews
	Cooling string            // name of a way of cooling of the house; empty: its first
	Swap    map[string]string // hop of the recipe → hop to use instead
	KeepOil bool              // stand and dry charges keep their oil, not their grams
	On      stock.Date        // day of brewing; zero: the day the stock was counted
	Reader  quantity.Printer  // units and decimal mark of the sentences; the numbers stay the same
}

// Plan is a recipe realised on a house.
type Plan struct {
	Recipe  string `json:"recipe"`
	Version int    `json:"version,omitempty"`
	House   string `json:"house"`
	Stock   string `json:"stock,omitempty"`
	Water   string `json:"water,omitempty"`
	Style   string `json:"style,omitempty"`

	Volumes Volumes   `json:"volumes"`
	Gravity Gravities `json:"gravity"`
	Grist   Grist     `json:"grist"`
	Liquor  Liquor    `json:"liquor"`
	Mash    Mashing   `json:"mash"`
	Boil    Boiling   `json:"boil"`
	Hops    Hopping   `json:"hops"`
	Cellar  Cellar    `json:"cellar"`

	Figures  []Figure `json:"figures"`
	Kept     []Point  `json:"kept"`
	NotKept  []Point  `json:"notKept"`
	Cautions []string `json:"cautions"`
	Echo     []string `json:"echo,omitempty"`    // what masses in the recipe were taken to mean
	Typical  []string `json:"typical,omitempty"` // what was taken as typical for want of a lot or a reading

	recipe *recipe.Recipe
	house  *brewhouse.House
	day    *Brewday
	goods  *Goods
}

// Point is one thing that a plan keeps or can't keep. Price says what keeping
// or losing it costs.
type Point struct {
	What  string `json:"what"`
	Price string `json:"price,omitempty"`
}

// Figure is one number of the beer, predicted, with its standard deviation and
// what the recipe aims at. Why names the formulas that made it.
type Figure struct {
	Figure quantity.Figure `json:"figure"`
	Value  float64         `json:"value"`
	SD     float64         `json:"sd,omitempty"`
	Aim    *float64        `json:"aim,omitempty"`
	Why    string          `json:"why"`
}

// Band returns the figure with one standard deviation to either side.
func (f Figure) Band() quantity.Band { return quantity.BandOf(f.Value, f.SD) }

// Find returns a figure of the plan.
func (p *Plan) Find(name quantity.Figure) (Figure, bool) {
	for _, f := range p.Figures {
		if f.Figure == name {
			return f, true
		}
	}
	return Figure{}, false
}

// RecipeDocument returns the recipe that the plan realises.
func (p *Plan) RecipeDocument() *recipe.Recipe { return p.recipe }

// HouseDocument returns the house that the plan is made for.
func (p *Plan) HouseDocument() *brewhouse.House { return p.house }

// Volumes are the volumes of a brew at 20 °C, from the kettle to the bottle.
type Volumes struct {
	FullKettle    quantity.Volume   `json:"fullKettle"`
	FullKettleHot quantity.VolumeAt `json:"fullKettleHot"` // as it reads just below the boil
	KnockOut      quantity.Volume   `json:"knockOut"`
	KnockOutHot   quantity.VolumeAt `json:"knockOutHot"`
	Collected     quantity.Volume   `json:"collected"` // in the fermenter
	Packaged      quantity.Volume   `json:"packaged"`
}

// Gravities are the gravities of a brew.
type Gravities struct {
	FullKettle quantity.SG                `json:"fullKettle"`
	OG         quantity.SG                `json:"og"`
	FG         quantity.SG                `json:"fg"`
	FGRange    quantity.Span[quantity.SG] `json:"fgRange"` // over the attenuation of the yeast
	ABV        quantity.Fraction          `json:"abv"`
	Extract    quantity.Mass              `json:"extract"` // in the kettle at knock-out
}

// Grist is what to weigh.
type Grist struct {
	Mass  quantity.Mass     `json:"mass"`
	Yield quantity.Fraction `json:"yield"` // extract in the kettle over extract by the laboratory
	Lines []GrainLine       `json:"lines"`
}

// GrainLine is one grain of the grist with the lots it is taken from.
type GrainLine struct {
	Malt         string            `json:"malt"`
	Name         string            `json:"name"`
	Class        string            `json:"class"`
	Role         recipe.Role       `json:"role,omitempty"`
	In           recipe.Entry      `json:"in"`
	Share        quantity.Fraction `json:"share"` // of the mass, in this plan
	Meant        quantity.Fraction `json:"meant"` // of the mass, in the recipe
	Mass         quantity.Mass     `json:"mass"`
	ExtractShare quantity.Fraction `json:"extractShare"`
	ColorShare   quantity.Fraction `json:"colorShare"`
	Color        quantity.EBC      `json:"color"` // of the malt, mean of its lots
	Lots         []LotUse          `json:"lots"`
	Why          string            `json:"why,omitempty"`
}

// LotUse is how much of one lot goes in.
type LotUse struct {
	Lot     string            `json:"lot"` // empty: no lot, typical values
	Mass    quantity.Mass     `json:"mass"`
	Extract quantity.Fraction `json:"extract"` // as it is weighed
	Color   quantity.EBC      `json:"color"`
	Short   bool              `json:"short,omitempty"` // more than the shed holds
}

// Liquor is the brewing water.
type Liquor struct {
	Total   quantity.Volume      `json:"total"`
	Mash    quantity.Volume      `json:"mash"`              // for doughing in
	Infused quantity.Volume      `json:"infused,omitempty"` // boiling or cold water for the later rests, measured cold
	Steep   quantity.Volume      `json:"steep,omitempty"`   // for a cold steep
	Sparge  quantity.Volume      `json:"sparge"`            // without a mash: what goes straight into the kettle
	Strike  quantity.Temperature `json:"strike"`
	// SpargeAt is how hot the sparge liquor is, where there is any.
	SpargeAt quantity.Temperature `json:"spargeAt"`
	Treated  bool                 `json:"treated"`
	Soft     quantity.Volume      `json:"soft,omitempty"` // of distilled or reverse-osmosis water in the total
	Base     chem.Ions            `json:"base"`           // before the salts, with the soft water in it
	Ions     chem.Ions            `json:"ions"`           // after the salts
	Salts    []SaltDose           `json:"salts,omitempty"`
	Misses   []string             `json:"misses,omitempty"` // aims that salts can't meet
	// SpargeAcid brings the sparge liquor to a pH that is safe for the husks.
	SpargeAcid *AcidDose `json:"spargeAcid,omitempty"`
}

// SaltDose is one salt for the whole of the liquor.
type SaltDose struct {
	Salt string        `json:"salt"`
	Name string        `json:"name"`
	Mass quantity.Mass `json:"mass"`
}

// AcidDose is one acid in mL.
type AcidDose struct {
	Acid string  `json:"acid"`
	Name string  `json:"name"`
	ML   float64 `json:"ml" unit:"mL"`
}

// Mashing is how to mash.
type Mashing struct {
	Volume     quantity.Volume        `json:"volume"` // liquor and grain together, at its fullest
	Steps      []MashStep             `json:"steps"`
	Rail       *mash.Rail             `json:"rail,omitempty"` // how the pH comes about; nil: the water isn't known
	PH         quantity.PH            `json:"ph,omitempty"`
	PHSD       float64                `json:"phSD,omitempty"`
	Acid       *AcidDose              `json:"acid,omitempty"`
	Lactic     quantity.Concentration `json:"lactic,omitempty"` // lactic acid in the beer from acid in mash and sparge and from acidulated malt, at most
	AcidSafety string                 `json:"acidSafety,omitempty"`
}

// MashStep is one thing to do at the mash.
type MashStep struct {
	At          quantity.Duration    `json:"at"` // after doughing-in
	What        string               `json:"what"`
	Temperature quantity.Temperature `json:"temperature"`
	Time        quantity.Duration    `json:"time"`
}

// Boiling is how to boil.
type Boiling struct {
	Time        quantity.Duration    `json:"time"`
	Temperature quantity.Temperature `json:"temperature"`
	HeatUp      quantity.Duration    `json:"heatUp"`
	Evaporation quantity.Mass        `json:"evaporation"`
	PerHour     quantity.Mass        `json:"perHour"`
	Share       quantity.Fraction    `json:"share"` // of the full kettle, in all
	DMS         DMS                  `json:"dms"`
}

// DMS is a traffic light for dimethyl sulphide in the cold wort. The model is
// good for a light, not for a number; Assumes says what it rests on.
type DMS struct {
	Light     string                  `json:"light"`
	Wort      boil.MicrogramsPerLitre `json:"wort"` // µg/L
	High      boil.MicrogramsPerLitre `json:"high"` // with malt at the high end of what its kind brings; the light is of this
	Precursor boil.MicrogramsPerLitre `json:"precursor"`
	Assumes   string                  `json:"assumes"`
}

// Hopping is what hops to weigh and what they give.
type Hopping struct {
	Cooling string       `json:"cooling"` // the way of cooling this holds for
	Path    []PathStep   `json:"path"`
	Charges []ChargeLine `json:"charges"`
	IBU     quantity.IBU `json:"ibu"`
	SD      quantity.IBU `json:"sd"`
	Tinseth quantity.IBU `json:"tinseth"`          // the comparison: what the Tinseth formula says of the same charges
	Oil     float64      `json:"oil" unit:"mL/hL"` // of late charges and stands, without dry hops, mL/hL
	history hops.History
}

// PathStep is one stretch of the kettle's temperature from the boil on.
type PathStep struct {
	Name string               `json:"name"` // boil, cool to 80 °C, stand, rest, run-off, chill
	Time quantity.Duration    `json:"time"`
	From quantity.Temperature `json:"from"`
	To   quantity.Temperature `json:"to"`
}

// ChargeLine is one hop charge.
type ChargeLine struct {
	Hop     string            `json:"hop"`
	Meant   string            `json:"meant,omitempty"` // the hop of the recipe, where another stands in
	At      recipe.Moment     `json:"at"`
	Lots    []HopUse          `json:"lots"`
	Mass    quantity.Mass     `json:"mass"`
	Alpha   quantity.Fraction `json:"alpha"`            // now, mean of its lots
	Dose    quantity.Dose     `json:"dose"`             // per litre of its wort or beer
	Oil     float64           `json:"oil" unit:"mL/hL"` // dose of oil, mL/hL; 0 where not known
	Yield   float64           `json:"yield"`            // iso-alpha acids at the end per alpha acids dosed
	IBU     quantity.IBU      `json:"ibu"`
	Aim     quantity.IBU      `json:"aim,omitempty"` // bitterness the recipe means, if it does
	Earned  []quantity.IBU    `json:"earned"`        // by step of the path
	Tinseth quantity.IBU      `json:"tinseth"`
	Dry     bool              `json:"dry,omitempty"`
	form    hops.Form
	Why     string `json:"why,omitempty"`
}

// HopUse is how much of one lot of hops goes in.
type HopUse struct {
	Lot   string            `json:"lot"`
	Mass  quantity.Mass     `json:"mass"`
	Label quantity.Fraction `json:"label"` // alpha acids when it was packed
	Alpha quantity.Fraction `json:"alpha"` // alpha acids now
	Short bool              `json:"short,omitempty"`
}

// Cellar is what happens after the wort is cold.
type Cellar struct {
	Yeast       string                               `json:"yeast,omitempty"`
	Cells       float64                              `json:"cells" unit:"10⁹"` // 10⁹
	Dry         quantity.Mass                        `json:"dry"`              // as dry yeast
	DryRange    quantity.Span[quantity.Mass]         `json:"dryRange"`
	Temperature *quantity.Span[quantity.Temperature] `json:"temperature,omitempty"`
	CO2         quantity.Carbonation                 `json:"co2,omitempty"`
	Warmest     quantity.Temperature                 `json:"warmest"` // after fermentation: it decides the gas already there
	Residual    quantity.Carbonation                 `json:"residual,omitempty"`
	Sugar       string                               `json:"sugar,omitempty"`
	Priming     quantity.Mass                        `json:"priming,omitempty"`
	Keg         quantity.GaugePressure               `json:"keg,omitempty"`    // pressure that holds the gas at 5 °C
	Bottle      quantity.GaugePressure               `json:"bottle,omitempty"` // pressure in the bottle at 20 °C
}
