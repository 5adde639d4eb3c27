// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
)

// CochranQ tests whether a descriptor was ticked equally often for all beers.
// Row i holds the ticks of assessor i. With two beers P is exact (McNemar).
//
//	Q = (k − 1)·(k·ΣCj² − (ΣCj)²)/(k·ΣRi − ΣRi²)
//
// Units: none; Cj ticks of beer j, Ri ticks of assessor i.
//
//   - Source: cochran1950, from memory.
//   - Valid: each assessor judged all beers; chi-square with k − 1 degrees of freedom. Rows all alike: 0.
//   - Check: ten assessors, ticks 8, 6, 2: Q 7.000, p 0.03020.
//   - Tag: computed
func CochranQ(ticks [][]bool) (RankTest, error) {
	if len(ticks) == 0 || len(ticks[0]) < 2 {
		return RankTest{}, fmt.Errorf("ticks: an assessor and two beers are the least")
	}
	k := len(ticks[0])
	columns, rows, rowSquares := make([]float64, k), 0.0, 0.0
	first, second := 0, 0
	for i, row := range ticks {
		if len(row) != k {
			return RankTest{}, fmt.Errorf("ticks: assessor %d judged %d beers, the first %d", i+1, len(row), k)
		}
		count := 0.0
		for j, ticked := range row {
			if ticked {
				columns[j]++
				count++
			}
		}
		rows += count
		rowSquares += count * count
		switch {
		case k == 2 && row[0] && !row[1]:
			first++
		case k == 2 && !row[0] && row[1]:
			second++
		}
	}
	q := 0.0
	if below := float64(k)*rows - rowSquares; below > 0 {
		squares := 0.0
		for _, c := range columns {
			squares += c * c
		}
		q = float64(k-1) * (float64(k)*squares - rows*rows) / below
	}
	p := chiSquareAbove(q, float64(k-1))
	test := RankTest{Statistic: q, DF: k - 1, ChiSquare: p, P: p, Method: "chi-square"}
	if k == 2 {
		test.P, test.Method = min(1, 2*halfTail(max(first, second), first+second)), "exact"
	}
	return test, nil
}

// Penalty is what one side of "just about right" costs: how many say so and by
// how much less they like the beer.
type Penalty struct {
	Count int
	Share float64
	Mean  float64 // liking of those who say so; NaN when nobody does
	Drop  float64 // liking of those for whom it is just right, less Mean
}

// Weighted returns drop times share: what the panel as a whole loses.
func (p Penalty) Weighted() float64 {
	if p.Count == 0 {
		return 0
	}
	return p.Drop * p.Share
}

// JustRight is a scale of five levels, 1 much too little, 3 just about right, 5
// much too much, set against how much the same people like the same beer.
type JustRight struct {
	Low, High Penalty
	Right     int     // how many say just about right
	RightMean float64 // their liking
	Direction float64 // exact two-sided probability of so uneven a split between low and high
}

// Penalties weighs the answers too little and too much by the liking they cost.
//
//	drop = mean liking of just right − mean liking of the side
//	direction: min(1, 2·P(Bin(low + high, ½) ≥ max(low, high)))
//
// Units: levels of liking.
//
//   - Source: astmmnl63, from memory; rule of thumb: act from a share of 20 % and a drop of 1 on a scale of nine.
//   - Valid: both asked of the same people about the same beer.
//   - Check: 20 people, 7 low, 10 right, 3 high: drops 2.2714 and 1.7, weighted 0.795 and 0.255, direction 0.34375.
//   - Tag: computed
func Penalties(levels []int, liking []float64) JustRight {
	var groups [3][]float64
	for i, level := range levels {
		switch {
		case level < 3:
			groups[0] = append(groups[0], liking[i])
		case level == 3:
			groups[1] = append(groups[1], liking[i])
		default:
			groups[2] = append(groups[2], liking[i])
		}
	}
	j := JustRight{Right: len(groups[1]), RightMean: mean(groups[1])}
	side := func(group []float64) Penalty {
		p := Penalty{Count: len(group), Share: float64(len(group)) / float64(len(levels)), Mean: mean(group)}
		p.Drop = j.RightMean - p.Mean
		return p
	}
	j.Low, j.High = side(groups[0]), side(groups[2])
	low, high := j.Low.Count, j.High.Count
	j.Direction = min(1, 2*halfTail(max(low, high), low+high))
	return j
}

// WelchT compares the means of two groups of different people without assuming
// equal scatter, two-sided.
//
//	t = (x̄ − ȳ)/√(sx²/nx + sy²/ny),  df = (sx²/nx + sy²/ny)²/(sx⁴/(nx²·(nx − 1)) + sy⁴/(ny²·(ny − 1)))
//
// Units: those of the scale.
//
//   - Source: welch1947, from memory.
//   - Valid: at least two in each group, not all alike.
//   - Check: liking of 10 just right against 7 low: t 6.2053, df 11.70, p 5.08e-5.
//   - Tag: computed
func WelchT(x, y []float64) (t, df, p float64) {
	a, b := variance(x)/float64(len(x)), variance(y)/float64(len(y))
	t = (mean(x) - mean(y)) / math.Sqrt(a+b)
	df = square(a+b) / (a*a/float64(len(x)-1) + b*b/float64(len(y)-1))
	return t, df, ratingStudentTails(t, df)
}

// StuartMaxwell tests whether the same people split alike over three answers
// for two beers. Counts[i][j] is how many answered i for the first beer and j
// for the second.
//
//	X² = dᵀ·S⁻¹·d,  di = rowi − columni,  Sii = rowi + columni − 2·nii,  Sij = −(nij + nji)
//
// Units: none; chi-square with 2 degrees of freedom.
//
//   - Source: stuart1955 and maxwell1970, from memory.
//   - Valid: some changed their answer each way; NaN when S can't be inverted.
//   - Check: 4 5 1, 2 9 1, 0 3 5 give 2.4615, p 0.2921.
//   - Tag: computed
func StuartMaxwell(counts [3][3]int) (statistic, p float64) {
	var d [2]float64
	var s [2][2]float64
	for i := range d {
		row, column := 0, 0
		for j := range 3 {
			row += counts[i][j]
			column += counts[j][i]
		}
		d[i] = float64(row - column)
		s[i][i] = float64(row + column - 2*counts[i][i])
	}
	s[0][1] = -float64(counts[0][1] + counts[1][0])
	determinant := s[0][0]*s[1][1] - s[0][1]*s[0][1]
	statistic = (d[0]*d[0]*s[1][1] - 2*d[0]*d[1]*s[0][1] + d[1]*d[1]*s[0][0]) / determinant
	return statistic, chiSquareAbove(statistic, 2)
}
