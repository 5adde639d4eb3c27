// SPDX-License-Identifier: MIT

package chance_test

import (
	"context"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"gyle/chance"
	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/gravity"
	"gyle/science/uncertainty"
	"gyle/style"
)

const houseFactor = "house factor of bitterness"

func band(t testing.TB, o *chance.Outlook, f quantity.Figure) chance.Band {
	t.Helper()
	b, ok := o.Find(f)
	if !ok {
		t.Fatalf("no %s", f)
	}
	return b
}

func rule(t testing.TB, o *chance.Outlook, phrase string) chance.RuleChance {
	t.Helper()
	for _, r := range o.Rules {
		if r.Phrase == phrase {
			return r
		}
	}
	t.Fatalf("no rule on %s", phrase)
	return chance.RuleChance{}
}

// Published figures: two laboratory values of bitterness, 0.91 and 0.95 of the
// prediction, make a house factor of 0.937 with a standard deviation of 0.080 of
// its logarithm, and 29 IBU (26.7 to 31.3); a house without any 29 (22 to 36).
// These are one standard deviation to either side, of the house factor alone.
func TestBandsOfTheHouseFactor(t *testing.T) {
	learned := on(t, "4", "garage")
	house := *learned.House
	house.Bitterness.K = quantity.Estimate{Value: 0.937, SD: 0.937 * 0.080}
	learned.House = &house
	for _, test := range []struct {
		in                   plan.Input
		low, high, tolerance float64
	}{
		{learned, 26.7, 31.3, 0.05},
		{on(t, "4", "boathouse"), 22, 36, 0.5},
	} {
		o := simulated(t, made(t, test.in), nil, chance.Options{Vary: only(houseFactor)})
		b := band(t, o, quantity.Bitterness)
		near(t, "low, IBU", b.Sigma.Low, test.low, test.tolerance)
		near(t, "high, IBU", b.Sigma.High, test.high, test.tolerance)
		all := band(t, simulated(t, made(t, test.in), nil, chance.Options{Samples: 2000}), quantity.Bitterness)
		if !(all.SD > b.SD) {
			t.Errorf("with all that is unknown the band must be wider: %.2f, of the house factor alone %.2f", all.SD, b.SD)
		}
	}
}

// Bitterness is linear in the house factor: its spread, shares and chance have
// a closed form.
func TestClosedFormOfOneInput(t *testing.T) {
	p, s := made(t, on(t, "4", "garage")), oatBrown(t)
	o := simulated(t, p, s, chance.Options{Vary: only(houseFactor)})
	b := band(t, o, quantity.Bitterness)
	sd := 29 * 0.08 / 0.94
	near(t, "mean", b.Mean, 29, 0.005)
	near(t, "sd", b.SD, sd, 0.02)
	near(t, "share", b.Blame[0].Share, 1, 1e-9)
	near(t, "per standard deviation", b.Blame[0].Per, sd, 1e-6)
	want := uncertainty.NormalShare((34-29)/sd) - uncertainty.NormalShare((24-29)/sd)
	got := rule(t, o, "bitterness")
	near(t, "chance in 24 to 34 IBU", got.Inside.Share, want, 0.002)
	if got.Settled || got.Severity != style.Limit {
		t.Errorf("%+v", got)
	}
	if og := band(t, o, quantity.OG); og.SD > 1e-9 || len(og.Blame) > 0 {
		t.Errorf("original gravity moves with the house factor: %+v", og)
	}
}

// Calcium is linear in the calcium of the supply and in the weight of the salts:
// the variance is the sum of two squares.
func TestClosedFormOfTwoInputs(t *testing.T) {
	p := made(t, on(t, "4", "garage"))
	o := simulated(t, p, nil, chance.Options{Vary: only("calcium of the supply", "weighing of the salts")})
	b := band(t, o, quantity.Calcium)
	base, salts := 64*0.08, (b.Planned-64)*0.02
	near(t, "sd, mg/L", b.SD, math.Hypot(base, salts), 0.02)
	near(t, "share of the supply", b.Blame[0].Share, base*base/(base*base+salts*salts), 1e-9)
	near(t, "sum of shares", b.Explained, 1, 1e-9)
}

// Two inputs that each move one figure only: the chance of both is the product.
func TestJointChanceOfIndependentFigures(t *testing.T) {
	p, s := made(t, on(t, "4", "boathouse")), oatBrown(t)
	o := simulated(t, p, s, chance.Options{Vary: only(houseFactor, "colour formula"), Samples: 20_000})
	ibu, color := rule(t, o, "bitterness"), rule(t, o, "colour")
	// Two standard errors of a plain sample of 20 000.
	near(t, "all limits", o.Limits.Share, ibu.Inside.Share*color.Inside.Share, 0.007)
	near(t, "all five", o.AllFive.Share, o.Limits.Share, 1e-12)
	near(t, "colour alone", color.Inside.Share, uncertainty.NormalShare(9/7.0)-uncertainty.NormalShare(-7/7.0), 0.002)
}

// The same seed gives the same outlook on any number of workers; another seed
// gives another one.
func TestWorkersDoNotMatter(t *testing.T) {
	p, s := made(t, on(t, "4", "garage")), oatBrown(t)
	text := func(o chance.Options) string {
		o.Samples, o.Points = 1700, 20
		out, err := json.Marshal(simulated(t, p, s, o))
		if err != nil {
			t.Fatal(err)
		}
		return string(out)
	}
	one := text(chance.Options{Seed: 5, Workers: 1})
	for _, workers := range []int{2, 3, 8} {
		if text(chance.Options{Seed: 5, Workers: workers}) != one {
			t.Errorf("%d workers change the outlook", workers)
		}
	}
	if text(chance.Options{Seed: 6, Workers: 1}) == one {
		t.Error("the seed doesn't matter")
	}
}

// Every version on every house and way of cooling: bands hold the plan and lie
// within each other, chances are chances, and all at once is never likelier than
// one.
func TestEveryExample(t *testing.T) {
	s := oatBrown(t)
	for _, version := range []string{"1", "2", "3", "4"} {
		for _, house := range []string{"garage", "boathouse"} {
			in := on(t, version, house)
			for _, way := range in.House.Cooling {
				in.Cooling = way.Name
				sound(t, version+" on "+house+" by "+way.Name, simulated(t, made(t, in), s, chance.Options{Samples: 1000}))
			}
		}
	}
	bare := on(t, "4", "garage")
	bare.Stock, bare.Water = nil, nil
	sound(t, "typical lots", simulated(t, made(t, bare), s, chance.Options{Samples: 1000}))
}

func sound(t *testing.T, what string, o *chance.Outlook) {
	t.Helper()
	for _, b := range o.Figures {
		in := b.Nearly.Low <= b.Most.Low && b.Most.Low <= b.Half.Low && b.Half.Low <= b.Median && b.Median <= b.Half.High && b.Half.High <= b.Most.High && b.Most.High <= b.Nearly.High
		if !in || math.IsNaN(b.Mean+b.SD) || math.Abs(b.Mean-b.Planned) > 0.25*b.SD+1e-9 {
			t.Errorf("%s: %s: %+v", what, b.Label(), b)
		}
		if b.Explained > 1+1e-9 || b.SD > 1e-6 && b.Explained < 0.9 {
			t.Errorf("%s: shares of %s add up to %g", what, b.Label(), b.Explained)
		}
	}
	for _, r := range o.Rules {
		if r.Inside.Share < 0 || r.Inside.Share > 1 || r.Severity == style.Limit && o.Limits.Share > r.Inside.Share {
			t.Errorf("%s: %+v, all limits %+v", what, r, *o.Limits)
		}
	}
	if len(o.Rules) < 20 || o.AllFive == nil || o.Limits.Share > o.AllFive.Share {
		t.Errorf("%s: %d rules, %v, %v", what, len(o.Rules), o.Limits, o.AllFive)
	}
	near(t, what+": correlation of OG with itself", o.Correlation(quantity.OG, quantity.OG), 1, 1e-9)
	if c := o.Correlation(quantity.FG, quantity.Attenuation); !(c < -0.8) {
		t.Errorf("%s: final gravity and attenuation go together by %g", what, c)
	}
}

// On the Garage the house factor leads but isn't most of it; on the Boathouse,
// where no bitterness was measured, it is nearly all.
func TestBlame(t *testing.T) {
	o := simulated(t, made(t, on(t, "4", "garage")), oatBrown(t), chance.Options{})
	t.Logf("Ferry Brown 4 on the Garage: all limits %.3f ± %.3f", o.Limits.Share, o.Limits.Error)
	pr := quantity.Printer{}
	for f, want := range map[quantity.Figure]string{
		quantity.OG:          "most of the spread of original gravity comes from the yield of the house",
		quantity.FG:          "most of the spread of final gravity comes from the attenuation of the yeast",
		quantity.Bitterness:  "the largest part of the spread of bitterness comes from the house factor of bitterness",
		quantity.BeerColor:   "most of the spread of colour comes from the colour formula",
		quantity.MashPH:      "most of the spread of mash pH comes from the prediction of the mash pH",
		quantity.Attenuation: "most of the spread of apparent attenuation comes from the attenuation of the yeast (100 %)",
	} {
		if got := band(t, o, f).Sentence(pr); !strings.HasPrefix(got, want) {
			t.Errorf("%s: %q, want %q …", f, got, want)
		}
	}
	o = simulated(t, made(t, on(t, "4", "boathouse")), nil, chance.Options{})
	if b := band(t, o, quantity.Bitterness); b.Blame[0].Input != houseFactor || b.Blame[0].Share < 0.8 {
		t.Errorf("bitterness on the Boathouse: %+v", b.Blame)
	}
	for _, b := range o.Figures {
		if b.SD > 0 && b.Sentence(pr) == "" {
			t.Errorf("nobody is to blame for %s", b.Label())
		}
	}
}

// Lots of which nothing is known spread more than analysed ones.
func TestAnalysesNarrowTheBands(t *testing.T) {
	in := on(t, "4", "garage")
	known := simulated(t, made(t, in), nil, chance.Options{Samples: 3000})
	in.Stock = nil
	guessed := simulated(t, made(t, in), nil, chance.Options{Samples: 3000})
	for _, f := range []quantity.Figure{quantity.OG, quantity.Bitterness, quantity.BeerColor, quantity.MashPH} {
		if a, b := band(t, known, f).SD, band(t, guessed, f).SD; !(b > a) {
			t.Errorf("%s: sd %g with analyses, %g without", f, a, b)
		}
	}
}

// What is settled at the scale is always or never inside, and a broken limit
// leaves no chance for all of them.
func TestSettledRules(t *testing.T) {
	p, s := made(t, on(t, "4", "garage")), withRule(t, "{share: oats-flaked + oats-malted, in: ..20 %", "{share: oats-flaked + oats-malted, in: ..10 %")
	o := simulated(t, p, s, chance.Options{Samples: 500})
	broken := 0
	for _, r := range o.Rules {
		if r.Settled && r.Inside.Share == 0 {
			broken++
		}
	}
	if broken != 1 || o.Limits.Share != 0 || o.AllFive.Share == 0 {
		t.Errorf("%d rules broken at the scale, all limits %+v, all five %+v", broken, *o.Limits, *o.AllFive)
	}
}

func withRule(t *testing.T, old, new string) *style.Style {
	t.Helper()
	text := exampleText(t, "oat-brown-ale")
	if !strings.Contains(text, old) {
		t.Fatalf("the style has no %q", old)
	}
	s, err := style.Parse("style.yaml", []byte(strings.Replace(text, old, new, 1)))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A range in degrees Plato is the same range as in specific gravity. Original
// gravity is all but normal, so its chance is near the closed form.
func TestRulesInPlato(t *testing.T) {
	p := made(t, on(t, "4", "garage"))
	o := simulated(t, p, withRule(t, "{figure: og, in: 1.046..1.054", "{figure: og, in: 11.9..12.8 °P"), chance.Options{})
	og := band(t, o, quantity.OG)
	share := func(p quantity.Plato) float64 {
		return uncertainty.NormalShare((float64(gravity.SGFromPlato(p)) - og.Mean) / og.SD)
	}
	near(t, "chance in 11.9 to 12.8 °P", rule(t, o, "original gravity").Inside.Share, share(12.8)-share(11.9), 0.01)
}

// The chances that were simulated replace those of normal errors.
func TestPut(t *testing.T) {
	p, s := made(t, on(t, "4", "garage")), oatBrown(t)
	o := simulated(t, p, s, chance.Options{Samples: 2000})
	j, err := judge.Plan(s, p)
	if err != nil {
		t.Fatal(err)
	}
	before := *j.AllFive
	chance.Put(&j, o)
	if *j.AllFive != o.AllFive.Share || *j.AllFive == before {
		t.Errorf("all five %g, simulated %g, before %g", *j.AllFive, o.AllFive.Share, before)
	}
	given := 0
	for _, v := range j.Verdicts {
		if v.Chance != nil {
			given++
		}
	}
	moving := 0
	for _, r := range o.Rules {
		if !r.Settled {
			moving++
		}
	}
	if given != moving || given < 12 {
		t.Errorf("%d verdicts have a chance, %d rules move", given, moving)
	}
}

// The cloud of a map agrees with the bands.
func TestCloud(t *testing.T) {
	o := simulated(t, made(t, on(t, "4", "garage")), nil, chance.Options{Points: 400})
	c := o.Cloud
	var x, y uncertainty.Moments
	for _, at := range c.Points {
		x.Add(at[0])
		y.Add(at[1])
	}
	if len(c.Points) != 400 {
		t.Fatalf("%d points", len(c.Points))
	}
	// Four standard errors of 400 samples.
	near(t, "mean of OG", x.Mean, c.MeanX, 4*c.SDX/20)
	near(t, "mean of IBU", y.Mean, c.MeanY, 4*c.SDY/20)
	if !(c.SDX > 0 && c.SDY > 0 && math.Abs(c.Correlation) < 0.5) {
		t.Errorf("%+v", c)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := chance.Simulate(ctx, made(t, on(t, "4", "garage")), nil, chance.Options{}); err == nil {
		t.Error("want an error")
	}
	if _, err := chance.Simulate(context.Background(), nil, nil, chance.Options{}); err == nil {
		t.Error("want an error without a plan")
	}
	if _, err := chance.Simulate(context.Background(), new(plan.Plan), nil, chance.Options{}); err == nil {
		t.Error("want an error for a plan from a file")
	}
}
