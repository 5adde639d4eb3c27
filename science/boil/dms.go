// SPDX-License-Identifier: MIT

package boil

import (
	"fmt"
	"math"

	"gyle/quantity"
)

// MicrogramsPerLitre is a concentration of dimethyl sulphide, or of its
// precursor S-methylmethionine counted as the sulphide it can give.
type MicrogramsPerLitre float64

// A Sulphide is the content of precursor and of free dimethyl sulphide (DMS).
type Sulphide struct{ Precursor, Free MicrogramsPerLitre }

// A SulphideModel holds what differs between authors and kettles.
type SulphideModel struct {
	HalfLife quantity.Duration // of the precursor at 100 °C and pH 5.4
	Mixing   float64           // Keff: fraction of DMS stripped per fraction of wort evaporated
	PH       quantity.PH
}

// DefaultSulphideModel has the half-life of wilson1979 and a mixing between
// the kettles that were measured (20 to 64, estimate).
var DefaultSulphideModel = SulphideModel{HalfLife: 35, Mixing: 45, PH: 5.4}

// The mixing constants behind [SulphideModel].
const (
	// WellMixed follows from wilson1979: 0.18/min at 17 %/h.
	WellMixed = 64.0
	// PoorlyMixed is the low end of what kettles show (estimate).
	PoorlyMixed = 20.0
)

// sulphideStart is the temperature below which no precursor is taken to split.
var sulphideStart = quantity.Celsius(70)

// SplitRate returns the rate at which the precursor splits at temperature t.
// Below 70 °C it is zero.
//
//	kS = ln2/t½ · 2^((T − 100)/6) · exp(0.521·(pH − 5.4))    kS in 1/min, t½ in min, T in °C
//
// Authors differ: a half-life of 35 min in boiling wort (wilson1979), 38 min
// at pH 5.2 and 32.5 min at pH 5.5 (dickenson1979, second-hand).
//
//   - Source: wilson1979, abstract, half-life; anness1982, second-hand, doubling per 6 K; dickenson1979, second-hand, pH.
//   - Valid: 70–105 °C, pH 5.0–5.8.
//   - Check: 0.01980 at 100 °C and pH 5.4; half-life of 280 min at 82 °C, quoted as about 300.
//   - Tag: second-hand
func (m SulphideModel) SplitRate(t quantity.Temperature) quantity.Rate {
	if t.Below(sulphideStart) {
		return 0
	}
	k := math.Ln2 / m.HalfLife.Minutes()
	return quantity.Rate(k * math.Exp2((t.Celsius()-100)/6) * math.Exp(0.521*(float64(m.PH)-5.4)))
}

// SplitRateValid is the range of [SulphideModel.SplitRate].
var SplitRateValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(70), High: quantity.Celsius(105)}

// StripRate returns the rate at which free DMS leaves with the steam. Under a
// lid it is zero: what condenses runs back.
//
//	kv = Keff·e    kv in 1/min, e in fraction of the wort mass per min
//
// Less mixed kettles gave 0.0143 to 0.0360/min (desobgo2015, abstract).
//
//   - Source: wilson1979, abstract, 0.18/min at 17 %/h.
//   - Valid: open kettles; Keff between 20 and 64.
//   - Check: 0.18/min for Keff 64 and 17 %/h.
//   - Tag: computed
func (m SulphideModel) StripRate(evaporation quantity.Rate) quantity.Rate {
	return quantity.Rate(m.Mixing) * evaporation
}

// Hold returns what s becomes in time d at constant temperature t while the
// wort evaporates at the given fraction per minute.
//
//	S = S0·e^(−kS·t)    D = D0·e^(−kv·t) + S0·kS/(kv − kS)·(e^(−kS·t) − e^(−kv·t))
//
// Units: S, D in µg/L; t in min; kS, kv in 1/min.
//
//   - Source: derived, two first-order steps in a row, from wilson1979.
//   - Valid: as [SulphideModel.SplitRate].
//   - Check: 500 and 50 µg/L, 60 min at 100 °C, 10 %/h, Keff 64: 152.4 and 34.6.
//   - Tag: derived
func (m SulphideModel) Hold(s Sulphide, t quantity.Temperature, evaporation quantity.Rate, d quantity.Duration) Sulphide {
	split, strip := float64(m.SplitRate(t))*d.Minutes(), float64(m.StripRate(evaporation))*d.Minutes()
	left, stays := math.Exp(-split), math.Exp(-strip)
	made := split * left
	if math.Abs(strip-split) >= 1e-9 {
		made = split / (strip - split) * (left - stays)
	}
	return Sulphide{
		Precursor: s.Precursor * MicrogramsPerLitre(left),
		Free:      s.Free*MicrogramsPerLitre(stays) + s.Precursor*MicrogramsPerLitre(made),
	}
}

// Stand returns what s becomes in time d without evaporation, the temperature
// being told by a function of the time since the start: a covered stand, a
// whirlpool, a slow chill. It goes in steps of a tenth of a minute.
//
//	D += S·(1 − exp(−∫ kS dt))
//
// Units: D, S in µg/L; kS in 1/min; t in min.
//
//   - Source: derived, from wilson1979.
//   - Valid: as [SulphideModel.SplitRate].
//   - Check: constant temperature agrees with [SulphideModel.Hold].
//   - Tag: derived
func (m SulphideModel) Stand(s Sulphide, temperature func(quantity.Duration) quantity.Temperature, d quantity.Duration) Sulphide {
	const longest = 0.1 // min
	n := math.Ceil(d.Minutes() / longest)
	step := d / quantity.Duration(n)
	split := 0.0
	for i := range int(n) {
		split += float64(m.SplitRate(temperature((quantity.Duration(i)+0.5)*step))) * step.Minutes()
	}
	made := s.Precursor * MicrogramsPerLitre(-math.Expm1(-split))
	return Sulphide{Precursor: s.Precursor - made, Free: s.Free + made}
}

// Precursor in full-kettle wort by kind of malt, from memory. FreeAtStart is
// what is usually free by then.
var (
	PilsnerPrecursor = quantity.Span[MicrogramsPerLitre]{Low: 300, High: 700}
	PalePrecursor    = quantity.Span[MicrogramsPerLitre]{Low: 100, High: 250}
	KilnedPrecursor  = quantity.Span[MicrogramsPerLitre]{Low: 0, High: 50}
)

// Defaults for wort of Pilsner malt, from memory.
const (
	PilsnerPrecursorDefault MicrogramsPerLitre = 500
	FreeAtStart             MicrogramsPerLitre = 50
)

// A Light is how much DMS is to be feared. The model is good for a light, not
// for a number.
type Light int

// The lights.
const (
	Green Light = iota // below the upper end of the taste threshold, in wort already
	Amber              // what lager drinkers tolerate
	Red
)

func (l Light) String() string {
	return [...]string{"green", "amber", "red"}[l]
}

// The limits of the lights: the taste threshold is 30 to 50 µg/L, and lager is
// allowed 100 (both second-hand).
const (
	amberAbove MicrogramsPerLitre = 50
	redAbove   MicrogramsPerLitre = 100
)

// Judge returns the light for free DMS in cold wort. Fermentation strips 30 to
// 70 % of it, but may make new.
//
//	green up to 50 µg/L, amber up to 100, red above
//
// Units: µg/L.
//
//   - Source: practice, taste threshold of 30 to 50 µg/L, 100 tolerated in lager.
//   - Valid: as a light only.
//   - Check: 37 green, 66 amber, 118 red.
//   - Tag: second-hand
func Judge(free MicrogramsPerLitre) Light {
	switch {
	case free > redAbove:
		return Red
	case free > amberAbove:
		return Amber
	}
	return Green
}

// Assumption says, for a reader, what the light rests on.
func (m SulphideModel) Assumption(start Sulphide) string {
	return fmt.Sprintf("assumes %.0f µg/L of precursor and %.0f µg/L of free DMS in the full kettle, "+
		"a half-life of %.0f min at the boil and pH %.1f, and a mixing constant of %.0f (kettles range from %.0f to %.0f)",
		float64(start.Precursor), float64(start.Free), m.HalfLife.Minutes(), float64(m.PH), m.Mixing, PoorlyMixed, WellMixed)
}
