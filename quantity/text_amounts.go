// SPDX-License-Identifier: MIT

package quantity

// ParseTemperature reads a temperature: "67 °C", "152 F".
func ParseTemperature(s string) (Temperature, error) { return parse(temperatureKind, s) }

// String returns t as it is written in a document.
func (t Temperature) String() string { return temperatureKind.text(t) }

// MarshalText writes t canonically; [ParseTemperature] reads it back to the last bit.
func (t Temperature) MarshalText() ([]byte, error) { return marshal(temperatureKind, t) }

// UnmarshalText reads t as [ParseTemperature] does.
func (t *Temperature) UnmarshalText(text []byte) error { return unmarshal(temperatureKind, t, text) }

func (Temperature) kind() *kind[Temperature] { return temperatureKind }

// ParseWarming reads a difference of temperatures: "1.3 K".
func ParseWarming(s string) (Warming, error) { return parse(warmingKind, s) }

// String returns d as it is written in a document.
func (d Warming) String() string { return warmingKind.text(d) }

// MarshalText writes d canonically; [ParseWarming] reads it back to the last bit.
func (d Warming) MarshalText() ([]byte, error) { return marshal(warmingKind, d) }

// UnmarshalText reads d as [ParseWarming] does.
func (d *Warming) UnmarshalText(text []byte) error { return unmarshal(warmingKind, d, text) }

func (Warming) kind() *kind[Warming] { return warmingKind }

// ParseMass reads a mass: "4.95 kg", "35 g", "1 lb 4 oz".
func ParseMass(s string) (Mass, error) { return parse(massKind, s) }

// String returns m as it is written in a document.
func (m Mass) String() string { return massKind.text(m) }

// MarshalText writes m canonically; [ParseMass] reads it back to the last bit.
func (m Mass) MarshalText() ([]byte, error) { return marshal(massKind, m) }

// UnmarshalText reads m as [ParseMass] does.
func (m *Mass) UnmarshalText(text []byte) error { return unmarshal(massKind, m, text) }

func (Mass) kind() *kind[Mass] { return massKind }

// ParseVolume reads a volume: "22 L", "5 US gal"; a number alone is litres.
func ParseVolume(s string) (Volume, error) { return parse(volumeKind, s) }

// String returns v as it is written in a document.
func (v Volume) String() string { return volumeKind.text(v) }

// MarshalText writes v canonically; [ParseVolume] reads it back to the last bit.
func (v Volume) MarshalText() ([]byte, error) { return marshal(volumeKind, v) }

// UnmarshalText reads v as [ParseVolume] does.
func (v *Volume) UnmarshalText(text []byte) error { return unmarshal(volumeKind, v, text) }

func (Volume) kind() *kind[Volume] { return volumeKind }

// ParseDuration reads a time: "75 min", "1 h 15 min", "3 d".
func ParseDuration(s string) (Duration, error) { return parse(durationKind, s) }

// String returns d as it is written in a document.
func (d Duration) String() string { return durationKind.text(d) }

// MarshalText writes d canonically; [ParseDuration] reads it back to the last bit.
func (d Duration) MarshalText() ([]byte, error) { return marshal(durationKind, d) }

// UnmarshalText reads d as [ParseDuration] does.
func (d *Duration) UnmarshalText(text []byte) error { return unmarshal(durationKind, d, text) }

func (Duration) kind() *kind[Duration] { return durationKind }

// ParseLength reads a length or an altitude: "850 m".
func ParseLength(s string) (Length, error) { return parse(lengthKind, s) }

// String returns l as it is written in a document.
func (l Length) String() string { return lengthKind.text(l) }

// MarshalText writes l canonically; [ParseLength] reads it back to the last bit.
func (l Length) MarshalText() ([]byte, error) { return marshal(lengthKind, l) }

// UnmarshalText reads l as [ParseLength] does.
func (l *Length) UnmarshalText(text []byte) error { return unmarshal(lengthKind, l, text) }

func (Length) kind() *kind[Length] { return lengthKind }
