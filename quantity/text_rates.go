// SPDX-License-Identifier: MIT

package quantity

// ParseRate reads a rate: "0.012 /min".
func ParseRate(s string) (Rate, error) { return parse(rateKind, s) }

// String returns r as it is written in a document.
func (r Rate) String() string { return rateKind.text(r) }

// MarshalText writes r canonically; [ParseRate] reads it back to the last bit.
func (r Rate) MarshalText() ([]byte, error) { return marshal(rateKind, r) }

// UnmarshalText reads r as [ParseRate] does.
func (r *Rate) UnmarshalText(text []byte) error { return unmarshal(rateKind, r, text) }

func (Rate) kind() *kind[Rate] { return rateKind }

// ParseFraction reads a share: "3.7 %".
func ParseFraction(s string) (Fraction, error) { return parse(fractionKind, s) }

// String returns f as it is written in a document.
func (f Fraction) String() string { return fractionKind.text(f) }

// MarshalText writes f canonically; [ParseFraction] reads it back to the last bit.
func (f Fraction) MarshalText() ([]byte, error) { return marshal(fractionKind, f) }

// UnmarshalText reads f as [ParseFraction] does.
func (f *Fraction) UnmarshalText(text []byte) error { return unmarshal(fractionKind, f, text) }

func (Fraction) kind() *kind[Fraction] { return fractionKind }

// ParseConcentration reads a concentration: "110 mg/L", "110 ppm".
func ParseConcentration(s string) (Concentration, error) { return parse(concentrationKind, s) }

// String returns c as it is written in a document.
func (c Concentration) String() string { return concentrationKind.text(c) }

// MarshalText writes c canonically; [ParseConcentration] reads it back to the last bit.
func (c Concentration) MarshalText() ([]byte, error) { return marshal(concentrationKind, c) }

// UnmarshalText reads c as [ParseConcentration] does.
func (c *Concentration) UnmarshalText(text []byte) error {
	return unmarshal(concentrationKind, c, text)
}

func (Concentration) kind() *kind[Concentration] { return concentrationKind }

// ParseCharge reads a charge or an alkalinity: "2.76 mEq/L", "138 mg/L CaCO3".
func ParseCharge(s string) (Charge, error) { return parse(chargeKind, s) }

// String returns c as it is written in a document.
func (c Charge) String() string { return chargeKind.text(c) }

// MarshalText writes c canonically; [ParseCharge] reads it back to the last bit.
func (c Charge) MarshalText() ([]byte, error) { return marshal(chargeKind, c) }

// UnmarshalText reads c as [ParseCharge] does.
func (c *Charge) UnmarshalText(text []byte) error { return unmarshal(chargeKind, c, text) }

func (Charge) kind() *kind[Charge] { return chargeKind }

// ParseDose reads a dose: "1.5 g/L", "4 g/hL".
func ParseDose(s string) (Dose, error) { return parse(doseKind, s) }

// String returns d as it is written in a document.
func (d Dose) String() string { return doseKind.text(d) }

// MarshalText writes d canonically; [ParseDose] reads it back to the last bit.
func (d Dose) MarshalText() ([]byte, error) { return marshal(doseKind, d) }

// UnmarshalText reads d as [ParseDose] does.
func (d *Dose) UnmarshalText(text []byte) error { return unmarshal(doseKind, d, text) }

func (Dose) kind() *kind[Dose] { return doseKind }

// ParseRatio reads a volume per mass: "3.3 L/kg".
func ParseRatio(s string) (Ratio, error) { return parse(ratioKind, s) }

// String returns r as it is written in a document.
func (r Ratio) String() string { return ratioKind.text(r) }

// MarshalText writes r canonically; [ParseRatio] reads it back to the last bit.
func (r Ratio) MarshalText() ([]byte, error) { return marshal(ratioKind, r) }

// UnmarshalText reads r as [ParseRatio] does.
func (r *Ratio) UnmarshalText(text []byte) error { return unmarshal(ratioKind, r, text) }

func (Ratio) kind() *kind[Ratio] { return ratioKind }

// ParseOilContent reads an oil content: "1.2 mL/100 g".
func ParseOilContent(s string) (OilContent, error) { return parse(oilContentKind, s) }

// String returns o as it is written in a document.
func (o OilContent) String() string { return oilContentKind.text(o) }

// MarshalText writes o canonically; [ParseOilContent] reads it back to the last bit.
func (o OilContent) MarshalText() ([]byte, error) { return marshal(oilContentKind, o) }

// UnmarshalText reads o as [ParseOilContent] does.
func (o *OilContent) UnmarshalText(text []byte) error { return unmarshal(oilContentKind, o, text) }

func (OilContent) kind() *kind[OilContent] { return oilContentKind }

// ParsePitchRate reads a pitching rate: "0.75 M/mL/°P".
func ParsePitchRate(s string) (PitchRate, error) { return parse(pitchRateKind, s) }

// String returns p as it is written in a document.
func (p PitchRate) String() string { return pitchRateKind.text(p) }

// MarshalText writes p canonically; [ParsePitchRate] reads it back to the last bit.
func (p PitchRate) MarshalText() ([]byte, error) { return marshal(pitchRateKind, p) }

// UnmarshalText reads p as [ParsePitchRate] does.
func (p *PitchRate) UnmarshalText(text []byte) error { return unmarshal(pitchRateKind, p, text) }

func (PitchRate) kind() *kind[PitchRate] { return pitchRateKind }

// ParsePressure reads an absolute pressure: "1.013 bar abs", "1013 hPa".
func ParsePressure(s string) (Pressure, error) { return parse(pressureKind, s) }

// String returns p as it is written in a document.
func (p Pressure) String() string { return pressureKind.text(p) }

// MarshalText writes p canonically; [ParsePressure] reads it back to the last bit.
func (p Pressure) MarshalText() ([]byte, error) { return marshal(pressureKind, p) }

// UnmarshalText reads p as [ParsePressure] does.
func (p *Pressure) UnmarshalText(text []byte) error { return unmarshal(pressureKind, p, text) }

func (Pressure) kind() *kind[Pressure] { return pressureKind }

// ParseGaugePressure reads a pressure on the gauge: "0.8 bar", "12 psi".
func ParseGaugePressure(s string) (GaugePressure, error) { return parse(gaugePressureKind, s) }

// String returns p as it is written in a document.
func (p GaugePressure) String() string { return gaugePressureKind.text(p) }

// MarshalText writes p canonically; [ParseGaugePressure] reads it back to the last bit.
func (p GaugePressure) MarshalText() ([]byte, error) { return marshal(gaugePressureKind, p) }

// UnmarshalText reads p as [ParseGaugePressure] does.
func (p *GaugePressure) UnmarshalText(text []byte) error {
	return unmarshal(gaugePressureKind, p, text)
}

func (GaugePressure) kind() *kind[GaugePressure] { return gaugePressureKind }

// ParsePower reads a power: "2.4 kW".
func ParsePower(s string) (Power, error) { return parse(powerKind, s) }

// String returns p as it is written in a document.
func (p Power) String() string { return powerKind.text(p) }

// MarshalText writes p canonically; [ParsePower] reads it back to the last bit.
func (p Power) MarshalText() ([]byte, error) { return marshal(powerKind, p) }

// UnmarshalText reads p as [ParsePower] does.
func (p *Power) UnmarshalText(text []byte) error { return unmarshal(powerKind, p, text) }

func (Power) kind() *kind[Power] { return powerKind }

// ParseHeatCapacity reads a heat capacity: "3.0 kJ/K".
func ParseHeatCapacity(s string) (HeatCapacity, error) { return parse(heatCapacityKind, s) }

// String returns h as it is written in a document.
func (h HeatCapacity) String() string { return heatCapacityKind.text(h) }

// MarshalText writes h canonically; [ParseHeatCapacity] reads it back to the last bit.
func (h HeatCapacity) MarshalText() ([]byte, error) { return marshal(heatCapacityKind, h) }

// UnmarshalText reads h as [ParseHeatCapacity] does.
func (h *HeatCapacity) UnmarshalText(text []byte) error { return unmarshal(heatCapacityKind, h, text) }

func (HeatCapacity) kind() *kind[HeatCapacity] { return heatCapacityKind }

// ParseMassFlow reads a flow of mass: "0.10 kg/s".
func ParseMassFlow(s string) (MassFlow, error) { return parse(massFlowKind, s) }

// String returns m as it is written in a document.
func (m MassFlow) String() string { return massFlowKind.text(m) }

// MarshalText writes m canonically; [ParseMassFlow] reads it back to the last bit.
func (m MassFlow) MarshalText() ([]byte, error) { return marshal(massFlowKind, m) }

// UnmarshalText reads m as [ParseMassFlow] does.
func (m *MassFlow) UnmarshalText(text []byte) error { return unmarshal(massFlowKind, m, text) }

func (MassFlow) kind() *kind[MassFlow] { return massFlowKind }
