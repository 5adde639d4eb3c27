// SPDX-License-Identifier: MIT

package judge

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// anyRecipe draws a variation of the recipe of the table: other shares, aims,
// bitterness, doses and moments.
func anyRecipe(t *rapid.T, base *recipe.Recipe) *recipe.Recipe {
	r, err := Apply(base, nil)
	if err != nil {
		t.Fatal(err)
	}
	total := 0.0
	weights := make([]float64, len(r.Grist))
	for i := range r.Grist {
		weights[i] = float64(rapid.IntRange(1, 40).Draw(t, "weight"))
		total += weights[i]
	}
	for i := range r.Grist {
		r.Grist[i].Share = pointer(quantity.Fraction(weights[i] / total))
		r.Grist[i].In = rapid.SampledFrom([]recipe.Entry{{}, {}, {Way: recipe.LateMash, Time: 15}, {Way: recipe.ColdSteep, Time: 960}}).Draw(t, "in")
	}
	r.Aims.OG = pointer(quantity.GravitySG(quantity.SG(rapid.Float64Range(1.035, 1.085).Draw(t, "og"))))
	r.Aims.IBU = nil
	for i := range r.Hops {
		h := &r.Hops[i]
		if h.Bitterness != nil {
			h.Bitterness = pointer(quantity.IBU(rapid.Float64Range(1, 40).Draw(t, "bitterness")))
			h.At.Time = quantity.Duration(rapid.IntRange(1, 60).Draw(t, "boil"))
		} else {
			h.Dose = pointer(quantity.Dose(rapid.Float64Range(0.1, 5).Draw(t, "dose")))
		}
	}
	r.Aims.IBU = pointer(quantity.IBU(rapid.Float64Range(85, 100).Draw(t, "ibu"))) // above what the charges sum to
	attenuation := rapid.Float64Range(0.60, 0.80).Draw(t, "attenuation")
	r.Yeast.Attenuation = &quantity.Span[quantity.Fraction]{Low: quantity.Fraction(attenuation), High: quantity.Fraction(attenuation + 0.05)}
	return r
}

// anyRange draws a range that isn't so narrow that a rounded aim can't meet it.
func anyRange(t *rapid.T, low, high float64) (a, b float64) {
	a = rapid.Float64Range(low, high).Draw(t, "low")
	b = a + rapid.Float64Range((high-low)/20, high-low).Draw(t, "width")
	return a, b
}

// subjects of rules with what their ranges lie in.
var drawn = []struct {
	subject   string
	low, high float64
	unit      string
}{
	{"figure: og", 1.030, 1.090, ""}, {"figure: og", 9, 20, " °P"}, {"figure: fg", 1.005, 1.025, ""}, {"figure: abv", 3, 9, " %"},
	{"figure: ibu", 10, 90, " IBU"}, {"figure: 'bu:gu'", 0.2, 1.5, ""}, {"figure: attenuation", 60, 85, " %"},
	{"share: pale-ale", 0, 60, " %"}, {"share: class crystal", 0, 30, " %"}, {"share: above 600 EBC", 0, 30, " %"},
	{"share: role flavour", 0, 60, " %"}, {"share: munich + rye + class sugar", 0, 50, " %"}, {"share: class wheat", 0, 20, " %"},
	{"largest: class crystal", 0, 20, " %"}, {"largest: role flavour", 0, 20, " %"},
	{"late: class crystal", 0, 90, " %"}, {"late: role flavour", 0, 90, " %"},
	{"ibu from: boil 45 min..", 0, 70, " %"}, {"ibu from: boil 20..0 min + stand", 0, 70, " %"}, {"ibu from: first wort", 0, 60, " %"},
	{"dose: stand + flame-out", 0.1, 6, " g/L"}, {"dose: dry", 0.1, 6, " g/L"}, {"dose: mash", 0.1, 3, " g/L"},
	{"yeast: attenuation", 60, 85, " %"}, {"yeast: temperature", 8, 25, " °C"}, {"yeast: pitch", 0.5, 2, " M/mL/°P"},
}

// Who does what a broken rule asks for, and judges again, finds it inside.
func TestMendingMends(t *testing.T) {
	base := parsed(t, "table", []byte(beerText), recipe.Parse)
	mended, told := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecipe(t, base)
		d := rapid.SampledFrom(drawn).Draw(t, "subject")
		low, high := anyRange(t, d.low, d.high)
		text := fmt.Sprintf("gyle: style/1\nname: Test\nrules:\n- {%s, in: %.4f..%.4f%s, severity: limit}\n", d.subject, low, high, d.unit)
		s, err := style.Parse("drawn", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		checkMend(t, s, r, &mended, &told)
	})
	if mended < 20 || told > mended {
		t.Errorf("%d mends were made and %d told in words alone: the test proves little", mended, told)
	}
}

func checkMend(t *rapid.T, s *style.Style, r *recipe.Recipe, mended, told *int) {
	before, err := Recipe(s, r)
	if err != nil {
		t.Fatal(err)
	}
	v := before.Verdicts[0]
	if v.Word != Outside {
		return
	}
	if len(v.Changes) == 0 {
		*told++
		return
	}
	after, err := Apply(r, v.Changes)
	if err != nil {
		t.Fatalf("%v\n%v", err, v)
	}
	again, err := Recipe(s, after)
	if err != nil {
		t.Fatal(err)
	}
	if got := again.Verdicts[0]; got.Word != Inside && got.Word != Edge {
		t.Fatalf("%v\n%+v\nafter that\n%v", v, v.Changes, got)
	}
	sum := 0.0
	for _, g := range after.Grist {
		sum += float64(*g.Share)
	}
	if math.Abs(sum-1) > 1e-6 {
		t.Fatalf("the shares add up to %g after %q", sum, v.Mend)
	}
	*mended++
}

// The same for the moments of the charges and for counts, whose ranges are no
// numbers with a unit.
func TestMendingMomentsAndCounts(t *testing.T) {
	base := parsed(t, "table", []byte(beerText), recipe.Parse)
	rules := []string{
		"{charges: boil start + boil 15..0 min + stand + dry, severity: limit}",
		"{charges: boil 40..25 min + dry, severity: limit}",
		"{charges: first wort + flame-out + dry, severity: limit}",
		"{count: role flavour, in: ..2, severity: limit}",
		"{count: class crystal, in: ..1, severity: limit}",
		"{count: class roasted, in: 3..4, severity: limit}",
		"{count: class wheat, in: 1.., severity: limit}",
	}
	mended, told := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		rule := rapid.SampledFrom(rules).Draw(t, "rule")
		s, err := style.Parse("drawn", []byte("gyle: style/1\nname: Test\nrules:\n- "+rule+"\n"))
		if err != nil {
			t.Fatal(err)
		}
		checkMend(t, s, anyRecipe(t, base), &mended, &told)
	})
	if mended < 20 {
		t.Errorf("only %d mends", mended)
	}
}

// A number that moves towards the middle of its range never gets a worse word.
func TestNearerIsNeverWorse(t *testing.T) {
	worse := map[Word]int{Inside: 0, Edge: 1, Outside: 2}
	rapid.Check(t, func(t *rapid.T) {
		p := places{measure: rapid.SampledFrom([]measure{percent, dosing, measureOf(quantity.OG), plato, grains}).Draw(t, "measure")}
		p.edge = rapid.Float64Range(0, 0.4).Draw(t, "edge")
		p.low = rapid.Float64Range(0, 40).Draw(t, "low")
		p.high = p.low + rapid.Float64Range(0, 40).Draw(t, "width")
		center := (p.low + p.high) / 2
		switch rapid.IntRange(0, 2).Draw(t, "open") {
		case 1:
			p.low, center = math.Inf(-1), -1000
		case 2:
			p.high, center = math.Inf(1), 1000
		}
		x := rapid.Float64Range(0, 100).Draw(t, "x")
		nearer := x + (center-x)*rapid.Float64Range(0, 1).Draw(t, "way")
		if worse[p.word(nearer)] > worse[p.word(x)] {
			t.Fatalf("%s: %g is %s, %g is %s", p.rangeText(), x, p.word(x), nearer, p.word(nearer))
		}
	})
}

// What is printed of a number outside never looks as if it were inside.
func TestOutsideShows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := places{measure: percent, low: 8, high: 16, edge: 0.05}
		x := 16 + rapid.Float64Range(0.0001, 10).Draw(t, "above")
		if text := p.text(x); text == p.text(16) {
			t.Fatalf("%g is printed as %q", x, text)
		}
	})
}
