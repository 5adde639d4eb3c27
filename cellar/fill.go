// SPDX-License-Identifier: MIT

package cellar

import (
	"fmt"

	"gyle/data"
	"gyle/quantity"
	"gyle/science/carbonation"
	"gyle/science/ferment"
)

// Wish is how somebody would like to fill a beer.
type Wish struct {
	Into    carbonation.Package
	CO2     quantity.Carbonation
	Warmest quantity.Temperature    // of the store; zero: 20 °C
	Rating  *quantity.GaugePressure // of a keg, as its plate has it
	Volume  quantity.Volume         // to be filled; 0: no priming is reckoned
	Sugar   string                  // for priming; empty: sucrose
	Held    quantity.Temperature    // the warmest the beer was since it finished; zero: as the log has it, else 20 °C
	Keg     quantity.Temperature    // at which a keg stands; zero: 5 °C
	Air     quantity.Pressure       // of the place; 0: at sea level
	Reader  quantity.Printer        // units of the cautions
}

// Filling is what is to be known before a beer is filled.
type Filling struct {
	Wish     Wish
	Fall     quantity.Span[quantity.SG] // by which the gravity may still fall
	Reasons  []string                   // where that comes from, in words
	Verdict  carbonation.Judgement      // of the worst case
	Residual quantity.Carbonation       // in the beer now
	Priming  quantity.Mass              // 0: none is needed, or none reckoned
	Keg      quantity.GaugePressure     // to set at a keg that stands at Wish.Keg
	Notes    []string
}

// Refused reports whether the filling is refused.
func (f Filling) Refused() bool { return f.Verdict.Severity == carbonation.Refuse }

// The temperatures that stand in where nobody says any. Common practice.
var (
	roomTemperature = quantity.Celsius(20)
	kegTemperature  = quantity.Celsius(5)
)

func (w Wish) usual(held quantity.Temperature) Wish {
	if w.Warmest.IsZero() {
		w.Warmest = roomTemperature
	}
	if w.Held.IsZero() {
		w.Held = held
	}
	if w.Held.IsZero() {
		w.Held = roomTemperature
	}
	if w.Keg.IsZero() {
		w.Keg = kegTemperature
	}
	if w.Air == 0 {
		w.Air = carbonation.SeaLevel
	}
	if w.Sugar == "" {
		w.Sugar = "sucrose"
	}
	return w
}

// Fill judges a filling by the worst that may come of it. The error says what
// of the wish can't be understood.
func (b *Beer) Fill(w Wish) (Filling, error) {
	w = w.usual(b.Warmest)
	f := Filling{Wish: w}
	sugar, known := data.Sugar(w.Sugar)
	if !known {
		return f, fmt.Errorf("%s is no known sugar", w.Sugar)
	}
	if w.CO2 <= 0 {
		return f, fmt.Errorf("say how much carbonation the beer is to have")
	}
	f.Fall, f.Reasons = b.fall()
	rating := quantity.GaugePressure(0)
	if w.Rating != nil {
		rating = *w.Rating
	}
	f.Verdict = carbonation.Judge(carbonation.Filling{Package: w.Into, Target: w.CO2, Unproven: f.Fall.High, Warmest: w.Warmest, Rating: rating, Reader: w.Reader})
	if why := b.unknown(); why != "" && w.Into != carbonation.Keg {
		f.Verdict.Severity = carbonation.Refuse
		f.Verdict.Cautions = append([]string{why}, f.Verdict.Cautions...)
	}
	f.Residual = carbonation.Residual(w.Held, w.Air)
	switch {
	case w.CO2 <= f.Residual:
		f.Notes = append(f.Notes, fmt.Sprintf("The beer holds %.2f vol already: no priming.", float64(f.Residual)))
	case w.Into != carbonation.Keg && w.Volume > 0:
		f.Priming = carbonation.PrimingSugar(w.CO2, f.Residual, w.Volume, carbonation.GasYield(sugar.CO2PerGram))
	}
	f.Keg = max(0, carbonation.PressureFor(w.CO2, w.Keg, w.Air))
	return f, nil
}

// unknown says why nobody can tell how far the gravity will fall; empty where
// the readings tell.
func (b *Beer) unknown() string {
	switch {
	case len(b.Judged()) == 0:
		return "no gravity was read since the pitching, so nobody knows how much gas is still to come: don't fill bottles"
	case b.Finding.Verdict == ferment.Falling:
		return "the gravity is still falling, so nobody knows where it ends: don't fill bottles"
	case b.Forced == 0 && b.Expected == 0 && b.Finding.Verdict == ferment.Undecided:
		return "the readings don't show that it has stopped, and neither a forced test nor the plan says where it ends: don't fill bottles"
	}
	return ""
}

// fall is by how much the gravity may still fall, and why.
func (b *Beer) fall() (fall quantity.Span[quantity.SG], reasons []string) {
	if b.Finding.Verdict != ferment.StableAndProven && b.Finding.ToDrop > 0 {
		fall.Low, fall.High = b.Finding.ToDrop, b.Finding.ToDrop
		points := float64(b.Finding.ToDrop) * 1000
		if b.Forced > 0 {
			reasons = append(reasons, fmt.Sprintf("%.1f points to %.4f, where the forced test ended", points, float64(b.Forced)))
		} else {
			reasons = append(reasons, fmt.Sprintf("%.1f points to %.4f, where the plan expects the end; no forced test proves it", points, float64(b.Expected)))
		}
	}
	now, read := b.Now()
	if b.Dry == nil || !read {
		return fall, reasons
	}
	switch {
	case b.Hopped && b.Forced > 0:
		reasons = append(reasons, "nothing for hop creep: the forced test was of the hopped beer")
	case !b.Dry.Creeps:
		reasons = append(reasons, fmt.Sprintf("nothing for hop creep: the dry hops have lain %.1f days, and less than three, or cold. What their enzymes do later, in a warm bottle, nobody can say", b.Dry.Contact.Days()))
	default:
		before, _ := b.gravityAt(b.Dry.Since.Since(b.Pitched))
		creep := ferment.HopCreep(before, now)
		fall.Low += creep.Low
		fall.High += creep.High
		reasons = append(reasons, fmt.Sprintf("%.1f to %.1f points for hop creep: dry hops have lain warm for %.1f days. It goes too slowly for three days of readings to show; a forced test of the hopped beer does",
			float64(creep.Low)*1000, float64(creep.High)*1000, b.Dry.Contact.Days()))
	}
	return fall, reasons
}

// Proves says what is worth doing before filling, the first thing first.
func (b *Beer) Proves() []string {
	switch b.Finding.Verdict {
	case ferment.Stuck:
		return []string{"Warm it to the upper limit of the yeast.", "Rouse the yeast.", "Pitch fresh, active yeast.", "No air: once a third is fermented, it only spoils."}
	case ferment.Stable:
		return []string{"Make a forced test before bottling: a small sample, much yeast, kept warm until it stops."}
	case ferment.Falling, ferment.Undecided:
		return []string{"Leave it; read again in a day."}
	}
	if b.Dry != nil && b.Dry.Creeps && !b.Hopped {
		return []string{"Make a forced test of the hopped beer: a small sample, much yeast, kept warm until it stops. Log it at forced test, marked hopped."}
	}
	return nil
}
