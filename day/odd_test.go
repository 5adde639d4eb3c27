// SPDX-License-Identifier: MIT

package day_test

import (
	"math"
	"testing"
	"time"

	"gyle/brewhouse"
	"gyle/day"
	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/gravity"
)

// Odd beers: without hops, without a mash, without a sparge, of steps, with
// sugar in the kettle, hopped in every stage. Nothing panics, every number is
// one, and the snapshot reads back.
var oddBeers = map[string]string{
	"no hops": `
grist: [{malt: pale-ale, share: 100 %}]`,
	"no mash": `
grist: [{malt: dry-malt-extract-pale, share: 100 %, in: kettle}]
hops: [{hop: challenger, bitterness: 20 IBU, at: boil 60 min}]`,
	"no sparge": `
grist: [{malt: pale-ale, share: 100 %}]
mash: {ratio: 5 L/kg, sparge: none}
hops: [{hop: challenger, bitterness: 20 IBU, at: flame-out}]`,
	"steps": `
grist: [{malt: pilsner, share: 90 %}, {malt: chocolate, share: 10 %, in: last 15 min}]
mash: {rests: [52 °C for 10 min, 63 °C for 40 min, 72 °C for 20 min]}
hops: [{hop: challenger, bitterness: 20 IBU, at: boil 60 min}]`,
	"sugar": `
grist: [{malt: pale-ale, share: 85 %}, {malt: sucrose, share: 15 %, in: kettle}]
hops: [{hop: challenger, bitterness: 20 IBU, at: boil 60 min}]`,
	"all stages": `
grist: [{malt: pale-ale, share: 100 %}]
hops:
- {hop: challenger, dose: 0.5 g/L, at: mash}
- {hop: challenger, dose: 0.5 g/L, at: first wort}
- {hop: challenger, bitterness: 20 IBU, at: boil 60 min}
- {hop: challenger, dose: 1 g/L, at: flame-out}
- {hop: challenger, dose: 1 g/L, at: stand 85 °C 10 min}
- {hop: challenger, dose: 1 g/L, at: stand 75 °C 20 min}
- {hop: challenger, dose: 1 g/L, at: dry 3 d 14 °C}`,
}

func TestOddBeers(t *testing.T) {
	for name, body := range oddBeers {
		for _, house := range []string{"garage", "boathouse"} {
			t.Run(name+" "+house, func(t *testing.T) { oddBeer(t, name, body, house) })
		}
	}
}

func oddBeer(t *testing.T, name, body, house string) {
	r, err := recipe.Parse(name, []byte("gyle: recipe/1\nname: "+name+"\naims: {og: 1.048}"+body+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	in := plan.Input{Recipe: r, House: load(t, brewhouse.Parse, "examples", house)}
	in.Size = *in.House.Usual / 2
	p, err := plan.Make(in)
	if err != nil {
		t.Fatal(err)
	}
	snapshotReadsBack(t, p)
	for _, factor := range []float64{0.9, 0.97, 1, 1.03, 1.1} {
		full := gravity.Wort{Volume: p.Volumes.FullKettle, Extract: quantity.Plato(factor * float64(gravity.PlatoFromSG(p.Gravity.FullKettle)))}
		out := gravity.Wort{Volume: p.Volumes.KnockOut, Extract: quantity.Plato(factor * float64(gravity.PlatoFromSG(p.Gravity.OG)))}
		for _, o := range []day.Offer{
			day.FullKettle(p, day.Kettle{Volume: quantity.VolumeAt{Volume: full.Volume}, SG: full.SG()}),
			day.FullKettle(p, day.Kettle{Volume: quantity.VolumeAt{Volume: full.Volume * quantity.Volume(factor)}, SG: p.Gravity.FullKettle}),
			day.KnockedOut(p, day.Kettle{Volume: quantity.VolumeAt{Volume: out.Volume}, SG: out.SG()}),
			day.Strike(p, p.FirstRest().Add(quantity.Warming(20*(factor-1)))),
			day.MashPH(p, day.MashReading{PH: quantity.PH(5.4 * factor)}),
			day.Tripped(p, day.Trip{Into: 20, Off: quantity.Duration(10 * factor)}),
			day.SlowCooling(p, day.Slow{After: quantity.Duration(10 * factor), Now: quantity.Celsius(90)}),
		} {
			soundOffer(t, o)
		}
	}
}

// soundOffer checks that there are no tickets or two to four, with numbers.
func soundOffer(t *testing.T, o day.Offer) {
	t.Helper()
	if n := len(o.Tickets); n == 1 || n > 4 {
		t.Errorf("%s: %d tickets", o.Missed, n)
	}
	for _, one := range o.Tickets {
		for _, x := range []float64{float64(one.OG), float64(one.Volume), float64(one.IBU), float64(one.Color), float64(one.ABV), float64(one.Minutes), float64(one.Boil), float64(one.Lactic)} {
			if math.IsNaN(x) || math.IsInf(x, 0) || x < -1000 {
				t.Errorf("%s: %+v", o.Missed, one)
			}
		}
		if one.Name == "" || one.Does == "" || one.Price == "" || !(one.Volume > 0) || !(one.OG > 1) || one.IBU < 0 {
			t.Errorf("%s: %+v", o.Missed, one)
		}
		for _, h := range one.Hops {
			if !(h.Mass >= 0) {
				t.Errorf("%s: %+v", o.Missed, h)
			}
		}
	}
}

// snapshotReadsBack writes a snapshot, reads it, and lays its day out.
func snapshotReadsBack(t *testing.T, p *plan.Plan) {
	t.Helper()
	g := gyle.Gyle{Name: p.Recipe, House: p.House, Plan: day.Snapshot(p, "test", time.Date(2026, 3, 6, 0, 0, 0, 0, time.UTC))}
	text, err := g.Text()
	if err != nil {
		t.Fatal(err)
	}
	read, err := gyle.Parse("gyle.yaml", text)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	again, err := read.Text()
	if err != nil || string(again) != string(text) {
		t.Errorf("the snapshot changes (%v):\n%s\n%s", err, text, again)
	}
	d, err := day.Of(read, day.Options{Start: gyle.At(time.Date(2026, 3, 7, 8, 0, 0, 0, time.UTC))})
	if err != nil {
		t.Fatal(err)
	}
	wet := 0
	for _, c := range p.Hops.Charges {
		if !c.Dry {
			wet += max(len(c.Lots), 1)
		}
	}
	charges := 0
	for i, x := range d.Tasks {
		if x.Time < 0 || (i > 0 && x.At.Before(d.Tasks[i-1].At.Time)) {
			t.Errorf("task %+v", x)
		}
		if len(x.Key) > 4 && x.Key[:4] == "hops" {
			charges++
		}
	}
	if charges != wet {
		t.Errorf("%d charges are in the day, %d in the plan", charges, wet)
	}
}
