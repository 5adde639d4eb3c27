// SPDX-License-Identifier: MIT

package cellar

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gyle/day"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/ferment"
	"gyle/science/gravity"
)

// Beer is what a log says of a fermentation.
type Beer struct {
	Pitched  gyle.Time
	Hand     []ferment.Reading // of a hydrometer, in the order of time
	Logged   []ferment.Reading // of an instrument that reads by itself
	Forced   quantity.SG       // where a forced test ended; 0: none
	Hopped   bool              // that test was of the beer with its dry hops
	Expected quantity.SG       // the plan's final gravity; 0: unknown
	Finding  ferment.Finding
	ByLogger bool         // the finding rests on the instrument's readings
	Fit      *ferment.Fit // nil: no curve can be laid through the readings
	Refract  *Refracted   // the last reading of a refractometer
	Dry      *DryHops     // nil: none
	Warmest  quantity.Temperature
	Vessel   *quantity.GaugePressure // rating of the fermenter's relief valve, as the gyle has it

	warmth []warmth
}

// Refracted is a reading of a refractometer in fermenting beer: a band, never
// for ending a fermentation.
type Refracted struct {
	At   quantity.Duration // since pitching
	Read quantity.Brix     // as it was read
	Band quantity.Band     // SG, by the formulas that hold at this stage
	// All is the spread with the regressions that were made for finished beer,
	// which mislead before half of the extract is gone.
	All quantity.Span[quantity.SG]
}

// DryHops are the dry hops of a beer.
type DryHops struct {
	Since   gyle.Time
	Contact quantity.Duration    // until they came out, or now
	At      quantity.Temperature // the warmest since; zero: nobody read it
	Creeps  bool                 // long and warm enough to be reckoned with
}

// warmth is a temperature of the beer.
type warmth struct {
	when gyle.Time
	at   quantity.Temperature
}

// Of reads the fermentation of a gyle as it stands at a time; nil before the
// pitching.
func Of(g *gyle.Gyle, now gyle.Time) *Beer {
	log := g.Log.Standing()
	b := &Beer{}
	i := slices.IndexFunc(log, func(e gyle.Entry) bool { return e.Deed != nil && e.Deed.Do == gyle.Pitched })
	if i < 0 {
		return nil
	}
	b.Pitched = log[i].When()
	if g.Plan != nil {
		b.Expected = g.Plan.Gravity.FG
	}
	for _, v := range g.Vessels {
		if v.For == "fermenter" && v.Relief != nil {
			b.Vessel = v.Relief
		}
	}
	for _, e := range log {
		switch {
		case e.Reading != nil && !e.When().Before(b.Pitched.Time):
			b.read(g, e)
		case e.Series != nil && e.Series.At == gyle.AtFermenter:
			b.readSeries(e.Series)
		}
	}
	byTime := func(a, b ferment.Reading) int { return cmp.Compare(a.At, b.At) }
	slices.SortStableFunc(b.Hand, byTime)
	slices.SortStableFunc(b.Logged, byTime)
	b.refract(g, log)
	b.judge()
	b.dryHop(g, log, now)
	b.warmest(g)
	return b
}

// read takes a reading of the log in.
func (b *Beer) read(g *gyle.Gyle, e gyle.Entry) {
	r := e.Reading
	switch {
	case r.Of == gyle.OfGravity && (r.At == gyle.AtFermenter || r.At == gyle.AtForcedTest):
		sg, err := day.WortGravity(g, *r)
		if err != nil {
			return
		}
		if r.At == gyle.AtForcedTest {
			b.Forced, b.Hopped = sg, strings.Contains(strings.ToLower(r.Mark), "hopped")
			return
		}
		b.Hand = append(b.Hand, ferment.Reading{At: e.When().Since(b.Pitched), SG: sg})
	case r.Of == gyle.OfTemperature && r.At == gyle.AtFermenter:
		if m, err := r.Measured(); err == nil {
			b.warmth = append(b.warmth, warmth{e.When(), m.Temperature()})
		}
	}
}

// readSeries takes in what an instrument read by itself since the pitching. A
// gravity of an instrument that floats is taken as it stands.
func (b *Beer) readSeries(s *gyle.Series) {
	g, t := s.Column(gyle.OfGravity), s.Column(gyle.OfTemperature)
	for _, row := range s.Samples() {
		if row.When.Before(b.Pitched.Time) {
			continue
		}
		if g >= 0 && !math.IsNaN(row.Values[g]) {
			sg := gravity.SGOf(s.Columns[g].Measured(row.Values[g]).Gravity())
			b.Logged = append(b.Logged, ferment.Reading{At: row.When.Since(b.Pitched), SG: sg})
		}
		if t >= 0 && !math.IsNaN(row.Values[t]) {
			b.warmth = append(b.warmth, warmth{row.When, quantity.Celsius(row.Values[t])})
		}
	}
}

// refract turns the last refractometer reading into a band, from the first one
// of the wort.
func (b *Beer) refract(g *gyle.Gyle, log []gyle.Entry) {
	original := quantity.Plato(0)
	if g.Plan != nil {
		original = gravity.PlatoFromSG(g.Plan.Gravity.OG)
	}
	for _, e := range log {
		if e.Reading == nil || e.Reading.Of != gyle.OfRefractometer || e.Reading.At != gyle.AtFermenter {
			continue
		}
		m, err := e.Reading.Measured()
		if err != nil {
			continue
		}
		factor := gravity.DefaultWortFactor
		if i, known := g.Find(e.Reading.With); known && i.Factor != nil {
			factor = *i.Factor
		}
		p := gravity.PlatoFromBrix(quantity.Plato(m.Value), factor)
		const stillWort = 12 // hours: no alcohol to speak of yet
		if after := e.When().Since(b.Pitched); after <= quantity.Hours(stillWort) {
			if after <= 1 {
				original = p
			}
			continue
		}
		if original > 0 {
			b.Refract = &Refracted{At: e.When().Since(b.Pitched), Read: quantity.Brix(m.Value), Band: gravity.RefractometerBand(original, p)}
			cubic, linear := gravity.BeerSGTerrillCubic(original, p), gravity.BeerSGTerrillLinear(original, p)
			b.Refract.All = quantity.Span[quantity.SG]{Low: min(quantity.SG(b.Refract.Band.Low), cubic, linear), High: max(quantity.SG(b.Refract.Band.High), cubic, linear)}
		}
	}
}

// handResolution is the smallest step of a hydrometer as it is read at home.
const handResolution quantity.SG = 0.0005

// mostFitted is how many readings of an instrument a curve is laid through.
const mostFitted = 300

// judge says whether it has stopped: by the hydrometer where its readings tell,
// else by the instrument.
func (b *Beer) judge() {
	limits := ferment.Terminal{Resolution: handResolution, Forced: b.Forced, Expected: b.Expected}
	b.Finding = ferment.JudgeTerminal(b.Hand, limits)
	end := gravity.PlatoFromSG(max(b.Expected, 1))
	b.fit(b.Hand, end)
	if b.Finding.Verdict != ferment.Undecided || len(b.Logged) == 0 {
		return
	}
	limits.Logger = true
	thin := Thin(b.Logged, mostFitted)
	if fit, ok := ferment.FitLogistic(thin, end); ok {
		b.Fit = &fit
		limits.FallToCome = fit.FallToCome(thin[len(thin)-1].At)
	}
	if found := ferment.JudgeTerminal(b.Logged, limits); found.Verdict != ferment.Undecided || len(b.Hand) == 0 {
		b.Finding, b.ByLogger = found, true
	}
}

func (b *Beer) fit(readings []ferment.Reading, end quantity.Plato) {
	if fit, ok := ferment.FitLogistic(readings, end); ok {
		b.Fit = &fit
	}
}

// Thin returns at most so many readings, evenly spread over the list, the last
// one among them.
func Thin(readings []ferment.Reading, most int) []ferment.Reading {
	if len(readings) <= most {
		return readings
	}
	out := make([]ferment.Reading, most)
	for i := range out {
		out[i] = readings[(i+1)*len(readings)/most-1]
	}
	return out
}

// Judged are the readings that the finding rests on.
func (b *Beer) Judged() []ferment.Reading {
	if b.ByLogger {
		return b.Logged
	}
	return b.Hand
}

// Now is the last gravity that was read, the hydrometer's where the finding
// rests on it; not ok where there is none.
func (b *Beer) Now() (quantity.SG, bool) {
	r := b.Judged()
	if len(r) == 0 {
		return 0, false
	}
	return r[len(r)-1].SG, true
}

// gravityAt is the last gravity that was read before a time.
func (b *Beer) gravityAt(when quantity.Duration) (sg quantity.SG, ok bool) {
	for _, r := range b.Judged() {
		if r.At > when && ok {
			break
		}
		sg, ok = r.SG, true
	}
	return sg, ok
}

// dryHop finds out how long and how warm dry hops have lain in the beer.
func (b *Beer) dryHop(g *gyle.Gyle, log []gyle.Entry, now gyle.Time) {
	until := now
	for _, e := range log {
		if e.Deed == nil || e.When().Before(b.Pitched.Time) {
			continue
		}
		switch e.Deed.Do {
		case gyle.DryHops:
			if b.Dry == nil {
				b.Dry = &DryHops{Since: e.When(), At: e.Deed.Temperature}
			}
		case gyle.HopsOut, gyle.Packaged:
			if b.Dry != nil && e.When().Before(until.Time) {
				until = e.When()
			}
		}
	}
	if b.Dry == nil {
		return
	}
	d := b.Dry
	d.Contact = max(0, until.Since(d.Since))
	for _, w := range b.warmth {
		if !w.when.Before(d.Since.Time) && !w.when.After(until.Time) && (d.At.IsZero() || d.At.Below(w.at)) {
			d.At = w.at
		}
	}
	if d.At.IsZero() {
		d.At = plannedDry(g)
	}
	// Where nobody read a temperature, the beer counts as warm.
	d.Creeps = d.Contact >= ferment.HopCreepContact && (d.At.IsZero() || !d.At.Below(ferment.HopCreepWarm))
}

// plannedDry is the temperature that the plan has for dry hops.
func plannedDry(g *gyle.Gyle) (t quantity.Temperature) {
	if g.Plan == nil {
		return t
	}
	for _, h := range g.Plan.Hops {
		var at recipe.Moment
		if err := at.UnmarshalText([]byte(h.At)); err == nil && at.Stage == recipe.AtDry && !at.Temperature.IsZero() {
			t = at.Temperature
		}
	}
	return t
}

// warmest finds the warmest that the beer was since half of the fall was done:
// it decides how much gas is left in it. Without readings it is the upper end of
// the yeast's range.
func (b *Beer) warmest(g *gyle.Gyle) {
	from := b.Pitched
	if b.Fit != nil {
		from = b.Pitched.Add(max(0, b.Fit.Curve.Middle))
	}
	for _, w := range b.warmth {
		if !w.when.Before(from.Time) && (b.Warmest.IsZero() || b.Warmest.Below(w.at)) {
			b.Warmest = w.at
		}
	}
	if b.Warmest.IsZero() && g.Plan != nil && g.Plan.Cellar.Range != nil && g.Plan.Cellar.Range.HasHigh() {
		b.Warmest = g.Plan.Cellar.Range.High
	}
}
