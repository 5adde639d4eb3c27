// SPDX-License-Identifier: MIT

package reconstruct

import (
	"math"
	"strconv"

	"gyle/quantity"
	"gyle/science/gravity"
	"gyle/science/reconcile"
)

// context is what the slips of a reading depend on.
type context struct {
	reading Reading
	hot     quantity.Temperature
	layered bool
}

// isHot reports whether the wort is hot at this point.
func (c context) isHot() bool { return !c.hot.IsZero() && roomTemperature.Add(20).Below(c.hot) }

// readCold reports whether the reading was noted as of a cold sample.
func (c context) readCold() bool {
	return c.reading.At.IsZero() || c.reading.At.Below(quantity.Celsius(35))
}

// A slip turns a reading into what was meant. weight is how common it is among
// the slips; stretch is how much a step on the scale of the reading is on the
// scale of the balances against the reading as it stands.
type slip struct {
	name      string
	corrected quantity.Estimate
	unknown   bool // corrected.SD is then how far such a reading may be off
	weight    float64
	stretch   float64
}

// The weights of the slips among one another are own estimates, of how often
// brewers report each.
const (
	hotAsColdWeight = 0.30
	layeredWeight   = 0.30
	digitsWeight    = 0.15
	unitWeight      = 0.10
	heatWeight      = 0.15
	pointWeight     = 0.03
	anythingWeight  = 0.10
	unusualWeight   = 0.30
)

// slipsOf lists what may have happened to a reading.
func slipsOf(c context) []slip {
	var out []slip
	switch c.reading.Kind {
	case Litres:
		out = append(volumeTemperature(c), volumeUnits(c)...)
	case Kilos:
		out = append(out, c.scaled("pounds written as kilograms", float64(quantity.Pounds(1)), unitWeight))
	default:
		out = append(gravityTemperature(c), gravityUnits(c)...)
	}
	out = append(out, swappedDigits(c)...)
	return append(out, c.anything())
}

// unusual is a house that didn't do as it usually does: the boil was weak, the
// basket wasn't drained. It may be off by several of its standard deviations.
func unusual(v reconcile.Variable) slip {
	const severalSD = 5 // own choice
	return slip{name: "not as usual", unknown: true, weight: unusualWeight, stretch: 1,
		corrected: quantity.Estimate{Value: v.Value, SD: severalSD * v.SD}}
}

// as is the slip of having meant another reading.
func (c context) as(name string, meant Reading, weight float64) slip {
	e := meant.True()
	return slip{name: name, corrected: e, weight: weight, stretch: e.SD / c.reading.True().SD}
}

// scaled is the slip of having left out a factor on the number read.
func (c context) scaled(name string, factor, weight float64) slip {
	meant := c.reading
	meant.Value *= factor
	s := c.as(name, meant, weight)
	s.stretch = factor
	return s
}

// widen adds to the error of a correction.
func (s slip) widen(sd float64) slip {
	s.corrected.SD = math.Hypot(s.corrected.SD, sd)
	return s
}

// volumeTemperature lists volumes taken at the wrong temperature.
func volumeTemperature(c context) []slip {
	meant := c.reading
	if c.readCold() {
		if !c.isHot() {
			return nil
		}
		// How hot it was isn't known to better than a few kelvin: 0.2 % of the volume.
		meant.At = c.hot
		s := c.as("hot volume read as cold", meant, hotAsColdWeight).widen(0.002 * meant.Value)
		s.stretch = 1
		return []slip{s}
	}
	meant.At = roomTemperature
	s := c.as("cold volume put down as hot", meant, heatWeight)
	s.stretch = 1
	out := []slip{s}
	for _, t := range Swaps(math.Round(c.reading.At.Celsius()), 0) {
		if meant.At = quantity.Celsius(t); !gravity.WaterValid.High.Below(meant.At) {
			s := c.as("digits of the temperature swapped", meant, pointWeight)
			s.stretch = 1
			out = append(out, s)
		}
	}
	return out
}

// volumeUnits lists gallons for litres and the reverse.
func volumeUnits(c context) []slip {
	us, imperial := float64(quantity.USGallons(1)), float64(quantity.ImperialGallons(1))
	return []slip{
		c.scaled("US gallons written as litres", us, unitWeight),
		c.scaled("imperial gallons written as litres", imperial, unitWeight),
		c.scaled("litres taken for US gallons", 1/us, unitWeight),
		c.scaled("litres taken for imperial gallons", 1/imperial, unitWeight),
		c.scaled("the decimal point slipped", 10, pointWeight),
		c.scaled("the decimal point slipped", 0.1, pointWeight),
	}
}

// gravityTemperature lists gravities of warm or unmixed samples.
func gravityTemperature(c context) []slip {
	var out []slip
	if c.layered {
		out = append(out, slip{name: "a sample of layered wort", unknown: true, weight: layeredWeight,
			corrected: quantity.Estimate{Value: c.reading.True().Value, SD: layers}, stretch: 1})
	}
	if c.reading.Kind != SG {
		return out
	}
	meant := c.reading
	if c.readCold() && c.isHot() {
		for _, celsius := range []float64{45, 60, 75} {
			if meant.At = quantity.Celsius(celsius); celsius <= gravity.HydrometerValid.High.Celsius() {
				out = append(out, c.as("a hot sample read as cold", meant, heatWeight/2).widen(warmSpread))
			}
		}
	}
	if !c.readCold() || !c.reading.At.IsZero() && c.reading.At != roomTemperature {
		meant.At = roomTemperature
		out = append(out, c.as("a gravity corrected for its temperature twice", meant, heatWeight))
	}
	return out
}

// layers is how far a sample of layered wort may be off, and warmSpread how
// far a correction for a guessed temperature. Estimates: five points, and 7 K
// at 50 °C.
const (
	layers     = 0.005
	warmSpread = 0.003
)

// gravityUnits lists points for °P and the reverse.
func gravityUnits(c context) []slip {
	r := c.reading
	var out []slip
	// other is the slip of a number that belongs on another scale.
	other := func(name string, kind Kind, number float64) {
		if number <= 0 || kind == DegP && number > 40 || kind == SG && number > 1.2 {
			return
		}
		meant := Reading{Kind: kind, Value: number}
		s := c.as(name, meant, unitWeight)
		s.stretch = 1
		out = append(out, s)
	}
	switch r.Kind {
	case SG:
		other("°P written as gravity points", DegP, (r.Value-1)*1000)
	default:
		other("gravity points written as "+r.Kind.String(), SG, 1+r.Value/1000)
		if r.Kind == DegP {
			meant := r
			meant.Kind = Brix
			out = append(out, c.as("°Bx taken for °P", meant, unitWeight))
		} else {
			other("°P corrected as if it were °Bx", DegP, r.Value)
		}
	}
	return out
}

// anything is a reading that is wrong without a name for it.
func (c context) anything() slip {
	e := c.reading.True()
	e.SD = 0.15 * math.Abs(e.Value) // estimate: a sixth of the number
	if c.reading.Kind.ofGravity() {
		e.SD = 0.012
	}
	return slip{name: "misread", corrected: e, unknown: true, weight: anythingWeight, stretch: 1}
}

// swappedDigits lists readings with two neighbouring digits the other way
// round.
func swappedDigits(c context) []slip {
	decimals := map[Kind]int{Litres: 1, Kilos: 2, SG: 4, DegP: 1, Brix: 1}[c.reading.Kind]
	if rounded(c.reading.Value, decimals) != c.reading.Value {
		decimals++ // a finer reading
	}
	var out []slip
	for _, x := range Swaps(c.reading.Value, decimals) {
		meant := c.reading
		meant.Value = x
		if c.reading.Kind == SG && (x < 0.99 || x > 1.15) {
			continue
		}
		s := c.as("two digits swapped", meant, digitsWeight)
		s.stretch = 1
		out = append(out, s)
	}
	for i := range out {
		out[i].weight /= float64(len(out))
	}
	return out
}

func rounded(x float64, decimals int) float64 {
	y, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'f', decimals, 64), 64)
	return y
}

// Swaps returns the numbers that come of swapping two neighbouring digits of x,
// written with so many decimals. Swapping equal digits changes nothing and is
// left out.
func Swaps(x float64, decimals int) []float64 {
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	var places []int
	for i := range len(text) {
		if text[i] >= '0' && text[i] <= '9' {
			places = append(places, i)
		}
	}
	var out []float64
	for k := 1; k < len(places); k++ {
		i, j := places[k-1], places[k]
		if text[i] == text[j] {
			continue
		}
		digits := []byte(text)
		digits[i], digits[j] = digits[j], digits[i]
		y, err := strconv.ParseFloat(string(digits), 64)
		if err == nil && y > 0 {
			out = append(out, y)
		}
	}
	return out
}
