// SPDX-License-Identifier: MIT

package judge

import (
	"regexp"
	"slices"
	"testing"

	"gyle/quantity"
)

// metric finds a metric unit after a number, and a decimal point.
var metric = regexp.MustCompile(`\d (EBC|kg|g|L|°C|K|g/L)\b|\d\.\d`)

// american is a reader who thinks in pounds and writes a decimal comma, which
// shows both in one text.
var american = quantity.Printer{System: quantity.USCustomary, DecimalComma: true}

// What the judge says is in the units of the reader. What the author wrote (the
// condition, the reason), and the moments of the recipe, stay as they are.
func TestInTheUnitsOfTheReader(t *testing.T) {
	s := ruled(t, "{figure: color, in: 10..12 EBC, severity: limit}", "{dose: dry, in: 4..6 g/L, severity: advice}",
		"{yeast: temperature, in: 8..10 °C, severity: advice}", "{share: oats-flaked, in: 1.5..2.5 %, severity: advice}",
		"{figure: bitterness, in: 10..12 IBU, severity: limit}", "{figure: original gravity, in: 1.060..1.070, severity: limit}")
	plain, err := Plan(s, boathouse(t, ""))
	if err != nil {
		t.Fatal(err)
	}
	told, err := PlanFor(american, s, boathouse(t, ""))
	if err != nil {
		t.Fatal(err)
	}
	moment := regexp.MustCompile(`(stand|dry) [^:,]*°C`)
	for i, v := range told.Verdicts {
		for _, text := range []string{v.Text, v.Range, v.Off, v.Mend} {
			if found := metric.FindString(moment.ReplaceAllString(text, "")); found != "" {
				t.Errorf("%s: %q in %q", v.Phrase, found, text)
			}
		}
		if p := plain.Verdicts[i]; v.Word != p.Word || v.Value != p.Value || v.Low != p.Low || v.High != p.High || v.Unit != p.Unit || !slices.Equal(v.Changes, p.Changes) {
			t.Errorf("%s: another verdict in other units: %+v, %+v", v.Phrase, v, p)
		}
	}
	// 10 to 12 EBC are 5.1 to 6.1 SRM: a unit of SRM is 1.97 of EBC. 8 to 10 °C
	// are 46.4 to 50 °F.
	if color, yeast := told.Verdicts[0], told.Verdicts[2]; color.Range != "5,1–6,1 SRM" || yeast.Range != "46,4–50 °F" {
		t.Errorf("ranges %q, %q", color.Range, yeast.Range)
	}
}
