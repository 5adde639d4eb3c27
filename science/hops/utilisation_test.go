// SPDX-License-Identifier: MIT

package hops

import (
	"testing"

	"gyle/quantity"
)

// Tinseth's table as published on his page "Glenn's hop utilization numbers"
// (rows of 3 to 33 min read; 45 min and more computed from the formula); half
// a unit of the last printed digit.
func TestTinsethTable(t *testing.T) {
	gravities := []quantity.SG{1.030, 1.040, 1.050, 1.060, 1.070, 1.080, 1.090, 1.100, 1.110, 1.120, 1.130}
	for _, row := range []struct {
		minutes quantity.Duration
		want    [11]float64
	}{
		{3, [11]float64{0.034, 0.031, 0.029, 0.026, 0.024, 0.022, 0.020, 0.018, 0.017, 0.015, 0.014}},
		{6, [11]float64{0.065, 0.059, 0.054, 0.049, 0.045, 0.041, 0.038, 0.035, 0.032, 0.029, 0.026}},
		{12, [11]float64{0.116, 0.106, 0.097, 0.088, 0.081, 0.074, 0.068, 0.062, 0.056, 0.052, 0.047}},
		{15, [11]float64{0.137, 0.125, 0.114, 0.105, 0.096, 0.087, 0.080, 0.073, 0.067, 0.061, 0.056}},
		{18, [11]float64{0.156, 0.142, 0.130, 0.119, 0.109, 0.099, 0.091, 0.083, 0.076, 0.069, 0.063}},
		{24, [11]float64{0.187, 0.171, 0.157, 0.143, 0.131, 0.120, 0.109, 0.100, 0.091, 0.083, 0.076}},
		{30, [11]float64{0.212, 0.194, 0.177, 0.162, 0.148, 0.135, 0.124, 0.113, 0.103, 0.094, 0.086}},
		{33, [11]float64{0.223, 0.203, 0.186, 0.170, 0.155, 0.142, 0.130, 0.119, 0.108, 0.099, 0.091}},
		{45, [11]float64{0.253, 0.232, 0.212, 0.194, 0.177, 0.162, 0.148, 0.135, 0.123, 0.113, 0.103}},
		{60, [11]float64{0.276, 0.252, 0.231, 0.211, 0.193, 0.176, 0.161, 0.147, 0.135, 0.123, 0.112}},
		{75, [11]float64{0.289, 0.264, 0.241, 0.220, 0.201, 0.184, 0.168, 0.154, 0.141, 0.128, 0.117}},
		{90, [11]float64{0.295, 0.270, 0.247, 0.226, 0.206, 0.188, 0.172, 0.157, 0.144, 0.132, 0.120}},
		{120, [11]float64{0.301, 0.275, 0.252, 0.230, 0.210, 0.192, 0.176, 0.161, 0.147, 0.134, 0.123}},
	} {
		for i, sg := range gravities {
			near(t, "U", float64(TinsethUtilisation(sg, row.minutes)), row.want[i], 0.00051)
		}
	}
}

// Computed from the formula; half a unit of the last printed digit.
func TestTinsethParts(t *testing.T) {
	for _, test := range []struct{ sg, want float64 }{
		{1.030, 1.2601}, {1.050, 1.0528}, {1.070, 0.8796}, {1.090, 0.7349}, {1.110, 0.6140}, {1.130, 0.5130},
	} {
		near(t, "bigness", TinsethBigness(quantity.SG(test.sg)), test.want, 0.00005)
	}
	near(t, "time factor", TinsethTime(60), 0.21910, 0.000005)
	near(t, "U", float64(TinsethUtilisation(1.050, 60)), 0.2307, 0.0005)
	near(t, "U", float64(TinsethUtilisation(1.050, 15)), 0.1145, 0.0005)
	near(t, "U at flame-out", float64(TinsethUtilisation(1.050, 0)), 0, 0)
	b := TinsethIBU(quantity.Grams(28), 0.05, 1.050, 60, 20)
	near(t, "IBU", float64(b), 16.15, 0.05)
	// 7489.15: ounces per US gallon in mg/L, computed from the definitions.
	near(t, "oz/gal", 1000*quantity.Ounces(1).Grams()/quantity.USGallons(1).Litres(), 7489.15, 0.005)
}

// Rager 1990, table quoted second-hand; the smooth curve from memory.
func TestRager(t *testing.T) {
	for _, test := range []struct{ minutes, percent float64 }{
		{0, 5.0}, {5, 5.0}, {6, 6.0}, {15, 8.0}, {20, 10.1}, {25, 12.1}, {30, 15.3},
		{35, 18.8}, {40, 22.8}, {45, 26.9}, {50, 28.1}, {60, 30.0},
	} {
		near(t, "U", RagerUtilisation(quantity.Duration(test.minutes)).Percent(), test.percent, 1e-9)
	}
	for _, test := range []struct{ minutes, percent float64 }{{15, 8.23}, {30, 17.11}, {45, 26.90}, {60, 30.82}} {
		near(t, "smooth U", RagerUtilisationSmooth(quantity.Duration(test.minutes)).Percent(), test.percent, 0.005)
	}
	b := RagerIBU(quantity.Grams(40), 0.065, 1.070, RagerUtilisation(60), 20)
	near(t, "IBU", float64(b), 35.45, 0.05)
}

// Garetz 1994, second-hand and from memory; computed.
func TestGaretz(t *testing.T) {
	near(t, "hopping factor", GaretzHoppingFactor(100), 1.3846, 0.00005)
	near(t, "altitude factor", GaretzAltitudeFactor(2000), 1.239, 0.0005)
	near(t, "altitude, yield", 1/GaretzAltitudeFactor(2000), 0.81, 0.005)
}
