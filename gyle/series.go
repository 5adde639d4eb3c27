// SPDX-License-Identifier: MIT

package gyle

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"gyle/quantity"
)

// Series is a run of readings that an instrument took by itself, in one entry
// of the log. The rows are kept as they were read: each is a time with its zone,
// then a value for each column with the digits it came with, or "-" where there
// was none.
//
//	2026-03-07T12:15:00+01:00 1,0486 18.2
type Series struct {
	At      Place    `gyle:"at"`
	With    string   `gyle:"with"` // the instrument, by any name
	Columns []Column `gyle:"columns,required,flow"`
	Rows    string   `gyle:"rows,required"`
}

// Column says what a column of a series is, with its unit: "gravity SG".
type Column struct {
	Of   Of
	Unit string // "SG", "°P", "°Bx", "°C", "°F", "bar", "psi"
}

// columns are all that a series may hold.
var columns = []Column{
	{OfGravity, "SG"}, {OfGravity, "°P"}, {OfGravity, "°Bx"}, {OfRefractometer, "°Bx"},
	{OfTemperature, "°C"}, {OfTemperature, "°F"}, {OfPressure, "bar"}, {OfPressure, "psi"},
}

// SeriesColumns returns all that a column of a series may be.
func SeriesColumns() []Column { return slices.Clone(columns) }

// String returns the column as it is written: "temperature °C".
func (c Column) String() string { return string(c.Of) + " " + c.Unit }

// MarshalText writes the column.
func (c Column) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads a column; the sign of degrees may be left out.
func (c *Column) UnmarshalText(text []byte) error {
	plain := func(s string) string {
		return strings.ToLower(strings.ReplaceAll(strings.Join(strings.Fields(s), " "), "°", ""))
	}
	names := make([]string, len(columns))
	for i, known := range columns {
		if names[i] = known.String(); plain(names[i]) == plain(string(text)) {
			*c = known
			return nil
		}
	}
	return &quantity.ParseError{Text: string(text), Msg: fmt.Sprintf("%q is no column of a series", text), Hint: "write one of " + strings.Join(names, ", ")}
}

// measured returns what a cell means in the unit of [Measured]; not ok where no
// instrument shows such a value. A specific gravity may stand as 1042.5.
func (c Column) measured(cell string) (value float64, ok bool) {
	if !bareNumber.MatchString(cell) {
		return 0, false
	}
	value, err := strconv.ParseFloat(strings.Replace(cell, ",", ".", 1), 64)
	if err != nil {
		return 0, false
	}
	m := Measured{Of: c.Of, Unit: c.Unit, Value: value}
	switch c.Unit {
	case "SG":
		if value > 900 {
			m.Value /= 1000
		}
	case "°Bx":
		m.Unit = "°P" // a mass of sugar in a hundred, on either scale
	case "°F":
		m.Value, m.Unit = quantity.Fahrenheit(value).Celsius(), "°C"
	case "psi":
		m.Value, m.Unit = value/psiInBar, "bar"
	}
	if m.Of == OfTemperature && (m.Value < lowestLiquid || m.Value > highestLiquid) {
		return 0, false
	}
	return m.Value, m.possible()
}

const psiInBar = 14.5037738

// Sample is one row of a series: a value for each column in the unit of
// [Measured] (a gravity in °Bx counts as °P), not a number where there is none.
type Sample struct {
	When   Time
	Values []float64
}

// Samples reads the rows of a series. Rows of a sound document have no faults;
// others are left out.
func (s *Series) Samples() []Sample {
	samples, _ := s.samples()
	return samples
}

// samples reads the rows and says what is wrong with the first that is.
func (s *Series) samples() (samples []Sample, fault error) {
	lines := strings.Split(strings.TrimRight(s.Rows, "\n"), "\n")
	samples = make([]Sample, 0, len(lines))
	values := make([]float64, len(lines)*len(s.Columns))
	for i, line := range lines {
		row := values[i*len(s.Columns) : (i+1)*len(s.Columns) : (i+1)*len(s.Columns)]
		when, err := s.row(line, row)
		if err != nil {
			if fault == nil {
				fault = fmt.Errorf("row %d, %q: %w", i+1, line, err)
			}
			continue
		}
		samples = append(samples, Sample{when, row})
	}
	return samples, fault
}

func (s *Series) row(line string, values []float64) (Time, error) {
	text, rest, _ := strings.Cut(line, " ")
	when, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return Time{}, fmt.Errorf("it begins with no time")
	}
	cells := strings.Fields(rest)
	if len(cells) != len(values) {
		return Time{}, fmt.Errorf("it has %d values for %d columns", len(cells), len(values))
	}
	for i, cell := range cells {
		values[i] = math.NaN()
		if cell == "-" {
			continue
		}
		value, ok := s.Columns[i].measured(cell)
		if !ok {
			return Time{}, fmt.Errorf("%s is no %s", cell, s.Columns[i])
		}
		values[i] = value
	}
	return At(when), nil
}

// Column returns the place of the first column of something; −1 for none.
func (s *Series) Column(of Of) int {
	return slices.IndexFunc(s.Columns, func(c Column) bool { return c.Of == of })
}

// Measured returns what a value of a column means, as a reading would.
func (c Column) Measured(value float64) Measured {
	m := Measured{Of: c.Of, Unit: c.Unit, Value: value}
	switch c.Unit {
	case "°F":
		m.Unit = "°C"
	case "psi":
		m.Unit = "bar"
	case "°Bx":
		if c.Of == OfGravity {
			m.Unit = "°P"
		}
	}
	return m
}

// words sums a series up: how many readings of what, from when to when, and
// between which values as they were read.
func (s *Series) words(add func(string)) {
	lines := strings.Split(strings.TrimRight(s.Rows, "\n"), "\n")
	span := ""
	if first, last := rowTime(lines[0]), rowTime(lines[len(lines)-1]); first != "" && last != "" {
		span = ", " + first + " to " + last
	}
	add(fmt.Sprintf("%d readings%s:", len(lines), span))
	parts := make([]string, 0, len(s.Columns))
	for i, c := range s.Columns {
		var low, high, first, last string
		lowest, highest := math.Inf(1), math.Inf(-1)
		for _, line := range lines {
			cells := strings.Fields(line)
			if len(cells) != len(s.Columns)+1 || cells[i+1] == "-" {
				continue
			}
			value, _ := c.measured(cells[i+1])
			if last = cells[i+1]; first == "" {
				first = last
			}
			if value < lowest {
				lowest, low = value, last
			}
			if value > highest {
				highest, high = value, last
			}
		}
		switch {
		case first == "":
			parts = append(parts, "no "+string(c.Of))
		case c.Of == OfGravity || c.Of == OfRefractometer:
			parts = append(parts, fmt.Sprintf("%s %s → %s %s", c.Of, first, last, c.Unit))
		default:
			parts = append(parts, fmt.Sprintf("%s %s..%s %s", c.Of, low, high, c.Unit))
		}
	}
	add(strings.Join(parts, ", "))
}

// rowTime is the time of a row as people write it.
func rowTime(line string) string {
	text, _, _ := strings.Cut(line, " ")
	when, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return ""
	}
	return when.Format("2 Jan 15:04")
}

func (s *Series) validate(path string, add adder) {
	if len(s.Columns) == 0 {
		add(path+".columns", "write columns: [gravity SG, temperature °C]", "a series needs a column")
		return
	}
	if _, err := s.samples(); err != nil {
		add(path+".rows", "write a row as 2026-03-07T12:15:00+01:00 1.0486 18.2, and - where there is no value", "%v", err)
	}
}
