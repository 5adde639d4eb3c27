// SPDX-License-Identifier: MIT

package uncertainty

import (
	"math"
	"slices"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.8g, want %.8g ± %.2g", what, got, want, tolerance)
	}
}

// Values of the standard normal distribution from memory of printed tables;
// tolerance: half of the last digit.
func TestNormalTable(t *testing.T) {
	near(t, "quantile 0.975", NormalQuantile(0.975), 1.959964, 5e-7)
	near(t, "quantile 0.95", NormalQuantile(0.95), 1.644854, 5e-7)
	near(t, "share below 1", NormalShare(1), 0.841345, 5e-7)
	for _, u := range []float64{1e-6, 0.01, 0.3, 0.5, 0.7, 0.999} {
		near(t, "there and back", NormalShare(NormalQuantile(u)), u, 1e-13)
	}
}

// The moments of each distribution are those of its own quantiles, taken at the
// middles of many equal parts (computed from the formulas above).
func TestMomentsOfDistributions(t *testing.T) {
	for _, d := range []Distribution{
		Normal{3, 2}, LogNormal{1, 0.25}, Uniform{-1, 4}, Triangular{0, 1, 4}, Triangular{2, 2, 5},
		TruncatedNormal{0, 1, -0.5, 2}, TruncatedNormal{1, 0.25, 0, math.Inf(1)},
	} {
		var m Moments
		const parts = 200_000
		for i := range parts {
			m.Add(d.Quantile((float64(i) + 0.5) / parts))
		}
		mean, sd := d.Moments()
		near(t, "mean", m.Mean, mean, 2e-5*sd)
		near(t, "sd", m.SD(), sd, 2e-4*sd)
	}
}

func TestEndsOfDistributions(t *testing.T) {
	triangle := Triangular{1, 2, 5}
	near(t, "low end", triangle.Quantile(0), 1, 0)
	near(t, "mode", triangle.Quantile(0.25), 2, 1e-15) // (2 − 1)/(5 − 1)
	near(t, "high end", triangle.Quantile(1), 5, 0)
	near(t, "a triangle without width", Triangular{2, 2, 2}.Quantile(0.3), 2, 0)
	cut := TruncatedNormal{0, 1, -1, 2}
	near(t, "cut below", cut.Quantile(0), -1, 1e-12)
	near(t, "cut above", cut.Quantile(1), 2, 1e-12)
}

// Each input is spread evenly: one sample in each nth part.
func TestHypercubeStrata(t *testing.T) {
	const rows = 97
	h := Hypercube{Seed: 1, Inputs: []Distribution{Uniform{0, 1}, Uniform{0, 1}, Uniform{0, 1}}}
	values := columns(3, rows)
	h.Draw(5, rows, values)
	for j := range values {
		seen := make([]bool, rows)
		for _, u := range values[j] {
			seen[int(u*rows)] = true
		}
		if slices.Contains(seen, false) {
			t.Errorf("input %d leaves a part empty", j)
		}
	}
	if values[0][0] == values[1][0] || Correlation(values[0], values[1]) > 0.3 {
		t.Error("two inputs go together")
	}
	again := columns(3, rows)
	h.Draw(5, rows, again)
	other := columns(3, rows)
	h.Draw(6, rows, other)
	if !slices.Equal(values[2], again[2]) || slices.Equal(values[2], other[2]) {
		t.Error("the same block must give the same numbers, another block others")
	}
}

func columns(n, rows int) [][]float64 {
	all := make([][]float64, n)
	for j := range all {
		all[j] = make([]float64, rows)
	}
	return all
}

func TestMixedBits(t *testing.T) {
	differing := 0
	for i := range uint64(1000) {
		for x := mixed(i) ^ mixed(i+1); x != 0; x &= x - 1 {
			differing++
		}
	}
	// 64 bits, half of them: mean 32, standard deviation 4/√1000 = 0.13.
	near(t, "bits that differ", float64(differing)/1000, 32, 0.6)
}

func TestMoments(t *testing.T) {
	numbers := []float64{2, 4, 4, 4, 5, 5, 7, 9} // mean 5, sum of squares 32: by hand
	var all, one, two Moments
	for i, x := range numbers {
		all.Add(x)
		if i < 3 {
			one.Add(x)
		} else {
			two.Add(x)
		}
	}
	near(t, "mean", all.Mean, 5, 1e-15)
	near(t, "sd", all.SD(), math.Sqrt(32.0/7), 1e-15)
	one.Join(two)
	near(t, "joined mean", one.Mean, 5, 1e-14)
	near(t, "joined sd", one.SD(), math.Sqrt(32.0/7), 1e-14)
}

func TestQuantiles(t *testing.T) {
	near(t, "quartile of four", Quantile([]float64{0, 1, 2, 3}, 0.25), 0.75, 1e-15) // by hand
	hundred := make([]float64, 101)
	for i := range hundred {
		hundred[i] = float64(i)
	}
	if got := Central(hundred, 0.5); got != (Range{25, 75}) {
		t.Errorf("the half of 0 to 100: %v", got)
	}
	if !math.IsNaN(Quantile(nil, 0.5)) {
		t.Error("nothing has no quantile")
	}
}

// 8 of 10 at 95 %: 0.490 to 0.943, a common example, from memory.
func TestWilson(t *testing.T) {
	low, high := Wilson(8, 10, 1.959964)
	near(t, "low end", low, 0.490, 0.0005)
	near(t, "high end", high, 0.943, 0.0005)
	near(t, "error of a half", ProbabilityOf(50, 100).Error, 0.0498, 0.00005) // computed from the formula
	near(t, "error of never", ProbabilityOf(0, 100).Error, 0.0050, 0.00005)
}

func TestCorrelation(t *testing.T) {
	x := []float64{1, 2, 5, 9}
	near(t, "up", Correlation(x, []float64{5, 7, 13, 21}), 1, 1e-15)
	near(t, "down", Correlation(x, []float64{-1, -2, -5, -9}), -1, 1e-15)
	near(t, "nothing moves", Correlation(x, []float64{1, 1, 1, 1}), 0, 0)
}

// A linear model has shares bᵢ²sᵢ²/Σ in closed form, whatever the
// distributions of its inputs.
func TestSharesOfALinearModel(t *testing.T) {
	inputs := []Distribution{Normal{1, 2}, Uniform{0, 6}, Triangular{0, 0, 3}, Normal{0, 1}}
	slopes := []float64{1, -0.7, 2, 0}
	const block, blocks = 500, 20
	h := Hypercube{Seed: 7, Inputs: inputs}
	all := NewRegression(len(inputs), 1)
	x, y := columns(len(inputs), block), columns(1, block)
	for k := range blocks {
		h.Draw(k, block, x)
		for i := range block {
			y[0][i] = 1
			for j, b := range slopes {
				y[0][i] += b * x[j][i]
			}
		}
		for j, d := range inputs {
			mean, sd := d.Moments()
			for i := range block {
				x[j][i] = (x[j][i] - mean) / sd
			}
		}
		part := NewRegression(len(inputs), 1)
		part.Add(block, x, y)
		all.Join(part)
	}
	want, sum := make([]float64, len(inputs)), 0.0
	for j, d := range inputs {
		_, sd := d.Moments()
		want[j] = slopes[j] * slopes[j] * sd * sd
		sum += want[j]
	}
	got, total := all.Solve().Shares(0)
	for j, d := range inputs {
		_, sd := d.Moments()
		near(t, "slope", got[j].Slope, slopes[j]*sd, 1e-10)
		near(t, "share", got[j].Share, want[j]/sum, 1e-10)
	}
	near(t, "sum", total, 1, 1e-10)
}

// An input that doesn't vary, and an output that doesn't, make no trouble.
func TestSharesOfNothing(t *testing.T) {
	r := NewRegression(2, 2)
	r.Add(4, [][]float64{{1, 2, 3, 4}, {5, 5, 5, 5}}, [][]float64{{1, 2, 3, 4}, {0, 0, 0, 0}})
	shares, sum := r.Solve().Shares(0)
	near(t, "the one that varies", shares[0].Share, 1, 1e-12)
	near(t, "the one that doesn't", shares[1].Share, 0, 1e-12)
	near(t, "sum", sum, 1, 1e-12)
	if c := r.Correlations(); math.Abs(c[0][0]-1) > 1e-12 || c[0][1] != 0 || c[1][1] != 0 {
		t.Errorf("correlations: %v", c)
	}
	if _, sum := r.Solve().Shares(1); sum != 0 {
		t.Errorf("an output that doesn't vary has shares of %g", sum)
	}
}

// A summary looks at few ranks; they are those of the sorted sample.
func TestSummaryIsOfTheSortedSample(t *testing.T) {
	r := Stream(3, 0)
	for _, n := range []int{1, 2, 5, 24, 25, 26, 1000, 4999} {
		for _, digits := range []float64{1e9, 7} { // all different; many equal
			sample := make([]float64, n)
			for i := range sample {
				sample[i] = math.Floor(r.Float64() * digits)
			}
			sorted := slices.Sorted(slices.Values(sample))
			s := Summarise(sample)
			for _, test := range []struct {
				got  Range
				want float64
			}{{s.Half, 0.5}, {s.Sigma, oneSD}, {s.Most, 0.9}, {s.Nearly, 0.95}} {
				if test.got != Central(sorted, test.want) {
					t.Errorf("%d numbers: %v of %g, sorted %v", n, test.got, test.want, Central(sorted, test.want))
				}
			}
			near(t, "median", s.Median, Quantile(sorted, 0.5), 0)
			slices.Sort(sample)
			if !slices.Equal(sample, sorted) {
				t.Fatal("numbers were lost")
			}
		}
	}
	if s := Summarise(nil); !math.IsNaN(s.Median) {
		t.Errorf("nothing: %+v", s)
	}
}
