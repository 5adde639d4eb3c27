// SPDX-License-Identifier: MIT

package water

// nonNegative minimises ½ xᵀGx − tᵀx over x ≥ 0 for a small positive
// semidefinite G, by the active-set method of Lawson and Hanson. It takes the
// variable with the steepest gain first and the lower index on a tie, so the
// same problem always has the same answer.
func nonNegative(gram [][]float64, target []float64) []float64 {
	n := len(target)
	x := make([]float64, n)
	active := make([]bool, n) // active: free to be positive
	for range 10 * (n + 1) {
		best := steepest(gram, target, x, active)
		if best < 0 {
			break
		}
		active[best] = true
		for range n + 1 {
			trial := solveActive(gram, target, active)
			if stepTowards(x, trial, active) {
				break
			}
		}
	}
	return x
}

// steepest returns the inactive variable whose gradient gains most, or −1.
func steepest(gram [][]float64, target, x []float64, active []bool) int {
	best, gain := -1, 1e-9
	for row := range target {
		gradient := target[row]
		for column := range x {
			gradient -= gram[row][column] * x[column]
		}
		if !active[row] && gradient > gain {
			best, gain = row, gradient
		}
	}
	return best
}

// stepTowards moves x to the trial, or as far as the first variable that
// reaches zero, which becomes inactive. It reports whether the trial was reached.
func stepTowards(x, trial []float64, active []bool) bool {
	fraction := 1.0
	for n := range x {
		if active[n] && trial[n] <= 0 {
			fraction = min(fraction, x[n]/max(x[n]-trial[n], 1e-300))
		}
	}
	reached := true
	for n := range x {
		if !active[n] {
			continue
		}
		below := trial[n] <= 0
		x[n] += fraction * (trial[n] - x[n])
		if below && x[n] <= 1e-12 {
			x[n], active[n], reached = 0, false, false
		}
	}
	return reached
}

// solveActive solves G x = t for the active variables by elimination; the
// others are zero. A trace on the diagonal keeps salts that give the same ions
// in the same proportion from dividing by zero.
func solveActive(gram [][]float64, target []float64, active []bool) []float64 {
	var index []int
	for n, on := range active {
		if on {
			index = append(index, n)
		}
	}
	size := len(index)
	rows := make([][]float64, size)
	for r, from := range index {
		rows[r] = make([]float64, size+1)
		for c, to := range index {
			rows[r][c] = gram[from][to]
		}
		rows[r][r] += 1e-10
		rows[r][size] = target[from]
	}
	solution := make([]float64, len(target))
	for r, value := range eliminate(rows) {
		solution[index[r]] = value
	}
	return solution
}

// eliminate solves a symmetric positive definite system given with its right
// side as last column. Such a system needs no pivoting.
func eliminate(rows [][]float64) []float64 {
	size := len(rows)
	for r := range size {
		for below := r + 1; below < size; below++ {
			factor := rows[below][r] / rows[r][r]
			for c := r; c <= size; c++ {
				rows[below][c] -= factor * rows[r][c]
			}
		}
	}
	x := make([]float64, size)
	for r := size - 1; r >= 0; r-- {
		sum := rows[r][size]
		for c := r + 1; c < size; c++ {
			sum -= rows[r][c] * x[c]
		}
		x[r] = sum / rows[r][r]
	}
	return x
}
