// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"sync"
)

var (
	sqrt6     = math.Sqrt(6)
	twoThirds = math.Sqrt(2.0 / 3)
)

// Slope returns how fast the proportion of right answers rises with d′.
//
//	2-AFC     φ(d/√2)/√2
//	3-AFC     √2 φ(d/√2) Φ(d/√6)
//	duo-trio  φ(d/√2)/√2 · (2Φ(d/√6) − 1) + φ(d/√6)/√6 · (2Φ(d/√2) − 1)
//	triangle  √⅔ φ(d/√6) (2Φ(d/√2) − 1)
//	tetrad    2√2 φ(d/√2) (2Φ(d/√6) − 1)
//
// All are numbers without unit; Φ and φ are the standard normal distribution and
// density. They are the derivatives of the formulas of [Protocol.ProportionCorrect],
// worked out with φ(u)φ(u−d) = φ(d/√2)/√2 times the density of a normal variable of mean d/2
// and variance ½.
//
//   - Source: derived from the formulas of ennis1993 and ennis1998; bi2013 says that
//     triangle and tetrad have closed forms.
//   - Valid: as the formulas.
//   - Check: d′ from 0 to 4 by integrals of the published forms, 1e-10; variances B
//     of five protocols within half of the last digit.
//   - Tag: derived
func (p Protocol) Slope(d float64) float64 { return p.law().slope(d) }

func pairRight(d float64) float64 { return normalBelow(d / math.Sqrt2) }

func pairSlope(d float64) float64 { return normalDensity(d/math.Sqrt2) / math.Sqrt2 }

func threeSlope(d float64) float64 {
	return math.Sqrt2 * normalDensity(d/math.Sqrt2) * normalBelow(d/sqrt6)
}

func duoTrioRight(d float64) float64 {
	a, b := normalBelow(d/math.Sqrt2), normalBelow(d/sqrt6)
	return 1 - a - b + 2*a*b
}

func duoTrioSlope(d float64) float64 {
	return normalDensity(d/math.Sqrt2)/math.Sqrt2*within(d/sqrt6) + normalDensity(d/sqrt6)/sqrt6*within(d/math.Sqrt2)
}

func triangleSlope(d float64) float64 {
	return twoThirds * normalDensity(d/sqrt6) * within(d/math.Sqrt2)
}

func tetradSlope(d float64) float64 {
	return 2 * math.Sqrt2 * normalDensity(d/math.Sqrt2) * within(d/sqrt6)
}

// within is 2Φ(z) − 1, the probability of a normal variable to lie within ±z.
func within(z float64) float64 { return math.Erf(z / math.Sqrt2) }

// The quadrature: panels no longer than panelLength, gaussPoints in each. The
// slopes are smooth over a panel; 1e-14 is reached.
const (
	gaussPoints = 16
	panelLength = 2.0
)

// integrate returns the integral of a smooth function by Gauss–Legendre panels.
func integrate(f func(float64) float64, from, to float64) float64 {
	panels := max(1, int(math.Ceil(math.Abs(to-from)/panelLength)))
	half := (to - from) / float64(2*panels)
	sum := 0.0
	for i := range panels {
		mid := from + half*float64(2*i+1)
		for _, node := range gauss() {
			sum += node.weight * f(mid+half*node.at)
		}
	}
	return sum * half
}

type gaussNode struct{ at, weight float64 }

// gauss returns the nodes of the Gauss–Legendre rule on −1 to 1: the zeros of the
// Legendre polynomial by Newton's rule.
var gauss = sync.OnceValue(func() []gaussNode {
	nodes := make([]gaussNode, gaussPoints)
	for i := range nodes {
		x := math.Cos(math.Pi * (float64(i) + 0.75) / (gaussPoints + 0.5))
		slope := 0.0
		for range 20 {
			value, before := x, 1.0
			for k := 2; k <= gaussPoints; k++ {
				value, before = (float64(2*k-1)*x*value-float64(k-1)*before)/float64(k), value
			}
			slope = gaussPoints * (x*value - before) / (x*x - 1)
			x -= value / slope
		}
		nodes[i] = gaussNode{x, 2 / ((1 - x*x) * slope * slope)}
	}
	return nodes
})
