// SPDX-License-Identifier: MIT

package web

import (
	"gyle/data"
	"gyle/quantity"
	"gyle/shed"
	"gyle/stock"
)

// saltFields are the fields of a lot of a salt or an acid.
func saltFields(at string) []formGroup {
	return []formGroup{{Title: "The lot", Fields: []formField{
		{Path: at + ".lot", Label: "Mark of the lot", Hint: "A name of its own: S-1."},
		{Path: at + ".salt", Label: "Salt or acid", Hint: "As recipes call it: calcium-chloride, gypsum, lactic-88."},
		{Path: at + ".mass", Label: "What is left of it", Unit: "g"},
		{Path: at + ".volume", Label: "What is left of an acid", Unit: "L"},
		{Path: at + ".bought", Label: "Bought on", Hint: "Year-month-day: 2026-09-05."},
		{Path: at + ".price", Label: "Price", Hint: "As you paid: 20 €/kg, 9 €/500 mL."},
		{Path: at + ".note", Label: "Note", Wide: true},
	}}}
}

// salt is a lot of a salt or an acid as a line.
func (l lotReader) salt(i int, x stock.Salt) namedLot {
	line := lotLine{List: "salts", Number: i + 1, Lot: x.Lot, Mass: massText(x.Mass, l.pr), Note: x.Note, mass: x.Mass, born: x.Bought.Time, Age: l.since(x.Bought, "bought")}
	full := ""
	if typical, ok := data.Salt(x.Salt); ok {
		full = typical.Name
	} else if typical, ok := data.Acid(x.Salt); ok {
		full = typical.Name
	}
	if x.Volume != nil {
		line.Mass = l.pr.Volume(*x.Volume)
	}
	if x.Price != "" {
		line.Facts = append(line.Facts, lotFact{"price", x.Price, false})
	}
	return namedLot{x.Salt, full, line.search(x.Salt, full)}
}

// lotAccount is what became of a lot since it was counted.
type lotAccount struct {
	Used, Reserved, Left, Short string
	By                          []lotUser
}

// lotUser is a gyle that took of a lot.
type lotUser struct{ Path, Name, Mass, How string }

// accountsOf prints the accounts of the lots of which something was taken.
func accountsOf(lots []shed.Lot, pr quantity.Printer) map[string]*lotAccount {
	accounts := map[string]*lotAccount{}
	mass := func(m quantity.Mass) string {
		if m <= 0 {
			return ""
		}
		return pr.Mass(m)
	}
	for _, l := range lots {
		if len(l.Uses) == 0 {
			continue
		}
		a := &lotAccount{Used: mass(l.Used), Reserved: mass(l.Reserved), Short: mass(l.Short)}
		if l.Counted != nil {
			a.Left = pr.Mass(l.Left)
		}
		for _, u := range l.Uses {
			a.By = append(a.By, lotUser{"/gyle/" + u.Gyle, u.Title + ", " + u.Day.String(), pr.Mass(u.Mass), string(u.How)})
		}
		accounts[l.Name] = a
	}
	return accounts
}
