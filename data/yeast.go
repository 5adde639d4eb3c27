// SPDX-License-Identifier: MIT

package data

// YeastType is a typical group of yeasts or bacteria; strains differ.
type YeastType struct {
	ID                  string   `yaml:"id"`
	Name                string   `yaml:"name"`
	Group               string   `yaml:"group"` // ale, lager, wheat, belgian, kveik, brett, bacteria ...
	Species             string   `yaml:"species"`
	ApparentAttenuation *Range   `yaml:"apparent_attenuation_pct"` // %, all-malt wort of ordinary fermentability
	Temperature         Range    `yaml:"temperature_c"`            // °C, usual working range
	Flocculation        string   `yaml:"flocculation"`
	AlcoholTolerance    *Range   `yaml:"alcohol_tolerance_abv_pct"` // % by volume
	Phenolic            *bool    `yaml:"phenolic_pof"`              // makes 4-vinyl guaiacol; nil where it depends on the strain
	DiastaticusCaution  string   `yaml:"diastaticus_caution"`       // "no", "possible", "yes", "slow dextrin use"
	MaltotrioseUse      string   `yaml:"maltotriose_use"`
	EsterCharacter      []string `yaml:"ester_character"`
	Sulphur             string   `yaml:"sulphur"`
	DiacetylCaution     string   `yaml:"diacetyl_caution"`
	PitchRate           *Range   `yaml:"pitch_rate_m_cells_per_ml_per_plato"` // 10⁶ cells/(mL·°P)
	Suits               []string `yaml:"suits"`
	Origin              `yaml:",inline"`
}

var yeasts = newShelf[YeastType]("yeasts.yaml", "records")

// Yeast returns the yeast called id, which may be an alias ("english-ale").
func Yeast(id string) (YeastType, bool) { return yeasts.get(yeastAliases.resolve(id)) }

// YeastIDs returns the ids of all yeasts, sorted.
func YeastIDs() []string { return yeasts.sortedIDs() }

// YeastNames returns every word that [Yeast] knows, aliases included, sorted.
func YeastNames() []string { return merge(yeasts.sortedIDs(), yeastAliases.sortedIDs()) }

// YeastAlias returns the alias called id with its reason.
func YeastAlias(id string) (Alias, bool) { return yeastAliases.get(id) }
