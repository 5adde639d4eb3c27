// SPDX-License-Identifier: MIT

package reconcile

import "math"

// matrix is a dense matrix by rows.
type matrix struct {
	rows, columns int
	cells         []float64
}

func newMatrix(rows, columns int) *matrix {
	return &matrix{rows, columns, make([]float64, rows*columns)}
}

func (m *matrix) at(i, j int) float64     { return m.cells[i*m.columns+j] }
func (m *matrix) set(i, j int, x float64) { m.cells[i*m.columns+j] = x }
func (m *matrix) row(i int) []float64     { return m.cells[i*m.columns : (i+1)*m.columns] }

// singularBelow is the pivot, of a matrix with rows of size one, that is taken
// for zero. Own choice, between rounding and the weakest balance of a brew.
const singularBelow = 1e-10

// solve replaces right by the solution of m·x = right, by Gaussian elimination
// with partial pivoting; m is lost. It reports false for a singular matrix.
func (m *matrix) solve(right []float64) bool {
	wide := newMatrix(m.rows, m.columns+1)
	for i := range m.rows {
		copy(wide.row(i), m.row(i))
		wide.set(i, m.columns, right[i])
	}
	if !wide.eliminate(m.rows) {
		return false
	}
	for i := range right {
		right[i] = wide.at(i, m.columns)
	}
	return true
}

// inverse returns the inverse of m, or false where it has none.
func (m *matrix) inverse() (*matrix, bool) {
	wide := newMatrix(m.rows, 2*m.rows)
	for i := range m.rows {
		copy(wide.row(i), m.row(i))
		wide.set(i, m.rows+i, 1)
	}
	if !wide.eliminate(m.rows) {
		return nil, false
	}
	out := newMatrix(m.rows, m.rows)
	for i := range m.rows {
		copy(out.row(i), wide.row(i)[m.rows:])
	}
	return out, true
}

// eliminate turns the left n columns into the unit matrix, by Gauss and Jordan.
func (m *matrix) eliminate(n int) bool {
	for k := range n {
		pivot := k
		for i := k + 1; i < n; i++ {
			if math.Abs(m.at(i, k)) > math.Abs(m.at(pivot, k)) {
				pivot = i
			}
		}
		if !(math.Abs(m.at(pivot, k)) > singularBelow) {
			return false
		}
		m.swap(k, pivot)
		top := m.row(k)
		head := top[k]
		for j := k; j < m.columns; j++ {
			top[j] /= head
		}
		for i := range n {
			if factor := m.at(i, k); i != k && factor != 0 {
				line := m.row(i)
				for j := k; j < m.columns; j++ {
					line[j] -= factor * top[j]
				}
			}
		}
	}
	return true
}

func (m *matrix) swap(i, k int) {
	if i == k {
		return
	}
	a, b := m.row(i), m.row(k)
	for j := range a {
		a[j], b[j] = b[j], a[j]
	}
}
