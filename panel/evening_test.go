// SPDX-License-Identifier: MIT

package panel_test

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"gyle/internal/document"
	"gyle/panel"
	"gyle/quantity"
	"gyle/science/sensory"
	"gyle/tasting"
)

var update = flag.Bool("update", false, "write the documents of the evenings anew")

// The evenings of the demo: planned, answered, closed and opened here, and kept
// as documents in the folder of package tasting. The answers are those of the
// fictional Saltpan Lane Brewing Circle.
const evenings = "../tasting/testdata/evenings"

// compareEvening compares an evening with its document.
func compareEvening(t *testing.T, name string, doc *tasting.Tasting) {
	t.Helper()
	got, err := doc.Text()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(evenings, name)
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs from the evening that is played here; run with -update and look at the difference\n%s", file, got)
	}
	if _, err := tasting.Parse(name, got); err != nil {
		t.Error(err)
	}
}

func clock(t *testing.T, text string) tasting.Time {
	t.Helper()
	var at tasting.Time
	if err := at.UnmarshalText([]byte(text)); err != nil {
		t.Fatal(err)
	}
	return at
}

func day(t *testing.T, text string) tasting.Date {
	t.Helper()
	var d tasting.Date
	if err := d.UnmarshalText([]byte(text)); err != nil {
		t.Fatal(err)
	}
	return d
}

func after(at tasting.Time, minutes int) tasting.Time {
	return tasting.At(at.Time.Add(time.Duration(minutes) * time.Minute))
}

func pointer[T any](x T) *T { return &x }

// nonceOf makes a nonce for a document that must not change; a real one comes
// from the system's random numbers.
func nonceOf(text string) [tasting.NonceBytes]byte { return sha256.Sum256([]byte(text)) }

func numbered(n int) (panel []tasting.Assessor, ids []string) {
	for i := range n {
		id := fmt.Sprintf("%02d", i+1)
		panel, ids = append(panel, tasting.Assessor{ID: id, OfAge: true}), append(ids, id)
	}
	return panel, ids
}

func conditions() tasting.Conditions {
	return tasting.Conditions{
		Sample: pointer(quantity.Millilitres(50)), Temperature: quantity.Celsius(12), Glass: "black", Masked: "colour, haze and foam",
		Pour: "both beers poured in one go, served within 5 min", Palate: "water at room temperature, plain bread", Room: "club room, windows open before",
		Pourer: "A. Quillmark", Server: "the treasurer",
	}
}

// played is one row of an evening: order, glass named as odd, beer preferred.
type played struct {
	order     string
	odd       int
	preferred string
}

var threeAgainstTwo = []played{
	{"AAB", 3, "B"}, {"ABA", 2, "B"}, {"BAA", 1, "A"}, {"ABB", 1, "B"}, {"BAB", 2, "B"}, {"BBA", 1, "B"},
	{"AAB", 2, "A"}, {"ABA", 2, "B"}, {"BAA", 3, "B"}, {"ABB", 1, "A"}, {"BAB", 1, "B"}, {"BBA", 3, "B"},
	{"AAB", 3, "B"}, {"ABA", 1, "B"}, {"BAA", 1, "A"}, {"ABB", 2, "A"}, {"BAB", 2, "B"}, {"BBA", 2, "B"},
}

// TestVersionThreeAgainstTwo plays a triangle of 18 and a preference in a
// flight of its own.
func TestVersionThreeAgainstTwo(t *testing.T) {
	members, ids := numbered(18)
	doc := &tasting.Tasting{
		Name: "Ferry Brown, version 2 against 3", Host: "Saltpan Lane Brewing Circle", Date: day(t, "2026-04-21"),
		Question: "Does the panel notice chocolate malt that goes in for the last 15 min only?",
		Beers: []tasting.Beer{
			{Letter: "A", Recipe: "ferry-brown-2", ABV: pointer(quantity.Percent(4.8)), CO2: pointer(quantity.Carbonation(2.2)), Packed: day(t, "2026-03-15"), Kept: quantity.Celsius(12), Note: "brewed again as the reference"},
			{Letter: "B", Recipe: "ferry-brown-3", Gyle: "garage-v3", ABV: pointer(quantity.Percent(4.8)), CO2: pointer(quantity.Carbonation(2.2)), Packed: day(t, "2026-03-16"), Kept: quantity.Celsius(12)},
		},
		Change: "chocolate malt into the last 15 min", Expect: "less sharp, same colour", Conditions: conditions(), Panel: members,
		Flights: []tasting.Flight{
			{Name: "difference", Kind: tasting.Triangle, Ask: "Two glasses hold the same beer. Which is the odd one? Guess if you can't tell.", Alpha: quantity.Percent(5), Aim: &tasting.Aim{Share: quantity.Percent(50), Power: quantity.Percent(80)}},
			{Name: "liking", Kind: tasting.Preference, Ask: "Which of the two would you rather drink a pint of?", Alpha: quantity.Percent(5), Sides: "two"},
		},
	}
	designed := clock(t, "2026-04-19T20:10:00+02:00")
	wish := panel.Wish{Tasters: ids, Seed: 20260419, InTurn: true, Nonce: nonceOf("Saltpan Lane, April, flight one")}
	keys := make([]*tasting.Key, 2)
	for i := range doc.Flights {
		var err error
		if keys[i], err = panel.Plan(doc, &doc.Flights[i], wish, designed); err != nil {
			t.Fatal(err)
		}
		wish.Seed, wish.Nonce = 20260420, nonceOf("Saltpan Lane, April, flight two")
	}
	triangle, liking := &doc.Flights[0], &doc.Flights[1]
	start := clock(t, "2026-04-21T19:42:00+02:00")
	var sentLater []tasting.Answer
	for i, row := range threeAgainstTwo {
		if got := keys[0].Pattern(triangle.Serving[i]); got != row.order {
			t.Errorf("assessor %s is served %s, not %s", ids[i], got, row.order)
		}
		answer := tasting.Answer{ID: fmt.Sprintf("d%02d", i+1), At: after(start, i/3), Taster: ids[i], Code: triangle.Serving[i].Codes[row.odd-1]}
		if i == 11 {
			answer.Came = after(start, 7) // the phone of 12 had no network for a while
			sentLater = append(sentLater, answer)
			continue
		}
		triangle.Answers = append(triangle.Answers, answer)
	}
	triangle.Answers = append(triangle.Answers, sentLater...)
	start = clock(t, "2026-04-21T20:15:00+02:00")
	for i, row := range threeAgainstTwo {
		glasses := liking.Serving[i].Codes
		code := glasses[0]
		if keys[1].BeerOf(code) != row.preferred {
			code = glasses[1]
		}
		liking.Answers = append(liking.Answers, tasting.Answer{ID: fmt.Sprintf("p%02d", i+1), At: after(start, i/3), Taster: ids[i], Code: code})
	}
	finish(t, doc, keys, clock(t, "2026-04-21T20:40:00+02:00"))
	compareEvening(t, "ferry-brown-2-3.yaml", doc)

	tally, _ := triangle.Tally()
	if tally.Right != 11 || tally.Answered != 18 || fmt.Sprint(tally.RightIn) != "[4 4 3]" {
		t.Errorf("%d right of %d, by place %v", tally.Right, tally.Answered, tally.RightIn)
	}
	preferred, _ := liking.Tally()
	if preferred.For["A"] != 5 || preferred.For["B"] != 13 {
		t.Errorf("preferred: %v", preferred.For)
	}
	remade, err := panel.Same(doc, triangle, panel.Wish{Tasters: ids, InTurn: true})
	if err != nil || !remade {
		t.Errorf("the seed doesn't make the plan again (%v)", err)
	}
}

// finish closes and opens all flights, and checks that nothing stands against
// them but what every evening of single batches has.
func finish(t *testing.T, doc *tasting.Tasting, keys []*tasting.Key, at tasting.Time) {
	t.Helper()
	for i := range doc.Flights {
		f := &doc.Flights[i]
		f.Close(at)
		if err := doc.Open(f, keys[i], after(at, 5)); err != nil {
			t.Fatal(err)
		}
		if v := doc.Verify(f); v != tasting.Matches {
			t.Errorf("flight %s: the key %s", f.Name, v)
		}
		if doc.Voided(f.Name) {
			t.Errorf("flight %s is void: %+v", f.Name, doc.Remarks())
		}
	}
}

// TestVersionTwoAgainstOne plays a triangle of 14: 6 right.
func TestVersionTwoAgainstOne(t *testing.T) {
	members, ids := numbered(14)
	doc := &tasting.Tasting{
		Name: "Ferry Brown, version 1 against 2", Host: "Saltpan Lane Brewing Circle", Date: day(t, "2026-02-17"),
		Question: "Does the panel notice 12 % of oats instead of 8 %?",
		Beers: []tasting.Beer{
			{Letter: "A", Recipe: "ferry-brown-1", ABV: pointer(quantity.Percent(4.8)), CO2: pointer(quantity.Carbonation(2.2)), Packed: day(t, "2026-01-12")},
			{Letter: "B", Recipe: "ferry-brown-2", ABV: pointer(quantity.Percent(4.8)), CO2: pointer(quantity.Carbonation(2.2)), Packed: day(t, "2026-01-12")},
		},
		Change: "oats 8 to 12 %", Expect: "fuller", Conditions: conditions(), Panel: members,
		Flights: []tasting.Flight{{Name: "difference", Kind: tasting.Triangle, Ask: "Two glasses hold the same beer. Which is the odd one? Guess if you can't tell.", Alpha: quantity.Percent(5), Aim: &tasting.Aim{Share: quantity.Percent(50), Power: quantity.Percent(80)}}},
	}
	f := &doc.Flights[0]
	key, err := panel.Plan(doc, f, panel.Wish{Tasters: ids, Seed: 20260215, Nonce: nonceOf("Saltpan Lane, February")}, clock(t, "2026-02-15T18:00:00+01:00"))
	if err != nil {
		t.Fatal(err)
	}
	start := clock(t, "2026-02-17T19:50:00+01:00")
	right := map[int]bool{0: true, 3: true, 4: true, 8: true, 11: true, 13: true}
	for i, s := range f.Serving {
		place := key.Odd(s) - 1
		if !right[i] {
			place = (place + 1 + i%2) % 3
		}
		f.Answers = append(f.Answers, tasting.Answer{ID: fmt.Sprintf("d%02d", i+1), At: after(start, i/2), Taster: ids[i], Code: s.Codes[place]})
	}
	// 05 thinks again before the end: the first answer stays in sight.
	first := f.Answers[4]
	f.Answers[4].Code = f.Serving[4].Codes[(key.Odd(f.Serving[4]))%3]
	first.ID, first.At, first.Corrects, first.Why = "d15", after(start, 8), "d05", "tasted again"
	f.Answers = append(f.Answers, first)
	finish(t, doc, []*tasting.Key{key}, clock(t, "2026-02-17T20:10:00+01:00"))
	compareEvening(t, "ferry-brown-1-2.yaml", doc)
	if tally, _ := f.Tally(); tally.Right != 6 || tally.Answered != 14 {
		t.Errorf("%d right of %d", tally.Right, tally.Answered)
	}
}

// TestVersionFourAgainstThree plans an evening that is still to come: the
// document has the commitment and not the key.
func TestVersionFourAgainstThree(t *testing.T) {
	members, ids := numbered(24)
	for i := range members {
		members[i].OfAge = false // asked at the door
	}
	doc := &tasting.Tasting{
		Name: "Ferry Brown, version 3 against 4", Host: "Saltpan Lane Brewing Circle", Date: day(t, "2026-06-16"),
		Question: "Does the late hop at 80 °C taste of currant?",
		Beers: []tasting.Beer{
			{Letter: "A", Recipe: "ferry-brown-3", Split: "May wort", Packed: day(t, "2026-05-23")},
			{Letter: "B", Recipe: "ferry-brown-4", Split: "May wort", Packed: day(t, "2026-05-23")},
		},
		Change: "Bramling Cross at 80 °C for 20 min, not at 10 min of boil", Expect: "more currant", Conditions: conditions(), Panel: members,
		Flights: []tasting.Flight{
			{Name: "currant", Kind: tasting.TwoAFC, Attribute: "blackcurrant", Ask: "Which of the two tastes more of blackcurrant?", Alpha: quantity.Percent(5), Sides: "one", Expect: []string{"A", "B"}, Aim: &tasting.Aim{DPrime: 1, Power: quantity.Percent(80)}},
			{Name: "groups", Kind: tasting.Tetrad, Ask: "Sort the four into two groups of two.", Alpha: quantity.Percent(5), Aim: &tasting.Aim{Share: quantity.Percent(30), Power: quantity.Percent(80)}},
		},
	}
	for i := range doc.Flights {
		key, err := panel.Plan(doc, &doc.Flights[i], panel.Wish{Tasters: ids, Seed: 20260614 + uint64(i), Nonce: nonceOf(doc.Flights[i].Name)}, clock(t, "2026-06-14T21:00:00+02:00"))
		if err != nil {
			t.Fatal(err)
		}
		if i == 0 && fmt.Sprint(panel.Balance(&doc.Flights[0], key).Orders) != "map[AB:12 BA:12]" {
			t.Errorf("orders of the pairs: %v", panel.Balance(&doc.Flights[0], key).Orders)
		}
	}
	compareEvening(t, "ferry-brown-3-4-planned.yaml", doc)
	text, _ := doc.Text()
	if bytes.Contains(text, []byte("glasses")) || bytes.Contains(text, []byte("seed")) || bytes.Contains(text, []byte("nonce")) {
		t.Error("the sealed document shows the key")
	}
	if found, err := tasting.Advise("planned.yaml", text, tasting.Doubt); err != nil || len(found) > 0 {
		t.Errorf("doubts about the plan: %v %v", found, err)
	}
}

// scoresOfTwelve are the scores of twelve trained members for six attributes, a
// line for each attribute: version 2, then version 3.
var scoresOfTwelve = []struct {
	name       string
	two, three []float64
	mean, sd   float64 // of the differences, and what is printed of them
	p, holm    float64
}{
	{"roast sharpness", []float64{5.9, 4.9, 3.9, 3.0, 6.1, 6.9, 6.5, 4.3, 5.3, 5.4, 5.9, 3.4}, []float64{5.7, 2.4, 4.2, 1.0, 3.3, 6.2, 2.6, 4.0, 3.1, 4.3, 4.7, 3.1}, -1.4, 1.3, 0.003, 0.02},
	{"nut and toffee", []float64{3.4, 4.0, 2.9, 4.4, 4.4, 4.3, 3.6, 3.7, 5.7, 4.7, 3.9, 5.2}, []float64{4.4, 2.2, 3.8, 4.9, 5.2, 6.8, 6.2, 2.2, 8.3, 6.2, 3.7, 5.6}, 0.8, 1.5, 0.09, 0.46},
	{"bitterness", []float64{5.4, 3.5, 5.7, 3.6, 6.2, 4.9, 5.8, 2.8, 4.8, 3.9, 4.6, 3.7}, []float64{6.5, 2.0, 4.8, 1.1, 5.4, 6.2, 3.9, 3.9, 4.4, 2.2, 6.2, 2.2}, -0.5, 1.4, 0.24, 0.97},
	{"cocoa", []float64{6.3, 4.0, 4.2, 4.9, 4.5, 2.6, 7.3, 3.1, 7.2, 4.8, 3.5, 5.1}, []float64{5.7, 2.6, 2.9, 4.2, 6.8, 4.2, 6.0, 1.1, 5.7, 6.3, 2.9, 4.3}, -0.4, 1.4, 0.34, 1},
	{"fullness", []float64{5.4, 5.3, 4.3, 4.1, 6.7, 3.9, 5.5, 5.8, 3.4, 4.3, 5.3, 5.9}, []float64{5.3, 4.5, 5.2, 5.7, 7.3, 5.0, 5.5, 5.6, 2.8, 6.6, 3.3, 5.4}, 0.2, 1.2, 0.58, 1},
	{"fruit", []float64{4.0, 2.7, 3.5, 1.6, 3.0, 1.9, 3.2, 1.3, 2.7, 4.9, 3.1, 2.8}, []float64{2.4, 3.1, 3.4, 0.9, 3.2, 3.8, 4.8, 2.1, 3.4, 3.6, 3.3, 1.9}, 0.1, 1.1, 0.76, 1},
}

// TestProfileOfTwelveMembers plays a profile, reads it back from the document
// and compares the two versions with Holm's correction.
func TestProfileOfTwelveMembers(t *testing.T) {
	members, ids := numbered(12)
	for i := range members {
		members[i].Trained = true
	}
	flight := tasting.Flight{Name: "profile", Kind: tasting.Profile, Ask: "How much of each, on the line from 0 to 9?", Scale: &tasting.Scale{From: 0, To: 9}, Alpha: quantity.Percent(5)}
	for _, a := range scoresOfTwelve {
		flight.Attributes = append(flight.Attributes, a.name)
	}
	doc := &tasting.Tasting{
		Name: "Ferry Brown, profile of versions 2 and 3", Host: "Saltpan Lane Brewing Circle", Date: day(t, "2026-04-28"),
		Question: "In which attributes do versions 2 and 3 differ?",
		Beers: []tasting.Beer{
			{Letter: "A", Recipe: "ferry-brown-2", CO2: pointer(quantity.Carbonation(2.2)), Packed: day(t, "2026-03-15")},
			{Letter: "B", Recipe: "ferry-brown-3", Gyle: "garage-v3", CO2: pointer(quantity.Carbonation(2.2)), Packed: day(t, "2026-03-16")},
		},
		Change: "chocolate malt into the last 15 min", Expect: "less sharp, same colour", Conditions: conditions(), Panel: members,
		Flights: []tasting.Flight{flight}, Sheets: sheetsOfThree(t),
	}
	f := &doc.Flights[0]
	key, err := panel.Plan(doc, f, panel.Wish{Tasters: ids, Seed: 20260426, Nonce: nonceOf("Saltpan Lane, the profile")}, clock(t, "2026-04-26T17:30:00+02:00"))
	if err != nil {
		t.Fatal(err)
	}
	start := clock(t, "2026-04-28T19:40:00+02:00")
	for place := range 2 {
		for i, s := range f.Serving {
			answer := tasting.Answer{ID: fmt.Sprintf("s%02d%c", i+1, 'a'+place), At: after(start, 12*place+i/4), Taster: s.Taster, Code: s.Codes[place]}
			for _, a := range scoresOfTwelve {
				scores := a.two
				if key.BeerOf(answer.Code) == "B" {
					scores = a.three
				}
				answer.Scores = append(answer.Scores, document.Entry[float64]{Key: a.name, Value: scores[i]})
			}
			f.Answers = append(f.Answers, answer)
		}
	}
	finish(t, doc, []*tasting.Key{key}, clock(t, "2026-04-28T20:10:00+02:00"))
	compareEvening(t, "ferry-brown-profile.yaml", doc)
	compareWithPrinted(t, f)
}

// compareWithPrinted compares the analysis with the printed figures: means and
// deviations in their digits, p to the digits shown.
func compareWithPrinted(t *testing.T, f *tasting.Flight) {
	t.Helper()
	var pairs []sensory.AttributePair
	for _, a := range scoresOfTwelve {
		_, rows := f.ScoresOf(a.name, []string{"A", "B"})
		pair := sensory.AttributePair{Name: a.name}
		for _, row := range rows {
			pair.Parent, pair.Child = append(pair.Parent, row[0]), append(pair.Child, row[1])
		}
		pairs = append(pairs, pair)
	}
	for i, change := range sensory.CompareProfiles(pairs) {
		want := scoresOfTwelve[i]
		digits := 0.005
		if want.p < 0.01 {
			digits = 0.0005
		}
		if change.N != 12 || math.Abs(change.Mean-want.mean) > 0.05 || math.Abs(change.SD-want.sd) > 0.05 {
			t.Errorf("%s: mean %.3f, SD %.3f of %d, want %g and %g of 12", change.Name, change.Mean, change.SD, change.N, want.mean, want.sd)
		}
		if math.Abs(change.P-want.p) > digits || math.Abs(change.Corrected-want.holm) > 0.005 {
			t.Errorf("%s: p %.5f, corrected %.4f, want %g and %g", change.Name, change.P, change.Corrected, want.p, want.holm)
		}
		if (change.FlipsCorrected < 0.05) != (i == 0) {
			t.Errorf("%s: by sign flips %.4f, corrected %.4f", change.Name, change.Flip, change.FlipsCorrected)
		}
	}
}

func sheetsOfThree(t *testing.T) []tasting.Sheet {
	return []tasting.Sheet{
		{Judge: "judge 1", Beer: "B", At: clock(t, "2026-05-16T11:20:00+02:00"), Place: 3, Age: quantity.Days(61), Total: pointer(33.0), Of: 50,
			Points:  []tasting.Point{{Attribute: "oats", Says: "right", Words: "oats, smooth"}, {Attribute: "roast", Says: "too much", Words: "roast a touch high"}},
			Comment: "a clean brown ale"},
		{Judge: "judge 2", Beer: "B", At: clock(t, "2026-05-16T11:25:00+02:00"), Place: 3, Age: quantity.Days(61), Total: pointer(37.0), Of: 50,
			Points: []tasting.Point{{Attribute: "oats", Says: "right", Words: "smooth oats"}, {Attribute: "roast", Says: "too little", Words: "could take more roast"}}},
	}
}

// TestSheetsKeepConflicts reads the score sheets: 33 and 37 agree, the roast
// stays open.
func TestSheetsKeepConflicts(t *testing.T) {
	doc := &tasting.Tasting{Sheets: sheetsOfThree(t)}
	attributes, says := doc.Said("B")
	opinions := map[string]sensory.Opinion{"too little": sensory.TooLittle, "right": sensory.Right, "too much": sensory.TooMuch}
	got := ""
	for _, a := range attributes {
		var all []sensory.Opinion
		for _, s := range says[a] {
			all = append(all, opinions[s.Says])
		}
		got += a + " " + sensory.AccordOf(all).String() + "; "
	}
	if got != "oats agreed; roast conflict; " {
		t.Errorf("the sheets say: %s", got)
	}
}
