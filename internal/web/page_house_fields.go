// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/http"

	"gyle/internal/document"
)

// houseFields shows the form of a house.
func (s *Server) houseFields(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	draft, err := document.OpenDraft([]byte(d.Text))
	if err != nil {
		return seeOther(w, r, d.Path()+"/text")
	}
	form := houseForm(d, d.Revision, draft.Len("cooling"))
	form.fill(draft)
	form.Author = handOf(r).Author
	return s.showForm(w, r, http.StatusOK, d, form)
}

var coolingKeys = []string{"name", "tau", "water", "settle", "run-off"}

func (s *Server) saveHouseFields(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	base, draft, err := s.openForm(r, d)
	if err != nil {
		return err
	}
	form := houseForm(d, base, packRows(r.PostForm, "cooling", coolingKeys...))
	form.fillTyped(r.PostForm)
	draft.Remove("cooling")
	if err := form.apply(draft); err != nil {
		return err
	}
	if draft.Len("cooling") == 0 {
		err = errors.Join(draft.SetList("cooling", []string{"x"}))
		draft.Remove("cooling[0]") // an empty list: the house says what it lacks
	}
	if err != nil {
		return err
	}
	return s.saveForm(w, r, d, form, draft, "")
}

func houseForm(d Document, base, ways int) docForm {
	return docForm{
		Title: d.Title, Action: d.Path() + "/edit", Back: d.Path(), Base: base,
		Groups: []formGroup{
			houseNameFields(), mashFields(), kettleFields(), coolingFields(ways), fermenterFields(), bitternessFields(),
			{Title: "Besides", Fields: []formField{{Path: "energy", Label: "Price of energy", Hint: "What a kilowatt-hour costs: 0.35 €/kWh."}, {Path: "note", Label: "Note", Area: true}}},
		},
	}
}

func houseNameFields() formGroup {
	return formGroup{Title: "The house", Fields: []formField{
		{Path: "name", Label: "Name"},
		{Path: "by", Label: "Written by"},
		{Path: "usual", Label: "Usual brew", Unit: "L", Hint: "Cold wort collected for fermentation on an ordinary day."},
		{Path: "altitude", Label: "Height above the sea", Unit: "m", Hint: "Wort boils about 1 K cooler for every 300 m."},
	}}
}

func mashFields() formGroup {
	return formGroup{Title: "Mash", About: "Give either the yield you have measured, or the conversion; not both.", Fields: []formField{
		{Path: "mash.vessel", Label: "Vessel holds", Unit: "L", Hint: "To the brim, grain and water together."},
		{Path: "mash.yield", Label: "Yield", Unit: "%", Hint: "Extract in the kettle over extract by the laboratory, with its scatter: 76 ± 2 %. Usual at home: 65 to 85 %."},
		{Path: "mash.conversion", Label: "Conversion", Unit: "%", Hint: "Share of the laboratory's extract that dissolves, if you haven't measured the yield. Usual: 93 to 98 %."},
		{Path: "mash.sparge", Label: "Sparge", Options: []formChoice{
			{"", "not said"}, {"fly", "fly: water trickles through"}, {"batch", "batch: filled up once"}, {"twice", "twice: filled up two times"}, {"none", "none: all water in the mash"}}},
		{Path: "mash.absorption", Label: "Grain holds back", Unit: "L/kg", Hint: "Water in less wort out, per kilo of grist. Usual: 0.7 for a sparged bed, 0.8 to 1.0 for a basket or bag."},
		{Path: "mash.dead", Label: "Can't be drained", Unit: "L", Hint: "Wort that stays under the false bottom and in hoses."},
		{Path: "mash.heat capacity", Label: "Heat the vessel takes up", Unit: "kJ/K", Hint: "Half a kilojoule for each kilo of steel, times the kelvins it warms: a 10 kg vessel has 5 kJ/K."},
		{Path: "mash.preheated", Label: "Vessel is as hot as the liquor", Options: []formChoice{{"", "no"}, {"yes", "yes"}}},
		{Path: "mash.grain", Label: "Grain temperature", Unit: "°C", Hint: "As it lies in the shed: it moves the strike temperature by a tenth for each degree."},
		{Path: "mash.power", Label: "Heat for the mash", Unit: "kW", Hint: "What reaches the mash. Leave empty if it can't be heated."},
		{Path: "mash.ph offset", Label: "pH offset", Hint: "Measured less predicted, as learned here: 0.05."},
	}}
}

func kettleFields() formGroup {
	return formGroup{Title: "Kettle", About: "Evaporation is worked out from the heat: power times efficiency, less what is lost to the room.",
		Care: "Mains near water and gas lines: licensed practice and the local code, whatever is written here.",
		Fields: []formField{
			{Path: "kettle.vessel", Label: "Vessel holds", Unit: "L", Hint: "Hot, to the brim. Leave head room for foam."},
			{Path: "kettle.loss", Label: "Stays behind", Unit: "L", Hint: "Cold wort left with break and hops: 1 to 3 L at home."},
			{Path: "kettle.power", Label: "Power", Unit: "kW", Hint: "As the plate on the heater says."},
			{Path: "kettle.efficiency", Label: "Efficiency", Unit: "%", Hint: "What reaches the wort: elements in the wort 100 %, induction 85 to 90 %, gas 35 to 60 %."},
			{Path: "kettle.heat loss", Label: "Lost to the room", Unit: "kW", Hint: "While it boils. An open kettle of 30 to 50 L: 0.3 to 0.7 kW."},
			{Path: "kettle.boils at", Label: "Boils at, measured", Unit: "°C", Hint: "With a thermometer you trust. Left empty it follows from the height above the sea."},
			{Path: "kettle.boil", Label: "Shortest boil", Unit: "min", Hint: "Usual: 60 to 90 min."},
			{Path: "kettle.cools", Label: "Time constant left alone", Unit: "min", Hint: "In this time the distance to room temperature falls to 37 %. An open 25 L kettle 90 to 140, a covered 100 L one 300."},
			{Path: "kettle.room", Label: "Room", Unit: "°C"},
			{Path: "kettle.open", Label: "Lid during stands", Options: []formChoice{{"", "on"}, {"yes", "off: vapour leaves"}}},
		}}
}

func coolingFields(ways int) formGroup {
	g := formGroup{Title: "Ways of cooling", Across: 5, About: "The first is the usual one. A coil cools the whole kettle with a time constant (from boiling to half-way " +
		"in 0.7 of it). A cooler that the kettle runs off through has a run-off time. Recirculation has both."}
	for i := range ways + 1 {
		n := fmt.Sprintf(" %d", i+1)
		g.Fields = append(g.Fields,
			formField{Path: rowPath("cooling", i, "name"), Label: "Way" + n},
			formField{Path: rowPath("cooling", i, "tau"), Label: "Time constant" + n, Unit: "min"},
			formField{Path: rowPath("cooling", i, "water"), Label: "Coolant" + n, Unit: "°C"},
			formField{Path: rowPath("cooling", i, "settle"), Label: "Rest" + n, Unit: "min"},
			formField{Path: rowPath("cooling", i, "run-off"), Label: "Run-off" + n, Unit: "min"})
	}
	return g
}

func fermenterFields() formGroup {
	return formGroup{Title: "Fermenter", Care: "Pressure belongs only into a vessel that is rated and tested for it, with a relief valve that nobody blocks; follow the local code.",
		Fields: []formField{
			{Path: "fermenter.vessel", Label: "Vessel holds", Unit: "L"},
			{Path: "fermenter.loss", Label: "Stays behind", Unit: "L", Hint: "Beer left with yeast and hops: 1 to 2 L at home."},
			{Path: "fermenter.relief", Label: "Relief valve opens at", Unit: "bar", Hint: "As stamped on the valve. Leave empty if there is none."},
			{Path: "fermenter.ferments", Label: "Days until the gravity has stood still", Hint: "At least and at most: 7..10 d. The calendar keeps a fermenter for the most."},
			{Path: "fermenter.chill", Label: "Days in the cold", Unit: "d", Hint: "Before packaging. Left empty: 2."},
		}}
}

func bitternessFields() formGroup {
	return formGroup{Title: "Bitterness", Fields: []formField{
		{Path: "bitterness.kept", Label: "Kept, R", Unit: "%", Hint: "What break, yeast and filter leave of the iso-alpha acids: 49 % is usual at home."},
		{Path: "bitterness.house factor", Label: "House factor, K", Hint: "Measured over predicted bitterness, with its doubt: 0.94 ± 0.08. Without a laboratory value: 1.00 ± 0.25."},
		{Path: "bitterness.form", Label: "Hops as, where a lot doesn't say", Options: []formChoice{{"", "not said"}, {"pellets", "pellets"}, {"cones", "cones"}, {"bag", "in a bag"}}},
	}}
}
