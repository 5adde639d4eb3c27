// SPDX-License-Identifier: MIT

package chance

import (
	"slices"
	"sync"
	"sync/atomic"

	"gyle/quantity"
	"gyle/science/uncertainty"
	"gyle/style"
)

// outlook sums up what was brewed.
func (r *run) outlook(s *style.Style) *Outlook {
	o := &Outlook{Samples: r.Samples, Seed: r.Seed, Inputs: r.inputs}
	fit := r.blocks[0].fit
	for _, b := range r.blocks[1:] {
		fit.Join(b.fit)
	}
	names := append(slices.Clone(r.day.Figures()), Collected, Packaged)
	o.Figures = make([]Band, len(names))
	o.Together = fit.Correlations()
	for k := range o.Together {
		o.Together[k] = o.Together[k][:len(names)]
	}
	o.Together = o.Together[:len(names)]
	o.Cloud = r.cloud(names)
	if r.Keep {
		o.kept = r.keep()
	}
	slopes := fit.Solve()
	r.share(len(names), func(k int) {
		o.Figures[k] = Band{Figure: names[k], Name: string(names[k]), Planned: r.planned[k], Summary: uncertainty.Summarise(r.values[k])}
		o.Figures[k].blame(slopes, k, r.inputs)
	})
	o.Cloud.fill(o)
	if s != nil {
		o.Style = s.Name
		r.chances(o)
	}
	return o
}

// share calls work for each number below n, on all workers.
func (r *run) share(n int, work func(k int)) {
	var next atomic.Int64
	var group sync.WaitGroup
	for range min(r.Workers, n) {
		group.Go(func() {
			for k := int(next.Add(1)) - 1; k < n; k = int(next.Add(1)) - 1 {
				work(k)
			}
		})
	}
	group.Wait()
}

// leastBlame is the share of the variance below which nobody is blamed.
const leastBlame = 0.01

// noSpread is the relative spread below which a figure is taken as certain:
// rounding of the solvers.
const noSpread = 1e-9

// blame orders the inputs by what they do to the figure.
func (b *Band) blame(fit *uncertainty.Solved, k int, inputs []Input) {
	if b.SD <= noSpread*max(1, b.Mean) {
		return
	}
	shares, sum := fit.Shares(k)
	b.Explained = sum
	slices.SortStableFunc(shares, func(x, y uncertainty.Share) int {
		switch {
		case x.Share > y.Share:
			return -1
		case x.Share < y.Share:
			return 1
		}
		return 0
	})
	for _, s := range shares {
		if s.Share < leastBlame {
			break
		}
		b.Blame = append(b.Blame, Blame{inputs[s.Input].Name, s.Share, s.Slope})
	}
}

// cloud keeps some beers for the map, before their figures are sorted.
func (r *run) cloud(names []quantity.Figure) Cloud {
	c := Cloud{X: quantity.OG, Y: quantity.Bitterness, Points: [][2]float64{}}
	x, y := slices.Index(names, c.X), slices.Index(names, c.Y)
	for i := range min(r.Points, r.Samples) {
		c.Points = append(c.Points, [2]float64{r.values[x][i], r.values[y][i]})
	}
	return c
}

func (c *Cloud) fill(o *Outlook) {
	x, _ := o.Find(c.X)
	y, _ := o.Find(c.Y)
	c.MeanX, c.SDX, c.MeanY, c.SDY = x.Mean, x.SD, y.Mean, y.SD
	c.Correlation = o.Correlation(c.X, c.Y)
}

// chances sums up the rules.
func (r *run) chances(o *Outlook) {
	hits, limits, five := make([]int, len(r.rules)), 0, 0
	for _, b := range r.blocks {
		limits, five = limits+b.limits, five+b.five
		for k := range hits {
			hits[k] += b.hits[k]
		}
	}
	anyLimit, anyFive := false, false
	for k := range r.rules {
		c := &r.rules[k]
		anyLimit, anyFive = anyLimit || c.limit, anyFive || c.five
		chance := RuleChance{
			Rule: c.verdict.Rule, Part: c.verdict.Part, Figure: c.figure, Phrase: c.verdict.Phrase, Severity: c.verdict.Severity,
			Inside: uncertainty.ProbabilityOf(hits[k], r.Samples), Settled: c.column < 0,
		}
		if chance.Settled {
			chance.Inside.Error = 0
		}
		o.Rules = append(o.Rules, chance)
	}
	if anyLimit {
		p := uncertainty.ProbabilityOf(limits, r.Samples)
		o.Limits = &p
	}
	if anyFive {
		p := uncertainty.ProbabilityOf(five, r.Samples)
		o.AllFive = &p
	}
}
