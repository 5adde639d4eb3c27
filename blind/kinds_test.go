// SPDX-License-Identifier: MIT

package blind_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"gyle/blind"
	"gyle/quantity"
	"gyle/tasting"
)

// served serves trays, a word of letters each, and gives each set to the answer
// of a taster. Its key is open and was never sealed.
func served(f tasting.Flight, trays []string, say func(i int, s tasting.Serving) []tasting.Answer) *tasting.Tasting {
	begin := time.Date(2026, 4, 21, 19, 0, 0, 0, time.UTC)
	t := &tasting.Tasting{Name: "evening", Question: "What can be told?"}
	f.Name, f.Alpha = "question", quantity.Percent(5)
	f.Design = &tasting.Design{At: tasting.At(begin)}
	f.Key = &tasting.Key{Opened: tasting.At(begin.Add(3 * time.Hour)), Glasses: map[string][]tasting.Code{}}
	for i, tray := range trays {
		s := tasting.Serving{Taster: fmt.Sprintf("%02d", i+1)}
		if f.Kind == tasting.Preference && f.Look == nil && strings.Contains(tray, " ") {
			s.Taster, tray, _ = strings.Cut(tray, " ")
			s.Set = i + 1
		}
		for _, letter := range tray {
			code := tasting.Code(fmt.Sprint(100 + 10*i + len(s.Codes)))
			s.Codes = append(s.Codes, code)
			f.Key.Glasses[string(letter)] = append(f.Key.Glasses[string(letter)], code)
		}
		f.Serving = append(f.Serving, s)
		for j, a := range say(i, s) {
			a.ID, a.Taster, a.Set = fmt.Sprintf("%d.%d", i, j), s.Taster, s.Set
			a.At = tasting.At(begin.Add(time.Duration(i+1) * time.Minute))
			f.Answers = append(f.Answers, a)
		}
	}
	f.Close(tasting.At(begin.Add(2 * time.Hour)))
	for _, letter := range []string{"A", "B", "C", "D", "E", "F", "G"} {
		if len(f.Key.Glasses[letter]) > 0 {
			t.Beers = append(t.Beers, tasting.Beer{Letter: letter, Name: "beer"})
		}
	}
	t.Flights = []tasting.Flight{f}
	return t
}

func verdictOf(t *testing.T, doc *tasting.Tasting) blind.Flight {
	t.Helper()
	f := blind.Of(doc, quantity.Printer{}).Flights[0]
	if f.State != blind.Judged {
		t.Fatalf("%s: %s", f.State, f.Says)
	}
	if text := strings.ToLower(f.Says + strings.Join(f.More, " ")); strings.Contains(text, "the same") || strings.Contains(text, "no difference") {
		t.Errorf("it claims too much: %s", text)
	}
	return f
}

// ranked are the orders of eight tasters as ranks of A to D: a worked example,
// computed in R (friedman.test) and by enumeration. The chance of Page is by
// enumeration, 13.27 is from R's qtukey.
var ranked = []string{"1234", "1324", "2134", "1243", "1423", "2143", "1234", "3124"}

func orderOf(ranks string) func(s tasting.Serving) []tasting.Answer {
	return func(s tasting.Serving) []tasting.Answer {
		codes := make([]tasting.Code, len(ranks))
		for beer, rank := range ranks {
			codes[rank-'1'] = s.Codes[beer]
		}
		return []tasting.Answer{{Codes: codes}}
	}
}

func TestRankingVerdict(t *testing.T) {
	flight := tasting.Flight{Kind: tasting.Ranking, Attribute: "liking"}
	trays := strings.Split(strings.Repeat("ABCD ", len(ranked)), " ")[:len(ranked)]
	say := func(i int, s tasting.Serving) []tasting.Answer { return orderOf(ranked[i])(s) }
	f := verdictOf(t, served(flight, trays, say))
	near(t, "p, Friedman exact", f.Ranking.P, 0.002337, 5e-7)
	near(t, "least difference", f.Ranking.Least, 13.266, 5e-4)
	near(t, "Kendall’s W", f.Ranking.Agreement, 0.53125, 1e-9)
	shown := ""
	for _, pair := range f.Ranking.Pairs {
		if pair.Shown {
			shown += pair.First + pair.Second
		}
	}
	if shown != "AD" || !strings.HasPrefix(f.Says, "Difference shown") || !strings.Contains(strings.Join(f.More, " "), "Shown: A before D") {
		t.Errorf("pairs %q: %s %v", shown, f.Says, f.More)
	}
	flight.Expect = []string{"D", "C", "B", "A"} // from least to most; most stands first
	f = verdictOf(t, served(flight, trays, say))
	near(t, "p, Page exact", f.Ranking.P, 8.086e-5, 5e-8)
	if !f.Ranking.Expected || !strings.HasPrefix(f.Says, "The expected order is shown") {
		t.Error(f.Says)
	}
	flight.Expect = []string{"A", "B", "C", "D"}
	if f = verdictOf(t, served(flight, trays, say)); f.Ranking.P < 0.99 {
		t.Errorf("the order turned round: %s", f.Says)
	}
}

// Seven beers in blocks of three: Durbin's T 9.4286, exact chance 0.14043 (computed by
// enumeration); with an assessor less it is judged all the same.
func TestRankingOfSome(t *testing.T) {
	flight := tasting.Flight{Kind: tasting.Ranking, Attribute: "roast"}
	trays := []string{"ABD", "BCE", "CDF", "DEG", "EFA", "FGB", "GAC"}
	ranks := []string{"123", "123", "213", "123", "132", "231", "312"}
	say := func(i int, s tasting.Serving) []tasting.Answer { return orderOf(ranks[i])(s) }
	f := verdictOf(t, served(flight, trays, say))
	near(t, "p, Durbin exact", f.Ranking.P, 0.14043, 5e-6)
	if !strings.HasPrefix(f.Says, "Not shown") {
		t.Error(f.Says)
	}
	f = verdictOf(t, served(flight, trays, func(i int, s tasting.Serving) []tasting.Answer {
		if i == 6 {
			return nil
		}
		return say(i, s)
	}))
	if f.Ranking == nil || f.Ranking.Method != "9999 shuffles" || f.Ranking.Times[0] != 2 {
		t.Errorf("%s %+v", f.Says, f.Ranking)
	}
	var many []string
	for i := range 5 * len(trays) {
		many = append(many, trays[i%7])
	}
	f = verdictOf(t, served(flight, many, func(i int, s tasting.Serving) []tasting.Answer { // always by the letter
		sorted := []byte(many[i])
		ranks := make([]byte, 3)
		for a, x := range sorted {
			ranks[a] = '1'
			for _, y := range sorted {
				if y < x {
					ranks[a]++
				}
			}
		}
		return orderOf(string(ranks))(s)
	}))
	if !strings.HasPrefix(f.Says, "Difference shown") || !strings.Contains(strings.Join(f.More, " "), "A before G") || !strings.Contains(strings.Join(f.More, " "), "Order not shown between A and B") {
		t.Errorf("%s %v", f.Says, f.More)
	}
}

// Nine tasters call the learnt beer A and the other not, two the other way round:
// McNemar's exact one-sided chance is 0.03271 (R: binom.test(9, 11)).
func TestRecognitionVerdict(t *testing.T) {
	flight := tasting.Flight{Kind: tasting.ANotA, Reference: "A"}
	trays := strings.Split(strings.Repeat("AB ", 14), " ")[:14]
	say := func(i int, s tasting.Serving) []tasting.Answer {
		words := [2]string{"a", "not a"}
		switch {
		case i >= 9 && i < 11:
			words = [2]string{"not a", "a"}
		case i >= 11:
			words = [2]string{"a", "a"}
		}
		return []tasting.Answer{{Code: s.Codes[0], Says: words[0]}, {Code: s.Codes[1], Says: words[1]}}
	}
	f := verdictOf(t, served(flight, trays, say))
	near(t, "p", f.Recognition.P, 0.03271, 5e-6)
	if f.Recognition.Outcome != "difference shown" || f.Recognition.Hits != 12 || f.Recognition.FalseAlarms != 5 || !strings.HasPrefix(f.Says, "Difference shown") {
		t.Errorf("%s %+v", f.Says, f.Recognition)
	}
	// 20 of 24 against 12 of 24, a glass for each taster: Fisher 0.015238 (R).
	trays = nil
	for i := range 48 {
		trays = append(trays, string("AB"[i%2]))
	}
	f = verdictOf(t, served(flight, trays, func(i int, s tasting.Serving) []tasting.Answer {
		says := "not a"
		if i%2 == 0 && i/2 < 20 || i%2 == 1 && i/2 < 12 {
			says = "a"
		}
		return []tasting.Answer{{Code: s.Codes[0], Says: says}}
	}))
	near(t, "Fisher", f.Recognition.P, 0.015238, 5e-7)
	near(t, "d′", f.Recognition.Distance, 0.96742, 5e-6)
}

// 4 for the one, 5 for none, 11 for the other: sign test 0.11847, d′ 0.684 from
// −0.043 to 1.427 (computed in R: binom.test, and the general package for such tests).
func TestNoPreference(t *testing.T) {
	trays := strings.Split(strings.Repeat("AB ", 20), " ")[:20]
	f := verdictOf(t, served(tasting.Flight{Kind: tasting.Preference}, trays, func(i int, s tasting.Serving) []tasting.Answer {
		switch {
		case i < 4:
			return []tasting.Answer{{Code: s.Codes[0]}}
		case i < 9:
			return []tasting.Answer{{Says: "none"}}
		}
		return []tasting.Answer{{Code: s.Codes[1]}}
	}))
	near(t, "p", f.Liking.P, 0.11847, 5e-6)
	near(t, "d′", f.Liking.Apart.Distance, 0.684, 5e-4)
	near(t, "its upper end", f.Liking.Apart.Reach.High, 1.427, 5e-4)
}

// Three voices of each of eight tasters are eight voices.
func TestOneVoiceEach(t *testing.T) {
	var trays []string
	for i := range 24 {
		trays = append(trays, fmt.Sprintf("%02d AB", i/3+1))
	}
	f := verdictOf(t, served(tasting.Flight{Kind: tasting.Preference, Forced: true}, trays, func(i int, s tasting.Serving) []tasting.Answer {
		return []tasting.Answer{{Code: s.Codes[oneOf(i%3 != 2 && i < 21)]}} // seven name B twice of three times, one A
	}))
	if f.Liking.For != 7 || f.Liking.Against != 1 || f.Liking.First != "B" || len(f.Warnings) == 0 {
		t.Errorf("%s %+v %v", f.Says, f.Liking, f.Warnings)
	}
	near(t, "p of 7:1", f.Liking.P, 0.0703125, 1e-9) // 2·(8+1)/256
}

func oneOf(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// A triangle with a look: nine of twelve end it; nine of all 24 show nothing, and
// what wasn't poured counts against a difference. Alpha of the plan is 0.0298 (computed).
func TestTwoStages(t *testing.T) {
	flight := tasting.Flight{Kind: tasting.Triangle, Look: &tasting.Look{After: 12, Stop: 9, Needed: 13}}
	trays := strings.Split(strings.Repeat("AAB ", 24), " ")[:24]
	play := func(right, of int) blind.Flight {
		return verdictOf(t, served(flight, trays, func(i int, s tasting.Serving) []tasting.Answer {
			if i >= of {
				return nil
			}
			return []tasting.Answer{{Code: s.Codes[2*oneOf(i < right)]}}
		}))
	}
	f := play(9, 12)
	if !f.Choice.Look.Early || f.Choice.Outcome != "difference shown" || !strings.Contains(strings.Join(f.More, " "), "3.0 % of evenings") {
		t.Errorf("%s %v", f.Says, f.More)
	}
	if f = play(8, 24); f.Choice.Outcome != "not conclusive" || f.Choice.Look.Early || f.Choice.P < 0.05 {
		t.Errorf("%s", f.Says)
	}
	if f = play(8, 20); f.Choice.Outcome != "not conclusive" {
		t.Errorf("four sets are missing: %s", f.Says)
	}
	look, found := blind.LookFor(&flight, 12, 24)
	plan, _ := blind.PlanOf(&flight, blind.Size{Tasters: 24, Stages: 12}, quantity.Printer{})
	if !found || look.After != 12 || plan.Actual > 0.05 || !strings.Contains(plan.Says, "Two stages") {
		t.Errorf("%+v %v %s", look, found, plan.Says)
	}
	near(t, "true risk", plan.Actual, 0.0298, 5e-5)
}

// What the pourer hears at the look: to stop or to go on, and nothing else.
func TestAtLook(t *testing.T) {
	flight := tasting.Flight{Kind: tasting.Triangle, Look: &tasting.Look{After: 12, Stop: 9, Needed: 13}}
	trays := strings.Split(strings.Repeat("AAB ", 24), " ")[:24]
	for _, test := range []struct {
		right, answered int
		says            string
		ready           bool
	}{{9, 12, "nothing more needs to be poured", true}, {8, 12, "pour the second stage", true}, {5, 10, "2 of them aren't answered", false}} {
		doc := served(flight, trays, func(i int, s tasting.Serving) []tasting.Answer {
			if i >= test.answered {
				return nil
			}
			return []tasting.Answer{{Code: s.Codes[2*oneOf(i < test.right)]}}
		})
		f := &doc.Flights[0]
		key := f.Key
		f.Key, f.Closed = nil, nil
		if says, ready := blind.AtLook(doc, f, key); !strings.Contains(says, test.says) || ready != test.ready || f.Key != nil {
			t.Errorf("%+v: %q %v", test, says, ready)
		}
	}
}

// What a panel can find is told before any glass, for every kind but the profile.
func TestPlansOfAllKinds(t *testing.T) {
	for kind, want := range map[tasting.Method]string{
		tasting.Ranking: "rank sums lie", tasting.ANotA: "learns the first beer by name", tasting.Triangle: "right answers are needed", tasting.Preference: "voices for one beer",
	} {
		f := tasting.Flight{Kind: kind, Alpha: quantity.Percent(5)}
		plan, ok := blind.PlanOf(&f, blind.Size{Tasters: 12, Beers: 4}, quantity.Printer{})
		if !ok || !strings.Contains(plan.Says, want) {
			t.Errorf("%s: %v %s", kind, ok, plan.Says)
		}
	}
	f := tasting.Flight{Kind: tasting.Ranking}
	plan, _ := blind.PlanOf(&f, blind.Size{Tasters: 12, Beers: 6, Glasses: 3}, quantity.Printer{})
	if !strings.Contains(plan.Says, "In every 10 sets each beer stands 5 times and each pair meets 2 times. 12 sets don’t fill the plan: take 10 or 20") {
		t.Error(plan.Says)
	}
	f = tasting.Flight{Kind: tasting.Triangle, Alpha: quantity.Percent(5)}
	plan, _ = blind.PlanOf(&f, blind.Size{Tasters: 12, Sets: 2}, quantity.Printer{})
	if plan.Needed != 13 || !strings.Contains(plan.Says, "24 answers of 12 tasters") {
		t.Error(plan.Says)
	}
}
