// SPDX-License-Identifier: MIT

package reconstruct

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/quantity"
	"gyle/science/reconcile"
)

// A Suspect is a reading that can't be right, with what may have happened to
// it, likeliest first.
type Suspect struct {
	reader quantity.Printer // of the sentence

	Reading      Reading
	Where        string
	Should       quantity.Estimate // what the other readings say it should be
	Likelihood   float64           // probability that this reading, and no other, is wrong
	Explanations []Explanation
	Sentence     string

	variable int
}

// An Explanation is a slip by which a reading may have gone wrong.
type Explanation struct {
	Slip      string
	Corrected quantity.Estimate // the reading as it was meant, on the scale of the balances
	Unknown   bool              // the slip doesn't say how far the reading is off
	Share     float64           // of the probability of all slips of this reading
	P         float64           // of the readings, with this one corrected
}

// slipOdds is the probability, before the readings are looked at, that a
// reading suffers some slip, and alarmAt the probability after which a day is
// said to hold one. Both are own choices: with them less than one clean log in a
// hundred is suspected (see the simulation in the tests).
const (
	slipOdds = 0.05
	alarmAt  = 0.50
)

// suspects weighs every slip of every reading against the reading being right:
// what the others say it should be is compared with what it says as read and as
// corrected. It returns none unless a slip is likely.
func (b *books) suspects(p reconcile.Problem, s *reconcile.Solution) []Suspect {
	var out []Suspect
	logs := []float64{0} // of the odds; the first is that nothing is wrong
	for i, sl := range b.slots {
		if sl.point >= 0 && sl.reading == nil || s.AdjustmentSD[i] == 0 || slices.Contains(b.settled, i) {
			continue
		}
		// A reading that moved less than its error can't be much better explained.
		if z := s.Adjustments[i] / s.AdjustmentSD[i]; math.Abs(z) < 1.5 {
			continue
		}
		if suspect, logOdds, ok := b.weigh(i, p); ok {
			suspect.Likelihood = logOdds
			logs = append(logs, logOdds)
			out = append(out, suspect)
		}
	}
	slices.SortStableFunc(out, func(a, c Suspect) int { return cmp.Compare(c.Likelihood, a.Likelihood) })
	all := logSum(logs)
	if 1-math.Exp(-all) < alarmAt {
		return nil
	}
	for i := range out {
		out[i].Likelihood = math.Exp(out[i].Likelihood - all)
	}
	out = slices.DeleteFunc(out, func(x Suspect) bool { return x.Likelihood < leastLikely })
	for i := range out {
		b.resolve(&out[i], p)
		out[i].reader = b.day.reader
		out[i].Sentence = out[i].say(i == 0)
	}
	return out
}

// IsReading reports whether the suspect is a reading, rather than something the
// house usually does and didn't do this time.
func (s Suspect) IsReading() bool { return s.Reading.Value != 0 || s.Reading.Entry != "" }

// logSum returns ln Σ e^x without overflow.
func logSum(logs []float64) float64 {
	most := slices.Max(logs)
	sum := 0.0
	for _, x := range logs {
		sum += math.Exp(x - most)
	}
	return most + math.Log(sum)
}

// leastLikely is the probability below which a suspect isn't worth a line, and
// leastShare that of an explanation.
const leastLikely, leastShare = 0.02, 0.02

// weigh returns the slips of one reading with the logarithm of the odds of any
// of them against the reading being right.
func (b *books) weigh(i int, p reconcile.Problem) (Suspect, float64, bool) {
	sl, reading := b.slots[i], p.Variables[i]
	others, err := reconcile.Solve(p.Without(i))
	if err != nil {
		return Suspect{}, 0, false
	}
	should := quantity.Estimate{Value: others.Values[i], SD: others.SD(i)}
	asRead := logDensity(reading.Value, should, reading.SD)
	out := Suspect{Where: sl.where, Should: should, variable: i}
	var slips []slip
	if sl.reading == nil {
		slips = []slip{unusual(reading)}
	} else {
		out.Reading = *sl.reading
		slips = slipsOf(b.contextOf(sl))
	}
	var logs []float64
	for _, slip := range slips {
		meant := slip.corrected.Value
		if slip.unknown {
			meant = reading.Value
		}
		logs = append(logs, math.Log(slipOdds*slip.weight*slip.stretch)+logDensity(meant, should, slip.corrected.SD)-asRead)
		out.Explanations = append(out.Explanations, Explanation{Slip: slip.name, Corrected: slip.corrected, Unknown: slip.unknown})
	}
	all := logSum(logs)
	for k := range out.Explanations {
		out.Explanations[k].Share = math.Exp(logs[k] - all)
	}
	slices.SortStableFunc(out.Explanations, func(a, c Explanation) int { return cmp.Compare(c.Share, a.Share) })
	out.Explanations = slices.DeleteFunc(out.Explanations, func(e Explanation) bool { return e.Share < leastShare })
	return out, all, true
}

// logDensity is that of a normal distribution around what a reading should be.
func logDensity(x float64, should quantity.Estimate, sd float64) float64 {
	spread := math.Hypot(should.SD, sd)
	z := (x - should.Value) / spread
	return -z*z/2 - math.Log(spread)
}

// resolve solves the day again with each explanation in place, which says
// whether everything then fits.
func (b *books) resolve(s *Suspect, p reconcile.Problem) {
	for k := range s.Explanations {
		e := &s.Explanations[k]
		again := p.Without(s.variable)
		if !e.Unknown {
			again = p.With(s.variable, e.Corrected.Value, e.Corrected.SD)
		}
		if solved, err := reconcile.Solve(again); err == nil {
			e.P = reconcile.GlobalTest(solved)
		}
	}
}

// contextOf gathers what the slips of a reading depend on.
func (b *books) contextOf(sl slot) context {
	c := context{reading: *sl.reading, hot: sl.reading.Hot}
	if sl.point >= 0 {
		c.layered = b.day.Points[sl.point].Layered
		if c.hot.IsZero() {
			c.hot = b.day.Points[sl.point].Hot
		}
	}
	return c
}

// say puts a suspect into a sentence.
func (s *Suspect) say(first bool) string {
	var t strings.Builder
	if !s.IsReading() {
		p := s.reader
		fmt.Fprintf(&t, "%s: not as usual; the readings say %s ± %s", s.Where, p.Number(s.Should.Value, 2), p.Number(s.Should.SD, 2))
		return t.String()
	}
	verb := "can't be right"
	if !first || s.Likelihood < 0.5 {
		verb = "may be wrong"
	}
	fmt.Fprintf(&t, "%s: %s %s; the other readings say %s", s.Where, s.Reading, verb, s.scale(s.Should))
	if len(s.Explanations) == 0 {
		return t.String()
	}
	if e := s.Explanations[0]; e.Unknown {
		fmt.Fprintf(&t, "; most likely %s", e.Slip)
	} else {
		fmt.Fprintf(&t, "; most likely %s: %s", e.Slip, s.scale(quantity.Estimate{Value: e.Corrected.Value}))
	}
	for k, e := range s.Explanations[1:] {
		if k == 0 {
			t.WriteString(" (else: ")
		} else {
			t.WriteString(", ")
		}
		t.WriteString(e.Slip)
	}
	if len(s.Explanations) > 1 {
		t.WriteString(")")
	}
	return t.String()
}

// scale prints a number on the scale of the balances.
func (s *Suspect) scale(e quantity.Estimate) string {
	p := s.reader
	u := UnitsFor(p)
	switch {
	case s.Reading.Kind.ofGravity():
		return plusMinus(p, e, 1, 4)
	case s.Reading.Kind == Kilos:
		return plusMinus(p, e, u.PerKilogram, 2) + " " + u.Mass
	}
	return plusMinus(p, e, u.PerLitre, 2) + " " + u.Volume
}

// plusMinus prints an estimate times a factor, with its error where it has one.
func plusMinus(p quantity.Printer, e quantity.Estimate, factor float64, decimals int) string {
	if e.SD > 0 {
		return p.Number(e.Value*factor, decimals) + " ± " + p.Number(e.SD*factor, decimals)
	}
	return p.Number(e.Value*factor, decimals)
}
