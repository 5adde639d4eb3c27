// SPDX-License-Identifier: MIT

package gravity

import (
	"math"
	"testing"

	"gyle/quantity"

	"pgregory.net/rapid"
)

// Shrinkage from hot to 20 °C, computed from Kell's water (regression values).
func TestVolumeAt20(t *testing.T) {
	for _, row := range []struct{ celsius, want float64 }{{100, 0.9601}, {90, 0.9670}, {80, 0.9735}, {65, 0.9823}} {
		got := VolumeAt20(quantity.VolumeAt{Volume: 1, At: quantity.Celsius(row.celsius)})
		near(t, "shrinkage", float64(got), row.want, 5e-5)
	}
	kettle := VolumeAt20(quantity.VolumeAt{Volume: 27, At: quantity.Celsius(95)})
	near(t, "27 L at 95 °C", float64(kettle), 26.02, 0.005)
	near(t, "no temperature given", float64(VolumeAt20(quantity.VolumeAt{Volume: 27})), 27, 0)
	wort := SucroseDensity(15, quantity.Celsius(80)) / SucroseDensity(15, reference)
	near(t, "15 °P from 80 °C", wort, 0.9730, 5e-5)
}

func TestVolumesThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := quantity.Volume(rapid.Float64Range(0.1, 5000).Draw(t, "litres"))
		at := quantity.Celsius(rapid.Float64Range(0, 100).Draw(t, "celsius"))
		sg := quantity.SG(rapid.Float64Range(0.99, 1.17).Draw(t, "sg"))
		back := VolumeAt20(quantity.VolumeAt{Volume: VolumeHot(v, at), At: at})
		if math.Abs(float64(back/v)-1) > 1e-12 {
			t.Errorf("%v L at %v came back as %v", v, at, back)
		}
		if back := WortVolume(WortMass(v, sg), sg); math.Abs(float64(back/v)-1) > 1e-12 {
			t.Errorf("%v L of %v came back as %v", v, sg, back)
		}
	})
}

// The short rule 0.9982·V·SG against the ICUMSA density: 0.01 %.
func TestWortMass(t *testing.T) {
	for p := quantity.Plato(0); p <= 20; p++ {
		exact := SucroseDensity(p, reference) / 1000
		near(t, "kg/L", WortMass(1, SGFromPlato(p)).Kilograms()/exact, 1, 1.0e-4)
	}
	near(t, "10 L of 9.646 °P", ExtractMass(10, SGFromPlato(9.646)).Kilograms(), 1.000, 0.0005)
}
