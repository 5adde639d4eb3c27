// SPDX-License-Identifier: MIT

package plan

import (
	"fmt"
	"slices"
	"strings"

	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/gravity"
	"gyle/science/hops"
)

// Reason says how one number of a plan comes about.
type Reason struct {
	Name     string      `json:"name"`     // as asked for: "ibu", "strike"
	Label    string      `json:"label"`    // for people
	Value    string      `json:"value"`    // in this plan
	Inputs   []ReasonFor `json:"inputs"`   // what went in, in this plan
	Formulas []string    `json:"formulas"` // names in the catalogue of package science
	Says     string      `json:"says"`     // one sentence
}

// ReasonFor is one input of a reason and where it comes from: computed,
// measured, meant (by the recipe), typical or assumed.
type ReasonFor struct {
	Name  string `json:"name"`
	Value string `json:"value"`
	From  string `json:"from"`
}

// topic is one number that can be asked about, with the formulas behind it.
type topic struct {
	name     string
	label    string
	formulas []string
	says     string
	fill     func(*Plan, quantity.Printer, *Reason)
}

// topics lists what can be asked, in the order of the brewing.
var topics = []topic{
	{"og", "original gravity", []string{"gravity.PlatoFromSG", "gravity.SGFromPlato", "gravity.ExtractMass"},
		"The recipe aims at it; the grist is weighed so that the extract in the kettle meets it.", fillOG},
	{"grist", "mass of the grist", []string{"gravity.ExtractMass", "mash.AsIs", "mash.OverallBrewhouseYield"},
		"Extract at knock-out, divided by what a kilo of this grist brings into the kettle here.", fillGrist},
	{"fg", "final gravity", []string{"ferment.FinalGravity", "ferment.ApparentAttenuation"},
		"The aim of the recipe, or the middle of the yeast's attenuation.", fillFG},
	{"abv", "alcohol", []string{"ferment.Alcohol", "ferment.RealExtract", "ferment.AlcoholByMass", "ferment.AlcoholByVolume"},
		"Balling's balance: what was fermented has become alcohol, gas and yeast.", fillFG},
	{"attenuation", "apparent attenuation", []string{"ferment.ApparentAttenuation", "ferment.Attenuation"},
		"The share of the extract that has gone, as a hydrometer sees it.", fillFG},
	{"ibu", "bitterness", []string{"hops.IsoRate", "hops.DegradationRate", "hops.Hold", "hops.IBU", "hops.GravityFactor", "hops.AlphaNow"},
		"Alpha acids turn into iso-alpha acids along the temperature of the kettle; some is lost on the way to the beer.", fillIBU},
	{"bu:gu", "bitterness to gravity", []string{"hops.BUGU"}, "Bitterness over gravity points.", fillIBU},
	{"color", "colour", []string{"color.MCU", "color.MoreySRM", "color.LovibondFromEBC", "mash.ColorYield"},
		"The colour that the malts bring, through Morey's curve. Good to about a fifth.", fillColor},
	{"volume", "volumes", []string{"gravity.VolumeAt20", "gravity.VolumeHot", "gravity.WortMass", "boil.Evaporation", "boil.Concentrate"},
		"Volumes are kept as they are at room temperature and shown as they read hot: near the boil, wort takes up 4 % more room.", fillVolume},
	{"strike", "strike temperature", []string{"mash.StrikeTemperature", "mash.HeatCapacity", "mash.MaltHeat"},
		"A balance of heat between liquor, grain and vessel.", fillStrike},
	{"mash-ph", "mash pH", []string{"mash.PH", "mash.AcidFor", "water.Alkalinity", "water.ResidualAlkalinity"},
		"What malts, calcium and acid release must equal what the water and the malts take up.", fillMashPH},
	{"salts", "salts", []string{"water.SolveSalts", "water.Balance"},
		"The masses that bring the liquor closest to the aims, none below nothing.", fillSalts},
	{"dms", "DMS light", []string{"boil.SulphideModel.SplitRate", "boil.SulphideModel.StripRate", "boil.Judge"},
		"A traffic light, not a number: kettles differ threefold.", fillDMS},
	{"co2", "carbonation", []string{"carbonation.Residual", "carbonation.PrimingSugar", "carbonation.PressureFor", "carbonation.BottlePressure"},
		"Gas already in the beer, plus what the priming sugar gives.", fillCO2},
	{"cells", "pitch", []string{"ferment.CellsNeeded", "ferment.DryYeastGrams"},
		"Cells for the volume and the extract; packets differ by a factor of three.", fillCells},
}

// Topics returns the names of everything that [Plan.Why] can be asked about.
func Topics() []string {
	var names []string
	for _, t := range topics {
		names = append(names, t.name)
	}
	return names
}

// Labels lists what can be asked in the words of a brewer, beside [Topics].
func Labels() []string {
	var labels []string
	for _, t := range topics {
		labels = append(labels, t.label)
	}
	return labels
}

// Explain returns the reason behind a name, or a label, without a plan: its
// formulas.
func Explain(name string) (Reason, bool) {
	i := slices.IndexFunc(topics, func(t topic) bool { return strings.EqualFold(t.name, name) || strings.EqualFold(t.label, name) })
	if i < 0 {
		return Reason{}, false
	}
	t := topics[i]
	return Reason{Name: t.name, Label: t.label, Formulas: t.formulas, Says: t.says}, true
}

// Why returns how a number of this plan comes about.
func (p *Plan) Why(name string, pr quantity.Printer) (Reason, bool) {
	r, ok := Explain(name)
	if !ok {
		return r, false
	}
	for _, t := range topics {
		if t.name == r.Name {
			t.fill(p, pr, &r)
		}
	}
	if f, ok := p.Find(quantity.Figure(r.Name)); ok {
		r.Value = pr.FigureBand(f.Figure, f.Band())
	}
	return r, true
}

func (r *Reason) input(name, value, from string) {
	r.Inputs = append(r.Inputs, ReasonFor{name, value, from})
}

func fillOG(p *Plan, pr quantity.Printer, r *Reason) {
	r.input("aim of the recipe", pr.SG(p.Gravity.OG)+" = "+pr.Plato(gravity.PlatoFromSG(p.Gravity.OG)), "meant")
	r.input("wort at knock-out", pr.Volume(p.Volumes.KnockOut), "computed")
	r.input("extract in it", pr.Mass(p.Gravity.Extract), "computed")
	r.input("spread of the yield", yieldText(p, pr), "measured on this house")
}

func yieldText(p *Plan, pr quantity.Printer) string {
	if y := p.house.Mash.Yield; y != nil {
		return y.String()
	}
	return pr.Fraction(p.Grist.Yield, 1) + ", from conversion and run-off"
}

func fillGrist(p *Plan, pr quantity.Printer, r *Reason) {
	r.Value = pr.Mass(p.Grist.Mass)
	r.input("extract at knock-out", pr.Mass(p.Gravity.Extract), "computed")
	r.input("yield of the house", yieldText(p, pr), "house")
	for _, l := range p.Grist.Lines {
		for _, u := range l.Lots {
			from := "lot " + u.Lot
			if u.Lot == "" {
				from = "typical"
			}
			r.input("extract of "+l.Malt+", as weighed", pr.Fraction(u.Extract, 1), from)
		}
	}
}

func fillFG(p *Plan, pr quantity.Printer, r *Reason) {
	r.input("original gravity", pr.SG(p.Gravity.OG), "meant")
	from := "from the middle of the yeast's attenuation"
	if p.recipe.Aims.FG != nil {
		from = "meant"
	}
	r.input("final gravity", pr.SG(p.Gravity.FG), from)
	r.input("range over the yeast's attenuation", pr.SG(p.Gravity.FGRange.Low)+" to "+pr.SG(p.Gravity.FGRange.High), "computed")
}

func fillIBU(p *Plan, pr quantity.Printer, r *Reason) {
	mean := (p.Gravity.FullKettle + p.Gravity.OG) / 2
	b := p.house.Bitterness
	r.input("wort at knock-out", pr.Volume(p.Volumes.KnockOut), "computed")
	recovery, from := float64(b.R), "house"
	if recovery == 0 {
		recovery, from = hops.HomeRecovery, "assumed"
	}
	r.input("R, kept from kettle to beer", pr.Number(recovery, 2), from)
	k, from := b.K, "house"
	if k.Value == 0 {
		k, from = hops.HousePrior, "assumed"
	}
	r.input("K, house factor", k.String(), from)
	r.input("gravity factor at "+pr.SG(mean), pr.Number(hops.GravityFactor(mean), 4), "computed")
	for _, c := range p.Hops.Charges {
		if c.Dry {
			continue
		}
		r.input(fmt.Sprintf("%s %s", c.Hop, c.At.Words(pr)), fmt.Sprintf("%s × %s alpha × yield %s → %s", pr.Mass(c.Mass), pr.Fraction(c.Alpha, 2), pr.Number(c.Yield, 4), pr.FigureBand(quantity.Bitterness, quantity.BandOf(float64(c.IBU), 0.05))), "computed")
	}
	for _, s := range p.Hops.Path {
		r.input(s.Name, fmt.Sprintf("%s, %s to %s", pr.Duration(s.Time), pr.Temperature(s.From), pr.Temperature(s.To)), "house")
	}
	r.input("for comparison, Tinseth's formula", pr.IBU(p.Hops.Tinseth), "computed")
	p.isoCaveat(r, pr)
}

// isoCaveat says where the kinetics are beyond what was measured.
func (p *Plan) isoCaveat(r *Reason, pr quantity.Printer) {
	for _, c := range p.Hops.Charges {
		if c.At.Stage == recipe.AtStand && c.At.Temperature.Below(hops.IsoRateSupported.Low) {
			r.Says += fmt.Sprintf(" The stand at %s lies below the %s down to which the rate is supported.", pr.Temperature(c.At.Temperature), pr.Temperature(hops.IsoRateSupported.Low))
			return
		}
	}
}

func fillColor(p *Plan, pr quantity.Printer, r *Reason) {
	r.input("wort at knock-out", pr.Volume(p.Volumes.KnockOut), "computed")
	for _, l := range p.Grist.Lines {
		r.input(l.Malt, fmt.Sprintf("%s of %s: %s of the colour", pr.Mass(l.Mass), pr.EBC(l.Color), pr.Fraction(l.ColorShare, 1)), "lots")
	}
}

func fillVolume(p *Plan, pr quantity.Printer, r *Reason) {
	v := p.Volumes
	r.Value = pr.Volume(v.KnockOut) + " at knock-out"
	r.input("collected wort", pr.Volume(v.Collected), "meant")
	r.input("left in the kettle", pr.Volume(v.KnockOut-v.Collected), "house")
	r.input("evaporated", fmt.Sprintf("%s in %s", pr.Mass(p.Boil.Evaporation), pr.Duration(p.Boil.Time)), "computed")
	r.input("full kettle", pr.Volume(v.FullKettle)+", reads "+pr.VolumeAt(v.FullKettleHot), "computed")
	r.input("knock-out", pr.Volume(v.KnockOut)+", reads "+pr.VolumeAt(v.KnockOutHot), "computed")
}

func fillStrike(p *Plan, pr quantity.Printer, r *Reason) {
	r.Value = pr.Temperature(p.Liquor.Strike)
	r.input("mash liquor", pr.Volume(p.Liquor.Mash), "computed")
	r.input("grain at the start", pr.Mass(p.EarlyGrain()), "computed")
	r.input("temperature of the grain", pr.Temperature(p.GrainTemperature()), "house")
	if len(p.Mash.Steps) > 0 {
		r.input("first rest", pr.Temperature(p.FirstRest()), "meant")
	}
	state := "at room temperature"
	if p.house.Mash.Preheated {
		state = "as hot as the liquor"
	}
	r.input("vessel", pr.HeatCapacity(p.house.Mash.HeatCapacity)+", "+state, "house")
}

// EarlyGrain returns the mass that is doughed in at the start.
func (p *Plan) EarlyGrain() quantity.Mass {
	sum := quantity.Mass(0)
	for _, l := range p.Grist.Lines {
		if l.In.IsZero() {
			sum += l.Mass
		}
	}
	return sum
}

// GrainTemperature returns the temperature of the malt store.
func (p *Plan) GrainTemperature() quantity.Temperature {
	return storeTemperature(p.house)
}

// FirstRest returns the temperature of the first rest.
func (p *Plan) FirstRest() quantity.Temperature {
	if rests := p.recipe.Mash.Rests; len(rests) > 0 {
		return rests[0].Temperature
	}
	return defaultRest.Temperature
}

func fillMashPH(p *Plan, pr quantity.Printer, r *Reason) {
	rail := p.Mash.Rail
	if rail == nil {
		r.Value = "not predicted: the plan has no water"
		return
	}
	r.input("grist alone, in distilled water", pr.PH(rail.Distilled), "computed")
	r.input("with the water", pr.PH(rail.Water), "computed")
	r.input("with the salts", pr.PH(rail.Salts), "computed")
	r.input("with the acid", pr.PH(rail.Acid), "computed")
	r.input("after the late grain", pr.PH(rail.Late), "computed")
}

func fillSalts(p *Plan, pr quantity.Printer, r *Reason) {
	r.input("liquor", pr.Volume(p.Liquor.Total), "computed")
	var doses []string
	for _, s := range p.Liquor.Salts {
		r.input(s.Name, pr.Mass(s.Mass), "computed")
		doses = append(doses, pr.Mass(s.Mass)+" "+s.Name)
	}
	if r.Value = strings.Join(doses, ", "); r.Value == "" {
		r.Value = "none"
	}
	for _, f := range p.Figures {
		switch f.Figure {
		case quantity.Calcium, quantity.Chloride, quantity.Sulfate:
			r.input(f.Figure.Label(), pr.Figure(f.Figure, f.Value), "computed")
		}
	}
}

func fillDMS(p *Plan, pr quantity.Printer, r *Reason) {
	d := p.Boil.DMS
	r.Value = d.Light
	r.input("in cold wort", fmt.Sprintf("about %.0f µg/L, up to %.0f", float64(d.Wort), float64(d.High)), "computed")
	r.input("rests on", d.Assumes, "assumed")
	r.input("evaporated in all", pr.Fraction(p.Boil.Share, 1), "computed")
}

func fillCO2(p *Plan, pr quantity.Printer, r *Reason) {
	c := p.Cellar
	r.input("aim", pr.Carbonation(c.CO2), "meant")
	r.input("already in the beer", pr.Carbonation(c.Residual)+" at "+pr.Temperature(c.Warmest), "computed")
	r.input("volume", pr.Volume(p.Volumes.Packaged), "computed")
	if c.Sugar != "" {
		r.input(c.Sugar, pr.Mass(c.Priming), "computed")
		r.input("pressure in the bottle at "+pr.Temperature(quantity.Celsius(20)), pr.GaugePressure(c.Bottle), "computed")
	}
	r.input("pressure in a keg at "+pr.Temperature(quantity.Celsius(5)), pr.GaugePressure(c.Keg), "computed")
}

func fillCells(p *Plan, pr quantity.Printer, r *Reason) {
	r.Value = fmt.Sprintf("%.0f × 10⁹ cells", p.Cellar.Cells)
	r.input("wort", pr.Volume(p.Volumes.Collected)+" of "+pr.Plato(gravity.PlatoFromSG(p.Gravity.OG)), "computed")
	r.input("as dry yeast", fmt.Sprintf("%s (%s to %s)", pr.Mass(p.Cellar.Dry), pr.Mass(p.Cellar.DryRange.Low), pr.Mass(p.Cellar.DryRange.High)), "typical")
}
