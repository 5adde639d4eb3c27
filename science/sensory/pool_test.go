// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"testing"

	"gyle/quantity"
)

// Fifteen assessors with three triangles each, 29 of 45 right. Computed in scipy, and
// with the statistics package of brockhoff2010.
func TestReplicates(t *testing.T) {
	r := Replicates{Protocol: Triangle}
	for _, right := range []int{2, 3, 1, 3, 3, 0, 2, 3, 1, 2, 3, 1, 0, 3, 2} {
		r.Assessors = append(r.Assessors, Answered{right, 3})
	}
	if err := r.Check(); err != nil {
		t.Fatal(err)
	}
	same(t, "pooled p", r.Pooled().P(), 1.9345e-5, 5.1e-10)
	d := r.Dispersion()
	same(t, "χ²", d.ChiSquare, 24.634, 5.1e-4)
	same(t, "χ² p", d.P, .0384, 5.1e-5)
	same(t, "φ", d.Factor, 1.75954, 5.1e-6)
	same(t, "γ", d.Gamma, .37977, 5.1e-6)
	same(t, "Tarone", d.Tarone, 2.1541, 5.1e-5)
	same(t, "Tarone p", normalBelow(-d.Tarone), .0156, 5.1e-5)
	same(t, "effective", d.Effective, 25.6, .05)

	plain := r.BetaBinomial()
	same(t, "μ", plain.Mean, .64452, 5e-5)
	same(t, "γ", plain.Gamma, .32126, 5e-5)
	same(t, "log likelihood", plain.LogLikelihood, -19.6430, 5.1e-5)
	corrected := r.CorrectedBetaBinomial()
	same(t, "corrected μ", corrected.Mean, .47073, 5e-5)
	same(t, "corrected γ", corrected.Gamma, .59764, 5e-5)
	same(t, "corrected log likelihood", corrected.LogLikelihood, -19.7222, 5.1e-5)
	same(t, "corrected proportion", corrected.Proportion, .64715, 5e-5)
	same(t, "corrected d′", corrected.Distance, 2.218, 5.1e-4)
	same(t, "G²", corrected.G2, 3.7486, 2e-4)
}

func TestReplicatesWithoutSpread(t *testing.T) {
	r := Replicates{Triangle, []Answered{{2, 3}, {2, 3}, {2, 3}, {2, 3}, {2, 3}, {2, 3}}}
	got, want := r.Interval(0.9), r.Pooled().Interval(0.9)
	sameSpan(t, "interval", got, want.Low, want.High, 1e-12)
	spread := Replicates{Triangle, []Answered{{3, 3}, {3, 3}, {3, 3}, {3, 3}, {0, 3}, {0, 3}}}
	if wide := spread.Interval(0.9); wide.High-wide.Low <= want.High-want.Low {
		t.Errorf("assessors that differ don't widen the interval: %v, %v", wide, want)
	}
	if d := (Replicates{Triangle, []Answered{{3, 3}}}).Dispersion(); d.Effective != 3 || d.Factor != 0 {
		t.Errorf("one assessor: %+v", d)
	}
	once := Replicates{Triangle, []Answered{{1, 1}, {0, 1}, {1, 1}, {0, 1}}}
	plain := once.Pooled().Interval(0.9)
	sameSpan(t, "one answer each", once.Interval(0.9), plain.Low, plain.High, 1e-12)
	voices, undecided := Replicates{Preference, []Answered{{2, 3}, {2, 4}, {0, 3}, {3, 3}, {1, 3}}}.Majority()
	if voices != (Choice{Preference, 2, 4}) || undecided != 1 {
		t.Errorf("majority %+v, undecided %d", voices, undecided)
	}
	bad := Replicates{Triangle, []Answered{{3, 3}, {4, 3}}}
	if bad.Check() == nil {
		t.Error("4 of 3 is accepted")
	}
}

// Computed in scipy; the common d′ with the statistics package of brockhoff2010.
func TestSessions(t *testing.T) {
	even := Sessions{{Triangle, 5, 10}, {Triangle, 6, 12}, {Triangle, 9, 18}}
	for i, want := range []float64{.2131, .1777, .1076} {
		same(t, "p of a session", even[i].P(), want, 5.1e-5)
	}
	pooled, ok := even.Pooled()
	if !ok || pooled != (Choice{Triangle, 20, 40}) {
		t.Errorf("pooled %+v", pooled)
	}
	same(t, "pooled p", pooled.P(), .02144, 5.1e-6)
	same(t, "convolved p", even.P(), pooled.P(), 1e-12)
	chi, p := even.FisherCombined()
	same(t, "Fisher χ²", chi, 11.005, 5.1e-4)
	same(t, "Fisher p", p, .0882, 5.1e-5)
	z, p := even.Stouffer()
	same(t, "Stouffer z", z, 1.7353, 5.1e-5)
	same(t, "Stouffer p", p, .0413, 5.1e-5)
	chi, p = even.Homogeneity()
	same(t, "homogeneity χ²", chi, 0, 1e-12)
	same(t, "homogeneity p", p, 1, 1e-9)
	common := even.Common(0.95)
	same(t, "common d′", common.Distance.Value, 1.46626, 1e-5)
	same(t, "common SE", common.Distance.SD, .41465, 1e-5)
	sameSpan(t, "common as one", common.Interval, pooled.DistanceInterval(0.95).Low, pooled.DistanceInterval(0.95).High, 1e-4)

	uneven := Sessions{{Triangle, 5, 10}, {Triangle, 6, 12}, {Triangle, 15, 18}}
	common = uneven.Common(0.95)
	same(t, "common d′", common.Distance.Value, 2.233, 5.1e-4)
	same(t, "common SE", common.Distance.SD, .396, 5.1e-4)
	same(t, "G²", common.G2, 5.077, 5.1e-4)
	same(t, "G² p", common.P, .0790, 5.1e-5)
}

func TestSessionsOfDifferentProtocols(t *testing.T) {
	mixed := Sessions{{Triangle, 7, 12}, {TwoAFC, 9, 12}}
	// All outcomes, one by one.
	want := 0.0
	for x := 0; x <= 12; x++ {
		for y := max(0, 16-x); y <= 12; y++ {
			want += binomial(x, 12, 1.0/3) * binomial(y, 12, 0.5)
		}
	}
	same(t, "p", mixed.P(), want, 1e-13)
	if _, ok := mixed.Pooled(); ok {
		t.Error("a triangle and a pair are pooled")
	}
	common := mixed.Common(0.95)
	triangle, pair := mixed[0].Protocol.Distance(7.0/12), mixed[1].Protocol.Distance(9.0/12)
	if d := common.Distance.Value; d <= min(triangle, pair) || d >= max(triangle, pair) {
		t.Errorf("common d′ %g isn't between %g and %g", d, triangle, pair)
	}
	full := Sessions{{Triangle, 12, 12}, {TwoAFC, 6, 12}}.Common(0.95)
	if full.P > 0.05 || full.Distance.Value <= 0 {
		t.Errorf("all right and half right: %+v", full)
	}
	guessed := Sessions{{Triangle, 3, 12}, {TwoAFC, 5, 12}}.Common(0.95)
	same(t, "guessed", guessed.Distance.Value, 0, 1e-9)
	same(t, "guessed low", guessed.Interval.Low, 0, 1e-9)
}

// Computed in scipy, and with an R package for meta-analysis.
func TestCombineDistances(t *testing.T) {
	var list []quantity.Estimate
	for i, d := range []float64{1.2, .4, 2.1, 1.5} {
		list = append(list, quantity.Estimate{Value: d, SD: math.Sqrt([]float64{.30, .25, .40, .20}[i])})
	}
	c := CombineDistances(list)
	same(t, "fixed", c.Fixed.Value, 1.23708, 5.1e-6)
	same(t, "fixed SE", c.Fixed.SD, .25965, 5.1e-6)
	same(t, "Q", c.Q, 5.01461, 5.1e-6)
	same(t, "Q p", c.P, .1707, 5.1e-5)
	same(t, "random", c.Random.Value, 1.25521, 5.1e-6)
	same(t, "random SE", c.Random.SD, .33961, 5.1e-6)
	same(t, "τ²", c.Tau2, .18485, 5.1e-6)
	same(t, "I²", c.I2, .4017, 5.1e-5)
}

// Computed in scipy, and with R's mantelhaen.test.
func TestCombineTables(t *testing.T) {
	s := CombineTables([]Table{{10, 6, 4, 8}, {9, 5, 3, 7}, {12, 9, 6, 9}}, 0.95)
	same(t, "χ²", s.ChiSquare, 5.4509, 5.1e-5)
	same(t, "p", s.P, .01956, 5.1e-6)
	same(t, "corrected χ²", s.Corrected, 4.5049, 5.1e-5)
	same(t, "corrected p", s.CorrectedP, .0338, 5.1e-5)
	same(t, "exact p", s.ExactTwoSided, .03218, 5.1e-6)
	same(t, "odds ratio", s.OddsRatio, 2.8443, 5.1e-5)
	sameSpan(t, "odds ratio", s.OddsInterval, 1.1845, 6.8298, 5.1e-5)
	one := CombineTables([]Table{{20, 4, 12, 12}}, 0.95)
	same(t, "one table is Fisher's test", one.ExactGreater, Table{20, 4, 12, 12}.FisherGreater(), 1e-14)
}

func TestPositions(t *testing.T) {
	chi, exact := Positions{5, 7, 12}.Bias()
	same(t, "χ²", chi, 3.25, 1e-12)
	same(t, "approximate p", Positions{5, 7, 12}.approximate(chi), .1969, 5.1e-5) // computed in scipy
	// Two places: the exact two-sided binomial test.
	_, two := Positions{5, 13}.Bias()
	same(t, "two places", two, Choice{Preference, 13, 18}.P(), 1e-12)
	if exact < 0.15 || exact > 0.25 {
		t.Errorf("exact p %g is far from the approximation", exact)
	}
	// Right answers of the example by place of the odd glass: 4 of 6, 4 of 6, 3 of 6.
	_, p := Sessions{{Triangle, 4, 6}, {Triangle, 4, 6}, {Triangle, 3, 6}}.Homogeneity()
	same(t, "places of the odd glass", p, 1, 1e-9)
	table, p := ByOdd(Answered{9, 9}, Answered{2, 9})
	same(t, "by the odd beer", p, Table{9, 0, 2, 7}.FisherTwoSided(), 1e-15)
	if table != (Table{9, 0, 2, 7}) || p > 0.01 {
		t.Errorf("table %v, p %g", table, p)
	}
}
