// SPDX-License-Identifier: MIT

package lp

import "math"

// pick returns the column to branch on, the one whose branches are expected to
// cost most (the product of both, after pseudo-costs), or -1 when the node is
// done: all integers are whole and the point has been taken.
func (s *search) pick() (int, error) {
	chosen, best := -1, -1.0
	hair, furthest := -1, 0.0
	average := s.averageGain()
	for j, c := range s.p.Columns {
		if !c.Integer {
			continue
		}
		value := s.t.x[j] * s.t.columnScale[j]
		off := math.Abs(value - math.Round(value))
		if off <= whole {
			if off > furthest {
				hair, furthest = j, off
			}
			continue
		}
		fraction := value - math.Floor(value)
		if score := s.guess[j].score(fraction, average); score > best {
			chosen, best = j, score
		}
	}
	if chosen >= 0 {
		return chosen, nil
	}
	taken, err := s.offer()
	if err != nil || taken || furthest <= 1e-12 {
		return -1, err
	}
	return hair, nil // whole by a hair only, and it doesn't hold when made exact
}

// score weighs a branch by what both sides are expected to add.
func (g gain) score(fraction, average float64) float64 {
	down, up := average, average
	if g.downs > 0 {
		down = g.down / g.downs
	}
	if g.ups > 0 {
		up = g.up / g.ups
	}
	return max(1e-6*average, down*fraction) * max(1e-6*average, up*(1-fraction))
}

// averageGain is the mean over all branches so far, 1 before the first.
func (s *search) averageGain() float64 {
	sum, count := 0.0, 0.0
	for _, g := range s.guess {
		sum += g.down + g.up
		count += g.downs + g.ups
	}
	if count == 0 || sum == 0 {
		return 1
	}
	return sum / count
}

// offer rounds the integers of the present point, solves for the rest and keeps
// the outcome when it is the best so far. It says whether there was a point.
func (s *search) offer() (bool, error) {
	return s.offerFrom(s.t)
}

// offerFrom does the same from where another table of the search stands.
func (s *search) offerFrom(from *table) (bool, error) {
	t := from.clone()
	defer func() { s.t.pivots = t.pivots }()
	for j, c := range s.p.Columns {
		if !c.Integer {
			continue
		}
		to := math.Round(t.x[j]*t.columnScale[j]) / t.columnScale[j]
		t.setEnds(j, to, to)
	}
	if err := t.repair(); err != nil {
		return false, err
	}
	status, err := t.optimise()
	if err != nil || status != Optimal {
		return false, err
	}
	got := t.report(s.p, Optimal)
	if got.measure(s.p) > acceptable {
		return false, nil
	}
	value := 0.0
	for j, c := range s.cost {
		value += c * got.X[j]
	}
	if value < s.value {
		s.best, s.value = got, value
	}
	return true, nil
}

// dive looks for some whole-number point: it rounds one integer after the other,
// the nearest to a whole number first, to the other side when that fails.
func (s *search) dive() error {
	t := s.t.clone()
	for range t.n + 1 {
		j := s.nearlyWhole(t)
		if j < 0 {
			_, err := s.offerFrom(t)
			return err
		}
		value := t.x[j] * t.columnScale[j]
		first, second := math.Floor(value), math.Ceil(value)
		if value-first > 0.5 {
			first, second = second, first
		}
		tried, fits, err := t.fixed(j, first)
		if err == nil && !fits {
			t.pivots = tried.pivots
			tried, fits, err = t.fixed(j, second)
		}
		s.t.pivots = tried.pivots
		if err != nil || !fits {
			return err
		}
		t = tried
	}
	return nil
}

// fixed returns a copy of the table, solved with a column fixed, and whether there is a point.
func (t *table) fixed(j int, value float64) (*table, bool, error) {
	c := t.clone()
	c.setEnds(j, value/c.columnScale[j], value/c.columnScale[j])
	if err := c.repair(); err != nil {
		return c, false, err
	}
	status, err := c.optimise()
	return c, status == Optimal, err
}

// nearlyWhole returns the integer column that is nearest to a whole number
// without being one, or -1 when all are whole.
func (s *search) nearlyWhole(t *table) int {
	chosen, least := -1, 1.0
	for j, c := range s.p.Columns {
		if !c.Integer {
			continue
		}
		value := t.x[j] * t.columnScale[j]
		if off := math.Abs(value - math.Round(value)); off > whole && off < least {
			chosen, least = j, off
		}
	}
	return chosen
}

// findGrain returns a number of which all costs of whole-number points are
// multiples: the greatest common divisor, when only integers cost something and
// all costs are whole.
func (s *search) findGrain() float64 {
	divisor := 0.0
	for j, c := range s.cost {
		if c == 0 || s.low[j] == s.high[j] && c*s.low[j] == 0 {
			continue
		}
		if !s.p.Columns[j].Integer || c != math.Trunc(c) || math.Abs(c) > 1e9 {
			return 0
		}
		a, b := divisor, math.Abs(c)
		for b > 0 {
			a, b = b, math.Mod(a, b)
		}
		divisor = a
	}
	return divisor
}
