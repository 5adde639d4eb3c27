// SPDX-License-Identifier: MIT

package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Brix is the raw reading of a refractometer in °Bx. science/gravity turns it
// into extract with the factor for wort.
type Brix float64

var sgSpellings = "SG|sg|sp gr|specific gravity"

// readSG reads "1.0425", "1042.5" and "1,050".
func readSG(n number) (SG, *trouble) {
	if plausibleSG(n.value) {
		return SG(n.value), nil
	}
	if n.value >= 900 && n.value <= 1300 {
		return SG(n.shifted(-3)), nil
	}
	return 0, whichGravity(n)
}

// whichGravity explains that a number alone can't be a specific gravity.
func whichGravity(n number) *trouble {
	if n.value > 0 && n.value <= 130 {
		points := fmt.Sprintf("%.*f", max(3, 3+n.decimals()), 1+n.shifted(-3))
		return &trouble{
			fmt.Sprintf("on which scale? %s °P or %s?", n.text, points),
			fmt.Sprintf("write %q or %q", n.text+" °P", points),
		}
	}
	return &trouble{"it is no gravity of wort or beer", `write a specific gravity like "1.050" or a degree Plato like "12.4 °P"`}
}

// readPoints reads gravity points: 50 is 1.050.
func readPoints(n number) SG { return SG(1 + n.shifted(-3)) }

var sgKind = newKind(kind[SG]{
	what: "a specific gravity",
	units: []unit[SG]{
		{sgSpellings, func(n number) SG { return SG(n.value) }},
		{"points|point|pts|gravity points", readPoints},
	},
	refused: []refusal{{"°P|P|Plato|°Plato", func(n number) *trouble {
		return &trouble{"degrees Plato stand where a specific gravity is wanted", `write it like "1.050"`}
	}}, {brixSpellings, refuseBrix}},
	bare:     readSG,
	text:     func(s SG) string { return sgText(float64(s)) },
	position: func(s SG) float64 { return float64(s) },
	open:     func(_ SG, infinity float64) SG { return SG(infinity) },
	decimal:  true,
})

const brixSpellings = "°Bx|Bx|Brix|°Brix"

func refuseBrix(n number) *trouble {
	return &trouble{"a refractometer's °Bx has to be corrected for wort, and again for alcohol",
		fmt.Sprintf("write %q if it is extract", n.text+" °P")}
}

var platoKind = linear(kind[Plato]{
	what:    "an extract",
	units:   []unit[Plato]{{"°P|P|Plato|°Plato", times[Plato](1)}},
	refused: []refusal{{brixSpellings, refuseBrix}, {sgSpellings, refuseSG}},
	bare:    func(n number) (Plato, *trouble) { return 0, whichPlato(n) },
	text:    plain[Plato](" °P"),
})

func refuseSG(number) *trouble {
	return &trouble{"a specific gravity stands where degrees Plato are wanted", `write it like "12.4 °P"`}
}

func whichPlato(n number) *trouble {
	if plausibleSG(n.value) || n.value >= 900 {
		return refuseSG(n)
	}
	return &trouble{"the unit is missing", fmt.Sprintf("write %q", n.text+" °P")}
}

var brixKind = linear(kind[Brix]{
	what:  "a refractometer reading",
	units: []unit[Brix]{{brixSpellings, times[Brix](1)}},
	bare: func(n number) (Brix, *trouble) {
		if plausibleSG(n.value) || n.value > 90 {
			return 0, &trouble{"on which scale? °Bx or specific gravity?", `write it like "12.4 °Bx"`}
		}
		return Brix(n.value), nil
	},
	text: plain[Brix](" °Bx"),
})

var gravityKind = newKind(kind[Gravity]{
	what: "a gravity",
	units: []unit[Gravity]{
		{"°P|P|Plato|°Plato", func(n number) Gravity { return Gravity{n.value, ScalePlato} }},
		{sgSpellings, func(n number) Gravity { return Gravity{n.value, ScaleSG} }},
		{"points|point|pts|gravity points", func(n number) Gravity { return GravitySG(readPoints(n)) }},
	},
	refused: []refusal{{brixSpellings, refuseBrix}},
	bare: func(n number) (Gravity, *trouble) {
		s, fault := readSG(n)
		return GravitySG(s), fault
	},
	text: func(g Gravity) string {
		if g.Scale == ScalePlato {
			return decimal(g.Value) + " °P"
		}
		return sgText(g.Value)
	},
	position: func(g Gravity) float64 { return g.Value },
	open:     func(like Gravity, infinity float64) Gravity { return Gravity{infinity, like.Scale} },
	alone:    func(x float64) bool { return plausibleSG(x) || x >= 900 },
	decimal:  true,
})

func colorIn(scale ColorScale) func(number) Color {
	return func(n number) Color { return Color{n.value, scale} }
}

// whichColor explains that a colour needs its scale.
func whichColor(n number) *trouble {
	return &trouble{
		fmt.Sprintf("on which scale? %s EBC, %s SRM (%.3g EBC) or, for a malt, %s °L (%.3g EBC)?", n.text, n.text,
			float64(FromSRM(n.value)), n.text, float64(Color{n.value, ScaleLovibond}.EBC())),
		fmt.Sprintf("write %q, %q or %q", n.text+" EBC", n.text+" SRM", n.text+" °L"),
	}
}

// colorIsNoVolume explains that "10 L" is ten litres.
func colorIsNoVolume(n number) *trouble {
	return &trouble{
		fmt.Sprintf("is it %s litres or %s degrees Lovibond?", n.text, n.text),
		fmt.Sprintf("write %q", n.text+" °L"),
	}
}

var colorKind = newKind(kind[Color]{
	what: "a colour",
	units: []unit[Color]{
		{"EBC|°EBC", colorIn(ScaleEBC)},
		{"SRM|°SRM|ASBC", colorIn(ScaleSRM)},
		{"°L|°Lov|Lov|Lovibond|°Lovibond", colorIn(ScaleLovibond)},
	},
	refused: []refusal{{"L", colorIsNoVolume}},
	bare:    func(n number) (Color, *trouble) { return Color{}, whichColor(n) },
	text: func(c Color) string {
		return decimal(c.Value) + [...]string{" EBC", " SRM", " °L"}[c.Scale]
	},
	position: func(c Color) float64 {
		if math.IsInf(c.Value, 0) {
			return c.Value
		}
		return float64(c.EBC())
	},
	open: func(like Color, infinity float64) Color { return Color{infinity, like.Scale} },
})

var ebcKind = linear(kind[EBC]{
	what: "a colour",
	units: []unit[EBC]{
		{"EBC|°EBC", times[EBC](1)},
		{"SRM|°SRM|ASBC", of(FromSRM)},
		{"°L|°Lov|Lov|Lovibond|°Lovibond", func(n number) EBC { return Color{n.value, ScaleLovibond}.EBC() }},
	},
	refused: []refusal{{"L", colorIsNoVolume}},
	bare:    func(n number) (EBC, *trouble) { return 0, whichColor(n) },
	text:    plain[EBC](" EBC"),
})

var ibuKind = linear(kind[IBU]{
	what:  "a bitterness",
	units: []unit[IBU]{{"IBU|BU|EBU|IBUs", times[IBU](1)}},
	bare:  func(n number) (IBU, *trouble) { return IBU(n.value), nil },
	text:  plain[IBU](" IBU"),
})

var carbonationKind = linear(kind[Carbonation]{
	what: "a carbonation",
	units: []unit[Carbonation]{
		{"vol|vols|volume|volumes|v/v|vol CO2|volumes CO2|volumes of CO2", times[Carbonation](1)},
		{"g/L|g/L CO2|g CO2/L", of(CarbonationGrams)},
	},
	bare: func(n number) (Carbonation, *trouble) {
		if n.value == 0 {
			return 0, nil
		}
		return 0, &trouble{
			fmt.Sprintf("in which unit? %s volumes, or %s g/L (%.2f volumes)?", n.text, n.text, float64(CarbonationGrams(n.value))),
			fmt.Sprintf("write %q or %q", n.text+" vol", n.text+" g/L"),
		}
	},
	text: plain[Carbonation](" vol"),
})

var phKind = linear(kind[PH]{
	what:  "a pH",
	units: []unit[PH]{{"pH", times[PH](1)}},
	bare: func(n number) (PH, *trouble) {
		if n.value < -1 || n.value > 15 {
			return 0, &trouble{"it is no pH", "a pH lies between 0 and 14"}
		}
		return PH(n.value), nil
	},
	text: phText,
	tidy: withoutPH,
})

// phText writes a pH bare, or with its name where the number alone would be
// refused.
func phText(p PH) string {
	if p < -1 || p > 15 {
		return decimal(float64(p)) + " pH"
	}
	return decimal(float64(p))
}

// withoutPH takes away the name before the number: "pH 5.45".
func withoutPH(s string) string {
	if len(s) > 2 && (s[:2] == "pH" || s[:2] == "ph" || s[:2] == "PH") {
		return strings.TrimSpace(s[2:])
	}
	return s
}
