// SPDX-License-Identifier: MIT

package judge

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// example reads one of the example documents.
func example[T any](t testing.TB, name string, parse func(string, []byte) (T, error)) T {
	t.Helper()
	b, err := os.ReadFile("../examples/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return parsed(t, name, b, parse)
}

func parsed[T any](t testing.TB, name string, b []byte, parse func(string, []byte) (T, error)) T {
	t.Helper()
	doc, err := parse(name, b)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func ferryBrown(t testing.TB) *recipe.Recipe { return example(t, "ferry-brown-4.yaml", recipe.Parse) }
func oatBrown(t testing.TB) *style.Style     { return example(t, "oat-brown-ale.yaml", style.Parse) }

// ruled returns a style of so many rules, written as in a document.
func ruled(t testing.TB, rules ...string) *style.Style {
	t.Helper()
	text := "gyle: style/1\nname: Test\ngroups:\n" +
		"  american-c: [cascade, centennial]\n  sweet: [munich, class crystal]\nrules:\n"
	for _, r := range rules {
		text += "- " + r + "\n"
	}
	return parsed(t, "test", []byte(text), style.Parse)
}

func judged(t testing.TB, s *style.Style, r *recipe.Recipe) Judgement {
	t.Helper()
	j, err := Recipe(s, r)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// on returns the verdict on the first rule with the phrase.
func on(t testing.TB, j Judgement, phrase string) Verdict {
	t.Helper()
	for _, v := range j.Verdicts {
		if v.Phrase == phrase {
			return v
		}
	}
	t.Fatalf("no verdict on %q", phrase)
	return Verdict{}
}

func TestFerryBrownIsInside(t *testing.T) {
	j := judged(t, oatBrown(t), ferryBrown(t))
	if n := len(j.Broken()) + j.Count(Unknown); n != 0 {
		t.Errorf("%d rules broken or unknown: %v", n, j.Broken())
	}
	if j.Count(Inside)+j.Count(Edge) != len(j.Verdicts) {
		t.Errorf("%d inside, %d at the edge of %d", j.Count(Inside), j.Count(Edge), len(j.Verdicts))
	}
}

// The style of the examples says of oats: 8 to 16 %, advice; above 20 %, limit.
func TestTooMuchOats(t *testing.T) {
	r := ferryBrown(t)
	*r.Grist[0].Share, *r.Grist[1].Share = quantity.Percent(59.3), quantity.Percent(18)
	r.Grist[1].Malt = "flaked-oats" // the style says oats-flaked
	v := on(t, judged(t, oatBrown(t), r), "oats-flaked + oats-malted")
	if v.Word != Outside || v.Severity != style.Advice || v.Text != "18 %" || v.Range != "8–16 %" || v.Off != "2 points above" {
		t.Errorf("%+v", v)
	}
	if !strings.Contains(v.Why, "above 16 the bed slows") {
		t.Errorf("the author isn't quoted: %q", v.Why)
	}
	if want := "flaked-oats 18 → 16 %, pale-ale takes 2 points"; v.Mend != want {
		t.Errorf("mend %q, want %q", v.Mend, want)
	}
}

// The style of the examples says of bitterness: 24 to 34 IBU, limit.
func TestTooBitter(t *testing.T) {
	r := ferryBrown(t)
	*r.Aims.IBU = 43
	*r.Hops[0].Bitterness = 42
	j := judged(t, oatBrown(t), r)
	v := on(t, j, "bitterness")
	if v.Word != Outside || v.Severity != style.Limit || v.Why != "above 34 it leaves the style" || v.Off != "9 IBU above" {
		t.Errorf("%+v", v)
	}
	if want := "−9 IBU, to 34 IBU: challenger at boil 60 min 42 → 33 IBU"; v.Mend != want {
		t.Errorf("mend %q, want %q", v.Mend, want)
	}
	if broken := j.Broken(); broken[0].Severity != style.Limit {
		t.Errorf("limits don't come first: %v", broken)
	}
}

// about returns the verdict on the first rule about something.
func about(t testing.TB, j Judgement, subject style.Subject) Verdict {
	t.Helper()
	for _, v := range j.Verdicts {
		if v.Subject == subject {
			return v
		}
	}
	t.Fatalf("no verdict about %s", subject)
	return Verdict{}
}

// boathouse plans Ferry Brown 4 on the larger house with the hops of the garage.
func boathouse(t testing.TB, cooling string) *plan.Plan {
	t.Helper()
	p, err := plan.Make(plan.Input{
		Recipe: ferryBrown(t), House: example(t, "boathouse.yaml", brewhouse.Parse),
		Stock: example(t, "garage-shed.yaml", stock.Parse), Water: example(t, "saltpan-lane.yaml", water.Parse),
		Options: plan.Options{Cooling: cooling},
	})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Where the kettle can't be cooled, the stand makes a third of the bitterness.
// About 67 % from the early charge was computed by hand for this case, with the
// mean of the run-off in place of its history; the tolerance is 1 point.
func TestBoathouseThatCantCool(t *testing.T) {
	s := oatBrown(t)
	slow, err := Plan(s, boathouse(t, "settle and run off"))
	if err != nil {
		t.Fatal(err)
	}
	v := about(t, slow, style.OnIBUFrom)
	if v.Word != Outside || v.Severity != style.Advice || math.Abs(v.Value-66.5) > 1 {
		t.Errorf("%+v", v)
	}
	if !strings.HasPrefix(v.Mend, "move 2.") || !strings.Contains(v.Mend, "to challenger at boil 60 min (") {
		t.Errorf("mend %q", v.Mend)
	}
	cooled, err := Plan(s, boathouse(t, ""))
	if err != nil {
		t.Fatal(err)
	}
	if v := about(t, cooled, style.OnIBUFrom); v.Word != Inside || v.Value < 90 {
		t.Errorf("with the first way of cooling: %+v", v)
	}
	if slow.Subject != "Ferry Brown 4 on Boathouse, settle and run off" {
		t.Errorf("subject %q", slow.Subject)
	}
}

// The probability of all five can't be above that of any of them, nor, as the
// numbers hang together at most, below what is left after all of them missed.
func TestAllFive(t *testing.T) {
	j, err := Plan(oatBrown(t), boathouse(t, ""))
	if err != nil {
		t.Fatal(err)
	}
	if j.AllFive == nil {
		t.Fatal("no probability")
	}
	least, missed := 1.0, 0.0
	for _, phrase := range []string{"original gravity", "final gravity", "alcohol by volume", "bitterness", "colour"} {
		v := on(t, j, phrase)
		if v.Chance == nil {
			t.Fatalf("%s has no chance", phrase)
		}
		least, missed = min(least, *v.Chance), missed+1-*v.Chance
	}
	const slices = 0.02 // the gravities are summed over 40 slices each
	if *j.AllFive > least+slices || *j.AllFive < 1-missed-slices {
		t.Errorf("all five %.3f, the least of them %.3f, missed in all %.3f", *j.AllFive, least, missed)
	}
	if j, _ := Recipe(oatBrown(t), ferryBrown(t)); j.AllFive != nil {
		t.Error("a recipe has no bands")
	}
}

// With a normal error, 68.27 % lies within one standard deviation and 95.45 %
// within two (tables of the normal distribution).
func TestChance(t *testing.T) {
	for _, test := range []struct{ low, high, want float64 }{{24, 34, 0.6827}, {19, 39, 0.9545}, {math.Inf(-1), 29, 0.5}} {
		p := places{measure: measureOf(quantity.Bitterness), low: test.low, high: test.high}
		if got := chance(p, quantity.Bitterness, figure{29, 5}); math.Abs(*got-test.want) > 0.00005 {
			t.Errorf("%g to %g: %.5f, want %.4f", test.low, test.high, *got, test.want)
		}
	}
}

func TestVerdictAsJSON(t *testing.T) {
	j, err := Plan(oatBrown(t), boathouse(t, "settle and run off"))
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(j)
	if err != nil {
		t.Fatal(err)
	}
	var back Judgement
	if err := json.Unmarshal(b, &back); err != nil {
		t.Fatal(err)
	}
	for i, v := range j.Verdicts {
		if got := back.Verdicts[i]; got.String() != v.String() || got.Low != v.Low || got.High != v.High || got.Value != v.Value {
			t.Errorf("%+v\nread back as\n%+v", v, got)
		}
	}
	if v := about(t, back, style.OnIBUFrom); !math.IsInf(v.High, 1) || len(v.Changes) == 0 {
		t.Errorf("%+v", v)
	}
}

func TestNothingToJudge(t *testing.T) {
	if _, err := Recipe(nil, ferryBrown(t)); err == nil {
		t.Error("no style, no error")
	}
	if _, err := Plan(oatBrown(t), nil); err == nil {
		t.Error("no plan, no error")
	}
}

func BenchmarkRecipe(b *testing.B) {
	s, r := oatBrown(b), ferryBrown(b)
	for b.Loop() {
		if _, err := Recipe(s, r); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPlan(b *testing.B) {
	s, p := oatBrown(b), boathouse(b, "settle and run off")
	for b.Loop() {
		if _, err := Plan(s, p); err != nil {
			b.Fatal(err)
		}
	}
}
