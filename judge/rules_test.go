// SPDX-License-Identifier: MIT

package judge

import (
	"strings"
	"testing"

	"gyle/recipe"
)

// beerText is a recipe whose every number the table below can be checked by:
// pale 70, Munich 10, crystal 80 EBC 3, crystal 150 EBC 5, rye 4, chocolate
// late 4, black 2, sugar in the kettle 2 %.
const beerText = `gyle: recipe/1
name: Table
aims: {og: 1.060, ibu: 40}
grist:
- {malt: pale-ale, share: 70 %, role: base}
- {malt: munich, share: 10 %, role: flavour}
- {malt: crystal, share: 3 %, color: 80 EBC, role: flavour}
- {malt: crystal, share: 5 %, color: 150 EBC, role: flavour}
- {malt: rye, share: 4 %, role: flavour}
- {malt: chocolate, share: 4 %, in: last 15 min, role: flavour}
- {malt: black, share: 2 %, role: color}
- {malt: sugar, share: 2 %, in: kettle}
mash: {rests: [67 °C for 60 min]}
boil: 60 min
hops:
- {hop: magnum, bitterness: 30 IBU, at: boil 60 min}
- {hop: cascade, bitterness: 6 IBU, at: boil 30 min}
- {hop: centennial, dose: 1.5 g/L, at: flame-out}
- {hop: cascade, dose: 2 g/L, at: stand 80 °C 20 min}
- {hop: cascade, dose: 3 g/L, at: dry 3 d 14 °C}
yeast: {kind: american-ale, attenuation: 74..80 %, temperature: 18..22 °C, pitch: 0.8 M/mL/°P}
`

// ruleCases hold one rule each against beerText. What is wanted was worked out
// by hand from the recipe and the sentence that each form of rule is defined by.
var ruleCases = []struct {
	rule string
	want Word
	text string // of the value
	mend string // a part of it
}{
	// figures: SG 1.060 is 14.74 °P (ASBC table)
	{"{figure: og, in: 1.040..1.065, severity: limit}", Inside, "1.060", ""},
	{"{figure: og, in: 1.040..1.058, severity: limit}", Outside, "1.060", "og 1.058 or less"},
	{"{figure: og, in: 12..14 °P, severity: limit}", Outside, "14.7 °P", "og 14 °P or less"},
	{"{figure: og, in: 14..15.5 °P, severity: limit}", Inside, "14.7 °P", ""},
	{"{figure: 'bu:gu', in: ..0.60, severity: advice}", Outside, "0.67", "−4 IBU, to 36 IBU"}, // 40/60
	{"{figure: ibu, in: 30..41 IBU, severity: advice}", Inside, "40 IBU", ""},
	{"{figure: ibu, in: 30..40.4 IBU, severity: advice}", Edge, "40 IBU", ""}, // 5 % of 10.4 is 0.52
	{"{figure: attenuation, in: ..75 %, severity: advice}", Outside, "77 %", "fg 1.0"},
	{"{figure: color, in: 20..40 EBC, severity: advice}", Unknown, "", ""},
	{"{figure: co2, in: 2..3 vol, severity: advice}", Unknown, "", ""},
	{"{figure: 'SO4:Cl', in: 1..2, severity: advice}", Unknown, "", ""},
	// shares
	{"{share: pale-ale-malt, in: 60..75 %, severity: limit}", Inside, "70 %", ""},
	{"{share: class crystal, in: ..6 %, severity: limit}", Outside, "8 %", "crystal 5 → 3 %, pale-ale takes 2 points"},
	{"{share: class crystal 100..200 EBC, in: 3..8 %, severity: limit}", Inside, "5 %", ""},
	{"{share: role color, in: ..1 %, severity: limit}", Outside, "2 %", "black 2 → 1 %, pale-ale takes 1 point"},
	{"{share: class roasted above 600 EBC, in: 2..5 %, severity: advice}", Outside, "6 %", "chocolate 4 → 3 %"},
	{"{share: above 600 EBC, in: 2..7 %, severity: advice}", Inside, "6 %", ""},
	{"{share: munich + class crystal + munich, in: 10..20 %, severity: advice}", Inside, "18 %", ""},
	{"{share: group sweet, in: 20..30 %, severity: advice}", Outside, "18 %", "munich 10 → 12 %, pale-ale gives 2 points"},
	{"{share: class wheat, in: 3..5 %, severity: advice}", Outside, "0 %", "3 % of wheat, pale-ale gives 3 points"},
	{"{share: class sugar, in: ..3 %, severity: advice}", Inside, "2 %", ""},
	{"{share: class base, in: 75 %.., severity: limit}", Outside, "70 %", "pale-ale 70 → 75 %, munich gives 5 points"},
	{"{share: class dehusked roasted, in: 4..6 %, severity: option}", Idle, "0 %", ""},
	// largest, count
	{"{largest: class crystal, in: ..5 %, severity: advice}", Edge, "5 % of crystal", ""},
	{"{largest: class crystal, in: ..4 %, severity: advice}", Outside, "5 % of crystal", "crystal 5 → 4 %, pale-ale takes 1 point"},
	{"{count: role flavour, in: ..4, severity: advice}", Outside, "5", "crystal 3 → 0 %, pale-ale takes 3 points"},
	{"{count: class crystal, in: 2..3, severity: advice}", Edge, "2", ""},
	{"{count: class roasted, in: 3.., severity: advice}", Outside, "2", "chocolate gives 1 point"},
	// late: 4 of the 6 % roast come late
	{"{late: class roasted, in: 50..70 %, severity: advice}", Inside, "66.7 %", ""},
	{"{late: class roasted, in: 100 %, severity: advice}", Outside, "66.7 %", "2 % of black late: last 15 min"},
	{"{late: class roasted, in: ..50 %, severity: advice}", Outside, "66.7 %", "1 % of chocolate with the rest of the mash"},
	{"{late: class oats, in: 50..70 %, severity: advice}", Idle, "", ""},
	// bitterness: 30 + 6 of the aim of 40, so flame-out and stand have 4
	{"{ibu from: boil 45 min.., in: 70 %.., severity: advice}", Inside, "75 %", ""},
	{"{ibu from: boil 45 min.., in: 80 %.., severity: advice}", Outside, "75 %", "move 2 IBU from cascade at boil 30 min to magnum at boil 60 min"},
	{"{ibu from: flame-out + stand, in: ..5 %, severity: advice}", Outside, "10 %", "to magnum at boil 60 min"},
	{"{ibu from: flame-out, in: 5 %.., severity: advice}", Unknown, "", ""},
	{"{ibu from: first wort, in: 10 %.., severity: advice}", Outside, "0 %", "move 4 IBU from magnum at boil 60 min to magnum at first wort"},
	// moments
	{"{charges: boil + flame-out + stand + dry, severity: limit}", Inside, "all charges", ""},
	{"{charges: boil start + boil 15..0 min + stand + dry, severity: limit}", Outside, "cascade at boil 30 min", "cascade at boil 30 min → boil 15 min"},
	{"{charges: boil start + boil 40..25 min + flame-out + dry, severity: limit}", Outside, "cascade at stand 80 °C 20 min", "→ flame-out"},
	// doses
	{"{dose: dry, in: ..4 g/L, severity: limit}", Inside, "3 g/L", ""},
	{"{dose: boil 10..0 min + stand, in: 0.5..2 g/L, severity: advice}", Outside, "3.5 g/L", "cascade at stand 80 °C 20 min: 2 → 0.5 g/L"},
	{"{dose: boil 45..20 min, in: ..2 g/L, severity: advice}", Unknown, "", ""},
	{"{dose: first wort, in: 1 g/L.., severity: advice}", Outside, "0 g/L", "add 1 g/L of cascade at first wort"},
	// yeast: 74..80 %, 18..22 °C, 0.8
	{"{yeast: attenuation, in: 70..82 %, severity: advice}", Inside, "74–80 %", ""},
	{"{yeast: attenuation, in: 69..76 %, severity: advice}", Outside, "74–80 %", "a yeast that attenuates 74–76 %"},
	{"{yeast: temperature, in: ..21 °C, severity: limit}", Outside, "18–22 °C", "ferment at 18–21 °C"},
	{"{yeast: temperature, in: 10..14 °C, severity: limit}", Outside, "18–22 °C", "ferment at 10–14 °C"},
	{"{yeast: pitch, in: 1..1.5 M/mL/°P, severity: advice}", Outside, "0.8 M/mL/°P", "pitch 1 M/mL/°P"},
	// conditions
	{"{when: hop group american-c, share: munich, in: ..8 %, severity: limit}", Outside, "10 %", "munich 10 → 8 %"},
	{"{when: hop goldings, share: munich, in: ..8 %, severity: limit}", Idle, "", ""},
	{"{when: malt class roasted, share: munich, in: ..8 %, severity: limit}", Outside, "10 %", ""},
	{"{when: malt class oats, share: munich, in: ..8 %, severity: limit}", Idle, "", ""},
	{"{when: og above 1.055, share: munich, in: ..8 %, severity: limit}", Outside, "10 %", ""},
	{"{when: ibu below 30, share: munich, in: ..8 %, severity: limit}", Idle, "", ""},
	{"{when: color above 30 EBC, share: munich, in: ..8 %, severity: limit}", Idle, "", ""},
}

func TestRules(t *testing.T) {
	r := parsed(t, "table", []byte(beerText), recipe.Parse)
	for _, test := range ruleCases {
		v := judged(t, ruled(t, test.rule), r).Verdicts[0]
		if v.Word != test.want || v.Text != test.text || !strings.Contains(v.Mend, test.mend) {
			t.Errorf("%s\n got %s, %q, %q (%s)\nwant %s, %q, %q", test.rule, v.Word, v.Text, v.Mend, v.Lack, test.want, test.text, test.mend)
		}
		if (v.Word == Unknown || v.Word == Idle) && v.Lack == "" {
			t.Errorf("%s: it isn't said why it is %s", test.rule, v.Word)
		}
		if (v.Word == Outside) != (v.Mend != "" && v.Off != "") {
			t.Errorf("%s: %s with mend %q and off %q", test.rule, v.Word, v.Mend, v.Off)
		}
	}
}

// A part counts what is in the sum too: crystal within Munich and crystal.
func TestPartOfASum(t *testing.T) {
	r := parsed(t, "table", []byte(beerText), recipe.Parse)
	s := ruled(t, "{share: munich + class crystal 100..200 EBC, in: ..20 %, of which: [{share: class crystal, in: ..4 %}, {share: rye, in: ..1 %}], severity: advice, why: sweet}")
	j := judged(t, s, r)
	if len(j.Verdicts) != 3 {
		t.Fatalf("%d verdicts", len(j.Verdicts))
	}
	sum, crystal, rye := j.Verdicts[0], j.Verdicts[1], j.Verdicts[2]
	if sum.Text != "15 %" || sum.Word != Inside {
		t.Errorf("sum: %v", sum)
	}
	if crystal.Part != 1 || crystal.Text != "5 %" || crystal.Word != Outside || crystal.Mend != "crystal 5 → 4 %, pale-ale takes 1 point" || crystal.Why != "sweet" {
		t.Errorf("crystal: %v", crystal)
	}
	if rye.Text != "0 %" || rye.Word != Inside {
		t.Errorf("rye isn't in the sum: %v", rye)
	}
}

// A malt nobody knows has no class: rules on classes are unknown, those on its
// name are not.
func TestUnknownMalt(t *testing.T) {
	text := strings.Replace(beerText, "malt: munich", "malt: barn-malt", 1)
	r := parsed(t, "table", []byte(text), recipe.Parse)
	j := judged(t, ruled(t, "{share: class kilned, in: ..20 %, severity: advice}", "{share: barn-malt, in: ..20 %, severity: advice}"), r)
	if v := j.Verdicts[0]; v.Word != Unknown || !strings.Contains(v.Lack, "barn-malt") {
		t.Errorf("%+v", v)
	}
	if v := j.Verdicts[1]; v.Word != Inside || v.Text != "10 %" {
		t.Errorf("%+v", v)
	}
}

// A recipe in masses is judged by the shares that the masses make.
func TestRecipeInMasses(t *testing.T) {
	r := parsed(t, "masses", []byte(`gyle: recipe/1
name: Masses
size: 20 L
grist:
- {malt: pale-ale, mass: 4 kg}
- {malt: crystal, mass: 1 kg}
hops:
- {hop: cascade, mass: 30 g, at: boil 60 min}
- {hop: cascade, mass: 40 g, at: dry 3 d}
`), recipe.Parse)
	j := judged(t, ruled(t, "{share: class crystal, in: ..10 %, severity: limit}", "{dose: dry, in: ..1 g/L, severity: limit}",
		"{figure: ibu, in: ..30 IBU, severity: limit}", "{figure: og, in: 1.040..1.050, severity: limit}"), r)
	if v := j.Verdicts[0]; v.Text != "20 %" || v.Mend != "crystal 20 → 10 % (−500 g), pale-ale takes 10 points (+500 g)" {
		t.Errorf("%v", v)
	}
	if v := j.Verdicts[1]; v.Text != "2 g/L" || v.Mend != "cascade at dry 3 d: 2 → 1 g/L (40 → 20 g)" { // 40 g in 20 L
		t.Errorf("%v", v)
	}
	if j.Verdicts[2].Word != Unknown || j.Verdicts[3].Word != Unknown {
		t.Errorf("%v", j.Verdicts[2:])
	}
}
