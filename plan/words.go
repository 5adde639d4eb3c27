// SPDX-License-Identifier: MIT

package plan

import "gyle/quantity"

// The sentences of a plan are put together from numbers as its reader writes
// them: with the decimal mark, and in the units, of Options.Reader.

func (w *work) number(x float64, decimals int) string { return w.in.Reader.Number(x, decimals) }

func (w *work) american() bool { return w.in.Reader.System == quantity.USCustomary }

func (w *work) litres(v quantity.Volume) string { return litresFor(w.in.Reader, v) }

func litresFor(reader quantity.Printer, v quantity.Volume) string {
	if reader.System == quantity.USCustomary {
		return reader.Volume(v)
	}
	return reader.Number(float64(v), 1) + " L"
}

// grain is a mass of grain in kg, coarsely.
func (w *work) grain(kilograms float64) string {
	if w.american() {
		return w.in.Reader.Mass(quantity.Mass(kilograms))
	}
	return w.number(kilograms, 1) + " kg"
}

func (w *work) grams(m quantity.Mass) string {
	if w.american() {
		return w.in.Reader.Mass(m)
	}
	return w.number(m.Grams(), 0) + " g"
}

func (w *work) kilograms(m quantity.Mass) string {
	if w.american() {
		return w.in.Reader.Mass(m)
	}
	return w.number(float64(m), 2) + " kg"
}

func (w *work) degrees(t quantity.Temperature, decimals int) string {
	if w.american() {
		return w.number(t.Fahrenheit(), decimals) + " °F"
	}
	return w.number(t.Celsius(), decimals) + " °C"
}

// colour prints a colour; it is SRM, which are larger, with a decimal at least.
func (w *work) colour(c quantity.EBC, decimals int) string {
	if w.american() {
		return w.number(c.SRM(), max(decimals, 1)) + " SRM"
	}
	return w.number(float64(c), decimals) + " EBC"
}

// bareColour is a colour that was aimed at, without its unit.
func (w *work) bareColour(c quantity.EBC) string {
	if w.american() {
		return w.number(c.SRM(), 1)
	}
	return w.number(float64(c), 0)
}

func (w *work) dose(d quantity.Dose, decimals int) string {
	if w.american() {
		return w.in.Reader.Dose(d)
	}
	return w.number(float64(d), decimals) + " g/L"
}

func (w *work) thickness(r quantity.Ratio) string {
	if w.american() {
		return w.in.Reader.Ratio(r)
	}
	return w.number(float64(r), 1) + " L/kg"
}

func (w *work) pressure(p quantity.Pressure) string {
	if w.american() {
		return w.in.Reader.Pressure(p)
	}
	return w.number(float64(p), 2) + " bar"
}
