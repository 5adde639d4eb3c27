// SPDX-License-Identifier: MIT

package reconstruct

import (
	"fmt"

	"gyle/gyle"
	"gyle/quantity"
)

// logbook is a log sorted for the reconstruction: what counts, by kind.
type logbook struct {
	in       Input
	deeds    map[gyle.Do][]gyle.Entry
	readings []measured // of the hot side, and gravities of the fermenter
	pauses   []gyle.Interruption
	series   []*gyle.Series // of instruments that read by themselves, in the fermenter
	planned  []gyle.Charge  // of the plan in the kettle, beside the charges of its facts
	notes    []string
}

// measured is a reading with what it means.
type measured struct {
	entry gyle.Entry
	gyle.Measured
	at   gyle.Place
	mark string
}

// hotPlaces are where readings tell of the hot side; of other places only what
// is named in wanted is read.
var hotPlaces = map[gyle.Place]bool{
	gyle.AtMash: true, gyle.AtFullKettle: true, gyle.AtBoil: true, gyle.AtKnockOut: true, gyle.AtStand: true, gyle.AtCooling: true,
}

// wanted reports whether a reading is of use here. A logger may have left
// thousands of temperatures of the fermenter, which aren't worth reading.
func wanted(r *gyle.Reading) bool {
	if hotPlaces[r.At] || r.Of == gyle.OfBitterness || r.Of == gyle.OfColor {
		return true
	}
	return r.At == gyle.AtFermenter && (r.Of == gyle.OfVolume || r.Of == gyle.OfGravity || r.Of == gyle.OfRefractometer)
}

// readLog sorts the log of a gyle.
func readLog(in Input) *logbook {
	l := &logbook{in: in, deeds: map[gyle.Do][]gyle.Entry{}}
	for _, e := range in.Gyle.Log.Standing() {
		switch {
		case e.Deed != nil:
			l.deeds[e.Deed.Do] = append(l.deeds[e.Deed.Do], e)
		case e.Interruption != nil:
			l.pauses = append(l.pauses, *e.Interruption)
		case e.Series != nil && e.Series.At == gyle.AtFermenter:
			l.series = append(l.series, e.Series)
		case e.Reading != nil && wanted(e.Reading):
			m, err := e.Reading.Measured()
			if err != nil {
				l.note("entry %s, %q, can't be read: %v", e.ID, e.Reading.Value, err)
				continue
			}
			l.readings = append(l.readings, measured{e, m, e.Reading.At, e.Reading.Mark})
		}
	}
	return l
}

func (l *logbook) note(format string, args ...any) {
	l.notes = append(l.notes, fmt.Sprintf(format, args...))
}

// when returns the time of the first deed of a kind.
func (l *logbook) when(do gyle.Do) (gyle.Time, bool) {
	if d := l.deeds[do]; len(d) > 0 {
		return d[0].When(), true
	}
	return gyle.Time{}, false
}

// of returns the readings of something at a place.
func (l *logbook) of(what gyle.Of, at gyle.Place) []measured {
	var out []measured
	for _, m := range l.readings {
		if m.Of == what && m.at == at {
			out = append(out, m)
		}
	}
	return out
}

// instrument returns the instrument of a reading, the usual one where the gyle
// doesn't know it.
func (l *logbook) instrument(m measured) (Instrument, gyle.Instrument) {
	known, ok := l.in.Gyle.Find(m.entry.Reading.With)
	if !ok {
		return Instrument{}, gyle.Instrument{}
	}
	sd, err := known.Spread()
	if err != nil || sd <= 0 {
		return Instrument{}, known
	}
	return Instrument{Name: known.Name, Absolute: sd}, known
}

// reading turns a reading of the log into one of the balances.
func (l *logbook) reading(m measured) Reading {
	instrument, known := l.instrument(m)
	r := Reading{Entry: string(m.entry.ID), Value: m.Value, At: m.Sample, Instrument: instrument, Calibrated: known.At}
	switch {
	case m.Of == gyle.OfVolume:
		r.Kind = Litres
	case m.Of == gyle.OfRefractometer:
		r.Kind = Brix
		if known.Factor != nil {
			r.Factor = *known.Factor
		}
		r.Instrument = Instrument{Name: known.Name, Absolute: max(instrument.Absolute, Refractometer.Absolute), Relative: Refractometer.Relative}
	case m.Unit == "°P":
		r.Kind = DegP
	default:
		r.Kind = SG
	}
	if m.mark == "layered" && r.Kind.ofGravity() {
		usual := r.instrument()
		r.Instrument = Instrument{Name: usual.Name + ", layered", Absolute: layers * pointScale(r.Kind)}
	}
	return r
}

// pointScale turns a difference in SG into one on the scale of a kind of
// reading: a gravity point is about a quarter of a degree Plato.
func pointScale(k Kind) float64 {
	if k == SG {
		return 1
	}
	return 250
}

// cold is the temperature below which liquor was measured cold.
var cold = quantity.Celsius(35)
