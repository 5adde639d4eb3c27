// SPDX-License-Identifier: MIT

package gravity

import (
	"math"
	"testing"

	"gyle/quantity"

	"pgregory.net/rapid"
)

// Blends by mass and by the rule of points, computed with ICUMSA densities
// weighed in air; 0.002 °P, 3e-5 SG. The gravity of a Wort is that of the NBS
// scale, which is 3.5e-5 lower at 16 °P: hence 4e-5 there.
func TestMix(t *testing.T) {
	for _, row := range []struct {
		one, other Wort
		plato      float64
		litres     float64
		sg, points float64
	}{
		{Wort{20, 12}, Wort{5, 8}, 11.210, 25.000, 1.04507, 1.04507},
		{Wort{20, 16}, Wort{5, 0}, 12.959, 24.998, 1.05243, 1.05236},
		{Wort{15, 20}, Wort{9, 0}, 12.870, 23.996, 1.05206, 1.05189},
		{Wort{10, 12}, Wort{10, 4}, 8.063, 20.000, 1.03206, 1.03203},
		{Wort{18, 14.5}, Wort{3, 25}, 16.056, 20.999, 1.06570, 1.06567},
	} {
		got := Mix(row.one, row.other)
		near(t, "°P", float64(got.Extract), row.plato, 0.002)
		near(t, "L", got.Volume.Litres(), row.litres, 0.001)
		near(t, "SG by density", float64(TrueSGAt(got.Extract, reference).Apparent()), row.sg, 1.5e-5)
		near(t, "SG", float64(got.SG()), row.sg, 4e-5)
		near(t, "points", float64(MixPoints(row.one, row.other)), row.points, 4e-5)
	}
}

// Computed (regression values), 0.003 °P.
func TestEvaporate(t *testing.T) {
	for _, row := range []struct {
		from Wort
		to   quantity.Volume
		want float64
	}{{Wort{30, 10}, 25, 11.909}, {Wort{27, 11}, 23, 12.819}, {Wort{28, 9.5}, 24, 11.017}} {
		near(t, "°P", float64(Evaporate(row.from, row.to).Extract), row.want, 0.003)
	}
}

// Computed (regression values), half the last digit or 0.005.
func TestDilute(t *testing.T) {
	for _, row := range []struct {
		from                 Wort
		to                   quantity.Plato
		water, litres, final float64
	}{
		{Wort{20, 16}, 12, 7.09, 7.10, 27.10}, {Wort{20, 18}, 12, 10.72, 10.74, 30.74}, {Wort{25, 13}, 12, 2.19, 2.19, 27.19},
	} {
		water := DilutionWater(row.from, row.to)
		near(t, "kg of water", water.Kilograms(), row.water, 0.0051)
		near(t, "L of water", WortVolume(water, 1).Litres(), row.litres, 0.0051)
		got := AddWater(row.from, water)
		near(t, "final L", got.Volume.Litres(), row.final, 0.0051)
		near(t, "final °P", float64(got.Extract), float64(row.to), 1e-9)
	}
}

// Computed (regression values).
func TestSugar(t *testing.T) {
	near(t, "11 to 12 °P", SugarFor(Wort{20, 11}, 12, 1).Kilograms(), 0.237, 0.0005)
	near(t, "11 to 12 °P, yield 0.96", SugarFor(Wort{20, 11}, 12, 0.96).Kilograms(), 0.248, 0.0005)
	sugar := SugarFor(Wort{20, 12}, 14, 1)
	near(t, "12 to 14 °P", sugar.Kilograms(), 0.487, 0.0005)
	near(t, "final L", AddSugar(Wort{20, 12}, sugar, 1).Volume.Litres(), 20.30, 0.005)

	made := PlatoFromConcentration(100)
	near(t, "1 kg made up to 10 L", float64(made), 9.646, 0.001)
	near(t, "its SG", float64(SGFromPlato(made)), 1.03857, 2e-5)
	near(t, "its points·L/kg", SGFromPlato(made).Points()*10, 385.7, 0.15)
	pound := SGFromPlato(PlatoFromConcentration(1000 * quantity.Pounds(1).Kilograms() / quantity.USGallons(1).Litres()))
	near(t, "1 lb per US gallon", float64(pound), 1.04618, 3e-5)
	poured := AddSugar(Wort{10, 0}, 1, 1)
	near(t, "1 kg and 10 L", float64(poured.Extract), 9.106, 0.001)
	near(t, "1 kg and 10 L", poured.Volume.Litres(), 10.617, 0.001)
}

// Computed (regression values): a beer of OE 18, AE 3.6.
func TestHighGravity(t *testing.T) {
	real := RealExtract(18, 3.6)
	alcohol := alcoholByMass(18, real)
	near(t, "RE", float64(real), 6.204, 0.0005)
	near(t, "A", alcohol.Percent(), 6.293, 0.0005)
	near(t, "by alcohol", DilutionByAlcohol(quantity.Percent(8.068), quantity.Percent(5)), 1.614, 0.0005)
	half := DiluteBeer(Beer{Alcohol: alcohol, Real: real}, 1.5)
	near(t, "A", half.Alcohol.Percent(), 4.195, 0.0006)
	near(t, "RE", float64(half.Real), 4.136, 0.0005)
	near(t, "OE", float64(half.Original), 12.26, 0.005)
	factor := DilutionByOriginal(alcohol, real, 12)
	near(t, "factor to 12 °P", factor, 1.534, 0.0005)
	diluted := DiluteBeer(Beer{Alcohol: alcohol, Real: real}, factor)
	near(t, "OE on target", float64(diluted.Original), 12, 1e-9)
}

// Computed (regression values): g per L of wort, volumes of 1.977 g/L.
func TestCarbonDioxideEvolved(t *testing.T) {
	for _, row := range []struct{ original, apparent, grams, volumes float64 }{
		{10, 2.5, 30.1, 15.2}, {12, 2.4, 38.9, 19.7}, {16, 4, 50.0, 25.3}, {20, 4, 68.0, 34.4},
	} {
		got := float64(CarbonDioxideEvolved(quantity.Plato(row.original), quantity.Plato(row.apparent)))
		near(t, "g/L", got, row.grams, 0.05)
		near(t, "volumes", float64(quantity.CarbonationGrams(got)), row.volumes, 0.05)
	}
}

func someWort(t *rapid.T, name string) Wort {
	return Wort{
		quantity.Volume(rapid.Float64Range(1, 1000).Draw(t, name+" litres")),
		quantity.Plato(rapid.Float64Range(0, 30).Draw(t, name+" plato")),
	}
}

// Books that must balance: what goes in comes out, order is nothing, a wort
// mixed with itself stays as it is, and every addition can be undone.
func TestMixInvariants(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := someWort(t, "a"), someWort(t, "b")
		same := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
				t.Errorf("%s: %v, want %v", what, got, want)
			}
		}
		ab, ba := Mix(a, b), Mix(b, a)
		same("mass", float64(ab.Mass()), float64(a.Mass()+b.Mass()))
		same("extract", float64(ab.ExtractMass()), float64(a.ExtractMass()+b.ExtractMass()))
		same("order", float64(ab.Extract), float64(ba.Extract))
		same("order", float64(ab.Volume), float64(ba.Volume))
		same("with itself", float64(Mix(a, a).Extract), float64(a.Extract))
		same("with itself", float64(Mix(a, a).Volume), float64(2*a.Volume))
		same("average", MassAverage([]Wort{a, b}, []float64{5, 5}), 5)
		same("average of extract", MassAverage([]Wort{a, b}, []float64{float64(a.Extract), float64(b.Extract)}), float64(ab.Extract))
		same("boiled down", float64(Evaporate(a, a.Volume/2).ExtractMass()), float64(a.ExtractMass()))

		thin := AddWater(a, b.Mass())
		same("concentrated again", float64(Evaporate(thin, a.Volume).Extract), float64(a.Extract))
		rich := AddSugar(a, b.Mass()/100, 0.96)
		same("sugar", float64(SugarFor(a, rich.Extract, 0.96)), float64(b.Mass()/100))
	})
}

// Balling's books: 100 + 1.0665·A grams of wort hold the extract of 100 g of
// beer and 2.0665 g for each gram of its alcohol; what is lost is gas and yeast.
func TestFermentationBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		original := quantity.Plato(rapid.Float64Range(5, 25).Draw(t, "original"))
		apparent := original * quantity.Plato(rapid.Float64Range(0.1, 1).Draw(t, "left"))
		real := RealExtract(original, apparent)
		alcohol := alcoholByMass(original, real)
		wort := 100 + lostPerAlcohol*alcohol.Percent()
		in := wort * float64(original) / 100
		out := extractPerAlcohol*alcohol.Percent() + float64(real)
		if math.Abs(in-out) > 1e-9 {
			t.Errorf("extract in %v, out %v", in, out)
		}
		if back := OriginalExtract(alcohol, real); math.Abs(float64(back-original)) > 1e-9 {
			t.Errorf("original %v came back as %v", original, back)
		}
	})
	const yeast = 0.11 // g of solids per g of alcohol, Balling
	near(t, "lost per gram of alcohol", gasPerAlcohol+yeast, lostPerAlcohol, 1e-12)
	near(t, "and the alcohol itself", lostPerAlcohol+1, extractPerAlcohol, 1e-12)
}
