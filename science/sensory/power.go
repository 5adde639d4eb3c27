// SPDX-License-Identifier: MIT

package sensory

// Design is the rule of a tasting, fixed before the first glass is poured.
type Design struct {
	Protocol Protocol
	Alpha    float64 // largest chance of finding a difference that isn't there
}

// mostTasters ends the search for a panel size.
const mostTasters = 20000

// Critical returns how many right answers of n show a difference: the smallest
// number whose p is at most alpha (of the larger side in two-sided protocols). It
// is n+1 if no number does.
//
//	min {x: P(Bin(n, c) ≥ x) ≤ α};  two-sided: min {x > n/2: 2·P(Bin(n, ½) ≥ x) ≤ α}
//
// All are numbers without unit.
//
//   - Source: derived; huss1995, Appendix A, prints the triangle's.
//   - Valid: n up to some thousands.
//   - Check: equals the printed triangle table for 42 panel sizes, n 3–96; n 18 needs 10.
//   - Tag: verified
func (d Design) Critical(n int) int {
	low, high := n/2+1, n+1
	if !d.Protocol.TwoSided() {
		low = 0
	}
	for low < high {
		middle := (low + high) / 2
		if (Choice{d.Protocol, middle, n}).P() <= d.Alpha {
			high = middle
		} else {
			low = middle + 1
		}
	}
	return low
}

// Size is the true chance of a false alarm of n tasters, at most alpha: whole
// numbers of answers seldom hit alpha.
func (d Design) Size(n int) float64 {
	critical := d.Critical(n)
	if critical > n {
		return 0
	}
	return Choice{d.Protocol, critical, n}.P()
}

// Power returns the chance that a panel of n shows a difference that makes a
// proportion of its answers right. [Protocol.AtShare] and
// [Protocol.ProportionCorrect] give that proportion.
//
//	P(Bin(n, pc) ≥ x_crit), two-sided also + P(Bin(n, pc) ≤ n − x_crit)
//
// All are numbers without unit.
//
//   - Source: derived, the exact sum.
//   - Valid: independent answers, all with the same proportion.
//   - Check: triangle, n 18: 0.89 when half of the panel can tell, 0.52 at 30 %.
//   - Tag: derived
func (d Design) Power(n int, proportion float64) float64 {
	return d.power(n, d.Critical(n), proportion)
}

func (d Design) power(n, critical int, proportion float64) float64 {
	if critical > n {
		return 0
	}
	power := BinomialAtLeast(critical, n, proportion)
	if d.Protocol.TwoSided() {
		power += BinomialAtMost(n-critical, n, proportion)
	}
	return power
}

// PanelSize is how many tasters a question needs. Power rises like a saw: it falls
// whenever one more right answer is asked for.
type PanelSize struct {
	First  int // the smallest panel that reaches the power
	Stable int // from here on every larger panel reaches it too
}

// PanelSize finds the panel that shows a proportion of right answers with a given
// power; false if none up to 20000 does.
func (d Design) PanelSize(power, proportion float64) (size PanelSize, found bool) {
	critical, missed, end := 1, 0, mostTasters
	for n := 1; n <= end; n++ {
		critical = d.nextCritical(n, critical)
		switch reached := d.power(n, critical, proportion) >= power; {
		case !reached:
			missed = n
		case size.First == 0:
			// The teeth become smaller: twice the panel and some is past the last.
			size.First, end = n, min(mostTasters, 2*n+100)
		}
	}
	size.Stable = missed + 1
	return size, size.First > 0
}

// nextCritical is the critical number of n from that of n−1: the same or one more.
func (d Design) nextCritical(n, before int) int {
	for before <= n && (Choice{d.Protocol, before, n}).P() > d.Alpha {
		before++
	}
	return before
}

// Peak says whether n is a good panel size: one taster more would ask for one
// right answer more, so its true alpha is as near to alpha as it gets.
func (d Design) Peak(n int) bool { return d.Critical(n) <= n && d.Critical(n+1) > d.Critical(n) }

// Detectable is the smallest share of tasters that can tell, which n tasters find
// with a given power; false if even a panel that can all tell isn't found.
func (d Design) Detectable(n int, power float64) (share float64, found bool) {
	critical := d.Critical(n)
	if critical > n {
		return 0, false
	}
	low, high := 0.0, 1.0
	for range 60 {
		middle := (low + high) / 2
		if d.power(n, critical, d.Protocol.AtShare(middle)) >= power {
			high = middle
		} else {
			low = middle
		}
	}
	return high, true
}
