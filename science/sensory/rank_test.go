// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
)

// ratingNear reports a number that is further off than half its last printed
// digit, or another stated tolerance.
func ratingNear(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tolerance {
		t.Errorf("%s is %.10g, want %v ± %g", what, got, want, tolerance)
	}
}

// ranksFrom reads "1234;1324": one row a panelist.
func ranksFrom(text string) Ranks {
	var ranks Ranks
	for row := range strings.SplitSeq(text, ";") {
		var one []float64
		for _, digit := range row {
			one = append(one, float64(digit-'0'))
		}
		ranks = append(ranks, one)
	}
	return ranks
}

// eightOrders is a ranking of four beers by eight assessors; its figures were
// computed with R 4.2.2 (friedman.test, qtukey) and by complete enumeration.
var eightOrders = ranksFrom("1234;1324;2134;1243;1423;2143;1234;3124")

func TestRankingOfFour(t *testing.T) {
	test := eightOrders.Friedman()
	ratingNear(t, "Friedman's F", test.Statistic, 12.75, 1e-9)
	ratingNear(t, "chi-square p", test.ChiSquare, 0.00521, 5e-6)
	ratingNear(t, "exact p", test.P, 0.002337, 5e-7)
	if test.Method != "exact" {
		t.Errorf("method %s", test.Method)
	}
	ratingNear(t, "W", eightOrders.Kendall().W, 0.53125, 1e-9)
	ratingNear(t, "LSD", RankLSD(8, 4, 0.05), 10.121, 5e-4)
	hsd := RankHSD(8, 4, 0.05)
	ratingNear(t, "HSD", hsd, 13.266, 5e-4)
	page := eightOrders.Page()
	ratingNear(t, "L", page.Statistic, 229, 0)
	ratingNear(t, "z of L", eightOrders.PageZ(), 3.5518, 5e-5)
	ratingNear(t, "normal p of L", ratingNormalTail(eightOrders.PageZ()), 1.913e-4, 5e-8)
	ratingNear(t, "exact p of L", page.P, 8.086e-5, 5e-9)
	var shown []string
	for _, pair := range eightOrders.Pairs(hsd) {
		if pair.Shown {
			shown = append(shown, fmt.Sprint(pair.First+1, "-", pair.Second+1, ":", pair.Difference))
		}
	}
	if got := strings.Join(shown, " "); got != "1-4:17" {
		t.Errorf("different pairs: %s, want beers 1 and 4 only", got)
	}
}

// TestRankSumsOfTheStandard uses the worked example of ISO 8587, as quoted on a
// public page: 8 assessors, 5 beers, rank sums 17, 31, 32, 23, 17. Any table
// with these sums has the same figures.
func TestRankSumsOfTheStandard(t *testing.T) {
	ranks := ranksFrom("14532;25431;15342;14532;25431;25341;35421;25431")
	target := []float64{17, 31, 32, 23, 17}
	random := rand.New(rand.NewPCG(8, 5))
	for try := 0; fmt.Sprint(ranks.Sums()) != fmt.Sprint(target); try++ {
		if try > 200_000 {
			t.Fatalf("no table with the sums %v was found, but %v", target, ranks.Sums())
		}
		towards(random, ranks, target)
	}
	test := ranks.Friedman()
	ratingNear(t, "F", test.Statistic, 10.60, 0.005)
	ratingNear(t, "chi-square p", test.ChiSquare, 0.03145, 5e-6)
	ratingNear(t, "W", ranks.Kendall().W, 0.33125, 1e-9)
	ratingNear(t, "LSD", RankLSD(8, 5, 0.05), 12.40, 0.005)
}

// towards swaps two ranks of one row if that brings the sums nearer.
func towards(random *rand.Rand, ranks Ranks, target []float64) {
	row, a, b := ranks[random.IntN(len(ranks))], random.IntN(len(target)), random.IntN(len(target))
	off := func() (sum float64) {
		for j, s := range ranks.Sums() {
			sum += math.Abs(s - target[j])
		}
		return sum
	}
	before := off()
	row[a], row[b] = row[b], row[a]
	if off() > before {
		row[a], row[b] = row[b], row[a]
	}
}

func TestRankingWithTies(t *testing.T) {
	// Computed with R 4.2.2 and by permutation of each row.
	ranks := RanksOf([][]float64{{7, 6, 6, 5}, {8, 8, 6, 5}, {6, 7, 5, 5}, {9, 7, 7, 6}, {7, 5, 6, 4}, {8, 6, 7, 7}})
	if got := fmt.Sprint(ranks.Sums()); got != "[22.5 15.5 14 8]" {
		t.Errorf("rank sums %s", got)
	}
	if !ranks.Tied() || eightOrders.Tied() {
		t.Error("ties are not seen where they are, or seen where they aren't")
	}
	test := ranks.Friedman()
	ratingNear(t, "F", test.Statistic, 11.618, 5e-4)
	ratingNear(t, "chi-square p", test.ChiSquare, 0.00881, 5e-6)
	ratingNear(t, "exact p", test.P, 0.003046, 5e-7)
}

func TestFriedmanOfOneAgreement(t *testing.T) {
	// Five assessors who all agree on three beers: 6 of 6⁵ tables.
	means := RanksOf([][]float64{{43.5, 53.5, 63.5}, {36.5, 48.5, 55}, {57.5, 60.5, 73}, {45.5, 52, 58.5}, {36, 43.5, 60}})
	test := means.Friedman()
	ratingNear(t, "F", test.Statistic, 10, 1e-9)
	ratingNear(t, "chi-square p", test.ChiSquare, 0.00674, 5e-6)
	ratingNear(t, "exact p", test.P, 6/math.Pow(6, 5), 1e-12)
}

// TestFriedmanCritical compares with the classical tables of critical values
// (from memory), in the digits they print.
func TestFriedmanCritical(t *testing.T) {
	for _, row := range []struct {
		n, k      int
		five, one float64 // 0: none
	}{
		{3, 3, 6, 0}, {4, 3, 6.5, 8}, {5, 3, 6.4, 8.4}, {6, 3, 7, 9}, {7, 3, 7.143, 8.857}, {8, 3, 6.25, 9},
		{9, 3, 6.222, 9.556}, {10, 3, 6.2, 9.6}, {11, 3, 6.545, 9.455}, {12, 3, 6.5, 9.5}, {13, 3, 6.615, 9.385},
		{14, 3, 6.143, 9.143}, {15, 3, 6.4, 8.933},
		{2, 4, 6, 0}, {3, 4, 7.4, 9}, {4, 4, 7.8, 9.6}, {5, 4, 7.8, 9.96}, {6, 4, 7.6, 10.2}, {7, 4, 7.8, 10.543},
		{8, 4, 7.65, 10.5}, {9, 4, 7.667, 10.733}, {10, 4, 7.68, 10.68},
		{2, 5, 7.6, 8}, {3, 5, 8.533, 10.133}, {4, 5, 8.8, 11.2}, {5, 5, 8.96, 11.68}, {6, 5, 9.067, 11.867}, {7, 5, 9.143, 12.114},
	} {
		for alpha, want := range map[float64]float64{0.05: row.five, 0.01: row.one} {
			got, ok := FriedmanCritical(row.n, row.k, alpha)
			if !ok {
				got = 0
			}
			ratingNear(t, fmt.Sprintf("critical F of %d assessors, %d beers at %g", row.n, row.k, alpha), got, want, 5.1e-4)
		}
	}
}

// TestPageCritical compares with Page's table (from memory; 3 beers with 7, 10,
// 15 and 20 assessors at 5 % also in a public article).
func TestPageCritical(t *testing.T) {
	const table = `3: 2 28 - -|3 41 42 -|4 54 55 56|5 66 68 70|6 79 81 83|7 91 93 96|8 104 106 109|9 116 119 121|10 128 131 134|11 141 144 147|12 153 156 160|15 190 194 197|20 251 256 260
4: 2 58 60 -|3 84 87 89|4 111 114 117|5 137 141 145|6 163 167 172|7 189 193 198|8 214 220 225|9 240 246 252|10 266 272 278|12 317 324 331
5: 2 103 106 109|3 150 155 160|4 197 204 210|5 244 251 259|6 291 299 307|7 338 346 355|8 384 393 403|10 477 487 499|12 570 581 593
6: 4 321 331 341|6 474 486 499|8 625 640 656|10 777 793 811`
	for line := range strings.Lines(table) {
		beers, cells, _ := strings.Cut(strings.TrimSpace(line), ": ")
		for cell := range strings.SplitSeq(cells, "|") {
			fields := strings.Fields(cell)
			var n, k int
			fmt.Sscan(beers, &k)
			fmt.Sscan(fields[0], &n)
			for i, alpha := range []float64{0.05, 0.01, 0.001} {
				got := "-"
				if l, ok := PageCritical(n, k, alpha); ok {
					got = fmt.Sprint(l)
				}
				if got != fields[i+1] {
					t.Errorf("critical L of %d assessors, %d beers at %g is %s, want %s", n, k, alpha, got, fields[i+1])
				}
			}
		}
	}
}

func TestDurbin(t *testing.T) {
	// Seven beers in blocks of three; computed by complete enumeration.
	beers := [][]int{{0, 1, 3}, {1, 2, 4}, {2, 3, 5}, {3, 4, 6}, {4, 5, 0}, {5, 6, 1}, {6, 0, 2}}
	ranks := ranksFrom("123;123;213;123;132;231;312")
	var blocks []Block
	for i := range beers {
		blocks = append(blocks, Block{Beers: beers[i], Ranks: ranks[i]})
	}
	test, err := Durbin(7, blocks)
	if err != nil {
		t.Fatal(err)
	}
	ratingNear(t, "T", test.Statistic, 9.4286, 5e-5)
	ratingNear(t, "chi-square p", test.ChiSquare, 0.1509, 5e-5)
	ratingNear(t, "exact p", test.P, 0.14043, 5e-6)
	if _, err := Durbin(7, blocks[1:]); err == nil {
		t.Error("a design with a missing block passes")
	}
}

func TestMackSkillings(t *testing.T) {
	// Computed from the formula with scipy 1.10.1.
	scores := [][][]float64{
		{{5, 6}, {7, 7}, {6, 8}}, {{4, 5}, {6, 7}, {8, 7.5}}, {{5, 4}, {8, 9}, {7, 6}}, {{3, 2}, {6, 5}, {9, 8.5}},
	}
	test, err := MackSkillings(scores)
	if err != nil {
		t.Fatal(err)
	}
	ratingNear(t, "MS", test.Statistic, 13.089, 5e-4)
	ratingNear(t, "p", test.P, 0.001438, 5e-7)

	var single [][][]float64
	for _, row := range eightOrders {
		var cells [][]float64
		for _, rank := range row {
			cells = append(cells, []float64{rank})
		}
		single = append(single, cells)
	}
	test, err = MackSkillings(single)
	if err != nil {
		t.Fatal(err)
	}
	ratingNear(t, "MS of single ranks", test.Statistic, eightOrders.FriedmanStatistic(), 1e-9)
}

func TestRanksCheck(t *testing.T) {
	for _, bad := range []Ranks{nil, {{1}}, {{1, 2}, {1, 2, 3}}, {{1, 1}}, {{0, 1}}, {{1, 2, 2}}} {
		if bad.Check() == nil {
			t.Errorf("%v passes", bad)
		}
	}
	for _, good := range []Ranks{eightOrders, {{1, 2.5, 2.5}}} {
		if err := good.Check(); err != nil {
			t.Error(err)
		}
	}
}

// TestKendallFMatchesTheExact walks the exact distributions around 5 % and 1 %.
func TestKendallFMatchesTheExact(t *testing.T) {
	sizes := []struct{ n, k int }{{14, 4}, {20, 4}, {8, 5}}
	if os.Getenv("GYLE_SOAK") == "1" {
		sizes = append(sizes, struct{ n, k int }{25, 4}, struct{ n, k int }{10, 5}, struct{ n, k int }{12, 5}, struct{ n, k int }{5, 6})
	}
	random := rand.New(rand.NewPCG(3, 4))
	worst, share := 0.0, 0.0
	for _, size := range sizes {
		for found := 0; found < 6; {
			ranks := leaning(random, size.n, size.k)
			f := ranks.FriedmanStatistic()
			if p := chiSquareAbove(f, float64(size.k-1)); p > 0.12 || p < 0.002 {
				continue
			}
			found++
			exact, approximate := ranks.FriedmanExact(), KendallF(f, size.n, size.k)
			worst, share = max(worst, math.Abs(exact-approximate)), max(share, math.Abs(exact-approximate)/exact)
			if math.Abs(exact-approximate) > 0.005 {
				t.Errorf("%d assessors, %d beers, F %.4f: exact %.6f, Kendall's F %.6f", size.n, size.k, f, exact, approximate)
			}
		}
	}
	t.Logf("Kendall's F misses by up to %.4f, or %.0f %% of the probability", worst, 100*share)
}

// leaning makes a table in which assessors lean towards the order of columns.
func leaning(random *rand.Rand, n, k int) Ranks {
	var scores [][]float64
	for range n {
		row := make([]float64, k)
		for j := range row {
			row[j] = float64(j)*0.25 + random.NormFloat64()
		}
		scores = append(scores, row)
	}
	return RanksOf(scores)
}

// TestKendallFMatchesSimulation compares with random panels of 20 assessors and
// 6 beers, within four standard errors of the simulation and half a tenth of a
// percent.
func TestKendallFMatchesSimulation(t *testing.T) {
	panels := 40_000
	if os.Getenv("GYLE_SOAK") == "1" {
		panels = 1_000_000
	}
	const n, k = 20, 6
	random := rand.New(rand.NewPCG(20, 6))
	hits := map[float64]int{0.05: 0, 0.01: 0, 0.10: 0}
	row := []int{1, 2, 3, 4, 5, 6}
	for range panels {
		var sums [k]int
		for range n {
			random.Shuffle(k, func(i, j int) { row[i], row[j] = row[j], row[i] })
			for j, rank := range row {
				sums[j] += rank
			}
		}
		f := 12/float64(n*k*(k+1))*float64(squareSum(sums[:])) - 3*float64(n*(k+1))
		p := KendallF(f, n, k)
		for level := range hits {
			if p <= level {
				hits[level]++
			}
		}
	}
	for level, count := range hits {
		share := float64(count) / float64(panels)
		tolerance := 0.0005 + 4*math.Sqrt(level*(1-level)/float64(panels))
		ratingNear(t, fmt.Sprintf("share of panels below %g", level), share, level, tolerance)
	}
}
