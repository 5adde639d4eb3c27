// SPDX-License-Identifier: MIT

package uncertainty

import (
	"math"
	"slices"
)

// Moments gathers mean and standard deviation of numbers as they come, without
// keeping them. The zero value has seen nothing.
type Moments struct {
	N    int
	Mean float64

	squares float64 // sum of squared distances from the mean
}

// Add takes one more number in.
//
//	m' = m + (x − m)/n    S' = S + (x − m)·(x − m')
//
// Units: those of x.
//
//   - Source: welford1962, updating formulas; from memory.
//   - Valid: any numbers.
//   - Check: 2, 4, 4, 4, 5, 5, 7, 9 have mean 5 and a sum of squares of 32.
//   - Tag: from memory
func (m *Moments) Add(x float64) {
	m.N++
	d := x - m.Mean
	m.Mean += d / float64(m.N)
	m.squares += d * (x - m.Mean)
}

// Join takes in what another has gathered.
//
//	m' = m + d·k/(n + k)    S' = S + S₂ + d²·n·k/(n + k)    d = m₂ − m
//
// n and k are the counts. Units: those of the numbers.
//
//   - Source: chan1983, pairwise updating; from memory.
//   - Valid: any numbers.
//   - Check: equals all numbers added one by one.
//   - Tag: from memory
func (m *Moments) Join(o Moments) {
	if o.N == 0 {
		return
	}
	n, k := float64(m.N), float64(o.N)
	d := o.Mean - m.Mean
	m.N += o.N
	m.Mean += d * k / (n + k)
	m.squares += o.squares + d*d*n*k/(n+k)
}

// SD returns the standard deviation of a sample, 0 for fewer than two numbers.
//
//	s = √(S/(n − 1))
//
// Units: those of the numbers.
//
//   - Source: derived, definition.
//   - Valid: two numbers or more.
//   - Check: √(32/7) for the eight numbers of [Moments.Add].
//   - Tag: derived
func (m *Moments) SD() float64 {
	if m.N < 2 {
		return 0
	}
	return math.Sqrt(m.squares / float64(m.N-1))
}

// Quantile returns the value below which the share p of sorted numbers lies,
// in a straight line between neighbours; NaN where there are none.
//
//	x = s[k] + (h − k)·(s[k+1] − s[k])    h = (n − 1)·p, k = ⌊h⌋, from 0
//
// Units: those of the numbers.
//
//   - Source: hyndman1996, definition 7; from memory.
//   - Valid: p from 0 to 1; values that can be anything in between.
//   - Check: 0, 1, 2, 3 have a quartile of 0.75.
//   - Tag: from memory
func Quantile(sorted []float64, p float64) float64 {
	if len(sorted) == 0 {
		return math.NaN()
	}
	h := float64(len(sorted)-1) * p
	k := min(int(h), len(sorted)-1)
	if k == len(sorted)-1 {
		return sorted[k]
	}
	return sorted[k] + (h-float64(k))*(sorted[k+1]-sorted[k])
}

// Range is an interval with a share of the distribution in it.
type Range struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// Has reports whether x lies in the range.
func (r Range) Has(x float64) bool { return r.Low <= x && x <= r.High }

// Central returns the range with the share p of sorted numbers in its middle,
// as many below it as above.
//
//	from the quantile (1 − p)/2 to the quantile (1 + p)/2
//
// Units: those of the numbers.
//
//   - Source: derived, definition of a central interval.
//   - Valid: as [Quantile].
//   - Check: of 0 … 100 the half is 25 to 75.
//   - Tag: derived
func Central(sorted []float64, p float64) Range {
	return Range{Quantile(sorted, (1-p)/2), Quantile(sorted, (1+p)/2)}
}

// Summary is what a sample says of one number.
type Summary struct {
	Mean, SD, Median float64

	Half   Range // 50 % lie in it
	Most   Range // 90 %
	Nearly Range // 95 %
	Sigma  Range // 68.27 %: what one standard deviation to either side is to a normal distribution
}

// oneSD is the share of a normal distribution within one standard deviation.
var oneSD = math.Erf(1 / math.Sqrt2)

// Summarise describes a sample. It changes the order of the numbers.
func Summarise(sample []float64) Summary {
	var m Moments
	for _, x := range sample {
		m.Add(x)
	}
	s := Summary{Mean: m.Mean, SD: m.SD()}
	ends := []struct {
		share float64
		r     *Range
	}{{0.95, &s.Nearly}, {0.9, &s.Most}, {oneSD, &s.Sigma}, {0.5, &s.Half}}
	var wanted []int
	rank := func(p float64) {
		if k := int(float64(len(sample)-1) * p); k >= 0 {
			wanted = append(wanted, k, min(k+1, len(sample)-1))
		}
	}
	for _, e := range ends {
		rank((1 - e.share) / 2)
		rank((1 + e.share) / 2)
	}
	rank(0.5)
	slices.Sort(wanted)
	place(sample, slices.Compact(wanted), 0)
	for _, e := range ends {
		*e.r = Central(sample, e.share)
	}
	s.Median = Quantile(sample, 0.5)
	return s
}

// place puts the numbers of the wanted ranks where they would stand if all were
// sorted, as far as these stand in numbers, whose first has the rank from: the
// parts that hold none of the ranks stay in disorder.
func place(numbers []float64, ranks []int, from int) {
	const few = 24
	for len(ranks) > 0 {
		if len(numbers) <= few {
			slices.Sort(numbers)
			return
		}
		low, high := split(numbers)
		first, _ := slices.BinarySearch(ranks, from+low)
		last, _ := slices.BinarySearch(ranks, from+high)
		place(numbers[:low], ranks[:first], from)
		numbers, ranks, from = numbers[high:], ranks[last:], from+high
	}
}

// split parts numbers about the middle one of three of them, which is returned
// as the stretch of what equals it: less stands before, more behind.
func split(numbers []float64) (low, high int) {
	pivot := middleOf(numbers[0], numbers[len(numbers)/2], numbers[len(numbers)-1])
	i, j := 0, len(numbers)-1
	for i <= j {
		for numbers[i] < pivot {
			i++
		}
		for numbers[j] > pivot {
			j--
		}
		if i <= j {
			numbers[i], numbers[j] = numbers[j], numbers[i]
			i++
			j--
		}
	}
	return j + 1, i
}

// middleOf returns the middle one of three numbers.
func middleOf(a, b, c float64) float64 {
	return max(min(a, b), min(max(a, b), c))
}

// Correlation returns how far two numbers of the same samples go together,
// from −1 to 1; 0 where one of them doesn't vary.
//
//	r = Σ(x − mx)(y − my)/√(Σ(x − mx)²·Σ(y − my)²)
//
// Units: none.
//
//   - Source: derived, definition of the correlation of Pearson.
//   - Valid: samples of the same length.
//   - Check: 1 for y = 2x + 3, −1 for y = −x.
//   - Tag: derived
func Correlation(x, y []float64) float64 {
	var mx, my Moments
	for i := range x {
		mx.Add(x[i])
		my.Add(y[i])
	}
	sum := 0.0
	for i := range x {
		sum += (x[i] - mx.Mean) * (y[i] - my.Mean)
	}
	if scale := math.Sqrt(mx.squares * my.squares); scale > 0 {
		return sum / scale
	}
	return 0
}
