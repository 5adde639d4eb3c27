// SPDX-License-Identifier: MIT

package ferment

import (
	"cmp"
	"math"
	"slices"

	"gyle/quantity"
	"gyle/science/gravity"
)

// What the fit assumes (estimates).
const (
	readingSD       = 0.1  // °P, error of a reading until the readings show their own scatter
	endSD           = 0.7  // °P, how far the end may lie from what the yeast is expected to do
	fitReadings     = 4    // fewer readings than parameters make no curve
	freeReadings    = 6    // from so many on the end may be fitted freely
	leastFall       = 0.1  // share of the expected fall that must be seen first
	lowestEnd       = -1   // °P
	steepest        = 1.0  // 1/h
	flattest        = 1e-4 // 1/h
	fitRounds       = 200
	parametersOfFit = 4
)

// Fit is a logistic curve through the readings of a gyle.
type Fit struct {
	Curve   Logistic
	SD      quantity.Plato // scatter of the readings about the curve
	EndHeld bool           // the end was held near the expectation: too few readings

	covariance square // of the parameters, for a reading error of 1 °P
}

// The parameters of the fit: start, end, ln of the steepness per hour, middle
// in hours.
type parameters [parametersOfFit]float64

type square [parametersOfFit][parametersOfFit]float64

func (p parameters) curve() Logistic {
	return Logistic{
		Start: quantity.Plato(p[0]), End: quantity.Plato(p[1]),
		Steepness: PerHour(math.Exp(p[2])), Middle: quantity.Hours(p[3]),
	}
}

func (c Logistic) parameters() parameters {
	return parameters{float64(c.Start), float64(c.End), math.Log(perHour(c.Steepness)), c.Middle.Hours()}
}

// FitLogistic lays a logistic curve through the readings of a gyle by least
// squares (Levenberg and Marquardt). While there are fewer than 6 readings, or
// none in the lower half of the fall, the end is held near the expectation,
// which is the original extract times (1 − attenuation). It returns false while
// there are fewer than 4 readings or the fall has hardly begun.
//
//	minimise Σ (P(ti) − Pi)²/0.1² [+ (Pe − expected)²/0.7² while the end is held]
//	bounds: Pe from −1 °P to P0, B from 0.0001 to 1 per h
//
// Units: P in °P, t in h, B in 1/h; 0.1 and 0.7 °P are estimates.
//
//   - Source: marquardt1963, method; curve as [Logistic.At].
//   - Valid: one smooth fall; no sugar added on the way.
//   - Check: readings computed from a curve give its four parameters back.
//   - Tag: derived
func FitLogistic(readings []Reading, expectedEnd quantity.Plato) (Fit, bool) {
	points := pointsOf(readings)
	start, ok := firstGuess(points, float64(expectedEnd))
	if !ok {
		return Fit{}, false
	}
	middle := (points[0].plato + float64(expectedEnd)) / 2
	past := slices.ContainsFunc(points, func(p point) bool { return p.plato < middle })
	task := fitting{points: points, expectedEnd: float64(expectedEnd), held: len(points) < freeReadings || !past}
	best := task.minimise(start)
	return task.result(best)
}

// Band returns the range in which a reading at a time is expected to lie, one
// standard deviation to either side, in °P.
//
//	SD² = σ²·(1 + gᵀ·C·g),  C = (JᵀJ)⁻¹
//
// Units: σ in °P; g is the slope of the curve at that time, J the slopes at the
// readings, by the four parameters.
//
//   - Source: marquardt1963, linearised covariance.
//   - Valid: near the readings; far ahead it is too narrow.
//   - Check: computed from the formula above: later readings narrow it.
//   - Tag: derived
func (f Fit) Band(time quantity.Duration) quantity.Band {
	at := f.Curve.parameters()
	g := at.slopes(time.Hours())
	variance := 1.0
	for i := range g {
		for j := range g {
			variance += g[i] * f.covariance[i][j] * g[j]
		}
	}
	return quantity.BandOf(float64(f.Curve.At(time)), float64(f.SD)*math.Sqrt(variance))
}

// FallToCome returns what the curve has still to fall after a time.
func (f Fit) FallToCome(time quantity.Duration) quantity.Plato {
	return f.Curve.At(time) - f.Curve.End
}

type point struct{ hours, plato float64 }

func pointsOf(readings []Reading) (points []point) {
	for _, reading := range readings {
		points = append(points, point{reading.At.Hours(), float64(gravity.PlatoFromSG(reading.SG))})
	}
	slices.SortStableFunc(points, func(a, b point) int { return cmp.Compare(a.hours, b.hours) })
	return points
}

// firstGuess starts at the first reading, ends at the expectation, and takes
// steepness and middle from the steepest stretch and the last reading above
// half of the fall.
func firstGuess(points []point, end float64) (parameters, bool) {
	if len(points) < fitReadings {
		return parameters{}, false
	}
	start, last := points[0].plato, points[len(points)-1].plato
	if fall := start - end; fall <= 0 || start-last < leastFall*fall {
		return parameters{}, false
	}
	steepness := clamp(4*steepestStretch(points)/(start-end), 0.005, steepest)
	return parameters{start, end, math.Log(steepness), guessMiddle(points, end, steepness)}, true
}

func steepestStretch(points []point) (platoPerHour float64) {
	for i := 1; i < len(points); i++ {
		if hours := points[i].hours - points[i-1].hours; hours > 0 {
			platoPerHour = max(platoPerHour, (points[i-1].plato-points[i].plato)/hours)
		}
	}
	return platoPerHour
}

// guessMiddle returns the time at which half of the fall is done: between two
// readings if they bracket it, else along the curve from the last one.
func guessMiddle(points []point, end, steepness float64) float64 {
	start := points[0].plato
	half := (start + end) / 2
	for i := 1; i < len(points); i++ {
		before, after := points[i-1], points[i]
		if after.plato <= half && before.plato > half {
			share := (before.plato - half) / (before.plato - after.plato)
			return before.hours + share*(after.hours-before.hours)
		}
	}
	last := points[len(points)-1]
	left := clamp((last.plato-end)/(start-end), 0.01, 0.99)
	return last.hours - math.Log(1/left-1)/steepness
}

func clamp(x, low, high float64) float64 { return min(max(x, low), high) }

// slopes returns the derivatives of the curve by its parameters.
func (p parameters) slopes(hours float64) parameters {
	steepness := math.Exp(p[2])
	left := 1 / (1 + math.Exp(steepness*(hours-p[3]))) // share of the fall still to come
	bend := (p[0] - p[1]) * left * (1 - left)
	return parameters{left, 1 - left, -bend * steepness * (hours - p[3]), bend * steepness}
}

// A fitting is a least-squares problem.
type fitting struct {
	points      []point
	expectedEnd float64
	held        bool
}

// residuals calls each for every weighted residual with its slopes.
func (f fitting) residuals(p parameters, each func(residual float64, slopes parameters)) {
	curve := p.curve()
	for _, point := range f.points {
		slopes := p.slopes(point.hours)
		for i := range slopes {
			slopes[i] /= readingSD
		}
		each((float64(curve.At(quantity.Hours(point.hours)))-point.plato)/readingSD, slopes)
	}
	if f.held {
		each((p[1]-f.expectedEnd)/endSD, parameters{1: 1 / endSD})
	}
}

func (f fitting) cost(p parameters) (sum float64) {
	f.residuals(p, func(residual float64, _ parameters) { sum += residual * residual })
	return sum
}

// normal returns JᵀJ and Jᵀr.
func (f fitting) normal(p parameters) (matrix square, gradient parameters) {
	f.residuals(p, func(residual float64, slopes parameters) {
		for i := range slopes {
			gradient[i] += slopes[i] * residual
			for j := range slopes {
				matrix[i][j] += slopes[i] * slopes[j]
			}
		}
	})
	return matrix, gradient
}

func (f fitting) minimise(p parameters) parameters {
	damping, cost := 1e-3, f.cost(p)
	for range fitRounds {
		matrix, gradient := f.normal(p)
		for i := range matrix {
			matrix[i][i] += damping * (matrix[i][i] + 1e-12)
		}
		inverse, ok := matrix.inverse()
		next := bounded(p.minus(inverse.times(gradient)))
		nextCost := f.cost(next)
		if !ok || !(nextCost < cost) {
			if damping *= 10; damping > 1e12 {
				break
			}
			continue
		}
		gain := cost - nextCost
		p, cost, damping = next, nextCost, max(damping/10, 1e-12)
		if gain < 1e-13*(1+cost) {
			break
		}
	}
	return p
}

func bounded(p parameters) parameters {
	p[1] = clamp(p[1], lowestEnd, p[0])
	p[2] = clamp(p[2], math.Log(flattest), math.Log(steepest))
	return p
}

// result adds the scatter and the covariance to the best parameters.
func (f fitting) result(best parameters) (Fit, bool) {
	matrix, _ := f.normal(best)
	for i := range matrix {
		for j := range matrix {
			matrix[i][j] *= readingSD * readingSD
		}
	}
	covariance, ok := matrix.inverse()
	if !ok {
		return Fit{}, false
	}
	fit := Fit{Curve: best.curve(), SD: readingSD, EndHeld: f.held, covariance: covariance}
	if degrees := len(f.points) - parametersOfFit; !f.held && degrees > 0 {
		fit.SD = quantity.Plato(readingSD * math.Sqrt(f.cost(best)/float64(degrees)))
	}
	return fit, true
}

func (p parameters) minus(q parameters) parameters {
	for i := range p {
		p[i] -= q[i]
	}
	return p
}

func (m square) times(v parameters) (product parameters) {
	for i := range m {
		for j := range v {
			product[i] += m[i][j] * v[j]
		}
	}
	return product
}

// inverse inverts a matrix by Gauss and Jordan with row exchange. It returns
// false if the matrix has none.
func (m square) inverse() (inverse square, ok bool) {
	for i := range inverse {
		inverse[i][i] = 1
	}
	for column := range m {
		pivot := column
		for row := column + 1; row < len(m); row++ {
			if math.Abs(m[row][column]) > math.Abs(m[pivot][column]) {
				pivot = row
			}
		}
		if m[pivot][column] == 0 {
			return square{}, false
		}
		m[column], m[pivot] = m[pivot], m[column]
		inverse[column], inverse[pivot] = inverse[pivot], inverse[column]
		eliminate(&m, &inverse, column)
	}
	return inverse, true
}

// eliminate makes column the unit column in m and does the same to inverse.
func eliminate(m, inverse *square, column int) {
	scale := m[column][column]
	for i := range m {
		m[column][i] /= scale
		inverse[column][i] /= scale
	}
	for row := range m {
		factor := m[row][column]
		if row == column || factor == 0 {
			continue
		}
		for i := range m {
			m[row][i] -= factor * m[column][i]
			inverse[row][i] -= factor * inverse[column][i]
		}
	}
}
