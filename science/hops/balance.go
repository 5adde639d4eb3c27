// SPDX-License-Identifier: MIT

package hops

import "gyle/quantity"

// BUGU returns the bitterness per gravity point.
//
//	BU:GU = IBU / (1000·(OG − 1))
//
// Units: IBU per gravity point.
//
//   - Source: daniels1996, quoted in later texts.
//   - Valid: a convention, not a measurement.
//   - Check: 35 IBU, 1.052: 0.673.
//   - Tag: second-hand
func BUGU(b quantity.IBU, og quantity.SG) float64 { return float64(b) / og.Points() }

// meanADF is the mean apparent attenuation of a collection of styles.
const meanADF = 0.7655

// RelativeBitterness returns the bitterness per gravity point corrected for
// attenuation: a beer that finishes dry tastes more bitter.
//
//	RBR = BU:GU · (1 + (ADF − 0.7655))    ADF = (OG − FG)/(OG − 1)
//
// Units: IBU per gravity point; ADF has none.
//
//   - Source: practice, hobby literature of about 2009.
//   - Valid: a convention, not a measurement.
//   - Check: 35 IBU, 1.052 to 1.012: ADF 0.7692, RBR 0.6756.
//   - Tag: second-hand
func RelativeBitterness(b quantity.IBU, og, fg quantity.SG) float64 {
	return BUGU(b, og) * (1 + ApparentAttenuation(og, fg) - meanADF)
}

// ApparentAttenuation returns the share of the gravity points that are gone.
//
//	ADF = (OG − FG)/(OG − 1)
//
// Units: none.
//
//   - Source: practice, the definition.
//   - Valid: OG above 1.
//   - Check: 1.052 to 1.012: 0.7692.
//   - Tag: common practice
func ApparentAttenuation(og, fg quantity.SG) float64 {
	return float64(og-fg) / (float64(og) - 1)
}

// A BalanceBand names a range of bitterness per gravity point.
type BalanceBand struct {
	Name  string
	Range quantity.Span[float64]
}

// BalanceBands are the customary names of ranges of [BUGU]; they overlap.
var BalanceBands = []BalanceBand{
	{"sweet, malty", quantity.Span[float64]{Low: 0, High: 0.30}},
	{"leaning to malt", quantity.Span[float64]{Low: 0.30, High: 0.50}},
	{"pale ale", quantity.Span[float64]{Low: 0.45, High: 0.75}},
	{"India pale ale", quantity.Span[float64]{Low: 0.5, High: 0.9}},
	{"Pilsner", quantity.Span[float64]{Low: 0.6, High: 0.9}},
	{"double India pale ale", quantity.Span[float64]{Low: 0.65, High: 1.2}},
}

// Balanced is the ratio of bitterness commonly called balanced.
const Balanced = 0.5

// OilDose returns the hop oil dosed per volume, in mL/hL.
//
//	oil dose = D · oil
//
// Units: mL/hL; D in g/L, oil in mL/100 g.
//
//   - Source: derived, units.
//   - Valid: oil as analysed, before ageing.
//   - Check: 4 g/L of 1.5 mL/100 g: 6.0 mL/hL.
//   - Tag: computed
func OilDose(d quantity.Dose, oil quantity.OilContent) (millilitresPerHectolitre float64) {
	return float64(d) * float64(oil)
}

// DryHopOilTypical is the usual oil dose of a dry hop, in mL/hL (practice).
var DryHopOilTypical = quantity.Span[float64]{Low: 4, High: 15}

// SubstituteByAlpha returns the mass of other hops that gives the same
// bitterness at the same time.
//
//	m2 = m1 · alpha1/alpha2
//
// Units: masses in g, alpha as a fraction.
//
//   - Source: derived, equal alpha acids.
//   - Valid: same form, same time.
//   - Check: 139 g of 7.1 % for 7.9 %: 125 g.
//   - Tag: derived
func SubstituteByAlpha(m quantity.Mass, alpha, other quantity.Fraction) quantity.Mass {
	return m * quantity.Mass(alpha/other)
}

// SubstituteByOil returns the mass of other hops that doses the same oil; use
// it for late and dry hops.
//
//	m2 = m1 · oil1/oil2
//
// Units: masses in g, oil in mL/100 g.
//
//   - Source: derived, equal oil.
//   - Valid: says nothing of the kind of aroma.
//   - Check: 125 g of 0.9 for 0.7 mL/100 g: 161 g.
//   - Tag: derived
func SubstituteByOil(m quantity.Mass, oil, other quantity.OilContent) quantity.Mass {
	return m * quantity.Mass(oil/other)
}

// An AromaDose is a customary dose of hops for aroma.
type AromaDose struct {
	Name  string
	Range quantity.Span[quantity.Dose]
}

// AromaDoses are customary doses (practice). Stand means 70 to 90 °C.
var AromaDoses = []AromaDose{
	{"flavour, 20 to 10 min", quantity.Span[quantity.Dose]{Low: 0.3, High: 1.5}},
	{"stand, subtle", quantity.Span[quantity.Dose]{Low: 0.5, High: 1.5}},
	{"stand, marked", quantity.Span[quantity.Dose]{Low: 2, High: 4}},
	{"stand, heavy", quantity.Span[quantity.Dose]{Low: 5, High: 8}},
	{"dry hop, subtle", quantity.Span[quantity.Dose]{Low: 0.5, High: 2}},
	{"dry hop, marked", quantity.Span[quantity.Dose]{Low: 2, High: 5}},
	{"dry hop, heavy", quantity.Span[quantity.Dose]{Low: 5, High: 10}},
}

// A Soak is how much liquid spent hops keep.
type Soak struct {
	Name    string
	Typical quantity.Ratio
	Range   quantity.Span[quantity.Ratio]
}

// The soaks of practice. Only cones in the kettle rest on a weighed test;
// calibrate the dry hops by one weighed batch. Don't count pellets in the
// kettle in a fixed loss of trub as well.
var (
	KettleCones   = Soak{"whole cones in the kettle, drained", 6, quantity.Span[quantity.Ratio]{Low: 4.5, High: 10}}
	KettlePellets = Soak{"pellets in the kettle", 5, quantity.Span[quantity.Ratio]{Low: 3, High: 8}}
	BagPellets    = Soak{"pellets in a bag, drained", 4, quantity.Span[quantity.Ratio]{Low: 3, High: 6}}
	DryPellets    = Soak{"dry-hop pellets, racked off", 8, quantity.Span[quantity.Ratio]{Low: 5, High: 10}}
	DryCones      = Soak{"dry-hop cones", 8, quantity.Span[quantity.Ratio]{Low: 6, High: 12}}
)

// HotBreakLoss is the wort kept by wet hot break, mL per L of wort (handbook
// chapter on wort boiling: 200 to 400 g of wet trub per hL).
var HotBreakLoss = quantity.Span[float64]{Low: 2, High: 4}

// LostInHops returns the wort or beer that spent hops keep. It carries its
// share of everything dissolved, so only the volume changes.
//
//	V = m · a
//
// Units: V in L, m in kg, a in L/kg.
//
//   - Source: practice.
//   - Valid: as the ranges of the [Soak].
//   - Check: 100 g of dry-hop pellets keep 0.80 L.
//   - Tag: common practice
func LostInHops(m quantity.Mass, soak quantity.Ratio) quantity.Volume {
	return quantity.Volume(m.Kilograms() * float64(soak))
}
