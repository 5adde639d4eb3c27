// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"errors"
	"maps"
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"gyle/data"
	"gyle/formulate"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	chem "gyle/science/water"
)

// aimIons are the ions that the water of a recipe can aim at.
var aimIons = []chem.Ion{chem.Calcium, chem.Magnesium, chem.Sodium, chem.Chloride, chem.Sulfate, chem.Bicarbonate}

// treatQuery is the address of a treatment, with everything as it was typed.
// Nothing of it is kept elsewhere.
type treatQuery struct {
	Water                string
	Recipe, House, Stock string // slugs
	All, Sparge, Grain   string // without a recipe: litres, and the grain of the mash
	Aim                  map[string]string
	PH, Soft, Acid       string
	Salts                []string // ids
	Typed                bool     // the form was sent: an empty field means none
}

func readTreatQuery(slug string, v url.Values) treatQuery {
	typed := func(key string) string { return strings.TrimSpace(v.Get(key)) }
	q := treatQuery{
		Water: slug, Recipe: v.Get("recipe"), House: v.Get("house"), Stock: v.Get("stock"),
		All: typed("all"), Sparge: typed("sparge"), Grain: plainLines(typed("grain")), PH: typed("ph"), Soft: typed("soft"), Acid: v.Get("acid"),
		Salts: v["salt"], Aim: map[string]string{}, Typed: v.Has("form"),
	}
	for _, ion := range aimIons {
		if text := typed("aim." + ion.Symbol()); text != "" {
			q.Aim[ion.Symbol()] = text
		}
	}
	q.Typed = q.Typed || len(q.Aim) > 0 || len(q.Salts) > 0
	return q
}

// values is the query without what is empty.
func (q treatQuery) values() url.Values {
	v := url.Values{}
	for _, p := range [][2]string{
		{"recipe", q.Recipe}, {"house", q.House}, {"stock", q.Stock}, {"all", q.All}, {"sparge", q.Sparge}, {"grain", q.Grain},
		{"ph", q.PH}, {"soft", q.Soft}, {"acid", q.Acid},
	} {
		if p[1] != "" {
			v.Set(p[0], p[1])
		}
	}
	for symbol, text := range q.Aim {
		v.Set("aim."+symbol, text)
	}
	if q.Typed {
		v.Set("form", "1")
		v["salt"] = q.Salts
	}
	return v
}

// Path is the stable address of the sheet.
func (q treatQuery) Path() string { return "/water/" + q.Water + "/treat?" + q.values().Encode() }

// JSON is the address of the same for programs.
func (q treatQuery) JSON() string { return "/water/" + q.Water + "/treat.json?" + q.values().Encode() }

// Has reports whether a salt is at hand.
func (q treatQuery) Has(salt string) bool { return slices.Contains(q.Salts, salt) }

// fillFrom takes the wishes of a recipe for a form that wasn't sent yet.
func (q *treatQuery) fillFrom(r *recipe.Recipe) {
	if q.Typed {
		return
	}
	names := plan.UsualSalts
	if r != nil {
		for ion, aim := range plan.WaterAims(r.Water) {
			q.Aim[ion.Symbol()] = formNumber(aim)
		}
		if r.Mash.PH != nil && q.PH == "" {
			q.PH = formNumber(float64(*r.Mash.PH))
		}
		if w := r.Water; w != nil {
			q.Acid = cmp.Or(q.Acid, acidID(w.Acid))
			if w.Soft != nil && q.Soft == "" {
				q.Soft = formNumber(w.Soft.Percent()) + " %"
			}
			if len(w.Salts) > 0 {
				names = w.Salts
			}
		}
	}
	q.Salts = nil
	for _, name := range names {
		if s, ok := data.Salt(name); ok {
			q.Salts = append(q.Salts, s.ID)
		}
	}
	if q.Acid == "" {
		q.Acid = acidID("lactic-88")
	}
}

// acidID is the id of an acid called by any of its names.
func acidID(name string) string {
	a, _ := plan.AcidCalled(name)
	return a.ID
}

// formNumber is a number as it stands in a field, with two decimals at most.
func formNumber(x float64) string {
	return strconv.FormatFloat(math.Round(100*x)/100, 'f', -1, 64)
}

// read puts what was typed into a liquor; what can't be read is told beside its
// field.
func (q treatQuery) read(l *formulate.Liquor, faults *fieldFaults) {
	fault := func(field string, err error) { *faults = append(*faults, wishFault(field, err)) }
	l.Aims = chem.Aims{}
	for _, symbol := range slices.Sorted(maps.Keys(q.Aim)) {
		ion, _ := chem.ParseIon(symbol)
		c, err := quantity.ParseConcentration(withUnit(q.Aim[symbol], "mg/L"))
		if err == nil && c < 0 {
			err = errors.New("less than nothing can't be dissolved")
		}
		if err != nil {
			fault("aim."+symbol, err)
			continue
		}
		l.Aims[ion] = float64(c)
	}
	if q.PH != "" {
		ph, err := quantity.ParsePH(q.PH)
		if err != nil {
			fault("ph", err)
		} else if ph < 4 || ph > 7 {
			fault("ph", errors.New("no mash is brought there: 5.2 to 5.6 is usual"))
		} else {
			l.PH = &ph
		}
	}
	if q.Soft != "" {
		share, err := quantity.ParseFraction(withUnit(q.Soft, "%"))
		if err == nil && (share < 0 || share > 1) {
			err = errors.New("a share lies between 0 and 100 %")
		}
		if err != nil {
			fault("soft", err)
		} else {
			l.MostSoft = share
		}
	}
	l.Salts, l.Acid = q.Salts, q.Acid
	if len(q.Salts) == 0 {
		*faults = append(*faults, fieldFault{"salt", "no salt is at hand", "tick at least one"})
	}
}

// readLitres reads the liquor that no recipe sets.
func (q treatQuery) readLitres(l *formulate.Liquor, faults *fieldFaults) {
	var err error
	if l.Volume, err = quantity.ParseVolume(q.All); err != nil {
		*faults = append(*faults, wishFault("all", err))
	} else if l.Volume <= 0 {
		*faults = append(*faults, fieldFault{"all", "there is some liquor to treat", "write 28.8 L"})
	}
	if q.Sparge != "" {
		if l.Sparge, err = quantity.ParseVolume(q.Sparge); err != nil {
			*faults = append(*faults, wishFault("sparge", err))
		} else if l.Sparge < 0 || err == nil && l.Volume > 0 && l.Sparge > l.Volume {
			*faults = append(*faults, fieldFault{"sparge", "the sparge is a part of the liquor", "write less than all of it"})
		}
	}
	if q.Grain == "" {
		return
	}
	lines := strings.FieldsFunc(q.Grain, func(r rune) bool { return r == '\n' || r == ',' || r == ';' })
	if l.Goods, err = formulate.GoodsCalled(lines); err != nil {
		*faults = append(*faults, wishFault("grain", err))
	}
}
