// SPDX-License-Identifier: MIT

package reconstruct

import (
	"math"

	"gyle/quantity"
)

// A Miss is one line of the ledger: what was predicted before a brew and what
// was then measured.
type Miss struct {
	Brew      string
	What      string
	Unit      string
	Predicted quantity.Estimate
	Measured  quantity.Estimate
	Z         float64 // measured less predicted, over both standard deviations
}

func miss(brew, what, unit string, predicted, measured quantity.Estimate) Miss {
	m := Miss{Brew: brew, What: what, Unit: unit, Predicted: predicted, Measured: measured}
	if sd := math.Hypot(predicted.SD, measured.SD); sd > 0 {
		m.Z = (measured.Value - predicted.Value) / sd
	}
	return m
}

// Misses returns the lines of a constant: what the brews before each predicted.
func (l Learned) Misses() []Miss {
	var out []Miss
	for _, e := range l.Evidence {
		out = append(out, miss(e.Brew, l.Name, l.Unit, e.Predicted, quantity.Estimate{Value: e.Sight.Value, SD: e.Sight.SD}))
	}
	return out
}

// Misses returns the lines of a brew: its plan against what was read, smoothed.
// A plan's volumes have no band of their own; they are given that of the house:
// a tenth of what boils off and is left behind.
func (r *Reconstruction) Misses(brew string) []Miss {
	if r.Plan.KnockOut.Volume <= 0 {
		return nil
	}
	var out []Miss
	spread := 0.1 * float64(r.Plan.FullKettle.Volume-r.Plan.Collected.Volume)
	planned := map[string]Measure{"full kettle": r.Plan.FullKettle, "knock-out": r.Plan.KnockOut, "fermenter": r.Plan.Collected}
	ogSD := r.planSD[quantity.OG]
	for _, p := range r.Smoothed.Points {
		m, ok := planned[p.Name]
		if !ok {
			continue
		}
		out = append(out, miss(brew, "volume, "+p.Name, "L", quantity.Estimate{Value: float64(m.Volume), SD: spread}, p.Volume))
		out = append(out, miss(brew, "gravity, "+p.Name, "SG", quantity.Estimate{Value: float64(m.SG), SD: ogSD}, p.SG))
	}
	if r.firstMashPH > 0 && r.Planned.MashPH > 0 {
		out = append(out, miss(brew, "mash pH", "", quantity.Estimate{Value: float64(r.Planned.MashPH), SD: MashPHConstant.Prior.SD},
			quantity.Estimate{Value: float64(r.firstMashPH), SD: PHMeter.Absolute}))
	}
	if r.Brewed.FG != r.Planned.FG {
		out = append(out, miss(brew, "final gravity", "SG", quantity.Estimate{Value: float64(r.Planned.FG), SD: r.planSD[quantity.FG]},
			quantity.Estimate{Value: float64(r.Brewed.FG), SD: Hydrometer.Absolute}))
	}
	if r.labIBU > 0 {
		out = append(out, miss(brew, "bitterness", "IBU", quantity.Estimate{Value: float64(r.Plan.IBU), SD: r.planSD[quantity.Bitterness]},
			quantity.Estimate{Value: r.labIBU, SD: labSpread * r.labIBU}))
	}
	if r.labColor > 0 {
		out = append(out, miss(brew, "colour", "EBC", quantity.Estimate{Value: float64(r.Plan.Color), SD: colorSpread * float64(r.Plan.Color)},
			quantity.Estimate{Value: r.labColor, SD: labSpread * r.labColor}))
	}
	return out
}

// labSpread is the relative error of one laboratory value. Estimate: laboratories
// differ by 7 to 10 %.
const labSpread = 0.07

// A Bias is how a row of predictions has done.
type Bias struct {
	What   string
	Brews  int
	Mean   float64 // measured less predicted, in the unit
	MeanSD float64 // of the mean
	Spread float64 // root mean square of Z: near 1 where the bands are right
}

// Biases sums the ledger up, by what was predicted, in the order of its lines.
func Biases(ledger []Miss) []Bias {
	at := map[string]int{}
	var out []Bias
	var squares []float64
	for _, m := range ledger {
		i, ok := at[m.What]
		if !ok {
			i = len(out)
			at[m.What] = i
			out = append(out, Bias{What: m.What})
			squares = append(squares, 0)
		}
		d := m.Measured.Value - m.Predicted.Value
		out[i].Brews++
		out[i].Mean += d
		out[i].Spread += m.Z * m.Z
		squares[i] += d * d
	}
	for i := range out {
		n := float64(out[i].Brews)
		out[i].Mean /= n
		out[i].Spread = math.Sqrt(out[i].Spread / n)
		if n > 1 {
			variance := max(squares[i]-n*out[i].Mean*out[i].Mean, 0) / (n - 1)
			out[i].MeanSD = math.Sqrt(variance / n)
		}
	}
	return out
}
