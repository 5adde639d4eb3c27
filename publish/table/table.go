// SPDX-License-Identifier: MIT

package table

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"

	"gyle/quantity"
)

// A Table is what stands in one sheet of a spreadsheet.
type Table struct {
	Head []string // with units: "mass kg"
	Rows [][]string
}

// CSV writes the table. A text that a spreadsheet would take for a formula gets
// an apostrophe, which such programs know as the sign of a text.
func (t Table) CSV(pr quantity.Printer) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	if pr.DecimalComma {
		w.Comma = ';'
	}
	for _, row := range append([][]string{t.Head}, t.Rows...) {
		cells := make([]string, len(row))
		for i, cell := range row {
			cells[i] = harmless(cell)
		}
		_ = w.Write(cells) // to memory: can't fail
	}
	w.Flush()
	return b.Bytes()
}

// harmless keeps a text from being computed.
func harmless(cell string) string {
	if cell == "" || !strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		return cell
	}
	if _, err := strconv.ParseFloat(strings.Replace(cell, ",", ".", 1), 64); err == nil {
		return cell
	}
	return "'" + cell
}

// units are those of a reader.
type units struct{ quantity.Printer }

// number writes a number with as many digits as say something, without groups.
func (u units) number(x float64, decimals int) string {
	scale := math.Pow(10, float64(decimals))
	text := strconv.FormatFloat(math.Round(x*scale)/scale, 'f', -1, 64)
	if u.DecimalComma {
		text = strings.Replace(text, ".", ",", 1)
	}
	return text
}

// known is a number, and nothing where there is none.
func (u units) known(x float64, decimals int) string {
	if x == 0 || math.IsNaN(x) {
		return ""
	}
	return u.number(x, decimals)
}

func (u units) us() bool { return u.System == quantity.USCustomary }

func (u units) massHead() string {
	if u.us() {
		return "mass lb"
	}
	return "mass kg"
}

func (u units) mass(m quantity.Mass) string {
	if u.us() {
		return u.number(float64(m/quantity.Pounds(1)), 3)
	}
	return u.number(float64(m), 3)
}

func (u units) smallHead() string {
	if u.us() {
		return "mass oz"
	}
	return "mass g"
}

func (u units) small(m quantity.Mass) string {
	if u.us() {
		return u.number(float64(m/quantity.Ounces(1)), 3)
	}
	return u.number(float64(m/quantity.Grams(1)), 1)
}

func (u units) percent(f quantity.Fraction) string { return u.number(f.Percent(), 2) }
