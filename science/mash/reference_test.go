// SPDX-License-Identifier: MIT

package mash

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"gyle/quantity"
)

// readTable reads a table that testdata/reference.py made with scipy.
func readTable(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 10 {
		t.Fatalf("%s: %d rows, want a table", name, len(rows))
	}
	return rows
}

func numbers(t *testing.T, fields []string) []float64 {
	t.Helper()
	all := make([]float64, len(fields))
	for i, field := range fields {
		x, err := strconv.ParseFloat(field, 64)
		if err != nil {
			t.Fatal(err)
		}
		all[i] = x
	}
	return all
}

// scipy's solve_ivp (LSODA, relative tolerance 1e-10).
func TestConvertAgreesWithSolveIVP(t *testing.T) {
	for _, row := range readTable(t, "conversion.csv") {
		var rests []Rest
		for _, part := range strings.Fields(row[1]) {
			n := numbers(t, strings.Split(part, ":"))
			rests = append(rests, Rest{Temperature: celsius(n[0]), End: celsius(n[1]), Duration: quantity.Duration(n[2])})
		}
		want := numbers(t, row[2:])
		got := Convert(DefaultKinetics, DoughIn, rests...)
		near(t, row[0]+" raw", got.Raw, want[0], 1e-5)
		near(t, row[0]+" fermentable", got.Fermentable, want[1], 1e-5)
		near(t, row[0]+" alpha", got.Alpha, want[2], 1e-5)
		near(t, row[0]+" beta", got.Beta, want[3], 1e-5)
	}
}

// scipy's brentq on its own statement of the balance.
func TestPHAgreesWithBrentQ(t *testing.T) {
	for _, row := range readTable(t, "ph.csv") {
		n := numbers(t, row)
		b := Balance{
			Malts: []Malt{base(n[0], n[1], n[2]), titrated(n[3], n[4], 35)},
			Liquor: Liquor{
				Volume:     quantity.Volume(n[5]),
				Calcium:    quantity.Concentration(n[6]),
				Magnesium:  quantity.Concentration(n[7]),
				AcidDemand: water(n[8], n[9]),
			},
			Acids:       []Acid{{n[10], lactic88}},
			Bicarbonate: n[11],
		}
		near(t, strings.Join(row, " "), float64(PH(withEta(b, n[12]))), n[13], 2e-8)
	}
}
