// SPDX-License-Identifier: MIT

package water

import (
	"testing"

	"gyle/quantity"
)

func BenchmarkAcidDemand(b *testing.B) {
	demand := Supply{Ions: saltpan, PH: 7.6}.Demand()
	for b.Loop() {
		demand(5.4)
	}
}

func BenchmarkDemandSetUp(b *testing.B) {
	s := Supply{Ions: saltpan, PH: 7.6}
	for b.Loop() {
		s.Demand()
	}
}

func BenchmarkSolveSalts(b *testing.B) {
	aims := Aims{Calcium: 110, Chloride: 100, Sulfate: 60}
	for b.Loop() {
		SolveSalts(saltpan, 28.8, aims, Salts).Rounded(quantity.Grams(0.1))
	}
}

func BenchmarkMislabels(b *testing.B) {
	for b.Loop() {
		Mislabels(saltpanPrinted)
	}
}
