// SPDX-License-Identifier: MIT

package formulate

import (
	"math"

	"gyle/internal/lp"
	"gyle/quantity"
	"gyle/science/color"
	"gyle/science/gravity"
)

// sheet is a linear problem in the making: shares or doses in front, what else
// it needs behind.
type sheet struct {
	lp.Problem
	w     *work
	n     int         // columns of shares or doses
	t     int         // the margin common to all rules; -1: none is asked for
	own   bool        // each rule gets a margin of its own, of t at least
	owns  []int       // those columns
	least float64     // the margin that each rule keeps, where own
	used  map[int]int // by malt or charge: whether it is used at all
}

func (w *work) newSheet(name string, n int, most float64) *sheet {
	s := &sheet{w: w, n: n, t: -1, used: map[int]int{}}
	s.Name = name
	for range n {
		s.AddColumn(lp.Column{High: most})
	}
	if n == 0 {
		s.AddColumn(lp.Column{Name: "nothing"}) // rows need a term
	}
	return s
}

// withMargin asks for one margin common to all rules, as large as can be.
func (s *sheet) withMargin() { s.t = s.AddColumn(lp.Column{Name: "margin", High: farthest, Cost: -1}) }

// withOwn asks for a margin of its own for each rule, none below least.
func (s *sheet) withOwn(least float64) { s.own, s.least = true, math.Max(least, 0) }

// terms returns the columns for which factor isn't nothing; one at least, as a
// row needs one.
func (s *sheet) terms(factor func(i int) float64) []lp.Term {
	var out []lp.Term
	for i := range s.n {
		if f := factor(i); f != 0 {
			out = append(out, lp.Term{Column: i, Factor: f})
		}
	}
	if len(out) == 0 {
		out = append(out, lp.Term{})
	}
	return out
}

// marginOf returns the column that holds the margin of a rule; -1 if none.
func (s *sheet) marginOf(d *demand, width float64) int {
	switch {
	case d.Rule < 0 || width <= 1e-12:
		return -1
	case s.own:
		k := s.AddColumn(lp.Column{Low: s.least, High: math.Max(farthest, s.least), Cost: -1})
		s.owns = append(s.owns, k)
		return k
	}
	return s.t
}

// between adds a rule: low ≤ sum ≤ high, the margin in units of width.
func (s *sheet) between(d *demand, sum []lp.Term, low, high, width float64) {
	t := s.marginOf(d, width)
	if t < 0 {
		s.AddRow(lp.Row{Name: d.Phrase, Low: low, High: high, Terms: sum})
		return
	}
	if !math.IsInf(low, 0) {
		row := append([]lp.Term{{Column: t, Factor: -width}}, sum...)
		s.AddRow(lp.Row{Name: d.Phrase, Low: low, High: math.Inf(1), Terms: row})
	}
	if !math.IsInf(high, 0) {
		row := append([]lp.Term{{Column: t, Factor: width}}, sum...)
		s.AddRow(lp.Row{Name: d.Phrase, Low: math.Inf(-1), High: high, Terms: row})
	}
}

func finite(x float64) float64 {
	if math.IsInf(x, 0) {
		return 0
	}
	return x
}

// extractOf is the extract in a litre of wort, kg/L.
func extractOf(og float64) float64 { return float64(gravity.ExtractMass(1, quantity.SG(og))) }

// perMCU is the malt colour units of 1 kg·°L in a litre.
var perMCU = color.MCU(1, 1)

// mcuOf turns an end of a range of colour into malt colour units.
func mcuOf(ebc float64) float64 {
	switch {
	case math.IsInf(ebc, 0):
		return ebc
	case ebc <= 0:
		return 0
	}
	return color.MCUForEBC(quantity.EBC(ebc))
}

// gristSheet writes the rules of the grist for a range of original gravities.
//
// The colour of the wort is MCU = k·C·Σ sᵢLᵢ/Σ sᵢeᵢ with the extract C of a
// litre of wort, so a limit of colour is linear in the shares. Over a range of C
// the upper limit is asked at its low end and the lower at its high end:
// whatever keeps both has a C in the range that keeps them at once.
func (w *work) gristSheet(ds []demand, og span, margin func(*sheet)) *sheet {
	s := w.newSheet("grist", len(w.columns), 1)
	if margin != nil {
		margin(s)
	}
	all := s.terms(func(int) float64 { return 1 })
	s.AddRow(lp.Row{Name: "all shares", Low: 1, High: 1, Terms: all})
	for i := range ds {
		d := &ds[i]
		switch d.kind {
		case onShare:
			s.between(d, s.terms(d.picked), d.low, d.high, w.width(d))
		case onLargest:
			s.largest(d)
		case onCount:
			s.count(d)
		case onLate:
			s.late(d)
		case onStock:
			s.gristStock(d, ds, og)
		case onEnzymes:
			power := s.enzymes()
			s.between(d, s.terms(func(i int) float64 { return power[i] }), d.low, d.high, 0)
		case onFigure:
			if d.figure == quantity.BeerColor {
				s.color(d, og)
			}
		}
	}
	return s
}

// picked is 1 for what d picks.
func (d *demand) picked(i int) float64 {
	if d.picks[i] {
		return 1
	}
	return 0
}

// usualExtract is the extract of a middling grist in the kettle, kg/kg, by which
// margins of colour are made comparable. Estimate.
const usualExtract = 0.6

func (s *sheet) color(d *demand, og span) {
	low, high := mcuOf(d.low), mcuOf(d.high)
	width := high - low
	if math.IsInf(low, 0) || math.IsInf(high, 0) { // of an open range, in MCU too
		end := low
		if math.IsInf(low, 0) {
			end = high
		}
		width = 4 * s.w.wish.Style.EdgeShare() * math.Abs(finite(end))
	}
	ratio := func(c, mcu float64) func(i int) float64 {
		return func(i int) float64 { return perMCU*c*s.w.columns[i].color - mcu*s.w.columns[i].extract }
	}
	if low > 0 {
		terms := s.terms(ratio(extractOf(og.High), low))
		s.between(d, terms, 0, math.Inf(1), width*usualExtract)
	}
	if !math.IsInf(high, 0) {
		terms := s.terms(ratio(extractOf(og.Low), high))
		s.between(d, terms, math.Inf(-1), 0, width*usualExtract)
	}
}

// gristStock keeps the mass of a malt within what there is. With a lower limit
// of colour it also keeps the two together over a range of gravities.
func (s *sheet) gristStock(d *demand, ds []demand, og span) {
	if math.IsInf(d.high, 0) {
		return
	}
	volume := float64(s.w.knockOut)
	c := extractOf(og.Low)
	s.AddRow(lp.Row{Name: d.Phrase, Low: math.Inf(-1), High: 0, Terms: s.terms(func(i int) float64 {
		return d.picked(i)*c*volume - d.high*s.w.columns[i].extract
	})})
	if og.Low == og.High {
		return
	}
	for i := range ds {
		low := mcuOf(ds[i].low)
		if ds[i].kind != onFigure || ds[i].figure != quantity.BeerColor || low <= 0 {
			continue
		}
		s.AddRow(lp.Row{Name: d.Phrase, Low: math.Inf(-1), High: 0, Terms: s.terms(func(i int) float64 {
			return d.picked(i)*volume*low - d.high*perMCU*s.w.columns[i].color
		})})
	}
}

func (s *sheet) late(d *demand) {
	part := func(end float64) []lp.Term {
		return s.terms(func(i int) float64 {
			switch {
			case !d.picks[i]:
				return 0
			case s.w.columns[i].isLate():
				return 1 - end
			}
			return -end
		})
	}
	if !math.IsInf(d.low, 0) {
		s.AddRow(lp.Row{Name: d.Phrase, Low: 0, High: math.Inf(1), Terms: part(d.low)})
	}
	if !math.IsInf(d.high, 0) {
		s.AddRow(lp.Row{Name: d.Phrase, Low: math.Inf(-1), High: 0, Terms: part(d.high)})
	}
}

// pickedMalts returns the malts of which d picks a column.
func (s *sheet) pickedMalts(d *demand) []int {
	var malts []int
	seen := map[int]bool{}
	for i, c := range s.w.columns {
		if d.picks[i] && !seen[c.malt] {
			seen[c.malt] = true
			malts = append(malts, c.malt)
		}
	}
	return malts
}

// ofMalt returns the columns of one malt.
func (s *sheet) ofMalt(malt int) []lp.Term {
	return s.terms(func(i int) float64 {
		if s.w.columns[i].malt == malt {
			return 1
		}
		return 0
	})
}

func (s *sheet) largest(d *demand) {
	malts := s.pickedMalts(d)
	if !math.IsInf(d.high, 0) {
		upper := *d
		upper.low = math.Inf(-1)
		for _, m := range malts {
			s.between(&upper, s.ofMalt(m), upper.low, upper.high, s.w.width(d))
		}
	}
	if math.IsInf(d.low, 0) {
		return
	}
	var any []lp.Term // one of them reaches it
	for _, m := range malts {
		is := s.AddColumn(lp.Column{Name: "largest", High: 1, Integer: true})
		s.AddRow(lp.Row{Name: d.Phrase, Low: 0, High: math.Inf(1), Terms: append(s.ofMalt(m), lp.Term{Column: is, Factor: -d.low})})
		any = append(any, lp.Term{Column: is, Factor: 1})
	}
	if len(any) == 0 {
		any = []lp.Term{{}}
	}
	s.AddRow(lp.Row{Name: d.Phrase, Low: 1, High: math.Inf(1), Terms: any})
}

// use returns the column that says whether a malt is used; then there is the
// least share of it.
func (s *sheet) use(malt int) int {
	if k, ok := s.used[malt]; ok {
		return k
	}
	k := s.AddColumn(lp.Column{Name: "used", High: 1, Integer: true})
	s.used[malt] = k
	of := s.ofMalt(malt)
	s.AddRow(lp.Row{Name: "used or not", Low: math.Inf(-1), High: 0, Terms: append(of, lp.Term{Column: k, Factor: -1})})
	s.AddRow(lp.Row{Name: "least share", Low: 0, High: math.Inf(1), Terms: append(s.ofMalt(malt), lp.Term{Column: k, Factor: -float64(LeastShare)})})
	return k
}

func (s *sheet) count(d *demand) {
	var sum []lp.Term
	for _, m := range s.pickedMalts(d) {
		sum = append(sum, lp.Term{Column: s.use(m), Factor: 1})
	}
	if len(sum) == 0 {
		sum = []lp.Term{{}}
	}
	s.AddRow(lp.Row{Name: d.Phrase, Low: d.low, High: d.high, Terms: sum})
}
