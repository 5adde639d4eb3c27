// SPDX-License-Identifier: MIT

package quantity

import (
	"fmt"
	"math"
	"strings"
)

// plusMinus are the ways to write the sign before a standard deviation.
var plusMinus = []string{"±", "+/-", "+-"}

func cutPlusMinus(s string) (value, sd string, found bool) {
	for _, sign := range plusMinus {
		if value, sd, found = strings.Cut(s, sign); found {
			return strings.TrimSpace(value), strings.TrimSpace(sd), true
		}
	}
	return s, "", false
}

// readEstimate reads "value ± sd", the unit once or twice.
func readEstimate[T any](k *kind[T], s string) (value, sd T, fault *trouble) {
	valueText, sdText, found := cutPlusMinus(s)
	if !found {
		value, fault = k.read(s)
		return value, sd, fault
	}
	if sd, fault = k.read(sdText); fault != nil {
		return value, sd, fault
	}
	if k.position(sd) < 0 || math.Signbit(k.position(sd)) {
		return value, sd, &trouble{"a standard deviation can't be negative", ""}
	}
	value, fault = k.read(k.borrowUnit(valueText, sdText))
	return value, sd, fault
}

// ParseEstimate reads "0.94 ± 0.08", also "0.94 +- 0.08" and "0.94 +/- 0.08".
// A number alone has an SD of zero.
func ParseEstimate(s string) (Estimate, error) {
	value, sd, fault := readEstimate(numbers, clean(s))
	if fault != nil {
		return Estimate{}, fault.in(s, "a number with its standard deviation")
	}
	return Estimate{value, sd}, nil
}

// ParseFractionEstimate reads "76 ± 2 %".
func ParseFractionEstimate(s string) (FractionEstimate, error) {
	value, sd, fault := readEstimate(fractionKind, clean(s))
	if fault != nil {
		return FractionEstimate{}, fault.in(s, "a share with its standard deviation")
	}
	return FractionEstimate{value, sd}, nil
}

// Estimate returns e as an estimate of plain numbers between 0 and 1.
func (e FractionEstimate) Estimate() Estimate { return Estimate{float64(e.Value), float64(e.SD)} }

// Band returns the band of e.
func (e Estimate) Band() Band { return BandOf(e.Value, e.SD) }

// String returns e as it is written in a document.
func (e Estimate) String() string {
	if same(e.SD, 0) {
		return decimal(e.Value)
	}
	return decimal(e.Value) + " ± " + decimal(e.SD)
}

// String returns e as it is written in a document.
func (e FractionEstimate) String() string {
	value, sd := percentText(float64(e.Value)), percentText(float64(e.SD))
	if same(float64(e.SD), 0) {
		return value
	}
	return strings.TrimSuffix(value, " %") + " ± " + sd
}

// writeEstimate checks that the numbers can be read back.
func writeEstimate(value, sd float64, text string) ([]byte, error) {
	if math.IsNaN(value+sd) || math.IsInf(value, 0) || math.IsInf(sd, 0) || math.Signbit(sd) {
		return nil, fmt.Errorf("write an estimate: %v ± %v is none", value, sd)
	}
	return []byte(text), nil
}

// MarshalText writes e canonically.
func (e Estimate) MarshalText() ([]byte, error) { return writeEstimate(e.Value, e.SD, e.String()) }

// MarshalText writes e canonically.
func (e FractionEstimate) MarshalText() ([]byte, error) {
	return writeEstimate(float64(e.Value), float64(e.SD), e.String())
}

// UnmarshalText reads e as [ParseEstimate] does.
func (e *Estimate) UnmarshalText(text []byte) error {
	read, err := ParseEstimate(string(text))
	if err == nil {
		*e = read
	}
	return err
}

// UnmarshalText reads e as [ParseFractionEstimate] does.
func (e *FractionEstimate) UnmarshalText(text []byte) error {
	read, err := ParseFractionEstimate(string(text))
	if err == nil {
		*e = read
	}
	return err
}
