// SPDX-License-Identifier: MIT

package chance_test

import (
	"math"
	"strings"
	"testing"

	"gyle/chance"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/uncertainty"
)

// Beers without hops, without a mash, from a keg, with hops at every moment:
// whatever can be planned has an outlook of finite numbers.
func TestOddBeers(t *testing.T) {
	const grist, mash = "grist:\n- {malt: pale-ale, share: 100 %}\n", "mash: {rests: [66 °C for 60 min]}\n"
	const bitter = "hops:\n- {hop: challenger, bitterness: 28 IBU, at: boil 60 min}\n"
	for name, text := range map[string]string{
		"without hops": grist + mash,
		"from extract": "grist:\n- {malt: dry-malt-extract, share: 100 %, in: kettle}\n" + bitter,
		"with sugar":   "grist:\n- {malt: pale-ale, share: 90 %}\n- {malt: sucrose, share: 10 %, in: kettle}\n" + mash + bitter,
		"kegged":       grist + mash + bitter + "package: {in: keg}\n",
		"steeped":      "grist:\n- {malt: pale-ale, share: 90 %}\n- {malt: chocolate, share: 10 %, in: cold steep 16 h}\n" + mash + bitter,
		"hops at every moment": grist + mash + bitter + `- {hop: challenger, dose: 1 g/L, at: first wort}
- {hop: challenger, dose: 1 g/L, at: flame-out}
- {hop: challenger, dose: 1 g/L, at: stand 80 °C 20 min}
- {hop: challenger, dose: 1 g/L, at: stand 70 °C 10 min}
- {hop: challenger, dose: 3 g/L, at: dry 3 d 14 °C}
`,
	} {
		r, err := recipe.Parse(name, []byte("gyle: recipe/1\nname: "+name+"\naims: {og: 1.048, co2: 2.3 vol}\n"+text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, house := range []string{"garage", "boathouse"} {
			in := on(t, "4", house)
			in.Recipe, in.Stock = r, nil
			o := simulated(t, made(t, in), oatBrown(t), chance.Options{Samples: 600})
			for _, b := range o.Figures {
				if math.IsNaN(b.Mean+b.SD+b.Most.Low) || math.IsInf(b.Mean+b.SD, 0) || math.Abs(b.Mean-b.Planned) > 0.3*b.SD+1e-9 {
					t.Errorf("%s on %s: %s: %+v", name, house, b.Label(), b)
				}
			}
			for _, r := range o.Rules {
				if math.IsNaN(r.Inside.Share) {
					t.Errorf("%s on %s: no chance of %s", name, house, r.Phrase)
				}
			}
		}
	}
}

// Words: the figures follow the printer; a chance never says always where it
// was only counted.
func TestWords(t *testing.T) {
	o := simulated(t, made(t, on(t, "4", "garage")), oatBrown(t), chance.Options{})
	metric, american := quantity.Printer{}, quantity.Printer{System: quantity.USCustomary, DecimalComma: true}
	volume := band(t, o, chance.Collected)
	if got := volume.Text(metric, volume.Most); !strings.HasPrefix(got, "20.0 L (19.") {
		t.Errorf("%q", got)
	}
	if got := volume.Text(american, volume.Most); !strings.Contains(got, "gal") {
		t.Errorf("%q", got)
	}
	if got := band(t, o, quantity.Bitterness).Text(metric, uncertainty.Range{Low: 23.1, High: 35.2}); got != "29 IBU (23–35)" {
		t.Errorf("%q", got)
	}
	for share, want := range map[float64]string{1: "nearly always", 0.999: "nearly always", 0.714: "71 in 100 brews", 0.001: "hardly ever", 0: "hardly ever"} {
		if got := chance.Chance(chance.Probability{Share: share, Error: 0.004}); got != want {
			t.Errorf("%g: %q, want %q", share, got, want)
		}
	}
	if chance.Chance(chance.Probability{Share: 1}) != "always" || chance.Chance(chance.Probability{}) != "never" {
		t.Error("what is settled is always or never so")
	}
	for _, in := range o.Inputs {
		if in.Source == "" || in.Name == "" || !strings.HasPrefix(in.Spread(metric), "± ") {
			t.Errorf("%+v", in)
		}
	}
}
