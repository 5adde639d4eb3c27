// SPDX-License-Identifier: MIT

package gyle

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"gyle/internal/document"
)

// LoggerFile says how the table of an instrument is to be read where the table
// itself doesn't say it.
type LoggerFile struct {
	Name string // of the file, for faults
	// Columns says what each column is, in words: "time", "gravity SG",
	// "temperature °C", "-" for one that isn't wanted; see [LoggerMeanings]. With
	// none, or an empty word, the head of the column tells.
	Columns []string
	Dates   string         // DayFirst or MonthFirst, where 3/7/2026 can be both
	Zone    *time.Location // of times that name none; nil: [Gyle.Zone]
	Since   Time           // of times that count from a beginning; zero: the pitching
	With    string         // the instrument
	At      Place          // empty: the fermenter
	// LeaveOut reads what can be read and lists the lines that can't.
	LeaveOut bool
}

// How dates with slashes are written.
const (
	DayFirst   = "day first"
	MonthFirst = "month first"
)

// LoggerRead is what a table says, ready for the log.
type LoggerRead struct {
	Series  []Series // what is new, in the order of time; several where one would be too long
	Columns []LoggerColumn
	Rows    int      // of the table
	New     int      // rows with something that the log has not
	LeftOut []string // lines that couldn't be read
}

// LoggerColumn is one column of a table and how it was understood.
type LoggerColumn struct {
	Head    string
	Example string // its first value
	Means   string // one of [LoggerMeanings]; empty: it can't be told
}

// LoggerQuestion is a table whose columns don't say what they are.
type LoggerQuestion struct {
	Columns []LoggerColumn
	Msg     string
	Dates   bool // it is asked whether day or month stands first
}

func (q *LoggerQuestion) Error() string { return q.Msg }

// The most that one entry holds, so that a book takes it.
const (
	longestSeries = 1000
	widestSeries  = 40_000 // bytes
)

// ReadLogger reads the table of an instrument: comma, semicolon, tab or bar
// between the columns, decimal point or comma, a line of heads or none. Readings
// that the log has already are left out, so that the same table may be read
// again when it has grown. The error is document.Faults with their lines, or a
// [LoggerQuestion].
func (g *Gyle) ReadLogger(text string, f LoggerFile) (LoggerRead, error) {
	if f.Zone == nil {
		f.Zone = g.Zone()
	}
	if f.At == "" {
		f.At = AtFermenter
	}
	if f.Since.IsZero() {
		f.Since = g.pitchedAt()
	}
	t, err := newLoggerTable(text, f)
	if err != nil {
		return LoggerRead{}, err
	}
	if err := t.understand(); err != nil {
		return LoggerRead{}, err
	}
	rows := t.read()
	read := LoggerRead{Columns: t.columns, Rows: len(t.records)}
	if len(t.faults) > 0 {
		if !f.LeaveOut || len(rows) == 0 {
			return read, t.faults
		}
		for _, fault := range t.faults {
			read.LeftOut = append(read.LeftOut, fmt.Sprintf("line %d: %s", fault.Line, fault.Msg))
		}
	}
	slices.SortStableFunc(rows, func(a, b loggerRow) int { return a.when.Compare(b.when.Time) })
	rows = g.unknown(rows, t.series)
	read.New = len(rows)
	read.Series = t.runs(rows)
	return read, nil
}

// pitchedAt is when the yeast went in; zero where the log doesn't say it.
func (g *Gyle) pitchedAt() Time {
	for _, e := range g.Log.Standing() {
		if e.Deed != nil && e.Deed.Do == Pitched {
			return e.When()
		}
	}
	return Time{}
}

// loggerTable is a table on its way to rows.
type loggerTable struct {
	file     LoggerFile
	lines    []string
	heads    []string
	records  []loggerRecord
	columns  []LoggerColumn
	series   []Column // those that are readings
	places   []int    // where those stand in a record
	times    loggerTimes
	faults   document.Faults
	tooMany  bool
	numbered bool // the heads are numbers of columns: the table has none
}

// loggerRecord is a line of the table.
type loggerRecord struct {
	cells []string
	at    [][2]int // line and column of each cell
}

// loggerRow is a line that was understood: its time and what stands in each of
// the columns of readings, "-" for nothing.
type loggerRow struct {
	when  Time
	cells []string
}

func newLoggerTable(text string, f LoggerFile) (*loggerTable, error) {
	text = strings.TrimPrefix(strings.ReplaceAll(text, "\r\n", "\n"), "\ufeff")
	t := &loggerTable{file: f, lines: strings.Split(text, "\n")}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord, r.TrimLeadingSpace = delimiterOf(t.lines), true, -1, true
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, document.Faults{{File: f.Name, Line: 1, Col: 1, Msg: "this is no table: " + err.Error(), Hint: "paste the lines with their heads, as the instrument wrote them"}}
		}
		record := loggerRecord{cells: cells}
		for i := range cells {
			line, column := r.FieldPos(i)
			cells[i] = strings.TrimSpace(cells[i])
			record.at = append(record.at, [2]int{line, t.characters(line, column)})
		}
		if len(cells) > 1 || cells[0] != "" {
			t.records = append(t.records, record)
		}
	}
	if len(t.records) == 0 {
		return nil, document.Faults{{File: f.Name, Line: 1, Col: 1, Msg: "there is nothing in it", Hint: "paste the lines with their heads, as the instrument wrote them"}}
	}
	if len(t.records[0].cells) < 2 {
		return nil, document.Faults{t.fault(t.records[0], 0, "the line has only one column", "put a comma, a semicolon or a tab between time, gravity and temperature")}
	}
	t.behead()
	return t, nil
}

// characters turns a column in bytes into one in characters.
func (t *loggerTable) characters(line, column int) int {
	if line < 1 || line > len(t.lines) || column < 1 || column-1 > len(t.lines[line-1]) {
		return column
	}
	return utf8.RuneCountInString(t.lines[line-1][:column-1]) + 1
}

// delimiterOf finds what stands between the columns: of tab, semicolon, bar and
// comma the first that is in each of the first lines equally often.
func delimiterOf(lines []string) rune {
	const looked = 20
	for _, delimiter := range []rune{'\t', ';', '|'} {
		count, same := 0, true
		for i, line := range lines {
			if strings.TrimSpace(line) == "" {
				continue
			}
			n := strings.Count(line, string(delimiter))
			if same = n > 0 && (count == 0 || n == count); !same || i > looked {
				break
			}
			count = n
		}
		if same && count > 0 {
			return delimiter
		}
	}
	return ','
}

// behead takes the line of heads off; a first line that holds numbers is none.
func (t *loggerTable) behead() {
	first := t.records[0].cells
	for _, cell := range first {
		if bareNumber.MatchString(cell) {
			t.numbered = true
		}
	}
	if !t.numbered {
		t.heads, t.records = first, t.records[1:]
		return
	}
	for i := range first {
		t.heads = append(t.heads, fmt.Sprintf("column %d", i+1))
	}
}

// fault is a fault at a cell.
func (t *loggerTable) fault(r loggerRecord, cell int, msg, hint string) document.Fault {
	at := r.at[min(cell, len(r.at)-1)]
	f := document.Fault{File: t.file.Name, Line: at[0], Col: at[1], Msg: msg, Hint: hint, Width: 1}
	if cell < len(r.cells) {
		f.Width = max(1, utf8.RuneCountInString(r.cells[cell]))
	}
	if at[0] <= len(t.lines) {
		f.Context = t.lines[at[0]-1 : at[0]]
	}
	return f
}

// mostFaults is how many faults of a table are told one by one.
const mostFaults = 20

// complain notes a fault of a cell.
func (t *loggerTable) complain(r loggerRecord, cell int, msg, hint string) {
	if !t.file.LeaveOut && len(t.faults) >= mostFaults {
		t.tooMany = true
		return
	}
	t.faults = append(t.faults, t.fault(r, cell, msg, hint))
}

// read understands all lines and complains of those that it can't.
func (t *loggerTable) read() (rows []loggerRow) {
	const leave = "mend the line, or empty the cell where nothing was read"
	for _, r := range t.records {
		if len(r.cells) != len(t.heads) {
			t.complain(r, 0, fmt.Sprintf("the line has %d columns, and the first has %d", len(r.cells), len(t.heads)), leave)
			continue
		}
		when, cell, err := t.when(r)
		if err != nil {
			t.complain(r, cell, err.Error(), leave)
			continue
		}
		row, sound := loggerRow{when: when}, true
		for i, place := range t.places {
			value := bareCell(r.cells[place], t.series[i])
			if value != "-" {
				if _, ok := t.series[i].measured(value); !ok {
					t.complain(r, place, fmt.Sprintf("“%s” is no %s", r.cells[place], t.series[i]), leave)
					sound = false
				}
			}
			row.cells = append(row.cells, value)
		}
		if sound && slices.ContainsFunc(row.cells, func(c string) bool { return c != "-" }) {
			rows = append(rows, row)
		}
	}
	if t.tooMany {
		last := &t.faults[len(t.faults)-1]
		last.Hint = "there are more; " + leave
	}
	return rows
}

// nothing are the ways in which instruments write that they read nothing.
var nothing = []string{"", "-", "–", "--", "nan", "null", "none", "n/a", "na"}

// bareCell takes the unit off a value.
func bareCell(cell string, c Column) string {
	if slices.Contains(nothing, strings.ToLower(cell)) {
		return "-"
	}
	unit := strings.TrimPrefix(c.Unit, "°")
	for _, u := range []string{c.Unit, unit, "°" + strings.ToLower(unit), strings.ToLower(unit)} {
		if rest, found := strings.CutSuffix(cell, u); found && u != "" {
			return strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(rest), "°"))
		}
	}
	return cell
}

// loggerKey is one reading, to be known again.
type loggerKey struct {
	second int64
	of     Of
	value  float64
}

func keyOf(when Time, of Of, value float64) loggerKey {
	return loggerKey{when.Unix(), of, math.Round(value*1e6) / 1e6}
}

// unknown leaves out what the log has, and what stands in the table twice.
func (g *Gyle) unknown(rows []loggerRow, columns []Column) []loggerRow {
	known := map[loggerKey]bool{}
	for _, e := range g.Log.Standing() {
		switch {
		case e.Series != nil:
			for _, sample := range e.Series.Samples() {
				for i, value := range sample.Values {
					if !math.IsNaN(value) {
						known[keyOf(sample.When, e.Series.Columns[i].Of, value)] = true
					}
				}
			}
		case e.Reading != nil && e.Reading.At == AtFermenter:
			if m, err := e.Reading.Measured(); err == nil {
				known[keyOf(e.When(), m.Of, m.Value)] = true
			}
		}
	}
	var left []loggerRow
	for _, row := range rows {
		some := false
		for i, cell := range row.cells {
			if cell == "-" {
				continue
			}
			value, _ := columns[i].measured(cell)
			key := keyOf(row.when, columns[i].Of, value)
			if known[key] {
				row.cells[i] = "-"
				continue
			}
			known[key], some = true, true
		}
		if some {
			left = append(left, row)
		}
	}
	return left
}

// runs writes rows down as series that a book takes.
func (t *loggerTable) runs(rows []loggerRow) (all []Series) {
	var b strings.Builder
	n := 0
	flush := func() {
		if n > 0 {
			all = append(all, Series{At: t.file.At, With: t.file.With, Columns: t.series, Rows: strings.TrimSuffix(b.String(), "\n")})
		}
		b.Reset()
		n = 0
	}
	for _, row := range rows {
		if n >= longestSeries || b.Len() >= widestSeries {
			flush()
		}
		b.WriteString(row.when.Format(time.RFC3339))
		for _, cell := range row.cells {
			b.WriteString(" " + cell)
		}
		b.WriteString("\n")
		n++
	}
	flush()
	return all
}
