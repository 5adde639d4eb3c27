// SPDX-License-Identifier: MIT

package reconcile

import (
	"errors"
	"fmt"
	"math"
)

// A Variable is one quantity of a process. It was measured, or is known
// beforehand, with a standard deviation; or it wasn't, and then Value is only
// where the search begins.
type Variable struct {
	Name  string
	Value float64
	SD    float64 // above zero; [Unmeasured] where there is no reading
}

// Unmeasured is the standard deviation of a variable without a reading.
var Unmeasured = math.Inf(1)

// Measured reports whether v has a reading.
func (v Variable) Measured() bool { return !math.IsInf(v.SD, 1) }

// A Problem is a set of variables with the balances that their true values
// obey.
type Problem struct {
	Variables []Variable
	// Balances writes what is left of each balance for the values x: in less
	// out, zero when it closes.
	Balances func(x, left []float64)
	Count    int // number of balances
}

// A Solution holds the smoothed values and what they cost.
type Solution struct {
	Values     []float64   // close the balances
	Covariance [][]float64 // of the values
	Left       []float64   // what is left of each balance
	// Adjustments are readings less smoothed values, and AdjustmentSD how much
	// they scatter when nothing is wrong. Both are zero for what has no reading
	// or is checked by no balance.
	Adjustments, AdjustmentSD []float64
	Sum                       float64 // of the squares of adjustments over SD
	Freedom                   int     // how many checks there are: balances less unmeasured variables
	Rounds                    int
}

// SD returns the standard deviation of a smoothed value.
func (s *Solution) SD(i int) float64 { return math.Sqrt(max(s.Covariance[i][i], 0)) }

// ErrUnobservable says that some unmeasured variable can have any value, or
// that two balances say the same.
var ErrUnobservable = errors.New("the balances don't determine every value")

// ErrDiverged says that no values were found that close the balances.
var ErrDiverged = errors.New("no values close the balances")

const (
	roundsMost = 60
	closeTo    = 1e-8  // last step, in units of the standard deviations
	balanced   = 1e-11 // what may be left of a balance, in its own unit
	slope      = 1e-5  // step of the numerical derivatives, in units of the standard deviations
)

// Solve finds the values that close the balances with the least adjustment of
// the readings, linearising the balances again and again.
//
//	minimise Σ ((m − x)/s)²   subject to   g(x) = 0
//	each round:   [W Aᵀ; A 0]·[dx; λ] = [W·(m − x); −g(x)]   W = 1/s², A = dg/dx
//	Cov(x) = upper left block of the inverse;   Cov(m − x) = s² − Cov(x)
//
// Units: those of the variables.
//
//   - Source: kuehn1961, from memory; narasimhan2000, chapters 3 and 5, from memory; covariances derived from the same system.
//   - Valid: balances that are smooth, readings with independent normal errors.
//   - Check: against the closed form of the linear problem and a general optimiser of scipy (see the test); balances close to 1e-9.
//   - Tag: from memory
func Solve(p Problem) (*Solution, error) {
	w := newWork(p)
	for w.rounds = 1; w.rounds <= roundsMost; w.rounds++ {
		step, err := w.round()
		if err != nil {
			return nil, err
		}
		if math.IsNaN(step) || math.IsInf(step, 0) {
			return nil, ErrDiverged
		}
		if step < closeTo*(1+w.largest()) && w.worst() < balanced {
			return w.solution()
		}
	}
	// Rounding may keep large balances from closing further.
	if w.worst() < 100*balanced {
		return w.solution()
	}
	return nil, ErrDiverged
}

// work holds a problem in units of its standard deviations: x = start + scale·u.
type work struct {
	p        Problem
	n, m     int
	scale    []float64
	u        []float64 // where the search is
	reading  []float64 // of the measured ones, in the same units
	slopes   *matrix   // of the balances, m by n
	left     []float64
	x, spare []float64
	rounds   int
}

func newWork(p Problem) *work {
	n := len(p.Variables)
	w := &work{p: p, n: n, m: p.Count, scale: make([]float64, n), u: make([]float64, n), reading: make([]float64, n),
		slopes: newMatrix(p.Count, n), left: make([]float64, p.Count), x: make([]float64, n), spare: make([]float64, p.Count)}
	for i, v := range p.Variables {
		w.scale[i] = v.SD
		if !v.Measured() {
			w.scale[i] = max(math.Abs(v.Value)/100, 1e-6)
		}
	}
	return w
}

// at writes the balances for the values u.
func (w *work) at(u, left []float64) {
	for i := range w.x {
		w.x[i] = w.p.Variables[i].Value + w.scale[i]*u[i]
	}
	w.p.Balances(w.x, left)
}

// linearise takes the derivatives of the balances by central differences.
func (w *work) linearise() {
	w.at(w.u, w.left)
	down := make([]float64, w.m)
	for j := range w.n {
		at := w.u[j]
		w.u[j] = at + slope
		w.at(w.u, w.spare)
		w.u[j] = at - slope
		w.at(w.u, down)
		w.u[j] = at
		for i := range w.m {
			w.slopes.set(i, j, (w.spare[i]-down[i])/(2*slope))
		}
	}
}

// system builds the matrix of one round. Rows of balances are brought to one
// size.
func (w *work) system() (*matrix, []float64) {
	k := newMatrix(w.n+w.m, w.n+w.m)
	right := make([]float64, w.n+w.m)
	for j, v := range w.p.Variables {
		if v.Measured() {
			k.set(j, j, 1)
			right[j] = w.reading[j] - w.u[j]
		}
	}
	for i := range w.m {
		size := 0.0
		for j := range w.n {
			size = max(size, math.Abs(w.slopes.at(i, j)))
		}
		if size == 0 {
			size = 1
		}
		for j := range w.n {
			k.set(w.n+i, j, w.slopes.at(i, j)/size)
			k.set(j, w.n+i, w.slopes.at(i, j)/size)
		}
		right[w.n+i] = -w.left[i] / size
	}
	return k, right
}

// round linearises and moves to the best values; it returns the longest move.
func (w *work) round() (float64, error) {
	w.linearise()
	k, right := w.system()
	if !k.solve(right) {
		return 0, ErrUnobservable
	}
	longest := 0.0
	for j := range w.n {
		w.u[j] += right[j]
		longest = max(longest, math.Abs(right[j]))
	}
	return longest, nil
}

func (w *work) largest() float64 {
	most := 0.0
	for _, u := range w.u {
		most = max(most, math.Abs(u))
	}
	return most
}

// worst returns what is left of the worst balance.
func (w *work) worst() float64 {
	w.at(w.u, w.left)
	most := 0.0
	for _, l := range w.left {
		most = max(most, math.Abs(l))
	}
	return most
}

// solution gathers values, covariances and adjustments.
func (w *work) solution() (*Solution, error) {
	w.linearise()
	k, _ := w.system()
	inverse, ok := k.inverse()
	if !ok {
		return nil, ErrUnobservable
	}
	s := &Solution{Values: make([]float64, w.n), Covariance: make([][]float64, w.n), Left: append([]float64(nil), w.left...),
		Adjustments: make([]float64, w.n), AdjustmentSD: make([]float64, w.n), Freedom: w.m, Rounds: w.rounds}
	for i, v := range w.p.Variables {
		s.Values[i] = v.Value + w.scale[i]*w.u[i]
		s.Covariance[i] = make([]float64, w.n)
		for j := range w.n {
			s.Covariance[i][j] = w.scale[i] * w.scale[j] * inverse.at(i, j)
		}
		if !v.Measured() {
			s.Freedom--
			continue
		}
		s.Sum += w.u[i] * w.u[i]
		if checked := 1 - inverse.at(i, i); checked > uncheckedBelow {
			s.Adjustments[i] = -w.scale[i] * w.u[i]
			s.AdjustmentSD[i] = w.scale[i] * math.Sqrt(checked)
		}
	}
	if s.Freedom < 0 {
		return nil, fmt.Errorf("%w: %d balances, %d unmeasured", ErrUnobservable, w.m, w.m-s.Freedom)
	}
	return s, nil
}

// uncheckedBelow is the share of its variance by which the balances must
// improve a reading for it to count as checked by them: below it rounding
// speaks. Own choice.
const uncheckedBelow = 1e-7
