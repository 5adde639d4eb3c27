// SPDX-License-Identifier: MIT

package reconstruct

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/quantity"
	"gyle/science/reconcile"
)

// A Constant is something about a house that its brews teach, with what is
// believed before the first of them.
type Constant struct {
	Name, Unit string
	Decimals   int // to print it with
	Prior      quantity.Estimate
	// Relative says that it is above zero and that all standard deviations are of
	// its logarithm, which means shares of it.
	Relative bool
	Scatter  float64 // standard deviation from brew to brew
	Drift    float64 // standard deviation of what new kit does to it
	// Slope is how much it changes over something, from Middle on: the yield
	// falls with the gravity.
	Slope  quantity.Estimate
	Over   string
	Middle float64
}

// The constants of a house and what is believed of one without any brew.
// Priors, scatters and drifts are estimates, and shown; put the house's own
// document in their place with [Constant.From].
var (
	YieldConstant = Constant{Name: "yield", Unit: "%", Decimals: 1, Prior: quantity.Estimate{Value: 75, SD: 6}, Scatter: 1.5, Drift: 3,
		Slope: quantity.Estimate{Value: -0.6, SD: 0.5}, Over: "°P of the full kettle", Middle: 11}
	EvaporationConstant = Constant{Name: "evaporation", Unit: "kg/h", Decimals: 2, Prior: quantity.Estimate{Value: 2.5, SD: 0.35}, Relative: true, Scatter: 0.05, Drift: 0.25}
	LossConstant        = Constant{Name: "kettle loss", Unit: "L", Decimals: 2, Prior: quantity.Estimate{Value: 2, SD: 0.5}, Relative: true, Scatter: 0.12, Drift: 0.3}
	AbsorptionConstant  = Constant{Name: "absorption", Unit: "L/kg", Decimals: 2, Prior: quantity.Estimate{Value: 0.8, SD: 0.15}, Scatter: 0.03, Drift: 0.08}
	CoolingConstant     = Constant{Name: "cooling time constant", Unit: "min", Decimals: 1, Prior: quantity.Estimate{Value: 8, SD: 0.5}, Relative: true, Scatter: 0.1, Drift: 0.3}
	FactorConstant      = Constant{Name: "house factor", Decimals: 2, Prior: quantity.Estimate{Value: 1, SD: 0.25}, Relative: true, Scatter: 0.12, Drift: 0.12}
	MashPHConstant      = Constant{Name: "mash pH above prediction", Decimals: 2, Prior: quantity.Estimate{Value: 0, SD: 0.1}, Scatter: 0.04, Drift: 0.05}
)

// From returns the constant with another prior: what the document of a house
// says. Without SD it keeps its own, as a share of the value where it is
// relative.
func (c Constant) From(e quantity.Estimate) Constant {
	if e.Value == 0 && c.Relative {
		return c
	}
	c.Prior.Value = e.Value
	if e.SD > 0 {
		c.Prior.SD = e.SD
		if c.Relative {
			c.Prior.SD = e.SD / e.Value
		}
	}
	return c
}

// A Sight is what one brew shows of a constant.
type Sight struct {
	Constant string
	Brew     string
	Value    float64
	SD       float64 // of the measurement, in the unit of the constant
	At       float64 // on the scale of Over
	NewKit   bool    // something was changed before this brew
}

// Evidence is a sight with what it was worth.
type Evidence struct {
	Sight
	Predicted quantity.Estimate // by the brews before it, scatter included
	Weight    float64           // 1: believed in full; towards 0: an outlier
}

// Learned is a constant with the brews that made it.
type Learned struct {
	Constant
	Value    quantity.Estimate // at Middle; SD in its unit
	Slopes   quantity.Estimate
	Evidence []Evidence

	belief reconcile.Belief
}

// Learn updates a constant by the sights of it, in their order. Sights of other
// constants are left out.
func (c Constant) Learn(sights []Sight) Learned {
	out := Learned{Constant: c}
	var seen []reconcile.Observation
	before := c.learn(nil).Belief
	for _, s := range sights {
		if s.Constant != c.Name || c.Relative && s.Value <= 0 {
			continue
		}
		if s.NewKit {
			before = c.widened(before)
		}
		out.Evidence = append(out.Evidence, Evidence{Sight: s, Predicted: c.estimate(before, s.At, c.Scatter)})
		seen = append(seen, c.observation(s))
		before = c.learn(seen).Belief
	}
	learned := c.learn(seen)
	for i, w := range learned.Weights {
		out.Evidence[i].Weight = w
	}
	out.belief = learned.Belief
	out.Value = c.estimate(learned.Belief, c.Middle, 0)
	if c.sloped() {
		out.Slopes = quantity.Estimate{Value: learned.Mean[1], SD: math.Sqrt(learned.Covariance[1][1])}
	}
	return out
}

func (c Constant) sloped() bool { return c.Slope.SD > 0 }

// learn updates the prior. The error of a measurement of something relative is
// a share of what it is, not of what was read: a reading that is low by chance
// is no better than one that is high. So it is learned twice, the second time
// with the shares of the first result.
func (c Constant) learn(seen []reconcile.Observation) reconcile.Learned {
	learned := reconcile.Learn(c.prior(), seen)
	if !c.Relative || len(seen) == 0 {
		return learned
	}
	again := slices.Clone(seen)
	for i := range again {
		measured := math.Sqrt(max(seen[i].SD*seen[i].SD-c.Scatter*c.Scatter, 0))
		again[i].SD = math.Hypot(measured*math.Exp(seen[i].Value-learned.Mean[0]), c.Scatter)
	}
	return reconcile.Learn(c.prior(), again)
}

// prior is what is believed before the first brew, on the scale of learning.
func (c Constant) prior() reconcile.Belief {
	if c.sloped() {
		return reconcile.Independent([]float64{c.inner(c.Prior.Value), c.Slope.Value}, []float64{c.Prior.SD, c.Slope.SD})
	}
	return reconcile.Independent([]float64{c.inner(c.Prior.Value)}, []float64{c.Prior.SD})
}

// widened is a belief after new kit.
func (c Constant) widened(b reconcile.Belief) reconcile.Belief {
	out := reconcile.Belief{Mean: b.Mean}
	for i, row := range b.Covariance {
		out.Covariance = append(out.Covariance, append([]float64(nil), row...))
		out.Covariance[i][i] += c.drift()[i] * c.drift()[i]
	}
	return out
}

func (c Constant) drift() []float64 {
	if c.sloped() {
		return []float64{c.Drift, 0.1 * c.Slope.SD} // new kit hardly turns the slope; estimate
	}
	return []float64{c.Drift}
}

// inner turns a value into the scale of learning.
func (c Constant) inner(x float64) float64 {
	if c.Relative {
		return math.Log(x)
	}
	return x
}

func (c Constant) factors(at float64) []float64 {
	if c.sloped() {
		return []float64{1, at - c.Middle}
	}
	return []float64{1}
}

func (c Constant) observation(s Sight) reconcile.Observation {
	sd := s.SD
	if c.Relative {
		sd /= s.Value
	}
	return reconcile.Observation{Factors: c.factors(s.At), Value: c.inner(s.Value), SD: math.Hypot(sd, c.Scatter), Changed: s.NewKit, Drift: c.drift()}
}

// estimate turns a belief into an estimate in the unit of the constant, with a
// scatter on top.
func (c Constant) estimate(b reconcile.Belief, at, scatter float64) quantity.Estimate {
	mean, sd := b.At(c.factors(at))
	sd = math.Hypot(sd, scatter)
	if c.Relative {
		return quantity.Estimate{Value: math.Exp(mean), SD: math.Exp(mean) * sd}
	}
	return quantity.Estimate{Value: mean, SD: sd}
}

// Next is what the next brew is expected to show, its own scatter included.
func (l Learned) Next(at float64) quantity.Estimate { return l.estimate(l.belief, at, l.Scatter) }

// At is the constant at a place on the scale of Over.
func (l Learned) At(at float64) quantity.Estimate { return l.estimate(l.belief, at, 0) }

// Brews lists the brews behind the constant.
func (l Learned) Brews() []string {
	var out []string
	for _, e := range l.Evidence {
		out = append(out, e.Brew)
	}
	return out
}

// String says what is known and whence.
func (l Learned) String() string { return l.Text(quantity.Printer{}) }

// For returns the factor and the unit in which a reader has a constant.
func (c Constant) For(p quantity.Printer) (factor float64, unit string) {
	u := UnitsFor(p)
	switch {
	case c.Unit == "L":
		return u.PerLitre, u.Volume
	case c.Unit == "L/kg" && p.System == quantity.USCustomary:
		const quarts = 4 // in a gallon
		return quarts * u.PerLitre / u.PerKilogram, "US qt/lb"
	}
	return 1, c.Unit
}

// Text is String in the units and with the decimal mark of a reader.
func (l Learned) Text(p quantity.Printer) string {
	factor, unit := l.For(p)
	number := func(x float64) string { return p.Number(x*factor, l.Decimals) }
	var t strings.Builder
	fmt.Fprintf(&t, "%s %s ± %s", l.Name, number(l.Value.Value), number(l.Value.SD))
	if unit != "" {
		t.WriteString(" " + unit)
	}
	prior := l.Prior.SD
	if l.Relative {
		prior *= l.Prior.Value
	}
	switch n := len(l.Evidence); n {
	case 0:
		t.WriteString(", from no brew of this house yet")
		return t.String()
	case 1:
		t.WriteString(", from 1 brew: ")
	default:
		fmt.Fprintf(&t, ", from %d brews: ", n)
	}
	for i, e := range l.Evidence {
		if i > 0 {
			t.WriteString(", ")
		}
		fmt.Fprintf(&t, "%s %s", e.Brew, number(e.Sight.Value))
		if e.Weight < outlier {
			t.WriteString(" (hardly counted)")
		}
		if e.NewKit {
			t.WriteString(" (new kit)")
		}
	}
	fmt.Fprintf(&t, "; before them %s ± %s", number(l.Prior.Value), number(prior))
	return t.String()
}

// outlier is the weight below which a sight is called hardly counted.
const outlier = 0.5
