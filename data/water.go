// SPDX-License-Identifier: MIT

package data

// WaterProfileType is a purpose profile: the treated liquor that common
// practice aims at for one family of beers. All ions in mg/L.
type WaterProfileType struct {
	ID                 string   `yaml:"id"`
	Name               string   `yaml:"name"`
	Kind               string   `yaml:"kind"`
	Suits              []string `yaml:"suits"`
	Calcium            Range    `yaml:"calcium"`
	Magnesium          Range    `yaml:"magnesium"`
	Sodium             Range    `yaml:"sodium"`
	Sulfate            Range    `yaml:"sulfate"`
	Chloride           Range    `yaml:"chloride"`
	Bicarbonate        Range    `yaml:"bicarbonate"`
	ResidualAlkalinity Range    `yaml:"residual_alkalinity_meq_l"` // mEq/L (Kolbach)
	SulfateToChloride  float64  `yaml:"sulfate_to_chloride_at_midpoints"`
	Origin             `yaml:",inline"`
}

var waterProfiles = newShelf[WaterProfileType]("waters.yaml", "purpose_profiles")

// WaterProfile returns the purpose profile called id.
func WaterProfile(id string) (WaterProfileType, bool) { return waterProfiles.get(id) }

// WaterProfileIDs returns the ids of all purpose profiles, sorted.
func WaterProfileIDs() []string { return waterProfiles.sortedIDs() }

// HistoricWaterType is an old printed analysis of a city's water, in mg/L. Many
// don't balance, cities had many wells, and breweries treated their water:
// material for talk, not a target.
type HistoricWaterType struct {
	ID                       string         `yaml:"id"`
	Name                     string         `yaml:"name"`
	Kind                     string         `yaml:"kind"`
	Calcium                  float64        `yaml:"calcium"`
	Magnesium                *float64       `yaml:"magnesium"`
	Sodium                   float64        `yaml:"sodium"`
	Sulfate                  float64        `yaml:"sulfate"`
	Chloride                 float64        `yaml:"chloride"`
	CarbonateColumnAsPrinted *float64       `yaml:"carbonate_column_as_printed"` // the sources disagree on what it is
	ChargeBalanceError       *ChargeBalance `yaml:"charge_balance_error_pct"`
	BalanceVerdict           string         `yaml:"balance_verdict"`
	Bicarbonate              *float64       `yaml:"bicarbonate_working_value"` // nil where no reading balances within 10 %
	ResidualAlkalinity       *float64       `yaml:"residual_alkalinity_meq_l"` // mEq/L
	SourceBook               string         `yaml:"source_book"`
	Origin                   `yaml:",inline"`
}

// ChargeBalance is 100 (cations − anions)/(cations + anions), in percent, for
// both readings of the carbonate column.
type ChargeBalance struct {
	IfBicarbonate float64 `yaml:"if_bicarbonate"`
	IfCarbonate   float64 `yaml:"if_carbonate"`
}

var historicWaters = newShelf[HistoricWaterType]("waters.yaml", "historic_profiles")

// HistoricWater returns the old analysis called id.
func HistoricWater(id string) (HistoricWaterType, bool) { return historicWaters.get(id) }

// HistoricWaterIDs returns the ids of all old analyses, sorted.
func HistoricWaterIDs() []string { return historicWaters.sortedIDs() }
