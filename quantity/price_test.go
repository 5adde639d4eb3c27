// SPDX-License-Identifier: MIT

package quantity

import (
	"math"
	"testing"
)

func TestParsePrice(t *testing.T) {
	for text, want := range map[string]Price{
		"1.60 €/kg": {Amount: 1.6, Money: "€", Mass: 1}, "1,60 € a kilo": {Amount: 1.6, Money: "€", Mass: 1}, "1.60 a kilo": {Amount: 1.6, Mass: 1},
		"4.50 €/100 g": {Amount: 4.5, Money: "€", Mass: 0.1}, "£2 per lb": {Amount: 2, Money: "£", Mass: 0.45359237}, "4.20/22 g": {Amount: 4.2, Mass: 0.022},
		"4.20 a pack": {Amount: 4.2, Packs: 1}, "0.35 €/kWh": {Amount: 0.35, Money: "€", Energy: 1}, "9 EUR/500 mL": {Amount: 9, Money: "EUR", Volume: 0.5},
	} {
		got, err := ParsePrice(text)
		if err != nil || math.Abs(float64(got.Mass-want.Mass)) > 1e-9 || math.Abs(float64(got.Volume-want.Volume)) > 1e-9 {
			t.Errorf("%q is read as %+v (%v), want %+v", text, got, err, want)
		}
		got.Mass, got.Volume, want.Mass, want.Volume = 0, 0, 0, 0
		if got != want {
			t.Errorf("%q is read as %+v, want %+v", text, got, want)
		}
	}
	for _, text := range []string{"", "1.60", "cheap/kg", "1.60/sack", "-2/kg", "2/0 kg", "1.2.3/kg"} {
		if got, err := ParsePrice(text); err == nil {
			t.Errorf("%q is read as %+v", text, got)
		}
	}
}
