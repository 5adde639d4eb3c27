// SPDX-License-Identifier: MIT

package blind

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gyle/quantity"
	"gyle/science/sensory"
	"gyle/tasting"
)

// Step is a version of a beer against the one that it came from, with what panels
// were asked about the two.
type Step struct {
	Earlier, Later string   // ids of the recipes
	Changes        []string // what was changed, apart from what follows from that
	Expect         string   // what its brewer expects
	Batches        [2]int   // brewings of either that are known
	Tastings       []*tasting.Tasting
}

// Question is one that a tasting could answer next.
type Question struct {
	Earlier   string   `json:"earlier"`
	Later     string   `json:"later"`
	Kind      string   `json:"kind"` // of the flight
	Asks      string   `json:"asks"`
	Tasters   int      `json:"tasters"`
	Glasses   int      `json:"glasses"` // poured in all
	Bits      float64  `json:"bits"`    // that it is expected to teach
	PerTaster float64  `json:"perTaster"`
	Asked     int      `json:"asked"` // answers to it so far
	Believed  string   `json:"believed"`
	Changes   []string `json:"changes,omitempty"`  // several: which one is the question?
	Cautions  []string `json:"cautions,omitempty"` // what a verdict could not tell apart
}

// What the next panel shall find, and how surely: a distance that who attends to it
// notices, or a preference of seven in ten (made explicit here).
const (
	nextDistance = 1.5
	nextShare    = 0.7
	nextLeast    = 0.5 // d′ below which a difference is hardly noticed
)

// asked are the answers of earlier tastings to one of the two questions of a step.
type asked struct {
	choices []sensory.Choice
	n       int
}

// Next lists what could be asked next about the steps of a beer, the question that
// teaches most for each taster first. What is believed of a step that was never tasted
// is what the other steps turned out like, and nothing at all, one as likely as the
// other; what its own tastings found is weighed in.
func Next(steps []Step, pr quantity.Printer) (list []Question) {
	w := words{pr}
	apart, liked := make([]asked, len(steps)), make([]asked, len(steps))
	for i, s := range steps {
		apart[i], liked[i] = answersTo(s)
	}
	for i, s := range steps {
		difference := belief(sensory.Tetrad, apart, i)
		list = append(list, s.question(sensory.Tetrad, difference, apart[i].n, w))
		preference := belief(sensory.Preference, liked, i)
		list = append(list, s.question(sensory.Preference, unnoticed(preference, difference), liked[i].n, w))
	}
	slices.SortStableFunc(list, func(a, b Question) int { return cmp.Compare(b.PerTaster, a.PerTaster) })
	return list
}

// answersTo collects what was answered to a step: differences by any kind with right
// and wrong answers, and preferences, those for the later version counted.
func answersTo(s Step) (apart, liked asked) {
	for _, t := range s.Tastings {
		letters := map[string]string{}
		for _, b := range t.Beers {
			letters[b.Recipe] = b.Letter
		}
		earlier, later := letters[s.Earlier], letters[s.Later]
		for i := range t.Flights {
			f := &t.Flights[i]
			both := t.Letters(f)
			tally, open := f.Tally()
			if !open || t.Voided(f.Name) || len(both) != 2 || !slices.Contains(both, earlier) || !slices.Contains(both, later) {
				continue
			}
			switch protocol, ok := protocolOf(f); {
			case f.Kind == tasting.Preference:
				n := tally.For[earlier] + tally.For[later]
				liked.add(sensory.Choice{Protocol: sensory.Preference, Right: tally.For[later], N: n})
			case ok && !protocol.TwoSided():
				apart.add(sensory.Choice{Protocol: protocol, Right: tally.Right, N: tally.Answered})
			}
		}
	}
	return apart, liked
}

func (a *asked) add(c sensory.Choice) {
	if c.N > 0 {
		a.choices, a.n = append(a.choices, c), a.n+c.N
	}
}

// belief is what is believed of one step before it is asked about again.
func belief(protocol sensory.Protocol, all []asked, of int) sensory.Distances {
	even := sensory.EvenDistances(protocol)
	guides := []sensory.Distances{even}
	for i, other := range all {
		if i == of || other.n == 0 {
			continue
		}
		guide := even
		for _, c := range other.choices {
			guide = guide.After(c)
		}
		if protocol.TwoSided() {
			guide = eitherWay(guide)
		}
		guides = append(guides, guide)
	}
	own := sensory.Pooled(guides...)
	for _, c := range all[of].choices {
		own = own.After(c)
	}
	return own
}

// eitherWay forgets the direction: what one change did says how much changes are
// noticed, not that the next one is an improvement.
func eitherWay(d sensory.Distances) sensory.Distances {
	turned := sensory.Distances{At: d.At, Weights: slices.Clone(d.Weights)}
	slices.Reverse(turned.Weights)
	return sensory.Pooled(d, turned)
}

// unnoticed puts the chance that two beers are hardly told apart on no preference.
func unnoticed(preference, difference sensory.Distances) sensory.Distances {
	noticed := difference.Beyond(nextLeast)
	none := sensory.Distances{At: preference.At, Weights: make([]float64, len(preference.At))}
	none.Weights[len(none.Weights)/2] = 1
	mixed := sensory.Distances{At: preference.At, Weights: make([]float64, len(preference.At))}
	for i := range mixed.Weights {
		mixed.Weights[i] = noticed*preference.Weights[i] + (1-noticed)*none.Weights[i]
	}
	return mixed
}

// question is one question of a step with the panel it needs.
func (s Step) question(protocol sensory.Protocol, d sensory.Distances, answers int, w words) Question {
	q := Question{Earlier: s.Earlier, Later: s.Later, Kind: string(tasting.Tetrad), Asks: "Can they be told apart?", Asked: answers}
	design, proportion := sensory.Design{Protocol: protocol, Alpha: usualAlpha}, protocol.ProportionCorrect(nextDistance)
	if protocol == sensory.Preference {
		q.Kind, q.Asks, proportion = string(tasting.Preference), "Which is preferred?", nextShare
	}
	if size, found := design.PanelSize(usualPower, proportion); found {
		q.Tasters = size.First
	}
	q.Glasses = q.Tasters * protocol.Cups()
	q.Bits = d.ExpectedBits(protocol, q.Tasters)
	q.PerTaster = q.Bits / float64(max(1, q.Tasters))
	mean := d.Mean()
	if protocol == sensory.Preference {
		q.Believed = fmt.Sprintf("Believed so far: the later one is liked d′ %s above the other, give or take %s.", w.signed(mean.Value), w.Number(mean.SD, 1))
	} else {
		q.Believed = fmt.Sprintf("Believed so far: they lie d′ %s apart, give or take %s; noticeable with a chance of %s.", w.Number(mean.Value, 1), w.Number(mean.SD, 1), w.percent(d.Beyond(nextLeast)))
	}
	if len(s.Changes) > 1 {
		q.Changes = s.Changes
		q.Cautions = append(q.Cautions, fmt.Sprintf("The step carries %d changes (%s): a verdict is about all of them together. Which is the question? Brew a version between them to tell them apart.", len(s.Changes), strings.Join(s.Changes, "; ")))
	}
	q.Cautions = append(q.Cautions, s.batches()...)
	return q
}

// batches says what a verdict could not tell apart from the change.
func (s Step) batches() []string {
	for _, t := range s.Tastings {
		for _, b := range t.Beers {
			if b.Split != "" {
				return nil
			}
		}
	}
	switch {
	case s.Batches[0] == 0 || s.Batches[1] == 0:
		return []string{"Not both are brewed in this book: part one wort for the change alone, and both are of one batch."}
	case s.Batches[0] < 2 || s.Batches[1] < 2:
		return []string{"One batch of a version: a difference may be the batch’s, not the recipe’s. Part one wort, or brew each again."}
	}
	return nil
}

// Says is the question as a sentence.
func (q Question) Says(pr quantity.Printer) string {
	w := words{pr}
	what := "a " + q.Kind
	return fmt.Sprintf("%s By %s of %d tasters, %d glasses: it is expected to teach %s bits, %s for each taster.",
		q.Asks, what, q.Tasters, q.Glasses, w.Number(q.Bits, 2), w.Number(q.PerTaster, 3))
}
