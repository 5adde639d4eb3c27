// SPDX-License-Identifier: MIT

package formulate

import (
	"errors"
	"math"
	"strings"

	"gyle/internal/lp"
	"gyle/quantity"
)

// rooms finds, for every malt and hop, the least and the most it may be with all
// else free. Where rules hold under conditions, a room is that of all cases
// together.
func (w *work) rooms(d *draft) ([]Room, error) {
	out := w.noRooms(d)
	asked := w.demands
	if d.asked != nil {
		asked = d.asked
	}
	for _, ds := range w.cases(asked) {
		f, ok := w.frameOf(ds)
		if !ok {
			continue
		}
		grist, hops := w.gristRooms(ds, &f), w.hopRooms(ds, &f)
		for i, s := range append(grist, hops...) {
			out[i].Least, out[i].Most = math.Min(out[i].Least, s.Low), math.Max(out[i].Most, s.High)
		}
	}
	return out, w.err
}

// noRooms names the rooms before anything is known of them.
func (w *work) noRooms(d *draft) []Room {
	var out []Room
	for m, malt := range w.wish.Malts {
		r := Room{Name: malt.Malt, Unit: "%", Least: math.Inf(1), Most: math.Inf(-1)}
		for i, c := range w.columns {
			if c.malt == m {
				r.Now += d.shares[i]
			}
		}
		out = append(out, r)
	}
	for h, hop := range w.wish.Hops {
		r := Room{Name: hop.Hop, Unit: "g/L", Least: math.Inf(1), Most: math.Inf(-1)}
		var moments []string
		for i, c := range w.charges {
			if c.hop == h {
				r.Now += d.doses[i]
				moments = append(moments, c.at.String())
			}
		}
		r.At = strings.Join(moments, ", ")
		out = append(out, r)
	}
	return out
}

// gristRooms returns the room of every malt.
func (w *work) gristRooms(ds []demand, f *frame) []span {
	s := w.gristSheet(ds, f.og, nil)
	var columns []int
	for m := range w.wish.Malts {
		columns = append(columns, s.total(s.ofMalt(m)))
	}
	return w.ranges(s, columns)
}

// total returns a column that is a sum: the only term itself, or a new one.
func (s *sheet) total(sum []lp.Term) int {
	if len(sum) == 1 && sum[0].Factor == 1 {
		return sum[0].Column
	}
	k := s.AddColumn(lp.Column{Name: "total", High: math.Inf(1)})
	s.AddRow(lp.Row{Name: "total", Low: 0, High: 0, Terms: append(sum, lp.Term{Column: k, Factor: -1})})
	return k
}

// hopRooms returns the room of every hop. Bitterness may lie between the ratio
// to the lowest and that to the highest gravity that gravities and grist leave.
func (w *work) hopRooms(ds []demand, f *frame) []span {
	s := w.hopSheet(ds, 0, nil)
	bitterness := s.terms(func(i int) float64 { return w.charges[i].yield })
	var og *span
	for i := range ds {
		d := &ds[i]
		if d.kind != onFigure || d.figure != quantity.BUGU {
			continue
		}
		if og == nil {
			reached := w.reachedByGrist(ds, f.og)
			og = &reached
		}
		s.AddRow(lp.Row{
			Name: d.Phrase, Low: d.low * quantity.SG(og.Low).Points(), High: d.high * quantity.SG(og.High).Points(), Terms: bitterness,
		})
	}
	var columns []int
	for h := range w.wish.Hops {
		columns = append(columns, s.total(s.terms(func(i int) float64 {
			if w.charges[i].hop == h {
				return 1
			}
			return 0
		})))
	}
	return w.ranges(s, columns)
}

// reachedByGrist returns the part of a range of gravities that some grist keeps.
func (w *work) reachedByGrist(ds []demand, og span) span {
	fits := func(x float64) bool {
		_, ok := w.solve(w.gristSheet(ds, quantity.Exactly(x), nil))
		return ok
	}
	const steps = 16
	at := func(i int) float64 { return og.Low + (og.High-og.Low)*float64(i)/steps }
	first, last := 0, steps
	for first < steps && !fits(at(first)) {
		first++
	}
	for last > first && !fits(at(last)) {
		last--
	}
	out := span{Low: at(first), High: at(last)}
	if first > 0 {
		out.Low = boundary(at(first), at(first-1), fits)
	}
	if last < steps {
		out.High = boundary(at(last), at(last+1), fits)
	}
	return out
}

// ranges returns the ranges of columns of a sheet, cleaned of what arithmetic
// leaves behind.
func (w *work) ranges(s *sheet, columns []int) []span {
	if len(columns) == 0 {
		return nil
	}
	for i := range s.Columns {
		s.Columns[i].Cost = 0
	}
	rooms, err := lp.Range(w.ctx, &s.Problem, lp.Options{}, columns)
	out := make([]span, len(columns))
	for i := range out {
		out[i] = span{Low: math.Inf(1), High: math.Inf(-1)}
	}
	if err != nil {
		if !errors.Is(err, lp.ErrInfeasible) {
			w.fail(err)
		}
		return out
	}
	for i, r := range rooms {
		out[i] = span{Low: clean(r.Low), High: clean(r.High)}
	}
	return out
}

func clean(x float64) float64 {
	if math.Abs(x) < 1e-10 {
		return 0
	}
	return x
}
