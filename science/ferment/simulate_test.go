// SPDX-License-Identifier: MIT

package ferment

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"gyle/quantity"
)

// Computed from the equations of de Andrés-Toro et al. 1998 with the constants
// above (regression values, made with another integrator); tolerance 0.5 %.
func TestAndresToro(t *testing.T) {
	start := AndresToro{LagCells: 1.92, ActiveCells: 0.08, DeadCells: 2, Sugar: 130}
	unknown := math.NaN()
	for _, test := range []struct{ celsius, hours, sugar, ethanol, diacetyl, ester float64 }{
		{13, 24, 116.61, 12.45, unknown, unknown},
		{13, 48, 81.28, 35.03, 1.377, 0.386},
		{13, 72, 39.27, 49.62, unknown, unknown},
		{13, 96, 7.415, 55.73, unknown, unknown},
		{13, 120, 0.000, 56.76, unknown, 0.574},
		{10, 96, 25.50, 41.77, unknown, unknown},
		{16, 48, 50.47, 56.37, unknown, 5.88},
	} {
		end := start.Ferment(quantity.Hours(test.hours), Constantly(quantity.Celsius(test.celsius)))
		for _, figure := range []struct {
			name      string
			got, want float64
		}{
			{"sugar", end.Sugar, test.sugar}, {"ethanol", end.Ethanol, test.ethanol},
			{"diacetyl", end.Diacetyl, test.diacetyl}, {"ethyl acetate", end.EthylAcetate, test.ester},
		} {
			if !math.IsNaN(figure.want) {
				near(t, figure.name, figure.got, figure.want, math.Max(0.0005, 0.005*figure.want))
			}
		}
	}
}

// Computed from the equations of Gee & Ramirez 1994 with the constants above
// (regression values, made with another integrator); tolerance 0.5 %.
func TestGeeRamirez(t *testing.T) {
	start := GeeRamirez{Glucose: 70, Maltose: 220, Maltotriose: 40, Cells: 175}
	for _, test := range []struct{ celsius, hours, maltose, maltotriose, ethanol float64 }{
		{12, 48, 163.08, 31.41, 402.4}, {12, 120, 90.06, 20.16, 747.7}, {16, 96, 44.80, 11.26, 972.7},
	} {
		end := start.Ferment(quantity.Hours(test.hours), Constantly(quantity.Celsius(test.celsius)))
		near(t, "maltose", end.Maltose, test.maltose, 0.005*test.maltose)
		near(t, "maltotriose", end.Maltotriose, test.maltotriose, 0.005*test.maltotriose)
		near(t, "ethanol", end.Ethanol, test.ethanol, 0.005*test.ethanol)
	}
	cells := start.Ferment(quantity.Hours(48), Constantly(quantity.Celsius(12))).Cells
	near(t, "cells", cells, 203.09, 0.005*203.09)
}

// Balances: each mol of glucose gives 1.92 mol of ethanol, of maltose 3.84, of
// maltotriose 5.76, whatever the temperature does.
func TestGeeRamirezBalance(t *testing.T) {
	start := GeeRamirez{Glucose: 70, Maltose: 220, Maltotriose: 40, Cells: 175}
	warming := func(at quantity.Duration) quantity.Temperature { return quantity.Celsius(5 + at.Hours()/10) }
	end := start.Ferment(quantity.Hours(100), warming)
	want := 1.92*(70-end.Glucose) + 3.84*(220-end.Maltose) + 5.76*(40-end.Maltotriose)
	near(t, "ethanol", end.Ethanol, want, 1e-6)
	if cold := start.Ferment(quantity.Hours(100), Constantly(quantity.Celsius(5))); cold.Ethanol >= end.Ethanol {
		t.Errorf("the cold gyle made %.1f mol/m³, not less than the warming one with %.1f", cold.Ethanol, end.Ethanol)
	}
}

// testdata/simulate.csv was made by testdata/simulate.py with
// scipy.integrate.solve_ivp; rising temperatures too.
func TestSimulationsAgainstSolver(t *testing.T) {
	table, err := os.ReadFile("testdata/simulate.csv")
	if err != nil {
		t.Fatal(err)
	}
	rows := 0
	for line := range strings.Lines(string(table)) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		rows++
		fields := strings.Split(strings.TrimSpace(line), ",")
		want := make([]float64, len(fields)-1)
		for i, field := range fields[1:] {
			if want[i], err = strconv.ParseFloat(field, 64); err != nil {
				t.Fatal(err)
			}
		}
		at := func(d quantity.Duration) quantity.Temperature { return quantity.Celsius(want[0] + want[1]*d.Hours()) }
		hours := quantity.Hours(want[2])
		var got []float64
		if fields[0] == "andrestoro" {
			end := AndresToro{LagCells: 1.92, ActiveCells: 0.08, DeadCells: 2, Sugar: 130}.Ferment(hours, at)
			got = []float64{end.LagCells, end.ActiveCells, end.DeadCells, end.Sugar, end.Ethanol, end.Diacetyl, end.EthylAcetate}
		} else {
			end := GeeRamirez{Glucose: 70, Maltose: 220, Maltotriose: 40, Cells: 175}.Ferment(hours, at)
			got = []float64{end.Glucose, end.Maltose, end.Maltotriose, end.Cells, end.Ethanol}
		}
		for i, figure := range got {
			near(t, line, figure, want[3+i], 1e-5*max(1, math.Abs(want[3+i])))
		}
	}
	if rows < 10 {
		t.Errorf("only %d rows in the table", rows)
	}
}
