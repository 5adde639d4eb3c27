// SPDX-License-Identifier: MIT

package gyle

import (
	"gyle/internal/document"
	"gyle/quantity"
)

// Kind is the first key of a gyle document: "gyle: gyle/1".
const Kind = "gyle"

// Gyle is one brewing.
type Gyle struct {
	Name        string       `gyle:"name,required"`
	Number      int          `gyle:"number"` // in the brewer's own counting
	Date        Date         `gyle:"date"`   // of the brew day
	Brewer      string       `gyle:"brewer"`
	Recipe      Ref          `gyle:"recipe,flow"`
	House       string       `gyle:"house"` // ids of documents
	Stock       string       `gyle:"stock"`
	Water       string       `gyle:"water"`
	Style       string       `gyle:"style"`
	Vessels     []Vessel     `gyle:"vessels,flow"`
	Instruments []Instrument `gyle:"instruments,flow"`
	Plan        *Plan        `gyle:"plan"`
	Log         Log          `gyle:"log"`
	Note        string       `gyle:"note"`
}

// Ref points at one version of a recipe.
type Ref struct {
	ID      string `gyle:"id"`
	Version int    `gyle:"version"`
}

// Vessel is a vessel that the brewing occupies.
type Vessel struct {
	Name   string                  `gyle:"name,required"` // "fermenter 1"
	For    string                  `gyle:"for"`           // mash, kettle, fermenter, keg, bottles
	Holds  *quantity.Volume        `gyle:"holds"`
	Relief *quantity.GaugePressure `gyle:"relief"` // rating of its relief valve
	Free   Date                    `gyle:"free"`   // day on which it is expected to be empty again
}

// Instrument is what readings were taken with. A reading names it.
type Instrument struct {
	Name string `gyle:"name,required"`
	Of   Of     `gyle:"of,required"`
	// SD is the standard deviation of one careful reading, with its unit where
	// the quantity has one: "0.0005" for a gravity, "0.2 L", "0.3 K".
	SD string `gyle:"sd"`
	// At is the temperature at which a hydrometer reads right; zero: 20 °C.
	At     quantity.Temperature `gyle:"at"`
	Factor *float64             `gyle:"factor"` // of a refractometer: °Bx read over °P of the wort
	Note   string               `gyle:"note"`
}

// Find returns the instrument of a name.
func (g *Gyle) Find(instrument string) (Instrument, bool) {
	for _, i := range g.Instruments {
		if i.Name == instrument {
			return i, true
		}
	}
	return Instrument{}, false
}

// Parse reads a gyle document. The error is document.Faults: every fault with
// its position.
func Parse(file string, text []byte) (*Gyle, error) {
	g := new(Gyle)
	if _, err := document.Unmarshal(file, text, Kind, g); err != nil {
		return nil, err
	}
	return g, nil
}

// Text returns the canonical text of g. The entries of the log keep their order.
func (g *Gyle) Text() ([]byte, error) { return document.Marshal(Kind, g) }
