// SPDX-License-Identifier: MIT

package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Exact by definition of the gallons; see [USGallons].
const (
	usBarrelLitres       = 31 * usGallonLitres
	imperialBarrelLitres = 36 * imperialGallonLitres
)

// Millilitres returns the volume of ml millilitres.
func Millilitres(ml float64) Volume { return Volume(ml / 1000) }

// Hectolitres returns the volume of hl hectolitres.
func Hectolitres(hl float64) Volume { return Volume(hl * 100) }

// Millilitres returns v in millilitres.
func (v Volume) Millilitres() float64 { return float64(v) * 1000 }

// linear fills in what is alike in all measures that are plain numbers.
func linear[T ~float64](k kind[T]) *kind[T] {
	k.position = func(value T) float64 { return float64(value) }
	k.open = func(_ T, infinity float64) T { return T(infinity) }
	k.zero = true
	return newKind(k)
}

var massKind = linear(kind[Mass]{
	what: "a mass",
	units: []unit[Mass]{
		{"kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes", times[Mass](1)},
		{"g|gram|grams|gramme|grammes|gr", of(Grams)},
		{"mg|milligram|milligrams", per[Mass](1e6)},
		{"t|tonne|tonnes|metric ton|metric tons", times[Mass](1000)},
		{"lb|lbs|pound|pounds", of(Pounds)},
		{"oz|ounce|ounces", of(Ounces)},
		{"short ton|short tons", times[Mass](2000 * poundKilograms)},
		{"long ton|long tons", times[Mass](2240 * poundKilograms)},
	},
	refused: []refusal{
		{"ton|tons", choose("which ton? metric %.0f kg, short %.0f kg or long %.0f kg?",
			`write "%[1]s t", "%[1]s short ton" or "%[1]s long ton"`, 1000, 2000*poundKilograms, 2240*poundKilograms)},
		{"fl oz|floz|fluid ounce|fluid ounces", choose("a fluid ounce is a volume, not a mass", `write "%s oz" for a mass`)},
	},
	add:  func(a, b Mass) Mass { return a + b },
	text: massText,
})

// choose makes the explanation of a unit with several meanings: each size
// multiplies the number and fills a verb of the message; the number as it was
// written fills the hint.
func choose(message, hint string, sizes ...float64) func(number) *trouble {
	return func(n number) *trouble {
		values := make([]any, len(sizes))
		for i, size := range sizes {
			values[i] = n.value * size
		}
		if strings.Contains(hint, "%") {
			hint := fmt.Sprintf(hint, n.text)
			return &trouble{fmt.Sprintf(message, values...), hint}
		}
		return &trouble{fmt.Sprintf(message, values...), hint}
	}
}

// twoCountries refuses a measure that is larger in Britain or in America.
func twoCountries(which, unit string, us, imperial float64) func(number) *trouble {
	return choose("which "+which+"? US %.4g L or imperial %.4g L?",
		`write "%[1]s US `+unit+`" or "%[1]s imp `+unit+`"`, us, imperial)
}

// byCountry writes out the spellings of a unit with the country before or
// behind it: "US gal|gal US|USgal".
func byCountry(countries, units []string) string {
	var all []string
	for _, unit := range units {
		for _, country := range countries {
			all = append(all, country+" "+unit, unit+" "+country)
		}
	}
	return strings.Join(all, "|")
}

// The ways to write the two systems and their measures.
var (
	inUS      = []string{"US", "U.S.", "USA", "American"}
	inBritain = []string{"imp", "imperial", "UK", "British"}
	gallons   = []string{"gal", "gals", "gallon", "gallons"}
	quarts    = []string{"qt", "qts", "quart", "quarts"}
	pints     = []string{"pt", "pts", "pint", "pints"}
	ounces    = []string{"fl oz", "fluid ounce", "fluid ounces"}
	barrels   = []string{"bbl", "bbls", "barrel", "barrels"}
)

var volumeKind = linear(kind[Volume]{
	what: "a volume",
	units: []unit[Volume]{
		{"L|litre|litres|liter|liters|ltr|lt|ℓ", times[Volume](1)},
		{"mL|millilitre|millilitres|milliliter|milliliters|cc|cm3", of(Millilitres)},
		{"cL|centilitre|centiliter|centilitres|centiliters", per[Volume](100)},
		{"dL|decilitre|deciliter", per[Volume](10)},
		{"hL|hectolitre|hectolitres|hectoliter|hectoliters", of(Hectolitres)},
		{"m³|m^3|cubic metre|cubic metres", times[Volume](1000)},
		{byCountry(inUS, gallons), of(USGallons)},
		{byCountry(inBritain, gallons), of(ImperialGallons)},
		{byCountry(inUS, quarts), times[Volume](usGallonLitres / 4)},
		{byCountry(inBritain, quarts), times[Volume](imperialGallonLitres / 4)},
		{byCountry(inUS, pints), times[Volume](usGallonLitres / 8)},
		{byCountry(inBritain, pints), times[Volume](imperialGallonLitres / 8)},
		{byCountry(inUS, ounces), times[Volume](usGallonLitres / 128)},
		{byCountry(inBritain, ounces), times[Volume](imperialGallonLitres / 160)},
		{byCountry(inUS, barrels), times[Volume](usBarrelLitres)},
		{byCountry(inBritain, barrels), times[Volume](imperialBarrelLitres)},
	},
	refused: []refusal{
		{strings.Join(gallons, "|"), twoCountries("gallon", "gal", usGallonLitres, imperialGallonLitres)},
		{strings.Join(quarts, "|"), twoCountries("quart", "qt", usGallonLitres/4, imperialGallonLitres/4)},
		{strings.Join(pints, "|"), twoCountries("pint", "pt", usGallonLitres/8, imperialGallonLitres/8)},
		{strings.Join(ounces, "|") + "|oz|ounce|ounces", twoCountries("fluid ounce", "fl oz", usGallonLitres/128, imperialGallonLitres/160)},
		{strings.Join(barrels, "|"), twoCountries("barrel", "bbl", usBarrelLitres, imperialBarrelLitres)},
	},
	bare: func(n number) (Volume, *trouble) { return Volume(n.value), nil },
	text: volumeText,
})

var durationKind = linear(kind[Duration]{
	what: "a time",
	units: []unit[Duration]{
		{"min|mins|minute|minutes|m|′|'", times[Duration](1)},
		{"s|sec|secs|second|seconds|″|\"", of(Seconds)},
		{"h|hr|hrs|hour|hours", of(Hours)},
		{"d|day|days", of(Days)},
		{"week|weeks|wk", func(n number) Duration { return Days(7 * n.value) }},
	},
	refused: []refusal{{"month|months|mo", choose("months differ in length", `write days: "%s d"`)}},
	add:     func(a, b Duration) Duration { return a + b },
	text:    durationText,
})

var lengthKind = linear(kind[Length]{
	what: "a length",
	units: []unit[Length]{
		{"m|metre|metres|meter|meters", times[Length](1)},
		{"cm", per[Length](100)},
		{"mm", per[Length](1000)},
		{"km", times[Length](1000)},
		{"ft|foot|feet", of(Feet)},
		{"in|inch|inches", per[Length](1 / 0.0254)},
	},
	add:  func(a, b Length) Length { return a + b },
	text: plain[Length](" m"),
})

var temperatureKind = newKind(kind[Temperature]{
	what: "a temperature",
	units: []unit[Temperature]{
		{"°C|C|celsius|°celsius|centigrade", of(Celsius)},
		{"°F|F|fahrenheit|°fahrenheit", of(Fahrenheit)},
		{"K|kelvin|°K", of(Kelvin)},
	},
	refused: []refusal{{"°", whichDegrees}},
	bare:    func(n number) (Temperature, *trouble) { return Temperature{}, whichDegrees(n) },
	text:    celsiusText,
	position: func(t Temperature) float64 {
		return t.kelvin
	},
	open: func(_ Temperature, infinity float64) Temperature { return Temperature{infinity} },
})

func whichDegrees(n number) *trouble {
	return &trouble{
		fmt.Sprintf("which degrees? %s °C, or %s °F (%.1f °C)?", n.text, n.text, Fahrenheit(n.value).Celsius()),
		fmt.Sprintf("write %q or %q", n.text+" °C", n.text+" °F"),
	}
}

var warmingKind = linear(kind[Warming]{
	what: "a difference of temperatures",
	units: []unit[Warming]{
		{"K|kelvin|°C|C|celsius", times[Warming](1)},
		{"°F|F|fahrenheit", per[Warming](1.8)},
	},
	text: plain[Warming](" K"),
})

// ParseVolumeAt reads a volume with the temperature of the liquid:
// "26,4 L @ 95 °C". Both units may be left out: "26.4 @95" is litres and
// degrees Celsius. Without a temperature At is zero.
func ParseVolumeAt(s string) (VolumeAt, error) {
	const what = "a volume with its temperature"
	volume, at, found := strings.Cut(clean(s), "@")
	if !found {
		volume, at, found = strings.Cut(clean(s), " at ")
	}
	v, fault := volumeKind.read(strings.TrimSpace(volume))
	if fault != nil {
		return VolumeAt{}, fault.in(s, what)
	}
	if !found {
		return VolumeAt{Volume: v}, nil
	}
	t, fault := readLiquidTemperature(strings.TrimSpace(at), volume)
	if fault != nil {
		return VolumeAt{}, fault.in(s, what)
	}
	return VolumeAt{v, t}, nil
}

// readLiquidTemperature reads the temperature of a volume. A number alone is
// in °C if the volume is metric and water could be liquid at it.
func readLiquidTemperature(at, volume string) (Temperature, *trouble) {
	n, unit, fault := scan(at)
	if fault != nil || unit != "" {
		return temperatureKind.read(at)
	}
	_, volumeUnit, _ := scan(volume)
	american := strings.Contains(volumeUnit, "gal") || strings.Contains(volumeUnit, "US") || strings.Contains(volumeUnit, "imp")
	if american || n.value < -5 || n.value > 110 || math.IsNaN(n.value) {
		return Temperature{}, whichDegrees(n)
	}
	return Celsius(n.value), nil
}

// String returns v as it would be written in a document: "26.4 L @ 95 °C".
func (v VolumeAt) String() string {
	if v.At.IsZero() {
		return volumeText(v.Volume)
	}
	return volumeText(v.Volume) + " @ " + celsiusText(v.At)
}

// MarshalText writes v canonically.
func (v VolumeAt) MarshalText() ([]byte, error) {
	volume, err := v.Volume.MarshalText()
	if err != nil || v.At.IsZero() {
		return volume, err
	}
	at, err := v.At.MarshalText()
	return []byte(string(volume) + " @ " + string(at)), err
}

// UnmarshalText reads v as [ParseVolumeAt] does.
func (v *VolumeAt) UnmarshalText(text []byte) error {
	read, err := ParseVolumeAt(string(text))
	if err == nil {
		*v = read
	}
	return err
}
