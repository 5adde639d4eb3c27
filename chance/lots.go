// SPDX-License-Identifier: MIT

package chance

import (
	"fmt"
	"math"

	"gyle/data"
	"gyle/plan"
	"gyle/science/uncertainty"
)

// How far an analysis may be from the lot, one standard deviation. Estimates:
// what well run laboratories differ by, and what a sample differs from its sack.
const (
	extractOfAnalysis  = 0.005 // of the value
	moistureOfAnalysis = 0.003 // of the mass: malt takes up water in the shed
	colorOfAnalysis    = 0.05  // of the value
	colorAsMeant       = 0.10  // of the value: the recipe names a product, the lot is another
	alphaOfAnalysis    = 0.04  // of the value
)

// sdOfRange is how many standard deviations a range of typical values is taken
// to reach from end to end. Estimate: most lots lie in it.
const sdOfRange = 4

// fromRange is the relative standard deviation of typical values, never less
// than that of an analysis.
func fromRange(r data.Range, least float64) float64 {
	if mid := r.Mid(); mid > 0 {
		return math.Max((r.High()-r.Low())/sdOfRange/mid, least)
	}
	return least
}

// useOf is one lot with all its uses in a plan.
type useOf struct {
	plan.MaltUse
	at []int
}

// title names what is used: its lot, or the malt where values are typical.
func title(what, lot string) string {
	if lot == "" {
		return what
	}
	return what + " " + lot
}

// maltLots gathers the uses of each lot: a lot that is off is so in all of them.
func (l *list) maltLots() []useOf {
	var lots []useOf
	place := map[string]int{}
	for i, u := range l.day.Malts {
		if u.Mass <= 0 {
			continue
		}
		key := u.Lot + "\n" + u.Malt
		k, seen := place[key]
		if !seen {
			k = len(lots)
			place[key] = k
			lots = append(lots, useOf{MaltUse: u})
		}
		lots[k].at = append(lots[k].at, i)
	}
	return lots
}

func (l *list) malts() {
	for _, u := range l.maltLots() {
		l.extract(u)
		l.moisture(u)
		l.maltColor(u)
	}
}

// each changes all uses of a lot.
func (u useOf) each(change func(m *plan.MaltTruth, x float64)) func(t *plan.Truth, x float64) {
	at := u.at
	return func(t *plan.Truth, x float64) {
		for _, i := range at {
			change(&t.Malts[i], x)
		}
	}
}

// typical says that values are typical of a malt.
func typical(m data.MaltType) string {
	if m.Basis == "" {
		return "nothing is known of it"
	}
	return "typical range of " + m.Name + ", taken as two standard deviations to either side"
}

func (l *list) extract(u useOf) {
	sd, source := extractOfAnalysis, "analysis of the lot: laboratories and samples differ (estimate)"
	if !u.Stated.Extract {
		sd, source = fromRange(u.Typical.ExtractDryBasis, extractOfAnalysis), typical(u.Typical)
	}
	l.add(Input{Name: "extract of " + title(u.Malt, u.Lot), Kind: OfLot, Source: source}, ratio(sd),
		u.each(func(m *plan.MaltTruth, x float64) { m.Extract *= x }))
}

func (l *list) moisture(u useOf) {
	sd, source := moistureOfAnalysis, "analysis of the lot; malt takes up water in the shed (estimate)"
	mean := u.Typical.Moisture.Mid() / 100
	if !u.Stated.Moisture {
		sd, source = math.Max((u.Typical.Moisture.High()-u.Typical.Moisture.Low())/sdOfRange/100, moistureOfAnalysis), typical(u.Typical)
	}
	l.add(Input{Name: "moisture of " + title(u.Malt, u.Lot), Kind: OfLot, Source: source}, uncertainty.Normal{SD: sd},
		u.each(func(m *plan.MaltTruth, x float64) { m.Extract *= 1 - x/(1-mean) }))
}

func (l *list) maltColor(u useOf) {
	sd, source := colorOfAnalysis, "analysis of the lot: laboratories differ (estimate)"
	switch {
	case u.Stated.Color:
	case u.Meant:
		sd, source = colorAsMeant, "the recipe names the colour of the product; lots of it differ (estimate)"
	default:
		sd, source = fromRange(u.Typical.ColourEBC, colorOfAnalysis), typical(u.Typical)
	}
	l.add(Input{Name: "colour of " + title(u.Malt, u.Lot), Kind: OfLot, Source: source}, ratio(sd),
		u.each(func(m *plan.MaltTruth, x float64) { m.Color *= x }))
}

// storageOfClass is the relative standard deviation of the rate at which hops
// age: classes of keeping are known to about ten points of loss in six months,
// taken as two standard deviations (garetz1994; estimate).
const storageOfClass = 0.25

func (l *list) hops() {
	place := map[string]bool{}
	for i := range l.day.Hops {
		first := &l.day.Hops[i]
		key := first.Lot + "\n" + first.Hop
		if place[key] || first.Mass <= 0 || first.Dry {
			continue
		}
		place[key] = true
		var at []int
		for k, h := range l.day.Hops {
			if h.Lot == first.Lot && h.Hop == first.Hop {
				at = append(at, k)
			}
		}
		l.alpha(first, at)
	}
}

func (l *list) alpha(h *plan.HopCharge, at []int) {
	name := title(h.Hop, h.Lot)
	sd, source := alphaOfAnalysis, "label of the lot: laboratories and bales differ (estimate)"
	if !h.Stated {
		sd, source = 0.15, "no lot and no typical range: a guess"
		if h.Range.Typical > 0 {
			sd = math.Max((h.Range.Range.High()-h.Range.Range.Low())/sdOfRange/h.Range.Typical, alphaOfAnalysis)
			source = fmt.Sprintf("typical range of %s, taken as two standard deviations to either side", h.Hop)
		}
	}
	l.add(Input{Name: "alpha acids of " + name, Kind: OfLot, Source: source}, ratio(sd), func(t *plan.Truth, x float64) {
		for _, i := range at {
			t.Hops[i].Alpha *= x
		}
	})
	if !(h.Kept < 1) || h.Kept <= 0 {
		return
	}
	rate := -math.Log(h.Kept)
	l.add(Input{Name: "ageing of " + name, Kind: OfLot, Source: "classes of keeping are known to about ten points of loss in six months (estimate)"},
		uncertainty.Normal{SD: rate * storageOfClass}, func(t *plan.Truth, x float64) {
			for _, i := range at {
				t.Hops[i].Alpha *= math.Exp(-x)
			}
		})
}
