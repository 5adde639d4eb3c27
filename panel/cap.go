// SPDX-License-Identifier: MIT

package panel

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"gyle/quantity"
	"gyle/tasting"
)

// Steps in which a smaller glass is offered, and the least that still gives two
// sips. Common practice.
const (
	glassStep  = 5  // mL
	leastGlass = 25 // mL
)

// OverCap is the error of a plan that would pour more alcohol to somebody than
// the organiser's cap allows.
type OverCap struct {
	Most, Cap quantity.Mass
	Taster    string          // who would get most
	Glass     quantity.Volume // that keeps within the cap; 0: none that is worth tasting
	Later     []string        // flights that can wait for another evening, so that the rest keeps within it
}

// Error says how far it is over and how to come below.
func (e *OverCap) Error() string {
	text := fmt.Sprintf("%s would be poured %.1f g of alcohol, above the cap of %.1f g", e.Taster, e.Most.Grams(), e.Cap.Grams())
	var ways []string
	if e.Glass > 0 {
		ways = append(ways, fmt.Sprintf("pour %.0f mL into each glass", e.Glass.Litres()*1000))
	}
	if len(e.Later) > 0 {
		ways = append(ways, "ask “"+strings.Join(e.Later, "” and “")+"” on another evening")
	}
	ways = append(ways, "pour fewer glasses to each", "write down why it may be passed")
	return text + ": " + strings.Join(ways[:len(ways)-1], ", ") + ", or " + ways[len(ways)-1]
}

// CheckCap compares what a drawn evening pours to each assessor with the cap that
// its organiser chose. It returns an [OverCap] error, unless a reason for going
// above stands in the document. Where the sample or a strength isn't known it
// can't be compared, and there is no error; see [Watched].
func CheckCap(t *tasting.Tasting) error {
	if t.Cap == nil || t.Cap.Over != "" {
		return nil
	}
	taster, most := mostPoured(t)
	if most <= t.Cap.Alcohol {
		return nil
	}
	return &OverCap{Most: most, Cap: t.Cap.Alcohol, Taster: taster, Glass: smallerGlass(t, most), Later: later(t)}
}

// Watched reports whether the cap of an evening, if it has one, can be compared
// with what is poured.
func Watched(t *tasting.Tasting) bool {
	_, known := Poured(t)
	return t.Cap == nil || known
}

// mostPoured is who is poured most alcohol, and how much.
func mostPoured(t *tasting.Tasting) (taster string, most quantity.Mass) {
	poured, _ := Poured(t)
	for _, id := range slices.Sorted(maps.Keys(poured)) {
		if poured[id] > most {
			taster, most = id, poured[id]
		}
	}
	return taster, most
}

// smallerGlass is the largest sample in whole steps that keeps within the cap.
func smallerGlass(t *tasting.Tasting, most quantity.Mass) quantity.Volume {
	if most <= 0 {
		return 0
	}
	fits := t.Conditions.Sample.Litres() * 1000 * float64(t.Cap.Alcohol/most)
	ml := math.Floor(fits/glassStep+1e-9) * glassStep
	if ml < leastGlass {
		return 0
	}
	return quantity.Volume(ml / 1000)
}

// later lists the last flights without which the others keep within the cap; none
// where the first alone doesn't.
func later(t *tasting.Tasting) (names []string) {
	for n := len(t.Flights) - 1; n > 0; n-- {
		names = append([]string{t.Flights[n].Name}, names...)
		rest := *t
		rest.Flights = t.Flights[:n]
		if _, most := mostPoured(&rest); most <= t.Cap.Alcohol {
			return names
		}
	}
	return nil
}

// Part takes the flights that an [OverCap] names out of an evening and makes
// another one of them, which isn't drawn yet. Nothing of the first is changed
// but that they are gone.
func Part(t *tasting.Tasting, over *OverCap) (second *tasting.Tasting, ok bool) {
	if len(over.Later) == 0 {
		return nil, false
	}
	other := *t
	other.Name, other.Date = t.Name+", second evening", tasting.Date{}
	other.Sheets, other.Flights = nil, nil
	other.Beers, other.Panel = slices.Clone(t.Beers), slices.Clone(t.Panel)
	var kept []tasting.Flight
	for _, f := range t.Flights {
		if slices.Contains(over.Later, f.Name) {
			f.Serving, f.Design = nil, nil
			other.Flights = append(other.Flights, f)
			continue
		}
		kept = append(kept, f)
	}
	t.Flights = kept
	return &other, true
}
