// SPDX-License-Identifier: MIT

package uncertainty

import "math"

// Regression gathers, sample by sample, how outputs follow their inputs in a
// straight line. Inputs are best given in standard deviations from their mean,
// so that no digits are lost. Parts of a sample may be gathered apart and
// joined.
type Regression struct {
	inputs, outputs int

	n    float64
	sx   []float64   // sums of the inputs
	sy   []float64   // sums of the outputs
	sxx  [][]float64 // upper triangle of sums of products of inputs
	sxy  [][]float64 // by output, of its products with inputs
	syy  []float64
	from []float64 // outputs are counted from here
}

// NewRegression returns one that has seen nothing. Outputs are counted from the
// given values, which should be near their means.
func NewRegression(inputs int, from []float64) *Regression {
	r := &Regression{inputs: inputs, outputs: len(from), from: from}
	r.sx, r.sy, r.syy = make([]float64, inputs), make([]float64, len(from)), make([]float64, len(from))
	for range inputs {
		r.sxx = append(r.sxx, make([]float64, inputs))
	}
	for range from {
		r.sxy = append(r.sxy, make([]float64, inputs))
	}
	return r
}

// Add takes n samples in: x[j][i] is input j, y[k][i] output k of sample i.
func (r *Regression) Add(n int, x, y [][]float64) {
	r.n += float64(n)
	for j := range r.inputs {
		xj := x[j][:n]
		r.sx[j] += total(xj)
		for k := j; k < r.inputs; k++ {
			r.sxx[j][k] += dot(xj, x[k][:n])
		}
	}
	for k := range r.outputs {
		yk, from := y[k][:n], r.from[k]
		sum, squares := 0.0, 0.0
		for _, v := range yk {
			d := v - from
			sum += d
			squares += d * d
		}
		r.sy[k] += sum
		r.syy[k] += squares
		for j := range r.inputs {
			xj := x[j][:n]
			r.sxy[k][j] += dot(xj, yk) - from*total(xj)
		}
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
		r.syy[k] += o.syy[k]
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

// dot is the sum of products, in four strands that a processor can work on at
// once.
func dot(x, y []float64) float64 {
	y = y[:len(x)]
	var a, b, c, d float64
	i := 0
	for ; i+4 <= len(x); i += 4 {
		a += x[i] * y[i]
		b += x[i+1] * y[i+1]
		c += x[i+2] * y[i+2]
		d += x[i+3] * y[i+3]
	}
	for ; i < len(x); i++ {
		a += x[i] * y[i]
	}
	return (a + b) + (c + d)
}

// Share says how much of the variance of an output an input makes.
type Share struct {
	Input int
	Share float64
	Slope float64 // of the output, per unit of the input
}

// Shares returns, for one output, the share of its variance that each input
// makes by itself, in the order of the inputs, and their sum. The slopes are
// those of a common straight line through all inputs (least squares).
//
//	S = b²·Var(x)/Var(y)    sum = Σ S
//
// What the sum leaves to 1 is in bends, and in inputs that act only together.
// In a linear model of independent inputs it is 1, and the shares are those of
// the closed form. Units: none.
//
//   - Source: saltelli2008, squared standardised regression coefficients; from memory.
//   - Valid: independent inputs. Of an output that bends, a share is that of its straight part.
//   - Check: closed form of linear models, within the error of the sample.
//   - Tag: from memory
func (r *Regression) Shares(output int) (shares []Share, sum float64) {
	shares = make([]Share, r.inputs)
	variance := r.syy[output] - r.sy[output]*r.sy[output]/r.n
	if !(variance > 0) {
		for j := range shares {
			shares[j].Input = j
		}
		return shares, 0
	}
	c, means := r.covariances()
	b := make([]float64, r.inputs)
	for j := range b {
		b[j] = r.sxy[output][j] - means[j]*r.sy[output]
	}
	solveCholesky(c, b)
	for j := range shares {
		own := r.sxx[j][j] - r.sx[j]*means[j]
		shares[j] = Share{j, b[j] * b[j] * own / variance, b[j]}
		sum += shares[j].Share
	}
	return shares, sum
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

// solveCholesky solves c·x = b in place for a symmetric positive c, which it
// overwrites. An input that doesn't vary gets 0.
//
//	c = L·Lᵀ, then L·z = b, then Lᵀ·x = z
//
// Units: those of b over c.
//
//   - Source: derived, factorisation of Cholesky.
//   - Valid: symmetric positive matrices.
//   - Check: linear models give back their slopes.
//   - Tag: derived
func solveCholesky(c [][]float64, b []float64) {
	n := len(b)
	for j := range n {
		d := c[j][j] - dot(c[j][:j], c[j][:j])
		if !(d > 1e-12*c[j][j]) || math.IsInf(d, 0) {
			d = math.Inf(1) // no variation of its own
		}
		c[j][j] = math.Sqrt(d)
		for i := j + 1; i < n; i++ {
			c[i][j] = (c[i][j] - dot(c[i][:j], c[j][:j])) / c[j][j]
		}
	}
	for i := range n {
		b[i] = (b[i] - dot(c[i][:i], b[:i])) / c[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			b[i] -= c[k][i] * b[k]
		}
		b[i] /= c[i][i]
	}
}
