// SPDX-License-Identifier: MIT

package uncertainty

import (
	"math"
	"slices"
)

// Regression gathers, sample by sample, how outputs follow their inputs in a
// straight line. Inputs are given in standard deviations of their distributions
// from their means, outputs counted from a value near their mean, so that no
// digits are lost. Parts of a sample may be gathered apart and joined.
type Regression struct {
	inputs, outputs int

	n   float64
	sx  []float64   // sums of the inputs
	sy  []float64   // sums of the outputs
	sxx [][]float64 // upper triangle of sums of products of inputs
	sxy [][]float64 // by output, of its products with inputs
	syy [][]float64 // upper triangle of sums of products of outputs
}

// NewRegression returns one that has seen nothing.
func NewRegression(inputs, outputs int) *Regression {
	r := &Regression{inputs: inputs, outputs: outputs, sx: make([]float64, inputs), sy: make([]float64, outputs)}
	r.sxx, r.sxy, r.syy = table(inputs, inputs), table(outputs, inputs), table(outputs, outputs)
	return r
}

// table returns rows of zeros that lie side by side.
func table(rows, columns int) [][]float64 {
	all, cells := make([][]float64, rows), make([]float64, rows*columns)
	for i := range all {
		all[i] = cells[i*columns : (i+1)*columns]
	}
	return all
}

// Add takes n samples in: x[j][i] is input j, y[k][i] output k of sample i.
func (r *Regression) Add(n int, x, y [][]float64) {
	r.n += float64(n)
	for j := range r.inputs {
		xj := x[j][:n]
		r.sx[j] += total(xj)
		dots(xj, x[j:r.inputs], r.sxx[j][j:])
	}
	for k := range r.outputs {
		yk := y[k][:n]
		r.sy[k] += total(yk)
		dots(yk, x[:r.inputs], r.sxy[k])
		dots(yk, y[k:r.outputs], r.syy[k][k:])
	}
}

// Join takes in what another has gathered.
func (r *Regression) Join(o *Regression) {
	r.n += o.n
	for j := range r.inputs {
		r.sx[j] += o.sx[j]
		for k := range r.inputs {
			r.sxx[j][k] += o.sxx[j][k]
		}
	}
	for k := range r.outputs {
		r.sy[k] += o.sy[k]
		for i := range r.outputs {
			r.syy[k][i] += o.syy[k][i]
		}
		for j := range r.inputs {
			r.sxy[k][j] += o.sxy[k][j]
		}
	}
}

func total(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum
}

// dot is the sum of products.
func dot(x, y []float64) float64 {
	var sum [1]float64
	dots(x, [][]float64{y}, sum[:])
	return sum[0]
}

// dots adds to each sum the products of x with one of the ys, four of them at
// a time: a processor works on the four at once and reads x once.
func dots(x []float64, ys [][]float64, sums []float64) {
	k := 0
	for ; k+4 <= len(ys); k += 4 {
		y0, y1, y2, y3 := ys[k][:len(x)], ys[k+1][:len(x)], ys[k+2][:len(x)], ys[k+3][:len(x)]
		var a, b, c, d float64
		for i, v := range x {
			a += v * y0[i]
			b += v * y1[i]
			c += v * y2[i]
			d += v * y3[i]
		}
		sums[k] += a
		sums[k+1] += b
		sums[k+2] += c
		sums[k+3] += d
	}
	for ; k < len(ys); k++ {
		y, sum := ys[k][:len(x)], 0.0
		for i, v := range x {
			sum += v * y[i]
		}
		sums[k] += sum
	}
}

// Share says how much of the variance of an output an input makes.
type Share struct {
	Input int
	Share float64
	Slope float64 // change of the output with one standard deviation of the input
}

// Solved is a regression with its straight lines worked out.
type Solved struct {
	slopes [][]float64 // by output
	rest   []float64   // by output: variance about its straight line
}

// Solve works out the straight lines through all inputs (least squares).
func (r *Regression) Solve() *Solved {
	c, means := r.covariances()
	factor(c)
	s := &Solved{}
	for k := range r.outputs {
		right := make([]float64, r.inputs)
		for j := range right {
			right[j] = r.sxy[k][j] - means[j]*r.sy[k]
		}
		b := slices.Clone(right)
		substitute(c, b)
		spread := r.syy[k][k] - r.sy[k]*r.sy[k]/r.n
		s.slopes = append(s.slopes, b)
		s.rest = append(s.rest, math.Max(spread-dot(right, b), 0)/r.n)
	}
	return s
}

// Shares returns, for one output, the share of its variance that each input
// makes by itself, in the order of the inputs, and their sum. The slopes are
// those of a common straight line through all inputs.
//
//	S = b²/(Σ b² + r)    sum = Σ S
//
// b is the slope per standard deviation of an input, r the variance about the
// line: what the sum leaves to 1 is in bends, and in inputs that act only
// together. In a linear model r is 0 and the shares are exactly those of the
// closed form. Units: none.
//
//   - Source: saltelli2008, squared standardised regression coefficients; from memory.
//   - Valid: independent inputs. Of an output that bends, a share is that of its straight part.
//   - Check: closed form of linear models, to rounding.
//   - Tag: from memory
func (s *Solved) Shares(output int) (shares []Share, sum float64) {
	b := s.slopes[output]
	shares = make([]Share, len(b))
	variance := s.rest[output] + dot(b, b)
	for j := range shares {
		shares[j].Input = j
		if variance > 0 {
			shares[j] = Share{j, b[j] * b[j] / variance, b[j]}
		}
		sum += shares[j].Share
	}
	return shares, sum
}

// Correlations returns how far each two outputs go together: a row and a column
// for each. An output that doesn't vary goes with none.
func (r *Regression) Correlations() [][]float64 {
	all := make([][]float64, r.outputs)
	about := func(i, k int) float64 { return r.syy[min(i, k)][max(i, k)] - r.sy[i]*r.sy[k]/r.n }
	for i := range all {
		all[i] = make([]float64, r.outputs)
		for k := range all[i] {
			if scale := math.Sqrt(about(i, i) * about(k, k)); scale > 0 {
				all[i][k] = about(i, k) / scale
			}
		}
	}
	return all
}

// covariances returns the sums of products of the inputs about their means, as
// a full matrix, and the means.
func (r *Regression) covariances() (c [][]float64, means []float64) {
	c, means = make([][]float64, r.inputs), make([]float64, r.inputs)
	for j := range means {
		means[j] = r.sx[j] / r.n
		c[j] = make([]float64, r.inputs)
	}
	for j := range c {
		for k := j; k < r.inputs; k++ {
			c[j][k] = r.sxx[j][k] - r.sx[j]*means[k]
			c[k][j] = c[j][k]
		}
	}
	return c, means
}

// factor writes the lower triangle of Cholesky into c, which must be symmetric.
// Where an input doesn't vary by itself, the diagonal is infinite.
//
//	c = L·Lᵀ
//
// Units: L has those of √c.
//
//   - Source: derived, factorisation of Cholesky.
//   - Valid: symmetric matrices that are not negative.
//   - Check: linear models give back their slopes.
//   - Tag: derived
func factor(c [][]float64) {
	for j := range c {
		d := c[j][j] - dot(c[j][:j], c[j][:j])
		if !(d > 1e-12*c[j][j]) {
			d = math.Inf(1)
		}
		c[j][j] = math.Sqrt(d)
		for i := j + 1; i < len(c); i++ {
			c[i][j] = (c[i][j] - dot(c[i][:j], c[j][:j])) / c[j][j]
		}
	}
}

// substitute solves L·Lᵀ·x = b in place, with L from [factor]. An input that
// doesn't vary gets 0.
func substitute(l [][]float64, b []float64) {
	for i := range b {
		b[i] = (b[i] - dot(l[i][:i], b[:i])) / l[i][i]
	}
	for i := len(b) - 1; i >= 0; i-- {
		for k := i + 1; k < len(b); k++ {
			b[i] -= l[k][i] * b[k]
		}
		b[i] /= l[i][i]
	}
}
