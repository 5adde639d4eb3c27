// SPDX-License-Identifier: MIT

package quantity

import (
	"fmt"
	"strings"
)

var fractionKind = linear(kind[Fraction]{
	what:  "a share",
	units: []unit[Fraction]{{"%|percent|per cent|pct|% vol|% v/v|% w/w|% ABV", percentOf}},
	text:  func(f Fraction) string { return percentText(float64(f)) },
})

// PerMinute returns the rate of n times a minute.
func PerMinute(n float64) Rate { return Rate(n) }

var rateKind = linear(kind[Rate]{
	what: "a rate",
	units: []unit[Rate]{
		{"/min|1/min|per min|per minute|min⁻¹", times[Rate](1)},
		{"/h|1/h|per h|per hour|/hr|h⁻¹", per[Rate](60)},
		{"/s|1/s|per s|per second|s⁻¹", times[Rate](60)},
		{"/d|1/d|per d|per day|/day|d⁻¹", per[Rate](24 * 60)},
	},
	text: plain[Rate](" /min"),
})

var concentrationKind = linear(kind[Concentration]{
	what: "a concentration",
	units: []unit[Concentration]{
		{"mg/L|ppm|mg/litre|mg/liter|mg/dm3|g/m3", times[Concentration](1)},
		{"g/L", times[Concentration](1000)},
		{"µg/L|ug/L|mcg/L|ppb", per[Concentration](1000)},
	},
	text: plain[Concentration](" mg/L"),
})

// Masses that make one equivalent of charge.
const (
	calciumCarbonatePerEquivalent = 50.043 // mg/mEq: molar mass 100.087, two charges
	germanDegreesPerEquivalent    = 2.8039 // °dH/(mEq/L): 10 mg/L CaO each, molar mass 56.077, two charges
)

var chargeKind = linear(kind[Charge]{
	what: "a charge or alkalinity",
	units: []unit[Charge]{
		{"mEq/L|meq/litre|mmol(eq)/L|mval/L", times[Charge](1)},
		{"mg/L CaCO3|mg/L as CaCO3|ppm CaCO3|ppm as CaCO3", per[Charge](calciumCarbonatePerEquivalent)},
		{"°dH|dH|dKH", per[Charge](germanDegreesPerEquivalent)},
	},
	refused: []refusal{{"mg/L|ppm", choose("milligrams of what? of CaCO3, or of bicarbonate?",
		`write "%[1]s mg/L CaCO3" for an alkalinity, or in mEq/L`)}},
	text: plain[Charge](" mEq/L"),
})

// twoGallons refuses a mass per gallon.
func twoGallons(unit string, massKilograms float64) func(number) *trouble {
	return choose("which gallon? US %.3g g/L or imperial %.3g g/L?",
		`write "%[1]s `+unit+`/US gal" or "%[1]s `+unit+`/imp gal"`,
		massKilograms*1000/usGallonLitres, massKilograms*1000/imperialGallonLitres)
}

// perGallon writes out the spellings of a mass per gallon.
func perGallon(mass string, countries []string) string {
	var all []string
	for s := range strings.SplitSeq(byCountry(countries, gallons), "|") {
		all = append(all, mass+"/"+s)
	}
	return strings.Join(all, "|")
}

const ounceKilograms = ounceGrams / 1000

var doseKind = linear(kind[Dose]{
	what: "a dose",
	units: []unit[Dose]{
		{"g/L|g/litre|g/liter|kg/m3", times[Dose](1)},
		{"g/hL", per[Dose](100)},
		{"kg/hL", times[Dose](10)},
		{"mg/L|ppm", per[Dose](1000)},
		{perGallon("oz", inUS), times[Dose](ounceGrams / usGallonLitres)},
		{perGallon("oz", inBritain), times[Dose](ounceGrams / imperialGallonLitres)},
		{perGallon("lb", inUS), times[Dose](1000 * poundKilograms / usGallonLitres)},
		{perGallon("lb", inBritain), times[Dose](1000 * poundKilograms / imperialGallonLitres)},
		{"lb/US bbl|lbs/US bbl", times[Dose](1000 * poundKilograms / usBarrelLitres)},
		{"lb/imp bbl|lb/UK bbl|lbs/imp bbl", times[Dose](1000 * poundKilograms / imperialBarrelLitres)},
	},
	refused: []refusal{
		{"oz/gal|oz/gallon", twoGallons("oz", ounceKilograms)},
		{"lb/gal|lbs/gal|lb/gallon", twoGallons("lb", poundKilograms)},
		{"lb/bbl|lbs/bbl", choose("which barrel? US %.3g g/L or imperial %.3g g/L?",
			`write "%[1]s lb/US bbl" or "%[1]s lb/imp bbl"`,
			1000*poundKilograms/usBarrelLitres, 1000*poundKilograms/imperialBarrelLitres)},
	},
	text: plain[Dose](" g/L"),
})

var ratioKind = linear(kind[Ratio]{
	what: "a volume per mass",
	units: []unit[Ratio]{
		{"L/kg|mL/g|litre/kg|litres/kg|liter/kg|liters/kg", times[Ratio](1)},
		{"mL/kg", per[Ratio](1000)},
		{"hL/t", per[Ratio](10)},
		{"US qt/lb|qt US/lb|US quart/lb", times[Ratio](usGallonLitres / 4 / poundKilograms)},
		{"imp qt/lb|UK qt/lb|imp quart/lb", times[Ratio](imperialGallonLitres / 4 / poundKilograms)},
		{"US gal/lb", times[Ratio](usGallonLitres / poundKilograms)},
		{"imp gal/lb|UK gal/lb", times[Ratio](imperialGallonLitres / poundKilograms)},
	},
	refused: []refusal{
		{"qt/lb|qts/lb|quart/lb|quarts/lb", choose("which quart? US %.3g L/kg or imperial %.3g L/kg?",
			`write "%[1]s US qt/lb" or "%[1]s imp qt/lb"`, usGallonLitres/4/poundKilograms, imperialGallonLitres/4/poundKilograms)},
		{"gal/lb", choose("which gallon? US %.3g L/kg or imperial %.3g L/kg?",
			`write "%[1]s US gal/lb" or "%[1]s imp gal/lb"`, usGallonLitres/poundKilograms, imperialGallonLitres/poundKilograms)},
	},
	text: plain[Ratio](" L/kg"),
})

var oilContentKind = linear(kind[OilContent]{
	what:    "an oil content",
	units:   []unit[OilContent]{{"mL/100 g|mL/100g hops|cc/100 g", times[OilContent](1)}},
	refused: []refusal{{"%", choose("percent of what? of volume per mass?", `write "%s mL/100 g"`)}},
	text:    plain[OilContent](" mL/100 g"),
})

var pitchRateKind = linear(kind[PitchRate]{
	what: "a pitching rate",
	units: []unit[PitchRate]{
		{"M/mL/°P|M/mL°P|M/(mL·°P)|million/mL/°P|millions/mL/°P|million cells/mL/°P|M cells/mL/°P|mio/mL/°P|M/mL/P|million/mL/P", times[PitchRate](1)},
		{"cells/mL/°P|/mL/°P|cells/mL/P|cells/(mL·°P)", func(n number) PitchRate { return PitchRate(n.shifted(-6)) }},
	},
	text: plain[PitchRate](" M/mL/°P"),
})

// Exact: a pound-force (0.45359237 kg · 9.80665 m/s²) on a square inch.
const barPerPSI = 0.0689475729316836

// psi returns the pressure of p pounds on the square inch, in bar.
func psi(p float64) float64 { return p * barPerPSI }

// absoluteOrGauge refuses a pressure that may be read from a gauge.
func absoluteOrGauge(unit string, bar float64) func(number) *trouble {
	return func(n number) *trouble {
		return &trouble{
			fmt.Sprintf("absolute, or above the surrounding air? %.4g or about %.4g bar absolute?", n.value*bar, n.value*bar+1.013),
			fmt.Sprintf("write %q for an absolute pressure", n.text+" "+unit),
		}
	}
}

var pressureKind = linear(kind[Pressure]{
	what: "an absolute pressure",
	units: []unit[Pressure]{
		{"bar abs|bara|bar(a)|bar absolute|abs bar", times[Pressure](1)},
		{"mbar|hPa|mbar abs|mbar(a)", per[Pressure](1000)},
		{"kPa abs|kPa(a)|kPa absolute", per[Pressure](100)},
		{"psi abs|psia|psi(a)|psi absolute", func(n number) Pressure { return Pressure(psi(n.value)) }},
		{"atm", times[Pressure](1.01325)},
	},
	refused: []refusal{
		{"bar", absoluteOrGauge("bar abs", 1)},
		{"kPa", absoluteOrGauge("kPa abs", 0.01)},
		{"psi", absoluteOrGauge("psi abs", barPerPSI)},
		{"bar gauge|barg|bar(g)|psig|psi gauge", choose("a gauge pressure stands where an absolute one is wanted", "add the pressure of the air, about 1.013 bar")},
	},
	text: plain[Pressure](" bar abs"),
})

var gaugePressureKind = linear(kind[GaugePressure]{
	what: "a pressure on the gauge",
	units: []unit[GaugePressure]{
		{"bar|barg|bar(g)|bar gauge", times[GaugePressure](1)},
		{"mbar|mbar gauge|mbar(g)", per[GaugePressure](1000)},
		{"kPa|kPa gauge|kPa(g)", per[GaugePressure](100)},
		{"psi|psig|psi(g)|psi gauge|lb/in2", func(n number) GaugePressure { return GaugePressure(psi(n.value)) }},
	},
	refused: []refusal{{"bar abs|bara|bar(a)|psia|psi(a)|psi abs|atm", choose(
		"an absolute pressure stands where a gauge pressure is wanted", "take away the pressure of the air, about 1.013 bar")}},
	text: plain[GaugePressure](" bar"),
})

var powerKind = linear(kind[Power]{
	what: "a power",
	units: []unit[Power]{
		{"kW|kilowatt|kilowatts", times[Power](1)},
		{"W|watt|watts", per[Power](1000)},
		{"MW", times[Power](1000)},
		{"BTU/h|BTU/hr|btuh", times[Power](0.00029307107017222)}, // international table BTU, 1055.05585262 J
	},
	text: plain[Power](" kW"),
})

var heatCapacityKind = linear(kind[HeatCapacity]{
	what: "a heat capacity",
	units: []unit[HeatCapacity]{
		{"kJ/K|kJ/°C", times[HeatCapacity](1)},
		{"J/K|J/°C", per[HeatCapacity](1000)},
		{"Wh/K", times[HeatCapacity](3.6)},
	},
	text: plain[HeatCapacity](" kJ/K"),
})

var massFlowKind = linear(kind[MassFlow]{
	what: "a flow of mass",
	units: []unit[MassFlow]{
		{"kg/s", times[MassFlow](1)},
		{"kg/min", per[MassFlow](60)},
		{"kg/h|kg/hr", per[MassFlow](3600)},
		{"g/s", per[MassFlow](1000)},
	},
	refused: []refusal{{"L/min|L/s|L/h", choose("a volume isn't a mass: how much a litre weighs depends on gravity and temperature", "write kg/s, kg/min or kg/h")}},
	text:    plain[MassFlow](" kg/s"),
})
