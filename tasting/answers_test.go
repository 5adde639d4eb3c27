// SPDX-License-Identifier: MIT

package tasting_test

import (
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"gyle/internal/document/documenttest"
	"gyle/tasting"
)

func clock(t testing.TB, text string) tasting.Time {
	t.Helper()
	var at tasting.Time
	if err := at.UnmarshalText([]byte(text)); err != nil {
		t.Fatal(err)
	}
	return at
}

func evening(t testing.TB) *tasting.Tasting {
	t.Helper()
	for _, text := range evenings(t) {
		doc, err := tasting.Parse("evening.yaml", text)
		if err != nil {
			t.Fatal(err)
		}
		if doc.Name == "Ferry Brown, version 2 against 3" {
			return doc
		}
	}
	t.Fatal("there is no evening of version 2 against 3")
	return nil
}

// TestCommit checks the hash: SHA-256 of "abc" as in FIPS 180, and a key of 72
// bytes behind 32 bytes 00 to 1f, computed with Python's hashlib and sha256sum.
func TestCommit(t *testing.T) {
	if got := tasting.Commit(nil, []byte("abc")); got != "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" {
		t.Errorf("SHA-256 of abc is %s", got)
	}
	nonce := make([]byte, tasting.NonceBytes)
	for i := range nonce {
		nonce[i] = byte(i)
	}
	key := []byte(`{"v":1,"trial":"T1","seed":"42","codes":{"A":["527","318"],"B":["964"]}}`)
	if got := tasting.Commit(nonce, key); got != "e3b022fd80e9ff8aada486dfa6186f1ea046c56ff9b78abb4c3f019b7d44a1b9" {
		t.Errorf("the commitment is %s", got)
	}
}

// TestKeyTextIsCanonical checks the text that is hashed, letter by letter.
func TestKeyTextIsCanonical(t *testing.T) {
	doc := evening(t)
	f := &doc.Flights[0]
	f.Serving = f.Serving[:1]
	key := &tasting.Key{Seed: "42", Glasses: map[string][]tasting.Code{"B": {"362"}, "A": {"827", "786"}}}
	want := `{"v":1,"trial":"Ferry Brown, version 2 against 3","flight":"difference","rule":{"kind":"triangle",` +
		`"ask":"Two glasses hold the same beer. Which is the odd one? Guess if you can't tell.","beers":["A","B"],"attribute":"","attributes":null,` +
		`"scale":null,"alpha":"0.05","aim":["0.5","0","0","0.8"],"similar":"0","sides":"","expect":null,"reference":""},"at":"2026-04-19T20:10:00+02:00",` +
		`"seed":"42","serving":[["01","0","","827","786","362"]],"glasses":{"A":["786","827"],"B":["362"]}}`
	if got := string(doc.KeyText(f, key)); got != want {
		t.Errorf("the key text is\n%s\nwant\n%s", got, want)
	}
}

// TestNothingCanBeChangedUnseen changes one thing after the other in a finished
// evening; each must show.
func TestNothingCanBeChangedUnseen(t *testing.T) {
	for name, change := range map[string]func(*tasting.Tasting, *tasting.Flight){
		"alpha":    func(_ *tasting.Tasting, f *tasting.Flight) { f.Alpha = 0.1 },
		"question": func(_ *tasting.Tasting, f *tasting.Flight) { f.Ask = "Which is nicer?" },
		"kind":     func(_ *tasting.Tasting, f *tasting.Flight) { f.Kind = tasting.ThreeAFC },
		"aim":      func(_ *tasting.Tasting, f *tasting.Flight) { f.Aim.Share = 0.9 },
		"sides":    func(_ *tasting.Tasting, f *tasting.Flight) { f.Sides = "one" },
		"seed":     func(_ *tasting.Tasting, f *tasting.Flight) { f.Key.Seed = "1" },
		"nonce":    func(_ *tasting.Tasting, f *tasting.Flight) { f.Key.Nonce = strings.Repeat("00", 32) },
		"date": func(_ *tasting.Tasting, f *tasting.Flight) {
			f.Design.At = tasting.At(f.Design.At.Time.Add(time.Second))
		},
		"name":         func(d *tasting.Tasting, _ *tasting.Flight) { d.Name = "Another evening" },
		"order":        func(_ *tasting.Tasting, f *tasting.Flight) { slices.Reverse(f.Serving[0].Codes) },
		"taster":       func(_ *tasting.Tasting, f *tasting.Flight) { f.Serving[0].Taster = "19" },
		"glass":        func(_ *tasting.Tasting, f *tasting.Flight) { swap(f.Key.Glasses) },
		"answer":       func(_ *tasting.Tasting, f *tasting.Flight) { f.Answers[0].Code = f.Serving[0].Codes[0] },
		"answer gone":  func(_ *tasting.Tasting, f *tasting.Flight) { f.Answers = f.Answers[1:] },
		"answer added": func(_ *tasting.Tasting, f *tasting.Flight) { f.Answers = slices.Insert(f.Answers, 0, f.Answers[3]) },
		"opened early": func(_ *tasting.Tasting, f *tasting.Flight) { f.Key.Opened = f.Design.At },
	} {
		doc := evening(t)
		f := &doc.Flights[0]
		if doc.Verify(f) != tasting.Matches || doc.Voided("difference") {
			t.Fatal("the evening is void before anything is changed")
		}
		change(doc, f)
		if !doc.Voided("difference") {
			t.Errorf("%s: a change isn't seen", name)
		}
		if doc.Voided("liking") && name != "name" {
			t.Errorf("%s: the other flight is void, too", name)
		}
	}
}

func swap(glasses map[string][]tasting.Code) {
	a, b := glasses["A"], glasses["B"]
	a[0], b[0] = b[0], a[0]
}

// TestOpenIsRefused opens too early, and with another key.
func TestOpenIsRefused(t *testing.T) {
	doc := evening(t)
	f := &doc.Flights[0]
	key := f.Key
	at := f.Key.Opened
	f.Key = nil
	if v := doc.Verify(f); v != tasting.StillSealed {
		t.Errorf("without a key it %s", v)
	}
	wrong := *key
	wrong.Glasses = map[string][]tasting.Code{"A": slices.Clone(key.Glasses["A"]), "B": slices.Clone(key.Glasses["B"])}
	swap(wrong.Glasses)
	if err := doc.Open(f, &wrong, at); err == nil || f.Key != nil {
		t.Error("another key is taken")
	}
	answers, closed := f.Answers, f.Closed
	f.Answers, f.Closed = answers[:17], nil
	if err := doc.Open(f, key, at); err == nil || f.Key != nil {
		t.Error("it opens while an answer is missing")
	}
	f.Answers, f.Closed = answers, closed
	if err := doc.Open(f, key, at); err != nil {
		t.Error(err)
	}
	if err := doc.Open(f, key, at); err == nil {
		t.Error("it opens twice")
	}
	if nonce, _ := hex.DecodeString(key.Nonce); tasting.Commit(nonce, doc.KeyText(f, key)) != f.Design.Commitment {
		t.Error("the commitment is not the hash of nonce and text")
	}
}

// TestStanding follows a change of mind, an answer sent later and one too late.
func TestStanding(t *testing.T) {
	at := func(minute int) tasting.Time { return clock(t, fmt.Sprintf("2026-04-21T20:%02d:00Z", minute)) }
	f := &tasting.Flight{
		Kind:    tasting.Triangle,
		Serving: []tasting.Serving{{Taster: "01", Codes: []tasting.Code{"527", "318", "964"}}, {Taster: "02", Codes: []tasting.Code{"249", "573", "186"}}, {Taster: "03", Codes: []tasting.Code{"731", "482", "295"}}},
		Answers: []tasting.Answer{
			{ID: "a", At: at(1), Taster: "01", Code: "527"},
			{ID: "b", At: at(4), Taster: "01", Code: "318", Corrects: "a"},
			{ID: "c", At: at(2), Came: at(8), Taster: "02", Code: "249"},
			{ID: "d", At: at(11), Taster: "01", Code: "964", Corrects: "b"},
			{ID: "e", At: at(3), Came: at(12), Taster: "03", Code: "731"},
		},
	}
	f.Closed = &tasting.Closing{At: at(10), Count: 3, Head: f.Head(3)}
	f.Key = &tasting.Key{Opened: at(11), Glasses: map[string][]tasting.Code{"A": {"527", "964", "249", "573", "731", "482"}, "B": {"318", "186", "295"}}}
	all := f.Standing()
	if len(all) != 2 || all[0].Code != "318" || all[1].Code != "249" {
		t.Fatalf("standing: %+v", all)
	}
	if !all[0].Changed() || all[0].Earlier[0].ID != "a" || len(all[0].TooLate) != 1 || all[0].TooLate[0].ID != "d" {
		t.Errorf("the first assessor: %+v", all[0])
	}
	if all[1].Changed() {
		t.Error("an answer sent later passes for a change of mind")
	}
	if late := f.TooLate(); len(late) != 2 || late[1].ID != "e" {
		t.Errorf("too late: %+v", late)
	}
	if missing := f.Missing(); len(missing) != 1 || missing[0].Taster != "03" {
		t.Errorf("missing: %+v", missing)
	}
	if tally, ok := f.Tally(); !ok || tally.Right != 1 || tally.Answered != 2 || tally.Sets != 3 {
		t.Errorf("tally: %+v", tally)
	}
}

// TestTallyOfEveryKind counts one right and one wrong answer of each kind.
func TestTallyOfEveryKind(t *testing.T) {
	key := &tasting.Key{Glasses: map[string][]tasting.Code{"A": {"111", "112", "113"}, "B": {"221", "222"}}}
	for _, row := range []struct {
		flight       tasting.Flight
		serving      tasting.Serving
		right, wrong tasting.Answer
	}{
		{tasting.Flight{Kind: tasting.Triangle}, tasting.Serving{Codes: []tasting.Code{"111", "221", "112"}}, tasting.Answer{Code: "221"}, tasting.Answer{Code: "112"}},
		{tasting.Flight{Kind: tasting.DuoTrio}, tasting.Serving{Reference: "113", Codes: []tasting.Code{"221", "112"}}, tasting.Answer{Code: "112"}, tasting.Answer{Code: "221"}},
		{tasting.Flight{Kind: tasting.TwoAFC, Expect: []string{"A", "B"}}, tasting.Serving{Codes: []tasting.Code{"221", "112"}}, tasting.Answer{Code: "221"}, tasting.Answer{Code: "112"}},
		{tasting.Flight{Kind: tasting.ThreeAFC, Expect: []string{"B", "A"}}, tasting.Serving{Codes: []tasting.Code{"221", "112", "222"}}, tasting.Answer{Code: "112"}, tasting.Answer{Code: "222"}},
		{tasting.Flight{Kind: tasting.Tetrad}, tasting.Serving{Codes: []tasting.Code{"221", "112", "222", "111"}}, tasting.Answer{Codes: []tasting.Code{"111", "112"}}, tasting.Answer{Codes: []tasting.Code{"111", "221"}}},
		{tasting.Flight{Kind: tasting.ANotA, Reference: "B"}, tasting.Serving{Codes: []tasting.Code{"221", "112"}}, tasting.Answer{Code: "112", Says: "not a"}, tasting.Answer{Code: "221", Says: "not a"}},
	} {
		row.serving.Taster, row.right.Taster, row.wrong.Taster = "01", "01", "01"
		f := row.flight
		f.Key, f.Serving, f.Answers = key, []tasting.Serving{row.serving}, []tasting.Answer{row.right}
		if tally, _ := f.Tally(); tally.Right != 1 || tally.Answered != 1 {
			t.Errorf("%s, right: %+v", f.Kind, tally)
		}
		f.Answers = []tasting.Answer{row.wrong}
		if tally, _ := f.Tally(); tally.Right != 0 || tally.Answered != 1 {
			t.Errorf("%s, wrong: %+v", f.Kind, tally)
		}
	}
}

func TestOrders(t *testing.T) {
	f := &tasting.Flight{
		Kind:    tasting.Ranking,
		Serving: []tasting.Serving{{Taster: "01", Codes: []tasting.Code{"111", "221", "331"}}, {Taster: "02", Codes: []tasting.Code{"332", "112"}}},
		Key:     &tasting.Key{Glasses: map[string][]tasting.Code{"A": {"111", "112"}, "B": {"221"}, "C": {"331", "332"}}},
		Answers: []tasting.Answer{{Taster: "01", Codes: []tasting.Code{"331", "111", "221"}}, {Taster: "02", Codes: []tasting.Code{"112", "332"}}},
	}
	tasters, ranks := f.Orders([]string{"A", "B", "C"})
	if got := fmt.Sprint(tasters, ranks); got != "[01 02] [[2 3 1] [1 0 2]]" {
		t.Errorf("orders: %s", got)
	}
}

func TestCodes(t *testing.T) {
	good := 0
	for n := 100; n < 1000; n++ {
		if tasting.Code(fmt.Sprint(n)).Misread() == "" {
			good++
		}
	}
	// 504 codes of three different digits without 0, less 14 runs.
	if good != 490 {
		t.Errorf("%d codes are easily read, want 490", good)
	}
	if tasting.Code("187").Ominous() == "" || tasting.Code("527").Ominous() != "" {
		t.Error("ominous codes are not known, or too many")
	}
	if n := tasting.Code("527").Apart("572"); n != 2 {
		t.Errorf("527 and 572 differ in %d places", n)
	}
}

// TestTimesBackAgain writes and reads any time and any day.
func TestTimesBackAgain(t *testing.T) {
	documenttest.BackAgain(t, rapid.Custom(func(t *rapid.T) tasting.Time {
		zone := time.FixedZone("", 60*rapid.IntRange(-14*60, 14*60).Draw(t, "minutes"))
		return tasting.At(time.UnixMilli(rapid.Int64Range(0, 4e12).Draw(t, "ms")).In(zone))
	}))
	documenttest.BackAgain(t, rapid.Map(rapid.IntRange(1, 3_000_000), func(days int) tasting.Date {
		return tasting.Date{Time: time.Date(1, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, days)}
	}))
}

// TestTake takes answers one by one, as telephones send them.
func TestTake(t *testing.T) {
	finished := evening(t)
	doc := evening(t)
	f := &doc.Flights[0]
	f.Answers, f.Closed, f.Key = nil, nil, nil
	for _, a := range finished.Flights[0].Answers {
		if err := doc.Take(f, a); err != nil {
			t.Fatal(err)
		}
	}
	again := f.Answers[3]
	again.Came = clock(t, "2026-04-21T21:00:00Z")
	if err := doc.Take(f, again); !errors.Is(err, tasting.ErrAgain) {
		t.Errorf("the same answer again: %v", err)
	}
	late := clock(t, "2026-04-21T21:00:00Z")
	for name, a := range map[string]tasting.Answer{
		"second answer": {ID: "x", At: late, Taster: "01", Code: "786"},
		"other's glass": {ID: "x", At: late, Taster: "01", Code: "715", Corrects: "d01"},
		"other's name":  {ID: "x", At: late, Taster: "02", Code: "786", Corrects: "d02"},
		"same id":       {ID: "d01", At: late, Taster: "01", Code: "786", Corrects: "d01"},
		"stranger":      {ID: "x", At: late, Taster: "99", Code: "786"},
		"before design": {ID: "x", At: clock(t, "2026-04-01T20:00:00Z"), Came: late, Taster: "01", Code: "786", Corrects: "d01"},
	} {
		if err := doc.Take(f, a); err == nil || len(f.Answers) != 18 {
			t.Errorf("%s is taken", name)
		}
	}
	if err := doc.Take(f, tasting.Answer{ID: "x", At: late, Taster: "01", Code: "786", Corrects: "d01", Why: "thought again"}); err != nil || len(f.Answers) != 19 {
		t.Errorf("a correction: %v", err)
	}
}

// TestBallotShowsNothing searches every ballot for the codes and answers of
// others, and for the key.
func TestBallotShowsNothing(t *testing.T) {
	doc := evening(t)
	for i := range doc.Flights {
		f := &doc.Flights[i]
		for _, own := range f.Serving {
			ballot, ok := doc.Ballot(f, own.Taster)
			if !ok || len(ballot.Answered) != 1 {
				t.Fatalf("no ballot for %s, or without the answer", own.Taster)
			}
			shown := fmt.Sprintf("%+v", ballot)
			for _, other := range f.Serving {
				for _, code := range other.Codes {
					if own.Taster != other.Taster && strings.Contains(strings.ReplaceAll(shown, ballot.Commitment, ""), string(code)) {
						t.Errorf("the ballot of %s shows glass %s of %s", own.Taster, code, other.Taster)
					}
				}
			}
			for _, secret := range []string{f.Key.Seed, f.Key.Nonce, "ferry-brown"} {
				if strings.Contains(shown, secret) {
					t.Errorf("the ballot of %s shows %s", own.Taster, secret)
				}
			}
		}
	}
	if _, ok := doc.Ballot(&doc.Flights[0], "99"); ok {
		t.Error("a stranger has a ballot")
	}
}
