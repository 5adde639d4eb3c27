// SPDX-License-Identifier: MIT

package mash

import (
	"math"
	"testing"

	"gyle/quantity"
)

// The expected values of these tests are computed from the formula of PH with
// the water and acids below (regression values) unless a row says otherwise.

// water is a liquor of a given alkalinity, reported at the endpoint 4.3, and
// pH at 20 °C, closed: no carbon dioxide is lost.
func water(alkalinity, ph float64) func(quantity.PH) quantity.Charge {
	const pKw = 14.1682
	w := func(at float64) float64 { return 1000 * (math.Pow(10, at-pKw) - math.Pow(10, -at)) }
	total := (alkalinity - w(ph) + w(4.3)) / (carbonateCharge(ph) - carbonateCharge(4.3))
	return func(at quantity.PH) quantity.Charge {
		x := float64(at)
		return quantity.Charge(total*(carbonateCharge(ph)-carbonateCharge(x)) + w(ph) - w(x))
	}
}

// acidOf is an acid of a given strength in mol/L and dissociation exponents.
func acidOf(molar float64, pK ...float64) func(quantity.PH) float64 {
	return func(ph quantity.PH) float64 {
		share, sum, charge := 1.0, 1.0, 0.0
		for i, k := range pK {
			share *= math.Pow(10, float64(ph)-k)
			sum += share
			charge += float64(i+1) * share
		}
		return molar * charge / sum
	}
}

var (
	lactic88     = acidOf(1000*1.206*0.88/90.078, 3.86)
	lactic80     = acidOf(1000*1.187*0.80/90.078, 3.86)
	phosphoric10 = acidOf(1000*1.053*0.10/97.994, 2.148, 7.198, 12.35)
)

func near(t *testing.T, name string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6g, want %.6g ± %g", name, got, want, tolerance)
	}
}

func base(mass, phdi, buffer float64) Malt {
	return Malt{Mass: quantity.Mass(mass), Base: true, PHDI: quantity.PH(phdi), Buffer: buffer}
}

func titrated(mass, acidity, buffer float64) Malt {
	return Malt{Mass: quantity.Mass(mass), Acidity57: acidity, Buffer: buffer}
}

func withEta(b Balance, eta float64) Balance {
	b.Parameters = DefaultParameters
	b.Parameters.Eta = quantity.Fraction(eta)
	return b
}

func hardLiquor(litres float64) Liquor {
	return Liquor{Volume: quantity.Volume(litres), Calcium: 60, Magnesium: 10, AcidDemand: water(2, 7.8)}
}

func pilsner() Balance {
	return Balance{Malts: []Malt{base(5, 5.75, 38)}, Liquor: Liquor{Volume: 20}}
}

func pale() Balance {
	return Balance{Malts: []Malt{base(4.5, 5.75, 38), titrated(0.5, 28.96, 35)}, Liquor: hardLiquor(18)}
}

func stout() Balance {
	return Balance{
		Malts:  []Malt{base(4, 5.68, 38), base(.5, 5.90, 32), titrated(.4, 38, 35)},
		Liquor: Liquor{Volume: 16, Calcium: 90, Magnesium: 15, AcidDemand: water(5, 7.4)},
	}
}

func TestPH(t *testing.T) {
	hard := pilsner()
	hard.Liquor = hardLiquor(20)
	acidified := pale()
	acidified.Acids = []Acid{{4.0, lactic88}}
	distilledStout := stout()
	distilledStout.Liquor = Liquor{Volume: 16}
	soda := distilledStout
	soda.Bicarbonate = 5000 / 84.006
	sour := Balance{Malts: []Malt{base(4.85, 5.75, 38), titrated(.15, 320, 35)}, Liquor: Liquor{Volume: 20}}
	calcium := func(ca quantity.Concentration) Balance {
		b := pilsner()
		b.Liquor.Calcium = ca
		return b
	}
	munich := Balance{Malts: []Malt{base(5, 5.48, 40)}, Liquor: Liquor{Volume: 20}}
	chalk, lime := munich, munich
	chalk.Chalk = 6000 / 100.086
	lime.Lime = 3000 / 74.092
	for _, c := range []struct {
		name string
		b    Balance
		want float64
	}{
		{"Pilsner malt in distilled water", pilsner(), 5.750},
		{"in hard water, eta 1", withEta(hard, 1), 5.8095},
		{"in hard water, eta 0.85", hard, 5.7868},
		{"in hard water, eta 0.65", withEta(hard, .65), 5.7556},
		{"with caramel malt", pale(), 5.7066},
		{"with caramel malt, eta 1", withEta(pale(), 1), 5.7283},
		{"with caramel malt and 4.0 mL lactic", acidified, 5.4733},
		{"stout", stout(), 5.7806},
		{"stout, eta 1", withEta(stout(), 1), 5.8241},
		{"stout in distilled water", distilledStout, 5.6174},
		{"stout with 5 g of bicarbonate", soda, 5.8677},
		{"3 % of acidulated malt", sour, 5.4954},
		{"100 mg/L of calcium", calcium(100), 5.5999},
		{"200 mg/L of calcium", calcium(200), 5.4498},
		{"6 g of chalk", chalk, 5.7513},
		{"3 g of lime", lime, 5.8039},
	} {
		near(t, c.name, float64(PH(c.b)), c.want, 0.001)
	}
}

// The pH of a mash with 0, 100, 200 and 300 mg/L of calcium, measured by Taylor
// and given in Briggs et al., Brewing: Science and Practice (2004); second-hand.
func TestPHFollowsMeasuredCalciumSeries(t *testing.T) {
	for _, c := range []struct{ calcium, measured, model float64 }{
		{0, 5.74, 5.74}, {100, 5.48, 5.59}, {200, 5.39, 5.44}, {300, 5.28, 5.29},
	} {
		b := Balance{
			Malts:  []Malt{base(1, 5.74, 38)},
			Liquor: Liquor{Volume: 4, Calcium: quantity.Concentration(c.calcium)},
		}
		near(t, "measured", float64(PH(b)), c.measured, 0.12)
		near(t, "model", float64(PH(b)), c.model, 0.005)
	}
}

func TestAcidFor(t *testing.T) {
	hard := pilsner()
	hard.Liquor = hardLiquor(20)
	for _, c := range []struct {
		name  string
		b     Balance
		perML func(quantity.PH) float64
		want  float64
	}{
		{"lactic 88 %", pale(), lactic88, 5.267},
		{"phosphoric 10 %", pale(), phosphoric10, 55.28},
		{"lactic 80 %", hard, lactic80, 7.541},
	} {
		got := AcidFor(c.b, 5.40, c.perML)
		near(t, c.name, got, c.want, 0.003*c.want)
		c.b.Acids = []Acid{{got, c.perML}}
		near(t, c.name+", back", float64(PH(c.b)), 5.40, 1e-8)
	}
}

func TestContributions(t *testing.T) {
	b := pilsner()
	b.Liquor = hardLiquor(20)
	sums := map[Source]float64{}
	total := 0.0
	for _, c := range Contributions(b, PH(b)) {
		sums[c.Source] += c.Protons
		total += c.Protons
	}
	near(t, "acid demand at that pH, mEq/L", float64(b.Liquor.AcidDemand(PH(b))), 1.5558, 0.0001)
	near(t, "malt", sums[FromMalt], 6.988, 0.001)
	near(t, "calcium and magnesium", sums[FromCalcium]+sums[FromMagnesium], 19.461, 0.001)
	near(t, "alkalinity", sums[FromAlkalinity], -26.449, 0.001)
	near(t, "sum", total, 0, 1e-6)

	b.Bicarbonate, b.Chalk, b.Lime = 10, 5, 3
	b.Acids = []Acid{{2, lactic88}, {10, phosphoric10}}
	total = 0
	all := Contributions(b, PH(b))
	for _, c := range all {
		total += c.Protons
	}
	near(t, "sum with salts and acids", total, 0, 1e-6)
	if len(all) != 1+3+2+3 {
		t.Errorf("got %d contributions, want 9", len(all))
	}
}

func TestStaged(t *testing.T) {
	early := stout()
	late := early.Malts[2:]
	early.Malts = early.Malts[:2]
	for _, c := range []struct{ released, want float64 }{
		{0, 5.863}, {.25, 5.842}, {.5, 5.821}, {.75, 5.800}, {.95, 5.785}, {1, 5.781},
	} {
		near(t, "released", float64(Staged(early, late, quantity.Fraction(c.released)).Now), c.want, 0.001)
	}
	early.Acids = []Acid{{6.877, lactic88}}
	got := Staged(early, late, Released(5, LateReleaseTime))
	near(t, "early with acid", float64(got.Early), 5.450, 0.001)
	near(t, "after with acid", float64(got.After), 5.392, 0.001)
	near(t, "one time constant", float64(Released(5, LateReleaseTime)), 1-1/math.E, 1e-12)
}

func TestSteps(t *testing.T) {
	b := stout()
	late := b.Malts[2:]
	b.Malts = b.Malts[:2]
	b.Acids = []Acid{{6.877, lactic88}}
	untreated := b.Liquor
	untreated.Calcium = 40
	rail := Steps(b, untreated, late)
	near(t, "acid", float64(rail.Acid), 5.450, 0.001)
	near(t, "late", float64(rail.Late), 5.392, 0.001)
	near(t, "salts", float64(rail.Salts), 5.863, 0.001)
	// Two malts alone settle at the mean of their pH weighted with m·B.
	near(t, "distilled", float64(rail.Distilled), (4*38*5.68+.5*32*5.90)/(4*38+.5*32), 1e-8)
	if rail.Water <= rail.Salts {
		t.Errorf("calcium does not lower the pH: %v before, %v after", rail.Water, rail.Salts)
	}
}

// A malt with a curved titration curve and a known dose: the pH must solve
// 38·x + 10·x² + 6·x³ = −Ca/(20.039·3.5)·V/m, here made so that x is −0.2.
func TestPHWithCurvedMalt(t *testing.T) {
	malt := base(5, 5.75, 38)
	malt.A2, malt.A3 = 10, 6
	released := 5 * (38*.2 - 10*.04 + 6*.008)
	b := Balance{
		Malts:  []Malt{malt},
		Liquor: Liquor{Volume: 20, Calcium: quantity.Concentration(released / 20 * 20.039 * 3.5)},
	}
	near(t, "curved", float64(PH(b)), 5.55, 1e-8)
}

// Far from any mash the solver still finds the root: a titrated malt alone has
// it at 5.7 − A57/B, 2.2 and 4.7 here.
func TestPHFarFromMashes(t *testing.T) {
	near(t, "sour", float64(PH(Balance{Malts: []Malt{titrated(1, 122.5, 35)}})), 2.2, 1e-8)
	near(t, "tart", float64(PH(Balance{Malts: []Malt{titrated(1, 35, 35)}})), 4.7, 1e-8)
	near(t, "at a bracket", float64(PH(Balance{Malts: []Malt{base(1, 5, 35)}})), 5, 1e-8)
}

func TestPHOfNothing(t *testing.T) {
	if got := PH(Balance{}); !math.IsNaN(float64(got)) {
		t.Errorf("got %v, want NaN", got)
	}
}

func BenchmarkPH(b *testing.B) {
	mash := garage()
	for b.Loop() {
		PH(mash)
	}
}
