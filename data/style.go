// SPDX-License-Identifier: MIT

package data

// StyleNumbersType holds the printed numbers of one beer style of the BJCP
// Beer Style Guidelines, 2021 edition. It is not a style document: it has no
// rules and no reasons.
type StyleNumbersType struct {
	ID               string           `yaml:"id"`
	Code             string           `yaml:"code"` // "14A"; shared by some sub-entries, so not a key
	Name             string           `yaml:"name"`
	Category         string           `yaml:"category"`
	Kind             string           `yaml:"kind"`
	OG               *Range           `yaml:"og"`      // SG 20/20 °C; nil where the guideline gives none
	FG               *Range           `yaml:"fg"`      // SG 20/20 °C
	IBU              *Range           `yaml:"ibu"`     // mg/L
	SRM              *Range           `yaml:"srm"`     // SRM; EBC = 1.97·SRM
	ABV              *Range           `yaml:"abv_pct"` // % by volume
	Numbers          string           `yaml:"numbers"` // "given" or why there are none
	Family           string           `yaml:"family"`
	Carbonation      *Range           `yaml:"carbonation_vol"` // volumes of CO2; not part of the guideline
	CarbonationBasis string           `yaml:"carbonation_basis"`
	StrengthClasses  map[string]Range `yaml:"strength_classes_abv_pct"` // % by volume, of the one style that has them
	Variants         *StyleVariants   `yaml:"variants"`
	Hint             string           `yaml:"hint"` // where to find numbers when there are none
	Origin           `yaml:",inline"`
}

// StyleVariants are the ranges of a style that comes in colours and strengths.
type StyleVariants struct {
	ColourSRM   map[string]Range `yaml:"colour_srm"`
	StrengthABV map[string]Range `yaml:"strength_abv_pct"` // % by volume
}

// Complete reports whether the guideline gives all five numbers.
func (s StyleNumbersType) Complete() bool {
	return s.OG != nil && s.FG != nil && s.IBU != nil && s.SRM != nil && s.ABV != nil
}

var styles = newShelf[StyleNumbersType]("styles.yaml", "records")

// StyleNumbers returns the numbers of the style called id.
func StyleNumbers(id string) (StyleNumbersType, bool) { return styles.get(id) }

// StyleIDs returns the ids of all styles, sorted.
func StyleIDs() []string { return styles.sortedIDs() }
