// SPDX-License-Identifier: MIT

package data

// MaltType is a typical malt, unmalted cereal, malt extract or grain-bin sugar.
type MaltType struct {
	ID              string   `yaml:"id"`
	Name            string   `yaml:"name"`
	Class           string   `yaml:"class"` // base, kilned, crystal, roasted, wheat, adjunct, extract, sugar ...
	ColourEBC       Range    `yaml:"colour_ebc"`
	ExtractDryBasis Range    `yaml:"extract_fgdb_pct"`             // fine-grind extract, % of dry mass
	Moisture        Range    `yaml:"moisture_pct"`                 // % of the malt as weighed
	MaxShare        float64  `yaml:"max_share_pct"`                // usual ceiling in a grist, %
	DiastaticWK     Range    `yaml:"diastatic_wk"`                 // Windisch-Kolbach units; 0 means none for planning
	Protein         *Range   `yaml:"protein_pct"`                  // % of dry mass
	NeedsMash       bool     `yaml:"needs_mash"`                   // has starch that enzymes must convert
	Gelatinisation  *Range   `yaml:"gelatinisation_c"`             // °C; nil when an ordinary mash gelatinises it or it is not known
	DistilledMashPH *Range   `yaml:"distilled_mash_ph"`            // pH in a mash with distilled water
	Buffer          *Range   `yaml:"buffer_meq_per_kg_ph"`         // mEq/(kg·pH)
	AcidityTo57     *Range   `yaml:"acidity_to_ph_5_7_meq_per_kg"` // alkali that lifts 1 kg from its own pH to 5.7, mEq/kg
	Allergens       []string `yaml:"allergens"`                    // classes of EU Regulation 1169/2011, Annex II
	Flavour         []string `yaml:"flavour"`
	Origin          `yaml:",inline"`
}

// ExtractAsIs returns the typical fine-grind extract of the malt as it is
// weighed, moisture included, in percent: dry basis times (100 − moisture)/100,
// both at the middle of their ranges.
func (m MaltType) ExtractAsIs() float64 {
	return m.ExtractDryBasis.Mid() * (100 - m.Moisture.Mid()) / 100
}

var malts = newShelf[MaltType]("malts.yaml", "records")

// Malt returns the malt called id, which may be an alias ("pale-ale").
func Malt(id string) (MaltType, bool) { return malts.get(maltAliases.resolve(id)) }

// MaltIDs returns the ids of all malts, sorted.
func MaltIDs() []string { return malts.sortedIDs() }

// MaltNames returns every word that [Malt] knows, aliases included, sorted.
func MaltNames() []string { return merge(malts.sortedIDs(), maltAliases.sortedIDs()) }

// MaltAlias returns the alias called id with its reason.
func MaltAlias(id string) (Alias, bool) { return maltAliases.get(id) }
