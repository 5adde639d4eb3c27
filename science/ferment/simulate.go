// SPDX-License-Identifier: MIT

package ferment

import (
	"math"

	"gyle/quantity"
)

// The models of this file are for teaching and for playing with "what if":
// their constants come from one laboratory's yeast and wort each, second-hand.
// No plan is made from them.

// step advances the state of a set of differential equations by one step of the
// classical Runge–Kutta method.
func step[S interface{ ~[]float64 }](state S, h float64, slope func(S) S) S {
	k1 := slope(state)
	k2 := slope(moved(state, k1, h/2))
	k3 := slope(moved(state, k2, h/2))
	k4 := slope(moved(state, k3, h))
	next := make(S, len(state))
	for i := range state {
		next[i] = state[i] + h/6*(k1[i]+2*k2[i]+2*k3[i]+k4[i])
	}
	return next
}

func moved[S interface{ ~[]float64 }](state, slope S, h float64) S {
	next := make(S, len(state))
	for i := range state {
		next[i] = state[i] + h*slope[i]
	}
	return next
}

// simulationStep is the step of both models in h. The last glucose of Gee and
// Ramirez goes within a minute at 16 °C, and longer steps would overshoot zero.
const simulationStep = 0.01

// march runs a model for a number of hours. Whenever a step has passed, it asks
// whether the model has run out of food.
func march(state []float64, hours float64, slope func(at float64, s []float64) []float64, done func([]float64) bool) []float64 {
	steps := int(math.Ceil(hours/simulationStep - 1e-9))
	if steps <= 0 {
		return state
	}
	h := hours / float64(steps)
	for i := range steps {
		if done(state) {
			break
		}
		middle := (float64(i) + 0.5) * h // temperature is taken as constant within a step
		state = step(state, h, func(s []float64) []float64 { return slope(middle, s) })
	}
	return state
}

// TemperatureAt is the temperature of a gyle at a time since pitching.
type TemperatureAt func(quantity.Duration) quantity.Temperature

// Constantly returns a temperature that does not change.
func Constantly(t quantity.Temperature) TemperatureAt {
	return func(quantity.Duration) quantity.Temperature { return t }
}

// AndresToro is a state of the model of de Andrés-Toro and others, in g/L
// except the two aroma compounds, which are in ppm.
type AndresToro struct {
	LagCells, ActiveCells, DeadCells float64 // g/L
	Sugar, Ethanol                   float64 // g/L
	Diacetyl, EthylAcetate           float64 // ppm
}

// AndresToroValid is the range of temperatures of the model's trials.
var AndresToroValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(8), High: quantity.Celsius(24)}

// Ferment runs the model of de Andrés-Toro from the state a for a time. It stops
// when the sugar is used up.
//
//	XL' = −μL·XL;  XA' = (μx − μDT)·XA + μL·XL;  XD' = μDT·XA − μSD·XD
//	S' = −μs·XA;  E' = (1 − E/(0.5·S0))·μe·XA
//	DY' = 1.27672e-4·S·XA − 1.13864e-3·DY·E;  EA' = Yea·μx·XA
//	μx = μx0·S/(0.5·S0 + E);  μSD = μSD0·0.5·S0/(0.5·S0 + E)
//	μs = μs0·S/(ks + S);  μe = μe0·S/(ks + S)
//	each constant is exp(a + b/T)
//
// Units: cells X, sugar S (S0 at the start), ethanol E in g/L; diacetyl DY and
// ethyl acetate EA in ppm; time in h; T in K.
//
//   - Source: andrestoro1998, constants second-hand from three research codes,
//     of which one has 3.72 for 3.27 in μe0.
//   - Valid: 8 to 24 °C, one laboratory's wort and yeast; for teaching.
//   - Check: S0 130, XL 1.92, XA 0.08, XD 2 at 13 °C: S 7.415, E 55.73 g/L after 96 h.
//   - Tag: second-hand
func (a AndresToro) Ferment(time quantity.Duration, temperature TemperatureAt) AndresToro {
	half := a.Sugar / 2
	slope := func(hour float64, s []float64) []float64 {
		return andresToroSlope(s, half, temperature(quantity.Hours(hour)).Kelvin())
	}
	start := []float64{a.LagCells, a.ActiveCells, a.DeadCells, a.Sugar, a.Ethanol, a.Diacetyl, a.EthylAcetate}
	end := march(start, time.Hours(), slope, func(s []float64) bool { return s[3] < 1e-6 })
	return AndresToro{end[0], end[1], end[2], math.Max(0, end[3]), end[4], end[5], end[6]}
}

func andresToroSlope(state []float64, half, kelvin float64) []float64 {
	rate := func(a, b float64) float64 { return math.Exp(a + b/kelvin) }
	lag, active, dead, ethanol, diacetyl := state[0], state[1], state[2], state[4], state[5]
	sugar := math.Max(0, state[3])

	growth := rate(108.31, -31934.09) * sugar / (half + ethanol)
	settling := rate(33.82, -10033.28) * half / (half + ethanol)
	affinity := rate(-119.63, 34203.95)
	uptake := rate(-41.92, 11654.64) * sugar / (affinity + sugar)
	production := rate(3.27, -1267.24) * sugar / (affinity + sugar)
	waking, death, ester := rate(30.72, -9501.54), rate(130.16, -38313), rate(89.92, -26589)

	return []float64{
		-waking * lag,
		(growth-death)*active + waking*lag,
		death*active - settling*dead,
		-uptake * active,
		(1 - ethanol/half) * production * active,
		1.27672e-4*sugar*active - 1.13864e-3*diacetyl*ethanol,
		ester * growth * active,
	}
}

// GeeRamirez is a state of the growth model of Gee and Ramirez, in mol/m³.
type GeeRamirez struct {
	Glucose, Maltose, Maltotriose float64
	Cells, Ethanol                float64
}

// geeRamirezConstants are the constants of the model at one temperature.
type geeRamirezConstants struct {
	celsius    float64
	vG, vM, vN float64 // largest rates, 1/h
	kG, kM, kN float64 // affinities, mol/m³
	iG, iM     float64 // inhibitions by glucose and maltose, mol/m³
}

var geeRamirezTable = []geeRamirezConstants{
	{4, 0.0048, 0.0144, 0.087, 23.5, 1100, 10900, 123, 2090},
	{8, 0.013, 0.0268, 0.113, 4.7, 814, 7160, 182, 6360},
	{12, 0.015, 0.028, 0.13, 1.8, 610, 4460, 240, 8010},
	{16, 0.0302, 0.0364, 0.151, 0.102, 360, 2410, 262, 17500},
}

// GeeRamirezValid is the range of temperatures of the model's table.
var GeeRamirezValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(4), High: quantity.Celsius(16)}

// Ferment runs the growth model of Gee and Ramirez from the state g for a time.
//
//	G' = −μ1·X;  M' = −μ2·X;  N' = −μ3·X
//	μ1 = VG·G/(KG + G);  μ2 = VM·M/(KM + M)·IG/(IG + G)
//	μ3 = VN·N/(KN + N)·IG/(IG + G)·IM/(IM + M)
//	X' = (0.134·μ1 + 0.268·μ2 + 0.402·μ3)·X
//	E' = (1.92·μ1 + 3.84·μ2 + 5.76·μ3)·X
//
// Units: glucose G, maltose M, maltotriose N, cells X, ethanol E in mol/m³; V in
// 1/h; K and I in mol/m³; time in h. The constants are tabled at 4, 8, 12 and
// 16 °C; between those, their logarithm is taken as linear in temperature
// (derived), and outside as at the nearest end.
//
//   - Source: gee1994, constants second-hand from a thesis code and lecture notes.
//   - Valid: 4 to 16 °C, one laboratory's wort and yeast; for teaching.
//   - Check: G 70, M 220, N 40, X 175 at 12 °C: M 163.08, X 203.09, E 402.4 after 48 h.
//   - Tag: second-hand
func (g GeeRamirez) Ferment(time quantity.Duration, temperature TemperatureAt) GeeRamirez {
	slope := func(hour float64, s []float64) []float64 {
		return geeRamirezAt(temperature(quantity.Hours(hour)).Celsius()).slope(s)
	}
	start := []float64{g.Glucose, g.Maltose, g.Maltotriose, g.Cells, g.Ethanol}
	end := march(start, time.Hours(), slope, func(s []float64) bool { return s[0]+s[1]+s[2] < 1e-6 })
	return GeeRamirez{end[0], end[1], end[2], end[3], end[4]}
}

func (c geeRamirezConstants) slope(s []float64) []float64 {
	glucose, maltose, maltotriose, cells := math.Max(0, s[0]), math.Max(0, s[1]), math.Max(0, s[2]), s[3]
	one := c.vG * glucose / (c.kG + glucose)
	two := c.vM * maltose / (c.kM + maltose) * c.iG / (c.iG + glucose)
	three := c.vN * maltotriose / (c.kN + maltotriose) * c.iG / (c.iG + glucose) * c.iM / (c.iM + maltose)
	return []float64{
		-one * cells,
		-two * cells,
		-three * cells,
		(0.134*one + 0.268*two + 0.402*three) * cells,
		(1.92*one + 3.84*two + 5.76*three) * cells,
	}
}

// geeRamirezAt returns the constants at a temperature.
func geeRamirezAt(celsius float64) geeRamirezConstants {
	last := len(geeRamirezTable) - 1
	if celsius <= geeRamirezTable[0].celsius {
		return geeRamirezTable[0]
	}
	if celsius >= geeRamirezTable[last].celsius {
		return geeRamirezTable[last]
	}
	i := 0
	for geeRamirezTable[i+1].celsius < celsius {
		i++
	}
	a, b := geeRamirezTable[i], geeRamirezTable[i+1]
	share := (celsius - a.celsius) / (b.celsius - a.celsius)
	between := func(x, y float64) float64 { return x * math.Pow(y/x, share) }
	return geeRamirezConstants{
		celsius,
		between(a.vG, b.vG), between(a.vM, b.vM), between(a.vN, b.vN),
		between(a.kG, b.kG), between(a.kM, b.kM), between(a.kN, b.kN),
		between(a.iG, b.iG), between(a.iM, b.iM),
	}
}
