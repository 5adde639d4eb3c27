// SPDX-License-Identifier: MIT

package plan_test

import (
	"testing"

	"gyle/plan"
	"gyle/recipe"
)

// BenchmarkMake makes a whole plan with the kinetics of every charge. Aim: 300 µs
// and 1500 allocations.
func BenchmarkMake(b *testing.B) {
	for _, test := range []struct {
		name string
		in   plan.Input
	}{
		{"garage", onGarage(b, "4")},
		{"boathouse", onBoathouse(b, "4")},
	} {
		b.Run(test.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := plan.Make(test.in); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkParseRecipe reads a recipe document. Aim: 300 µs.
func BenchmarkParseRecipe(b *testing.B) {
	text := example(b, "ferry-brown-4")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := recipe.Parse("ferry-brown-4.yaml", text); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkJSON writes a plan as JSON.
func BenchmarkJSON(b *testing.B) {
	p := made(b, onBoathouse(b, "4"))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.JSON(); err != nil {
			b.Fatal(err)
		}
	}
}
