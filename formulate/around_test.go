// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"fmt"
	"os"
	"testing"

	"pgregory.net/rapid"

	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// anyBeer draws a recipe from the shelf, with the colour and the bitterness that
// it has on the paper house.
func anyBeer(t *rapid.T) *recipe.Recipe {
	og := quantity.GravitySG(quantity.SG(float64(rapid.IntRange(1036, 1075).Draw(t, "og")) / 1000))
	r := &recipe.Recipe{Name: "Drawn", Aims: recipe.Aims{OG: &og}, Mash: recipe.Mash{Rests: []recipe.Rest{{Temperature: quantity.Celsius(67), Time: 60}}}}
	left := 200
	for _, malt := range typicalMalts[2:] {
		if n := rapid.IntRange(0, 30).Draw(t, malt); n > 20 && left > n {
			left -= n - 20
			r.Grist = append(r.Grist, grainOf(malt, n-20))
		}
	}
	pils := rapid.IntRange(0, left).Draw(t, "pilsner")
	r.Grist = append(r.Grist, grainOf(typicalMalts[0], pils), grainOf(typicalMalts[1], left-pils))
	bitter := quantity.IBU(rapid.IntRange(8, 50).Draw(t, "bitter"))
	r.Hops = []recipe.Charge{{Hop: "challenger", Bitterness: &bitter, At: recipe.Moment{Stage: recipe.AtBoil, Time: 60}}}
	attenuation := float64(rapid.IntRange(70, 80).Draw(t, "attenuation")) / 100
	fg := quantity.GravitySG(quantity.SG(round(finalsOf(float64(og.Value), quantity.Exactly(attenuation)).Low, 3)))
	r.Aims.FG = &fg
	p, err := plan.Make(plan.Input{Recipe: r, House: PaperHouse()})
	if err != nil {
		t.Fatal(err)
	}
	r.Aims.Color = &quantity.Color{Value: figureOf(p, quantity.BeerColor), Scale: quantity.ScaleEBC}
	return r
}

func grainOf(malt string, halves int) recipe.Grain {
	share := quantity.Percent(float64(halves) / 2)
	g := recipe.Grain{Malt: malt, Share: &share}
	if !needsMash(malt) {
		g.In.Way = recipe.InKettle
	}
	return g
}

// around writes a rule around what a beer has: somewhere in a range of a twelfth
// of what the subject may be, or wider.
func around(t *rapid.T, r *recipe.Recipe) string {
	d := rapid.SampledFrom(drawn[:18]).Draw(t, "subject")
	wide, err := style.Parse("wide", []byte(fmt.Sprintf("gyle: style/1\nname: Wide\nrules:\n- {%s, in: %g..%g%s, severity: option}\n", d.subject, d.low, d.high, d.unit)))
	if err != nil {
		t.Fatal(err)
	}
	j, err := judge.Recipe(wide, r)
	if err != nil {
		t.Fatal(err)
	}
	v := j.Verdicts[0]
	if v.Word == judge.Unknown || v.Word == judge.Idle && v.Lack != "an option that isn't taken up" {
		return ""
	}
	width := rapid.Float64Range(1.0/12, 0.5).Draw(t, "width") * (d.high - d.low)
	part := rapid.Float64Range(0.1, 0.9).Draw(t, "part")
	return fmt.Sprintf("- {%s, in: %.5f..%.5f%s, severity: limit}\n", d.subject, max(v.Value-part*width, 0), v.Value+(1-part)*width, d.unit)
}

// In a style that is drawn around a beer there is a beer: something is found, and
// no conflict is invented.
func TestStylesAroundABeer(t *testing.T) {
	count := 0
	rapid.Check(t, func(t *rapid.T) {
		if count++; count > 25 && os.Getenv("GYLE_SOAK") == "" {
			return
		}
		r := anyBeer(t)
		text := "gyle: style/1\nname: Around\nrules:\n"
		for range rapid.IntRange(3, 14).Draw(t, "rules") {
			text += around(t, r)
		}
		s, err := style.Parse("around", []byte(text))
		if err != nil {
			return // no rule, or one with a negative share
		}
		w := shelf(s)
		w.NoRooms, w.Strict = true, true
		w.Objective = rapid.SampledFrom([]Objective{Middle, Fewest}).Draw(t, "objective")
		got, err := Find(context.Background(), w)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		for _, v := range got.Judgement.Broken() {
			t.Fatalf("%s\n%s\n%s", v.Line(), got.Text, text)
		}
	})
}
