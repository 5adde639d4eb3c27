// SPDX-License-Identifier: MIT

package describe

import (
	"reflect"
	"strings"

	"gyle/quantity"
)

// samples shows how measures are written in a document.
var samples = map[reflect.Type][]any{
	reflect.TypeFor[quantity.Gravity]():          {"1.050", "12.4 °P"},
	reflect.TypeFor[quantity.SG]():               {"1.0425"},
	reflect.TypeFor[quantity.Fraction]():         {"3.7 %"},
	reflect.TypeFor[quantity.Mass]():             {"4.95 kg", "35 g", "1 lb 4 oz"},
	reflect.TypeFor[quantity.Volume]():           {"22 L", "6 US gal"},
	reflect.TypeFor[quantity.VolumeAt]():         {"26.4 L @ 95 °C"},
	reflect.TypeFor[quantity.Duration]():         {"60 min", "16 h", "3 d"},
	reflect.TypeFor[quantity.Temperature]():      {"67 °C", "152.6 °F"},
	reflect.TypeFor[quantity.IBU]():              {"26 IBU"},
	reflect.TypeFor[quantity.Color]():            {"35 EBC", "18 SRM", "60 °L"},
	reflect.TypeFor[quantity.EBC]():              {"35 EBC"},
	reflect.TypeFor[quantity.Carbonation]():      {"2.2 vol", "4.4 g/L"},
	reflect.TypeFor[quantity.Dose]():             {"1.4 g/L"},
	reflect.TypeFor[quantity.Ratio]():            {"3.3 L/kg"},
	reflect.TypeFor[quantity.Concentration]():    {"110 mg/L"},
	reflect.TypeFor[quantity.Charge]():           {"2.76 mEq/L"},
	reflect.TypeFor[quantity.PitchRate]():        {"0.75 M/mL/°P"},
	reflect.TypeFor[quantity.OilContent]():       {"1.2 mL/100 g"},
	reflect.TypeFor[quantity.HeatCapacity]():     {"3 kJ/K"},
	reflect.TypeFor[quantity.Power]():            {"2.28 kW"},
	reflect.TypeFor[quantity.GaugePressure]():    {"1.5 bar", "22 psi"},
	reflect.TypeFor[quantity.Length]():           {"5 m", "16 ft"},
	reflect.TypeFor[quantity.MassFlow]():         {"0.1 kg/s"},
	reflect.TypeFor[quantity.PH]():               {"5.45"},
	reflect.TypeFor[quantity.Estimate]():         {"0.94 ± 0.08"},
	reflect.TypeFor[quantity.FractionEstimate](): {"76 ± 2 %"},
	reflect.TypeFor[quantity.Date]():             {"2026-11-25"},
	reflect.TypeFor[quantity.Time]():             {"2026-03-07T10:30:00+01:00"},
}

// written is a value that a document holds as text, with its unit. Readers of
// YAML take a bare number for a number, so both are right.
func written(t reflect.Type, says string) node {
	n := node{Type: []string{"string", "number"}, Description: says, Examples: samples[t]}
	if strings.HasPrefix(t.Name(), "Span[") {
		n.Description = "a range, low..high; an end left out is open"
		n.Examples = samples[t.Field(0).Type] // one value alone is a range, too
	}
	return n
}
