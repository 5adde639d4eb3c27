// SPDX-License-Identifier: MIT

package brewhouse

import (
	"gyle/internal/document"
	"gyle/quantity"
)

// Kind is the first key of a brewhouse document: "gyle: brewhouse/1".
const Kind = "brewhouse"

// House is one brewhouse.
type House struct {
	Name       string           `gyle:"name,required"`
	By         string           `gyle:"by"`
	Usual      *quantity.Volume `gyle:"usual"`    // collected wort of an ordinary brew
	Altitude   quantity.Length  `gyle:"altitude"` // above the sea
	Mash       Mash             `gyle:"mash,required"`
	Kettle     Kettle           `gyle:"kettle,required"`
	Cooling    []Cooling        `gyle:"cooling,required"` // the first is the usual one
	Fermenter  Fermenter        `gyle:"fermenter"`
	Bitterness Bitterness       `gyle:"bitterness"`
	Energy     string           `gyle:"energy"` // price of a kilowatt-hour: "0.35 €/kWh"
	Note       string           `gyle:"note"`
}

// Mash is the mash vessel and what comes of the grist in it. The extract that
// reaches the kettle is either measured (Yield) or follows from the physics of
// run-off and sparge (Conversion and Layers).
type Mash struct {
	Vessel       *quantity.Volume           `gyle:"vessel"`     // most it can hold
	Absorption   quantity.Ratio             `gyle:"absorption"` // water in less wort out, per kg of grist
	Dead         quantity.Volume            `gyle:"dead"`       // wort that can't be drained
	Yield        *quantity.FractionEstimate `gyle:"yield"`      // extract in the kettle over extract by the laboratory
	Conversion   *quantity.Fraction         `gyle:"conversion"` // share of the laboratory extract that dissolves
	Sparge       string                     `gyle:"sparge"`     // fly, batch, twice or none
	HeatCapacity quantity.HeatCapacity      `gyle:"heat capacity"`
	Preheated    bool                       `gyle:"preheated"` // the vessel is as hot as the liquor
	Grain        quantity.Temperature       `gyle:"grain"`     // usual temperature of the grain
	Power        *quantity.Power            `gyle:"power"`     // heat that reaches the mash; absent: it cannot be heated
	PHOffset     float64                    `gyle:"ph offset"` // measured less predicted, learned here
}

// Kettle is the copper: where wort boils.
type Kettle struct {
	Vessel     *quantity.Volume      `gyle:"vessel"` // most it can hold, hot
	Loss       quantity.Volume       `gyle:"loss"`   // wort left behind with trub and hops, cold
	Power      quantity.Power        `gyle:"power,required"`
	Efficiency quantity.Fraction     `gyle:"efficiency,required"` // share of the power that reaches the wort
	HeatLoss   quantity.Power        `gyle:"heat loss"`           // given to the room while boiling
	BoilsAt    *quantity.Temperature `gyle:"boils at"`            // measured; absent: from altitude and extract
	Boil       quantity.Duration     `gyle:"boil"`                // shortest boil it is given
	Cools      quantity.Duration     `gyle:"cools"`               // time constant of its cooling when left alone
	Room       quantity.Temperature  `gyle:"room"`
	Open       bool                  `gyle:"open"` // vapour leaves during stands, too
}

// Cooling is one way from knock-out to pitching temperature.
type Cooling struct {
	Name   string               `gyle:"name,required"`
	Tau    *quantity.Duration   `gyle:"tau"`     // cools the whole kettle with this time constant; absent: it can't
	Water  quantity.Temperature `gyle:"water"`   // of the coolant
	Settle quantity.Duration    `gyle:"settle"`  // rest before run-off
	RunOff quantity.Duration    `gyle:"run-off"` // the kettle empties through a cooler in this time; none: it is cooled as a whole
}

// Fermenter is where the beer ferments and what it leaves behind.
type Fermenter struct {
	Vessel *quantity.Volume        `gyle:"vessel"`
	Loss   quantity.Volume         `gyle:"loss"`   // left with yeast and hops
	Relief *quantity.GaugePressure `gyle:"relief"` // rating of its relief valve
	Names  []string                `gyle:"names"`  // of the vessels, where there are several alike
	// Ferments is how long beers take here from pitching until their gravity has
	// stood still; absent: what package calendar reckons with.
	Ferments *quantity.Span[quantity.Duration] `gyle:"ferments"`
	Chill    *quantity.Duration                `gyle:"chill"` // in the cold before packaging
}

// Bitterness holds the constants that lead from iso-alpha acids in the kettle
// to bitterness in the beer.
type Bitterness struct {
	R    quantity.Fraction `gyle:"kept"`         // loss factor R: what break, yeast and filter leave
	K    quantity.Estimate `gyle:"house factor"` // measured over predicted
	Form string            `gyle:"form"`         // pellets, cones or bag, where a lot doesn't say
}

// Parse reads a brewhouse document. The error is document.Faults.
func Parse(file string, text []byte) (*House, error) {
	h := new(House)
	if _, err := document.Unmarshal(file, text, Kind, h); err != nil {
		return nil, err
	}
	return h, nil
}

// Text returns the canonical text of h.
func (h *House) Text() ([]byte, error) { return document.Marshal(Kind, h) }
