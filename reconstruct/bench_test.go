// SPDX-License-Identifier: MIT

package reconstruct

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"gyle/gyle"
	"gyle/quantity"
)

// BenchmarkSmooth balances the books of an ordinary day.
func BenchmarkSmooth(b *testing.B) {
	d := simulate(rand.New(rand.NewPCG(1, 1))).day
	for b.Loop() {
		if _, err := Smooth(d); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLongLog reconstructs the Garage's brewing with 5 000 more readings,
// as loggers leave them: of the fermenter for a fortnight, and of the kettle
// while it boils and cools. The bound is 200 ms.
func BenchmarkLongLog(b *testing.B) {
	in := brewing(b, "garage-v3.yaml", "garage")
	knockOut := in.Gyle.Log[33].When()
	for i := range 5000 {
		e := gyle.Entry{ID: gyle.ID(fmt.Sprintf("x%04d", i)), Reading: &gyle.Reading{Of: gyle.OfTemperature, Value: "19.8", At: gyle.AtFermenter}}
		e.Time = knockOut.Add(quantity.Duration(120 + 4*i))
		switch {
		case i < 900: // twelve a minute, in the boil
			e.Reading.At, e.Reading.Value, e.Time = gyle.AtBoil, "99.9", knockOut.Add(quantity.Duration(float64(i-900)/12))
		case i < 1000:
			e.Reading.At, e.Reading.Value, e.Time = gyle.AtCooling, fmt.Sprintf("%.1f", 100-0.7*float64(i-900)), knockOut.Add(quantity.Duration(float64(i-899)/5))
		case i%2 == 0:
			e.Reading.Of, e.Reading.Value = gyle.OfGravity, "1.0130"
		}
		in.Gyle.Log = append(in.Gyle.Log, e)
	}
	for b.Loop() {
		if _, err := Make(in); err != nil {
			b.Fatal(err)
		}
	}
}
