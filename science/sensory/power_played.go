// SPDX-License-Identifier: MIT

package sensory

import "math/rand/v2"

// What panels find is played on paper where no closed sum is at hand: so many
// evenings, with random numbers from a fixed seed. A power is then right within five
// points.
const (
	playedEvenings = 400
	playedSeed     = 41
)

// PowerRepeated returns the chance to find a share of tasters that can tell, when
// each of n assessors answers several times: those who can tell are right each time,
// the others guess each time.
//
//	Σ_k P(Bin(n, s) = k)·P(Bin(r·(n−k), c) ≥ x_crit(r·n) − r·k)
//
// All are numbers without unit: s the share, r the answers of each, c the chance of a
// guess.
//
//   - Source: derived, sum over all outcomes.
//   - Valid: one-sided protocols; tasters who are sometimes right lie between this and r·n independent answers.
//   - Check: one answer each gives [Design.Power].
//   - Tag: derived
func (d Design) PowerRepeated(n, answers int, share float64) (power float64) {
	critical := d.Critical(n * answers)
	for able := 0; able <= n; able++ {
		power += binomial(able, n, share) * BinomialAtLeast(critical-answers*able, answers*(n-able), d.Protocol.Guess())
	}
	return power
}

// RankPower returns the chance that n assessors who rank k beers find a difference,
// when one beer lies d′ from the others. It is played 400 times with the F reference of
// [KendallF].
func RankPower(n, k int, alpha, d float64) float64 {
	random := rand.New(rand.NewPCG(playedSeed, uint64(n*k)))
	found := 0
	for range playedEvenings {
		scores := make([][]float64, n)
		for i := range scores {
			scores[i] = make([]float64, k)
			for j := range scores[i] {
				scores[i][j] = random.NormFloat64()
			}
			scores[i][0] += d
		}
		if KendallF(RanksOf(scores).FriedmanStatistic(), n, k) <= alpha {
			found++
		}
	}
	return float64(found) / playedEvenings
}

// RecognitionRepeatedPower returns the chance that an A-not-A test finds two beers d′
// apart, when each of n assessors judges so many cups of each and is judged against
// their own other answers, as in [RecognitionBy]. It is played up to 400 times; every
// assessor calls as many cups of A "A" as of the other beer "not A".
func RecognitionRepeatedPower(n, cupsA, cupsB int, alpha, d float64) float64 {
	random := rand.New(rand.NewPCG(playedSeed, uint64(n)))
	evenings := playedEvenings
	if n > 60 {
		evenings /= 4
	}
	found := 0
	for range evenings {
		tables := make([]Table, n)
		for i := range tables {
			a, b := 0, 0
			for range cupsA {
				a += int(oneIf(random.NormFloat64()+d/2 > 0))
			}
			for range cupsB {
				b += int(oneIf(random.NormFloat64()-d/2 > 0))
			}
			tables[i] = Table{a, cupsA - a, b, cupsB - b}
		}
		if RecognitionBy(tables) <= alpha {
			found++
		}
	}
	return float64(found) / float64(evenings)
}
