// SPDX-License-Identifier: MIT

package sensory

import "math"

// Concordance is how far assessors agree about an order.
type Concordance struct {
	W            float64 // Kendall's W: 0 no agreement, 1 all alike
	MeanSpearman float64 // mean correlation of all pairs of assessors
	ChiSquare    float64
	P            float64 // as [Ranks.Friedman]: is there any agreement?
	Method       string
}

// Kendall measures how far assessors agree about an order. About likings it
// measures shared taste, not skill.
//
//	W = 12·S/(m²·(k³ − k) − m·ΣT),  S = Σ(Rj − R̄)²,  T = Σ(t³ − t) over the ties of an assessor
//	χ² = m·(k − 1)·W,  mean ρ = (m·W − 1)/(m − 1)
//
// Units: none; m assessors, k beers.
//
//   - Source: kendall1939, from memory.
//   - Valid: each assessor ranked all beers.
//   - Check: 6 assessors, 5 beers, sums 9, 11, 17, 25, 28: W 0.77778, χ² 18.667, p 9.14e-4, mean ρ 0.73333.
//   - Tag: computed
func (r Ranks) Kendall() Concordance {
	m, k := float64(r.Assessors()), float64(r.Beers())
	ties := 0.0
	for _, row := range r {
		ties += tieSum(row)
	}
	c := Concordance{}
	if below := m*m*(k*k*k-k) - m*ties; below > 0 {
		c.W = 12 * spreadAbout(r.Sums(), m*(k+1)/2) / below
	}
	c.MeanSpearman = (m*c.W - 1) / (m - 1)
	test := r.Friedman()
	c.ChiSquare, c.P, c.Method = test.Statistic, test.P, test.Method
	return c
}

// Correlation is how far two rows of numbers go together.
type Correlation struct {
	R      float64 // −1 opposite, 0 unrelated, 1 together; NaN when a row doesn't vary
	P      float64 // two-sided
	Method string
}

// Pearson returns the correlation of two rows of scores.
//
//	r = Σ(x − x̄)(y − ȳ)/√(Σ(x − x̄)²·Σ(y − ȳ)²),  t = r·√((n − 2)/(1 − r²))
//
// Units: none; t with n − 2 degrees of freedom.
//
//   - Source: student1908, test, from memory.
//   - Valid: from 3 pairs.
//   - Check: against R's cor.test.
//   - Tag: computed
func Pearson(x, y []float64) Correlation {
	c := Correlation{R: pearson(x, y), Method: "Student's t"}
	n := float64(len(x))
	if n < 3 {
		c.P = math.NaN()
		return c
	}
	c.P = ratingStudentTails(c.R*math.Sqrt((n-2)/(1-c.R*c.R)), n-2)
	if c.R*c.R >= 1 {
		c.P = 0
	}
	return c
}

func pearson(x, y []float64) float64 {
	mx, my := mean(x), mean(y)
	xx, yy, xy := 0.0, 0.0, 0.0
	for i := range x {
		xx += square(x[i] - mx)
		yy += square(y[i] - my)
		xy += (x[i] - mx) * (y[i] - my)
	}
	return max(-1, min(1, xy/math.Sqrt(xx*yy)))
}

// mostExactSpearman is up to how many pairs the exact distribution is made.
const mostExactSpearman = 9

// Spearman returns the correlation of the ranks of two rows of scores. The
// probability is exact for up to 9 pairs without ties; otherwise by Student's
// t.
//
//	ρ = r of the ranks; without ties 1 − 6·Σd²/(n³ − n)
//	P = 2·min(P(Σd' ² ≤ Σd²), P(Σd' ² ≥ Σd²)), at most 1, over all n! orders
//
// Units: none.
//
//   - Source: spearman1904, from memory.
//   - Valid: from 3 pairs.
//   - Check: against R's cor.test, exact for up to 9 pairs.
//   - Tag: computed
func Spearman(x, y []float64) Correlation {
	rx, ry := meanRanks(x), meanRanks(y)
	c := Pearson(rx, ry)
	if len(x) > mostExactSpearman || len(x) < 2 || tieSum(rx) > 0 || tieSum(ry) > 0 {
		return c
	}
	row, products := make([]int, len(x)), 0.0
	for i := range rx {
		row[i] = i + 1
		products += rx[i] * ry[i]
	}
	chances := placedSums(row)
	above, below := sumFrom(chances, int(products)), 1-sumFrom(chances, int(products)+1)
	c.P, c.Method = min(1, 2*min(above, below)), "exact"
	return c
}
