// SPDX-License-Identifier: MIT

package data

// HopType is a typical hop of one cultivar.
type HopType struct {
	ID                    string         `yaml:"id"`
	Name                  string         `yaml:"name"`
	CountryOfOrigin       string         `yaml:"origin"`
	NameStatus            string         `yaml:"name_status"` // "public" or "protected or registered name"
	Use                   string         `yaml:"use"`         // aroma, bitter or dual
	Aroma                 []string       `yaml:"aroma"`
	Alpha                 TypicalRange   `yaml:"alpha_pct"`                   // % of mass
	Beta                  *Range         `yaml:"beta_pct"`                    // % of mass
	Cohumulone            Range          `yaml:"cohumulone_pct_of_alpha"`     // % of the alpha acids
	Oil                   *Range         `yaml:"oil_ml_per_100g"`             // mL/100 g
	OilFractions          OilFractions   `yaml:"oil_fractions_pct"`           // % of the oil
	AlphaLeft6Months20C   *Range         `yaml:"alpha_left_6_months_20c_pct"` // % of the alpha acids, whole hops at about 20 °C
	StorageWord           string         `yaml:"storage_word"`                // good, average, poor; where no figure is known
	SimilarByOil          []HopNeighbour `yaml:"similar_by_oil"`              // computed from the oil, not tasted; nearest first
	SubstitutesByPractice []string       `yaml:"substitutes_by_practice"`     // ids
	Level                 string         `yaml:"level"`                       // A read at an institution ... E recalled and uncertain
	Origin                `yaml:",inline"`
}

// TypicalRange is a range with the value to plan with.
type TypicalRange struct {
	Typical float64 `yaml:"typical"`
	Range   Range   `yaml:"range"`
}

// OilFractions are the four terpenes that hop analyses print, in percent of
// the oil; nil where not known.
type OilFractions struct {
	Myrcene       *Range `yaml:"myrcene"`
	Humulene      *Range `yaml:"humulene"`
	Caryophyllene *Range `yaml:"caryophyllene"`
	Farnesene     *Range `yaml:"farnesene"`
}

// HopNeighbour is a hop with a similar oil. The distance says nothing of
// thiols, esters and terpene alcohols: a hint for neutral and noble hops only.
type HopNeighbour struct {
	ID       string  `yaml:"id"`
	Distance float64 `yaml:"distance"`
}

var hops = newShelf[HopType]("hops.yaml", "records")

// Hop returns the hop called id, which may be an alias ("goldings").
func Hop(id string) (HopType, bool) { return hops.get(hopAliases.resolve(id)) }

// HopIDs returns the ids of all hops, sorted.
func HopIDs() []string { return hops.sortedIDs() }

// HopNames returns every word that [Hop] knows, aliases included, sorted.
func HopNames() []string { return merge(hops.sortedIDs(), hopAliases.sortedIDs()) }

// HopAlias returns the alias called id with its reason.
func HopAlias(id string) (Alias, bool) { return hopAliases.get(id) }
