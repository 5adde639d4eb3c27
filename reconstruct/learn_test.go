// SPDX-License-Identifier: MIT

package reconstruct

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gyle/quantity"
	"gyle/science/gravity"
)

// plant is the truth about a simulated house, drawn from the priors of any
// house.
type plant struct {
	size                                        float64 // knock-out, L
	yield, slope, perHour, loss, absorption     float64
	yieldPrior, perHourPrior, lossPrior, soaked Constant
}

func newPlant(random *rand.Rand) plant {
	size := math.Exp(math.Log(15) + math.Log(6)*random.Float64())
	p := plant{size: size, yieldPrior: YieldConstant, soaked: AbsorptionConstant,
		perHourPrior: EvaporationConstant.From(quantity.Estimate{Value: 0.1 * size}), lossPrior: LossConstant.From(quantity.Estimate{Value: 0.08 * size})}
	draw := func(c Constant) float64 {
		if c.Relative {
			return c.Prior.Value * math.Exp(c.Prior.SD*random.NormFloat64())
		}
		return c.Prior.Value + c.Prior.SD*random.NormFloat64()
	}
	p.yield, p.slope = draw(p.yieldPrior), p.yieldPrior.Slope.Value+p.yieldPrior.Slope.SD*random.NormFloat64()
	p.perHour, p.loss, p.absorption = draw(p.perHourPrior), draw(p.lossPrior), draw(p.soaked)
	return p
}

func (p plant) house() *House {
	return &House{Constants: []Constant{p.yieldPrior, p.perHourPrior, p.lossPrior, p.soaked}}
}

// planned is what a brewer sets out to do with what the house is believed to do.
type planned struct {
	og, grist, lab, liquor, full float64
	predicted                    float64 // OG
	known                        Constants
	steam, lost                  quantity.Estimate
}

// plan works back from the OG with the constants as believed.
func (p plant) plan(random *rand.Rand, h *House) planned {
	out := planned{og: 1.040 + 0.025*random.Float64(), lab: 0.78}
	out.steam = h.Learned(EvaporationConstant.Name).Next(0) // an hour's boil
	out.lost = h.Learned(LossConstant.Name).Next(0)
	extract := extractOf(p.size, out.og)
	mass := float64(gravity.WortMass(quantity.Volume(p.size), quantity.SG(out.og))) + out.steam.Value
	full := quantity.Plato(100 * extract / mass)
	out.full = float64(gravity.WortVolume(quantity.Mass(mass), gravity.SGFromPlato(full)))
	out.known = h.Known(full)
	out.grist = extract / (out.lab * out.known.Yield.Value)
	out.liquor = out.full + out.known.Absorption.Value*out.grist
	out.predicted = out.og
	return out
}

// brew carries a plan out on the true house and returns its log and its true OG.
func (p plant) brew(random *rand.Rand, plan planned) (Day, float64) {
	noise := random.NormFloat64
	absorption := p.absorption + p.soaked.Scatter*noise()
	volume := plan.liquor - absorption*plan.grist
	// The yield follows the gravity, which follows the yield.
	yield := p.yield
	for range 30 {
		sg := sgOf(volume, yield/100*plan.lab*plan.grist)
		yield = p.yield + p.slope*(float64(gravity.PlatoFromSG(quantity.SG(sg)))-p.yieldPrior.Middle)
	}
	yield += p.yieldPrior.Scatter * noise()
	extract := yield / 100 * plan.lab * plan.grist
	first := sgOf(volume, extract)
	steam := p.perHour * math.Exp(p.perHourPrior.Scatter*noise())
	mass := float64(gravity.WortMass(quantity.Volume(volume), quantity.SG(first))) - steam
	og := float64(gravity.SGFromPlato(quantity.Plato(100 * extract / mass)))
	knockOut := float64(gravity.WortVolume(quantity.Mass(mass), quantity.SG(og)))
	loss := p.loss * math.Exp(p.lossPrior.Scatter*noise())
	d := Day{
		Grist:  []Malt{{Name: "malt", Mass: Reading{Kind: Kilos, Value: plan.grist + Scale.SD(plan.grist)*noise()}, Extract: quantity.Fraction(plan.lab)}},
		Liquor: []Reading{volumeRead(random, plan.liquor, 0)},
		Known:  plan.known,
		Steps:  []Step{{Evaporated: plan.steam}, {Lost: plan.lost}},
	}
	for i, wort := range []struct {
		name       string
		v, sg, hot float64
	}{{"full kettle", volume, first, 95}, {"knock-out", knockOut, og, 98}, {"fermenter", knockOut - loss, og, 0}} {
		point := Point{Name: wort.name, Layered: i == 0, Volumes: []Reading{volumeRead(random, wort.v, wort.hot)},
			Gravities: []Reading{{Kind: SG, Value: wort.sg + Hydrometer.Absolute*noise()}}}
		if wort.hot > 0 {
			point.Hot = quantity.Celsius(wort.hot)
		}
		d.Points = append(d.Points, point)
	}
	d.Known.Dead = quantity.Estimate{Value: 0, SD: 1e-3}
	return d, og
}

func volumeRead(random *rand.Rand, at20, celsius float64) Reading {
	r := volume(random, "", at20, quantity.Temperature{})
	if celsius > 0 {
		r = volume(random, "", at20, quantity.Celsius(celsius))
	}
	return r
}

// TestHousesLearn simulates houses that brew five times and are asked about the
// sixth: 90 % bands of the constants must cover 87 to 93 % of the truths, and the
// error of the predicted OG must fall to half of the first brew's or less. With
// few houses the bounds are widened by the chance of so few.
func TestHousesLearn(t *testing.T) {
	random := rand.New(rand.NewPCG(31, 32))
	houses := rounds(40, 500)
	inside, asked := map[string]int{}, 0
	first, sixth := 0.0, 0.0
	for range houses {
		p := newPlant(random)
		h := p.house()
		for brew := range 6 {
			plan := p.plan(random, h)
			d, og := p.brew(random, plan)
			switch brew {
			case 0:
				first += (og - plan.predicted) * (og - plan.predicted)
			case 5:
				sixth += (og - plan.predicted) * (og - plan.predicted)
				continue
			}
			s, err := Smooth(d)
			if err != nil {
				t.Fatal(err)
			}
			r := Reconstruction{Day: d, Smoothed: s, Brewed: Facts{Boil: []Leg{{Name: "boil", From: quantity.Celsius(100), Time: 60, Boils: true}}}}
			h.Add(r.Lessons("brew"))
		}
		for _, truth := range []struct {
			name string
			x    float64
		}{{"yield", p.yield}, {"evaporation", p.perHour}, {"kettle loss", p.loss}, {"absorption", p.absorption}} {
			l := h.Learned(truth.name)
			if math.Abs(l.inner(truth.x)-l.inner(l.Value.Value)) < 1.645*l.innerSD() {
				inside[truth.name]++
			}
			asked++
		}
	}
	all := 0
	for _, name := range []string{"yield", "evaporation", "kettle loss", "absorption"} {
		t.Logf("%s: %.1f %% of %d in the 90 %% band", name, 100*float64(inside[name])/float64(houses), houses)
		all += inside[name]
	}
	share := float64(all) / float64(asked)
	first, sixth = math.Sqrt(first/float64(houses)), math.Sqrt(sixth/float64(houses))
	t.Logf("%.1f %% in all; error of the OG %.2f points at first, %.2f at the sixth brew", 100*share, 1000*first, 1000*sixth)
	chance := 0.0
	if houses < 500 {
		chance = 2 * math.Sqrt(0.1*0.9/float64(asked))
	}
	if share < 0.87-chance || share > 0.93+chance {
		t.Errorf("%.1f %% of the truths lie in their 90 %% bands", 100*share)
	}
	if sixth > first/2 {
		t.Errorf("the error of the OG fell from %.2f to %.2f points only", 1000*first, 1000*sixth)
	}
}

// innerSD is the SD on the scale of learning.
func (l Learned) innerSD() float64 {
	if l.Relative {
		return l.Value.SD / l.Value.Value
	}
	return l.Value.SD
}

// TestHouseFactor: two laboratory values at 0.91 and 0.95 of the prediction
// make K 0.94 ± 0.08, from a prior of ± 0.25 (by hand: 0.937, 0.080·0.937).
func TestHouseFactor(t *testing.T) {
	l := FactorConstant.Learn([]Sight{
		{Constant: "house factor", Brew: "Ferry Brown 1", Value: 0.91},
		{Constant: "yield", Brew: "Ferry Brown 1", Value: 75, SD: 1},
		{Constant: "house factor", Brew: "Ferry Brown 2", Value: 0.95},
	})
	within(t, "K", l.Value.Value, 0.94, 0.005)
	within(t, "SD of K", l.Value.SD, 0.08, 0.005)
	if got := l.String(); got != "house factor 0.94 ± 0.08, from 2 brews: Ferry Brown 1 0.91, Ferry Brown 2 0.95; before them 1.00 ± 0.25" {
		t.Errorf("the sentence is %q", got)
	}
	// The unknown house: 29 IBU are 22 to 36.
	none := FactorConstant.Learn(nil)
	within(t, "29 IBU at the low end", 29*(none.Value.Value-none.Value.SD), 22, 0.5)
	within(t, "29 IBU at the high end", 29*(none.Value.Value+none.Value.SD), 36, 0.5)
	// New kit widens: √(0.080² + 0.12²) before the first brew on it.
	changed := FactorConstant.Learn(append([]Sight{}, Sight{Constant: "house factor", Brew: "1", Value: 0.91}, Sight{Constant: "house factor", Brew: "2", Value: 0.95},
		Sight{Constant: "house factor", Brew: "3", Value: 0.937, NewKit: true}))
	if changed.Value.SD <= 0.08 || !strings.Contains(changed.String(), "(new kit)") {
		t.Errorf("after new kit: %s", changed)
	}
	within(t, "expected of the brew on new kit, its scatter included", changed.Evidence[2].Predicted.SD/changed.Evidence[2].Predicted.Value, math.Sqrt(0.0804*0.0804+2*0.12*0.12), 0.003)
}

// TestMashPHWeight: a pH 0.11 above the prediction is believed to 0.80 where the
// meter is good to 0.05 and the prediction to 0.10, as the mash chapter has it.
func TestMashPHWeight(t *testing.T) {
	c := MashPHConstant
	c.Scatter = 0
	l := c.Learn([]Sight{{Constant: c.Name, Brew: "Ferry Brown 3", Value: 0.11, SD: 0.05}})
	within(t, "learned", l.Value.Value, 0.8*0.11, 0.0001)
}

func TestAnOutlierIsListed(t *testing.T) {
	var s []Sight
	for i, y := range []float64{75.5, 76.2, 75.0, 88, 75.8} {
		s = append(s, Sight{Constant: "yield", Brew: string(rune('A' + i)), Value: y, SD: 1, At: 11})
	}
	l := YieldConstant.Learn(s)
	if l.Evidence[3].Weight > 0.3 || math.Abs(l.Value.Value-75.6) > 0.8 {
		t.Errorf("learned %s, weight %.2f", l, l.Evidence[3].Weight)
	}
	if got := l.String(); !strings.Contains(got, "D 88.0 (hardly counted)") {
		t.Errorf("the sentence is %q", got)
	}
	misses := l.Misses()
	if len(misses) != 5 || misses[3].Z < 3 {
		t.Errorf("the ledger has %+v", misses)
	}
	b := Biases(misses)
	within(t, "mean miss", b[0].Mean, (75.5-75+76.2+75.0+88+75.8-misses[1].Predicted.Value-misses[2].Predicted.Value-misses[3].Predicted.Value-misses[4].Predicted.Value)/5, 1e-9)
}

// TestGarageTeaches takes the lessons of the demonstration's brew.
func TestGarageTeaches(t *testing.T) {
	in := brewing(t, "garage-v3.yaml", "garage")
	r, err := Make(in)
	if err != nil {
		t.Fatal(err)
	}
	h := NewHouse(in.House)
	h.Add(r.Lessons("Ferry Brown 3"))
	for _, l := range h.All() {
		t.Log(l)
	}
	for _, m := range r.Misses("Ferry Brown 3") {
		t.Logf("%s: %.4g ± %.2g, measured %.4g ± %.2g, z %.1f", m.What, m.Predicted.Value, m.Predicted.SD, m.Measured.Value, m.Measured.SD, m.Z)
	}
	within(t, "yield seen", h.Learned("yield").Evidence[0].Sight.Value, 74.5, 0.5)
	within(t, "evaporation seen", h.Learned("evaporation").Evidence[0].Sight.Value, 2.63, 0.15)
	// 100 to 20 °C in water of 12 °C in 24 min: 24/ln(88/8) = 10.0 min.
	within(t, "time constant seen", h.Learned("cooling time constant").Evidence[0].Sight.Value, 10.0, 0.1)
	// pH 5.56 measured at 10 min, 5.45 planned.
	within(t, "mash pH seen", h.Learned("mash pH above prediction").Evidence[0].Sight.Value, 0.11, 1e-9)
}

// TestLearnedConstantsReachThePlan writes what was learned into the document of
// the house and takes it out again.
func TestLearnedConstantsReachThePlan(t *testing.T) {
	in := brewing(t, "garage-v3.yaml", "garage")
	r, err := Make(in)
	if err != nil {
		t.Fatal(err)
	}
	h := NewHouse(in.House)
	h.Add(r.Lessons("Ferry Brown 3"))
	before := *in.House.Cooling[0].Tau
	doc := h.Apply(*in.House)
	if *in.House.Cooling[0].Tau != before {
		t.Error("the document that was given has changed")
	}
	again := NewHouse(&doc)
	for _, name := range []string{"yield", "evaporation", "kettle loss", "absorption", "cooling time constant", "mash pH above prediction"} {
		within(t, name, again.Learned(name).Value.Value, h.Learned(name).Value.Value, 1e-6)
	}
	if doc.Bitterness.K != in.House.Bitterness.K {
		t.Error("the house factor changed, and no laboratory value was added")
	}
	in.Known, in.Factor = h.Known(10.6), h.Factor()
	if _, err := Make(in); err != nil {
		t.Error(err)
	}
}
