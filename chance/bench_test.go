// SPDX-License-Identifier: MIT

package chance_test

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os/exec"
	"testing"
	"time"

	"gyle/chance"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/carbonation"
	"gyle/science/color"
	"gyle/science/mash"
	chem "gyle/science/water"
)

// BenchmarkSimulate brews Ferry Brown 4 ten thousand times on paper. Aim: 400 ms
// on two processors, and no slower than the same model in numpy.
func BenchmarkSimulate(b *testing.B) {
	for _, house := range []string{"garage", "boathouse"} {
		p, s := made(b, on(b, "4", house)), oatBrown(b)
		b.Run(house, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				simulated(b, p, s, chance.Options{})
			}
		})
	}
}

// BenchmarkBesideNumpy runs the same ten thousand brews in numpy
// (bench/chance.py) and here, in turns, and prints the fastest of each.
func BenchmarkBesideNumpy(b *testing.B) {
	const python = "/usr/bin/python3"
	if exec.Command(python, "-c", "import numpy, scipy").Run() != nil {
		b.Skip("numpy and scipy are missing: nothing to compare with")
	}
	p, s := made(b, on(b, "4", "garage")), oatBrown(b)
	own := simulated(b, p, s, chance.Options{})
	model, err := json.Marshal(modelOf(b, p, own))
	if err != nil {
		b.Fatal(err)
	}
	var oracle struct {
		Names    []string
		Mean, SD []float64
		Joint    float64
		Seconds  float64
	}
	for b.Loop() {
		fastest, numpy := math.Inf(1), math.Inf(1)
		for range 3 {
			command := exec.Command(python, "../bench/chance.py")
			var complaint bytes.Buffer
			command.Stdin, command.Stderr = bytes.NewReader(model), &complaint
			out, err := command.Output()
			if err != nil {
				b.Fatalf("%v\n%s", err, complaint.Bytes())
			}
			if err := json.Unmarshal(out, &oracle); err != nil {
				b.Fatal(err)
			}
			numpy = min(numpy, oracle.Seconds)
			for range oracleRuns {
				begin := time.Now()
				if _, err := chance.Simulate(context.Background(), p, s, chance.Options{}); err != nil {
					b.Fatal(err)
				}
				fastest = min(fastest, time.Since(begin).Seconds())
			}
		}
		b.ReportMetric(1000*fastest, "ms/gyle")
		b.ReportMetric(1000*numpy, "ms/numpy")
		b.ReportMetric(numpy/fastest, "times-as-fast")
	}
	compare(b, own, oracle.Names, oracle.Mean, oracle.SD)
	b.Logf("all limits: %.3f here, %.3f in numpy", own.Limits.Share, oracle.Joint)
}

// oracleRuns is how many runs the fastest is taken of, per round.
const oracleRuns = 10

// compare checks that both are the same model: means within a twentieth of the
// standard deviation, standard deviations within 4 %; of the mash pH 12 %, as
// the oracle has its formula's error only.
func compare(b *testing.B, own *chance.Outlook, names []string, mean, sd []float64) {
	for i, name := range names {
		f := own.Figures[i]
		tolerance := 0.04
		if f.Figure == quantity.MashPH {
			tolerance = 0.12
		}
		if f.Name != name {
			b.Fatalf("%s stands where %s is wanted", name, f.Name)
		}
		near(b, "mean of "+name, mean[i], f.Mean, 0.05*f.SD)
		near(b, "sd of "+name, sd[i]/f.SD, 1, tolerance)
	}
}

// modelOf writes down what the oracle needs to brew Ferry Brown 4 on the Garage.
func modelOf(b *testing.B, p *plan.Plan, o *chance.Outlook) map[string]any {
	h := p.HouseDocument()
	k := h.Kettle
	way := h.Cooling[0]
	const pitch = 18.0 // °C
	stand, later := p.Hops.Path[2], p.Hops.Path[3]
	kelvin := func(t quantity.Temperature) float64 { return t.Kelvin() }
	attenuation, _ := p.Find(quantity.Attenuation)
	m := map[string]any{
		"samples": o.Samples, "runs": oracleRuns, "malts": maltsOf(p),
		"liquor": float64(p.Liquor.Total), "absorption": float64(h.Mash.Absorption), "fullSG": float64(p.Gravity.FullKettle), "evaporation": float64(p.Boil.Evaporation),
		"kettleLoss": float64(k.Loss), "lossOfHops": float64(p.Volumes.KnockOut - p.Volumes.Collected - k.Loss), "yeastLoss": float64(h.Fermenter.Loss),
		"boilsAt": kelvin(p.Boil.Temperature), "boil": float64(p.Boil.Time), "coolant": kelvin(way.Water), "tau": float64(*way.Tau), "cools": float64(k.Cools), "room": kelvin(k.Room),
		"stand": kelvin(stand.From), "standTime": float64(stand.Time), "pitch": pitch + 273.15,
		"recovery": float64(h.Bitterness.R), "house": h.Bitterness.K.Value,
		"attenuation": attenuation.Value, "co2": float64(p.Cellar.CO2), "gas": float64(p.Cellar.CO2 - p.Cellar.Residual),
		"air": float64(carbonation.AirPressure(h.Altitude)), "packaged": float64(p.Volumes.Packaged), "ph": float64(p.Mash.PH),
		"coolings": []map[string]any{
			{"name": "cool", "gap": p.Boil.Temperature.Celsius() - 12, "tau": float64(*way.Tau), "minutes": float64(p.Hops.Path[1].Time)},
			{"name": "stand", "gap": stand.From.Celsius() - 20, "tau": float64(k.Cools), "minutes": float64(stand.Time)},
			{"name": "chill", "gap": later.From.Celsius() - 12, "tau": float64(*way.Tau), "minutes": float64(later.Time)},
		},
	}
	var hops, ions, inputs []map[string]any
	for _, c := range p.Hops.Charges {
		hops = append(hops, map[string]any{"name": c.Hop + " " + c.Lots[0].Lot, "charge": c.Hop + " " + c.At.String(), "grams": c.Mass.Grams(), "alpha": float64(c.Alpha)})
	}
	for ion := range chem.IonCount {
		ions = append(ions, map[string]any{"symbol": ion.Symbol(), "name": ion.String(), "base": p.Liquor.Base[ion], "added": p.Liquor.Ions[ion] - p.Liquor.Base[ion]})
	}
	for _, in := range o.Inputs {
		mean := 1.0
		if in.Unit != "" || in.Name == "attenuation of the yeast" || in.Name == "formula of alcohol" || bytes.HasPrefix([]byte(in.Name), []byte("moisture")) || bytes.HasPrefix([]byte(in.Name), []byte("ageing")) {
			mean = 0
		}
		inputs = append(inputs, map[string]any{"name": in.Name, "sd": in.SD, "mean": mean})
	}
	m["hops"], m["ions"], m["inputs"], m["rules"] = hops, ions, inputs, rulesOf(b, o)
	return m
}

func maltsOf(p *plan.Plan) []map[string]any {
	var malts []map[string]any
	for _, line := range p.Grist.Lines {
		for _, u := range line.Lots {
			late, kept := line.In.Way == recipe.LateMash, 1.0
			if late {
				kept = float64(mash.ColorYield(mash.Late))
			}
			pale := color.LovibondFromEBC(0)
			malts = append(malts, map[string]any{
				"name": line.Malt + " " + u.Lot, "mass": float64(u.Mass), "late": late, "moisture": 0.045,
				"extract": float64(u.Mass) * float64(u.Extract) * float64(p.Grist.Yield),
				"pale":    float64(u.Mass) * pale * kept, "color": float64(u.Mass) * (color.LovibondFromEBC(u.Color) - pale) * kept,
			})
		}
	}
	return malts
}

// rulesOf lists the limits on figures, by their place among the figures.
func rulesOf(b *testing.B, o *chance.Outlook) [][3]float64 {
	var rules [][3]float64
	for i, f := range o.Figures {
		for _, r := range oatBrown(b).Rules {
			if r.FigureName() != f.Figure || r.FigureName() == "" {
				continue
			}
			if g := r.GravityRange(); g != nil {
				rules = append(rules, [3]float64{float64(i), g.Low.Value, g.High.Value})
				continue
			}
			if r.Severity == "limit" {
				rules = append(rules, [3]float64{float64(i), r.Range().Low, r.Range().High})
			}
		}
	}
	return rules
}
