// SPDX-License-Identifier: MIT

package gyle

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"gyle/internal/document"
)

var loggerZone = time.FixedZone("", 3600)

// readTable reads a table for a gyle that was pitched on 7 March at noon.
func readTable(g *Gyle, text string, f LoggerFile) (LoggerRead, error) {
	f.Name, f.Zone = "table.csv", loggerZone
	return g.ReadLogger(text, f)
}

func pitched() *Gyle {
	at := At(time.Date(2026, 3, 7, 12, 0, 0, 0, loggerZone))
	return &Gyle{Name: "x", Log: Log{{ID: "p", Time: at, Deed: &Deed{Do: Pitched, Cells: 182}}}}
}

// The same three readings, in the ways in which people and instruments write
// tables. What each must come to is common practice of writing numbers.
func TestReadLogger(t *testing.T) {
	const want = "2026-03-07T12:15:00+01:00 1.0486 18.2\n2026-03-07T12:30:00+01:00 1.0485 18.3\n2026-03-08T12:15:00+01:00 1.0447 18.6"
	for name, test := range map[string]struct {
		text string
		file LoggerFile
		want string
	}{
		"comma and point":   {"Time,Gravity,Temp (°C),Battery\n2026-03-07 12:15,1.0486,18.2,3.9\n2026-03-07 12:30,1.0485,18.3,3.9\n2026-03-08 12:15,1.0447,18.6,3.9\n", LoggerFile{}, want},
		"newest first":      {"Time,SG,Temp C\n2026-03-08T12:15:00+01:00,1.0447,18.6\n2026-03-07T12:30:00+01:00,1.0485,18.3\n2026-03-07T12:15:00+01:00,1.0486,18.2", LoggerFile{}, want},
		"decimal comma":     {"\ufeffdate;time;gravity (SG);temperature (C)\r\n7.3.2026;12:15;1,0486;18,2\r\n7.3.2026;12:30;1,0485;18,3\r\n8.3.2026;12:15;1,0447;18,6\r\n", LoggerFile{}, strings.NewReplacer(" 1.", " 1,", "18.", "18,").Replace(want)},
		"tabs, no heads":    {"2026-03-07 12:15\t1.0486\t18.2\n2026-03-07 12:30\t1.0485\t18.3\n2026-03-08 12:15\t1.0447\t18.6\n", LoggerFile{Columns: []string{"time", "gravity sg", "temperature c"}}, want},
		"hours, points":     {"hours|gravity|temp °C\n0.25|1048.6|18.2\n0.5|1048.5|18.3\n24.25|1044.7|18.6\n", LoggerFile{}, strings.NewReplacer("1.0486", "1048.6", "1.0485", "1048.5", "1.0447", "1044.7").Replace(want)},
		"seconds of 1970":   {"timestamp,gravity,temperature [C]\n1772882100,1.0486,18.2\n1772883000,1.0485,18.3\n1772968500,1.0447,18.6\n", LoggerFile{}, want},
		"a gap":             {"time,gravity,temp C\n2026-03-07 12:15,1.0486,\n2026-03-07 12:30,nan,18.3\n2026-03-07 12:45,,\n", LoggerFile{}, "2026-03-07T12:15:00+01:00 1.0486 -\n2026-03-07T12:30:00+01:00 - 18.3"},
		"units in cells":    {"time,gravity,temperature\n2026-03-07 12:15,1.0486 SG,18.2 °C\n", LoggerFile{}, "2026-03-07T12:15:00+01:00 1.0486 18.2"},
		"slashes told":      {"time,SG\n3/7/26 12:15 PM,1.0486\n3/13/26 12:15 AM,1.0485\n", LoggerFile{}, "2026-03-07T12:15:00+01:00 1.0486\n2026-03-13T00:15:00+01:00 1.0485"},
		"slashes asked":     {"time,SG\n3/7/2026 12:15,1.0486\n", LoggerFile{Dates: DayFirst}, "2026-07-03T12:15:00+01:00 1.0486"},
		"Plato, Fahrenheit": {"time,extract (°P),beer temp (F)\n2026-03-07 12:15,12.05,64.8\n", LoggerFile{}, "2026-03-07T12:15:00+01:00 12.05 64.8"},
		"written twice":     {"time,gravity\n2026-03-07 12:15,1.0486\n2026-03-07 12:15,1.0486\n", LoggerFile{}, "2026-03-07T12:15:00+01:00 1.0486"},
	} {
		read, err := readTable(pitched(), test.text, test.file)
		if err != nil || len(read.Series) != 1 {
			t.Errorf("%s: %v, %+v", name, err, read)
			continue
		}
		if got := read.Series[0].Rows; got != test.want {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, test.want)
		}
	}
}

// What can't be told from the table is asked, and what is wrong has its place.
func TestReadLoggerRefuses(t *testing.T) {
	for name, test := range map[string]struct{ text, want string }{
		"no heads":        {"2026-03-07 12:15,1.0486,18.2\n", "say what each column is"},
		"no unit":         {"time,gravity,temperature\n2026-03-07 12:15,1.0486,18.2\n", "say what each column is"},
		"Brix of what":    {"time,Brix\n2026-03-07 12:15,12.4\n", "say what each column is"},
		"scale of what":   {"time,gravity\n2026-03-07 12:15,12.4\n", "say what each column is"},
		"no time":         {"gravity,battery\n1.0486,3.9\n", "which column is the time"},
		"nothing read":    {"time,battery\n2026-03-07 12:15,3.9\n", "which column is the gravity"},
		"two temperature": {"time,temp C,temp 2 C\n2026-03-07 12:15,18,19\n", "two columns hold a temperature"},
		"slashes":         {"time,SG\n3/7/2026 12:15,1.0486\n", "day or with the month first"},
		"not a number":    {"time,gravity\n2026-03-07 12:15,1.0486\n2026-03-07 12:30,err\n", "table.csv:3:18: “err” is no gravity SG"},
		"no gravity":      {"time,gravity SG\n2026-03-07 12:15,1.48\n", "table.csv:2:18: “1.48” is no gravity SG"},
		"no time there":   {"time,gravity\nsoon,1.0486\n", "table.csv:2:1: “soon” is no time"},
		"ragged":          {"time,gravity\n2026-03-07 12:15,1.0486,18\n", "table.csv:2:1: the line has 3 columns, and the first has 2"},
		"no table":        {"hello\n", "only one column"},
		"nothing":         {"\n\n", "there is nothing in it"},
	} {
		read, err := readTable(pitched(), test.text, LoggerFile{})
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want %q (%+v)", name, err, test.want, read)
		}
	}
	if _, err := readTable(new(Gyle), "hours,gravity\n1,1.0486\n", LoggerFile{}); err == nil || !strings.Contains(err.Error(), "when the yeast was pitched") {
		t.Errorf("hours since nothing: %v", err)
	}
	// The good lines alone, where that is wished; the others are listed.
	read, err := readTable(pitched(), "time,gravity\n2026-03-07 12:15,1.0486\n2026-03-07 12:30,err\n", LoggerFile{LeaveOut: true})
	if err != nil || read.New != 1 || len(read.LeftOut) != 1 || !strings.HasPrefix(read.LeftOut[0], "line 3: ") {
		t.Errorf("left out: %v, %+v", err, read)
	}
	var faults document.Faults
	var many strings.Builder
	many.WriteString("time,gravity SG\n")
	for range 500 {
		many.WriteString("2026-03-07 12:15,oops\n")
	}
	if _, err := readTable(pitched(), many.String(), LoggerFile{}); !errors.As(err, &faults) || len(faults) != mostFaults {
		t.Errorf("%d faults of 500 bad lines", len(faults))
	}
}

// A table that has grown is pasted again: what the log has stays once, whether
// it came in a table or was typed.
func TestReadLoggerTwice(t *testing.T) {
	g := pitched()
	var table strings.Builder
	table.WriteString("time,gravity,temp C\n")
	for i := range 2500 {
		when := time.Date(2026, 3, 7, 12, 0, 0, 0, loggerZone).Add(time.Duration(i) * 15 * time.Minute)
		fmt.Fprintf(&table, "%s,%.4f,18.%d\n", when.Format(time.DateTime), 1.0486-float64(i)*1e-5, i%10)
		if i != 1999 {
			continue
		}
		read, err := readTable(g, table.String(), LoggerFile{})
		if err != nil || read.New != 2000 || len(read.Series) < 2 {
			t.Fatalf("%v: %d new in %d entries", err, read.New, len(read.Series))
		}
		for n := range read.Series {
			g.Log = append(g.Log, Entry{ID: ID(fmt.Sprint("s", n)), Time: At(when), Series: &read.Series[n]})
		}
	}
	read, err := readTable(g, table.String(), LoggerFile{})
	if err != nil || read.New != 500 || read.Rows != 2500 {
		t.Fatalf("pasted again: %v, %d new of %d", err, read.New, read.Rows)
	}
	// The document says it again and again in the same words.
	text, err := g.Text()
	if err != nil {
		t.Fatal(err)
	}
	again, err := Parse("g.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	if back, _ := again.Text(); string(back) != string(text) {
		t.Error("the text of a series changes by being read")
	}
	typed := pitched()
	typed.Log = append(typed.Log, Entry{ID: "r", Time: At(time.Date(2026, 3, 7, 12, 15, 0, 0, loggerZone)), Reading: &Reading{Of: OfGravity, Value: "1.0486", At: AtFermenter}})
	if read, err := readTable(typed, "time,gravity\n2026-03-07 12:15,1.0486\n", LoggerFile{}); err != nil || read.New != 0 || len(read.Series) != 0 {
		t.Errorf("typed before: %v, %+v", err, read)
	}
}

func TestSeriesSays(t *testing.T) {
	s := Series{Columns: []Column{{OfGravity, "SG"}, {OfTemperature, "°F"}}, Rows: "2026-03-07T12:15:00+01:00 1.0486 64.8\n2026-03-19T12:15:00+01:00 1,0126 70"}
	const want = "2 readings, 7 Mar 12:15 to 19 Mar 12:15: gravity 1.0486 → 1,0126 SG, temperature 64.8..70 °F"
	if got := (Entry{Series: &s}).Words(); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	samples := s.Samples()
	if len(samples) != 2 || samples[1].Values[0] != 1.0126 || samples[0].Values[1] < 18.2 || samples[0].Values[1] > 18.3 {
		t.Errorf("%+v", samples)
	}
	s.Rows += "\nlater 1.0125 70"
	if _, err := s.samples(); err == nil {
		t.Error("a row without a time is taken")
	}
}

func FuzzReadLogger(f *testing.F) {
	f.Add("time,gravity,temp C\n2026-03-07 12:15,1.0486,18.2\n")
	f.Add("date;time;gravity (SG)\n7.3.2026;12:15;1,0486\n")
	f.Add("\"a\"\"b\",c\n1,2\n")
	f.Fuzz(func(t *testing.T, text string) {
		read, err := readTable(pitched(), text, LoggerFile{LeaveOut: true})
		if err != nil {
			return
		}
		for _, s := range read.Series {
			if _, err := s.samples(); err != nil {
				t.Fatalf("a series was made that can't be read: %v\n%s", err, s.Rows)
			}
		}
	})
}

// A fermentation of 5 000 readings, as a log opens with it.
func BenchmarkSeries(b *testing.B) {
	g := pitched()
	var table strings.Builder
	table.WriteString("time,gravity,temp C\n")
	for i := range 5000 {
		when := time.Date(2026, 3, 7, 12, 0, 0, 0, loggerZone).Add(time.Duration(i) * 5 * time.Minute)
		fmt.Fprintf(&table, "%s,%.4f,18.%d\n", when.Format(time.DateTime), 1.0486-float64(i)*1e-5, i%10)
	}
	read, err := readTable(g, table.String(), LoggerFile{})
	if err != nil {
		b.Fatal(err)
	}
	for n := range read.Series {
		g.Log = append(g.Log, Entry{ID: ID(fmt.Sprint("s", n)), Time: read.Series[n].Samples()[0].When, Series: &read.Series[n]})
	}
	text, err := g.Text()
	if err != nil {
		b.Fatal(err)
	}
	b.Run("paste", func(b *testing.B) {
		for b.Loop() {
			readTable(pitched(), table.String(), LoggerFile{})
		}
	})
	b.Run("open", func(b *testing.B) {
		for b.Loop() {
			if _, err := Parse("g.yaml", text); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("words", func(b *testing.B) {
		for b.Loop() {
			for _, e := range g.Log {
				e.Words()
			}
		}
	})
}
