// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"sync"

	"gyle/chance"
	"gyle/quantity"
	"gyle/science/ferment"
	"gyle/style"
)

// SureEnough is the chance to be inside all limits at once that a robust recipe
// seeks: nine brews in ten.
const SureEnough = 0.9

// robustSamples is how many brews each recipe gets, all with the same lots and
// errors, so that the recipes differ and the luck doesn't; robustRounds is how
// often the figures are moved to where the beers of the best recipe would
// mostly lie inside.
const (
	robustSamples = 2000
	robustSeed    = 1
	robustRounds  = 4
)

// robustSteps is how far figures are moved at first. Estimates: about a standard
// deviation of a brew on a known house.
var robustSteps = []struct {
	figure quantity.Figure
	by     float64
}{{quantity.OG, 0.002}, {quantity.FG, 0.001}, {quantity.Bitterness, 2}, {quantity.BeerColor, 3}}

// robustSearch is a search on its way.
type robustSearch struct {
	ctx   context.Context
	wish  Wish
	best  *Result
	tried int
	asked int // figures that the beers were moved to on paper
}

// robust looks for the recipe that is likeliest to turn out inside all limits,
// and says what hinders. Each beer of a simulation says how it misses its plan;
// moved along with the plan, the beers tell which figures to aim at. A recipe is
// solved there and brewed in its turn, until nothing is gained, and in the end
// the neighbours of the best are brewed to see that none is better.
func robust(ctx context.Context, wish Wish, first *Result) (*Result, error) {
	if wish.House == nil {
		first.Says = append(first.Says, "How sure a recipe is can only be said on a house: choose one.")
		return first, nil
	}
	s := &robustSearch{ctx: ctx, wish: wish, best: first, tried: 1}
	if err := s.look(first); err != nil || first.Outlook.Limits == nil {
		return first, err
	}
	for range robustRounds {
		better, err := s.climb()
		if err != nil {
			return nil, err
		}
		if !better {
			break
		}
	}
	if err := s.neighbours(); err != nil {
		return nil, err
	}
	best := s.best
	if best != first {
		best.takeRooms(first)
	}
	if err := s.hinders(); err != nil {
		return nil, err
	}
	best.Says = append(best.Says, fmt.Sprintf(
		"%d aims were weighed with the beers of the best recipe, and %d recipes brewed %d times each on paper; of these this one is the likeliest to turn out inside all limits: %s; the first one %s.",
		s.asked, s.tried, robustSamples, chance.Chance(*best.Outlook.Limits), chance.Chance(*first.Outlook.Limits)))
	return best, nil
}

// look brews a result on paper.
func (s *robustSearch) look(r *Result) (err error) {
	r.Outlook, err = chance.Simulate(s.ctx, r.Plan, s.wish.Style, chance.Options{Samples: robustSamples, Seed: robustSeed, Points: 60, Keep: true})
	return err
}

// climb moves the best recipe to the figures where most of its beers would lie
// inside all limits.
func (s *robustSearch) climb() (better bool, err error) {
	at := figuresOf(s.best)
	to, hope := s.aim(s.best.Outlook, at)
	if hope <= s.best.Outlook.Limits.Share {
		return false, nil
	}
	for range 2 {
		r, err := s.near(to)
		if err != nil {
			return false, err
		}
		if r != nil {
			return s.take(r), nil
		}
		for f := range to { // half of the way
			to[f] = (to[f] + at[f]) / 2
		}
	}
	return false, nil
}

// take counts a recipe and keeps it where it is surer than the best.
func (s *robustSearch) take(r *Result) bool {
	s.tried++
	if r.Outlook.Limits.Share <= s.best.Outlook.Limits.Share {
		return false
	}
	s.best = r
	return true
}

// figuresOf are the figures of a plan that can be moved.
func figuresOf(r *Result) map[quantity.Figure]float64 {
	at := map[quantity.Figure]float64{}
	for _, step := range robustSteps {
		if f, known := r.Plan.Find(step.figure); known {
			at[step.figure] = f.Value
		}
	}
	return at
}

// leastStep is the last step of the search for figures, as a part of the first.
const leastStep = 1.0 / 16

// aim seeks the figures where most beers of an outlook would lie inside, by
// trying steps that become smaller.
func (s *robustSearch) aim(o *chance.Outlook, at map[quantity.Figure]float64) (map[quantity.Figure]float64, float64) {
	share := func(to map[quantity.Figure]float64) float64 {
		s.asked++
		p, _ := o.Moved(withFermented(at, to, o))
		return p.Share
	}
	best := maps.Clone(at)
	most := share(best)
	for scale := 1.0; scale >= leastStep; {
		gained := false
		for _, step := range robustSteps {
			if _, known := at[step.figure]; !known {
				continue
			}
			for _, by := range []float64{-step.by * scale, step.by * scale} {
				try := maps.Clone(best)
				try[step.figure] += by
				if got := share(try); got > most {
					best, most, gained = try, got, true
				}
			}
		}
		if !gained {
			scale /= 2
		}
	}
	return best, most
}

// withFermented adds what follows from moved gravities: alcohol and attenuation.
func withFermented(at, to map[quantity.Figure]float64, o *chance.Outlook) map[quantity.Figure]float64 {
	out := maps.Clone(to)
	og, fg := quantity.SG(at[quantity.OG]), quantity.SG(at[quantity.FG])
	og2, fg2 := quantity.SG(to[quantity.OG]), quantity.SG(to[quantity.FG])
	if og <= 1 || fg <= 0 || og2 <= fg2 {
		return out
	}
	if b, known := o.Find(quantity.ABV); known {
		out[quantity.ABV] = b.Planned + float64(ferment.Alcohol(og2, fg2)-ferment.Alcohol(og, fg))
	}
	if b, known := o.Find(quantity.Attenuation); known {
		out[quantity.Attenuation] = b.Planned + float64(ferment.Attenuation(og2, fg2)-ferment.Attenuation(og, fg))
	}
	return out
}

// neighbours brews a recipe a step to either side of the best in each figure
// that a limit is about, all at once.
func (s *robustSearch) neighbours() error {
	at := figuresOf(s.best)
	var results [2][8]*Result
	var errs [2][8]error
	var group sync.WaitGroup
	const part = 0.25 // of the first step: the estimate is as coarse
	for i, step := range robustSteps {
		if _, known := at[step.figure]; !known {
			continue
		}
		for k, sign := range []float64{-1, 1} {
			to := maps.Clone(at)
			to[step.figure] += sign * step.by * part
			group.Go(func() { results[k][i], errs[k][i] = s.near(to) })
		}
	}
	group.Wait()
	for i := range robustSteps {
		for k := range 2 {
			if errs[k][i] != nil {
				return errs[k][i]
			}
			if r := results[k][i]; r != nil {
				s.take(r)
			}
		}
	}
	return nil
}

// near finds a recipe about given figures and brews it; nil where there is none.
func (s *robustSearch) near(to map[quantity.Figure]float64) (*Result, error) {
	wish := s.wish
	wish.Robust, wish.NoRooms = false, true
	wish.Bounds = wish.Bounds[:len(wish.Bounds):len(wish.Bounds)]
	for _, step := range robustSteps {
		if x, known := to[step.figure]; known {
			wide := math.Abs(step.by) / 4
			wish.Bounds = append(wish.Bounds, Bound{step.figure, span{Low: x - wide, High: x + wide}})
		}
	}
	wish.Strict = len(s.best.GivenUp) == 0
	r, err := Find(s.ctx, wish)
	var conflict *Conflict
	var narrow *TooNarrow
	switch {
	case errors.As(err, &conflict), errors.As(err, &narrow):
		return nil, nil
	case err != nil:
		return nil, err
	case limitsBroken(r):
		return nil, nil
	}
	return r, s.look(r)
}

func limitsBroken(r *Result) bool {
	for _, v := range append(r.Judgement.Broken(), r.Planned.Broken()...) {
		if v.Severity == style.Limit {
			return true
		}
	}
	return false
}

// takeRooms gives a robust result the rooms of the first one: what may be used is
// the same, only what is chosen differs.
func (r *Result) takeRooms(first *Result) {
	for i, room := range first.Rooms {
		room.Now = r.own[i].Now
		r.Rooms = append(r.Rooms, room)
	}
	for _, room := range first.Aims {
		if f, known := r.Plan.Find(quantity.Figure(room.Name)); known {
			room.Now = f.Value
		}
		r.Aims = append(r.Aims, room)
	}
}
