// SPDX-License-Identifier: MIT

package stock

import (
	"fmt"
	"gyle/internal/document"
	"gyle/quantity"
)

// Kind is the first key of a stock document: "gyle: stock/1".
const Kind = "stock"

// Stock is what is in one shed.
type Stock struct {
	Name    string  `gyle:"name,required"`
	Counted Date    `gyle:"counted"` // the day the lots were counted
	Malts   []Malt  `gyle:"malts"`
	Hops    []Hops  `gyle:"hops"`
	Yeasts  []Yeast `gyle:"yeasts"`
	Salts   []Salt  `gyle:"salts"`
	Note    string  `gyle:"note"`
}

// Malt is one lot of a malt, cereal, sugar or extract. What is left out is
// taken as typical for the malt.
type Malt struct {
	Lot      string             `gyle:"lot,required"`
	Malt     string             `gyle:"malt,required"`
	Mass     *quantity.Mass     `gyle:"mass"`     // what is left of it
	Extract  *quantity.Fraction `gyle:"extract"`  // fine grind, of the dry mass
	Moisture *quantity.Fraction `gyle:"moisture"` // of the mass as it is
	Color    *quantity.Color    `gyle:"color"`
	PH       *quantity.PH       `gyle:"mash ph"` // of a mash in distilled water, cooled
	Buffer   *float64           `gyle:"buffer"`  // mEq per kg and pH
	Protein  *quantity.Fraction `gyle:"protein"`
	Bought   Date               `gyle:"bought"`
	Price    string             `gyle:"price"`
	Note     string             `gyle:"note"`
}

// Hops is one lot of hops.
type Hops struct {
	Lot     string                `gyle:"lot,required"`
	Hop     string                `gyle:"hop,required"`
	Mass    *quantity.Mass        `gyle:"mass"`
	Form    string                `gyle:"form"`  // pellets (default), cones or bag
	Alpha   *quantity.Fraction    `gyle:"alpha"` // on the day it was packed or analysed
	Oil     *quantity.OilContent  `gyle:"oil"`
	Packed  Date                  `gyle:"packed"`
	Age     *quantity.Duration    `gyle:"age"`            // instead of the day it was packed
	Kept    *quantity.Temperature `gyle:"kept"`           // temperature of storage
	Pack    string                `gyle:"pack"`           // open, airtight, foil (evacuated or flushed with gas)
	SixLoss *quantity.Fraction    `gyle:"six-month loss"` // alpha lost in six months at 20 °C in air
	Price   string                `gyle:"price"`
	Note    string                `gyle:"note"`
}

// Yeast is one lot of yeast.
type Yeast struct {
	Lot       string             `gyle:"lot,required"`
	Yeast     string             `gyle:"yeast,required"`
	Form      string             `gyle:"form"` // dry, liquid or slurry
	Mass      *quantity.Mass     `gyle:"mass"`
	Cells     *float64           `gyle:"cells"` // 10⁹ cells per gram (dry) or per mL
	Viability *quantity.Fraction `gyle:"viability"`
	Packed    Date               `gyle:"packed"`
	Price     string             `gyle:"price"` // counted in whole packs: "4.20 €/22 g", "2.10 a pack"
	Note      string             `gyle:"note"`
}

// Salt is one lot of a salt or an acid for the liquor.
type Salt struct {
	Lot    string           `gyle:"lot,required"`
	Salt   string           `gyle:"salt,required"` // or the acid
	Mass   *quantity.Mass   `gyle:"mass"`
	Volume *quantity.Volume `gyle:"volume"` // of an acid
	Bought Date             `gyle:"bought"`
	Price  string           `gyle:"price"`
	Note   string           `gyle:"note"`
}

// Date is a day of the calendar.
type Date = quantity.Date

// Parse reads a stock document. The error is document.Faults.
func Parse(file string, text []byte) (*Stock, error) {
	s := new(Stock)
	if _, err := document.Unmarshal(file, text, Kind, s); err != nil {
		return nil, err
	}
	return s, nil
}

// Text returns the canonical text of s.
func (s *Stock) Text() ([]byte, error) { return document.Marshal(Kind, s) }

// Validate finds the faults that no single field shows.
func (s *Stock) Validate(src *document.Source) document.Faults {
	var faults document.Faults
	add := func(path, hint, format string, args ...any) {
		faults = append(faults, src.Fault(path, fmt.Sprintf(format, args...), hint))
	}
	seen := map[string]string{}
	once := func(path, lot string) {
		if before, ok := seen[lot]; ok {
			add(path+".lot", "give each lot its own name, so that a log can point at it", "lot %s stands already at %s", lot, before)
		}
		seen[lot] = path
	}
	for i, m := range s.Malts {
		path := fmt.Sprintf("malts[%d]", i)
		once(path, m.Lot)
		between(add, path+".extract", m.Extract, 0, 1)
		between(add, path+".moisture", m.Moisture, 0, 0.5)
		if m.Mass != nil && *m.Mass < 0 {
			add(path+".mass", "", "a mass can't be negative")
		}
	}
	for i, h := range s.Hops {
		path := fmt.Sprintf("hops[%d]", i)
		once(path, h.Lot)
		between(add, path+".alpha", h.Alpha, 0, 0.7)
		between(add, path+".six-month loss", h.SixLoss, 0, 0.99)
		if h.Mass != nil && *h.Mass < 0 {
			add(path+".mass", "", "a mass can't be negative")
		}
		switch h.Form {
		case "", "pellets", "cones", "bag", "extract":
		default:
			add(path+".form", "write pellets, cones, bag or extract", "%q is no form of hops", h.Form)
		}
		switch h.Pack {
		case "", "open", "airtight", "foil":
		default:
			add(path+".pack", "write open, airtight (barrier, air inside) or foil (evacuated or flushed with gas)", "%q is no way to pack hops", h.Pack)
		}
		if h.Age != nil && !h.Packed.IsZero() {
			add(path+".age", "keep one of the two", "age and packed are both given")
		}
	}
	for i, y := range s.Yeasts {
		path := fmt.Sprintf("yeasts[%d]", i)
		once(path, y.Lot)
		between(add, path+".viability", y.Viability, 0, 1)
		switch y.Form {
		case "", "dry", "liquid", "slurry":
		default:
			add(path+".form", "write dry, liquid or slurry", "%q is no form of yeast", y.Form)
		}
	}
	for i, l := range s.Salts {
		once(fmt.Sprintf("salts[%d]", i), l.Lot)
	}
	s.validateSalts(add)
	return faults
}

// validateSalts finds amounts below nothing.
func (s *Stock) validateSalts(add func(path, hint, format string, args ...any)) {
	for i, l := range s.Salts {
		path := fmt.Sprintf("salts[%d]", i)
		if l.Mass != nil && *l.Mass < 0 {
			add(path+".mass", "", "a mass can't be negative")
		}
		if l.Volume != nil && *l.Volume < 0 {
			add(path+".volume", "", "a volume can't be negative")
		}
	}
}

// between complains of a share outside what can be.
func between(add func(path, hint, format string, args ...any), path string, f *quantity.Fraction, low, high quantity.Fraction) {
	if f != nil && (*f < low || *f > high) {
		add(path, "", "%v %% can't be: it lies between %v and %v %%", f.Percent(), low.Percent(), high.Percent())
	}
}
