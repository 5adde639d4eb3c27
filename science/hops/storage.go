// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

// freshHSI is the hop storage index of hops that have lost nothing.
const freshHSI = 0.25

// HSISlope is the slope of loss against the logarithm of the hop storage
// index, in percentage points per decade.
type HSISlope float64

// StandardHSISlope is the slope in use. The harvests measured were
// HSISlope1969 to HSISlope1977 (nickerson1979).
const (
	StandardHSISlope HSISlope = 110
	HSISlope1969     HSISlope = 101.8
	HSISlope1975     HSISlope = 111.3
	HSISlope1976     HSISlope = 114.5
	HSISlope1977     HSISlope = 114.6
)

// LossFromHSI returns the share of alpha and beta acids that hops with the
// given storage index have lost; take it for alpha acids as well.
//
//	loss = s · log10(HSI/0.25)
//
// Units: loss in %, s the slope.
//
//   - Source: nickerson1979, abstract, slopes of four harvests.
//   - Valid: HSI 0.25–1.
//   - Check: published rule, HSI 0.310 is 10 %; the formula gives 10.28 %.
//   - Tag: verified
func LossFromHSI(hsi float64, slope HSISlope) quantity.Fraction {
	return quantity.Percent(float64(slope) * math.Log10(hsi/freshHSI))
}

// HSIFromLoss returns the storage index of hops that have lost the given share.
//
//	HSI = 0.25 · 10^(loss/110)
//
// Units: loss in %.
//
//   - Source: nickerson1979, the inverse of [LossFromHSI] with the standard slope.
//   - Valid: losses of 0–65 %.
//   - Check: 0.4685 for 30 %.
//   - Tag: computed
func HSIFromLoss(loss quantity.Fraction) float64 {
	return freshHSI * math.Pow(10, loss.Percent()/float64(StandardHSISlope))
}

// HSI returns the hop storage index from the absorbances of the alkaline
// methanol solution of an extract.
//
//	HSI = A275/A325
//
// Units: none.
//
//   - Source: asbchops6, hops 6A and 12, and EBC 7.13.
//   - Valid: as the method says.
//   - Check: the definition.
//   - Tag: verified
func HSI(a275, a325 float64) float64 { return a275 / a325 }

// Packaging is how fast hops age in their package against hops lying loose in
// air. From memory of garetz1994; FactoryFlushed is practice.
type Packaging float64

// The packages.
const (
	LooseOrPlasticBag Packaging = 1.0
	BarrierWithAir    Packaging = 0.75
	BarrierInert      Packaging = 0.5  // vacuum or inert gas, packed at home
	FactoryFlushed    Packaging = 0.25 // sealed foil of the maker
)

// Stored is one stretch of storage.
type Stored struct {
	At  quantity.Temperature
	For quantity.Duration
	In  Packaging
}

// StorageRate returns the rate of loss of alpha acids at 20 °C in air of hops
// that lose the given share in six months.
//
//	k = −ln(1 − L6)/180
//
// Units: k in 1/day, L6 as a fraction.
//
//   - Source: garetz1994, from first-order loss of green1978.
//   - Valid: L6 from 0 to 0.7.
//   - Check: 0.002838/day for 40 %.
//   - Tag: verified
func StorageRate(sixMonthLoss quantity.Fraction) (perDay float64) {
	return -math.Log(1-float64(sixMonthLoss)) / 180
}

// StorageTemperatureFactor returns how fast hops age at temperature t against
// 20 °C: the rate halves per 15 K.
//
//	TF = 2^((T − 20)/15)
//
// Units: T in °C.
//
//   - Source: garetz1994, temperature factor, after Hough and others 1982 and Skinner 1977.
//   - Valid: −20 to 20 °C; carried on to 30 °C as an estimate.
//   - Check: 0.5 at 5 °C.
//   - Tag: verified
func StorageTemperatureFactor(t quantity.Temperature) float64 {
	return math.Exp2((t.Celsius() - 20) / 15)
}

// StorageValid is the range of [StorageTemperatureFactor], estimate included.
var StorageValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(-20), High: quantity.Celsius(30)}

// AlphaNow returns the alpha acids left after storage, from those at packing
// and the share lost in six months at 20 °C in air.
//
//	alpha = alpha0 · exp(−k · Σ TF·SF·days)    SF is the packaging
//
// Aroma fades faster; below RetentionToWarn say so. If only the crop year is
// known, the trade counts from 1 October (1 April south of the equator).
//
//   - Source: garetz1994, with first-order loss of green1978.
//   - Valid: as [StorageTemperatureFactor]; the loss classes are known to about ten points.
//   - Check: 10 % with a loss of 50 % in six months is 5.000 % after 180 days at 20 °C.
//   - Tag: verified
func AlphaNow(label, sixMonthLoss quantity.Fraction, history ...Stored) quantity.Fraction {
	days := 0.0
	for _, s := range history {
		days += StorageTemperatureFactor(s.At) * float64(s.In) * s.For.Days()
	}
	return label * quantity.Fraction(math.Exp(-StorageRate(sixMonthLoss)*days))
}

// RetentionToWarn is the share of alpha acids left below which the aroma of
// the hops is in doubt (practice).
const RetentionToWarn quantity.Fraction = 0.8

// A KeepingClass groups cultivars by how much alpha acid they lose in six
// months at 20 °C in air.
type KeepingClass struct {
	Name      string
	Loss      quantity.Span[quantity.Fraction]
	Cultivars []string
}

// KeepingClasses are the classes of keeping, from memory, good to about ten
// points. UnknownLoss is for any other cultivar.
var KeepingClasses = []KeepingClass{
	{"good", quantity.Span[quantity.Fraction]{Low: 0.10, High: 0.20},
		[]string{"Magnum", "Galena", "Cluster", "Northern Brewer", "Perle"}},
	{"medium", quantity.Span[quantity.Fraction]{Low: 0.20, High: 0.35},
		[]string{"Nugget", "Chinook", "Challenger", "Target", "First Gold", "Spalt"}},
	{"fair", quantity.Span[quantity.Fraction]{Low: 0.35, High: 0.45},
		[]string{"Centennial", "Fuggle", "Golding", "Willamette", "Tettnang", "Hersbruck", "Columbus"}},
	{"poor", quantity.Span[quantity.Fraction]{Low: 0.45, High: 0.60},
		[]string{"Cascade", "Saaz", "Hallertau Mittelfrueh", "Amarillo", "Mount Hood", "Liberty"}},
}

// UnknownLoss is the six-month loss assumed of a cultivar of unknown keeping.
const UnknownLoss quantity.Fraction = 0.40
