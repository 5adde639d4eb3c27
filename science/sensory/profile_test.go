// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

func TestProfileOfThreeBeers(t *testing.T) {
	// Five assessors, three beers, two repeats: R 4.2.2, aov and qtukey.
	table, err := AnalyseProfile([][][]float64{
		{{42, 45}, {55, 52}, {61, 66}}, {{38, 35}, {50, 47}, {52, 58}}, {{55, 60}, {58, 63}, {75, 71}},
		{{47, 44}, {49, 55}, {60, 57}}, {{33, 39}, {46, 41}, {58, 62}},
	})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{43.8, 51.6, 62.0} {
		ratingNear(t, "mean", table.Means[i], want, 1e-9)
	}
	ratingNear(t, "SS of assessors", table.SumAssessors, 1175.8, 1e-9)
	ratingNear(t, "SS of beers", table.SumBeers, 1667.4667, 5e-5)
	ratingNear(t, "SS of interaction", table.SumInteraction, 127.2, 1e-9)
	ratingNear(t, "SS of repeats", table.SumRepeats, 147.0, 1e-9)
	ratingNear(t, "F", table.F, 52.436, 5e-4)
	ratingNear(t, "p", table.P, 2.524e-5, 5e-9)
	ratingNear(t, "F of interaction", table.FInteraction, 1.622, 5e-4)
	ratingNear(t, "p of interaction", table.PInteraction, 0.1996, 5e-5)
	ratingNear(t, "LSD", table.LSD(0.05), 4.112, 5e-4)
	ratingNear(t, "HSD", table.HSD(0.05), 5.096, 5e-4)
}

func TestProfileRefusesHoles(t *testing.T) {
	for _, bad := range [][][][]float64{nil, {{{1}, {2}}}, {{{1}, {2}}, {{1}}}, {{{1}, {2}}, {{1}, {2, 3}}}, {{{1}, {2}}, {{1}, {math.NaN()}}}} {
		if _, err := AnalyseProfile(bad); err == nil {
			t.Errorf("%v passes", bad)
		}
	}
}

// liking of two beers by ten people; R 4.2.2, t.test and binom.test, and the
// signed ranks by enumeration.
var likingA = []float64{7, 6, 8, 7, 5, 6, 7, 8, 6, 7}
var likingB = []float64{6, 6, 7, 5, 5, 7, 6, 6, 5, 7}

func TestPairedLiking(t *testing.T) {
	var d []float64
	for i := range likingA {
		d = append(d, likingA[i]-likingB[i])
	}
	p := PairedOf(d)
	ratingNear(t, "mean", p.Mean, 0.7, 1e-12)
	ratingNear(t, "t", p.T(), 2.3333, 5e-5)
	ratingNear(t, "p", p.P(), 0.0445, 5e-5)
	low, high := p.Interval(0.95)
	ratingNear(t, "low", low, 0.0214, 5e-5)
	ratingNear(t, "high", high, 1.3786, 5e-5)
	v, signed := SignedRank(d)
	ratingNear(t, "V", v, 25, 0)
	ratingNear(t, "p of V", signed, 0.09375, 1e-9)
	up, down, signs := PairedSigns(d)
	if up != 6 || down != 1 {
		t.Errorf("%d up, %d down", up, down)
	}
	ratingNear(t, "p of signs", signs, 0.125, 1e-9)
}

func TestEquivalent(t *testing.T) {
	// R 4.2.2: pt.
	p := Paired{N: 20, Mean: 0.2, SD: 1.1}
	ratingNear(t, "p of equivalence", p.Equivalent(0.75), 0.018770, 5e-7)
	ratingNear(t, "the other side", ratingStudentTail((0.2+0.75)/(1.1/math.Sqrt(20)), 19), 0.000525, 5e-7)
}

// TestSignFlipEnumerates compares with the plain enumeration of all signs.
func TestSignFlipEnumerates(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 9))
	for range 200 {
		d := make([]float64, 1+random.IntN(10))
		for i := range d {
			d[i] = float64(random.IntN(9)-3) / 2
		}
		total, hits := 0.0, 0
		for _, x := range d {
			total += x
		}
		for signs := range 1 << len(d) {
			sum := 0.0
			for i, x := range d {
				if signs&(1<<i) != 0 {
					x = -x
				}
				sum += x
			}
			if math.Abs(sum) >= math.Abs(total) {
				hits++
			}
		}
		p, ok := SignFlip(d)
		if !ok {
			t.Fatal("not computed")
		}
		ratingNear(t, fmt.Sprint("sign flips of ", d), p, float64(hits)/math.Exp2(float64(len(d))), 1e-12)
	}
	if _, ok := SignFlip(make([]float64, 100)); !ok {
		t.Error("differences of nothing count")
	}
	many := make([]float64, 30)
	for i := range many {
		many[i] = 1
	}
	if _, ok := SignFlip(many); ok {
		t.Error("30 assessors are enumerated")
	}
}

// TestProfileOfTwelve takes the means and standard deviations of a profile by
// twelve members; the probabilities were computed from them with R 4.2.2.
func TestProfileOfTwelve(t *testing.T) {
	rows := []struct{ mean, sd, p, corrected, digit float64 }{
		{-1.4, 1.3, 0.003, 0.02, 0.0005}, {0.8, 1.5, 0.09, 0.46, 0.005}, {-0.5, 1.4, 0.24, 0.97, 0.005},
		{-0.4, 1.4, 0.34, 1, 0.006}, {0.2, 1.2, 0.58, 1, 0.005}, {0.1, 1.1, 0.76, 1, 0.005},
	}
	var p []float64
	for _, r := range rows {
		p = append(p, Paired{N: 12, Mean: r.mean, SD: r.sd}.P())
	}
	corrected := Holm(p)
	for i, r := range rows {
		ratingNear(t, fmt.Sprintf("p of %+g", r.mean), p[i], r.p, r.digit)
		ratingNear(t, fmt.Sprintf("corrected p of %+g", r.mean), corrected[i], r.corrected, 0.005)
	}
}

// TestCompareProfiles gives differences of just these means and deviations.
func TestCompareProfiles(t *testing.T) {
	random := rand.New(rand.NewPCG(12, 9))
	var attributes []AttributePair
	for _, r := range []struct {
		name     string
		mean, sd float64
	}{{"roast", -1.4, 1.3}, {"nut", 0.8, 1.5}, {"fruit", 0.1, 1.1}} {
		a := AttributePair{Name: r.name}
		d := make([]float64, 12)
		for i := range d {
			d[i] = random.NormFloat64()
		}
		m, sd := mean(d), math.Sqrt(variance(d))
		for i := range d {
			a.Parent = append(a.Parent, 5)
			a.Child = append(a.Child, 5+r.mean+(d[i]-m)/sd*r.sd)
		}
		attributes = append(attributes, a)
	}
	changes := CompareProfiles(attributes)
	ratingNear(t, "p of roast", changes[0].P, 0.0033, 5e-5) // R: 2*pt(-1.4/(1.3/sqrt(12)), 11)
	ratingNear(t, "corrected", changes[0].Corrected, 3*changes[0].P, 1e-12)
	ratingNear(t, "corrected fruit", changes[2].Corrected, changes[2].P, 1e-12)
	if c := changes[0]; c.Flip > 0.02 || c.FlipsCorrected < c.Flip {
		t.Errorf("sign flips of roast: %g, corrected %g", c.Flip, c.FlipsCorrected)
	}
	d, p, ok := ProfileDistance(attributes[:1])
	flip, _ := SignFlip(PairedDifferences(attributes[0]))
	if !ok || d <= 0 {
		t.Fatalf("distance %g, %v", d, ok)
	}
	ratingNear(t, "p of one attribute's distance", p, flip, 1e-12)
}

func TestAgainstRange(t *testing.T) {
	// Computed with R 4.2.2 (qt).
	total, squares, outside, undecided := 0.0, 0.0, 0, 0
	for _, row := range []struct {
		scores    []float64
		low, high float64
		want      RangeVerdict
		deviation float64
	}{
		{[]float64{3, 2, 3, 4, 3, 3, 2, 3}, 2, 4, Inside, 0},
		{[]float64{2, 2, 3, 2, 1, 2, 2, 3}, 2, 3, Inside, 0},
		{[]float64{4, 5, 4, 4, 5, 4, 3, 4}, 2, 3, Outside, 0.625},
		{[]float64{1, 0, 1, 1, 0, 1, 2, 1}, 0, 2, Inside, 0},
		{[]float64{0, 1, 1, 0, 2, 1, 0, 1}, 0, 0, Undecided, 0.25},
		{[]float64{2, 3, 2, 2, 3, 2, 2, 3}, 2, 3, Inside, 0},
	} {
		verdict, deviation := AgainstRange(row.scores, row.low, row.high)
		if verdict != row.want {
			t.Errorf("%v against %g to %g is %s, want %s", row.scores, row.low, row.high, verdict, row.want)
		}
		ratingNear(t, "deviation", deviation, row.deviation, 1e-9)
		total += deviation / 6
		squares += deviation * deviation / 6
		switch verdict {
		case Outside:
			outside++
		case Undecided:
			undecided++
		}
	}
	ratingNear(t, "mean deviation", total, 0.1458, 5e-5)
	ratingNear(t, "RMS deviation", math.Sqrt(squares), 0.2748, 5e-5)
	if outside != 1 || undecided != 1 {
		t.Errorf("%d outside, %d undecided", outside, undecided)
	}
	if v, _ := AgainstRange([]float64{5, 5, 5}, 0, 1); v != Undecided {
		t.Error("three scores decide")
	}
}

func TestCochranQ(t *testing.T) {
	// Computed from the formula and with R 4.2.2 (pchisq).
	var ticks [][]bool
	for _, row := range ranksFrom("110;100;110;111;000;100;110;101;110;010") {
		ticks = append(ticks, []bool{row[0] == 1, row[1] == 1, row[2] == 1})
	}
	test, err := CochranQ(ticks)
	if err != nil {
		t.Fatal(err)
	}
	ratingNear(t, "Q", test.Statistic, 7, 1e-9)
	ratingNear(t, "p", test.P, 0.03020, 5e-6)
	var two [][]bool // nine against two, the exact McNemar test: 0.06543
	for i := range 11 {
		two = append(two, []bool{i < 9, i >= 9})
	}
	test, _ = CochranQ(two)
	ratingNear(t, "exact p of two", test.P, 0.06543, 5e-6)
}

func TestPenalties(t *testing.T) {
	// Computed with R 4.2.2 (t.test, binom.test).
	levels := []int{3, 3, 3, 2, 2, 4, 3, 2, 3, 4, 2, 3, 3, 2, 1, 3, 4, 3, 2, 3}
	liking := []float64{8, 7, 8, 6, 5, 6, 7, 5, 8, 5, 6, 7, 9, 6, 4, 8, 7, 7, 6, 8}
	j := Penalties(levels, liking)
	if j.Low.Count != 7 || j.Right != 10 || j.High.Count != 3 {
		t.Errorf("groups %d, %d, %d", j.Low.Count, j.Right, j.High.Count)
	}
	ratingNear(t, "mean of low", j.Low.Mean, 5.4286, 5e-5)
	ratingNear(t, "mean of right", j.RightMean, 7.7, 1e-9)
	ratingNear(t, "drop of low", j.Low.Drop, 2.2714, 5e-5)
	ratingNear(t, "drop of high", j.High.Drop, 1.7, 1e-9)
	ratingNear(t, "penalty of low", j.Low.Weighted(), 0.795, 5e-4)
	ratingNear(t, "penalty of high", j.High.Weighted(), 0.255, 5e-4)
	ratingNear(t, "direction", j.Direction, 0.34375, 1e-9)
	var right, low []float64
	for i, level := range levels {
		switch {
		case level < 3:
			low = append(low, liking[i])
		case level == 3:
			right = append(right, liking[i])
		}
	}
	welch, df, p := WelchT(right, low)
	ratingNear(t, "Welch's t", welch, 6.2053, 5e-5)
	ratingNear(t, "its degrees of freedom", df, 11.70, 5e-3)
	ratingNear(t, "its p", p, 5.08e-5, 5e-8)
}

func TestStuartMaxwell(t *testing.T) {
	statistic, p := StuartMaxwell([3][3]int{{4, 5, 1}, {2, 9, 1}, {0, 3, 5}})
	ratingNear(t, "X²", statistic, 2.4615, 5e-5) // computed from the formula
	ratingNear(t, "p", p, 0.2921, 5e-5)
}

func TestSeveralQuestions(t *testing.T) {
	for m, want := range map[int]float64{3: 0.143, 6: 0.265, 10: 0.401, 20: 0.642} {
		ratingNear(t, fmt.Sprintf("false alarms of %d questions", m), FalseAlarm(m, 0.05), want, 5e-4)
	}
	p := []float64{0.730, 0.004, 0.011, 0.020, 0.032, 0.045, 0.210, 0.480} // R 4.2.2: p.adjust
	for i, want := range []float64{0.960, 0.032, 0.077, 0.120, 0.160, 0.180, 0.630, 0.960} {
		ratingNear(t, "Holm", Holm(p)[i], want, 1e-9)
	}
	for i, want := range []float64{0.7300, 0.0320, 0.0440, 0.0533, 0.0640, 0.0720, 0.2800, 0.5486} {
		ratingNear(t, "Benjamini and Hochberg", BenjaminiHochberg(p)[i], want, 5e-5)
	}
}

func TestPairedPower(t *testing.T) {
	// R 4.2.2: power.t.test(type = "paired").
	ratingNear(t, "power of 20", PairedPower(20, 1, 1.8, 0.05), 0.655, 5e-4)
	ratingNear(t, "difference that 12 find", PairedDetects(12, 1.8, 0.05, 0.8), 1.60, 0.005)
	for sd, want := range map[float64]int{1.8: 28, 2.0: 34} {
		if n, found := PairedPanel(1, sd, 0.05, 0.8); !found || n != want {
			t.Errorf("SD %g needs %d assessors, want %d", sd, n, want)
		}
	}
	if _, found := PairedPanel(0.01, 5, 0.05, 0.8); found {
		t.Error("a thousand assessors find a hundredth")
	}
	ratingNear(t, "power without a difference", PairedPower(9, 0, 1, 0.05), 0.05, 1e-9)
}
