// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"math"
	"strings"
	"testing"

	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// A recipe that fits is the nearest to itself.
func TestNearFitsAlready(t *testing.T) {
	w, r := clubWish(t, "garage"), ferryBrown(t)
	w.Start = r
	got := found(t, w)
	for _, d := range recipe.Differences(r, got.Recipe) {
		if d.Part == "grist" || d.Part == "aims" && !strings.HasPrefix(d.What, "colo") {
			t.Errorf("%v\n%s", d, got.Text)
		}
	}
	before, _ := judge.Recipe(w.Style, r)
	if len(before.Broken()) > 0 || len(got.Judgement.Broken()) > 0 {
		t.Errorf("before %v, after %v", before.Broken(), got.Judgement.Broken())
	}
}

// A recipe that breaks one rule is mended there and left alone elsewhere: 16 % of
// oats is the nearest to 20 %, and the base malt takes the four.
func TestNearMendsOneThing(t *testing.T) {
	w, r := clubWish(t, "garage"), ferryBrown(t)
	*r.Grist[0].Share, *r.Grist[1].Share = 0.573, 0.20
	w.Start = r
	got := found(t, w)
	limitsKept(t, "near", got.Judgement)
	if oats := shareOf(got.Recipe, "oats-flaked"); math.Abs(oats-0.16) > 1e-9 {
		t.Errorf("oats %g, want 16 %%\n%s", oats, got.Text)
	}
	for _, malt := range []string{"munich", "crystal", "brown"} {
		if a, b := shareOf(r, malt), shareOf(got.Recipe, malt); math.Abs(a-b) > 0.0051 {
			t.Errorf("%s moved from %g to %g", malt, a, b)
		}
	}
}

// priced is a wish of three malts with prices, small enough to try every recipe.
func priced(t testing.TB) Wish {
	return Wish{
		Style: ruled(t,
			`{figure: og, in: 1.048..1.050, severity: limit}`, `{figure: color, in: 16..24 EBC, severity: limit}`,
			`{figure: attenuation, in: 74..76 %, severity: limit}`,
			`{share: pale-ale, in: 70..90 %, severity: limit}`, `{share: munich, in: 5..25 %, severity: limit}`),
		Malts: []Malt{{Malt: "pale-ale", Price: 1.2, UseUp: false}, {Malt: "munich", Price: 1.5, UseUp: true}, {Malt: "crystal", Price: 2.5}},
		Step:  0.01,
	}
}

// every tries all grists of whole percents at the gravities of whole points.
func (w *work) every(keeps func(og float64, shares []float64)) {
	for og := 1.048; og < 1.0505; og += 0.001 {
		for a := 70; a <= 90; a++ {
			for b := 5; b <= 25 && a+b <= 100; b++ {
				shares := []float64{float64(a) / 100, float64(b) / 100, float64(100-a-b) / 100}
				if c := w.colorOf(og, shares); c >= 16 && c <= 24 {
					keeps(og, shares)
				}
			}
		}
	}
}

// tried returns the work after a search, so that its facts are those of the answer.
func tried(t testing.TB, wish Wish) (*work, *draft) {
	t.Helper()
	w, err := begin(context.Background(), wish)
	if err != nil {
		t.Fatal(err)
	}
	d, _, _, err := w.brew(w.demands)
	if err != nil {
		t.Fatal(err)
	}
	return w, d
}

// Nothing in whole percents is cheaper by more than rounding: the search finds the
// cheapest of all grists and then weighs it, which may cost a step of the dearest.
func TestCheapestByTrying(t *testing.T) {
	wish := priced(t)
	wish.Objective = Cheapest
	w, d := tried(t, wish)
	price := func(og float64, s []float64) float64 {
		sum := 0.0
		for i, c := range w.columns {
			sum += s[i] * wish.Malts[c.malt].Price
		}
		return sum * extractOf(og) / w.extract(s)
	}
	best := math.Inf(1)
	w.every(func(og float64, s []float64) { best = math.Min(best, price(og, s)) })
	if got := price(d.og, d.shares); got > best*1.005 {
		t.Errorf("%.5f a litre, but %.5f can be had", got, best)
	}
}

// Nothing in whole percents uses up more Munich, by more than a step.
func TestLotsByTrying(t *testing.T) {
	wish := priced(t)
	wish.Objective = Lots
	w, d := tried(t, wish)
	used := func(og float64, s []float64) float64 { return s[1] * extractOf(og) / w.extract(s) }
	best := 0.0
	w.every(func(og float64, s []float64) { best = math.Max(best, used(og, s)) })
	if got := used(d.og, d.shares); got < best*0.96 {
		t.Errorf("%.5f kg/L of Munich are used, but %.5f can be", got, best)
	}
}

// No grist in whole percents is farther from the nearest edge, by more than a step.
func TestMiddleByTrying(t *testing.T) {
	wish := priced(t)
	w, d := tried(t, wish)
	margin := func(s []float64) float64 {
		m := math.Min((s[0]-0.70)/0.20, (0.90-s[0])/0.20)
		return math.Min(m, math.Min((s[1]-0.05)/0.20, (0.25-s[1])/0.20))
	}
	colors := func(og float64, s []float64) float64 { // in MCU, as the search measures it
		mcu, low, high := mcuOf(w.colorOf(og, s)), mcuOf(16), mcuOf(24)
		return math.Min(mcu-low, high-mcu) / (high - low)
	}
	best := 0.0
	w.every(func(og float64, s []float64) { best = math.Max(best, math.Min(margin(s), colors(og, s))) })
	if got := math.Min(margin(d.shares), colors(d.og, d.shares)); got < best-0.06 {
		t.Errorf("a margin of %.3f, but %.3f can be had with %v", got, best, d.shares)
	}
}

// The fewest: no two of the three malts would do, three do.
func TestFewest(t *testing.T) {
	w := priced(t)
	w.Objective = Fewest
	w.Malts = append(w.Malts, Malt{Malt: "vienna"}, Malt{Malt: "brown"}, Malt{Malt: "chocolate"})
	if r := found(t, w); len(r.Recipe.Grist) != 3 {
		t.Errorf("%d malts\n%s", len(r.Recipe.Grist), r.Text)
	}
}

// On a house hops are weighed in fives of grams where that is asked for, or come
// in whole sachets, and nothing is taken that isn't there.
func TestWhatIsWeighed(t *testing.T) {
	w := clubWish(t, "garage")
	for _, sachet := range []quantity.Mass{0, quantity.Grams(50)} {
		w.Hops[0].Sachet, w.HopStep = sachet, 0
		if sachet == 0 {
			w.HopStep = UsualHopStep
		}
		r := found(t, w)
		sum := 0.0
		for _, c := range r.Plan.Hops.Charges {
			grams := c.Mass.Grams()
			if off := math.Abs(grams - 5*math.Round(grams/5)); off > 0.1 {
				t.Errorf("%s at %s: %.2f g is no multiple of 5 g", c.Hop, c.At, grams)
			}
			if c.Hop == "challenger" {
				sum += grams
			}
		}
		if sachet > 0 && math.Abs(sum-50*math.Round(sum/50)) > 0.2 {
			t.Errorf("%.2f g of challenger are no whole sachets", sum)
		}
		for _, g := range r.Plan.Grist.Lines {
			if share := 100 * float64(g.Meant); math.Abs(2*share-math.Round(2*share)) > 1e-6 {
				t.Errorf("%s: %g %% is no half percent", g.Malt, share)
			}
		}
	}
}

// Where nobody asks for weights, a recipe says what people say: halves of an IBU
// and twentieths of a gram, and it keeps its rules as it is planned.
func TestWhatIsSaid(t *testing.T) {
	for _, house := range []string{"garage", "boathouse"} {
		r := found(t, clubWish(t, house))
		for _, c := range r.Recipe.Hops {
			if c.Bitterness != nil && math.Abs(2*float64(*c.Bitterness)-math.Round(2*float64(*c.Bitterness))) > 1e-6 {
				t.Errorf("%s: %v", c.Hop, *c.Bitterness)
			}
			if c.Dose != nil && math.Abs(20*float64(*c.Dose)-math.Round(20*float64(*c.Dose))) > 1e-6 {
				t.Errorf("%s: %v", c.Hop, *c.Dose)
			}
		}
		limitsKept(t, house, r.Judgement)
		limitsKept(t, house+", planned", r.Planned)
	}
}

// A shed that is nearly empty of oats gives as much as there is.
func TestShortLot(t *testing.T) {
	w := clubWish(t, "garage")
	w.Objective = Lots
	for i := range w.Malts {
		if w.Malts[i].Malt == "oats-flaked" {
			little := quantity.Mass(0.45)
			w.Malts[i].Mass, w.Malts[i].UseUp = &little, true
			w.Stock.Malts[i].Mass = &little
		}
	}
	r := found(t, w)
	for _, g := range r.Plan.Grist.Lines {
		for _, u := range g.Lots {
			if u.Short {
				t.Errorf("%s: the shed is short", g.Malt)
			}
		}
		if g.Malt == "oats-flaked" && (g.Mass > 0.4501 || g.Mass < 0.41) {
			t.Errorf("%.3f kg of oats, of 0.45", float64(g.Mass))
		}
	}
	limitsKept(t, "short", r.Judgement)
	for _, v := range r.Judgement.Broken() {
		if v.Severity == style.Advice {
			t.Error(v.Line())
		}
	}
}
