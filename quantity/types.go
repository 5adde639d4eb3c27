// SPDX-License-Identifier: MIT

package quantity

// Temperature is a point on the temperature scale. A difference between two
// points is a [Warming]. Temperature is a struct so that the compiler refuses
// to add 20 °C to 66 °C.
type Temperature struct{ kelvin float64 }

// Celsius returns the temperature of c degrees Celsius.
func Celsius(c float64) Temperature { return Temperature{c + 273.15} }

// Kelvin returns the temperature of k kelvin.
func Kelvin(k float64) Temperature { return Temperature{k} }

// Fahrenheit returns the temperature of f degrees Fahrenheit.
func Fahrenheit(f float64) Temperature { return Celsius((f - 32) / 1.8) }

// Celsius returns t in degrees Celsius.
func (t Temperature) Celsius() float64 { return t.kelvin - 273.15 }

// Kelvin returns t in kelvin.
func (t Temperature) Kelvin() float64 { return t.kelvin }

// Fahrenheit returns t in degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return t.Celsius()*1.8 + 32 }

// Add returns t warmed by d.
func (t Temperature) Add(d Warming) Temperature { return Temperature{t.kelvin + float64(d)} }

// Sub returns the warming that leads from u to t.
func (t Temperature) Sub(u Temperature) Warming { return Warming(t.kelvin - u.kelvin) }

// Below reports whether t is colder than u.
func (t Temperature) Below(u Temperature) bool { return t.kelvin < u.kelvin }

// IsZero reports whether t was never set. (0 K is no brewing temperature.)
func (t Temperature) IsZero() bool { return t.kelvin == 0 }

// Warming is a difference of temperatures, in kelvin; negative is cooling.
type Warming float64

// Mass is a mass in kilograms.
type Mass float64

// Exact by definition (international pound, 1959).
const (
	poundKilograms = 0.45359237
	ounceGrams     = 28.349523125
)

// Grams returns the mass of g grams.
func Grams(g float64) Mass { return Mass(g / 1000) }

// Pounds returns the mass of lb avoirdupois pounds.
func Pounds(lb float64) Mass { return Mass(lb * poundKilograms) }

// Ounces returns the mass of oz avoirdupois ounces.
func Ounces(oz float64) Mass { return Mass(oz * ounceGrams / 1000) }

// Kilograms returns m in kilograms.
func (m Mass) Kilograms() float64 { return float64(m) }

// Grams returns m in grams.
func (m Mass) Grams() float64 { return float64(m) * 1000 }

// Pounds returns m in pounds.
func (m Mass) Pounds() float64 { return float64(m) / poundKilograms }

// Ounces returns m in ounces.
func (m Mass) Ounces() float64 { return float64(m) * 1000 / ounceGrams }

// Volume is a volume in litres, referred to 20 °C unless a name or comment
// says otherwise. A volume as it was read in a hot vessel is a [VolumeAt].
type Volume float64

// Exact by definition.
const (
	usGallonLitres       = 3.785411784
	imperialGallonLitres = 4.54609
)

// USGallons returns the volume of g US gallons.
func USGallons(g float64) Volume { return Volume(g * usGallonLitres) }

// ImperialGallons returns the volume of g imperial gallons.
func ImperialGallons(g float64) Volume { return Volume(g * imperialGallonLitres) }

// Litres returns v in litres.
func (v Volume) Litres() float64 { return float64(v) }

// USGallons returns v in US gallons.
func (v Volume) USGallons() float64 { return float64(v) / usGallonLitres }

// ImperialGallons returns v in imperial gallons.
func (v Volume) ImperialGallons() float64 { return float64(v) / imperialGallonLitres }

// VolumeAt is a volume as it was read, with the temperature of the liquid.
// At is zero when none was given, which means 20 °C.
type VolumeAt struct {
	Volume Volume
	At     Temperature
}

// Duration is a length of time in minutes.
type Duration float64

// Seconds returns a duration of s seconds.
func Seconds(s float64) Duration { return Duration(s / 60) }

// Hours returns a duration of h hours.
func Hours(h float64) Duration { return Duration(h * 60) }

// Days returns a duration of d days.
func Days(d float64) Duration { return Duration(d * 60 * 24) }

// Minutes returns d in minutes.
func (d Duration) Minutes() float64 { return float64(d) }

// Seconds returns d in seconds.
func (d Duration) Seconds() float64 { return float64(d) * 60 }

// Hours returns d in hours.
func (d Duration) Hours() float64 { return float64(d) / 60 }

// Days returns d in days.
func (d Duration) Days() float64 { return float64(d) / (60 * 24) }

// Rate is how often something happens per minute: a first-order rate constant.
type Rate float64

// Fraction is a share of a whole, 0 to 1. It is written in percent.
type Fraction float64

// Percent returns the fraction of p percent.
func Percent(p float64) Fraction { return Fraction(p / 100) }

// Percent returns f in percent.
func (f Fraction) Percent() float64 { return float64(f) * 100 }

// SG is an apparent specific gravity 20/20 °C, as a hydrometer shows it:
// 1.050. It has no unit.
type SG float64

// Points returns the gravity points of s: 50 for 1.050.
func (s SG) Points() float64 { return (float64(s) - 1) * 1000 }

// Plato is an extract in percent of mass (degrees Plato).
type Plato float64

// GravityScale says how a gravity was written.
type GravityScale int

// The scales of a [Gravity].
const (
	ScaleSG GravityScale = iota
	ScalePlato
)

// Gravity is a gravity as it was written, on the scale it was written in.
// science/gravity turns it into [SG] or [Plato].
type Gravity struct {
	Value float64
	Scale GravityScale
}

// GravitySG returns s as a written gravity.
func GravitySG(s SG) Gravity { return Gravity{float64(s), ScaleSG} }

// GravityPlato returns p as a written gravity.
func GravityPlato(p Plato) Gravity { return Gravity{float64(p), ScalePlato} }

// ColorScale says on which scale a colour was written.
type ColorScale int

// The scales of a [Color]. Lovibond is a scale of malts, the others of beers
// and of the laboratory worts of malts.
const (
	ScaleEBC ColorScale = iota
	ScaleSRM
	ScaleLovibond
)

// Color is a colour as it was written, on the scale it was written in.
// Color.EBC converts it by definition or by the customary relation.
type Color struct {
	Value float64
	Scale ColorScale
}

// EBC is a colour on the scale of the European Brewery Convention:
// 25 times the absorbance of 1 cm at 430 nm.
type EBC float64

// ebcPerSRM is the customary factor between the two scales. By definition it
// is 25/12.7 = 1.9685; practice and most tables say 1.97.
const ebcPerSRM = 1.97

// SRM returns c on the American scale.
func (c EBC) SRM() float64 { return float64(c) / ebcPerSRM }

// FromSRM returns the colour of s degrees SRM.
func FromSRM(s float64) EBC { return EBC(s * ebcPerSRM) }

// EBC returns c on the EBC scale. A malt colour in degrees Lovibond is taken
// through SRM = 1.3546·°L − 0.76, the customary relation for malts above 1 °L.
func (c Color) EBC() EBC {
	switch c.Scale {
	case ScaleSRM:
		return FromSRM(c.Value)
	case ScaleLovibond:
		return FromSRM(1.3546*c.Value - 0.76)
	}
	return EBC(c.Value)
}

// IBU is a bitterness in international bitterness units.
type IBU float64

// Carbonation is a content of carbon dioxide in volumes: litres of gas at 0 °C
// and 101.325 kPa per litre of beer.
type Carbonation float64

// gramsPerVolume is the mass of CO2 in a litre of beer at one volume (real gas).
const gramsPerVolume = 1.977

// GramsPerLitre returns c in grams of CO2 per litre.
func (c Carbonation) GramsPerLitre() float64 { return float64(c) * gramsPerVolume }

// CarbonationGrams returns the carbonation of g grams of CO2 per litre.
func CarbonationGrams(g float64) Carbonation { return Carbonation(g / gramsPerVolume) }

// Concentration is a concentration of a dissolved thing in mg/L.
type Concentration float64

// Charge is a concentration of electric charge, or of alkalinity, in mEq/L.
type Charge float64

// PH is the pH of a cooled sample (20 to 25 °C) unless a name says hot.
type PH float64

// Dose is a mass per volume, in g/L.
type Dose float64

// Ratio is a volume per mass, in L/kg (which is mL/g): liquor to grist,
// absorption of grain, wort held by hops.
type Ratio float64

// OilContent is the hop oil in mL per 100 g of hops.
type OilContent float64

// PitchRate is a pitching rate in millions of cells per mL and degree Plato.
type PitchRate float64

// Pressure is an absolute pressure in bar.
type Pressure float64

// GaugePressure is a pressure above that of the surrounding air, in bar.
type GaugePressure float64

// Power is a heating or cooling power in kW.
type Power float64

// HeatCapacity is the heat a vessel takes up, in kJ/K.
type HeatCapacity float64

// Length is a length in metres; it also serves for altitude.
type Length float64

// Feet returns the length of f international feet.
func Feet(f float64) Length { return Length(f * 0.3048) }

// MassFlow is a flow in kg/s.
type MassFlow float64

// Estimate is a number with its standard deviation, written "0.94 ± 0.08".
// An SD of zero means none was stated.
type Estimate struct{ Value, SD float64 }

// FractionEstimate is a share with its standard deviation, written "76 ± 2 %".
type FractionEstimate struct{ Value, SD Fraction }

// Span is a range from Low to High, both ends included, written "low..high".
// A single value is a span whose ends are equal.
type Span[T any] struct{ Low, High T }

// Band is a predicted value with the range in which it is expected to lie in
// about two cases of three (one standard deviation to either side).
type Band struct{ Low, Mid, High float64 }

// BandOf returns the band of a value with a standard deviation.
func BandOf(mid, sd float64) Band { return Band{mid - sd, mid, mid + sd} }
