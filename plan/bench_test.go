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

// fiveCharges is Ferry Brown 4 on the Boathouse with a charge for every stage of
// the kettle: the one that testdata/scipy_timing.py gives to a general solver.
// There flame-out comes at the end of the boil, before the kettle is cooled to
// the stand.
func fiveCharges(t testing.TB) plan.Input {
	in := onBoathouse(t, "4")
	in.Recipe = readRecipe(t, edited(t, "ferry-brown-4",
		"- {hop: challenger, bitterness: 28 IBU, at: boil 60 min, why: firm and quiet}\n", `- {hop: challenger, bitterness: 20 IBU, at: boil 60 min}
- {hop: challenger, dose: 0.1 g/L, at: boil 30 min}
- {hop: challenger, dose: 0.1 g/L, at: boil 5 min}
- {hop: challenger, dose: 0.1 g/L, at: flame-out}
`))
	return in
}

// The yields of five charges agree with a general solver of differential
// equations: the output of testdata/scipy_timing.py (scipy 1.10.1, relative
// error 1e-6).
func TestFiveChargesAgreeWithAGeneralSolver(t *testing.T) {
	p := made(t, fiveCharges(t))
	for i, want := range []float64{0.50648, 0.34940, 0.13725, 0.08333, 0.05521} {
		near(t, p.Hops.Charges[i].At.String(), p.Hops.Charges[i].Yield, want, 2e-5)
	}
}

// BenchmarkFiveCharges makes the plan whose kettle testdata/scipy_timing.py
// gives to a general solver.
func BenchmarkFiveCharges(b *testing.B) {
	in := fiveCharges(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := plan.Make(in); err != nil {
			b.Fatal(err)
		}
	}
}
