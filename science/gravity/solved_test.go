// SPDX-License-Identifier: MIT

package gravity

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"gyle/quantity"
)

// testdata/solved.csv was computed by testdata/solved.py, which writes the
// formulas out again and solves them with the root finders of scipy.
func TestSolvedOutside(t *testing.T) {
	computed := map[string]func(a, b float64) float64{
		"sg":      func(p, _ float64) float64 { return float64(SGFromPlato(quantity.Plato(p))) },
		"density": func(p, at float64) float64 { return SucroseDensity(quantity.Plato(p), quantity.Celsius(at)) },
		"hydrometer": func(read, at float64) float64 {
			_, p := HydrometerSG(quantity.SG(read), quantity.Celsius(at), reference)
			return float64(p)
		},
		"alcohol": func(ri, rf float64) float64 {
			return BeerFromBrix(quantity.Plato(ri), quantity.Plato(rf)).Alcohol.Percent()
		},
		"beersg": func(ri, rf float64) float64 {
			return float64(BeerFromBrix(quantity.Plato(ri), quantity.Plato(rf)).SG)
		},
	}
	for _, row := range readSolved(t) {
		a, b, want := number(row[1]), number(row[2]), number(row[3])
		near(t, row[0]+" of "+row[1]+" "+row[2], computed[row[0]](a, b), want, 2e-8)
	}
}

func readSolved(t *testing.T) [][]string {
	file, err := os.Open("testdata/solved.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 100 {
		t.Fatalf("solved.csv has %d rows, want at least 100", len(rows))
	}
	return rows
}

// number reads a cell; an empty one is 0, as an argument that isn't used.
func number(cell string) float64 {
	x, _ := strconv.ParseFloat(cell, 64)
	return x
}
