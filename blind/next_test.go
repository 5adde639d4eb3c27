// SPDX-License-Identifier: MIT

package blind_test

import (
	"strings"
	"testing"

	"gyle/blind"
	"gyle/quantity"
	"gyle/tasting"
)

// ferrySteps are the steps of the example with its tastings: 6 of 14 right, then 11 of
// 18, then a tasting that is still sealed.
func ferrySteps(t *testing.T) []blind.Step {
	t.Helper()
	all := []*tasting.Tasting{evening(t, "ferry-brown-1-2"), evening(t, "ferry-brown-2-3"), evening(t, "ferry-brown-3-4-planned")}
	var steps []blind.Step
	for i, name := range []string{"1", "2", "3"} {
		steps = append(steps, blind.Step{Earlier: "ferry-brown-" + name, Later: "ferry-brown-" + string(rune('2'+i)), Changes: []string{"one"}, Batches: [2]int{1, 1}, Tastings: all[i : i+1]})
	}
	return steps
}

func TestNextQuestion(t *testing.T) {
	steps := ferrySteps(t)
	list := blind.Next(steps, quantity.Printer{})
	if len(list) != 6 {
		t.Fatalf("%d questions", len(list))
	}
	at := map[string]blind.Question{}
	for i, q := range list {
		if i > 0 && q.PerTaster > list[i-1].PerTaster {
			t.Errorf("%s %s teaches more than what stands before it", q.Later, q.Kind)
		}
		if q.Bits <= 0 || q.Glasses != q.Tasters*map[string]int{"tetrad": 4, "preference": 2}[q.Kind] {
			t.Errorf("%+v", q)
		}
		at[q.Later+" "+q.Kind] = q
	}
	// 16 tasters find d′ 1.5 by a tetrad with 80 %, 49 find 70 % of preferences: published
	// functions, computed with the statistics package of Brockhoff and Christensen 2010.
	if at["ferry-brown-4 tetrad"].Tasters != 16 || at["ferry-brown-4 preference"].Tasters != 49 {
		t.Errorf("panels of %d and %d", at["ferry-brown-4 tetrad"].Tasters, at["ferry-brown-4 preference"].Tasters)
	}
	if at["ferry-brown-4 tetrad"].Asked != 0 || at["ferry-brown-3 tetrad"].Asked != 18 || at["ferry-brown-3 preference"].Asked != 18 || at["ferry-brown-2 tetrad"].Asked != 14 {
		t.Errorf("answers so far: %+v", at)
	}
	if at["ferry-brown-4 tetrad"].Bits <= at["ferry-brown-3 tetrad"].Bits || at["ferry-brown-4 tetrad"].Bits <= at["ferry-brown-2 tetrad"].Bits {
		t.Error("what was never tasted teaches less than what was")
	}
	if list[0].Later != "ferry-brown-4" || list[0].Kind != "tetrad" {
		t.Errorf("first: %+v", list[0])
	}
	for _, q := range list {
		parted := q.Later == "ferry-brown-4" // its tasting is planned with one wort that was parted
		if parted == strings.Contains(strings.Join(q.Cautions, " "), "One batch") {
			t.Errorf("%s: %v", q.Later, q.Cautions)
		}
	}
}

// Two changes are named; a parted wort takes the batch out of it.
func TestNextNamesWhatIsMixed(t *testing.T) {
	steps := ferrySteps(t)[1:2]
	steps[0].Changes = []string{"oats from 8 % to 12 %", "chocolate late"}
	q := blind.Next(steps, quantity.Printer{})[0]
	if len(q.Changes) != 2 || !strings.Contains(q.Cautions[0], "Which is the question?") {
		t.Errorf("%+v", q)
	}
	split := *steps[0].Tastings[0]
	split.Beers = append([]tasting.Beer{}, split.Beers...)
	split.Beers[0].Split, split.Beers[1].Split = "one wort", "one wort"
	steps[0].Tastings = []*tasting.Tasting{&split}
	if q = blind.Next(steps, quantity.Printer{})[0]; len(q.Cautions) != 1 {
		t.Errorf("%v", q.Cautions)
	}
	steps[0].Tastings, steps[0].Batches = nil, [2]int{0, 1}
	if q = blind.Next(steps, quantity.Printer{})[0]; !strings.Contains(q.Cautions[1], "Not both are brewed") || q.Asked != 0 {
		t.Errorf("%+v", q)
	}
}
