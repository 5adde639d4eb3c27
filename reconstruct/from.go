// SPDX-License-Identifier: MIT

package reconstruct

import "gyle/quantity"

// From returns the facts of a plan with the mash, the volumes and the
// evaporation of a smoothed day in their place, so that [Facts.Brew] gives the
// smoothed wort at every point. Boil, cooling and charges stay as they are in
// f: set the boil before, because what boiled off is divided by its time.
func (f Facts) From(d Day, s *Smoothed) Facts {
	f = f.clone()
	f.fromMash(d, s)
	if len(s.Points) < 2 {
		return f
	}
	f.fromKettle(d, s)
	return f
}

// fromMash takes what reached the full kettle. What the balances moved in
// scales and analyses is laid to the yield, what they moved in liquor to the
// absorption.
func (f *Facts) fromMash(d Day, s *Smoothed) {
	full := s.Points[0]
	if lab := d.LabExtract(); lab > 0 {
		f.Lab, f.Grist = lab, 0
		for _, m := range d.Grist {
			f.Grist += quantity.Mass(m.Mass.True().Value)
		}
		f.Yield = quantity.Fraction(full.Extract.Value / float64(lab))
	} else if f.Lab > 0 {
		f.Yield = quantity.Fraction(full.Extract.Value / float64(f.Lab))
	} else { // nothing is known of the mash: the wort is all there is
		f.Lab, f.Yield = quantity.Mass(full.Extract.Value), 1
	}
	if len(d.Liquor) > 0 {
		f.Liquor = 0
		for _, l := range d.Liquor {
			f.Liquor += quantity.Volume(l.True().Value)
		}
	}
	if f.Liquor == 0 {
		f.Liquor = quantity.Volume(full.Volume.Value+float64(f.Absorption)*float64(f.Grist)) + f.Dead
	}
	if f.Grist > 0 {
		kept := float64(f.Liquor-f.Dead) - full.Volume.Value
		f.Absorption = quantity.Ratio(kept / float64(f.Grist))
	}
}

// fromKettle takes what was boiled off, added and left behind. The last point
// is the fermenter if it is cold.
func (f *Facts) fromKettle(d Day, s *Smoothed) {
	last := len(s.Points) - 1
	knockOut := last
	if last > 1 && d.Points[last].Hot.IsZero() {
		knockOut = last - 1
		f.KettleLoss = quantity.Volume(s.Lost[last-1].Value)
		f.WaterAfter = waterOf(d.Steps[last-1])
	}
	f.WaterIn, f.ExtractIn, f.Extract = 0, 0, 0
	evaporated := 0.0
	for i := range knockOut {
		if i < len(s.Evaporated) {
			evaporated += s.Evaporated[i].Value
			f.WaterIn += waterOf(d.Steps[i])
			for _, e := range d.Steps[i].Extract {
				m := quantity.Mass(e.Mass.True().Value)
				f.ExtractIn += m
				f.Extract += quantity.Mass(float64(m) * float64(e.Extract))
			}
		}
	}
	if hours := f.boilTime().Hours(); hours > 0 {
		f.PerHour = quantity.Mass(evaporated / hours)
	}
}

// waterOf is the water added in a step, in kg.
func waterOf(s Step) quantity.Mass {
	sum := quantity.Mass(0)
	for _, w := range s.Water {
		sum += quantity.Mass(waterDensity * w.True().Value)
	}
	return sum
}

// waterDensity is that of water at 20 °C in kg/L.
const waterDensity = 0.9982
