// SPDX-License-Identifier: MIT

package web

import (
	"net/http"

	"gyle/brewhouse"
	"gyle/quantity"
	"gyle/science/boil"
	"gyle/science/gravity"
	"gyle/science/hops"
)

// houseBody is a house as a sheet: what it holds, what it yields, how it heats
// and cools.
type houseBody struct {
	Document Document
	House    *brewhouse.House
	Boil     houseBoil
	Cooling  []coolingWay
	NoLab    bool // no laboratory value stands behind the house factor
}

// exampleOG is the wort that the figures of a house are worked out for.
const exampleOG quantity.SG = 1.050

// usualCollected is the brew of a house that doesn't say what it usually
// makes. Common practice.
const usualCollected quantity.Volume = 20

// Where the boil is worked out from and what stands in for what a house leaves
// out. Common practice.
const (
	usualBoilTime  quantity.Duration = 60
	usualKettleTau quantity.Duration = 120
	usualKept      quantity.Fraction = 0.49
)

var (
	afterRunOff  = quantity.Celsius(72)
	pitchingCold = quantity.Celsius(20)
	usualRoom    = quantity.Celsius(20)
	standWarmth  = quantity.Celsius(80) // at which aroma hops stand, and bitterness hardly forms
)

// houseBoil is how the kettle of a house boils, worked out for an ordinary
// brew.
type houseBoil struct {
	Wort      quantity.Volume      `json:"wort"` // collected
	OG        quantity.SG          `json:"og"`
	KnockOut  quantity.Volume      `json:"knockOut"`
	Full      quantity.Volume      `json:"fullKettle"`
	Time      quantity.Duration    `json:"time"`
	BoilsAt   quantity.Temperature `json:"boilsAt"`
	Measured  bool                 `json:"boilsAtMeasured"`
	PerHour   quantity.Mass        `json:"evaporationPerHour"`
	Share     quantity.Fraction    `json:"evaporationShare"` // of the full kettle, in an hour
	HeatFrom  quantity.Temperature `json:"heatFrom"`
	HeatUp    quantity.Duration    `json:"heatUp"`
	Weak      bool                 `json:"weak"` // too little evaporates in all for the smell of cooked maize to leave
	InAll     quantity.Fraction    `json:"evaporationInAll"`
	Reaches   quantity.Power       `json:"powerThatReaches"`
	LeftToDry quantity.Power       `json:"powerThatEvaporates"`
}

// weakBoil is the share that a boil should evaporate in all to drive out
// dimethyl sulphide. Common practice.
const weakBoil quantity.Fraction = 0.05

// boilOf works out how a house boils.
func boilOf(h *brewhouse.House) houseBoil {
	k := h.Kettle
	b := houseBoil{Wort: usualCollected, OG: exampleOG, Time: usualBoilTime, HeatFrom: afterRunOff}
	if h.Usual != nil {
		b.Wort = *h.Usual
	}
	if k.Boil > 0 {
		b.Time = k.Boil
	}
	b.BoilsAt, b.Measured = boil.BoilingTemperature(h.Altitude, gravity.PlatoFromSG(b.OG)), k.BoilsAt != nil
	if b.Measured {
		b.BoilsAt = *k.BoilsAt
	}
	flow := boil.Evaporation(k.Power, k.Efficiency, k.HeatLoss, b.BoilsAt)
	b.KnockOut = b.Wort + k.Loss
	steam := boil.Evaporated(flow, b.Time)
	mass := gravity.WortMass(b.KnockOut, b.OG) + steam
	extract := gravity.ExtractMass(b.KnockOut, b.OG)
	plato := quantity.Plato(100 * float64(extract) / float64(mass))
	b.Full = gravity.WortVolume(mass, gravity.SGFromPlato(plato))
	b.PerHour = boil.Evaporated(flow, quantity.Duration(60))
	b.Share, b.InAll = quantity.Fraction(b.PerHour/mass), quantity.Fraction(steam/mass)
	b.Weak = b.InAll < weakBoil
	b.HeatUp = boil.HeatUpTime(mass, plato, b.HeatFrom, b.BoilsAt, k.Power, k.Efficiency, k.HeatLoss)
	b.Reaches = quantity.Power(float64(k.Power) * float64(k.Efficiency))
	b.LeftToDry = b.Reaches - k.HeatLoss
	return b
}

func (s *Server) house(w http.ResponseWriter, r *http.Request) error {
	asJSON := asksJSON(r)
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	h, err := parsed(s, d.Slug, d.Text, brewhouse.Parse)
	if err != nil || d.Deleted {
		return s.document(w, r)
	}
	boiling := boilOf(h)
	body := houseBody{
		Document: d, House: h, Boil: boiling, Cooling: coolingWays(h, boiling.BoilsAt, handOf(r).printer()),
		NoLab: noLab(h.Bitterness.K),
	}
	if asJSON {
		return sendDocumentJSON(w, h, houseComputed{boiling, body.Cooling, h.Bitterness.K, !body.NoLab})
	}
	return s.show(w, r, http.StatusOK, "page_house", Sheet{Title: d.Title, Chapter: d.Kind, Folio: folio(d), Notice: savedNotice(r, d), Body: body})
}

// houseComputed is what the sheet works out, for programs.
type houseComputed struct {
	Boil         houseBoil         `json:"boil"`
	Cooling      []coolingWay      `json:"cooling"`
	HouseFactor  quantity.Estimate `json:"houseFactor"`
	FromMeasured bool              `json:"houseFactorMeasured"`
}

// noLab reports whether a house factor is still what is known of any house.
func noLab(k quantity.Estimate) bool { return k.Value == 0 || k.SD >= hops.HousePrior.SD }

// Factor is the house factor, or what is known of any house.
func (b houseBody) Factor() quantity.Estimate {
	if b.House.Bitterness.K.Value == 0 {
		return hops.HousePrior
	}
	return b.House.Bitterness.K
}

// Kept is the loss factor R, or what is usual.
func (b houseBody) Kept() quantity.Fraction {
	if b.House.Bitterness.R == 0 {
		return usualKept
	}
	return b.House.Bitterness.R
}

// Gas reports whether the heat that reaches the wort is so small a share that a
// flame must make it.
func (b houseBody) Gas() bool { return b.House.Kettle.Efficiency <= boil.GasEfficiency.High }

// FactorText prints the house factor with its doubt.
func (b houseBody) FactorText(p quantity.Printer) string {
	k := b.Factor()
	return p.Number(k.Value, 2) + " ± " + p.Number(k.SD, 2)
}

// YieldText prints the yield with its scatter, where that is known.
func (b houseBody) YieldText(p quantity.Printer) string {
	y := b.House.Mash.Yield
	if y.SD == 0 {
		return p.Fraction(y.Value, 0)
	}
	return p.Number(y.Value.Percent(), 0) + " ± " + p.Fraction(y.SD, 0)
}

// PerHour prints what evaporates in an hour.
func (b houseBody) PerHour(p quantity.Printer) string { return p.Mass(b.Boil.PerHour) + "/h" }

// Stand is the warmth under which hardly any bitterness is made.
func (houseBody) Stand() quantity.Temperature { return standWarmth }
