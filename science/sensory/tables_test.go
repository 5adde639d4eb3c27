// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// readTable returns the rows of a table in testdata, split at spaces. Each file says
// in its head where its numbers come from.
func readTable(t *testing.T, name string, rows int) [][]string {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var table [][]string
	for line := range strings.Lines(string(text)) {
		if !strings.HasPrefix(line, "#") {
			table = append(table, strings.Fields(line))
		}
	}
	if len(table) != rows {
		t.Fatalf("%s has %d rows, want %d", name, len(table), rows)
	}
	return table
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func TestCriticalTable(t *testing.T) {
	for _, row := range readTable(t, "critical.txt", 58) {
		n := int(number(t, row[0]))
		for i, protocol := range []Protocol{Triangle, TwoAFC, Preference} {
			for j, want := range strings.Split(row[i+1], "/") {
				alpha := []float64{0.05, 0.01, 0.001}[j]
				got := strconv.Itoa(Design{protocol, alpha}.Critical(n))
				if want == "-" {
					want = strconv.Itoa(n + 1)
				}
				if got != want {
					t.Errorf("%s, n %d at %g needs %s, want %s", protocol, n, alpha, got, want)
				}
			}
		}
	}
}

// Smallest panels that can show anything, and true alphas. Computed with scipy.
func TestSmallestPanels(t *testing.T) {
	for _, test := range []struct {
		protocol Protocol
		alpha    float64
		want     int
	}{
		{Triangle, 0.05, 3}, {Tetrad, 0.01, 5}, {ThreeAFC, 0.001, 7},
		{DuoTrio, 0.05, 5}, {TwoAFC, 0.01, 7}, {DuoTrio, 0.001, 10},
		{Preference, 0.05, 6}, {TwoAFCEither, 0.01, 8}, {Preference, 0.001, 11},
	} {
		design, n := Design{test.protocol, test.alpha}, 1
		for design.Critical(n) > n {
			n++
		}
		if n != test.want {
			t.Errorf("%s at %g: smallest panel %d, want %d", test.protocol, test.alpha, n, test.want)
		}
	}
	sizes := map[Protocol][]float64{
		Triangle: {.0178, .0197, .0197, .0188, .0308, .0433, .0284, .0435, .0283, .0441},
		DuoTrio:  {.0156, .0352, .0107, .0193, .0176, .0481, .0320, .0494, .0326, .0403},
	}
	for _, protocol := range []Protocol{Triangle, DuoTrio} {
		for i, n := range []int{6, 8, 10, 12, 15, 18, 24, 30, 36, 40} {
			same(t, fmt.Sprint(protocol, " true alpha, n ", n), Design{protocol, 0.05}.Size(n), sizes[protocol][i], 0.00005)
		}
	}
	same(t, "3 of 3", Choice{Triangle, 3, 3}.P(), 0.0370, 0.00005)
	same(t, "5 of 5", Choice{DuoTrio, 5, 5}.P(), 0.03125, 1e-12)
}

func TestSimilarityTable(t *testing.T) {
	check := func(protocol Protocol, n int, beta float64, cells string) {
		for i, want := range strings.Split(cells, "/") {
			s := Similarity{protocol, float64(i+1) / 10, beta}
			if got := strconv.Itoa(s.Most(n)); got != want {
				t.Errorf("%s n %d, beta %g, limit %g: at most %s, want %s", protocol, n, beta, s.Limit, got, want)
			}
		}
	}
	for _, row := range readTable(t, "similar.txt", 14) {
		for i, beta := range []float64{0.05, 0.10, 0.20} {
			check(Triangle, int(number(t, row[0])), beta, row[i+1])
		}
	}
	// Guessing ½. Computed with scipy.
	for n, cells := range map[int]string{12: "3/3/4/5/5", 20: "6/7/8/10/11", 24: "8/9/11/12/13", 30: "11/13/14/16/17",
		36: "14/16/18/20/22", 48: "20/22/25/27/30", 60: "26/29/32/35/38"} {
		check(DuoTrio, n, 0.05, cells)
	}
	for n, cells := range map[int]string{12: "3/4/5/5/6", 24: "9/10/12/13/14", 36: "15/17/19/21/23", 60: "27/30/33/36/40"} {
		check(TwoAFC, n, 0.10, cells)
	}
	if s := (Similarity{Triangle, 0.1, 0.05}); s.Attainable(12) {
		t.Error("12 triangles can show a limit of 10 % by luck only")
	}
}

func TestPanelSizes(t *testing.T) {
	for _, test := range []struct {
		protocol Protocol
		alpha    float64
		power    float64
		cells    string // shares .2, .3, .4, .5
	}{
		// Computed with scipy; equal to the exact panel sizes of the statistics package
		// of brockhoff2010.
		{Triangle, .05, .80, "87/94 40/42 23/25 16/16"},
		{Tetrad, .05, .90, "117/124 53/57 30/34 20/22"},
		{ThreeAFC, .05, .95, "147/154 66/73 40/42 23/29"},
		{DuoTrio, .05, .80, "158/169 69/76 37/42 23/28"},
		{TwoAFC, .05, .90, "213/224 93/102 53/58 33/35"},
		{DuoTrio, .05, .95, "268/281 119/126 67/69 42/44"},
		{Triangle, .10, .80, "62/74 30/32 17/19 12/14"},
		{Triangle, .10, .90, "89/99 43/45 25/29 15/19"},
		{Triangle, .20, .80, "39/49 20/24 12/16 7/11"},
		{Triangle, .20, .90, "64/71 28/35 17/19 12/14"},
	} {
		for i, want := range strings.Fields(test.cells) {
			share := float64(i+2) / 10
			size, found := Design{test.protocol, test.alpha}.PanelSize(test.power, test.protocol.AtShare(share))
			if got := fmt.Sprintf("%d/%d", size.First, size.Stable); got != want || !found {
				t.Errorf("%s at %g, power %g, share %g: %s, want %s", test.protocol, test.alpha, test.power, share, got, want)
			}
		}
	}
	// Preference, two-sided. Computed with scipy.
	for _, row := range []string{".60 199/210 263/274", ".65 90/97 114/121", ".70 49/54 65/70", ".75 30/35 42/42", ".80 20/23 28/30", ".90 12/12 15/15"} {
		cells := strings.Fields(row)
		for i, power := range []float64{.80, .90} {
			size, _ := Design{Preference, 0.05}.PanelSize(power, number(t, cells[0]))
			if got := fmt.Sprintf("%d/%d", size.First, size.Stable); got != cells[i+1] {
				t.Errorf("preference %s, power %g: %s, want %s", cells[0], power, got, cells[i+1])
			}
		}
	}
}

var tableOrder = []Protocol{Triangle, DuoTrio, Tetrad, ThreeAFC, TwoAFC}

func TestPanelSizesByDistance(t *testing.T) {
	for _, row := range readTable(t, "panels.txt", 7) {
		for i, protocol := range tableOrder {
			pc := protocol.ProportionCorrect(number(t, row[0]))
			low, _ := Design{protocol, 0.05}.PanelSize(0.80, pc)
			high, _ := Design{protocol, 0.05}.PanelSize(0.90, pc)
			got := fmt.Sprintf("%d/%d;%d/%d", low.First, low.Stable, high.First, high.Stable)
			if got != row[i+1] {
				t.Errorf("%s at d′ %s: %s, want %s", protocol, row[0], got, row[i+1])
			}
		}
	}
}

func TestPowerTable(t *testing.T) {
	for _, row := range readTable(t, "power.txt", 6) {
		for i, protocol := range tableOrder {
			for j, want := range strings.Split(row[i+1], "/") {
				d := []float64{1, 1.5, 2, 3}[j]
				tolerance := 0.0055 // some cells were rounded twice: 0.7547, 0.755, 0.76
				got := Design{protocol, 0.05}.Power(int(number(t, row[0])), protocol.ProportionCorrect(d))
				same(t, fmt.Sprintf("%s n %s d′ %g", protocol, row[0], d), got, number(t, want), tolerance)
			}
		}
	}
}

func TestProportionTable(t *testing.T) {
	for _, row := range readTable(t, "proportion.txt", 11) {
		d := number(t, row[0])
		for i, protocol := range []Protocol{Triangle, DuoTrio, TwoAFC, ThreeAFC, Tetrad} {
			got := protocol.ProportionCorrect(d)
			same(t, fmt.Sprintf("%s at d′ %g", protocol, d), got, number(t, row[i+1]), 5e-7)
			same(t, fmt.Sprintf("%s back to d′ %g", protocol, d), protocol.Distance(got), d, 1e-6)
		}
	}
}

// d′ by proportion. Computed twice: scipy, and the statistics package of brockhoff2010.
func TestDistanceTable(t *testing.T) {
	for _, row := range []string{
		".40 .8791 0 0 .2289 .6184", ".50 1.4663 0 0 .5565 1.0221", ".55 1.7229 .7614 .1777 .7194 1.1950",
		".60 1.9756 1.1152 .3583 .8852 1.3626", ".65 2.2331 1.4206 .5449 1.0568 1.5307", ".70 2.5037 1.7153 .7416 1.2380 1.7045",
		".75 2.7974 2.0200 .9539 1.4338 1.8898", ".80 3.1286 2.3549 1.1902 1.6524 2.0946", ".90 4.0276 3.2631 1.8124 2.2302 2.6326",
	} {
		cells := strings.Fields(row)
		for i, protocol := range []Protocol{Triangle, DuoTrio, TwoAFC, ThreeAFC, Tetrad} {
			same(t, fmt.Sprint(protocol, " at ", cells[0]), protocol.Distance(number(t, cells[0])), number(t, cells[i+1]), 5.1e-5)
		}
	}
}

// B = n·Var(d′). Computed with scipy; bi2013 tabulates it.
func TestVarianceTable(t *testing.T) {
	for _, test := range []struct {
		protocol Protocol
		want     string
	}{
		{Triangle, "29.50 9.998 6.778 6.178 7.729"},
		{DuoTrio, "33.01 11.16 7.734 7.467 11.39"},
		{TwoAFC, "3.288 3.776 4.783 6.729 18.85"},
		{ThreeAFC, "2.634 2.773 3.258 4.291 10.80"},
		{Tetrad, "7.996 3.223 2.634 2.924 6.260"},
	} {
		for i, text := range strings.Fields(test.want) {
			d := []float64{.5, 1, 1.5, 2, 3}[i]
			pc, slope := test.protocol.ProportionCorrect(d), test.protocol.Slope(d)
			digits := len(text) - strings.Index(text, ".") - 1
			same(t, fmt.Sprintf("B of %s at %g", test.protocol, d), pc*(1-pc)/(slope*slope), number(t, text), 0.51*math.Pow(10, -float64(digits)))
		}
	}
}
