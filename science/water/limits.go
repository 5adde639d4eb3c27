// SPDX-License-Identifier: MIT

package water

import (
	"fmt"

	"gyle/quantity"
)

// A Limit says what is customary in brewing liquor and what drinking water may hold.
type Limit struct {
	Symbol, Unit string
	// Low and High bound the customary range.
	Low, High float64
	// Below says what is missed under Low, Above what threatens over High.
	Below, Above string
	// Drinking is the value for drinking water; 0 when there is none.
	Drinking float64
	// DrinkingLow is its lower end where it has one.
	DrinkingLow float64
	// Authority says whose value it is.
	Authority string
}

// The severities of a [Caution].
const (
	Soft = "soft" // outside the custom of brewers
	Hard = "hard" // above the drinking-water value
)

// Limits are the customary ranges and the drinking-water values.
//
//   - Customary ranges: practice.
//   - European values: eu98-83, lists read. The American secondary values for
//     chloride and sulfate (250 mg/L) were read too.
//   - World Health Organization: who-water, second-hand.
var Limits = []Limit{
	{Symbol: "Ca", Unit: "mg/L", Low: 50, High: 150,
		Below: "enzymes, clear wort and settling yeast want calcium; 40 mg/L is the least",
		Above: "beyond 200 mg/L it brings nothing more, and it takes phosphate from the yeast"},
	{Symbol: "Mg", Unit: "mg/L", High: 30,
		Above: "malt brings enough; sour-bitter from 50 mg/L, laxative from 125 mg/L"},
	{Symbol: "Na", Unit: "mg/L", High: 150, Drinking: 200, Authority: "EU",
		Above: "salty from 200 mg/L, and harsh together with much sulfate"},
	{Symbol: "K", Unit: "mg/L", High: 10,
		Above: "malt brings far more; mind potassium-restricted diets"},
	{Symbol: "Cl", Unit: "mg/L", High: 250, Drinking: 250, Authority: "EU and US secondary",
		Above: "tastes pasty; rusts steel"},
	{Symbol: "SO4", Unit: "mg/L", High: 350, Drinking: 250, Authority: "EU and US secondary",
		Above: "harsh from 400 mg/L, laxative from 750 mg/L"},
	{Symbol: "HCO3", Unit: "mg/L", High: 250,
		Above: "only very dark grists carry it without acid; the mash pH decides"},
	{Symbol: "NO3", Unit: "mg/L", High: 25, Drinking: 50, Authority: "EU and WHO",
		Above: "bacteria turn it into nitrite, which poisons yeast"},
	{Symbol: "NO2", Unit: "mg/L", Drinking: 0.5, Authority: "EU",
		Above: "poisons yeast"},
	{Symbol: "Fe", Unit: "mg/L", High: 0.1, Drinking: 0.2, Authority: "EU",
		Above: "tastes of metal and makes haze"},
	{Symbol: "Mn", Unit: "mg/L", High: 0.05, Drinking: 0.05, Authority: "EU",
		Above: "tastes of metal and makes haze"},
	{Symbol: "pH", Low: 6.5, High: 9.5, Drinking: 9.5, DrinkingLow: 6.5, Authority: "EU",
		Below: "attacks pipes and fittings", Above: "unusual: ask the supplier what was done to it"},
	{Symbol: "EC", Unit: "µS/cm", High: 2500, Drinking: 2500, Authority: "EU",
		Above: "too salty to drink"},
}

// LimitFor returns the limit for a symbol; false when there is none.
func LimitFor(symbol string) (Limit, bool) {
	for _, l := range Limits {
		if l.Symbol == symbol {
			return l, true
		}
	}
	return Limit{}, false
}

// A Caution is one value outside its range.
type Caution struct {
	Symbol   string
	Value    float64
	Severity string // soft or hard
	Text     string
}

// Judge compares a value with the limit; false when there is nothing to say.
func (l Limit) Judge(value float64) (Caution, bool) {
	caution := Caution{Symbol: l.Symbol, Value: value, Severity: Soft}
	printed := fmt.Sprintf("%s %.4g", l.Symbol, value)
	if l.Unit != "" {
		printed += " " + l.Unit
	}
	switch {
	case l.Drinking > 0 && value > l.Drinking:
		caution.Severity = Hard
		caution.Text = fmt.Sprintf("%s is above the drinking-water value of %g (%s): %s", printed, l.Drinking, l.Authority, l.Above)
	case value < l.DrinkingLow:
		caution.Severity = Hard
		caution.Text = fmt.Sprintf("%s is below the drinking-water value of %g (%s): %s", printed, l.DrinkingLow, l.Authority, l.Below)
	case value > l.High:
		caution.Text = fmt.Sprintf("%s is above the customary %g: %s", printed, l.High, l.Above)
	case value < l.Low:
		caution.Text = fmt.Sprintf("%s is below the customary %g: %s", printed, l.Low, l.Below)
	default:
		return Caution{}, false
	}
	return caution, true
}

// Check compares every ion with its limit, in the order of the ions. Carbonate
// has none of its own: alkalinity as a whole is judged as bicarbonate.
func Check(i Ions) []Caution {
	var cautions []Caution
	for _, ion := range AllIons() {
		limit, ok := LimitFor(ion.Symbol())
		if !ok {
			continue
		}
		if caution, outside := limit.Judge(Amount(i, ion)); outside {
			cautions = append(cautions, caution)
		}
	}
	return cautions
}

// SolidsBand puts the dissolved solids in mg/L into the words of the World
// Health Organization (1996, read) for how well water tastes.
func SolidsBand(solids quantity.Concentration) string {
	switch {
	case solids < 300:
		return "excellent"
	case solids < 600:
		return "good"
	case solids < 900:
		return "fair"
	case solids < 1200:
		return "poor"
	}
	return "unacceptable"
}
