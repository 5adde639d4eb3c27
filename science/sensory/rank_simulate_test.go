// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"
)

// panelsSimulated is how many panels that taste no difference are played.
func panelsSimulated() int {
	if os.Getenv("GYLE_SOAK") == "1" {
		return 10_000
	}
	return 1_500
}

// TestNoFalseAlarms plays panels for whom all beers are alike: no test may find
// a difference more often than its level, but for four standard errors of the
// simulation.
func TestNoFalseAlarms(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 18))
	panels := panelsSimulated()
	for _, design := range []struct {
		name string
		p    func() float64
	}{
		{"Friedman, 6 assessors, 3 beers", func() float64 { return randomRanks(random, 6, 3).Friedman().P }},
		{"Friedman, 5 assessors, 4 beers", func() float64 { return randomRanks(random, 5, 4).Friedman().P }},
		{"Friedman with ties, 7 assessors, 3 beers", func() float64 { return RanksOf(levels(random, 7, 3)).Friedman().P }},
		{"Friedman by shuffles, 20 assessors, 6 beers", func() float64 { p, _ := randomRanks(random, 20, 6).shuffled(99); return p }},
		{"Page, 6 assessors, 4 beers", func() float64 { return randomRanks(random, 6, 4).Page().P }},
		{"profile, 6 assessors, 3 beers", func() float64 {
			table, err := AnalyseProfile(noise(random, 6, 3, 2))
			if err != nil {
				t.Fatal(err)
			}
			return table.P
		}},
		{"paired, 12 assessors", func() float64 { return PairedOf(noise(random, 1, 1, 12)[0][0]).P() }},
		{"sign flips, 9 assessors", func() float64 {
			p, _ := SignFlip(noise(random, 1, 1, 9)[0][0])
			return p
		}},
		{"six attributes after Holm", func() float64 {
			p := make([]float64, 6)
			for i := range p {
				p[i] = PairedOf(noise(random, 1, 1, 12)[0][0]).P()
			}
			smallest := 1.0
			for _, corrected := range Holm(p) {
				smallest = min(smallest, corrected)
			}
			return smallest
		}},
		{"part of the beers, 9 assessors, 3 of 5 beers", func() float64 {
			test, _, err := partRanks(5, someOf(random, 9, 5, 3), 99)
			if err != nil {
				return 1 // a beer was never poured beside the others
			}
			return test.P
		}},
		{"A or not A, 8 assessors, 4 cups each", func() float64 { return RecognitionBy(indifferent(random, 8, 2)) }},
		{"A or not A, 14 assessors, a cup of each", func() float64 { return RecognitionBy(indifferent(random, 14, 1)) }},
		{"triangle in two stages, 12 and 24", twoStages(random, Triangle, 12, 24)},
		{"preference in two stages, 12 and 30", twoStages(random, Preference, 12, 30)},
		{"duo-trio, 10 assessors, 3 answers each", func() float64 { return simulate(DuoTrio, 30, 0, random).P() }},
		{"preference, the majority of 3 answers each", func() float64 {
			r := Replicates{Protocol: Preference}
			for range 13 {
				r.Assessors = append(r.Assessors, Answered{simulate(Preference, 3, 0, random).Right, 3})
			}
			voices, _ := r.Majority()
			return voices.P()
		}},
		{"signed ranks, 10 assessors", func() float64 {
			_, p := SignedRank(noise(random, 1, 1, 10)[0][0])
			return p
		}},
	} {
		alarms := 0
		for range panels {
			if design.p() <= 0.05 {
				alarms++
			}
		}
		share := float64(alarms) / float64(panels)
		if most := 0.05 + 4*math.Sqrt(0.05*0.95/float64(panels)); share > most {
			t.Errorf("%s: %.4f of %d panels see a difference that isn't there", design.name, share, panels)
		}
		t.Logf("%-42s %.4f", design.name, share)
	}
}

// someOf gives each assessor some of the beers in random order.
func someOf(random *rand.Rand, assessors, beers, each int) (blocks []Block) {
	for range assessors {
		b := Block{Beers: random.Perm(beers)[:each]}
		for _, rank := range random.Perm(each) {
			b.Ranks = append(b.Ranks, float64(rank+1))
		}
		blocks = append(blocks, b)
	}
	return blocks
}

// indifferent returns assessors who call any cup A, each as readily as they are.
func indifferent(random *rand.Rand, assessors, cups int) (tables []Table) {
	for range assessors {
		ready := random.Float64()
		called := func() (n int) {
			for range cups {
				n += int(oneIf(random.Float64() < ready))
			}
			return n
		}
		a, b := called(), called()
		tables = append(tables, Table{a, cups - a, b, cups - b})
	}
	return tables
}

// twoStages plays a plan with a look; what it shows has a p of nothing.
func twoStages(random *rand.Rand, protocol Protocol, first, total int) func() float64 {
	plan, _ := Design{protocol, 0.05}.TwoStage(first, total)
	return func() float64 {
		look, rest := simulate(protocol, first, 0, random).Right, simulate(protocol, total-first, 0, random).Right
		return 1 - oneIf(plan.Shown(look, look+rest))
	}
}

// levels returns scores on a scale of few words, so that many are equal.
func levels(random *rand.Rand, assessors, beers int) (scores [][]float64) {
	for range assessors {
		row := make([]float64, beers)
		for j := range row {
			row[j] = float64(random.IntN(3))
		}
		scores = append(scores, row)
	}
	return scores
}

// noise returns scores in which assessors have levels of their own and disagree
// about beers that are alike on the whole.
func noise(random *rand.Rand, assessors, beers, repeats int) (scores [][][]float64) {
	for range assessors {
		level := 0.0
		if assessors > 1 {
			level = 3 * random.NormFloat64()
		}
		var row [][]float64
		for range beers {
			taste := level
			if assessors > 1 {
				taste += random.NormFloat64()
			}
			var cell []float64
			for range repeats {
				cell = append(cell, taste+random.NormFloat64())
			}
			row = append(row, cell)
		}
		scores = append(scores, row)
	}
	return scores
}
