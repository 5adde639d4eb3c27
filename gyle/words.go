// SPDX-License-Identifier: MIT

package gyle

import (
	"fmt"
	"slices"
	"strings"

	"gyle/internal/document"
	"gyle/quantity"
)

// Of is what a reading is of.
type Of string

// What can be read.
const (
	OfVolume        Of = "volume"        // L, with the temperature of the liquid
	OfGravity       Of = "gravity"       // by hydrometer or density meter: SG or °P
	OfRefractometer Of = "refractometer" // °Bx, raw
	OfTemperature   Of = "temperature"
	OfPH            Of = "ph"
	OfMass          Of = "mass"
	OfPressure      Of = "pressure"    // on the gauge
	OfEvaporation   Of = "evaporation" // kg/h
	OfTime          Of = "time"        // how long something took
	OfBitterness    Of = "bitterness"  // by a laboratory
	OfColor         Of = "color"       // by a laboratory or photometer
	OfCO2           Of = "co2"         // dissolved
	OfPower         Of = "power"       // drawn by the element
)

// Readables returns all that can be read.
func Readables() []Of {
	return []Of{OfVolume, OfGravity, OfRefractometer, OfTemperature, OfPH, OfMass, OfPressure, OfEvaporation, OfTime, OfBitterness, OfColor, OfCO2, OfPower}
}

var ofWords = vocabulary[Of]{Readables(), map[string]Of{"colour": OfColor, "sg": OfGravity, "brix": OfRefractometer}, "nothing that is read"}

// UnmarshalText reads what a reading is of.
func (o *Of) UnmarshalText(b []byte) error {
	return ofWords.read(o, b)
}

// MarshalText writes o.
func (o Of) MarshalText() ([]byte, error) { return []byte(o), nil }

// Place is where, or at which stage, a reading was taken.
type Place string

// The places, in the order of the brewing.
const (
	AtRoom         Place = "room"
	AtGrain        Place = "grain"
	AtLiquor       Place = "liquor"
	AtStrike       Place = "strike" // of the liquor just before the grain goes in
	AtMash         Place = "mash"
	AtFirstWort    Place = "first runnings"
	AtLastRunnings Place = "last runnings"
	AtFullKettle   Place = "full kettle"
	AtBoil         Place = "boil"
	AtKnockOut     Place = "knock-out"
	AtStand        Place = "stand"
	AtCooling      Place = "cooling" // kettle or run-off between knock-out and cold
	AtFermenter    Place = "fermenter"
	AtForcedTest   Place = "forced test"
	AtPackage      Place = "package"
)

// Places returns all places in the order of the brewing.
func Places() []Place {
	return []Place{AtRoom, AtGrain, AtLiquor, AtStrike, AtMash, AtFirstWort, AtLastRunnings, AtFullKettle, AtBoil, AtKnockOut, AtStand, AtCooling, AtFermenter, AtForcedTest, AtPackage}
}

var placeWords = vocabulary[Place]{Places(), map[string]Place{"knock out": AtKnockOut, "kettle": AtFullKettle}, "no place of a brewing"}

// UnmarshalText reads a place.
func (p *Place) UnmarshalText(b []byte) error {
	return placeWords.read(p, b)
}

// MarshalText writes p.
func (p Place) MarshalText() ([]byte, error) { return []byte(p), nil }

// Do is a kind of deed.
type Do string

// The deeds, in the order of the brewing.
const (
	Weighed     Do = "weighed"
	Crushed     Do = "crushed"
	SaltsIn     Do = "salts in"
	LiquorIn    Do = "liquor in" // for the mash, or into it
	HeatOn      Do = "heat on"
	HeatOff     Do = "heat off"
	GrainIn     Do = "grain in"
	AcidIn      Do = "acid in"
	RunOffStart Do = "run-off" // or the basket is lifted
	Sparged     Do = "sparge"
	KettleFull  Do = "kettle full"
	WaterIn     Do = "water in"   // into kettle or fermenter
	ExtractIn   Do = "extract in" // or sugar, into the kettle
	WortAway    Do = "wort away"  // drawn off and not used
	BoilStart   Do = "boil start"
	HopsIn      Do = "hops in"
	HopsOut     Do = "hops out" // a bag is lifted
	KnockOut    Do = "knock-out"
	CoolerOn    Do = "cooler on"
	CoolerOff   Do = "cooler off"
	StandStart  Do = "stand start"
	StandEnd    Do = "stand end"
	Transfer    Do = "transfer"
	Aerated     Do = "aerated"
	Pitched     Do = "pitch"
	Set         Do = "set" // the temperature or pressure of a vessel
	Roused      Do = "rouse"
	DryHops     Do = "dry hops"
	Primed      Do = "prime"
	Packaged    Do = "package"
)

// Deeds returns all deeds in the order of the brewing.
func Deeds() []Do {
	return []Do{Weighed, Crushed, SaltsIn, LiquorIn, HeatOn, HeatOff, GrainIn, AcidIn, RunOffStart, Sparged, KettleFull, WaterIn, ExtractIn, WortAway, BoilStart, HopsIn, HopsOut, KnockOut, CoolerOn, CoolerOff, StandStart, StandEnd, Transfer, Aerated, Pitched, Set, Roused, DryHops, Primed, Packaged}
}

var deedWords = vocabulary[Do]{Deeds(), map[string]Do{"dough-in": GrainIn, "pitched": Pitched, "cooling on": CoolerOn}, "no deed of a brewing"}

// UnmarshalText reads a deed.
func (d *Do) UnmarshalText(b []byte) error {
	return deedWords.read(d, b)
}

// MarshalText writes d.
func (d Do) MarshalText() ([]byte, error) { return []byte(d), nil }

// vocabulary is a list of words, with others that mean one of them. What is none
// of them is said to be none.
type vocabulary[T ~string] struct {
	known []T
	also  map[string]T
	none  string
}

// read reads one word, in capitals or not.
func (v *vocabulary[T]) read(into *T, b []byte) error {
	if i := slices.Index(v.known, T(b)); i >= 0 { // as the program writes it
		*into = v.known[i]
		return nil
	}
	s := strings.ToLower(strings.Join(strings.Fields(string(b)), " "))
	if word, found := v.also[s]; found {
		*into = word
		return nil
	}
	if slices.Contains(v.known, T(s)) {
		*into = T(s)
		return nil
	}
	names := make([]string, len(v.known))
	for i, k := range v.known {
		names[i] = string(k)
	}
	hint := "write one of " + strings.Join(names, ", ")
	if near, ok := document.Nearest(s, names); ok {
		hint = fmt.Sprintf("did you mean %s?", near)
	}
	return &quantity.ParseError{Text: s, Msg: fmt.Sprintf("%q is %s", s, v.none), Hint: hint}
}
