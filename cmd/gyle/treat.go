// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"gyle/formulate"
	"gyle/plan"
	"gyle/quantity"
	chem "gyle/science/water"
	"gyle/water"
)

// treatCommand finds ways to make a liquor of a water.
type treatCommand struct {
	Water  string            `arg:"" help:"Water: a file, or a name in the book."`
	Volume string            `required:"" placeholder:"VOLUME" help:"All the liquor: 28.8 L."`
	Aim    map[string]string `required:"" placeholder:"ION=MG/L" help:"What the liquor should hold, in mg/L: Ca=110."`
	Salt   []string          `placeholder:"SALT" help:"Salts at hand; without it those a brewer usually has."`
	Soft   string            `placeholder:"SHARE" help:"Largest share of distilled or reverse-osmosis water: 50 %."`
	Acid   string            `placeholder:"ACID" help:"Acid for mash and sparge: lactic-88."`
	Sparge string            `placeholder:"VOLUME" help:"The part of it that is sparged with."`
	Grain  []string          `sep:"none" placeholder:"MASS MALT" help:"Grain of the mash, for its pH: \"4.2 kg pale-ale\", \"180 g chocolate late\"."`
	PH     string            `name:"ph" placeholder:"PH" help:"Mash pH to aim at, before late grain: 5.45."`
	JSON   bool              `name:"json" help:"Print the treatments for programs."`
	shelving
	printing
}

// Help is shown by "gyle treat --help".
func (treatCommand) Help() string {
	return `Example:

  gyle treat saltpan-lane.yaml --volume 28.8L --aim Ca=110 --aim Cl=100 --aim SO4=60 --soft 50%

The ways stand in the order of how near they come. The acid of the mash depends on the grist: say it with --grain and --ph,
or let gyle plan reckon with the whole recipe.`
}

// Run treats.
func (c *treatCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	liquor, err := c.liquor(l)
	if err != nil {
		return err
	}
	ways, err := formulate.Treat(liquor)
	if err != nil {
		return err
	}
	if c.JSON {
		text, err := plan.WriteJSON(ways)
		if err == nil {
			_, err = fmt.Fprintf(s.out, "%s\n", text)
		}
		return err
	}
	out := &sheet{w: s.out}
	for _, w := range ways {
		printTreatment(out, w, liquor, c.printer())
	}
	return printPrices(out, liquor, ways[0])
}

// printPrices says how to have what the best treatment misses, and what more of
// an ion would cost.
func printPrices(out *sheet, l formulate.Liquor, best formulate.Treatment) error {
	outlets, err := formulate.Outlets(l, best)
	if err != nil {
		return err
	}
	trades, err := formulate.Trades(l)
	if err != nil {
		return err
	}
	if len(outlets) > 0 {
		out.heading("Ways out, first those that settle most at the least price")
	}
	for _, o := range outlets {
		left := ""
		if o.Missed > 0 {
			left = fmt.Sprintf(" (%d still missed)", o.Missed)
		}
		out.note("→", o.Says+left)
	}
	if len(trades) > 0 {
		out.heading("What more would cost")
	}
	for _, t := range trades {
		out.note("·", t.Says)
	}
	return nil
}

func (c *treatCommand) liquor(l *library) (liquor formulate.Liquor, err error) {
	if liquor.Report, err = load(l, water.Kind, c.Water, water.Parse); err != nil {
		return liquor, err
	}
	if liquor.Volume, err = quantity.ParseVolume(c.Volume); err != nil {
		return liquor, withHint("--volume", err)
	}
	liquor.Aims = chem.Aims{}
	for _, name := range slices.Sorted(maps.Keys(c.Aim)) {
		ion, ok := chem.ParseIon(name)
		if !ok {
			return liquor, usage("--aim: %s is no ion of a water; there are Ca, Mg, Na, K, HCO3, Cl, SO4", name)
		}
		aim, err := quantity.ParseConcentration(strings.TrimSuffix(c.Aim[name], " mg/L") + " mg/L")
		if err != nil {
			return liquor, withHint("--aim "+name, err)
		}
		liquor.Aims[ion] = float64(aim)
	}
	liquor.Salts, liquor.Acid, liquor.Reader = c.Salt, c.Acid, c.printer()
	if len(c.Grain) > 0 {
		if liquor.Goods, err = formulate.GoodsCalled(c.Grain); err != nil {
			return liquor, withHint("--grain", err)
		}
	}
	if c.PH != "" {
		ph, err := quantity.ParsePH(c.PH)
		if err != nil {
			return liquor, withHint("--ph", err)
		}
		liquor.PH = &ph
	}
	if c.Soft != "" {
		if liquor.MostSoft, err = quantity.ParseFraction(c.Soft); err != nil {
			return liquor, withHint("--soft", err)
		}
	}
	if c.Sparge != "" {
		if liquor.Sparge, err = quantity.ParseVolume(c.Sparge); err != nil {
			return liquor, withHint("--sparge", err)
		}
	}
	return liquor, nil
}

func printTreatment(out *sheet, t formulate.Treatment, l formulate.Liquor, pr quantity.Printer) {
	out.heading("%s", t.Name)
	if t.Soft > 0 {
		out.row("soft water", ">"+pr.Volume(quantity.Volume(float64(t.Soft)*float64(l.Volume))))
		out.row("water of the report", ">"+pr.Volume(quantity.Volume(float64(1-t.Soft)*float64(l.Volume))))
	}
	if l.Sparge > 0 {
		printSalts(out, pr, "into the mash liquor", t.Mash)
		printSalts(out, pr, "into the sparge liquor", t.Sparge)
	} else {
		printSalts(out, pr, "into all of the liquor", t.Salts)
	}
	if a := t.MashAcid; a != nil {
		out.row(a.Name, ">"+pr.Number(a.ML, 1)+" mL", "into the mash")
	}
	if t.SpargeAcid != nil {
		out.row(t.SpargeAcid.Name, ">"+pr.Number(t.SpargeAcid.ML, 1)+" mL", "into the sparge liquor, to pH "+pr.PH(t.SpargePH))
	}
	out.flush()
	var ions []string
	for _, ion := range chem.AllIons() {
		if ion != chem.Carbonate {
			ions = append(ions, fmt.Sprintf("%s %s", ion.Symbol(), pr.Number(t.Ions[ion], 0)))
		}
	}
	out.note(" ", strings.Join(ions, ", ")+" mg/L; residual alkalinity "+pr.Charge(t.Residual))
	if r := t.Rail; r != nil {
		out.note(" ", fmt.Sprintf("mash pH: grist alone %s, with the water %s, with salts %s, with acid %s ± %s, after the late grain %s",
			pr.PH(r.Distilled), pr.PH(r.Water), pr.PH(r.Salts), pr.PH(r.Acid), pr.Number(t.PHSD, 2), pr.PH(r.Late)))
	}
	out.note("~", t.Says)
	for _, c := range t.Cautions {
		out.note("!", c)
	}
}

func printSalts(out *sheet, pr quantity.Printer, where string, salts []plan.SaltDose) {
	for _, a := range salts {
		out.row(a.Name, ">"+pr.Mass(a.Mass), where)
	}
}
