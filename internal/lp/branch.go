// SPDX-License-Identifier: MIT

package lp

import (
	"container/heap"
	"math"
)

// whole is how far an integer column may be off a whole number to count as one
// while searching. The point that is returned has whole numbers.
const whole = 1e-7

// A search is a branch and bound: linear problems in which integer columns are
// held between tighter and tighter whole numbers. It follows one branch down
// and, at its end, takes up the open node with the best bound.
type search struct {
	p       *Problem
	t       *table
	cost    []float64
	options Options

	low, high []float64 // of the root, scaled
	open      nodeHeap
	created   int
	nodes     int
	grain     float64 // all whole-number points have costs that are multiples of it; 0 unknown
	guess     []gain  // for each column

	best  Solution
	value float64 // of best; +Inf without
	lost  bool    // a node was given up without being solved
}

// A node is a linear problem not solved yet.
type node struct {
	bound float64 // no point in it costs less
	order int
	limit *limit
	basic []int // the basis of its parent
	other []int
	x     []float64

	column   int // of the last branch
	up       bool
	fraction float64 // that the branch cuts off
}

// A limit is one branch: the ends of a column, and the branches above it.
type limit struct {
	column    int
	low, high float64
	above     *limit
}

// A gain is what branches on a column have added to the cost for each unit cut off.
type gain struct{ down, up, downs, ups float64 }

type nodeHeap []*node

func (h nodeHeap) Len() int { return len(h) }
func (h nodeHeap) Less(a, b int) bool {
	if h[a].bound != h[b].bound {
		return h[a].bound < h[b].bound
	}
	return h[a].order > h[b].order
}
func (h nodeHeap) Swap(a, b int) { h[a], h[b] = h[b], h[a] }
func (h *nodeHeap) Push(x any)   { *h = append(*h, x.(*node)) }
func (h *nodeHeap) Pop() any {
	old := *h
	last := old[len(old)-1]
	*h = old[:len(old)-1]
	return last
}

// branchAndBound finds a point with whole numbers that is best for cost.
func branchAndBound(p *Problem, t *table, cost []float64, o Options) (Solution, error) {
	if o.MaxNodes <= 0 {
		o.MaxNodes = 50_000
	}
	if o.Gap <= 0 {
		o.Gap = 1e-9
	}
	s := &search{p: p, t: t, cost: cost, options: o, value: math.Inf(1), guess: make([]gain, t.n)}
	s.low, s.high = append([]float64(nil), t.low...), append([]float64(nil), t.high...)
	s.grain = s.findGrain()
	t.setCost(cost)
	for j := range t.n {
		if t.low[j] > t.high[j] {
			return s.finish(Infeasible, math.Inf(1)), nil
		}
	}
	t.reset()
	status, err := t.optimise()
	s.nodes = 1
	switch {
	case err != nil:
		return s.finish(Stopped, math.Inf(-1)), err
	case status == Unbounded:
		return s.unbounded()
	case status != Optimal:
		return s.finish(status, math.Inf(-1)), nil
	}
	return s.run()
}

// unbounded tells whether there is a point at all when the linear problem goes
// down for ever. With rational data a ray of the linear problem is then one of
// the integer problem too.
func (s *search) unbounded() (Solution, error) {
	s.t.reset()
	clear(s.cost)
	got, err := branchAndBound(s.p, s.t, s.cost, s.options)
	if got.Status == Optimal {
		got = Solution{Status: Unbounded, Pivots: got.Pivots, Nodes: got.Nodes + 1}
	}
	return got, err
}

// run searches from the solved root to the end.
func (s *search) run() (Solution, error) {
	current := &node{column: -1, bound: s.worth()}
	for {
		child, err := s.expand(current)
		if err != nil {
			return s.finish(Stopped, s.bound(current.bound)), err
		}
		if child == nil {
			if len(s.open) == 0 || s.open[0].bound >= s.cutoff() {
				return s.finish(s.ended(), s.bound(math.Inf(1))), nil
			}
			child = heap.Pop(&s.open).(*node)
			s.restore(child)
		}
		if s.nodes >= s.options.MaxNodes || s.t.pivots >= s.t.cap {
			return s.finish(Stopped, s.bound(child.bound)), nil
		}
		s.nodes++
		if current, err = s.solve(child); err != nil {
			return s.finish(Stopped, s.bound(child.bound)), err
		}
		if s.t.pivots >= s.t.cap {
			return s.finish(Stopped, s.bound(child.bound)), nil
		}
	}
}

func (s *search) ended() Status {
	if s.lost {
		return Stopped
	}
	if s.best.X == nil {
		return Infeasible
	}
	return Optimal
}

// worth is the cost at the table's present point.
func (s *search) worth() float64 {
	sum := 0.0
	for j, c := range s.cost {
		sum += c * s.t.x[j] * s.t.columnScale[j]
	}
	return sum
}

// cutoff is the bound from which on a node can't hold a point worth having.
func (s *search) cutoff() float64 {
	if math.IsInf(s.value, 1) {
		return s.value
	}
	slack := s.options.Gap * max(1e-3, math.Abs(s.value))
	if s.grain > 0 {
		slack = max(slack, s.grain*(1-1e-6))
	}
	return s.value - slack
}

// bound is the least cost that may still be hidden in the open nodes.
func (s *search) bound(current float64) float64 {
	if len(s.open) > 0 {
		current = min(current, s.open[0].bound)
	}
	return current
}

// solve solves the linear problem of a node where the table stands, and learns
// from what it costs. A node without points comes back with an infinite bound.
func (s *search) solve(n *node) (*node, error) {
	if err := s.t.repair(); err != nil {
		return n, err
	}
	status, err := s.t.optimise()
	if err != nil {
		return n, err
	}
	if status != Optimal {
		s.lost = s.lost || status != Infeasible
		n.bound = math.Inf(1)
		return n, nil
	}
	value := s.worth()
	g := &s.guess[n.column]
	if added := max(0, value-n.bound) / n.fraction; n.up {
		g.up, g.ups = g.up+added, g.ups+1
	} else {
		g.down, g.downs = g.down+added, g.downs+1
	}
	n.bound = max(n.bound, value)
	return n, nil
}

// expand deals with a solved node: a whole-number point is taken, another one
// is branched. It returns the child to go on with, already set in the table.
func (s *search) expand(n *node) (*node, error) {
	if n.bound >= s.cutoff() || s.t.anyOutside() {
		return nil, nil
	}
	j, err := s.pick()
	if err != nil || j < 0 {
		return nil, err
	}
	if s.nodes == 1 || s.nodes%32 == 0 {
		if err := s.dive(); err != nil {
			return nil, err
		}
	}
	return s.branch(n, j), nil
}

// branch splits a node at a column that isn't whole.
func (s *search) branch(n *node, j int) *node {
	scale := s.t.columnScale[j]
	value := s.t.x[j] * scale
	floor := math.Floor(value)
	if math.Abs(value-math.Round(value)) < whole { // only by a hair: cut beside the whole number
		floor = math.Round(value)
		if value < floor {
			floor--
		}
	}
	make1 := func(up bool) *node {
		c := &node{bound: n.bound, column: j, up: up, order: s.created}
		s.created++
		c.limit = &limit{column: j, low: s.t.low[j], high: s.t.high[j], above: n.limit}
		if up {
			c.limit.low, c.fraction = (floor+1)/scale, max(floor+1-value, 1e-6)
		} else {
			c.limit.high, c.fraction = floor/scale, max(value-floor, 1e-6)
		}
		return c
	}
	first := make1(value-floor > 0.5)
	second := make1(!first.up)
	second.basic = append([]int(nil), s.t.basic...)
	second.other = append([]int(nil), s.t.other...)
	second.x = append([]float64(nil), s.t.x...)
	heap.Push(&s.open, second)
	s.t.setEnds(j, first.limit.low, first.limit.high)
	return first
}

// setEnds changes the ends of a column; when it isn't basic it moves along.
func (t *table) setEnds(j int, low, high float64) {
	t.low[j], t.high[j] = low, high
	if k := t.where[j]; k >= 0 {
		to := min(max(t.x[j], low), high)
		if to != high {
			to = low
		}
		t.move(k, to-t.x[j])
		t.x[j] = to
	}
}

// restore puts the table where a node's parent left it and sets its limits.
func (s *search) restore(n *node) {
	t := s.t
	copy(t.low, s.low)
	copy(t.high, s.high)
	for l := n.limit; l != nil; l = l.above {
		t.low[l.column] = max(t.low[l.column], l.low)
		t.high[l.column] = min(t.high[l.column], l.high)
	}
	copy(t.basic, n.basic)
	copy(t.other, n.other)
	copy(t.x, n.x)
	for i, v := range t.basic {
		t.where[v] = ^i
	}
	for k, v := range t.other {
		t.where[v] = k
	}
	t.rebuild()
}

// finish makes the solution out of what the search knows.
func (s *search) finish(status Status, bound float64) Solution {
	out := s.best
	out.Status, out.Nodes, out.Pivots = status, s.nodes, s.t.pivots
	if out.X == nil {
		return out
	}
	if bound < s.value {
		out.Gap = (s.value - bound) / max(1e-9, math.Abs(s.value))
		if s.grain > 0 && status == Optimal {
			out.Gap = 0
		}
	}
	return out
}
