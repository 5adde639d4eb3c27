// SPDX-License-Identifier: MIT

package gyle

import (
	"fmt"
	"strings"

	"gyle/quantity"
)

// Spread returns the standard deviation of one reading of the instrument, in
// the unit that [Measured] has for what it reads; a temperature's is in K. It is
// zero where none is stated, and an error where it can't be read.
func (i Instrument) Spread() (float64, error) {
	if i.SD == "" {
		return 0, nil
	}
	var value float64
	var err error
	switch text := strings.TrimSpace(i.SD); i.Of {
	case OfTemperature:
		var w quantity.Warming
		w, err = quantity.ParseWarming(text)
		value = float64(w)
	case OfGravity, OfPH:
		var e quantity.Estimate
		if e, err = quantity.ParseEstimate(text); err != nil {
			var p quantity.Plato
			p, err = quantity.ParsePlato(text)
			e.Value = float64(p)
		}
		value = e.Value
	default:
		var m Measured
		m, err = ParseReading(text, i.Of)
		value = m.Value
	}
	if err == nil && value <= 0 {
		err = fmt.Errorf("read %q: a standard deviation is more than nothing", i.SD)
	}
	return value, err
}
