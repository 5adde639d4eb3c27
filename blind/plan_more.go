// SPDX-License-Identifier: MIT

package blind

import (
	"fmt"
	"math"

	"gyle/panel"
	"gyle/science/sensory"
	"gyle/tasting"
)

// clearDistance is one that who attends to it notices (see [noticed]); the
// powers of plans without a share are told for it.
const clearDistance = 1.5

// distanceOf is the distance that the panel shall find.
func distanceOf(f *tasting.Flight) float64 {
	if f.Aim != nil && f.Aim.DPrime > 0 {
		return f.Aim.DPrime
	}
	return clearDistance
}

// LookFor proposes a plan in two stages of a flight: a look after so many sets of
// all, which may end it and keeps the risk as a whole; false if there is none.
func LookFor(f *tasting.Flight, after, of int) (look tasting.Look, found bool) {
	protocol, ok := protocolOf(f)
	if !ok || after < 1 || after >= of {
		return look, false
	}
	plan, found := sensory.Design{Protocol: protocol, Alpha: alphaOf(f)}.TwoStage(after, of)
	return tasting.Look{After: plan.First, Stop: plan.Stop, Needed: plan.Reject}, found
}

// planStages says what a plan in two stages finds, and how often it ends early.
func planStages(f *tasting.Flight, protocol sensory.Protocol, size Size, w words) Plan {
	stage := sensory.TwoStage{Protocol: protocol, First: f.Look.After, Stop: f.Look.Stop, Total: size.Tasters, Reject: f.Look.Needed}
	_, risk := stage.Crossing(protocol.Guess())
	p := Plan{Tasters: size.Tasters, Alpha: alphaOf(f), Actual: risk, Needed: stage.Reject, answers: size.Tasters}
	aim, _ := aimOf(f, protocol)
	early, power := stage.Crossing(protocol.AtShare(aim))
	p.Powers = []Power{{Share: aim, Power: power, Aim: true}}
	what, who := "right answers", "can tell"
	if protocol.TwoSided() {
		what, who = "voices for one beer", "lean to one side beyond chance"
	}
	p.Says = fmt.Sprintf("Two stages: %d %s of the first %d tasters end it, %d of all %d show something at the end. If %s of the tasters %s, this is found in %s of such evenings, and %s end early. Nobody may look at other times.",
		stage.Stop, what, stage.First, stage.Reject, stage.Total, w.percent(aim), who, w.percent(power), w.percent(early))
	return p
}

// planRecognition says what A or not A finds.
func planRecognition(f *tasting.Flight, size Size, w words) Plan {
	glasses := size.Glasses
	if glasses < 1 {
		glasses = panel.UsualGlasses
	}
	p := Plan{Tasters: size.Tasters, Alpha: alphaOf(f), answers: size.Tasters * glasses}
	d := distanceOf(f)
	power := 0.0
	if glasses == 1 {
		power = sensory.RecognitionPower((size.Tasters+1)/2, size.Tasters/2, p.Alpha, half(d), 1-half(d))
	} else {
		power = sensory.RecognitionRepeatedPower(size.Tasters, (glasses+1)/2, glasses/2, p.Alpha, d)
	}
	p.Powers = []Power{{Power: power, Aim: true}}
	p.Says = fmt.Sprintf("%d tasters, %d glasses each: beers d′ %s apart (%s) are found in %s of such evenings. Each taster learns the first beer by name before the glasses.",
		size.Tasters, glasses, w.Number(d, 1), noticed(d), w.percent(power))
	return p
}

// half is the share of glasses called right by who calls as many of either beer.
func half(d float64) float64 {
	return sensory.TwoAFC.ProportionCorrect(d / math.Sqrt2)
}

// planRanking says what a ranking finds, and how its blocks lie.
func planRanking(f *tasting.Flight, size Size, w words) Plan {
	k := max(2, size.Beers)
	m := size.Glasses
	if m < 1 || m > k {
		m = k
	}
	p := Plan{Tasters: size.Tasters, Alpha: alphaOf(f)}
	if m < k {
		p.Says = blocksSay(size.Tasters*max(1, size.Sets), k, m)
		return p
	}
	d := distanceOf(f)
	power := sensory.RankPower(size.Tasters, k, p.Alpha, d)
	p.Powers = []Power{{Power: power, Aim: true}}
	p.Says = fmt.Sprintf("%d tasters rank %d beers: if one lies d′ %s from the others (%s), this is found in %s of such evenings. Two beers differ when their rank sums lie %s apart.",
		size.Tasters, k, w.Number(d, 1), noticed(d), w.percent(power), w.Number(sensory.RankHSD(size.Tasters, k, p.Alpha), 1))
	return p
}

// blocksSay tells how often beers meet when each taster gets some of them.
func blocksSay(sets, k, m int) string {
	blocks, ok := panel.Blocks(k, m)
	if !ok {
		return fmt.Sprintf("No balanced plan is known that serves %d of %d beers to each; try %s.", m, k, panel.BlockSizes(k))
	}
	together := len(blocks) * m * (m - 1) / (k * (k - 1))
	text := fmt.Sprintf("Each taster ranks %d of %d beers. In every %d sets each beer stands %d times and each pair meets %s.",
		m, k, len(blocks), len(blocks)*m/k, times(together))
	if rest := sets % len(blocks); rest != 0 {
		text += fmt.Sprintf(" %d sets don’t fill the plan: take %d or %d for full balance.", sets, max(len(blocks), sets-rest), sets+len(blocks)-rest)
	}
	return text
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}
