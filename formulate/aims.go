// SPDX-License-Identifier: MIT

package formulate

import (
	"math"

	"gyle/quantity"
	"gyle/science/color"
)

// aimRooms finds how far original gravity, bitterness and colour may go with all
// else free.
func (w *work) aimRooms(d *draft) ([]Room, error) {
	now := []float64{d.og, w.bitterness(d.doses), w.colorOf(d.og, d.shares)}
	var out []Room
	for i, f := range []quantity.Figure{quantity.OG, quantity.Bitterness, quantity.BeerColor} {
		out = append(out, Room{Name: string(f), Unit: f.Unit(), Least: math.Inf(1), Most: math.Inf(-1), Now: now[i]})
	}
	for _, ds := range w.cases(d.asked) {
		f, ok := w.frameOf(ds)
		if !ok {
			continue
		}
		og := w.reachedByGrist(ds, f.og)
		for i, s := range []span{og, w.bitternessReached(ds, og), w.colorReached(ds, og)} {
			out[i].Least, out[i].Most = math.Min(out[i].Least, s.Low), math.Max(out[i].Most, s.High)
		}
	}
	return out, w.err
}

// bitternessReached is the bitterness that the hops and the ratio to the gravity
// leave.
func (w *work) bitternessReached(ds []demand, og span) span {
	ibu, ok := w.bitternessRange(ds)
	if !ok {
		return span{Low: math.Inf(1), High: math.Inf(-1)}
	}
	ratio := (&draft{ds: ds}).allowed(quantity.BUGU)
	low, high := quantity.SG(og.Low).Points(), quantity.SG(og.High).Points()
	return cut(ibu, span{Low: ratio.Low * low, High: ratio.High * high})
}

// colorReached is the colour that the grist leaves: the largest and the smallest
// ratio of colour to extract, by Dinkelbach's method, at the ends of the gravity.
// The stronger the wort, the darker.
func (w *work) colorReached(ds []demand, og span) span {
	extreme := func(sign float64) float64 {
		ratio := 0.0
		for range 8 {
			s := w.gristSheet(ds, og, nil)
			for i, c := range w.columns {
				s.Columns[i].Cost = -sign * (c.color - ratio*c.extract)
			}
			x, ok := w.solve(s)
			if !ok {
				return math.NaN()
			}
			sum := 0.0
			for i, c := range w.columns {
				sum += x[i] * c.color
			}
			last := ratio
			if ratio = sum / w.extract(x); math.Abs(ratio-last) < 1e-10*ratio {
				break
			}
		}
		return ratio
	}
	at := func(og, ratio float64) float64 { return float64(color.EBCFromMCU(perMCU * extractOf(og) * ratio)) }
	reached := span{Low: at(og.Low, extreme(-1)), High: at(og.High, extreme(1))}
	return cut(reached, (&draft{ds: ds}).allowed(quantity.BeerColor))
}
