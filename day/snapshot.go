// SPDX-License-Identifier: MIT

package day

import (
	"crypto/sha256"
	"encoding/hex"
	"math"
	"strconv"
	"time"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science"
	"gyle/science/gravity"
	"gyle/science/mash"
)

// Snapshot writes down what a gyle keeps of the plan that it is brewed to.
// Program names what made the plan, with its version; made is the day.
func Snapshot(p *plan.Plan, program string, made time.Time) *gyle.Plan {
	s := &gyle.Plan{
		Made: gyle.Date{Time: made}, Program: program, Formulas: Fingerprint(), Cooling: p.Hops.Cooling,
		Volumes: gyle.Volumes{
			FullKettle: tidy(p.Volumes.FullKettle), FullKettleHot: tidyHot(p.Volumes.FullKettleHot),
			KnockOut: tidy(p.Volumes.KnockOut), KnockOutHot: tidyHot(p.Volumes.KnockOutHot),
			Collected: tidy(p.Volumes.Collected), Packaged: tidy(p.Volumes.Packaged),
		},
		Gravity: gyle.Gravities{
			FullKettle: tidy(p.Gravity.FullKettle), OG: tidy(p.Gravity.OG), FG: tidy(p.Gravity.FG), ABV: tidyShare(p.Gravity.ABV), Extract: tidy(p.Gravity.Extract),
		},
		Yield: gyle.Yield{Value: tidyShare(p.Grist.Yield)},
		Boil:  gyle.Boil{Time: tidy(p.Boil.Time), Temperature: tidyTemperature(p.Boil.Temperature), HeatUp: tidy(p.Boil.HeatUp), PerHour: tidy(p.Boil.PerHour)},
	}
	if house := p.HouseDocument(); house != nil {
		s.Liquor.HeatUp = tidy(strikeHeating(p, house))
		s.Cooler = coolerOf(house, p.Hops.Cooling)
		s.Yield.Absorption, s.Yield.Dead = house.Mash.Absorption, house.Mash.Dead
		if house.Mash.Yield != nil {
			s.Yield.SD = house.Mash.Yield.SD
		}
	}
	for _, f := range p.Figures {
		s.Figures = append(s.Figures, gyle.Figure{Figure: f.Figure, Value: tidy(f.Value), SD: tidy(f.SD)})
	}
	snapshotMash(s, p)
	snapshotHops(s, p)
	snapshotCellar(s, p)
	return s
}

func snapshotMash(s *gyle.Plan, p *plan.Plan) {
	for _, l := range p.Grist.Lines {
		in := ""
		if !l.In.IsZero() {
			in = l.In.String()
		}
		for _, u := range l.Lots {
			s.Grist = append(s.Grist, gyle.Grain{Malt: l.Malt, Lot: u.Lot, Mass: tidy(u.Mass), In: in, Extract: tidyShare(u.Extract), Color: tidy(u.Color)})
		}
	}
	l := p.Liquor
	s.Liquor = gyle.Liquor{
		Mash: tidy(l.Mash), Infused: tidy(l.Infused), Sparge: tidy(l.Sparge), Strike: tidyTemperature(l.Strike), SpargeAt: tidyTemperature(l.SpargeAt),
		Grain: p.GrainTemperature(), HeatUp: s.Liquor.HeatUp, SpargeAcid: acidOf(l.SpargeAcid), Soft: tidy(l.Soft),
	}
	for _, dose := range l.Salts {
		s.Salts = append(s.Salts, gyle.Salt{Salt: dose.Salt, Mass: tidy(dose.Mass)})
	}
	s.Mash = gyle.Mash{PH: tidy(p.Mash.PH), SD: p.Mash.PHSD, Acid: acidOf(p.Mash.Acid)}
	for _, step := range p.Mash.Steps {
		s.Steps = append(s.Steps, gyle.Step{At: tidy(step.At), What: step.What, Temperature: tidyTemperature(step.Temperature), Time: tidy(step.Time)})
	}
}

func acidOf(dose *plan.AcidDose) *gyle.Acid {
	if dose == nil {
		return nil
	}
	return &gyle.Acid{Acid: dose.Acid, Volume: quantity.Millilitres(tidy(dose.ML))}
}

func snapshotHops(s *gyle.Plan, p *plan.Plan) {
	for _, c := range p.Hops.Charges {
		for _, u := range c.Lots {
			charge := gyle.Charge{Hop: c.Hop, At: c.At.String(), Lot: u.Lot, Mass: tidy(u.Mass), Alpha: tidyShare(u.Alpha)}
			if whole := float64(c.Mass) * float64(c.Alpha); whole > 0 {
				charge.IBU = tidy(quantity.IBU(float64(c.IBU) * float64(u.Mass) * float64(u.Alpha) / whole))
			}
			s.Hops = append(s.Hops, charge)
		}
	}
	for _, step := range p.Hops.Path {
		s.Path = append(s.Path, gyle.PathStep{Name: step.Name, Time: tidy(step.Time), From: tidyTemperature(step.From), To: tidyTemperature(step.To)})
	}
}

func snapshotCellar(s *gyle.Plan, p *plan.Plan) {
	c := p.Cellar
	s.Cellar = gyle.Cellar{Yeast: c.Yeast, Dry: tidy(c.Dry), Cells: tidy(c.Cells), Range: c.Temperature, CO2: c.CO2, Sugar: c.Sugar, Priming: tidy(c.Priming)}
	s.Cellar.Pitch = pitchTemperature(p)
}

// Fingerprint tells one set of formulas from another: it changes when any
// formula, its range or its source does.
func Fingerprint() string {
	sum := sha256.New()
	for _, f := range science.All() {
		sum.Write([]byte(f.Name + "\n" + f.Text + "\n"))
	}
	return hex.EncodeToString(sum.Sum(nil))[:12]
}

// tidy rounds to six significant digits: a snapshot is read by people, and
// nothing in a brewery is known better.
func tidy[T ~float64](x T) T {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(float64(x), 'g', 6, 64), 64)
	if err != nil {
		return x
	}
	return T(rounded)
}

func tidyHot(v quantity.VolumeAt) quantity.VolumeAt {
	return quantity.VolumeAt{Volume: tidy(v.Volume), At: tidyTemperature(v.At)}
}

// tidyTemperature rounds to a hundredth of a degree.
func tidyTemperature(t quantity.Temperature) quantity.Temperature {
	if t.IsZero() {
		return t
	}
	return quantity.Celsius(math.Round(100*t.Celsius()) / 100)
}

// tidyShare rounds a share as it is written, in percent.
func tidyShare(f quantity.Fraction) quantity.Fraction { return quantity.Percent(tidy(f.Percent())) }

// pitchTemperature is how cold the wort is when the yeast goes in: as cold as
// the kettle gets, or the lower end of the yeast's range where the wort is
// cooled on its way.
func pitchTemperature(p *plan.Plan) quantity.Temperature {
	if t := p.Cellar.Temperature; t != nil && t.HasLow() {
		return t.Low
	}
	if steps := p.Hops.Path; len(steps) > 0 && steps[len(steps)-1].Name == "chill" {
		return tidyTemperature(steps[len(steps)-1].To)
	}
	return quantity.Temperature{}
}

// tapWater is the liquor before it is heated. Common practice: 10 to 15 °C.
var tapWater = quantity.Celsius(15)

// strikeHeating is how long the liquor for the mash takes to its strike
// temperature: with the heater of the mash vessel, else with that of the
// kettle.
func strikeHeating(p *plan.Plan, house *brewhouse.House) quantity.Duration {
	heater := mash.Heater{Power: house.Kettle.Power, Efficiency: house.Kettle.Efficiency}
	if house.Mash.Power != nil {
		heater = mash.Heater{Power: *house.Mash.Power, Efficiency: 1}
	}
	if p.Liquor.Mash <= 0 || heater.Power <= 0 {
		return 0
	}
	water := gravity.WortMass(p.Liquor.Mash, 1)
	c := mash.HeatCapacity(mash.Grain{}, water, mash.Vessel{})
	return mash.HeatingTime(c, heater, tapWater, p.Liquor.Strike)
}

// coolerOf returns what cools the whole kettle by a way of cooling.
func coolerOf(house *brewhouse.House, way string) gyle.Cooler {
	for _, c := range house.Cooling {
		if c.Name == way && c.Tau != nil {
			return gyle.Cooler{Tau: *c.Tau, Water: c.Water}
		}
	}
	return gyle.Cooler{}
}
