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
	Acid   string            `placeholder:"ACID" help:"Acid for the sparge liquor: lactic-88."`
	Sparge string            `placeholder:"VOLUME" help:"Sparge liquor, for the acid."`
	JSON   bool              `name:"json" help:"Print the treatments for programs."`
	shelving
	printing
}

// Help is shown by "gyle treat --help".
func (treatCommand) Help() string {
	return `Example:

  gyle treat saltpan-lane.yaml --volume 28.8L --aim Ca=110 --aim Cl=100 --aim SO4=60 --soft 50%

The ways stand in the order of how near they come. The acid of the mash depends on the grist: gyle plan doses that.`
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
	liquor.Salts, liquor.Acid = c.Salt, c.Acid
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
	for _, a := range t.Salts {
		out.row(a.Name, ">"+pr.Mass(a.Mass), "into all of the liquor")
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
	out.note("~", t.Says)
	for _, c := range t.Cautions {
		out.note("!", c)
	}
}
