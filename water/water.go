// SPDX-License-Identifier: MIT

package water

import (
	"fmt"
	"strconv"
	"strings"

	"gyle/internal/document"
	"gyle/quantity"
)

// Kind is the first key of a water document: "gyle: water/1".
const Kind = "water"

// Water is the report of one supply.
type Water struct {
	Name       string       `gyle:"name,required"`
	Supply     string       `gyle:"supply"` // who printed it
	Date       string       `gyle:"date"`   // as printed: a day, a year, "mean of 2025"
	PH         *quantity.PH `gyle:"pH"`
	Printed    Printed      `gyle:"printed,required,flow"`
	Alkalinity *Alkalinity  `gyle:"alkalinity"` // measured; it goes before bicarbonate
	Endpoint   *quantity.PH `gyle:"endpoint"`   // pH to which alkalinity was titrated
	Meant      []Meaning    `gyle:"meant,flow"`
	Note       string       `gyle:"note"`
}

// Printed holds the ions as the report prints them, in mg/L. An ion that is
// left out was not reported, which is not the same as none.
type Printed struct {
	Ca   *quantity.Concentration `gyle:"Ca"`
	Mg   *quantity.Concentration `gyle:"Mg"`
	Na   *quantity.Concentration `gyle:"Na"`
	K    *quantity.Concentration `gyle:"K"`
	HCO3 *quantity.Concentration `gyle:"HCO3"`
	CO3  *quantity.Concentration `gyle:"CO3"`
	Cl   *quantity.Concentration `gyle:"Cl"`
	SO4  *quantity.Concentration `gyle:"SO4"`
	NO3  *quantity.Concentration `gyle:"NO3"`
}

// Meaning is what a printed number really was: "HCO3 as CaCO3", "SO4 as S".
type Meaning struct{ Ion, As string }

// meanings lists what can be said in a Meaning: the usual ways in which
// laboratories state an ion as something else.
var meanings = []Meaning{
	{"HCO3", "CaCO3"}, {"SO4", "S"}, {"NO3", "N"}, {"Ca", "CaCO3"}, {"Mg", "CaCO3"},
}

// UnmarshalText reads a meaning.
func (m *Meaning) UnmarshalText(b []byte) error {
	fields := strings.Fields(string(b))
	if len(fields) == 3 && fields[1] == "as" {
		for _, known := range meanings {
			if known.Ion == fields[0] && known.As == fields[2] {
				*m = known
				return nil
			}
		}
	}
	var forms []string
	for _, known := range meanings {
		forms = append(forms, known.String())
	}
	return &quantity.ParseError{Text: string(b), Msg: fmt.Sprintf("%q is no known mislabel", b), Hint: "write one of " + strings.Join(forms, ", ")}
}

// MarshalText writes m.
func (m Meaning) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

func (m Meaning) String() string { return m.Ion + " as " + m.As }

// Alkalinity is a measured alkalinity: "138 mg/L as CaCO3", "2.76 mEq/L",
// "2.76 mmol/L" (acid capacity) or "7.7 °dH". It keeps the unit it was
// written in.
type Alkalinity struct {
	Value float64
	Unit  string
}

// The units of [Alkalinity] with the mEq/L in one of each: 50.043 mg of CaCO3
// carry 1 mEq; one German degree is 10 mg CaO per litre.
var alkalinityUnits = map[string]float64{
	"mg/L as CaCO3": 1 / 50.043,
	"mEq/L":         1,
	"mmol/L":        1, // acid capacity to pH 4.3, moles of acid
	"°dH":           0.35665,
}

// unitSpellings are other ways to write those units, in lower case.
var unitSpellings = map[string]string{
	"mg/l as caco3": "mg/L as CaCO3", "ppm as caco3": "mg/L as CaCO3", "mg/l caco3": "mg/L as CaCO3", "ppm caco3": "mg/L as CaCO3",
	"meq/l": "mEq/L", "mval/l": "mEq/L", "mmol/l": "mmol/L", "°dh": "°dH", "dh": "°dH", "° dh": "°dH",
}

const alkalinityHint = `write "138 mg/L as CaCO3", "2.76 mEq/L", "2.76 mmol/L" (acid capacity) or "7.7 °dH"`

// UnmarshalText reads an alkalinity.
func (a *Alkalinity) UnmarshalText(b []byte) error {
	s := strings.Join(strings.Fields(string(b)), " ")
	number, rest, _ := strings.Cut(s, " ")
	v, err := strconv.ParseFloat(strings.ReplaceAll(number, ",", "."), 64)
	unit, ok := unitSpellings[strings.ToLower(rest)]
	switch {
	case err == nil && (rest == "" || strings.EqualFold(rest, "mg/L") || strings.EqualFold(rest, "ppm")):
		return &quantity.ParseError{Text: s, Msg: fmt.Sprintf("%q says not of what", s),
			Hint: fmt.Sprintf("write \"%s mg/L as CaCO3\"; a bicarbonate stands under printed as HCO3", number)}
	case err != nil || !ok || !(v >= 0 && v < 1e4):
		return &quantity.ParseError{Text: s, Msg: fmt.Sprintf("%q is no alkalinity", s), Hint: alkalinityHint}
	}
	*a = Alkalinity{v, unit}
	return nil
}

// MarshalText writes a in the unit it was written in.
func (a Alkalinity) MarshalText() ([]byte, error) {
	return []byte(strconv.FormatFloat(a.Value, 'f', -1, 64) + " " + a.Unit), nil
}

// Charge returns a in mEq/L.
func (a Alkalinity) Charge() quantity.Charge {
	return quantity.Charge(a.Value * alkalinityUnits[a.Unit])
}

// Parse reads a water document. The error is document.Faults.
func Parse(file string, text []byte) (*Water, error) {
	w := new(Water)
	if _, err := document.Unmarshal(file, text, Kind, w); err != nil {
		return nil, err
	}
	return w, nil
}

// Text returns the canonical text of w.
func (w *Water) Text() ([]byte, error) { return document.Marshal(Kind, w) }

// Validate finds the faults that no single field shows.
func (w *Water) Validate(s *document.Source) document.Faults {
	var faults document.Faults
	seen := map[string]bool{}
	for i, m := range w.Meant {
		if seen[m.Ion] {
			faults = append(faults, s.Fault(fmt.Sprintf("meant[%d]", i), m.Ion+" is given two meanings", "keep one"))
		}
		seen[m.Ion] = true
	}
	if w.PH != nil && (*w.PH < 3 || *w.PH > 12) {
		faults = append(faults, s.Fault("pH", "no water supply has this pH", "drinking water lies between 6.5 and 9.5"))
	}
	p := w.Printed
	for _, ion := range []struct {
		name  string
		value *quantity.Concentration
	}{{"Ca", p.Ca}, {"Mg", p.Mg}, {"Na", p.Na}, {"K", p.K}, {"HCO3", p.HCO3}, {"CO3", p.CO3}, {"Cl", p.Cl}, {"SO4", p.SO4}, {"NO3", p.NO3}} {
		if ion.value != nil && *ion.value < 0 {
			faults = append(faults, s.Fault("printed."+ion.name, "a concentration can't be negative", ""))
		}
	}
	return faults
}
