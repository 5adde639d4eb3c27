// SPDX-License-Identifier: MIT

package gyle

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"gyle/quantity"
)

// Measured is what the words of a reading mean. Value is in Unit, which for a
// volume is L, for a temperature °C, for a mass kg, for an evaporation kg/h, for
// a pressure bar on the gauge, for a time min, for a power kW; a gravity is in
// "SG" or "°P", as it was read. Nothing is corrected for temperature.
type Measured struct {
	Of     Of
	Value  float64
	Unit   string
	Sample quantity.Temperature // of the sample; zero if not said
	Echo   string               // what was understood, for the brewer to check: "26.4 L at 95 °C"

	echo func() string // makes Echo: a long log has no need of it
}

// Volume returns a measured volume, as it was read, with its temperature.
func (m Measured) Volume() quantity.VolumeAt {
	return quantity.VolumeAt{Volume: quantity.Volume(m.Value), At: m.Sample}
}

// Gravity returns a measured gravity on the scale it was read on.
func (m Measured) Gravity() quantity.Gravity {
	if m.Unit == "°P" {
		return quantity.GravityPlato(quantity.Plato(m.Value))
	}
	return quantity.GravitySG(quantity.SG(m.Value))
}

// Temperature returns a measured temperature.
func (m Measured) Temperature() quantity.Temperature { return quantity.Celsius(m.Value) }

// ParseReading reads what somebody typed at the kettle: "26,4 @95" is a volume
// read hot, "1042.5" and "1.0425 @24" are gravities, "10.6P" is an extract,
// "12.4 Bx" a refractometer's reading, "65.7C" a temperature. Where it is known
// what was asked for, of says so, and "5,46" is a pH; with an empty of a number
// that could be several things is refused, and the hint names them.
func ParseReading(text string, of Of) (Measured, error) {
	m, err := understand(text, of)
	if err == nil {
		m.Echo, m.echo = m.echo(), nil
	}
	return m, err
}

// understand reads as [ParseReading] does and leaves the echo to be made.
func understand(text string, of Of) (Measured, error) {
	value, sample, err := cutSample(text)
	if err != nil {
		return Measured{}, err
	}
	if of == "" {
		if of, err = guess(value, !sample.IsZero()); err != nil {
			return Measured{}, err
		}
	}
	return measure(value, of, sample, text)
}

// cutSample takes the temperature of the sample off: "26,4 @95", "1.042 at 24 °C".
func cutSample(text string) (value string, sample quantity.Temperature, err error) {
	value, at, found := strings.Cut(text, "@")
	if !found {
		value, at, found = strings.Cut(text, " at ")
	}
	value = strings.TrimSpace(value)
	if !found {
		return value, sample, nil
	}
	at = strings.TrimSpace(at)
	if bareNumber.MatchString(at) {
		if !between(strings.Replace(at, ",", ".", 1), lowestLiquid, highestLiquid) {
			return "", sample, refused(text, "nothing liquid is at so many degrees Celsius", fmt.Sprintf("write \"@ %s °F\" or \"@ %s °C\"", at, at))
		}
		at += " °C"
	}
	if sample, err = quantity.ParseTemperature(at); err != nil {
		return "", sample, refused(text, "the temperature behind @ isn't understood", `write "@ 95 °C" or "@ 203 °F"`)
	}
	return value, sample, nil
}

// Bare numbers are read as degrees Celsius between these: beer in a cold store,
// wort at the bottom of a kettle.
const lowestLiquid, highestLiquid = -30, 105

func refused(text, msg, hint string) error {
	return &quantity.ParseError{Text: text, Msg: fmt.Sprintf("read %q: %s", text, msg), Hint: hint}
}

// bareNumber is a number without any unit.
var bareNumber = regexp.MustCompile(`^[+-]?(\d+(?:[.,]\d+)?|[.,]\d+)$`)

// guess finds out what a text without a question can be a reading of.
func guess(value string, hasSample bool) (Of, error) {
	if bareNumber.MatchString(value) {
		return guessNumber(value, hasSample)
	}
	var fits []Of
	var last error
	for _, of := range Readables() {
		if of == OfBitterness || of == OfColor || of == OfCO2 || of == OfTime {
			continue // of a laboratory, or of the clock: never typed unasked
		}
		if _, err := measure(value, of, quantity.Temperature{}, value); err == nil {
			fits = append(fits, of)
		} else if last == nil || strings.ContainsAny(words(err), "?") || strings.Contains(words(err), cantBe) {
			last = err
		}
	}
	switch len(fits) {
	case 0:
		return "", last
	case 1:
		return fits[0], nil
	}
	return "", refused(value, "it can be a reading of several things", "say which: "+join(fits))
}

// words returns all that an error says.
func words(err error) string {
	if e, ok := err.(*quantity.ParseError); ok {
		return e.Msg + e.Hint
	}
	return ""
}

func join(fits []Of) string {
	words := make([]string, len(fits))
	for i, f := range fits {
		words[i] = string(f)
	}
	return strings.Join(words, " or ")
}

// The bare numbers that can only be gravities. A kettle of a thousand litres is
// not read to a tenth.
const lowestSG, highestSG = 0.97, 1.2

// guessNumber decides on a number without a unit.
func guessNumber(value string, hasSample bool) (Of, error) {
	n := strings.Replace(value, ",", ".", 1)
	if sg, err := quantity.ParseSG(value); err == nil && lowestSG <= sg && sg <= highestSG {
		_, decimals, _ := strings.Cut(n, ".")
		if strings.HasPrefix(n, "1.") || strings.HasPrefix(n, "0.9") {
			if len(decimals) >= 3 {
				return OfGravity, nil
			}
			return "", refused(value, "a gravity has three or four decimals, and it can be a volume",
				fmt.Sprintf("write %q or %q", n+strings.Repeat("0", 3-len(decimals)), n+" L"))
		}
		return OfGravity, nil
	}
	if hasSample {
		return OfVolume, nil
	}
	choices := []string{n + " L", n + " °C", n + " °P", n + " °Bx"}
	if _, err := quantity.ParsePH(value); err == nil && between(n, 2, 10) {
		choices = append([]string{"pH " + n}, choices...)
	}
	return "", refused(value, "the number can mean several things", "write one of "+strings.Join(choices, ", "))
}

func between(n string, low, high float64) bool {
	x, err := strconv.ParseFloat(n, 64)
	return err == nil && low <= x && x <= high
}

// measure reads a value of a known quantity.
func measure(value string, of Of, sample quantity.Temperature, text string) (Measured, error) {
	m := Measured{Of: of, Sample: sample}
	var err error
	var p quantity.Printer
	switch of {
	case OfVolume:
		m, err = fill(m, "L", value, quantity.ParseVolume, p.Volume)
	case OfGravity:
		m, err = measureGravity(m, value)
	case OfRefractometer:
		m, err = measureBrix(m, value)
	case OfTemperature:
		m, err = measureTemperature(m, value)
	case OfPH:
		m, err = fill(m, "pH", value, quantity.ParsePH, p.PH)
	case OfMass:
		m, err = fill(m, "kg", value, quantity.ParseMass, p.Mass)
	case OfPressure:
		m, err = fill(m, "bar", value, quantity.ParseGaugePressure, p.GaugePressure)
	case OfEvaporation:
		m, err = measureEvaporation(m, value)
	case OfTime:
		m, err = fill(m, "min", value, quantity.ParseDuration, p.Duration)
	case OfBitterness:
		m, err = fill(m, "IBU", value, quantity.ParseIBU, p.IBU)
	case OfColor:
		m, err = fill(m, "EBC", value, quantity.ParseEBC, p.EBC)
	case OfCO2:
		m, err = fill(m, "vol", value, quantity.ParseCarbonation, p.Carbonation)
	case OfPower:
		m, err = fill(m, "kW", value, quantity.ParsePower, p.Power)
	default:
		return m, refused(text, fmt.Sprintf("nothing is known of readings of %s", of), "write one of "+join(Readables()))
	}
	if err != nil {
		return Measured{}, err
	}
	plain := m.echo
	m.echo = func() string {
		said := plain()
		switch of {
		case OfPH:
			said = "pH " + said
		case OfTime:
			said = p.Duration(quantity.Duration(m.Value))
		}
		if !sample.IsZero() {
			said += " at " + echo(sample.String(), p.Temperature(sample))
		}
		return said
	}
	if !m.possible() {
		return m, refused(text, fmt.Sprintf("understood as %s, %s", m.echo(), cantBe), "look at the decimal mark")
	}
	return m, nil
}

// fill reads a value by the parser of its measure.
func fill[T interface {
	~float64
	String() string
}](m Measured, unit, value string, parse func(string) (T, error), rounded func(T) string) (Measured, error) {
	x, err := parse(value)
	m.Value, m.Unit = float64(x), unit
	m.echo = func() string { return echo(x.String(), rounded(x)) }
	return m, err
}

// echo says a measure as exactly as it was typed, unless it was typed in other
// units and has no end of decimals.
func echo(exact, rounded string) string {
	const most = 12
	if len([]rune(exact)) > most {
		return rounded
	}
	return exact
}

func measureGravity(m Measured, value string) (Measured, error) {
	g, err := quantity.ParseGravity(value)
	if err != nil {
		return m, err
	}
	m.Value, m.Unit = g.Value, "SG"
	if g.Scale == quantity.ScalePlato {
		m.Unit = "°P"
	}
	m.echo = g.String
	return m, nil
}

// measureBrix reads a refractometer. A bare number is degrees Brix: the
// instrument has no other scale worth reading.
func measureBrix(m Measured, value string) (Measured, error) {
	if bareNumber.MatchString(value) {
		value += " °Bx"
	}
	var p quantity.Printer
	return fill(m, "°Bx", value, quantity.ParseBrix, p.Brix)
}

// measureTemperature reads a temperature; a bare number is °C as long as liquor
// can have it.
func measureTemperature(m Measured, value string) (Measured, error) {
	if bareNumber.MatchString(value) {
		if !between(strings.Replace(value, ",", ".", 1), lowestLiquid, highestLiquid) {
			return m, refused(value, "no liquor has that many degrees Celsius", fmt.Sprintf("write %q or %q", value+" °F", value+" °C"))
		}
		value += " °C"
	}
	t, err := quantity.ParseTemperature(value)
	if err != nil {
		return m, err
	}
	m.Value, m.Unit = t.Celsius(), "°C"
	m.echo = func() string { return echo(t.String(), quantity.Printer{}.Temperature(t)) }
	return m, nil
}

const secondsPerHour = 3600

func measureEvaporation(m Measured, value string) (Measured, error) {
	f, err := quantity.ParseMassFlow(value)
	if err != nil {
		return m, err
	}
	m.Value, m.Unit = float64(f)*secondsPerHour, "kg/h"
	m.echo = func() string { return quantity.Printer{}.MassFlow(f) }
	return m, nil
}

const cantBe = "which can't be"

// possible reports whether an instrument shows such a thing: what none shows is
// mostly a slip of the thumb.
func (m Measured) possible() bool {
	var low, high float64
	switch {
	case m.Of == OfGravity && m.Unit == "SG":
		low, high = 0.97, 1.2
	case m.Of == OfGravity:
		low, high = -8, 45
	case m.Of == OfPH:
		low, high = 0, 14
	case m.Of == OfRefractometer:
		low, high = 0, 95
	case m.Of == OfTemperature:
		low, high = -30, 300 // a dough-in and a roasting oven
	case m.Of == OfPressure:
		low, high = -1, 250
	default:
		low, high = 0, math.Inf(1)
	}
	return m.Value >= low && m.Value <= high
}
