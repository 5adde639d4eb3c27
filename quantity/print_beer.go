// SPDX-License-Identifier: MIT

package quantity

import "strings"

// SG prints s: "1.050", "1.0425".
func (p Printer) SG(s SG) string {
	text := p.Number(float64(s), 4)
	return strings.TrimSuffix(text, "0")
}

// Plato prints an extract: "12.4 °P".
func (p Printer) Plato(e Plato) string { return p.with(float64(e), 1, "°P") }

// Brix prints a reading of a refractometer: "8.7 °Bx".
func (p Printer) Brix(b Brix) string { return p.with(float64(b), 1, "°Bx") }

// Gravity prints g on the scale it was written in.
func (p Printer) Gravity(g Gravity) string {
	if g.Scale == ScalePlato {
		return p.Plato(Plato(g.Value))
	}
	return p.SG(SG(g.Value))
}

// Color prints a colour on the scale it was written in: "35 EBC", "17.8 SRM",
// "60 °L". Pale colours get a decimal on every scale.
func (p Printer) Color(c Color) string {
	decimals := 1
	if (c.Scale == ScaleEBC && atLeast(c.Value, 20, 1)) || atLeast(c.Value, 50, 1) {
		decimals = 0
	}
	return p.with(c.Value, decimals, [...]string{"EBC", "SRM", "°L"}[c.Scale])
}

// EBC prints a colour of beer: "35 EBC"; "17.8 SRM" in America.
func (p Printer) EBC(c EBC) string {
	if p.american() {
		return p.Color(Color{c.SRM(), ScaleSRM})
	}
	return p.Color(Color{float64(c), ScaleEBC})
}

// IBU prints a bitterness: whole, with a decimal below 10.
func (p Printer) IBU(b IBU) string {
	if !atLeast(float64(b), 10, 1) {
		return p.with(float64(b), 1, "IBU")
	}
	return p.with(float64(b), 0, "IBU")
}

// Carbonation prints c: "2.4 vol (4.7 g/L)"; "2.4 vol" in America.
func (p Printer) Carbonation(c Carbonation) string {
	volumes := p.with(float64(c), 1, "vol")
	if p.american() {
		return volumes
	}
	return volumes + " (" + p.with(c.GramsPerLitre(), 1, "g/L") + ")"
}

// Fraction prints a share in percent with so many decimals.
func (p Printer) Fraction(f Fraction, decimals int) string { return p.with(f.Percent(), decimals, "%") }

// PH prints a pH: "5.45".
func (p Printer) PH(x PH) string { return p.Number(float64(x), 2) }

// Concentration prints c: "110 mg/L", with a decimal below 10 mg/L.
func (p Printer) Concentration(c Concentration) string {
	if !atLeast(float64(c), 10, 1) {
		return p.with(float64(c), 1, "mg/L")
	}
	return p.with(float64(c), 0, "mg/L")
}

// Charge prints c: "2.76 mEq/L".
func (p Printer) Charge(c Charge) string { return p.with(float64(c), 2, "mEq/L") }

// Dose prints d: "1.40 g/L", "4.0 g/hL" below 0.1 g/L; "0.19 oz/US gal".
func (p Printer) Dose(d Dose) string {
	switch {
	case p.american():
		return p.with(float64(d)*usGallonLitres/ounceGrams, 2, "oz/US gal")
	case d != 0 && !atLeast(float64(d), 0.1, 3):
		return p.with(float64(d)*100, 1, "g/hL")
	}
	return p.with(float64(d), 2, "g/L")
}

// Ratio prints r: "3.30 L/kg", "1.58 US qt/lb".
func (p Printer) Ratio(r Ratio) string {
	if p.american() {
		return p.with(float64(r)*poundKilograms*4/usGallonLitres, 2, "US qt/lb")
	}
	return p.with(float64(r), 2, "L/kg")
}

// OilContent prints o: "1.2 mL/100 g".
func (p Printer) OilContent(o OilContent) string { return p.with(float64(o), 1, "mL/100 g") }

// PitchRate prints r: "0.75 M/mL/°P".
func (p Printer) PitchRate(r PitchRate) string { return p.with(float64(r), 2, "M/mL/°P") }

// Pressure prints an absolute pressure: "1.88 bar abs", "27.3 psi abs".
func (p Printer) Pressure(x Pressure) string {
	if p.american() {
		return p.with(float64(x)/barPerPSI, 1, "psi abs")
	}
	return p.with(float64(x), 2, "bar abs")
}

// GaugePressure prints a pressure on the gauge: "0.80 bar", "11.6 psi".
func (p Printer) GaugePressure(x GaugePressure) string {
	if p.american() {
		return p.with(float64(x)/barPerPSI, 1, "psi")
	}
	return p.with(float64(x), 2, "bar")
}

// Power prints x: "2.40 kW".
func (p Printer) Power(x Power) string { return p.with(float64(x), 2, "kW") }

// HeatCapacity prints c: "3.0 kJ/K".
func (p Printer) HeatCapacity(c HeatCapacity) string { return p.with(float64(c), 1, "kJ/K") }

// MassFlow prints f: "0.10 kg/s", or kg/h below 0.01 kg/s, as an evaporation
// is told.
func (p Printer) MassFlow(f MassFlow) string {
	if f != 0 && !atLeast(float64(f), 0.01, 3) {
		return p.with(float64(f)*3600, 2, "kg/h")
	}
	return p.with(float64(f), 2, "kg/s")
}
