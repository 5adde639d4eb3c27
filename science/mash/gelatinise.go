// SPDX-License-Identifier: MIT

package mash

import "gyle/quantity"

// Gelatinisation is the range in which the starch of a cereal gelatinises.
type Gelatinisation struct {
	Cereal string
	Range  quantity.Span[quantity.Temperature]
	Note   string
	Tag    string
}

// Gelatinisations are the ranges of the cereals. Barley malt: abstracts of
// Rittenauer et al. (2021) and Patindol et al. (2012).
var Gelatinisations = []Gelatinisation{
	{"barley", celsiusSpan(61, 62), "starch alone", "verified"},
	{"barley malt", celsiusSpan(54.5, 64.5), "onset 54.5 to 57.1, pasting from 57.5 to 59.8, complete at 61.4 to 64.5 °C; onset 58.5 to 64.3 °C in 25 malts", "verified"},
	{"wheat", celsiusSpan(52, 54), "often quoted up to 64 °C", "verified"},
	{"rye", celsiusSpan(55, 70), "", "from memory"},
	{"oats", celsiusSpan(52, 64), "", "from memory"},
	{"maize", celsiusSpan(70, 75), "grits 62 to 74 °C", "verified"},
	{"sorghum", celsiusSpan(70, 75), "", "verified"},
	{"rice", celsiusSpan(68, 75), "some varieties up to 85 or 90 °C", "verified"},
	{"potato", celsiusSpan(56, 69), "", "verified"},
}

func celsiusSpan(low, high float64) quantity.Span[quantity.Temperature] {
	return quantity.Span[quantity.Temperature]{Low: quantity.Celsius(low), High: quantity.Celsius(high)}
}

// GelatinisationOf returns the range of a cereal by its name in
// [Gelatinisations].
func GelatinisationOf(cereal string) (Gelatinisation, bool) {
	for _, g := range Gelatinisations {
		if g.Cereal == cereal {
			return g, true
		}
	}
	return Gelatinisation{}, false
}

// cookAbove is the upper end of gelatinisation that the amylases of a mash
// still outlive.
var cookAbove = quantity.Celsius(65)

// NeedsCook reports whether a cereal must be cooked before it is mashed: its
// starch gelatinises above 65 °C and was not gelatinised by flaking. The
// amylases of malt die at 70 to 80 °C. Malted rye, though its range reaches
// 70 °C, is not cooked by custom, because it is malted; this function leaves
// that to the caller. Tag: common practice.
func NeedsCook(g Gelatinisation, pregelatinised bool) bool {
	return !pregelatinised && cookAbove.Below(g.Range.High)
}
