// SPDX-License-Identifier: MIT

package reconstruct

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/gravity"
	"gyle/style"
)

// Input is what a brew is reconstructed from. Only the gyle is needed. The
// house adds what a plan's snapshot doesn't hold: cooling water, losses of
// bitterness, the house factor.
type Input struct {
	Gyle  *gyle.Gyle
	House *brewhouse.House
	Style *style.Style
	// Known are the constants of the house as learned before this brew; without
	// SD those of the plan stand in.
	Known Constants
	// Factor is the house factor K as learned; without SD that of the house.
	Factor quantity.Estimate
	Reader quantity.Printer // units and decimal mark of the sentences; the numbers stay the same
}

// Reconstruction is a brew as it was, beside the brew as it was planned.
type Reconstruction struct {
	Day      Day
	AsRead   []AsRead  // the wort by its readings alone
	Smoothed *Smoothed // the books, balanced
	Planned  Facts
	Brewed   Facts
	Plan     Beer
	Beer     Beer
	Effects  []Effect // of the slips, one at a time
	Total    Change
	Compared []Compared
	Notes    []string // what was taken for want of an entry, and traps

	firstMashPH quantity.PH // before it was corrected
	chillRead   bool
	dryHopped   bool
	labIBU      float64
	labColor    float64
	planSD      map[quantity.Figure]float64
	reader      quantity.Printer
}

// Compared is one figure of the beer: as planned, as brewed, and what the style
// asks for.
type Compared struct {
	Figure  quantity.Figure
	Planned float64
	Brewed  quantity.Band
	Style   *quantity.Span[float64] // nil: the style is silent
	Inside  bool                    // of the style, by the middle of the band
}

// Make reconstructs a brew. The error says what the log lacks.
func Make(in Input) (*Reconstruction, error) {
	if in.Gyle == nil {
		return nil, errors.New("reconstruct: no gyle was given")
	}
	l := readLog(in)
	r := &Reconstruction{reader: in.Reader}
	r.Planned = l.plannedFacts()
	r.Day = l.day(r.Planned)
	if len(r.Day.Points) == 0 {
		return nil, fmt.Errorf("reconstruct %s: the log has no volume or gravity of the wort", in.Gyle.Name)
	}
	r.AsRead = r.Day.AsRead()
	smoothed, err := Smooth(r.Day)
	if err != nil {
		return nil, fmt.Errorf("reconstruct %s: %w", in.Gyle.Name, err)
	}
	r.Smoothed = smoothed
	r.Brewed = l.brewedFacts(r.Planned).From(r.Day, smoothed)
	if r.Brewed.Lab > 0 && r.Planned.Lab > 0 && r.Planned.Lovibond > 0 {
		r.Plan = r.Planned.Brew()
		r.Effects = Effects(r.Planned, r.Brewed)
		r.Total = Total(r.Planned, r.Brewed)
	}
	r.Beer = r.Brewed.Brew()
	r.compare(in)
	r.taught(l)
	r.trap()
	r.Notes = append(l.notes, r.Notes...)
	return r, nil
}

// compare sets the figures beside those of the plan and the style.
func (r *Reconstruction) compare(in Input) {
	r.planSD = map[quantity.Figure]float64{}
	if p := in.Gyle.Plan; p != nil {
		for _, f := range p.Figures {
			r.planSD[f.Figure] = f.SD
		}
	}
	for _, f := range r.Brewed.Figures(r.Beer, r.Smoothed) {
		c := Compared{Figure: f.Figure, Brewed: quantity.BandOf(f.Value, f.SD)}
		if p := in.Gyle.Plan; p != nil {
			if i := slices.IndexFunc(p.Figures, func(g gyle.Figure) bool { return g.Figure == f.Figure }); i >= 0 {
				c.Planned = p.Figures[i].Value
			}
		}
		if span, ok := styleRange(in.Style, f.Figure); ok {
			c.Style, c.Inside = &span, span.Has(f.Value)
		}
		r.Compared = append(r.Compared, c)
	}
}

// styleRange returns the range that a style has for a figure of the beer. Of
// several rules the first counts; the others are a matter for judging.
func styleRange(s *style.Style, f quantity.Figure) (quantity.Span[float64], bool) {
	if s == nil {
		return quantity.Span[float64]{}, false
	}
	for i := range s.Rules {
		rule := &s.Rules[i]
		if rule.When != nil || rule.FigureName() != f {
			continue
		}
		span := rule.Range()
		if g := rule.GravityRange(); g != nil {
			span = quantity.Span[float64]{Low: math.Inf(-1), High: math.Inf(1)}
			if g.HasLow() {
				span.Low = float64(gravity.SGOf(g.Low))
			}
			if g.HasHigh() {
				span.High = float64(gravity.SGOf(g.High))
			}
		}
		return span, true
	}
	return quantity.Span[float64]{}, false
}

// trap names the trap of hot volumes where it would have caught: a yield that
// jumps because 4 % of the wort is steam's room.
func (r *Reconstruction) trap() {
	right, cold := r.Day.Yields()
	if cold-right > 0.005 && len(r.Smoothed.Suspects) == 0 {
		p := r.reader
		r.Notes = append(r.Notes, fmt.Sprintf("the yield is %s; had the hot volume been taken for a cold one, it would show %s: a yield that jumps by so much is usually a reading without its temperature",
			p.Fraction(right, 1), p.Fraction(cold, 1)))
	}
}
