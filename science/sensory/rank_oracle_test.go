// SPDX-License-Identifier: MIT

package sensory

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"
)

// ratingScript answers one question a line. R's answers are the reference.
const ratingScript = `
options(digits=17, warn=-1)
for (line in readLines(file("stdin"))) {
  w <- strsplit(line, " ")[[1]]; v <- as.numeric(w[-1])
  half <- function() list(v[1:(length(v)/2)], v[-(1:(length(v)/2))])
  cells <- function(u) matrix(u[-(1:2)], nrow=u[1], byrow=TRUE)
  out <- switch(w[1],
    strata = { a <- aperm(array(v, dim=c(2, 2, length(v)/4)), c(2, 1, 3)); mantelhaen.test(a, alternative="greater", exact=TRUE)$p.value },
    friedman = { f <- friedman.test(cells(v)); c(f$statistic, f$p.value) },
    exact = { h <- half(); f <- cor.test(h[[1]], h[[2]], method="spearman", exact=TRUE); c(f$estimate, f$p.value) },
    spearman = { h <- half(); f <- cor.test(h[[1]], h[[2]], method="spearman", exact=FALSE); c(f$estimate, f$p.value) },
    pearson = { h <- half(); f <- cor.test(h[[1]], h[[2]]); c(f$estimate, f$p.value) },
    paired = { f <- t.test(v); c(f$statistic, f$p.value, f$conf.int) },
    signed = { f <- wilcox.test(v, exact=TRUE); c(f$statistic, f$p.value) },
    welch = { h <- half(); f <- t.test(h[[1]], h[[2]]); c(f$statistic, f$parameter, f$p.value) },
    aov = { m <- cells(v); d <- data.frame(y=c(m), a=factor(row(m)), b=factor(col(m))); f <- anova(lm(y~a+b, d)); c(f$F[2], f$P[2]) },
    holm = p.adjust(v, "holm"), bh = p.adjust(v, "BH"),
    t = 2*pt(-abs(v[1]), v[2]), f = pf(v[1], v[2], v[3], lower=FALSE), chi = pchisq(v[1], v[2], lower=FALSE),
    qt = qt(1-v[1]/2, v[2]), range = ptukey(v[1], v[2], v[3]), power = power.t.test(v[1], v[2], v[3], v[4], type="paired", strict=TRUE)$power, qrange = qtukey(1-v[1], v[2], v[3]))
  cat(sprintf("%.15g", out), "\n")
}`

// oracleCase is one question to R with our answer.
type oracleCase struct {
	question  string
	ours      []float64
	tolerance float64 // relative, above 1e-12 in absolute terms
}

func ask(name string, tolerance float64, in []float64, ours ...float64) oracleCase {
	var b strings.Builder
	b.WriteString(name)
	for _, x := range in {
		fmt.Fprintf(&b, " %.17g", x)
	}
	return oracleCase{b.String(), ours, tolerance}
}

// TestRatingAgainstR asks R the same questions, some 1 200 random ones, 500 of them by Friedman, in one
// process.
func TestRatingAgainstR(t *testing.T) {
	program, err := exec.LookPath("Rscript")
	if err != nil {
		t.Skip("Rscript is not installed: tests of ranks and scores are not compared with R")
	}
	random := rand.New(rand.NewPCG(2026, 11))
	var cases []oracleCase
	for range 32 {
		cases = append(cases, tableCases(random)...)
		cases = append(cases, rowCases(random)...)
		cases = append(cases, distributionCases(random)...)
	}
	for range 220 {
		cases = append(cases, friedmanCases(random)...)
	}
	for range 150 {
		cases = append(cases, strataCase(random))
	}
	var input strings.Builder
	for _, c := range cases {
		input.WriteString(c.question + "\n")
	}
	command := exec.Command(program, "--vanilla", "-e", ratingScript)
	command.Stdin = strings.NewReader(input.String())
	out, err := command.Output()
	if err != nil {
		t.Skipf("Rscript doesn't run here (%v): tests of ranks and scores are not compared with R", err)
	}
	answers := bufio.NewScanner(strings.NewReader(string(out)))
	for i, c := range cases {
		if !answers.Scan() {
			t.Fatalf("R answered %d of %d questions", i, len(cases))
		}
		compareWithR(t, c, strings.Fields(answers.Text()))
	}
	t.Logf("%d questions", len(cases))
}

func compareWithR(t *testing.T, c oracleCase, answers []string) {
	t.Helper()
	if len(answers) != len(c.ours) {
		t.Errorf("%s: R gives %v, we %v", c.question, answers, c.ours)
		return
	}
	for i, answer := range answers {
		var want float64
		if _, err := fmt.Sscan(answer, &want); err != nil {
			t.Errorf("%s: R gives %q", c.question, answer)
		} else if math.Abs(want-c.ours[i]) > c.tolerance*math.Abs(want)+1e-12 || math.IsNaN(c.ours[i]) {
			t.Errorf("%s: R gives %.12g, we %.12g", c.question, want, c.ours[i])
		}
	}
}

func randomRow(random *rand.Rand, n int, coarse bool) []float64 {
	row := make([]float64, n)
	for i := range row {
		row[i] = random.NormFloat64()*2 + 0.5
		if coarse {
			row[i] = math.Round(row[i])
		}
	}
	return row
}

// friedmanCases are a table of scores without ties and one with many.
func friedmanCases(random *rand.Rand) (cases []oracleCase) {
	n, k := 3+random.IntN(18), 3+random.IntN(5)
	for _, coarse := range []bool{false, true} {
		var scores [][]float64
		all := []float64{float64(n), float64(k)}
		for range n {
			row := randomRow(random, k, coarse)
			scores, all = append(scores, row), append(all, row...)
		}
		f := RanksOf(scores).FriedmanStatistic()
		cases = append(cases, ask("friedman", 1e-9, all, f, chiSquareAbove(f, float64(k-1))))
	}
	return cases
}

// strataCase are assessors who each judged some cups of both beers.
func strataCase(random *rand.Rand) oracleCase {
	var tables []Table
	var all []float64
	for range 2 + random.IntN(10) {
		m := randomTable(random)
		m = Table{m.A % 5, m.B%5 + 1, m.C%5 + 1, m.D % 5}
		tables = append(tables, m)
		all = append(all, float64(m.A), float64(m.B), float64(m.C), float64(m.D))
	}
	return ask("strata", 1e-9, all, RecognitionBy(tables))
}

func tableCases(random *rand.Rand) (cases []oracleCase) {
	n, k := 3+random.IntN(18), 3+random.IntN(5)
	in := []float64{float64(n), float64(k)}
	var fine, coarse [][]float64
	cells := [][][]float64{}
	for range n {
		row := randomRow(random, k, false)
		fine, coarse = append(fine, row), append(coarse, randomRow(random, k, true))
		var one [][]float64
		for _, y := range row {
			one = append(one, []float64{y})
		}
		cells = append(cells, one)
	}
	for _, scores := range [][][]float64{fine, coarse} {
		all := append([]float64{}, in...)
		for _, row := range scores {
			all = append(all, row...)
		}
		f := RanksOf(scores).FriedmanStatistic()
		cases = append(cases, ask("friedman", 1e-9, all, f, chiSquareAbove(f, float64(k-1))))
		if len(cases) == 1 {
			table, _ := AnalyseProfile(cells)
			cases = append(cases, ask("aov", 1e-8, all, table.F, table.P))
		}
	}
	return cases
}

func rowCases(random *rand.Rand) (cases []oracleCase) {
	n := 4 + random.IntN(6)
	x, y := randomRow(random, n, false), randomRow(random, n, false)
	c := Spearman(x, y)
	cases = append(cases, ask("exact", 1e-9, append(append([]float64{}, x...), y...), c.R, c.P))
	n = 10 + random.IntN(20)
	x, y = randomRow(random, n, true), randomRow(random, n, true)
	both := append(append([]float64{}, x...), y...)
	c = Spearman(x, y)
	cases = append(cases, ask("spearman", 1e-8, both, c.R, c.P))
	c = Pearson(x, y)
	cases = append(cases, ask("pearson", 1e-8, both, c.R, c.P))
	tt, df, p := WelchT(x, y)
	cases = append(cases, ask("welch", 1e-8, both, tt, df, p))
	d := PairedOf(x)
	low, high := d.Interval(0.95)
	cases = append(cases, ask("paired", 1e-7, x, d.T(), d.P(), low, high))
	fine := randomRow(random, 3+random.IntN(20), false)
	v, signed := SignedRank(fine)
	cases = append(cases, ask("signed", 1e-9, fine, v, signed))
	var several []float64
	for range 1 + random.IntN(12) {
		several = append(several, math.Pow(random.Float64(), 3))
	}
	return append(cases, ask("holm", 1e-12, several, Holm(several)...), ask("bh", 1e-12, several, BenjaminiHochberg(several)...))
}

func distributionCases(random *rand.Rand) []oracleCase {
	t, df, f := random.NormFloat64()*3, 1+math.Floor(random.Float64()*40), random.ExpFloat64()*3
	df2, tail := 0.5+random.Float64()*60, 0.001+random.Float64()*0.3
	n, difference := float64(3+random.IntN(30)), random.Float64()*2
	k, q := 2+random.IntN(9), 0.3+random.Float64()*6
	return []oracleCase{
		ask("t", 1e-9, []float64{t, df}, ratingStudentTails(t, df)),
		ask("f", 1e-9, []float64{f, df, df2}, ratingFTail(f, df, df2)),
		ask("chi", 1e-9, []float64{f * 5, df2}, chiSquareAbove(f*5, df2)),
		ask("qt", 1e-9, []float64{tail, df}, ratingStudentQuantile(tail, df)),
		// With few degrees of freedom R's ptukey is off by up to 1e-6: scipy agrees with us.
		ask("range", 3e-6, []float64{q, float64(k), df + 2}, ratingStudentRange(q, k, df+2)),
		ask("range", 1e-7, []float64{q, float64(k), math.Inf(1)}, ratingRange(q, k)),
		ask("power", 1e-7, []float64{n, difference, 1.5, tail}, PairedPower(int(n), difference, 1.5, tail)),
		ask("qrange", 1e-4, []float64{tail, float64(k), df + 2}, StudentisedRange(tail, k, df+2)),
	}
}

// TestRangeQuantiles compares with printed studentised ranges at 5 % for
// infinitely many degrees of freedom (R 4.2.2, qtukey).
func TestRangeQuantiles(t *testing.T) {
	for i, want := range []float64{3.3145, 3.6332, 3.8577, 4.0301, 4.1696, 4.2863} {
		ratingNear(t, fmt.Sprintf("q of %d", i+3), StudentisedRange(0.05, i+3, math.Inf(1)), want, 5e-5)
	}
}
