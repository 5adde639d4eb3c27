// SPDX-License-Identifier: MIT

package chart

import (
	"math"

	"gyle/quantity"
)

// The drawings of the tests are those of Ferry Brown, the example recipe of
// the Saltpan Lane Brewing Circle. The numbers are fictional.

// drawings lists every drawing with the example's data.
var drawings = []struct {
	name string
	draw func(Sheet) string
}{
	{"map", func(s Sheet) string { return BitternessGravityMap(s, demoMap) }},
	{"rule-inside", func(s Sheet) string { return RuleMark(s, demoRule(29, Inside)) }},
	{"rule-edge", func(s Sheet) string { return RuleMark(s, demoRule(33.9, Edge)) }},
	{"rule-outside", func(s Sheet) string { return RuleMark(s, demoRule(38, Outside)) }},
	{"rule-open", func(s Sheet) string { return RuleMark(s, demoOpenRule) }},
	{"water-printed", func(s Sheet) string { return WaterColumns(s, demoWaterPrinted) }},
	{"water-treated", func(s Sheet) string { return WaterColumns(s, demoWaterTreated) }},
	{"wedge", func(s Sheet) string { return ColorWedge(s, demoWedges()) }},
	{"ph", func(s Sheet) string { return PHRail(s, demoPH) }},
	{"grist", func(s Sheet) string { return GristStrips(s, demoGrists) }},
	{"ladder", func(s Sheet) string { return ChargeLadder(s, demoLadders) }},
	{"day", func(s Sheet) string { return BrewDayAxis(s, demoDay()) }},
	{"rooms", func(s Sheet) string { return RoomStrips(s, "Rooms", demoRooms) }},
	{"river", func(s Sheet) string { return River(s, demoLineage) }},
}

var demoRooms = []RoomGroup{
	{Name: "shares of the grist", Rooms: []Room{
		{Name: "crystal", Now: "6.0 %", Low: "3.0 %", High: "8.0 %", Least: 0.03, Most: 0.08, Value: 0.06},
		{Name: "dehusked roasted malt, dark", Now: "0.0 %", Low: "0.0 %", High: "2.1 %", Most: 0.021},
		{Name: "sucrose", Now: "0.0 %", Unknown: true},
	}},
	{Name: "aims", Own: true, Rooms: []Room{{Name: "original gravity", Now: "1.049", Low: "1.046", High: "1.054", Least: 1.046, Most: 1.054, Value: 1.049}}},
}

var demoMap = BitternessGravity{
	Style: &StyleArea{
		Name: "oat brown ale",
		OG:   quantity.Span[quantity.SG]{Low: 1.046, High: 1.054}, IBU: quantity.Span[quantity.IBU]{Low: 24, High: 34},
		RatioLow: 0.50, RatioHigh: 0.68,
	},
	Versions: []MapVersion{
		{Label: "1", OG: 1.0470, IBU: 27.1, OGSD: 0.0012, IBUSD: 2.3},
		{Label: "2", Parent: "1", OG: 1.050, IBU: 28.8, OGSD: 0.0012, IBUSD: 2.3},
		{Label: "3", Parent: "2", OG: 1.050, IBU: 28.8, OGSD: 0.0012, IBUSD: 2.3, Measured: &MapPoint{1.0486, 29.1}},
		{Label: "4 Boathouse", Parent: "3", OG: 1.050, IBU: 29.0, OGSD: 0.0014, IBUSD: 7.3, Measured: &MapPoint{1.0494, 30.5}},
		{Label: "5", Parent: "3", OG: 1.0535, IBU: 38, OGSD: 0.0012, IBUSD: 2.3, OutOfRule: true},
	},
}

func demoRule(ibu float64, v Verdict) Rule {
	return Rule{Name: "bitterness", Low: 24, High: 34, Value: ibu, SD: 2.3, Verdict: v,
		Format: func(x float64) string { return quantity.Printer{}.Number(x, 0) }}
}

var demoOpenRule = Rule{Name: "dry hops, g/L", Low: math.Inf(-1), High: 1, Value: 0.4, Verdict: Inside, Measured: true}

// The supply as printed, with the sulphur and the alkalinity mislabelled.
var demoWaterPrinted = Water{
	Cations: []IonBlock{{"Ca", 3.19, ""}, {"Mg", 0.74, ""}, {"Na", 0.91, ""}, {"K", 0.08, ""}},
	Anions:  []IonBlock{{"HCO3", 2.26, ""}, {"Cl", 0.96, ""}, {"SO4", 0.29, ""}, {"NO3", 0.05, ""}},
	Hint:    "Closes to +1.2 % if “bicarbonate” is alkalinity as CaCO3 and “sulfate” is SO4 as S.",
}

var demoWaterTreated = Water{
	Cations: []IonBlock{{"Ca", 3.19, ""}, {"Mg", 0.74, ""}, {"Na", 0.91, ""}, {"K", 0.08, ""}, {"Ca", 1.89, "CaCl2"}, {"Ca", 0.40, "gypsum"}},
	Anions:  []IonBlock{{"HCO3", 2.76, ""}, {"Cl", 0.96, ""}, {"SO4", 0.87, ""}, {"NO3", 0.22, ""}, {"Cl", 1.89, "CaCl2"}, {"SO4", 0.40, "gypsum"}},
}

// demoWedges is light through a brown beer: each channel fades exponentially
// with the path, as in the law of Beer and Lambert.
func demoWedges() Wedges {
	wedge := func(label string, strength float64) Wedge {
		w := Wedge{Label: label}
		for cm := 0.3; cm < 8.05; cm += 0.35 {
			fade := func(k float64) uint8 { return uint8(255 * math.Exp(-k*strength*cm)) }
			w.Stops = append(w.Stops, WedgeStop{cm, RGB{fade(0.22), fade(0.62), fade(1.6)}})
		}
		return w
	}
	return Wedges{Predicted: wedge("34.6 EBC", 1), Measured: wedge("37 EBC", 1.08)}
}

var demoPH = PHRails{
	Steps: []PHStep{{"grist alone", 5.62, 0.06}, {"plus water", 5.74, 0.05}, {"plus salts", 5.67, 0.05}, {"plus acid", 5.45, 0.05}, {"plus roast", 5.42, 0.05}},
	Aim:   &quantity.Span[quantity.PH]{Low: 5.35, High: 5.50},
	Measured: []PHPin{
		{"at 10 min", 5.56, true}, {"at 25 min", 5.46, false}},
}

// demoGrist is a grist by shares of the mass: pale, oats, Munich, crystal,
// brown, chocolate. Extract is mass × as-is yield, colour is mass × EBC.
func demoGrist(label string, shares [6]float64, changes [6]string) GristVersion {
	v := GristVersion{Label: label}
	for i, malt := range []struct {
		name       string
		yield, ebc float64
		swatch     RGB
	}{
		{"pale ale malt", 78.2, 6, RGB{232, 201, 140}}, {"flaked oats", 66.4, 3, RGB{240, 228, 200}},
		{"Munich malt", 77.1, 16, RGB{214, 160, 84}}, {"crystal 150", 73.6, 150, RGB{160, 76, 30}},
		{"brown malt", 71.8, 140, RGB{120, 72, 40}}, {"chocolate malt", 70.1, 900, RGB{46, 26, 18}},
	} {
		v.Parts = append(v.Parts, GristPart{malt.name, shares[i], shares[i] * malt.yield, shares[i] * malt.ebc, malt.swatch, changes[i]})
	}
	return v
}

var demoGrists = Grists{Versions: []GristVersion{
	demoGrist("version 1", [6]float64{69.5, 8, 10, 6, 3, 3.5}, [6]string{}),
	demoGrist("version 2", [6]float64{65.5, 12, 10, 6, 3, 3.5}, [6]string{1: "8 → 12 %"}),
	demoGrist("version 3", [6]float64{65.3, 12, 10, 6, 3, 3.7}, [6]string{5: "3.5 → 3.7 %, last 15 min"}),
}}

var demoLadders = Ladders{Houses: []LadderHouse{
	{"Garage", []LadderCharge{
		{"Challenger", quantity.Grams(37.5), 0, []LadderStage{{"boil", 60, 27.3}, {"cool", 5.5, 0.5}, {"stand", 20, 0.2}, {"chill", 14, 0}}},
		{"Bramling Cross", quantity.Grams(30), 65.5, []LadderStage{{"stand", 20, 1.0}, {"chill", 14, 0.1}}},
	}},
	{"Boathouse", []LadderCharge{
		{"Northdown", quantity.Grams(123), 0, []LadderStage{{"boil", 60, 24.1}, {"cool", 5.5, 0.9}, {"stand", 20, 0.6}, {"run-off", 40, 0.8}}},
		{"Bramling Cross", quantity.Grams(161), 65.5, []LadderStage{{"stand", 20, 1.5}, {"run-off", 40, 1.1}}},
	}},
}}

// demoDay is the brew day of version 3 in the garage.
func demoDay() BrewDay {
	now := quantity.Duration(96)
	c := quantity.Celsius
	return BrewDay{
		Course: []BrewPoint{{0, c(67), 0}, {62, c(67), 0}, {66, c(74), 0}, {88, c(76), 0}, {105, c(100), 1}, {180, c(100), 0.8}, {184, c(85), 0.2},
			{190, c(55), 0}, {208, c(20), 0}},
		Tasks: []BrewTask{
			{0, "Dough in, 16.5 L of liquor at 72.8 °C", "67.0 °C", "65.7 °C", "element on 46 s → 67.0 °C"},
			{10, "pH of a cooled sample", "5.45", "5.56", "+1.8 mL lactic"},
			{25, "pH again", "", "5.46", ""},
			{45, "Chocolate malt in, 0.18 kg", "5.42", "5.43", ""},
			{62, "Basket up, sparge", "12.3 L", "", "13.1 L poured"},
			{90, "Full kettle", "25.6 L hot, 1.0447", "26.4 L at 95 °C, 1.0425", "boil 75 min"},
			{105, "Boil", "", "", ""},
			{120, "Challenger", "60 min", "", ""},
			{170, "Bramling Cross", "10 min", "", ""},
			{180, "Knock out", "22.15 L, 1.0488", "", ""},
			{208, "Pitch 18 g of dry yeast", "20.0 °C", "", ""},
		},
		Charges: []BrewCharge{{120, "Challenger", quantity.Grams(35)}, {170, "Bramling Cross", quantity.Grams(20)}},
		Now:     &now,
	}
}

var demoLineage = Lineage{Versions: []RiverVersion{
	{Label: "1", Brews: 3},
	{Label: "2", Parent: "1", Change: "more oats, 8 to 12 %: “thin”", Brews: 2,
		Panel: &Panel{Right: 6, Of: 14, Guess: 1. / 3, Verdict: "not shown (p 0.31)"}},
	{Label: "3", Parent: "2", Change: "chocolate malt in the last 15 min: “roast sharp”", Brews: 5,
		Panel: &Panel{Right: 11, Of: 18, Guess: 1. / 3, Interval: &quantity.Span[quantity.Fraction]{Low: 0.39, High: 0.80}, Verdict: "difference shown (p 0.014)"}},
	{Label: "2a", Parent: "2", Change: "malted oats for flaked", Brews: 1},
	{Label: "4", Parent: "3", Change: "Bramling Cross at 80 °C: “hop too cooked, want currant”", Brews: 1},
	{Label: "5", Parent: "3", Change: "Northdown for Challenger"},
}}
