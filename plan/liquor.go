// SPDX-License-Identifier: MIT

package plan

import (
	"fmt"

	"gyle/brewhouse"
	"gyle/data"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/gravity"
	"gyle/science/mash"
	chem "gyle/science/water"
	"gyle/water"
)

// defaultRatio is the liquor to grist of a recipe that doesn't say.
// Common practice for infusion mashes.
const defaultRatio quantity.Ratio = 3

// spargeTemperature is that of sparge liquor: hot enough to run, too cold to
// draw starch and tannin. Common practice: 75 to 78 °C.
var spargeTemperature = quantity.Celsius(77)

// coldSteepRatio is the liquor in which grain is steeped cold. Common practice:
// 4 to 5 L/kg.
const coldSteepRatio quantity.Ratio = 4

// liquorFor returns all the liquor that fills the kettle when so much grain
// holds back its share of it, in the mash and in a cold steep.
func (w *work) liquorFor(mashed, steeped float64) quantity.Volume {
	m := w.in.House.Mash
	total := w.plan.Volumes.FullKettle + quantity.Volume(float64(m.Absorption)*(mashed+steeped))
	if mashed > 0 {
		total += m.Dead
	}
	return total
}

// sparges reports whether the goods are sparged.
func (w *work) sparges() bool {
	return w.in.Recipe.Mash.Sparge != "none" && w.in.House.Mash.Sparge != "none"
}

// shareLiquor parts the liquor: for the cold steep, for doughing in, for raising
// the mash from rest to rest, for the sparge.
func (w *work) shareLiquor() Liquor {
	mashed, _ := w.mashMass()
	steeped := w.steepMass()
	l := Liquor{Total: w.liquorFor(mashed, steeped)}
	l.Steep = min(quantity.Volume(float64(coldSteepRatio)*steeped), l.Total)
	forMash := l.Total - l.Steep
	if mashed <= 0 {
		l.Sparge = forMash // nothing to mash: it goes straight into the kettle
		return l
	}
	if !w.sparges() {
		l.Mash = w.doughingIn(mashed, forMash)
		l.Infused = forMash - l.Mash
		return l
	}
	l.Mash = min(quantity.Volume(w.ratio()*mashed), w.doughingIn(mashed, forMash))
	l.Infused = w.infused(mashed, l.Mash)
	l.Sparge = max(forMash-l.Mash-l.Infused, 0)
	return l
}

// ratio is the liquor to grist that is meant, in L/kg.
func (w *work) ratio() float64 {
	if r := w.in.Recipe.Mash.Ratio; r != nil {
		return float64(*r)
	}
	return float64(defaultRatio)
}

// doughingIn returns what is left for doughing in when a mash without a sparge
// keeps water for its later rests. What the rests take is a straight line over
// what is doughed in, so two points find it.
func (w *work) doughingIn(mashed float64, forMash quantity.Volume) quantity.Volume {
	none := w.infused(mashed, 0)
	perLitre := w.infused(mashed, 1) - none
	return (forMash - none) / (1 + perLitre)
}

// steepMass returns the grain that is steeped cold, in kg.
func (w *work) steepMass() float64 {
	sum := 0.0
	for i := range w.grains {
		if g := &w.grains[i]; g.meant.In.Way == recipe.ColdSteep {
			sum += w.gristMass * g.share
		}
	}
	return sum
}

// thickestMash is the least liquor, in L/kg, in which grain can be doughed in.
// Common practice: mashes are 2 to 4 L/kg, dry lumps form well above 1.5.
const thickestMash = 1.2

// liquor works out the volumes of liquor and the strike temperature.
func (w *work) liquor() {
	l := w.shareLiquor()
	w.thickerThanMeant = 0
	grain, _ := w.mashMass()
	switch have := float64(l.Mash) / grain; {
	case grain <= 0:
	case have < thickestMash:
		w.problem("mash.rests", "mash thinner, heat the mash with a house that can, or leave a rest out",
			"%s are left for doughing in %s, and the rests take %s of hot water: too thick to stir", w.litres(l.Mash), w.grain(grain), w.litres(l.Infused))
	case w.sparges() && have < w.ratio()-0.005:
		w.thickerThanMeant = have
	}
	if l.Sparge < 0.005 { // a few millilitres are none
		l.Mash += l.Sparge
		l.Sparge = 0
	}
	if l.Sparge > 0 && grain > 0 {
		l.SpargeAt = spargeTemperature
	}
	w.plan.Liquor = l
	w.strike()
}

// strike works out how hot the mash liquor must be.
func (w *work) strike() {
	early := 0.0
	for i := range w.grains {
		if g := &w.grains[i]; g.meant.In.Way == recipe.WithMash {
			early += w.gristMass * g.share
		}
	}
	l := &w.plan.Liquor
	if early <= 0 || l.Mash <= 0 {
		return
	}
	l.Strike = mash.StrikeTemperature(
		mash.Grain{Mass: quantity.Mass(early), Temperature: w.grainTemperature(), Moisture: mash.DefaultMoisture},
		waterMass(l.Mash), w.mashVessel(), w.firstRest().Temperature, 0)
	if !l.Strike.Below(w.boilsAt) {
		w.problem("mash.ratio", "mash thinner, warm the grain or the vessel", "the liquor would have to be %s, hotter than it boils", w.degrees(l.Strike, 0))
	}
}

// waterMass is the mass of a volume of water measured cold.
func waterMass(v quantity.Volume) quantity.Mass {
	return quantity.Mass(float64(v) * gravity.WaterDensity(quantity.Celsius(20)) / 1000)
}

// coldVolume is what a mass of water measures at 20 °C.
func coldVolume(m quantity.Mass) quantity.Volume {
	return quantity.Volume(float64(m) * 1000 / gravity.WaterDensity(quantity.Celsius(20)))
}

// storeTemperature is that of the malt store, 20 °C where the house is silent.
func storeTemperature(h *brewhouse.House) quantity.Temperature {
	if t := h.Mash.Grain; !t.IsZero() {
		return t
	}
	return roomTemperature
}

// grainTemperature is that of the malt store.
func (w *work) grainTemperature() quantity.Temperature {
	return storeTemperature(w.in.House)
}

// mashVessel is the vessel as the heat balance sees it.
func (w *work) mashVessel() mash.Vessel {
	v := mash.Vessel{HeatCapacity: w.in.House.Mash.HeatCapacity}
	if !w.in.House.Mash.Preheated {
		v.Temperature = w.roomTemperature()
	}
	return v
}

// roomTemperature is that of a room nobody said anything of. Common practice.
var roomTemperature = quantity.Celsius(20)

// roomTemperature is that of the house.
func (w *work) roomTemperature() quantity.Temperature {
	if t := w.in.House.Kettle.Room; !t.IsZero() {
		return t
	}
	return roomTemperature
}

// Reading returns the ions of a report as they are meant: the printed numbers
// with the stated mislabels undone and a measured alkalinity in place.
func Reading(doc *water.Water) chem.Ions {
	ions := Printed(doc)
	for _, m := range doc.Meant {
		for _, label := range chem.Labels {
			if label.String() == m.String() {
				ions = label.Undo(ions)
			}
		}
	}
	if doc.Alkalinity != nil {
		ions = chem.WithAlkalinity(ions, doc.Alkalinity.Charge())
	}
	return ions
}

// Printed returns the ions of a report as printed.
func Printed(doc *water.Water) chem.Ions {
	var ions chem.Ions
	p := doc.Printed
	for ion, value := range map[chem.Ion]*quantity.Concentration{
		chem.Calcium: p.Ca, chem.Magnesium: p.Mg, chem.Sodium: p.Na, chem.Potassium: p.K,
		chem.Bicarbonate: p.HCO3, chem.Carbonate: p.CO3, chem.Chloride: p.Cl, chem.Sulfate: p.SO4, chem.Nitrate: p.NO3,
	} {
		if value != nil {
			ions[ion] = float64(*value)
		}
	}
	return ions
}

// Supply returns the water of a report as the chemistry takes it.
func Supply(doc *water.Water) chem.Supply {
	s := chem.Supply{Ions: Reading(doc)}
	if doc.PH != nil {
		s.PH = *doc.PH
	}
	if doc.Endpoint != nil {
		s.EndpointPH = *doc.Endpoint
	}
	return s
}

// resolveWater reads the water and checks that its ions balance.
func (w *work) resolveWater() {
	doc := w.in.Water
	if doc == nil {
		return
	}
	w.plan.Water = doc.Name
	w.supply, w.hasWater = Supply(doc), true
	if _, caution := w.supply.AssumedPH(); caution != "" {
		w.typicalOf("%s", caution)
	}
	if b := chem.Balance(w.supply.Ions); b.Verdict == chem.Reject || b.Verdict == chem.Suspect {
		w.caution("the ions of %s don't balance (%+.1f %%): check the report before trusting salts and mash pH", doc.Name, b.Difference)
	}
}

// UsualSalts are the ids of what a brewer usually has at hand.
var UsualSalts = []string{"calcium-chloride", "gypsum", "epsom-salt", "table-salt", "baking-soda"}

// treat solves the salts for the whole of the liquor.
func (w *work) treat() {
	l := &w.plan.Liquor
	if !w.hasWater {
		return
	}
	l.Base, l.Ions = w.supply.Ions, w.supply.Ions
	aims := w.waterAims()
	if len(aims) == 0 {
		return
	}
	salts := w.allowedSalts()
	if most := w.in.Recipe.Water.Soft; most != nil && *most > 0 {
		share := chem.SoftShare(l.Base, l.Total, aims, salts, *most)
		l.Soft = quantity.Volume(float64(share) * float64(l.Total))
		w.supply = Blend(w.supply, share)
		l.Base = w.supply.Ions
	}
	solved := chem.SolveSalts(l.Base, l.Total, aims, salts).Stepped(SaltStep(l.Total))
	l.Treated, l.Ions = true, solved.Ions
	for _, a := range solved.Additions {
		if a.Mass > 0 {
			l.Salts = append(l.Salts, SaltDose{a.Salt.ID, a.Salt.Name, a.Mass})
		}
	}
	for _, m := range solved.Misses {
		l.Misses = append(l.Misses, fmt.Sprintf("%s %.0f mg/L instead of %.0f: %s", m.Ion.Symbol(), m.Got, m.Aim, m.Reason))
	}
	w.plan.Cautions = append(w.plan.Cautions, chem.DoseWarnings(w.in.Reader, l.Total, solved.Additions)...)
}

// Blend returns a supply with a share of distilled water in it. Bicarbonate and
// carbon dioxide thin out alike, so the pH hardly moves and is kept.
func Blend(s chem.Supply, share quantity.Fraction) chem.Supply {
	s.Ions = s.Ions.Mix(share, chem.Ions{})
	return s
}

// SaltStep is the step of the scale for a volume of liquor: 0.1 g, and 0.01 g
// for small brews.
func SaltStep(v quantity.Volume) quantity.Mass {
	if v < 15 {
		return quantity.Grams(0.01)
	}
	return quantity.Grams(0.1)
}

// waterAims are the ions that the recipe aims at.
func (w *work) waterAims() chem.Aims { return WaterAims(w.in.Recipe.Water) }

// WaterAims returns the ions that the water of a recipe aims at, in mg/L; it
// may be nil.
func WaterAims(doc *recipe.Water) chem.Aims {
	aims := chem.Aims{}
	if doc == nil {
		return aims
	}
	for _, a := range []struct {
		ion chem.Ion
		aim *quantity.Concentration
	}{
		{chem.Calcium, doc.Ca}, {chem.Magnesium, doc.Mg}, {chem.Sodium, doc.Na},
		{chem.Chloride, doc.Cl}, {chem.Sulfate, doc.SO4}, {chem.Bicarbonate, doc.HCO3},
	} {
		if a.aim != nil {
			aims[a.ion] = float64(*a.aim)
		}
	}
	return aims
}

// allowedSalts are the salts that the brewer is willing to use.
func (w *work) allowedSalts() []chem.Salt {
	ids := UsualSalts
	if doc := w.in.Recipe.Water; doc != nil && len(doc.Salts) > 0 {
		ids = doc.Salts
	}
	var salts []chem.Salt
	for i, id := range ids {
		typical, _ := data.Salt(id)
		s, ok := chem.SaltByID(typical.ID)
		if !ok {
			w.problem(fmt.Sprintf("water.salts[%d]", i), nearestHint(id, data.SaltNames()), "%s is no known brewing salt", id)
			continue
		}
		salts = append(salts, s)
	}
	return salts
}
