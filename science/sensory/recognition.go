// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"

	"gyle/quantity"
)

// Recognition is an A-not-A test, or an in/out test: single cups, each by an
// assessor of its own, who says whether it is A. When assessors judge a cup of each
// beer, see [McNemar].
type Recognition struct {
	Hits, CupsA        int // cups of A, and how many of them were called A
	FalseAlarms, CupsB int // cups of the other beer, and how many of them were called A
}

// Check says what is impossible about the counts.
func (r Recognition) Check() error {
	switch {
	case r.CupsA < 1 || r.CupsB < 1:
		return fmt.Errorf("%d cups of one beer and %d of the other are too few to judge", r.CupsA, r.CupsB)
	case r.Hits < 0 || r.Hits > r.CupsA:
		return fmt.Errorf("%d of %d cups are impossible", r.Hits, r.CupsA)
	case r.FalseAlarms < 0 || r.FalseAlarms > r.CupsB:
		return fmt.Errorf("%d of %d cups are impossible", r.FalseAlarms, r.CupsB)
	}
	return nil
}

// Table is the table of the test: rows beers, columns "A" and "not A".
func (r Recognition) Table() Table {
	return Table{r.Hits, r.CupsA - r.Hits, r.FalseAlarms, r.CupsB - r.FalseAlarms}
}

// P is the exact one-sided probability of so many hits when the beers aren't told
// apart: see [Table.FisherGreater].
func (r Recognition) P() float64 { return r.Table().FisherGreater() }

// Distance estimates d′ with its standard error. If everybody or nobody called one
// of the beers A, half an answer is added to each count (log-linear correction).
//
//	d′ = Φ⁻¹(h/n_A) − Φ⁻¹(f/n_B)    log-linear: (h+½)/(n_A+1), (f+½)/(n_B+1)
//	SE² = p₁(1−p₁)/(n_A φ(z₁)²) + p₂(1−p₂)/(n_B φ(z₂)²)
//
// All are numbers without unit: z are the two quantiles.
//
//   - Source: green1966, d′; delta method.
//   - Valid: equal variances; the standard error from 12 cups of each or so.
//   - Check: 20 of 24 against 12 of 24 gives 0.96742 ± 0.39768.
//   - Tag: from memory
func (r Recognition) Distance() quantity.Estimate {
	if r.extreme() {
		return r.LogLinear()
	}
	return distanceOfRates(float64(r.Hits), float64(r.CupsA), float64(r.FalseAlarms), float64(r.CupsB))
}

// LogLinear is [Recognition.Distance] with half an answer added to each count.
func (r Recognition) LogLinear() quantity.Estimate {
	return distanceOfRates(float64(r.Hits)+0.5, float64(r.CupsA)+1, float64(r.FalseAlarms)+0.5, float64(r.CupsB)+1)
}

func (r Recognition) extreme() bool {
	return r.Hits == 0 || r.Hits == r.CupsA || r.FalseAlarms == 0 || r.FalseAlarms == r.CupsB
}

func distanceOfRates(hits, cupsA, alarms, cupsB float64) quantity.Estimate {
	variance := func(p, n, z float64) float64 { return p * (1 - p) / (n * normalDensity(z) * normalDensity(z)) }
	pA, pB := hits/cupsA, alarms/cupsB
	zA, zB := normalQuantile(pA), normalQuantile(pB)
	return quantity.Estimate{Value: zA - zB, SD: math.Sqrt(variance(pA, cupsA, zA) + variance(pB, cupsB, zB))}
}

// DistanceInterval returns the values of d′ that the answers don't speak against,
// whatever the readiness to say "A". An end is infinite when a beer was never or
// always called A and the answers don't bound it.
//
//	{d: 2·[l̂ − max_k l(Φ(k+d), Φ(k))] ≤ z²}    z = Φ⁻¹((1+level)/2)
//
// All are numbers without unit: l is the log likelihood of both counts, k the criterion.
//
//   - Source: derived, profile likelihood of the model of green1966.
//   - Valid: equal variances.
//   - Check: simulated coverage 94–96 % at 95 % for 24 cups of each; near the Wald
//     interval 0.188–1.747 of 20 of 24 against 12 of 24.
//   - Tag: derived
func (r Recognition) DistanceInterval(level float64) quantity.Span[float64] {
	best := logLikelihood(r.Hits, r.CupsA, float64(r.Hits)/float64(r.CupsA)) +
		logLikelihood(r.FalseAlarms, r.CupsB, float64(r.FalseAlarms)/float64(r.CupsB))
	z := normalQuantile((1 + level) / 2)
	against := func(d float64) float64 {
		_, l := maximize(func(k float64) float64 {
			return logLikelihood(r.Hits, r.CupsA, normalBelow(k+d)) + logLikelihood(r.FalseAlarms, r.CupsB, normalBelow(k))
		}, -criterionReach-max(0, d), criterionReach-min(0, d))
		return 2 * (best - l)
	}
	return unbounded(reach(against, z, r.Distance().Value, -distanceReach, distanceReach))
}

// criterionReach is farther out than any likely criterion, in standard deviations.
const criterionReach = 6.0

// RecognitionBy is the exact one-sided probability of so many hits when each assessor
// judged cups of both beers and is held against their own readiness to say "A": rows of
// a table are A and the other beer, columns "A" and "not A". With a cup of each it is
// [McNemar].
//
//	P(Σ hᵢ ≥ h | how often each said "A"), hypergeometric for each assessor, convolved
//
// All are numbers without unit.
//
//   - Source: derived; mantel1959, exact form.
//   - Valid: cups in random order for each assessor; who says the same of all cups says nothing.
//   - Check: 9 and 2 discordant assessors give 0.03271 (McNemar).
//   - Tag: derived
func RecognitionBy(tables []Table) float64 {
	hits, lowest := 0, 0
	distribution := []float64{1}
	for _, t := range tables {
		m := t.margin()
		hits, lowest = hits+t.A, lowest+m.lowest
		distribution = sumOfCounts(distribution, m.probabilities)
	}
	return min(1, margin{lowest, distribution}.atLeast(hits))
}

// RecognitionPower returns the chance that a test with so many cups of each beer
// shows a difference at alpha, when a share of each is called A. With equal shares it
// is the true alpha.
//
//	Σ over all h, f with Fisher's p ≤ α of Bin(h; n_A, p_A)·Bin(f; n_B, p_B)
//
// All are numbers without unit.
//
//   - Source: derived, sum over all outcomes.
//   - Valid: independent cups.
//   - Check: with equal shares never above alpha (n 4 to 20, all shares).
//   - Tag: derived
func RecognitionPower(cupsA, cupsB int, alpha, shareA, shareB float64) float64 {
	power := 0.0
	for called := 0; called <= cupsA+cupsB; called++ {
		lowest := max(0, called-cupsB)
		most := min(cupsA, called)
		m := Table{lowest, cupsA - lowest, called - lowest, cupsB - called + lowest}.margin()
		tail := 0.0
		for hits := most; hits >= lowest; hits-- {
			if tail += m.probabilities[hits-lowest]; tail > alpha {
				break
			}
			power += binomial(hits, cupsA, shareA) * binomial(called-hits, cupsB, shareB)
		}
	}
	return power
}

// mostCups ends the search for a panel that recognises a beer.
const mostCups = 120

// RecognitionPanel finds how many cups of each beer an A-not-A test needs for a
// power, when the beers lie d′ apart and assessors say "A" to as many cups of the one
// as "not A" of the other; false if 120 of each don't do. Shares are Φ(d′/2) and Φ(−d′/2).
func RecognitionPanel(alpha, power, d float64) (cups PanelSize, found bool) {
	missed, end := 0, mostCups
	for n := 1; n <= end; n++ {
		switch reached := RecognitionPower(n, n, alpha, normalBelow(d/2), normalBelow(-d/2)) >= power; {
		case !reached:
			missed = n
		case cups.First == 0:
			cups.First, end = n, min(mostCups, 2*n+20)
		}
	}
	cups.Stable = missed + 1
	return cups, cups.First > 0
}
