// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"testing"
)

// Special functions against scipy 1.10 (scipy.special betainc, betaincinv, ndtri;
// scipy.stats chi2.sf), relative.

func sameRelative(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	same(t, what, got, want, tolerance*max(math.Abs(want), 1e-300))
}

func TestBeta(t *testing.T) {
	for _, test := range []struct{ x, a, b, want float64 }{
		{0.5, 1, 1, 0.5},
		{0.3333333333333333, 11, 8, 0.014433622275459983},
		{0.3, 2, 5, 0.5798250000000001},
		{0.9, 25, 3, 0.4845811416920007},
		{0.05, 0.5, 0.5, 0.14356629312870628},
		{0.6, 300, 201, 0.5194108228883856},
		{0.001, 1, 40, 0.0392297892641882},
		{0.999, 40, 1, 0.9607702107358118},
		{0.3333, 120, 281, 0.9296568119425597},
	} {
		name := fmt.Sprint(test.x, test.a, test.b)
		sameRelative(t, "I "+name, betaBelow(test.x, test.a, test.b), test.want, 1e-12)
		same(t, "1−I "+name, betaAbove(test.x, test.a, test.b), 1-test.want, 1e-12)
		same(t, "inverse "+name, betaQuantile(test.want, test.a, test.b), test.x, 1e-11)
	}
	for _, test := range []struct{ p, a, b, want float64 }{
		{0.025, 13, 12, 0.32820807569517796},
		{0.975, 14, 11, 0.7444697980052537},
		{0.05, 11, 8, 0.39215529687268},
		{0.95, 7, 8, 0.6749715183962248},
		{0.025, 1, 6, 0.00421074451448947},
		{0.975, 1, 6, 0.4592581264399005},
		{0.001, 200, 201, 0.4220215114973756},
		{0.5, 2.5, 3.7, 0.3922133279236082},
		{0.999, 1, 500, 0.013720514368789441},
	} {
		sameRelative(t, fmt.Sprint("quantile ", test.p, test.a, test.b), betaQuantile(test.p, test.a, test.b), test.want, 1e-11)
	}
}

func TestNormalQuantile(t *testing.T) {
	for _, test := range []struct{ p, want float64 }{
		{1e-10, -6.361340902404056},
		{0.0001, -3.7190164854556804},
		{0.025, -1.9599639845400545},
		{0.3, -0.5244005127080409},
		{0.5, 0.0},
		{0.8, 0.8416212335729143},
		{0.975, 1.959963984540054},
		{0.9999, 3.719016485455709},
	} {
		same(t, fmt.Sprint("quantile of ", test.p), normalQuantile(test.p), test.want, 1e-11)
		sameRelative(t, fmt.Sprint("back to ", test.p), normalBelow(test.want), test.p, 1e-12)
	}
}

func TestChiSquare(t *testing.T) {
	for _, test := range []struct{ x, freedom, want float64 }{
		{3.841458820694124, 1, 0.04999999999999989},
		{11.005, 6, 0.08822202417965799},
		{24.634, 14, 0.038357306466138996},
		{0.5, 3, 0.9188914116546758},
		{60, 2, 9.357622968840163e-14},
		{0.001, 1, 0.9747728793699604},
		{40, 40, 0.4702572668392401},
	} {
		sameRelative(t, fmt.Sprint("χ² ", test.x, " of ", test.freedom), chiSquareAbove(test.x, test.freedom), test.want, 1e-12)
	}
}

// Both forms of a binomial tail: the sum and the beta function.
func TestBinomialTails(t *testing.T) {
	for _, n := range []int{1, 2, 7, 18, 60, 300} {
		for _, p := range []float64{0.01, 1.0 / 3, 0.5, 0.87} {
			sum := 0.0
			for right := n; right >= 0; right-- {
				sum += binomial(right, n, p)
				same(t, fmt.Sprint(right, " of ", n, " at ", p), BinomialAtLeast(right, n, p), sum, 1e-12)
				same(t, "the other side", BinomialAtMost(right-1, n, p), 1-sum, 1e-12)
			}
		}
	}
}

// The published integrals, by Simpson's rule: ennis1993 and ennis1998.
func TestPublishedIntegrals(t *testing.T) {
	simpson := func(f func(float64) float64, low, high float64) float64 {
		const steps = 4000
		h := (high - low) / steps
		sum := f(low) + f(high)
		for i := 1; i < steps; i++ {
			sum += f(low+float64(i)*h) * float64(2+2*(i%2))
		}
		return sum * h / 3
	}
	for d := 0.0; d <= 6; d += 0.25 {
		integrals := map[Protocol]float64{
			Triangle: 2 * simpson(func(u float64) float64 {
				shift := d * math.Sqrt(2.0/3)
				return (normalBelow(-u*math.Sqrt(3)+shift) + normalBelow(-u*math.Sqrt(3)-shift)) * normalDensity(u)
			}, 0, 10),
			ThreeAFC: simpson(func(u float64) float64 {
				return normalDensity(u-d) * normalBelow(u) * normalBelow(u)
			}, -10, 10+d),
			Tetrad: 1 - 2*simpson(func(u float64) float64 {
				above := normalBelow(u - d)
				return normalDensity(u) * (2*normalBelow(u)*above - above*above)
			}, -10, 10+d),
		}
		for _, protocol := range []Protocol{Triangle, ThreeAFC, Tetrad} {
			same(t, fmt.Sprintf("%s at %g", protocol, d), protocol.ProportionCorrect(d), integrals[protocol], 1e-10)
		}
		for _, protocol := range Protocols() {
			const h = 1e-4
			if d > h {
				slope := (protocol.ProportionCorrect(d+h) - protocol.ProportionCorrect(d-h)) / (2 * h)
				same(t, fmt.Sprintf("slope of %s at %g", protocol, d), protocol.Slope(d), slope, 1e-8)
			}
			// A proportion nearer to 1 than rounding has no d′ to go back to.
			same(t, fmt.Sprintf("%s to and from %g", protocol, d), protocol.Distance(protocol.ProportionCorrect(d)), d, 2e-7)
		}
	}
}
