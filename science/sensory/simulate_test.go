// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// panels is how many panels are simulated for each question.
const panels = 10000

// answer simulates one assessor: each glass is perceived with a normal error, and the
// assessor answers by the rule of the protocol. No formula of this package is used.
func answer(protocol Protocol, d float64, random *rand.Rand) bool {
	plain := func() float64 { return random.NormFloat64() }
	far := func() float64 { return random.NormFloat64() + d }
	switch protocol {
	case Triangle: // the two most alike are taken for the pair
		a, b, odd := plain(), plain(), far()
		return math.Abs(a-b) < min(math.Abs(a-odd), math.Abs(b-odd))
	case DuoTrio: // the nearer to the reference is taken for it
		reference, a, other := plain(), plain(), far()
		return math.Abs(a-reference) < math.Abs(other-reference)
	case ThreeAFC:
		return far() > max(plain(), plain())
	case Tetrad: // the two lowest and the two highest are taken for the pairs
		glasses := []float64{plain(), plain(), far(), far()}
		return max(glasses[0], glasses[1]) < min(glasses[2], glasses[3]) ||
			min(glasses[0], glasses[1]) > max(glasses[2], glasses[3])
	}
	return far() > plain()
}

func simulate(protocol Protocol, n int, d float64, random *rand.Rand) Choice {
	c := Choice{protocol, 0, n}
	for range n {
		if answer(protocol, d, random) {
			c.Right++
		}
	}
	return c
}

// The share of panels that find a difference: at most alpha when there is none, the
// computed power when there is one. Tolerance: four standard deviations of the
// simulation.
func TestSimulatedPanels(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	for _, protocol := range Protocols() {
		design := Design{protocol, 0.05}
		for _, d := range []float64{0, 1.5} {
			n := 18
			critical, found := design.Critical(n), 0
			for range panels {
				c := simulate(protocol, n, d, random)
				if protocol.side(c.Right, n) >= critical {
					found++
				}
			}
			want := design.Power(n, protocol.ProportionCorrect(d))
			if d == 0 && want > 0.05 {
				t.Errorf("%s: true alpha %g", protocol, want)
			}
			noise := 4 * math.Sqrt(want*(1-want)/panels)
			same(t, fmt.Sprintf("%s d′ %g: found", protocol, d), float64(found)/panels, want, noise)
		}
	}
}

// Every outcome of every protocol, panel size and alpha, when all guess: what Test
// shows is never more likely than alpha.
func TestAlphaIsKept(t *testing.T) {
	for _, protocol := range Protocols() {
		for _, alpha := range []float64{0.2, 0.05, 0.01} {
			for n := 1; n <= 40; n++ {
				shown, design := 0.0, Design{protocol, alpha}
				for right := 0; right <= n; right++ {
					if (Choice{protocol, right, n}).P() <= alpha {
						shown += binomial(right, n, protocol.Guess())
					}
				}
				same(t, fmt.Sprint(protocol, n, alpha), shown, design.Size(n), 1e-12)
				if shown > alpha+1e-15 {
					t.Errorf("%s n %d at %g: true alpha %g", protocol, n, alpha, shown)
				}
			}
		}
	}
}

// Every outcome again, when the share that can tell is the limit: similarity is never
// shown more often than beta.
func TestBetaIsKept(t *testing.T) {
	for _, protocol := range []Protocol{Triangle, DuoTrio} {
		for n := 1; n <= 60; n++ {
			for _, s := range []Similarity{{protocol, 0.2, 0.05}, {protocol, 0.3, 0.1}} {
				if power := s.Power(n, s.Limit); power > s.Beta+1e-15 {
					t.Errorf("%+v n %d: shown at the limit with %g", s, n, power)
				}
			}
		}
	}
}

// The finding and its exact interval tell the same story for every outcome.
func TestIntervalMatchesTest(t *testing.T) {
	for _, protocol := range Protocols() {
		for _, n := range []int{5, 14, 18, 33} {
			for right := range n + 1 {
				f := Choice{protocol, right, n}.Test(0.05)
				leaves := f.Proportion.Low > protocol.Guess()+1e-12 || protocol.TwoSided() && f.Proportion.High < protocol.Guess()-1e-12
				if f.Shown != leaves || f.Shown != (protocol.side(right, n) >= f.Critical) {
					t.Errorf("%v: shown %v, interval %v, critical %d", f.Choice, f.Shown, f.Proportion, f.Critical)
				}
			}
		}
	}
}

// How often the 95 % intervals of d′ hold the true one, by all outcomes, averaged over
// true d′ from 0.5 to 2.5 at which three wrong answers or more are expected: 94 to 96 %
// for the likelihood interval with 12 tasters and more (at single d′ 90 to 98 %). The
// exact interval never covers less than 95 % at any d′; it covers 96 to 98 % on
// average, because whole answers make it cautious.
func TestDistanceCoverage(t *testing.T) {
	for _, protocol := range Protocols() {
		for _, n := range []int{12, 18, 24, 40} {
			likely, exact, lowest, steps := 0.0, 0.0, 1.0, 0.0
			chances := make([]float64, n+1)
			likelihood, cautious := make([][2]float64, n+1), make([][2]float64, n+1)
			for right := range n + 1 {
				c := Choice{protocol, right, n}
				a, b := c.DistanceInterval(0.95), c.DistanceExactInterval(0.95)
				likelihood[right], cautious[right] = [2]float64{a.Low, a.High}, [2]float64{b.Low, b.High}
			}
			for d := 0.5; d <= 2.5; d += 0.02 {
				for right := range chances {
					chances[right] = binomial(right, n, protocol.ProportionCorrect(d))
				}
				now := covered(chances, cautious, d)
				lowest = min(lowest, now)
				if float64(n)*(1-protocol.ProportionCorrect(d)) < 3 {
					continue
				}
				likely += covered(chances, likelihood, d)
				exact, steps = exact+now, steps+1
			}
			if mean := likely / steps; mean < 0.94 || mean > 0.96 {
				t.Errorf("%s n %d: the likelihood interval covers %.4f", protocol, n, mean)
			}
			if lowest < 0.95-1e-9 || exact/steps < 0.955 || exact/steps > 0.985 {
				t.Errorf("%s n %d: the exact interval covers %.4f, at least %.4f", protocol, n, exact/steps, lowest)
			}
		}
	}
}

func covered(chances []float64, intervals [][2]float64, d float64) float64 {
	sum := 0.0
	for right, chance := range chances {
		if intervals[right][0] <= d && d <= intervals[right][1] {
			sum += chance
		}
	}
	return sum
}

// Simulated A-not-A panels: assessors with readiness of many sizes to say "A".
func TestRecognitionCoverage(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 3))
	intervals := map[Recognition][2]float64{}
	held := 0
	for range panels {
		d, criterion := 0.5+2*random.Float64(), random.Float64()
		r := Recognition{CupsA: 24, CupsB: 24}
		for range 24 {
			if random.NormFloat64()+d > criterion {
				r.Hits++
			}
			if random.NormFloat64() > criterion {
				r.FalseAlarms++
			}
		}
		span, known := intervals[r]
		if !known {
			s := r.DistanceInterval(0.95)
			span = [2]float64{s.Low, s.High}
			intervals[r] = span
		}
		if span[0] <= d && d <= span[1] {
			held++
		}
	}
	if share := float64(held) / panels; share < 0.94 || share > 0.96 {
		t.Errorf("the interval of d′ covers %.4f", share)
	}
}

// Replicates of assessors that all guess: the pooled test keeps alpha.
func TestReplicatesKeepAlpha(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 5))
	critical, shown := Design{Triangle, 0.05}.Critical(36), 0
	for range panels {
		r := Replicates{Protocol: Triangle}
		for range 12 {
			r.Assessors = append(r.Assessors, Answered{simulate(Triangle, 3, 0, random).Right, 3})
		}
		if r.Pooled().Right >= critical {
			shown++
		}
	}
	size := Design{Triangle, 0.05}.Size(36)
	same(t, "pooled replicates", float64(shown)/panels, size, 4*math.Sqrt(size/panels))
}

func TestProtocols(t *testing.T) {
	list := Protocols()
	for i, protocol := range list {
		if !protocol.Known() || slices.Index(list, protocol) != i || protocol.Cups() < 2 {
			t.Errorf("%s isn't a proper protocol", protocol)
		}
		same(t, string(protocol)+" of nobody", protocol.ProportionCorrect(0), protocol.Guess(), 1e-15)
		same(t, string(protocol)+" of all", protocol.ProportionCorrect(farthest), 1, 1e-12)
		same(t, string(protocol)+" share and back", protocol.Share(protocol.AtShare(0.3)), 0.3, 1e-14)
	}
}
