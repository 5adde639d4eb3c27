// SPDX-License-Identifier: MIT

package data

// AcidType is an acid as it is sold. Strong acids burn: goggles and gloves,
// and acid goes into water, never water into acid.
type AcidType struct {
	ID               string        `yaml:"id"`
	Name             string        `yaml:"name"`
	MolarMass        float64       `yaml:"molar_mass_g_mol"` // g/mol
	PKa              []float64     `yaml:"pka_25c"`          // at 25 °C, first step first; negative or empty steps are strong
	Strength         float64       `yaml:"strength_pct_w_w"` // % of mass
	Density          *float64      `yaml:"density_kg_l"`     // kg/L; nil for solids
	MolPerLitre      *float64      `yaml:"mol_per_l"`        // nil for solids
	MEqPerMillilitre *AcidAtMashPH `yaml:"meq_per_ml"`       // mEq/mL at mash pH; nil for solids
	MEqPerGram       *AcidAtMashPH `yaml:"meq_per_g"`        // mEq/g at mash pH; solids
	Origin           `yaml:",inline"`
}

// AcidAtMashPH is the acid strength at three mash pH values.
type AcidAtMashPH struct {
	AtPH52 float64 `yaml:"ph_5_2"`
	AtPH54 float64 `yaml:"ph_5_4"`
	AtPH56 float64 `yaml:"ph_5_6"`
}

var acids = newShelf[AcidType]("sugars-and-minerals.yaml", "acids")

// Acid returns the acid called id, which may be an alias ("lactic-acid").
func Acid(id string) (AcidType, bool) { return acids.get(acidAliases.resolve(id)) }

// AcidIDs returns the ids of all acids, sorted.
func AcidIDs() []string { return acids.sortedIDs() }

// AcidNames returns every word that [Acid] knows, aliases included, sorted.
func AcidNames() []string { return merge(acids.sortedIDs(), acidAliases.sortedIDs()) }

// AcidAlias returns the alias called id with its reason.
func AcidAlias(id string) (Alias, bool) { return acidAliases.get(id) }

// SaltType is a pure salt for the treatment of brewing liquor.
type SaltType struct {
	ID              string             `yaml:"id"`
	Name            string             `yaml:"name"`
	Formula         string             `yaml:"formula"`
	MolarMass       float64            `yaml:"molar_mass_g_mol"`     // g/mol
	IonMassFraction map[string]float64 `yaml:"ion_mass_fraction"`    // g of ion per g of salt; keys: calcium, sulfate ...
	IonsPer100mgL   map[string]float64 `yaml:"mg_l_per_0_1_g_per_l"` // mg/L of ion from 0.1 g/L of salt
	Origin          `yaml:",inline"`
}

var salts = newShelf[SaltType]("waters.yaml", "salts")

// Salt returns the salt called id, which may be an alias ("calcium-chloride").
func Salt(id string) (SaltType, bool) { return salts.get(saltAliases.resolve(id)) }

// SaltIDs returns the ids of all salts, sorted.
func SaltIDs() []string { return salts.sortedIDs() }

// SaltNames returns every word that [Salt] knows, aliases included, sorted.
func SaltNames() []string { return merge(salts.sortedIDs(), saltAliases.sortedIDs()) }

// SaltAlias returns the alias called id with its reason.
func SaltAlias(id string) (Alias, bool) { return saltAliases.get(id) }

// AidType is a fining, enzyme, other process aid or yeast nutrient. The label
// of the product comes before any dose given here.
type AidType struct {
	ID        string   `yaml:"id"`
	Name      string   `yaml:"name"`
	Type      string   `yaml:"type"`  // fining, enzyme, nutrient ...
	Stage     string   `yaml:"stage"` // when it goes in
	Dose      *Range   `yaml:"dose"`  // in DoseUnit; nil where it depends on the product
	DoseUnit  string   `yaml:"dose_unit"`
	Allergens []string `yaml:"allergens"`
	Vegan     *bool    `yaml:"vegan"` // nil where not known
	Origin    `yaml:",inline"`
}

var (
	aids      = newShelf[AidType]("sugars-and-minerals.yaml", "finings_and_aids")
	nutrients = newShelf[AidType]("sugars-and-minerals.yaml", "nutrients")
)

// Aid returns the fining or process aid called id.
func Aid(id string) (AidType, bool) { return aids.get(id) }

// AidIDs returns the ids of all finings and process aids, sorted.
func AidIDs() []string { return aids.sortedIDs() }

// Nutrient returns the yeast nutrient or wort target called id.
func Nutrient(id string) (AidType, bool) { return nutrients.get(id) }

// NutrientIDs returns the ids of all nutrients, sorted.
func NutrientIDs() []string { return nutrients.sortedIDs() }
