// SPDX-License-Identifier: MIT

package sensory

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"
)

// oracle reads counts and prints what R's binom.test and fisher.test make of them.
const oracle = `
rows <- matrix(scan(file("stdin"), quiet = TRUE), ncol = 7, byrow = TRUE)
for (i in seq_len(nrow(rows))) {
  v <- rows[i, ]
  greater <- binom.test(v[1], v[2], 1/3, alternative = "greater")
  either <- binom.test(v[1], v[2], 1/2, conf.level = v[3])
  m <- matrix(v[4:7], 2, byrow = TRUE)
  cat(greater$p.value, either$p.value, either$conf.int,
      fisher.test(m, alternative = "greater", conf.int = FALSE)$p.value,
      fisher.test(m, alternative = "less", conf.int = FALSE)$p.value,
      fisher.test(m, conf.int = FALSE)$p.value, "\n", sep = " ")
}
`

// TestAgainstR compares exact tests and intervals with R on random counts.
func TestAgainstR(t *testing.T) {
	if _, err := exec.LookPath("Rscript"); err != nil {
		t.Skip("Rscript isn't installed: exact tests are not compared with R's binom.test and fisher.test")
	}
	const cases = 500
	random := rand.New(rand.NewPCG(18, 11))
	var input strings.Builder
	choices, tables, levels := make([]Choice, cases), make([]Table, cases), make([]float64, cases)
	for i := range cases {
		n := 1 + random.IntN(80)
		choices[i] = Choice{Preference, random.IntN(n + 1), n}
		levels[i] = []float64{0.80, 0.90, 0.95, 0.99}[random.IntN(4)]
		tables[i] = randomTable(random)
		m := tables[i]
		fmt.Fprintln(&input, choices[i].Right, n, levels[i], m.A, m.B, m.C, m.D)
	}
	r := exec.Command("Rscript", "-e", "options(digits=15);"+oracle)
	r.Stdin = strings.NewReader(input.String())
	var faults bytes.Buffer
	r.Stderr = &faults
	output, err := r.Output()
	if err != nil {
		t.Fatalf("run R: %v\n%s", err, faults.String())
	}
	rows := strings.Split(strings.TrimSpace(string(output)), "\n")
	if len(rows) != cases {
		t.Fatalf("R answered %d of %d cases", len(rows), cases)
	}
	for i, row := range rows {
		c, m := choices[i], tables[i]
		span := c.Interval(levels[i])
		for j, got := range []float64{Choice{Triangle, c.Right, c.N}.P(), c.P(), span.Low, span.High,
			m.FisherGreater(), m.FisherLess(), m.FisherTwoSided()} {
			same(t, fmt.Sprintf("%v %v level %g, value %d of R", c, m, levels[i], j+1), got, number(t, strings.Fields(row)[j]), 1e-9)
		}
	}
}

// randomTable has no empty row or column.
func randomTable(random *rand.Rand) Table {
	for {
		m := Table{random.IntN(25), random.IntN(25), random.IntN(25), random.IntN(25)}
		if m.A+m.B > 0 && m.C+m.D > 0 && m.A+m.C > 0 && m.B+m.D > 0 {
			return m
		}
	}
}
