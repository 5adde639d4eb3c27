// SPDX-License-Identifier: MIT

package formulate

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	chem "gyle/science/water"
	"gyle/water"
)

// A Liquor is what a water should become and with what.
type Liquor struct {
	Report *water.Water
	Volume quantity.Volume // of all the liquor, after dilution
	Aims   chem.Aims       // mg/L; an aim for bicarbonate is one for alkalinity
	Salts  []string        // ids or names of the salts at hand; empty: what a brewer usually has
	// MostSoft is the largest share of distilled or reverse-osmosis water that
	// may be blended in; 0: none is at hand.
	MostSoft quantity.Fraction
	Step     quantity.Mass // of the scale; 0: 0.1 g
	// Acid, where named, brings the sparge liquor to SpargePH, apart from the
	// mash, whose acid depends on the grist: a plan doses that.
	Acid     string
	Sparge   quantity.Volume
	SpargePH quantity.PH
}

// A Treatment is one way to treat a liquor, with what it costs.
type Treatment struct {
	Name       string            `json:"name"` // "salts alone", "53 % of soft water, and salts"
	Soft       quantity.Fraction `json:"soft"`
	Salts      []plan.SaltDose   `json:"salts"`
	Ions       chem.Ions         `json:"ions"`
	Misses     []string          `json:"misses"`
	Misfit     float64           `json:"misfit"` // root of the mean square of the relative misses
	Residual   quantity.Charge   `json:"residualAlkalinity"`
	SpargeAcid *plan.AcidDose    `json:"spargeAcid,omitempty"`
	SpargePH   quantity.PH       `json:"spargePH,omitempty"`
	Cautions   []string          `json:"cautions"`
	Says       string            `json:"says"` // what it does better and worse than the others
}

// usualSalts are what a brewer usually has at hand, as in a plan.
var usualSalts = []string{"calcium-chloride", "gypsum", "epsom-salt", "table-salt", "baking-soda"}

// Treat finds ways to make a liquor of a report: salts alone, the least soft
// water that leaves nothing above its aim, and the blend that comes nearest. Ways
// that come to the same are said once; the nearest stands first.
//
// The salts of a blend are solved by non-negative least squares with their
// caps, and weighed in whole steps of the scale. A report whose ions don't
// balance is an error that says what may be mislabelled: a treatment of wrong
// numbers is worse than none.
func Treat(l Liquor) ([]Treatment, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	salts, err := l.salts()
	if err != nil {
		return nil, err
	}
	base := plan.Reading(l.Report)
	alone := chem.SolveSalts(base, l.Volume, l.Aims, salts)
	shares := []quantity.Fraction{0}
	if l.MostSoft > 0 {
		shares = append(shares, min(alone.Dilution, l.MostSoft), l.nearest(base, salts))
	}
	var list []Treatment
	for _, share := range shares {
		t, err := l.with(base, share, salts)
		if err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(list, func(o Treatment) bool { return math.Abs(float64(o.Soft-t.Soft)) < 0.025 }) {
			list = append(list, t)
		}
	}
	slices.SortStableFunc(list, func(a, b Treatment) int {
		if math.Abs(a.Misfit-b.Misfit) < 1e-6 {
			return int(math.Copysign(1, float64(a.Soft-b.Soft)))
		}
		return int(math.Copysign(1, a.Misfit-b.Misfit))
	})
	for i := range list {
		list[i].Says = l.says(list[i], list)
	}
	return list, nil
}

func (l *Liquor) check() error {
	switch {
	case l.Report == nil:
		return errors.New("treat a liquor: a report of the water is needed")
	case l.Volume <= 0:
		return errors.New("treat a liquor: its volume is needed")
	case len(l.Aims) == 0:
		return errors.New("treat a liquor: say what it should hold: Ca 110, Cl 100, SO4 60")
	case l.MostSoft < 0 || l.MostSoft > 1:
		return errors.New("treat a liquor: the share of soft water lies between 0 and 100 %")
	case l.Acid != "" && (l.Sparge <= 0 || l.Sparge > l.Volume):
		return errors.New("treat a liquor: the sparge is a part of the liquor")
	}
	if l.Step <= 0 {
		l.Step = quantity.Grams(0.1)
	}
	if l.SpargePH == 0 {
		l.SpargePH = 5.7 // common practice: below it husks give off little
	}
	balance := chem.Balance(plan.Reading(l.Report))
	if balance.Verdict == chem.Reject {
		return fmt.Errorf("treat %s: its ions don't balance (%+.1f %%): check what the labels of the report mean first", l.Report.Name, balance.Difference)
	}
	return nil
}

func (l *Liquor) salts() (salts []chem.Salt, err error) {
	names := l.Salts
	if len(names) == 0 {
		names = usualSalts
	}
	for _, name := range names {
		typical, _ := data.Salt(name)
		salt, ok := chem.SaltByID(typical.ID)
		if !ok {
			return nil, fmt.Errorf("%s is no known brewing salt; there are %s", name, strings.Join(data.SaltNames(), ", "))
		}
		salts = append(salts, salt)
	}
	return salts, nil
}

// nearest seeks the share of soft water whose salts come nearest to the aims,
// in hundredths: what a brewer measures, and few enough to try them all.
func (l *Liquor) nearest(base chem.Ions, salts []chem.Salt) (best quantity.Fraction) {
	least := math.Inf(1)
	for percent := 0; percent <= int(math.Floor(100*float64(l.MostSoft)+1e-9)); percent++ {
		share := quantity.Fraction(float64(percent) / 100)
		misfit := chem.SolveSalts(base.Mix(share, chem.Ions{}), l.Volume, l.Aims, salts).Misfit()
		if misfit < least-1e-4 { // less isn't worth a bucket of water
			best, least = share, misfit
		}
	}
	return best
}

// with works out one treatment.
func (l *Liquor) with(base chem.Ions, share quantity.Fraction, salts []chem.Salt) (Treatment, error) {
	share = quantity.Fraction(math.Round(100*float64(share)) / 100)
	p := chem.SolveSalts(base.Mix(share, chem.Ions{}), l.Volume, l.Aims, salts).Stepped(l.Step)
	t := Treatment{Name: "salts alone", Soft: share, Ions: p.Ions, Misfit: p.Misfit(), Residual: chem.ResidualAlkalinity(p.Ions)}
	for _, a := range p.Additions {
		t.Salts = append(t.Salts, plan.SaltDose{Salt: a.Salt.ID, Name: a.Salt.Name, Mass: a.Mass})
	}
	for _, m := range p.Misses {
		t.Misses = append(t.Misses, fmt.Sprintf("%s %.0f instead of %.0f mg/L: %s", m.Ion.Symbol(), m.Got, m.Aim, m.Reason))
	}
	if share > 0 {
		t.Name = fmt.Sprintf("%.0f %% of soft water, and salts", share.Percent())
	}
	t.Cautions = chem.DoseWarnings(l.Volume, p.Additions)
	for _, c := range chem.Check(p.Ions) {
		t.Cautions = append(t.Cautions, c.Text)
	}
	if l.Acid == "" {
		return t, nil
	}
	typical, _ := data.Acid(l.Acid)
	acid, ok := chem.AcidByID(typical.ID)
	if !ok {
		return t, fmt.Errorf("%s is no known acid; there are %s", l.Acid, strings.Join(data.AcidNames(), ", "))
	}
	supply := plan.Supply(l.Report)
	supply.Ions = p.Ions
	dose, err := chem.Acidify(supply, l.Sparge, acid, l.SpargePH)
	if err != nil {
		t.Cautions = append(t.Cautions, fmt.Sprintf("the sparge liquor can't be brought to pH %.1f with %s: %v", float64(l.SpargePH), acid.Name, err))
		return t, nil
	}
	t.SpargeAcid, t.SpargePH = &plan.AcidDose{Acid: acid.ID, Name: acid.Name, ML: dose.Millilitres}, l.SpargePH
	t.Cautions = append(t.Cautions, dose.Warnings...)
	t.Cautions = append(t.Cautions, "Acid burns skin and eyes: goggles and gloves, acid into water and never the other way round, and keep to what the label and the local code say.")
	return t, nil
}

// says compares a treatment with the others.
func (l *Liquor) says(t Treatment, all []Treatment) string {
	var parts []string
	switch {
	case len(t.Misses) == 0:
		parts = append(parts, "meets every aim")
	default:
		parts = append(parts, t.Misses...)
	}
	if t.Soft > 0 {
		parts = append(parts, fmt.Sprintf("takes %.1f L of soft water", float64(t.Soft)*float64(l.Volume)))
	} else if len(all) > 1 {
		parts = append(parts, "needs no soft water")
	}
	return strings.Join(parts, "; ")
}
