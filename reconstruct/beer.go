// SPDX-License-Identifier: MIT

package reconstruct

import (
	"math"

	"gyle/quantity"
	"gyle/science/boil"
	"gyle/science/color"
	"gyle/science/ferment"
	"gyle/science/gravity"
	"gyle/science/hops"
)

// A Beer is what comes of facts.
type Beer struct {
	FullKettle, KnockOut, Collected Measure
	Extract                         quantity.Mass     // in the full kettle
	Yield                           quantity.Fraction // of the laboratory extract, in the full kettle
	Evaporated                      quantity.Mass
	Share                           quantity.Fraction // evaporated, of the full kettle
	Charges                         []Bitter
	IBU                             quantity.IBU
	Late                            quantity.IBU // of it, from charges of the last LateBoil and after
	Color                           quantity.EBC
	FG                              quantity.SG
	ABV                             quantity.Fraction
	MashPH                          quantity.PH
	DMS                             DMS
}

// Measure is a wort: litres at 20 °C and their gravity.
type Measure struct {
	Volume quantity.Volume
	SG     quantity.SG
}

// Bitter is what one charge gives.
type Bitter struct {
	Hop   string
	Time  quantity.Duration // in hot wort
	Yield float64           // iso-alpha acids at the end per alpha acids dosed
	IBU   quantity.IBU
	Late  bool
}

// DMS is the traffic light for dimethyl sulphide in cold wort: free DMS at the
// middle and at the high end of what the malt brings. The light is of the high
// end.
type DMS struct {
	Light     string
	Mid, High boil.MicrogramsPerLitre
}

// LateBoil is the longest boil of a charge that counts as late. Common practice.
const LateBoil quantity.Duration = 20

// Brew works out the beer.
func (f Facts) Brew() Beer {
	b := Beer{FG: f.FG, MashPH: f.MashPH, Yield: f.Yield}
	b.Extract = quantity.Mass(float64(f.Yield) * float64(f.Lab))
	volume := f.Liquor - quantity.Volume(float64(f.Absorption)*float64(f.Grist)) - f.Dead
	b.FullKettle = wortOf(volume, b.Extract)
	b.Evaporated = quantity.Mass(float64(f.PerHour) * f.boilTime().Hours())
	mass := gravity.WortMass(b.FullKettle.Volume, b.FullKettle.SG)
	if mass > 0 {
		b.Share = quantity.Fraction(b.Evaporated / mass)
	}
	b.KnockOut = wortOfMass(mass-b.Evaporated+f.WaterIn+f.ExtractIn, b.Extract+f.Extract)
	b.Collected = Measure{Volume: b.KnockOut.Volume - f.KettleLoss, SG: b.KnockOut.SG}
	if f.WaterAfter > 0 {
		left := gravity.WortMass(b.Collected.Volume, b.Collected.SG)
		b.Collected = wortOfMass(left+f.WaterAfter, gravity.ExtractMass(b.Collected.Volume, b.Collected.SG))
	}
	if b.FG > 0 {
		b.ABV = ferment.Alcohol(b.Collected.SG, b.FG)
	}
	f.bitterness(&b)
	f.colour(&b)
	f.sulphide(&b)
	return b
}

// wortOf returns the wort of a volume at 20 °C that holds an extract.
func wortOf(v quantity.Volume, extract quantity.Mass) Measure {
	return Measure{v, gravity.SGFromPlato(gravity.PlatoFromConcentration(1000 * float64(extract) / float64(v)))}
}

// wortOfMass returns the wort of a mass that holds an extract.
func wortOfMass(m, extract quantity.Mass) Measure {
	sg := gravity.SGFromPlato(quantity.Plato(100 * extract / m))
	return Measure{gravity.WortVolume(m, sg), sg}
}

// bitterness follows each charge along the temperatures of the kettle.
func (f *Facts) bitterness(b *Beer) {
	h, flameOut := f.history()
	at := make([]quantity.Duration, len(f.Charges))
	for i, c := range f.Charges {
		at[i] = c.when(h, flameOut)
	}
	recovery, house := f.Recovery, f.houseFactor().Value
	if recovery == 0 {
		recovery = hops.HomeRecovery
	}
	factor := hops.GravityFactor((b.FullKettle.SG + b.KnockOut.SG) / 2)
	for i, out := range h.Outcomes(at) {
		c := f.Charges[i]
		line := Bitter{Hop: c.Hop, Time: h.Duration() - at[i], Yield: out.Iso, Late: !c.At.IsZero() || c.Boil <= LateBoil}
		if c.Out > 0 {
			line.Time = c.Out
			line.Yield = lifted(h, at[i], c.Out)
		}
		line.IBU = hops.IBU(c.Mass, c.Alpha, line.Yield, b.KnockOut.Volume, recovery, house, factor)
		if f.WaterAfter > 0 {
			left := b.KnockOut.Volume - f.KettleLoss
			line.IBU *= quantity.IBU(left / b.Collected.Volume)
		}
		b.IBU += line.IBU
		if line.Late {
			b.Late += line.IBU
		}
		b.Charges = append(b.Charges, line)
	}
}

// lifted returns the yield of a bag that is lifted: what has turned by then
// stays in the wort and goes on, what hasn't leaves with the hops. That all
// unturned alpha acids leave is the low end of what a bag does.
func lifted(h hops.History, at, out quantity.Duration) float64 {
	points := h.Trace(at, 1)
	for i, p := range points {
		if p.Time >= at+out && i > 0 {
			return p.Iso * remaining(h, p.Time)
		}
	}
	return h.Yield(at).Iso
}

// remaining is the share of iso-alpha acids present at a time that is still
// there at the end.
func remaining(h hops.History, from quantity.Duration) float64 {
	lost := 0.0
	for t := from; t < h.Duration(); t++ {
		lost += float64(hops.DegradationRate(h.TemperatureAt(t + 0.5)))
	}
	return math.Exp(-lost)
}

// houseFactor is K, the prior where the house has none.
func (f *Facts) houseFactor() quantity.Estimate {
	if f.House.Value == 0 {
		return hops.HousePrior
	}
	k := f.House
	if k.SD == 0 {
		k.SD = hops.UncalibratedSpread
	}
	return k
}

func (f *Facts) colour(b *Beer) {
	if b.KnockOut.Volume > 0 {
		b.Color = quantity.FromSRM(color.MoreySRM(color.MCU(f.Lovibond, b.KnockOut.Volume)))
	}
}

// sulphide works out the DMS light as a plan does: what splits and steams off in
// the boil, then what splits under the lid.
func (f *Facts) sulphide(b *Beer) {
	model := boil.DefaultSulphideModel
	if f.MashPH > 0 {
		model.PH = f.MashPH
	}
	mass := gravity.WortMass(b.FullKettle.Volume, b.FullKettle.SG)
	perMinute := quantity.Rate(float64(f.PerHour) / 60 / float64(mass))
	now := boil.Sulphide{Precursor: 1}
	h, flameOut := f.history()
	boils := f.boiling()
	passed := quantity.Duration(0)
	for i, s := range h {
		switch {
		case passed < flameOut && boils[i]:
			now = model.Hold(now, s.Start(), perMinute, s.Duration)
		case s.RunOff:
			now = model.Stand(now, s.TemperatureAt, s.Duration/2) // the mean of the wort has left by then
		default:
			now = model.Stand(now, s.TemperatureAt, s.Duration)
		}
		passed += s.Duration
	}
	b.DMS = DMS{Mid: now.Free * (f.DMS.Low + f.DMS.High) / 2, High: now.Free * f.DMS.High}
	b.DMS.Light = boil.Judge(b.DMS.High).String()
}

// boiling says of each segment of the history whether steam leaves.
func (f *Facts) boiling() []bool {
	var out []bool
	now := quantity.Celsius(100)
	for _, legs := range [][]Leg{f.Boil, f.Cooling} {
		for _, l := range legs {
			if s := l.segment(now); s.Duration > 0 {
				out = append(out, l.Boils)
				now = s.End()
			}
		}
	}
	return out
}

// colorSpread is the error of a colour computed from the grist, as a plan has
// it: the ±20 % that Morey's formula is credited with.
const colorSpread = 0.20

// Figure is one number of the beer with its standard deviation.
type Figure struct {
	Figure quantity.Figure
	Value  float64
	SD     float64
}

// Figures returns the numbers of the beer as brewed, with bands: those of the
// volumes and gravities as the books leave them (smoothed may be nil), that of the
// bitterness from the house factor. What isn't known is left out.
func (f Facts) Figures(b Beer, smoothed *Smoothed) []Figure {
	og := Figure{quantity.OG, float64(b.Collected.SG), Hydrometer.Absolute}
	volume := 0.01
	if smoothed != nil && len(smoothed.Points) > 0 {
		last := smoothed.Points[len(smoothed.Points)-1]
		og.SD = last.SG.SD
		volume = last.Volume.SD / last.Volume.Value
	}
	k := f.houseFactor()
	ibu := Figure{quantity.Bitterness, float64(b.IBU), float64(b.IBU) * math.Hypot(k.SD/k.Value, volume)}
	points := b.Collected.SG.Points()
	out := []Figure{og}
	if b.FG > 0 {
		out = append(out, Figure{quantity.FG, float64(b.FG), Hydrometer.Absolute}, Figure{quantity.ABV, float64(b.ABV), abvSpread},
			Figure{quantity.Attenuation, float64(ferment.Attenuation(b.Collected.SG, b.FG)), math.Hypot(og.SD, Hydrometer.Absolute) * 1000 / points})
	}
	if len(b.Charges) > 0 {
		out = append(out, ibu, Figure{quantity.BUGU, hops.BUGU(b.IBU, b.Collected.SG), ibu.SD / points})
	}
	if f.Lovibond > 0 {
		out = append(out, Figure{quantity.BeerColor, float64(b.Color), colorSpread * float64(b.Color)})
	}
	if b.MashPH > 0 {
		out = append(out, Figure{quantity.MashPH, float64(b.MashPH), PHMeter.Absolute})
	}
	return out
}

// abvSpread is the standard deviation of an alcohol computed from two
// gravities. Estimate, as in a plan.
const abvSpread = 0.001
