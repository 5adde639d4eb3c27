// SPDX-License-Identifier: MIT

package gravity

import (
	"testing"

	"gyle/quantity"
)

// Computed from Kell's equation with the constants read second-hand
// (regression values); tolerance 0.01 kg/m³.
func TestWaterDensity(t *testing.T) {
	for _, row := range []struct{ celsius, want float64 }{
		{0, 999.840}, {4, 999.972}, {15, 999.099}, {20, 998.203}, {25, 997.043},
		{40, 992.212}, {65, 980.55}, {80, 971.785}, {100, 958.345},
	} {
		near(t, "WaterDensity", WaterDensity(quantity.Celsius(row.celsius)), row.want, 0.01)
	}
}

// Outside checks: Kell's constants of 1975 on the older temperature scale (from
// memory; 998.204, 980.555, 973.034 and 958.364 at 20, 65, 78 and 100 °C), and
// IAPWS SR1-86(1992), 958.365 kg/m³ at the boiling point of 373.1243 K (check
// value of the release, from memory).
func TestWaterDensityAgainstOthers(t *testing.T) {
	for c := 0.0; c <= 100; c += 5 {
		older := horner(c, 999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12) /
			(1 + 16.879850e-3*c)
		near(t, "scale of 1968", WaterDensity(quantity.Celsius(c)), older, 0.02)
	}
	for _, row := range []struct{ celsius, want float64 }{{20, 998.204}, {65, 980.555}, {78, 973.034}, {100, 958.364}} {
		near(t, "Kell 1975", WaterDensity(quantity.Celsius(row.celsius)), row.want, 0.02)
	}
	near(t, "IAPWS at the boiling point", WaterDensity(quantity.Kelvin(373.1243)), 958.365, 0.003)
}

// Wort shrinks a little more than water: 15 °P from 80 to 20 °C to 0.9730
// (computed from the ICUMSA polynomial), water to 0.9735.
func TestWortShrinks(t *testing.T) {
	hot := SucroseDensity(15, quantity.Celsius(80))
	near(t, "15 °P at 80 °C", hot, 1030.56, 0.03)
	near(t, "wort", hot/SucroseDensity(15, reference), 0.9730, 0.00005)
	near(t, "water", WaterDensity(quantity.Celsius(80))/WaterDensity(reference), 0.9735, 0.00005)
}

// Computed from the ICUMSA SPS-4 polynomial (regression values); 0.03 kg/m³.
func TestSucroseDensity(t *testing.T) {
	celsius := []float64{0, 4, 10, 15, 20, 25, 30, 40, 50, 60}
	for _, row := range []struct {
		plato quantity.Plato
		want  []float64
	}{
		{5, []float64{1020.05, 1020.03, 1019.56, 1018.82, 1017.80, 1016.54, 1015.04, 1011.45, 1007.15, 1002.20}},
		{10, []float64{1040.97, 1040.81, 1040.14, 1039.26, 1038.11, 1036.73, 1035.14, 1031.39, 1026.97, 1021.91}},
		{12, []float64{1049.55, 1049.33, 1048.58, 1047.64, 1046.44, 1045.02, 1043.39, 1039.57, 1035.10, 1030.00}},
		{15, []float64{1062.65, 1062.33, 1061.46, 1060.43, 1059.16, 1057.67, 1055.98, 1052.06, 1047.51, 1042.36}},
		{20, []float64{1085.09, 1084.62, 1083.55, 1082.38, 1080.98, 1079.37, 1077.58, 1073.50, 1068.82, 1063.57}},
	} {
		for i, want := range row.want {
			near(t, "SucroseDensity", SucroseDensity(row.plato, quantity.Celsius(celsius[i])), want, 0.03)
		}
	}
}

// The two published scales are independent: ICUMSA density against the NBS
// cubic, through the weighing in air. 0.004 °P (to the digit) at 4 to 10 °P, 0.02 at 25.
func TestICUMSAAgreesWithNBS(t *testing.T) {
	for _, row := range []struct{ plato, tolerance float64 }{{4, 0.0045}, {7, 0.0045}, {10, 0.0045}, {25, 0.02}} {
		apparent := TrueSGAt(quantity.Plato(row.plato), reference).Apparent()
		near(t, "°P by ICUMSA and NBS", float64(PlatoFromSG(apparent)), row.plato, row.tolerance)
	}
}

// Weight of a US gallon in air at 20 °C, NBS C440 by way of Chen (1992),
// printed to 0.001 lb (0.12 kg/m³).
func TestPoundsPerGallon(t *testing.T) {
	for plato, row := range []struct{ pounds, density float64 }{
		{8.322, 998.25}, {8.354, 1002.09}, {8.387, 1006.04}, {8.419, 1009.87}, {8.452, 1013.83}, {8.486, 1017.90},
	} {
		got := DensityFromWeight(quantity.Pounds(row.pounds), quantity.USGallons(1))
		near(t, "DensityFromWeight", got, row.density, 0.01)
		near(t, "printed weight", got, SucroseDensity(quantity.Plato(plato), reference), 0.12)
	}
}

// The three scales of 1.1: true, apparent, 20/4 and 60/60 °F (computed; the
// difference of true and apparent is stated with AOAC 942.33 and NBS C440).
func TestScalesOfGravity(t *testing.T) {
	near(t, "12 °P apparent", float64(TrueSGFromPlatoHackbarth(12).Apparent()), 1.04837, 1e-5)
	near(t, "20/4", SG20over4(1), 0.998229, 5e-7)
	near(t, "12 °P 20/20 °C", float64(TrueSGAt(12, reference)), 1.04833, 1e-5)
	near(t, "12 °P 60/60 °F", float64(TrueSGAt(12, quantity.Fahrenheit(60))), 1.04855, 1e-5)
	near(t, "water 60 °F over 20 °C", WaterDensity(quantity.Fahrenheit(60))/WaterDensity(reference), 1.00081, 5e-6)
	difference := PlatoFromSG(1.04837) - PlatoFromSG(1.04831)
	near(t, "apparent less true in °P", float64(difference), 0.014, 0.0005)
}

// Extract in g/L at 20 °C (computed, regression values).
func TestExtractConcentration(t *testing.T) {
	for _, row := range []struct{ plato, want float64 }{{5, 50.89}, {10, 103.81}, {12, 125.57}, {15, 158.87}, {20, 216.20}} {
		near(t, "g/L", ExtractConcentration(quantity.Plato(row.plato)), row.want, 0.006)
		near(t, "°P", float64(PlatoFromConcentration(row.want)), row.plato, 0.001)
	}
}
