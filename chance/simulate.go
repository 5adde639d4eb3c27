// SPDX-License-Identifier: MIT

package chance

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"

	"gyle/plan"
	"gyle/science/uncertainty"
	"gyle/style"
)

// Options are the wishes for one simulation. The zero value stands for
// [DefaultSamples] beers from seed 0.
type Options struct {
	Samples int              // how many beers; 0: DefaultSamples
	Seed    uint64           // the same seed gives the same beers
	Workers int              // how many goroutines; 0: one for each processor. The outlook doesn't depend on it
	Points  int              // beers of the cloud; 0: none
	Vary    func(Input) bool // which inputs vary; nil: all

	// Known says how much better an input is known than it is here: the ratio of
	// its standard deviations, 0.5 for half the spread; nil: none.
	Known func(Input) float64
	Keep  bool // keep the beers, for Outlook.Moved
}

// DefaultSamples gives chances to within half a hundredth.
const DefaultSamples = 10_000

// blockSize is how many samples share a random stream and are spread evenly
// among each other. The results depend on it.
const blockSize = 500

// run is a simulation on its way.
type run struct {
	Options
	plan   *plan.Plan
	day    *plan.Brewday
	inputs []Input
	rules  []check
	extra  []column

	cube    []uncertainty.Distribution
	means   []float64 // of the inputs
	planned []float64 // of the outputs
	values  [][]float64
	blocks  []blockResult
}

// blockResult is what one block of samples says.
type blockResult struct {
	fit          *uncertainty.Regression
	hits         []int // by rule
	limits, five int
}

// outputs is how many columns a sample has: figures, two volumes, extras.
func (r *run) outputs() int { return len(r.day.Figures()) + 2 + len(r.extra) }

// Simulate brews a plan many times on paper and says what may come of it. A nil
// style leaves the rules out.
func Simulate(ctx context.Context, p *plan.Plan, s *style.Style, o Options) (*Outlook, error) {
	if p == nil {
		return nil, errors.New("chance: a plan is needed")
	}
	r, err := prepare(p, s, o)
	if err != nil {
		return nil, err
	}
	if err := r.brewAll(ctx); err != nil {
		return nil, fmt.Errorf("brew %s on paper: %w", p.Recipe, err)
	}
	return r.outlook(s), nil
}

func prepare(p *plan.Plan, s *style.Style, o Options) (*run, error) {
	if o.Samples <= 0 {
		o.Samples = DefaultSamples
	}
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	day, err := p.Brewday()
	if err != nil {
		return nil, err
	}
	all, err := Inputs(p)
	if err != nil {
		return nil, err
	}
	r := &run{Options: o, plan: p, day: day}
	for _, in := range all {
		if o.Known != nil {
			in = in.known(o.Known(in))
		}
		if in.SD > 0 && (o.Vary == nil || o.Vary(in)) {
			mean, _ := in.distribution.Moments()
			r.inputs, r.cube, r.means = append(r.inputs, in), append(r.cube, in.distribution), append(r.means, mean)
		}
	}
	if s != nil {
		if err := r.checks(s); err != nil {
			return nil, err
		}
	}
	w := r.worker()
	r.planned = make([]float64, r.outputs())
	w.brew()
	for k := range r.planned {
		r.planned[k] = w.output(k)
		r.values = append(r.values, make([]float64, o.Samples))
	}
	r.blocks = make([]blockResult, uncertainty.Blocks(o.Samples, blockSize))
	return r, nil
}

// brewAll shares the blocks out among the workers.
func (r *run) brewAll(ctx context.Context) error {
	var next atomic.Int64
	var group sync.WaitGroup
	for range min(r.Workers, len(r.blocks)) {
		group.Go(func() {
			w := r.worker()
			for ctx.Err() == nil {
				k := int(next.Add(1)) - 1
				if k >= len(r.blocks) {
					return
				}
				w.block(k)
				runtime.Gosched()
			}
		})
	}
	group.Wait()
	return ctx.Err()
}

// worker is what one goroutine needs for itself.
type worker struct {
	*run
	cube   uncertainty.Hypercube
	inputs [][]float64 // by input, of one block

	shifted [][]float64 // outputs of one block, less what is planned
	clean   *plan.Truth
	truth   *plan.Truth
	beer    *plan.Beer
}

func (r *run) worker() *worker {
	w := &worker{run: r, clean: r.day.Truth(), truth: r.day.Truth(), beer: r.day.NewBeer()}
	w.cube = uncertainty.Hypercube{Seed: r.Seed, Inputs: r.cube}
	for range r.cube {
		w.inputs = append(w.inputs, make([]float64, blockSize))
	}
	for range r.outputs() {
		w.shifted = append(w.shifted, make([]float64, blockSize))
	}
	return w
}

// reset forgets the last beer.
func (w *worker) reset() {
	malts, hops := w.truth.Malts, w.truth.Hops
	copy(malts, w.clean.Malts)
	copy(hops, w.clean.Hops)
	*w.truth = *w.clean
	w.truth.Malts, w.truth.Hops = malts, hops
}

func (w *worker) brew() { w.day.Brew(w.truth, w.beer) }

// output returns one column of the beer just brewed.
func (w *worker) output(k int) float64 {
	figures := len(w.beer.Figures)
	switch {
	case k < figures:
		return w.beer.Figures[k]
	case k == figures:
		return float64(w.beer.Collected)
	case k == figures+1:
		return float64(w.beer.Packaged)
	}
	return w.extra[k-figures-2].value(w.plan, w.truth, w.beer)
}

// block brews one block of samples.
func (w *worker) block(k int) {
	from := k * blockSize
	n := min(blockSize, w.Samples-from)
	w.cube.Draw(k, n, w.inputs)
	outputs := make([][]float64, len(w.values))
	for c := range outputs {
		outputs[c] = w.values[c][from : from+n]
	}
	for i := range n {
		w.reset()
		for j := range w.run.inputs {
			w.run.inputs[j].set(w.truth, w.inputs[j][i])
		}
		w.brew()
		for c := range outputs {
			outputs[c][i] = w.output(c)
		}
	}
	result := &w.blocks[k]
	w.count(result, n, outputs)
	w.fit(result, n, outputs)
}

// count holds the beers of a block against the rules.
func (w *worker) count(b *blockResult, n int, outputs [][]float64) {
	b.hits = make([]int, len(w.rules))
	for i := range n {
		limits, five := true, true
		for k := range w.rules {
			c := &w.rules[k]
			inside := c.kept
			if c.column >= 0 {
				x := outputs[c.column][i]
				inside = c.low <= x && x <= c.high
			}
			if inside {
				b.hits[k]++
				continue
			}
			limits = limits && !c.limit
			five = five && !c.five
		}
		if limits {
			b.limits++
		}
		if five {
			b.five++
		}
	}
}

// fit gathers how the outputs follow their inputs, in standard deviations.
func (w *worker) fit(b *blockResult, n int, outputs [][]float64) {
	for j, in := range w.run.inputs {
		column := w.inputs[j][:n]
		for i, x := range column {
			column[i] = (x - w.means[j]) / in.SD
		}
	}
	for k, column := range outputs {
		for i, y := range column {
			w.shifted[k][i] = y - w.planned[k]
		}
	}
	b.fit = uncertainty.NewRegression(len(w.run.inputs), len(outputs))
	b.fit.Add(n, w.inputs, w.shifted)
}
