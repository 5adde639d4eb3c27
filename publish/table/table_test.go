// SPDX-License-Identifier: MIT

package table

import (
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/tasting"
)

// read reads a table as another program does.
func read(t *testing.T, table Table, pr quantity.Printer) [][]string {
	t.Helper()
	r := csv.NewReader(strings.NewReader(string(table.CSV(pr))))
	if pr.DecimalComma {
		r.Comma = ';'
	}
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func number(t *testing.T, cell string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(strings.Replace(cell, ",", ".", 1), 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func planned(t *testing.T) *plan.Plan {
	t.Helper()
	p, err := plan.Make(plan.Input{Recipe: examplestest.Load(t, "ferry-brown-3", recipe.Parse), House: examplestest.Load(t, "garage", brewhouse.Parse), Stock: examplestest.Load(t, "garage-shed", stock.Parse)})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The columns of the grist add up, in the units of the reader. A pound is
// 0.45359237 kg by definition.
func TestGristAddsUp(t *testing.T) {
	p := planned(t)
	for _, c := range []struct {
		pr   quantity.Printer
		head string
		kg   float64
	}{{quantity.Printer{}, "mass kg", 1}, {quantity.Printer{System: quantity.USCustomary, DecimalComma: true}, "mass lb", 0.45359237}} {
		rows := read(t, Grist(p, c.pr), c.pr)
		if rows[0][3] != c.head {
			t.Errorf("the head is %q", rows[0])
		}
		mass, share := 0.0, 0.0
		for _, row := range rows[1:] {
			mass += number(t, row[3]) * c.kg
			if row[4] != "" {
				share += number(t, row[4])
			}
		}
		if math.Abs(mass-float64(p.Grist.Mass)) > 0.005 || math.Abs(share-100) > 0.05 {
			t.Errorf("%s: %.3f kg and %.2f %%, the plan has %.3f kg", c.head, mass, share, float64(p.Grist.Mass))
		}
	}
	ibu := 0.0
	for _, row := range read(t, Hops(p, quantity.Printer{}), quantity.Printer{})[1:] {
		if row[6] != "" {
			ibu += number(t, row[6])
		}
	}
	if f, _ := p.Find(quantity.Bitterness); math.Abs(ibu-f.Value) > 0.1 {
		t.Errorf("the charges give %.1f IBU, the plan %.1f", ibu, f.Value)
	}
	day, err := Day(p, quantity.Printer{})
	if err != nil || len(day.Rows) < 10 {
		t.Errorf("the day has %d tasks: %v", len(day.Rows), err)
	}
	for i, row := range day.Rows[1:] {
		if number(t, row[0]) < number(t, day.Rows[i][0]) {
			t.Errorf("%s comes before %s", row[1], day.Rows[i][1])
		}
	}
}

// The readings that were written are read back by the log of another gyle.
func TestReadingsComeBack(t *testing.T) {
	g := examplestest.Load(t, "gyle-17", gyle.Parse)
	for _, pr := range []quantity.Printer{{}, {DecimalComma: true}} {
		want := Readings(g, pr)
		if len(want.Rows) < 10 || len(want.Head) < 3 {
			t.Fatalf("%d rows of %v", len(want.Rows), want.Head)
		}
		empty := *g
		empty.Log = nil
		found, err := empty.ReadLogger(string(want.CSV(pr)), gyle.LoggerFile{Name: "readings.csv"})
		if err != nil {
			t.Fatal(err)
		}
		for i := range found.Series {
			empty.Log = append(empty.Log, gyle.Entry{ID: gyle.ID("x" + strconv.Itoa(i)), Series: &found.Series[i]})
		}
		got := Readings(&empty, pr)
		if a, b := string(got.CSV(pr)), string(want.CSV(pr)); a != b {
			t.Errorf("read back:\n%s\nwritten:\n%s", a, b)
		}
	}
}

// A text that a spreadsheet would compute stays a text; numbers stay numbers.
func TestNothingIsComputed(t *testing.T) {
	rows := read(t, Table{Head: []string{"a"}, Rows: [][]string{{"=1+1"}, {"-1.4"}, {"@x"}, {"+49 40 x"}, {"a;\"b\"\nc"}}}, quantity.Printer{})
	for i, want := range []string{"a", "'=1+1", "-1.4", "'@x", "'+49 40 x", "a;\"b\"\nc"} {
		if rows[i][0] != want {
			t.Errorf("%q, want %q", rows[i][0], want)
		}
	}
}

// Answers name no beer while the key is sealed.
func TestAnswersKeepTheKey(t *testing.T) {
	d := examplestest.Load(t, "tasting-2-3", tasting.Parse)
	right := 0
	for _, row := range read(t, Answers(d, quantity.Printer{}), quantity.Printer{})[1:] {
		if row[6] != "" {
			right++
		}
	}
	for i := range d.Flights {
		d.Flights[i].Key = nil
	}
	for _, row := range read(t, Answers(d, quantity.Printer{}), quantity.Printer{})[1:] {
		if row[6] != "" {
			t.Errorf("a sealed key names beer %s", row[6])
		}
	}
	if right == 0 {
		t.Error("an open key names no beer")
	}
}
