// SPDX-License-Identifier: MIT

package quantity

// ParseSG reads a specific gravity: "1.0425", "1042.5", "50 points".
func ParseSG(s string) (SG, error) { return parse(sgKind, s) }

// String returns s as it is written in a document.
func (s SG) String() string { return sgKind.text(s) }

// MarshalText writes s canonically; [ParseSG] reads it back to the last bit.
func (s SG) MarshalText() ([]byte, error) { return marshal(sgKind, s) }

// UnmarshalText reads s as [ParseSG] does.
func (s *SG) UnmarshalText(text []byte) error { return unmarshal(sgKind, s, text) }

func (SG) kind() *kind[SG] { return sgKind }

// ParsePlato reads an extract: "12.4 °P".
func ParsePlato(s string) (Plato, error) { return parse(platoKind, s) }

// String returns p as it is written in a document.
func (p Plato) String() string { return platoKind.text(p) }

// MarshalText writes p canonically; [ParsePlato] reads it back to the last bit.
func (p Plato) MarshalText() ([]byte, error) { return marshal(platoKind, p) }

// UnmarshalText reads p as [ParsePlato] does.
func (p *Plato) UnmarshalText(text []byte) error { return unmarshal(platoKind, p, text) }

func (Plato) kind() *kind[Plato] { return platoKind }

// ParseBrix reads a refractometer reading: "8.7 °Bx".
func ParseBrix(s string) (Brix, error) { return parse(brixKind, s) }

// String returns b as it is written in a document.
func (b Brix) String() string { return brixKind.text(b) }

// MarshalText writes b canonically; [ParseBrix] reads it back to the last bit.
func (b Brix) MarshalText() ([]byte, error) { return marshal(brixKind, b) }

// UnmarshalText reads b as [ParseBrix] does.
func (b *Brix) UnmarshalText(text []byte) error { return unmarshal(brixKind, b, text) }

func (Brix) kind() *kind[Brix] { return brixKind }

// ParseGravity reads a gravity on either scale: "1.050", "12.4 °P".
func ParseGravity(s string) (Gravity, error) { return parse(gravityKind, s) }

// String returns g as it is written in a document.
func (g Gravity) String() string { return gravityKind.text(g) }

// MarshalText writes g canonically; [ParseGravity] reads it back to the last bit.
func (g Gravity) MarshalText() ([]byte, error) { return marshal(gravityKind, g) }

// UnmarshalText reads g as [ParseGravity] does.
func (g *Gravity) UnmarshalText(text []byte) error { return unmarshal(gravityKind, g, text) }

func (Gravity) kind() *kind[Gravity] { return gravityKind }

// ParseColor reads a colour on any scale: "35 EBC", "17.8 SRM", "60 °L".
func ParseColor(s string) (Color, error) { return parse(colorKind, s) }

// String returns c as it is written in a document.
func (c Color) String() string { return colorKind.text(c) }

// MarshalText writes c canonically; [ParseColor] reads it back to the last bit.
func (c Color) MarshalText() ([]byte, error) { return marshal(colorKind, c) }

// UnmarshalText reads c as [ParseColor] does.
func (c *Color) UnmarshalText(text []byte) error { return unmarshal(colorKind, c, text) }

func (Color) kind() *kind[Color] { return colorKind }

// ParseEBC reads a colour and converts it to EBC.
func ParseEBC(s string) (EBC, error) { return parse(ebcKind, s) }

// String returns c as it is written in a document.
func (c EBC) String() string { return ebcKind.text(c) }

// MarshalText writes c canonically; [ParseEBC] reads it back to the last bit.
func (c EBC) MarshalText() ([]byte, error) { return marshal(ebcKind, c) }

// UnmarshalText reads c as [ParseEBC] does.
func (c *EBC) UnmarshalText(text []byte) error { return unmarshal(ebcKind, c, text) }

func (EBC) kind() *kind[EBC] { return ebcKind }

// ParseIBU reads a bitterness: "29 IBU", "29".
func ParseIBU(s string) (IBU, error) { return parse(ibuKind, s) }

// String returns b as it is written in a document.
func (b IBU) String() string { return ibuKind.text(b) }

// MarshalText writes b canonically; [ParseIBU] reads it back to the last bit.
func (b IBU) MarshalText() ([]byte, error) { return marshal(ibuKind, b) }

// UnmarshalText reads b as [ParseIBU] does.
func (b *IBU) UnmarshalText(text []byte) error { return unmarshal(ibuKind, b, text) }

func (IBU) kind() *kind[IBU] { return ibuKind }

// ParseCarbonation reads a carbonation: "2.4 vol", "4.7 g/L".
func ParseCarbonation(s string) (Carbonation, error) { return parse(carbonationKind, s) }

// String returns c as it is written in a document.
func (c Carbonation) String() string { return carbonationKind.text(c) }

// MarshalText writes c canonically; [ParseCarbonation] reads it back to the last bit.
func (c Carbonation) MarshalText() ([]byte, error) { return marshal(carbonationKind, c) }

// UnmarshalText reads c as [ParseCarbonation] does.
func (c *Carbonation) UnmarshalText(text []byte) error { return unmarshal(carbonationKind, c, text) }

func (Carbonation) kind() *kind[Carbonation] { return carbonationKind }

// ParsePH reads a pH: "5.45", "pH 5.45".
func ParsePH(s string) (PH, error) { return parse(phKind, s) }

// String returns p as it is written in a document.
func (p PH) String() string { return phKind.text(p) }

// MarshalText writes p canonically; [ParsePH] reads it back to the last bit.
func (p PH) MarshalText() ([]byte, error) { return marshal(phKind, p) }

// UnmarshalText reads p as [ParsePH] does.
func (p *PH) UnmarshalText(text []byte) error { return unmarshal(phKind, p, text) }

func (PH) kind() *kind[PH] { return phKind }
