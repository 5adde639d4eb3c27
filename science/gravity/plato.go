// SPDX-License-Identifier: MIT

package gravity

import (
	"math"

	"gyle/quantity"
)

// GravityValid is the range of [PlatoFromSG]: 0 to 40 °P, and dry beers a
// little below 1, where the cubic is a smooth continuation.
var GravityValid = quantity.Span[quantity.SG]{Low: 0.990, High: 1.17874}

// ASBCValid is the range of the table behind [PlatoFromSGASBC].
var ASBCValid = quantity.Span[quantity.SG]{Low: 1.000, High: 1.083}

// PlatoFromSG returns the extract of a wort of apparent gravity s, by the cubic
// of the National Bureau of Standards. It is the default of the program.
//
//	P = ((182.46007·S − 775.68212)·S + 1262.7794)·S − 669.56218
//	P in % by mass (°P), S apparent SG 20/20 °C
//
// It does not return 0 for pure water but −0.005; see [PlatoFromSGZeroed].
//
//   - Source: nbsc440, Table 114, as fitted in public texts.
//   - Valid: SG 1.000 to 1.17874 (0 to 40 °P), continued down to 0.990.
//   - Check: eight rows of usda135a50 within 0.004 °P; [PlatoFromSGASBC] within
//     0.0018 °P up to 20 °P.
//   - Tag: second-hand
func PlatoFromSG(s quantity.SG) quantity.Plato {
	return nbs.plato(s)
}

// SGFromPlato returns the apparent gravity of a wort of p: the inverse of
// [PlatoFromSG], so that there and back is the same number.
//
//	P(S) = p, solved by Newton's method from SGFromPlatoRational(p)
//
// Units: p in °P, S apparent SG 20/20 °C.
//
//   - Source: nbsc440, Table 114, as fitted in public texts.
//   - Valid: −3 to 40 °P.
//   - Check: 0.10 to 8.90 °P of usda135a50; there and back within 1e-10.
//   - Tag: computed
func SGFromPlato(p quantity.Plato) quantity.SG {
	return nbs.sg(p)
}

// SGOf returns a written gravity as apparent SG 20/20 °C.
func SGOf(g quantity.Gravity) quantity.SG {
	if g.Scale == quantity.ScalePlato {
		return SGFromPlato(quantity.Plato(g.Value))
	}
	return quantity.SG(g.Value)
}

// PlatoOf returns a written gravity in degrees Plato.
func PlatoOf(g quantity.Gravity) quantity.Plato {
	if g.Scale == quantity.ScalePlato {
		return quantity.Plato(g.Value)
	}
	return PlatoFromSG(quantity.SG(g.Value))
}

// PlatoFromSGZeroed is [PlatoFromSG] with its residual at pure water taken
// away, for displays that must say 0 °P at 1.000.
//
//	P = PlatoFromSG(S) − PlatoFromSG(1) · exp(−|S − 1|/0.002)
//
// Units: P in °P.
//
//   - Source: derived, residual of the cubic at S = 1 (−0.0048 °P).
//   - Valid: SG 0.990 to 1.17874.
//   - Check: 0 at S = 1; less than 0.00004 °P from the cubic beyond 1.010.
//   - Tag: derived
func PlatoFromSGZeroed(s quantity.SG) quantity.Plato {
	fade := math.Exp(-math.Abs(float64(s)-1) / 0.002)
	return PlatoFromSG(s) - PlatoFromSG(1)*quantity.Plato(fade)
}

// PlatoFromSGASBC returns the extract by the cubic through the table of the
// American Society of Brewing Chemists.
//
//	P = ((135.997·S − 630.272)·S + 1111.14)·S − 616.868
//	P in °P, S apparent SG 20/20 °C
//
// Beyond its table it drifts low: −0.005 °P at 1.100, −0.025 at 1.130.
//
//   - Source: asbc, polynomial of the Plato table, as quoted by A. J. deLange.
//   - Valid: SG 1.000 to 1.083.
//   - Check: root mean square 0.00061 °P from the table; 1.048 gives 11.912 °P.
//   - Tag: second-hand
func PlatoFromSGASBC(s quantity.SG) quantity.Plato {
	return asbc.plato(s)
}

// SGFromPlatoASBC returns the inverse of [PlatoFromSGASBC].
//
//	PlatoFromSGASBC(S) = p, solved by Newton's method
//
// Units: p in °P, S apparent SG 20/20 °C.
//
//   - Source: asbc, polynomial of the Plato table, as quoted by A. J. deLange.
//   - Valid: 0 to 20 °P.
//   - Check: there and back within 1e-10.
//   - Tag: computed
func SGFromPlatoASBC(p quantity.Plato) quantity.SG {
	return asbc.sg(p)
}

// PlatoFromSGNBSRational returns the extract by the three-term form that was
// fitted to the same table as [PlatoFromSG].
//
//	P = 28.14203·S + 202.4427 − 230.5870/S
//
// Units: P in °P, S apparent SG 20/20 °C.
//
//   - Source: nbsc440, Table 114, as fitted in public texts.
//   - Valid: SG 1.000 to 1.17874.
//   - Check: within 0.004 °P of [PlatoFromSG] up to 38 °P, 0.0075 at 40 °P.
//   - Tag: second-hand
func PlatoFromSGNBSRational(s quantity.SG) quantity.Plato {
	S := float64(s)
	return quantity.Plato(28.14203*S + 202.4427 - 230.5870/S)
}

// PlatoFromSGBuhl returns the extract by Buhl's one-parameter form, which
// follows from ideal mixing of water and extract.
//
//	P = 260.4 − 260.4/S
//
// Units: P in °P, S apparent SG 20/20 °C.
//
//   - Source: buhl2023, abstract.
//   - Valid: SG 1.000 to 1.083.
//   - Check: within 0.05 °P of [PlatoFromSGASBC] (root mean square 0.023).
//   - Tag: verified
func PlatoFromSGBuhl(s quantity.SG) quantity.Plato {
	return quantity.Plato(260.4 - 260.4/float64(s))
}

// PlatoFromSGBuhlCubic returns the extract by Buhl's cubic.
//
//	P = ((133.5892·S − 622.5576)·S + 1102.9079)·S − 613.9427
//
// Units: P in °P, S apparent SG 20/20 °C.
//
//   - Source: buhl2023, cubic; the last constant from memory.
//   - Valid: SG 1.000 to 1.083.
//   - Check: within 0.0007 °P of [PlatoFromSGASBC]; 0.00053 on average, as published.
//   - Tag: second-hand
func PlatoFromSGBuhlCubic(s quantity.SG) quantity.Plato {
	return cubic{133.5892, -622.5576, 1102.9079, -613.9427}.plato(s)
}

// PlatoFromSGDeClerck returns the extract by De Clerck's quadratic.
//
//	P = 668.72·S − 463.37 − 205.347·S²
//
// Units: P in °P, S apparent SG 20/20 °C.
//
//   - Source: declerck1957, as cited in an archived brewing text.
//   - Valid: SG 1.000 to 1.090.
//   - Check: within 0.008 °P of [PlatoFromSG] up to 20 °P, 0.1 at 30 °P.
//   - Tag: second-hand
func PlatoFromSGDeClerck(s quantity.SG) quantity.Plato {
	S := float64(s)
	return quantity.Plato((-205.347*S+668.72)*S - 463.37)
}

// SGFromPlatoRational returns the gravity by the short rational form in
// general use.
//
//	S = 1 + P/(258.6 − 227.1/258.2·P)
//
// Units: P in °P, S apparent SG 20/20 °C.
//
//   - Source: practice, quoted widely without author.
//   - Valid: 0 to 30 °P.
//   - Check: within 0.0035 °P of [PlatoFromSGASBC] up to 20 °P; of [PlatoFromSG]
//     within 0.005 °P there and 0.0125 °P at 30 °P.
//   - Tag: second-hand
func SGFromPlatoRational(p quantity.Plato) quantity.SG {
	P := float64(p)
	return quantity.SG(1 + P/(258.6-227.1/258.2*P))
}

// A cubic turns SG into °P: ((a·S + b)·S + c)·S + d.
type cubic struct{ a, b, c, d float64 }

var (
	nbs  = cubic{182.46007, -775.68212, 1262.7794, -669.56218}
	asbc = cubic{135.997, -630.272, 1111.14, -616.868}
)

func (q cubic) plato(s quantity.SG) quantity.Plato {
	S := float64(s)
	return quantity.Plato(((q.a*S+q.b)*S+q.c)*S + q.d)
}

// sg inverts plato by Newton's method; three steps reach the last digit.
func (q cubic) sg(p quantity.Plato) quantity.SG {
	S := float64(SGFromPlatoRational(p))
	for range 20 {
		slope := (3*q.a*S+2*q.b)*S + q.c
		step := (float64(q.plato(quantity.SG(S))) - float64(p)) / slope
		S -= step
		if math.Abs(step) < 1e-13 {
			break
		}
	}
	return quantity.SG(S)
}
