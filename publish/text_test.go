// SPDX-License-Identifier: MIT

package publish

import (
	"strings"
	"testing"

	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
)

func TestTextAndMarkdown(t *testing.T) {
	for name, write := range map[string]func(Bundle) (string, error){"text": Text, "markdown": Markdown} {
		text, err := write(ferryBrown(t))
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"Ferry Brown 4", "on Garage, 20.0 L", "3.23 kg", "65.3 %", "1.36 g/L", "IBU", "Bramling Cross"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s doesn't hold %q:\n%s", name, want, text)
			}
		}
	}
}

func TestMarkdownKeepsHostileTextsText(t *testing.T) {
	b := ferryBrown(t)
	r := *b.Input.Recipe
	r.Name = "<script>alert(1)</script> [x](javascript:alert(1)) | `a` ![i](http://x)\n# head"
	b.Input.Recipe = &r
	text, err := Markdown(b)
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{"<script", "](java", "![i", "\n# head"} {
		if strings.Contains(strings.NewReplacer(`\]`, "", `\!`, "").Replace(text), bad) {
			t.Errorf("the text holds %q", bad)
		}
	}
}

func ferryPlan(t *testing.T, change func(*recipe.Recipe)) *plan.Plan {
	t.Helper()
	b := ferryBrown(t)
	r := *b.Input.Recipe
	if change != nil {
		change(&r)
	}
	b.Input.Recipe = &r
	p, err := plan.Make(b.Input)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The label of the scenario: alcohol as brewed, barley and oats, and nothing
// that isn't in the beer. The classes are those of EU Regulation 1169/2011,
// Annex II, as the table of malts holds them.
func TestLabel(t *testing.T) {
	text := LabelFor(ferryPlan(t, nil), quantity.Percent(4.77), "0.5 L", "brewed 2026-10-03", quantity.Printer{}).Text()
	for _, want := range []string{"4.8 % vol; contains barley, oats (gluten)", "0.5 L", "brewed 2026-10-03", "Ingredients: water, Pale ale malt", "Bramling Cross hops", "country's rules"} {
		if !strings.Contains(text, want) {
			t.Errorf("the label doesn't say %q:\n%s", want, text)
		}
	}
	for _, absent := range []string{"milk", "wheat", "rye"} {
		if strings.Contains(text, absent) {
			t.Errorf("the label says %q:\n%s", absent, text)
		}
	}
	share := quantity.Percent(2)
	sweet := LabelFor(ferryPlan(t, func(r *recipe.Recipe) {
		r.Grist = append([]recipe.Grain{}, r.Grist...)
		less := *r.Grist[0].Share - share
		r.Grist[0].Share = &less
		r.Grist = append(r.Grist, recipe.Grain{Malt: "lactose", Share: &share, In: recipe.Entry{Way: recipe.InKettle}})
	}), 0, "", "", quantity.Printer{})
	if !strings.Contains(sweet.Contains, "milk") {
		t.Errorf("with lactose the label says %q", sweet.Contains)
	}
}
