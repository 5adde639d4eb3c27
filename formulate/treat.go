// SPDX-License-Identifier: MIT

package formulate

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/mash"
	chem "gyle/science/water"
	"gyle/water"
)

// A Liquor is what a water should become and with what.
type Liquor struct {
	Report *water.Water
	Volume quantity.Volume // of all the liquor, after dilution
	Sparge quantity.Volume // the part of it that is sparged with
	Aims   chem.Aims       // mg/L; an aim for bicarbonate is one for alkalinity
	Salts  []string        // ids or names of the salts at hand; empty: what a brewer usually has
	// MostSoft is the largest share of distilled or reverse-osmosis water that
	// may be blended in; 0: none is at hand.
	MostSoft quantity.Fraction
	// Acid is for the sparge liquor where that needs it, and for the mash where
	// there are Goods and a PH to bring them to before late grain goes in.
	Acid    string
	Goods   *plan.Goods     // nil: nothing is known of the mash
	DoughIn quantity.Volume // liquor that the goods are doughed in with; 0: all that isn't for the sparge
	PH      *quantity.PH
	Reader  quantity.Printer // units of the sentences
}

// A Treatment is one way to treat a liquor, with what it costs.
type Treatment struct {
	Name       string            `json:"name"` // "salts alone", "53 % of soft water, and salts"
	Soft       quantity.Fraction `json:"soft"`
	Salts      []plan.SaltDose   `json:"salts"`            // into all of the liquor
	Mash       []plan.SaltDose   `json:"mash"`             // the same, parted: into the mash liquor
	Sparge     []plan.SaltDose   `json:"sparge,omitempty"` // and into the sparge liquor
	Before     chem.Ions         `json:"before"`           // of the report
	Base       chem.Ions         `json:"base"`             // with the soft water in it
	Ions       chem.Ions         `json:"ions"`             // with the salts
	Missed     []chem.Miss       `json:"-"`
	Misses     []string          `json:"misses"`
	Misfit     float64           `json:"misfit"` // root of the mean square of the relative misses
	Residual   quantity.Charge   `json:"residualAlkalinity"`
	MashAcid   *plan.AcidDose    `json:"mashAcid,omitempty"`
	Rail       *mash.Rail        `json:"rail,omitempty"` // how the mash pH comes about
	PHSD       float64           `json:"phSD,omitempty"`
	SpargeAcid *plan.AcidDose    `json:"spargeAcid,omitempty"`
	SpargePH   quantity.PH       `json:"spargePH,omitempty"`
	Cautions   []string          `json:"cautions"`
	Says       string            `json:"says"` // what it does better and worse than the others
}

// Treat finds ways to make a liquor of a report: salts alone, the least soft
// water that leaves nothing above its aim, and the blend that comes nearest. Ways
// that come to the same are said once; the nearest stands first, and a plan with
// the same wishes treats its liquor that way.
//
// The salts of a blend are solved by non-negative least squares with their
// caps, and weighed in whole steps of the scale. A report whose ions don't
// balance is an error that says what may be mislabelled: a treatment of wrong
// numbers is worse than none.
func Treat(l Liquor) ([]Treatment, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	salts, err := saltsCalled(l.Salts)
	if err != nil {
		return nil, err
	}
	base := plan.Reading(l.Report)
	alone := chem.SolveSalts(base, l.Volume, l.Aims, salts)
	shares := []quantity.Fraction{0}
	if l.MostSoft > 0 {
		shares = append(shares, min(alone.Dilution, l.MostSoft), chem.SoftShare(base, l.Volume, l.Aims, salts, l.MostSoft))
	}
	var list []Treatment
	for _, share := range shares {
		t, err := l.with(share, salts)
		if err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(list, func(o Treatment) bool { return math.Abs(float64(o.Soft-t.Soft)) < 0.025 }) {
			list = append(list, t)
		}
	}
	slices.SortStableFunc(list, func(a, b Treatment) int {
		if math.Abs(a.Misfit-b.Misfit) < 1e-6 {
			return cmp.Compare(a.Soft, b.Soft)
		}
		return cmp.Compare(a.Misfit, b.Misfit)
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
	case l.Sparge < 0 || l.Sparge > l.Volume:
		return errors.New("treat a liquor: the sparge is a part of the liquor")
	}
	if l.DoughIn <= 0 {
		l.DoughIn = l.Volume - l.Sparge
	}
	balance := chem.Balance(plan.Reading(l.Report))
	if balance.Verdict == chem.Reject {
		return fmt.Errorf("treat %s: its ions don't balance (%+.1f %%): check what the labels of the report mean first", l.Report.Name, balance.Difference)
	}
	return nil
}

func saltsCalled(names []string) (salts []chem.Salt, err error) {
	if len(names) == 0 {
		names = plan.UsualSalts
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

// with works out one treatment.
func (l *Liquor) with(share quantity.Fraction, salts []chem.Salt) (Treatment, error) {
	share = quantity.Fraction(math.Round(100*float64(share)) / 100)
	supply := plan.Supply(l.Report)
	t := Treatment{Name: "salts alone", Soft: share, Before: supply.Ions}
	supply = plan.Blend(supply, share)
	p := chem.SolveSalts(supply.Ions, l.Volume, l.Aims, salts).Stepped(plan.SaltStep(l.Volume))
	t.Base, t.Ions, t.Misfit, t.Residual, t.Missed = supply.Ions, p.Ions, p.Misfit(), chem.ResidualAlkalinity(p.Ions), p.Misses
	for _, a := range p.Additions {
		t.Salts = append(t.Salts, plan.SaltDose{Salt: a.Salt.ID, Name: a.Salt.Name, Mass: a.Mass})
	}
	l.part(&t)
	for _, m := range p.Misses {
		t.Misses = append(t.Misses, fmt.Sprintf("%s %.0f instead of %.0f mg/L: %s", m.Ion.Symbol(), m.Got, m.Aim, m.Reason))
	}
	if share > 0 {
		t.Name = fmt.Sprintf("%.0f %% of soft water, and salts", share.Percent())
	}
	t.Cautions = chem.DoseWarnings(l.Reader, l.Volume, p.Additions)
	var whole chem.Ions // as it is told
	for i, c := range p.Ions {
		whole[i] = math.Round(c)
	}
	for _, c := range chem.Check(whole) {
		t.Cautions = append(t.Cautions, c.Text)
	}
	if slices.ContainsFunc(t.Salts, func(s plan.SaltDose) bool { return s.Salt == "slaked-lime" }) {
		t.Cautions = append(t.Cautions, "Slaked lime is caustic: goggles and gloves, and never together with acid.")
	}
	return t, l.sour(&t, supply)
}

// part parts the salts between mash and sparge liquor by their volumes, in
// steps of the scale, so that both hold the same.
func (l *Liquor) part(t *Treatment) {
	step := plan.SaltStep(l.Volume)
	for _, s := range t.Salts {
		inSparge := s
		inSparge.Mass = quantity.Mass(math.Round(float64(s.Mass*quantity.Mass(l.Sparge/l.Volume)/step))) * step
		if s.Mass -= inSparge.Mass; s.Mass > step/2 {
			t.Mash = append(t.Mash, s)
		}
		if inSparge.Mass > 0 {
			t.Sparge = append(t.Sparge, inSparge)
		}
	}
}

// sour doses the acid of mash and sparge.
func (l *Liquor) sour(t *Treatment, untreated chem.Supply) error {
	var acid chem.Acid
	aim := l.PH
	if l.Acid == "" {
		aim = nil
	} else {
		var ok bool
		if acid, ok = plan.AcidCalled(l.Acid); !ok {
			return fmt.Errorf("%s is no known acid; there are %s", l.Acid, strings.Join(data.AcidNames(), ", "))
		}
		if acid.NeedsConfirmation {
			return fmt.Errorf("%s is too dangerous to plan with: a 10 %% solution does the same work", acid.Name)
		}
	}
	treated := untreated
	treated.Ions = t.Ions
	if l.Goods != nil {
		soured := l.Goods.Sour(l.DoughIn, untreated, treated, acid, aim)
		t.Rail, t.PHSD = &soured.Rail, l.Goods.SD
		switch {
		case soured.ML > 0:
			t.MashAcid = &plan.AcidDose{Acid: acid.ID, Name: acid.Name, ML: soured.ML}
		case soured.ML < 0:
			t.Misses = append(t.Misses, fmt.Sprintf("mash pH %s instead of %s: the mash is already more acid than that; baking soda would raise it", l.Reader.PH(soured.Rail.Acid), l.Reader.PH(*l.PH)))
		}
	}
	if l.Acid == "" || l.Sparge <= 0 {
		l.acidCare(t, acid)
		return nil
	}
	switch ml, err := plan.SourSparge(treated, l.Sparge, acid); {
	case err != nil:
		t.Cautions = append(t.Cautions, fmt.Sprintf("the sparge liquor can't be brought to pH %s with %s: %v", l.Reader.Number(float64(plan.SpargePH), 1), acid.Name, err))
	case ml > 0:
		t.SpargeAcid, t.SpargePH = &plan.AcidDose{Acid: acid.ID, Name: acid.Name, ML: ml}, plan.SpargePH
	}
	l.acidCare(t, acid)
	return nil
}

// acidCare says what to mind with an acid.
func (l *Liquor) acidCare(t *Treatment, acid chem.Acid) {
	if t.MashAcid != nil || t.SpargeAcid != nil {
		t.Cautions = append(t.Cautions, strings.ToUpper(acid.Name[:1])+acid.Name[1:]+". "+acid.Safety+" Keep to what the label and the local code say.")
	}
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
		parts = append(parts, "takes "+l.Reader.Volume(quantity.Volume(float64(t.Soft)*float64(l.Volume)))+" of soft water")
	} else if len(all) > 1 {
		parts = append(parts, "needs no soft water")
	}
	return strings.Join(parts, "; ")
}
