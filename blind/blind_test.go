// SPDX-License-Identifier: MIT

package blind_test

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"gyle/blind"
	"gyle/quantity"
	"gyle/tasting"
)

func evening(t testing.TB, name string) *tasting.Tasting {
	t.Helper()
	text, err := os.ReadFile("../tasting/testdata/evenings/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := tasting.Parse(name+".yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tolerance {
		t.Errorf("%s is %g, want %g", what, got, want)
	}
}

// TestVerdictsOfChoices judges the evenings of the example. Counts, p, share and
// interval were worked out with exact binomial sums and Clopper-Pearson limits
// beside the program: within half of the last digit given.
func TestVerdictsOfChoices(t *testing.T) {
	for _, want := range []struct {
		evening              string
		right, n, needed     int
		p, pTolerance        float64
		share, low, high, up float64
		says                 string
	}{
		{"ferry-brown-2-3", 11, 18, 10, 0.0144, 0.00005, 0.42, 0.09, 0.70, 0.70, "Difference shown: 11 of 18 right, where guessing gives 6 (p 0.0144)."},
		{"ferry-brown-1-2", 6, 14, 9, 0.31, 0.005, 0.14, 0, 0.51, 0.51, "Not shown; up to 51 % of tasters could still tell: 6 of 14 right, where guessing gives 4.7 (p 0.31)."},
	} {
		v := blind.Of(evening(t, want.evening), quantity.Printer{})
		f := v.Flights[0]
		c := f.Choice
		if c == nil || f.State != blind.Judged || c.Right != want.right || c.N != want.n || c.Needed != want.needed {
			t.Fatalf("%s: %s %+v", want.evening, f.State, c)
		}
		near(t, want.evening+" p", c.P, want.p, want.pTolerance)
		near(t, want.evening+" share", c.Share, want.share, 0.005)
		near(t, want.evening+" low", c.Reach.Low, want.low, 0.005)
		near(t, want.evening+" high", c.Reach.High, want.high, 0.005)
		near(t, want.evening+" still", c.Upper, want.up, 0.005)
		if f.Says != want.says {
			t.Errorf("%s says %q", want.evening, f.Says)
		}
		if len(c.Dots) != want.n {
			t.Errorf("%s has %d dots", want.evening, len(c.Dots))
		}
	}
}

// TestPlaceAndDistance: 4 of 6, 4 of 6 and 3 of 6 by the place of the odd glass;
// d′ 2.0 from 11 of 18 triangles.
func TestPlaceAndDistance(t *testing.T) {
	c := blind.Of(evening(t, "ferry-brown-2-3"), quantity.Printer{}).Flights[0].Choice
	for i, right := range []int{4, 4, 3} {
		if c.Places[i].Right != right || c.Places[i].Served != 6 {
			t.Errorf("place %d: %+v", i+1, c.Places[i])
		}
	}
	near(t, "d′", *c.Distance, 2.0, 0.05)
}

// TestPreferenceOfItsOwnFlight: 13 to 5 is p 0.096, 47 to 90 %, by the exact
// binomial; the flight of the difference has no preference.
func TestPreferenceOfItsOwnFlight(t *testing.T) {
	v := blind.Of(evening(t, "ferry-brown-2-3"), quantity.Printer{})
	l := v.Flights[1].Liking
	if l == nil || l.For != 13 || l.Against != 5 || l.Shown || l.First != "B" || v.Flights[0].Liking != nil {
		t.Fatalf("%+v", l)
	}
	near(t, "p", l.P, 0.096, 0.0005)
	near(t, "low", l.Reach.Low, 0.47, 0.005)
	near(t, "high", l.Reach.High, 0.90, 0.005)
	if want := "No preference shown: 13:5 for ferry-brown-3 (B) (p 0.096)."; v.Flights[1].Says != want {
		t.Errorf("says %q", v.Flights[1].Says)
	}
}

// TestProfileWithHolm: the six attributes as printed with the evening; only the
// roast stays when all are weighed together.
func TestProfileWithHolm(t *testing.T) {
	f := blind.Of(evening(t, "ferry-brown-profile"), quantity.Printer{}).Flights[0]
	want := []struct {
		from, to, mean, sd, p, holm float64
	}{{5.1, 3.7, -1.4, 1.3, 0.003, 0.02}, {4.2, 5.0, 0.8, 1.5, 0.09, 0.46}, {4.6, 4.1, -0.5, 1.4, 0.24, 0.97}, {4.8, 4.4, -0.4, 1.4, 0.34, 1}, {5.0, 5.2, 0.2, 1.2, 0.58, 1}, {2.9, 3.0, 0.1, 1.1, 0.76, 1}}
	if len(f.Slopes) != len(want) {
		t.Fatalf("%d slopes", len(f.Slopes))
	}
	for i, s := range f.Slopes {
		near(t, s.Attribute+" from", s.From, want[i].from, 0.05)
		near(t, s.Attribute+" to", s.To, want[i].to, 0.05)
		near(t, s.Attribute+" mean", s.Mean, want[i].mean, 0.05)
		near(t, s.Attribute+" sd", s.SD, want[i].sd, 0.05)
		near(t, s.Attribute+" corrected", s.Corrected, want[i].holm, 0.005)
		if s.Shown != (i == 0) || len(s.Threads) != 12 {
			t.Errorf("%s: shown %v, %d threads", s.Attribute, s.Shown, len(s.Threads))
		}
	}
}

// TestSheetsStayOpen: 33 and 37 are near enough, oats are agreed, the roast is a
// conflict and stays one.
func TestSheetsStayOpen(t *testing.T) {
	v := blind.Of(evening(t, "ferry-brown-profile"), quantity.Printer{})
	if len(v.Sheets) != 1 || !v.Sheets[0].Within || len(v.Sheets[0].Totals) != 2 || len(v.Sheets[0].Points) != 2 {
		t.Fatalf("%+v", v.Sheets)
	}
	if oats, roast := v.Sheets[0].Points[0], v.Sheets[0].Points[1]; oats.Accord != "agreed" || oats.Open || !roast.Open {
		t.Errorf("%+v", v.Sheets[0].Points)
	}
}

// TestPlanBeforehand: 18 need 10 and find a half in 89 %, 30 % in 52 %; 14 need 9,
// 69 and 29 %. Exact binomial sums.
func TestPlanBeforehand(t *testing.T) {
	f := &tasting.Flight{Kind: tasting.Triangle, Alpha: quantity.Percent(5), Aim: &tasting.Aim{Share: quantity.Percent(50), Power: quantity.Percent(80)}}
	for _, want := range []struct {
		n, needed   int
		half, third float64
	}{{18, 10, 0.89, 0.52}, {14, 9, 0.69, 0.29}} {
		plan, ok := blind.PlanOf(f, blind.Size{Tasters: want.n}, quantity.Printer{})
		if !ok || plan.Needed != want.needed || len(plan.Powers) != 2 {
			t.Fatalf("%+v", plan)
		}
		near(t, "half", plan.Powers[0].Power, want.half, 0.005)
		near(t, "30 %", plan.Powers[1].Power, want.third, 0.005)
	}
}

// TestSealedShowsNothing: before the key is open there is no count of right
// answers, in words or in JSON.
func TestSealedShowsNothing(t *testing.T) {
	doc := evening(t, "ferry-brown-2-3")
	for i := range doc.Flights {
		doc.Flights[i].Key = nil
	}
	v := blind.Of(doc, quantity.Printer{})
	if f := v.Flights[0]; f.State != blind.Closed || f.Choice != nil || f.Answered != 18 {
		t.Errorf("%+v", f)
	}
	text, err := json.Marshal(v)
	if err != nil || strings.Contains(string(text), `"right"`) {
		t.Errorf("%s %v", text, err)
	}
}

// TestChangedKeyIsVoid changes one code of the opened key.
func TestChangedKeyIsVoid(t *testing.T) {
	doc := evening(t, "ferry-brown-2-3")
	g := doc.Flights[0].Key.Glasses
	g["A"][0], g["B"][0] = g["B"][0], g["A"][0]
	f := blind.Of(doc, quantity.Printer{}).Flights[0]
	if f.State != blind.Voided || !strings.HasPrefix(f.Says, "Void: ") {
		t.Errorf("%s: %s", f.State, f.Says)
	}
}

// TestNoOutcomeSaysTheSame reads all that is said of any count of 14 and 18.
func TestNoOutcomeSaysTheSame(t *testing.T) {
	for _, name := range []string{"ferry-brown-1-2", "ferry-brown-2-3", "ferry-brown-profile", "ferry-brown-3-4-planned"} {
		for _, similar := range []float64{0, 0.3} {
			doc := evening(t, name)
			for i := range doc.Flights {
				doc.Flights[i].Similar = quantity.Fraction(similar)
				if doc.Flights[i].Design != nil {
					doc.Flights[i].Design.Commitment = ""
				}
			}
			v := blind.Of(doc, quantity.Printer{})
			text, err := json.Marshal(v)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range v.Flights {
				for _, s := range append(append([]string{f.Says}, f.More...), f.Warnings...) {
					for _, never := range []string{"the same beer are", "no difference", "proved", "identical", "beers are the same"} {
						if strings.Contains(strings.ToLower(s), never) {
							t.Errorf("%s: %q", name, s)
						}
					}
				}
			}
			if strings.Contains(string(text), "NaN") {
				t.Errorf("%s: %s", name, text)
			}
		}
	}
}
