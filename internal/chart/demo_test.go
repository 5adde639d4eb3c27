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
}

var demoMap = BitternessGravity{
	Style: &StyleArea{
		Name: "oat brown ale",
		OG:   quantity.Span[quantity.SG]{Low: 1.046, High: 1.054}, IBU: quantity.Span[quantity.IBU]{Low: 24, High: 34},
		RatioLow: 0.50, RatioHi: 0.68,
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
