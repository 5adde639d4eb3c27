// SPDX-License-Identifier: MIT

package main

import (
	"fmt"

	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/color"
	"gyle/science/gravity"
	"gyle/science/mash"
)

// volume explains a volume as it was read: what it is at 20 °C, its extract,
// and the yield it means, with the mistake of taking it for cold.
func (c *whyCommand) volume(l *library, text string) (answer, error) {
	v, err := quantity.ParseVolumeAt(text)
	if err != nil {
		return answer{}, withHint("volume", err)
	}
	pr := c.printer()
	cold := gravity.VolumeAt20(v)
	a := answer{
		Title:    pr.VolumeAt(v) + ", as read",
		Note:     "What was read is kept as read; the volume at 20 °C follows from it.",
		Formulas: formulasNamed("gravity.VolumeAt20"),
	}
	a.add("at 20 °C", pr.Number(cold.Litres(), 2)+" L")
	if c.Gravity != "" {
		if err := c.extract(l, &a, v, cold); err != nil {
			return answer{}, err
		}
	}
	return a, nil
}

// extract adds the extract in the volume and, for a recipe on a house, the yield.
func (c *whyCommand) extract(l *library, a *answer, read quantity.VolumeAt, cold quantity.Volume) error {
	g, err := quantity.ParseGravity(c.Gravity)
	if err != nil {
		return withHint("--gravity", err)
	}
	pr, sg := c.printer(), gravity.SGOf(g)
	true20, asCold := gravity.ExtractMass(cold, sg), gravity.ExtractMass(read.Volume, sg)
	a.add("extract at "+pr.SG(sg), pr.Number(float64(true20), 3)+" kg", "taken as cold: "+pr.Number(float64(asCold), 3)+" kg")
	if c.To != "" {
		if err := c.madeUp(a, cold, sg); err != nil {
			return err
		}
	}
	if c.Recipe == "" || c.House == "" {
		return nil
	}
	p, err := c.plan(l)
	if err != nil {
		return err
	}
	laboratory := laboratoryExtract(p)
	right, wrong := float64(true20)/laboratory, float64(asCold)/laboratory
	a.add("yield", pr.Number(100*right, 1)+" %", "taken as cold: "+pr.Number(100*wrong, 1)+" %")
	if wrong/right > 1.02 {
		a.add("", "", fmt.Sprintf("hot wort takes up %.0f %% more room: a yield that jumps so is a hot volume read as cold", 100*(wrong/right-1)))
	}
	return nil
}

// madeUp adds the gravity of the same extract in another volume.
func (c *whyCommand) madeUp(a *answer, cold quantity.Volume, sg quantity.SG) error {
	to, err := quantity.ParseVolumeAt(c.To)
	if err != nil {
		return withHint("--to", err)
	}
	pr := c.printer()
	now := gravity.Evaporate(gravity.Wort{Volume: cold, Extract: gravity.PlatoFromSG(sg)}, gravity.VolumeAt20(to))
	a.add("in "+pr.VolumeAt(to), pr.SG(now.SG()), pr.Plato(now.Extract))
	return nil
}

// laboratoryExtract is the extract of the mashed grist by the laboratory, in kg.
func laboratoryExtract(p *plan.Plan) float64 {
	sum := 0.0
	for _, l := range p.Grist.Lines {
		if l.In.Way == recipe.InKettle {
			continue
		}
		for _, u := range l.Lots {
			sum += float64(u.Mass) * float64(u.Extract)
		}
	}
	return sum
}

// paths are the thicknesses of beer at which a colour is shown.
var paths = []struct {
	name string
	cm   float64
}{{"tilted edge", 0.3}, {"cuvette", 1}, {"tasting glass", 5}, {"pint", 7.5}}

// color explains a colour: how it looks through different thicknesses.
func (c *whyCommand) color(text string) (answer, error) {
	col, err := quantity.ParseColor(text)
	if err != nil {
		return answer{}, withHint("color", err)
	}
	pr, ebc := c.printer(), col.EBC()
	a := answer{
		Title:    fmt.Sprintf("%s = %s EBC = %s SRM, as it is seen", text, pr.Number(float64(ebc), 1), pr.Number(ebc.SRM(), 1)),
		Note:     "Red, green and blue of a screen in daylight; a colour computed from the grist is good to about ±20 %.",
		Formulas: formulasNamed("color.Absorbance"),
	}
	for _, p := range paths {
		r, g, b := color.SRGB(ebc, p.cm)
		a.add(p.name, pr.Number(p.cm, 1)+" cm", fmt.Sprintf("(%d,%d,%d)", r, g, b))
	}
	return a, nil
}

// strikeMiss explains what grain of another temperature does to the mash, and
// how to put it right.
func (c *whyCommand) strikeMiss(p *plan.Plan) (answer, error) {
	real, err := quantity.ParseTemperature(c.Grain)
	if err != nil {
		return answer{}, withHint("--grain", err)
	}
	pr, house := c.printer(), p.HouseDocument()
	liquor := quantity.Mass(float64(p.Liquor.Mash) * gravity.WaterDensity(quantity.Celsius(20)) / 1000)
	grain := mash.Grain{Mass: p.EarlyGrain(), Temperature: real, Moisture: mash.DefaultMoisture}
	vessel := mash.Vessel{HeatCapacity: house.Mash.HeatCapacity}
	if !house.Mash.Preheated {
		vessel.Temperature = house.Kettle.Room
	}
	aim := p.FirstRest()
	landed := mash.LandingTemperature(grain, liquor, vessel, p.Liquor.Strike, aim, 0)
	a := answer{Title: fmt.Sprintf("Grain of %s instead of %s", pr.Temperature(real), pr.Temperature(p.GrainTemperature()))}
	a.add("the mash lands at", pr.Temperature(landed), "for "+pr.Temperature(aim))
	heat := mash.HeatCapacity(grain, liquor, vessel)
	if landed.Below(aim) {
		if house.Mash.Power != nil {
			t := mash.HeatingTime(heat, mash.Heater{Power: *house.Mash.Power, Efficiency: 1}, landed, aim)
			a.add("heat for", fmt.Sprintf("%.0f s", t.Seconds()), "at "+pr.Power(*house.Mash.Power))
		}
		water := mash.InfusionMass(heat, landed, aim, p.Boil.Temperature)
		a.add("or add", fmt.Sprintf("%s L", pr.Number(float64(water), 2)), "of boiling water, less sparge liquor (scalds: pour away from you)")
	} else if aim.Below(landed) {
		water := mash.InfusionMass(heat, landed, aim, quantity.Celsius(15))
		a.add("add", fmt.Sprintf("%s L", pr.Number(float64(water), 2)), "of cold water of 15 °C, less sparge liquor")
	}
	a.add("next time strike at", pr.Temperature(mash.StrikeTemperature(grain, liquor, vessel, aim, 0)))
	return a, nil
}
