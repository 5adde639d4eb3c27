// SPDX-License-Identifier: MIT

package data

// SugarType is a typical sugar or syrup, for the kettle or for priming.
type SugarType struct {
	ID                     string   `yaml:"id"`
	Name                   string   `yaml:"name"`
	DrySolids              Range    `yaml:"dry_solids_pct"`                   // % as bought
	ExtractAsIs            Range    `yaml:"extract_as_is_pct"`                // sucrose-equivalent extract of 100 g as bought, %
	FermentableShare       Range    `yaml:"fermentable_share_of_extract_pct"` // % of that extract
	ColourEBC              *Range   `yaml:"colour_ebc"`
	CO2PerGram             float64  `yaml:"co2_g_per_g"`                // g CO2 per g as bought
	PrimingPerVolume       *float64 `yaml:"priming_g_per_l_per_volume"` // g/L per volume of CO2; nil where it does not ferment
	PrimingFactorVsSucrose *float64 `yaml:"priming_factor_vs_sucrose"`
	Allergens              []string `yaml:"allergens"`
	Origin                 `yaml:",inline"`
}

var sugars = newShelf[SugarType]("sugars-and-minerals.yaml", "sugars")

// Sugar returns the sugar called id, which may be an alias ("table-sugar").
func Sugar(id string) (SugarType, bool) { return sugars.get(sugarAliases.resolve(id)) }

// SugarIDs returns the ids of all sugars, sorted.
func SugarIDs() []string { return sugars.sortedIDs() }

// SugarNames returns every word that [Sugar] knows, aliases included, sorted.
func SugarNames() []string { return merge(sugars.sortedIDs(), sugarAliases.sortedIDs()) }

// SugarAlias returns the alias called id with its reason.
func SugarAlias(id string) (Alias, bool) { return sugarAliases.get(id) }
