// SPDX-License-Identifier: MIT

package blind

import (
	"fmt"
	"math"
	"strings"

	"gyle/quantity"
	"gyle/science/sensory"
	"gyle/tasting"
)

// Choice is what a flight of right and wrong answers shows.
type Choice struct {
	Protocol string  `json:"protocol"`
	Right    int     `json:"right"`
	N        int     `json:"n"`
	Needed   int     `json:"needed"`
	Expected float64 `json:"expected"` // by guessing
	P        float64 `json:"p"`        // exact
	Outcome  string  `json:"outcome"`

	Share    float64  `json:"share"` // of tasters that can tell
	Reach    Reach    `json:"reach"`
	Upper    float64  `json:"upper"` // so many could still tell, at 95 %
	Distance *float64 `json:"distance,omitempty"`
	Apart    Reach    `json:"apart"` // of the distance

	Limit    float64 `json:"limit,omitempty"` // share that may tell, if likeness was the question
	TooSmall bool    `json:"tooSmall"`
	Look     *Look   `json:"look,omitempty"` // of a plan in two stages

	Dots    []Dot   `json:"dots"`
	Places  []Place `json:"places,omitempty"`
	PlacesP float64 `json:"placesP,omitempty"`
}

// Dot is one answer, in the order in which they came.
type Dot struct {
	Taster  string `json:"taster"`
	Right   bool   `json:"right"`
	Changed bool   `json:"changed,omitempty"`
}

// Place is how often the odd glass was found in one place of the tray.
type Place struct {
	Place  int `json:"place"`
	Served int `json:"served"`
	Right  int `json:"right"`
	Named  int `json:"named"`
}

// confidence is that of the sentence "could still tell".
const confidence = 0.95

// positionAlpha is below what chance a place on the tray is called favoured
// (common practice).
const positionAlpha = 0.05

func (out *Flight) choice(f *tasting.Flight, w words) {
	tally, _ := f.Tally()
	protocol, ok := protocolOf(f)
	if !ok || tally.Answered == 0 {
		out.Says = "Nobody answered."
		return
	}
	counted := sensory.Choice{Protocol: protocol, Right: tally.Right, N: tally.Answered}
	if protocol.TwoSided() {
		counted.Right = tally.For[f.Key.BeerOf(f.Serving[0].Codes[0])]
		for _, n := range tally.For {
			counted.Right = max(counted.Right, n)
		}
	}
	j := counted.Judge(ruleOf(f))
	c := &Choice{
		Protocol: string(protocol), Right: counted.Right, N: counted.N, Needed: j.Critical, Expected: counted.Expected(), P: j.P,
		Outcome: string(j.Outcome), Share: j.Share, Reach: reachOf(j.ShareInterval, j.Level), Upper: counted.Upper(confidence),
		Apart: reachOf(j.DistanceInterval, j.Level), Limit: float64(f.Similar), TooSmall: j.TooSmall, Dots: dotsOf(f),
	}
	if j.DistanceEstimable {
		d := j.Distance.Value
		c.Distance = &d
	}
	out.Choice = c
	out.replicates(f, protocol, w)
	if f.Look != nil {
		c.stages(f, protocol)
		out.More = append(out.More, lookSays(f, c.Look, w))
	}
	out.Says = c.says(f, protocol, w)
	out.More = append(out.More, c.more(w)...)
	out.places(f, tally, w)
	if c.TooSmall && c.Outcome == string(sensory.NotConclusive) {
		out.Warnings = append(out.Warnings, "The panel was too small to answer: it would miss even a clear difference more often than not.")
	}
}

// ruleOf is the rule that the document fixed. The risk of overlooking goes
// with the power of its aim.
func ruleOf(f *tasting.Flight) sensory.Rule {
	rule := sensory.Rule{Alpha: alphaOf(f), Limit: float64(f.Similar), Beta: 1 - usualPower}
	if f.Aim != nil && f.Aim.Power > 0 {
		rule.Beta = 1 - float64(f.Aim.Power)
	}
	return rule
}

// says puts the outcome into one of four sentences.
func (c *Choice) says(f *tasting.Flight, protocol sensory.Protocol, w words) string {
	count := fmt.Sprintf("%d of %d right, where guessing gives %s (p %s)", c.Right, c.N, w.Number(c.Expected, decimalsOf(c.Expected)), w.p(c.P))
	if protocol.TwoSided() {
		count = fmt.Sprintf("%d of %d named the same beer (p %s)", c.Right, c.N, w.p(c.P))
	}
	switch sensory.Outcome(c.Outcome) {
	case sensory.Different:
		return "Difference shown: " + count + "."
	case sensory.SmallDifference:
		return fmt.Sprintf("Small difference shown: %s; fewer than %s of tasters can tell.", count, w.percent(c.Limit))
	case sensory.BelowLimit:
		return fmt.Sprintf("Not shown: %s; if there is a difference, fewer than %s of tasters can tell.", count, w.percent(c.Limit))
	}
	if protocol.TwoSided() {
		return fmt.Sprintf("Not shown: %s.", count)
	}
	return fmt.Sprintf("Not shown; up to %s of tasters could still tell: %s.", w.percent(c.Upper), count)
}

// decimalsOf shows a tenth where there is one.
func decimalsOf(x float64) int {
	if math.Abs(x-math.Round(x)) < 0.05 {
		return 0
	}
	return 1
}

// more are the sentences behind the verdict.
func (c *Choice) more(w words) (list []string) {
	if c.Needed <= c.N && c.Look == nil {
		list = append(list, fmt.Sprintf("%d right answers of %d were needed.", c.Needed, c.N))
	}
	if sensory.Protocol(c.Protocol).TwoSided() {
		return list
	}
	list = append(list, fmt.Sprintf("About %s of tasters can tell them apart (%s, %s interval).", w.percent(c.Share), w.percents(c.Reach), w.percent(c.Reach.Level)))
	if c.Distance != nil {
		list = append(list, fmt.Sprintf("The beers lie d′ %s apart (%s): %s.", w.Number(*c.Distance, 1), w.reach(c.Apart, 1), noticed(*c.Distance)))
	} else {
		list = append(list, fmt.Sprintf("Their distance d′ can't be told closer than %s.", w.reach(c.Apart, 1)))
	}
	return list
}

// noticed is a rule of thumb for a distance (see sensory.Protocol).
func noticed(d float64) string {
	switch {
	case d < 0.5:
		return "hardly noticed side by side"
	case d < 1.5:
		return "about the threshold"
	case d < 2.5:
		return "clear to who attends to it"
	}
	return "obvious"
}

func dotsOf(f *tasting.Flight) (dots []Dot) {
	for _, a := range f.Standing() {
		dots = append(dots, Dot{a.Taster, f.Right(a.Answer), a.Changed()})
	}
	return dots
}

// places checks whether the place on the tray was chosen, not the beer.
func (out *Flight) places(f *tasting.Flight, tally tasting.Tally, w words) {
	if len(tally.ByPlace) < 2 {
		return
	}
	places := make([]Place, len(tally.ByPlace))
	for i := range places {
		places[i] = Place{Place: i + 1, Named: tally.ByPlace[i], Right: tally.RightIn[i]}
	}
	for _, s := range f.Serving {
		if odd := f.Key.Odd(s); odd > 0 && odd <= len(places) {
			places[odd-1].Served++
		}
	}
	_, p := sensory.Positions(tally.ByPlace).Bias()
	if out.Choice != nil {
		out.Choice.Places, out.Choice.PlacesP = places, p
	}
	var said []string
	for _, x := range places {
		if x.Served > 0 {
			said = append(said, fmt.Sprintf("%d of %d in place %d", x.Right, x.Served, x.Place))
		}
	}
	if len(said) > 0 {
		out.More = append(out.More, "By the place of the odd glass: "+strings.Join(said, ", ")+" right.")
	}
	if p <= positionAlpha {
		out.Warnings = append(out.Warnings, fmt.Sprintf("Some places on the tray were named more often than others (p %s): the place may have spoken, not the beer.", w.p(p)))
	}
}

// replicates says what answers of one assessor in several sets are worth, and
// widens the intervals.
func (out *Flight) replicates(f *tasting.Flight, protocol sensory.Protocol, w words) {
	by := map[string]*sensory.Answered{}
	var ids []string
	for _, a := range f.Standing() {
		if by[a.Taster] == nil {
			by[a.Taster] = &sensory.Answered{}
			ids = append(ids, a.Taster)
		}
		by[a.Taster].N++
		if f.Right(a.Answer) {
			by[a.Taster].Right++
		}
	}
	c := out.Choice
	if len(ids) == c.N || protocol.TwoSided() {
		return
	}
	r := sensory.Replicates{Protocol: protocol}
	for _, id := range ids {
		r.Assessors = append(r.Assessors, *by[id])
	}
	reach := r.Interval(c.Reach.Level)
	c.Reach = reachOf(quantity.Span[float64]{Low: protocol.Share(reach.Low), High: protocol.Share(reach.High)}, c.Reach.Level)
	c.Upper = max(c.Upper, c.Reach.High)
	if c.Outcome == string(sensory.BelowLimit) {
		c.Outcome = string(sensory.NotConclusive) // likeness can't be claimed from repeated answers
	}
	out.Warnings = append(out.Warnings, fmt.Sprintf(
		"%d answers of %d tasters are worth about %s independent ones; the interval is widened for it, and likeness isn't claimed.",
		c.N, len(ids), w.Number(r.Dispersion().Effective, 0)))
}

// letters lists the beers behind the glasses of a flight, sorted.
func letters(f *tasting.Flight) (list []string) {
	for _, letter := range "ABCDEFGHIJKLMNOPQRSTUVWXYZ" {
		if len(f.Key.Glasses[string(letter)]) > 0 {
			list = append(list, string(letter))
		}
	}
	return list
}
