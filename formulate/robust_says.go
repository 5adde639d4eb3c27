// SPDX-License-Identifier: MIT

package formulate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/chance"
	"gyle/quantity"
	"gyle/style"
)

// worthSaying is the chance from which a limit is no hindrance.
const worthSaying = 0.97

// hinders says what keeps a recipe from being sure: the limits that fail most
// often, what is to blame for the spread of their figures, and by how much the
// chance rises where the brewer learns more of it.
func (s *robustSearch) hinders() error {
	r := s.best
	if r.Outlook.Limits.Share >= SureEnough {
		return nil
	}
	guilt := map[string]float64{}
	for _, rule := range r.Outlook.Rules {
		if rule.Severity != style.Limit || rule.Inside.Share >= worthSaying {
			continue
		}
		text := fmt.Sprintf("%s is inside in %s", rule.Phrase, chance.Chance(rule.Inside))
		if band, known := r.Outlook.Find(rule.Figure); known {
			if blame := band.Sentence(s.wish.Reader); blame != "" {
				text += "; " + blame
			}
			for _, b := range band.Blame {
				guilt[b.Input] += b.Share * (1 - rule.Inside.Share)
			}
		}
		r.Hinders = append(r.Hinders, text+".")
	}
	return s.remedies(guilt)
}

// A remedy is what a brewer can do about an input that isn't known.
type remedy struct {
	input string // begins the name of the input
	does  string
	// noise is the standard deviation of one measurement, in the unit of the input's
	// own. What is measured twice is known by the weights of both: see [remedy.known].
	noise float64
}

// remedies are measurements that a brewer can make, each of two brews. Noise is
// that of one beer about the habit of its house: for bitterness as in chance and
// science/hops, else estimates.
var remedies = []remedy{
	{"house factor of bitterness", "have the bitterness of two beers of this house measured and note it in their gyles", 0.09},
	{"yield of the house", "note volume and gravity of the full kettle in two more brews", 0.02},
	{"attenuation of the yeast", "note the attenuation of this yeast in two brews, and write a narrower range into the recipe", 0.012},
	{"colour formula", "have the colour of two beers measured, and move the aim by what they miss", 0.08},
	{"alpha acids of ", "take a lot with an analysis of this year, or have it analysed", 0.03},
	{"extract of ", "take the extract of the lot from its analysis", 0.01},
	{"colour of ", "take the colour of the lot from its analysis", 0.05},
}

// known returns by how much the spread of an input shrinks with two
// measurements: the inverse variances add up.
func (m remedy) known(in chance.Input) float64 {
	return 1 / math.Sqrt(1+2*(in.SD/m.noise)*(in.SD/m.noise))
}

// mostRemedies is how many are told.
const mostRemedies = 3

// remedies brews the recipe again with the inputs that are most to blame known
// better: one by one, and all together.
func (s *robustSearch) remedies(guilt map[string]float64) error {
	r := s.best
	inputs := slices.Clone(r.Outlook.Inputs)
	slices.SortStableFunc(inputs, func(a, b chance.Input) int { return cmp.Compare(guilt[b.Name], guilt[a.Name]) })
	ratios := map[string]float64{}
	for _, in := range inputs {
		m := slices.IndexFunc(remedies, func(m remedy) bool { return strings.HasPrefix(in.Name, m.input) })
		if m < 0 || guilt[in.Name] < 0.005 || len(ratios) == mostRemedies {
			continue
		}
		ratio := remedies[m].known(in)
		got, err := s.ifKnown(map[string]float64{in.Name: ratio})
		if err != nil {
			return err
		}
		if got.Share < r.Outlook.Limits.Share+0.005 {
			continue
		}
		ratios[in.Name] = ratio
		spread := s.wish.Reader.Fraction(quantity.Fraction(ratio), 0)
		r.Remedies = append(r.Remedies, fmt.Sprintf("%s: with the %s known to %s of its spread, all limits would hold in %s.", remedies[m].does, in.Name, spread, chance.Chance(got)))
	}
	if len(ratios) < 2 {
		return nil
	}
	got, err := s.ifKnown(ratios)
	if err != nil {
		return err
	}
	last := fmt.Sprintf("all of these together: %s", chance.Chance(got))
	if got.Share < SureEnough {
		last += "; what is left is how brews differ by themselves, and only wider limits would hold more of them"
	}
	r.Remedies = append(r.Remedies, last+".")
	return nil
}

// ifKnown is the chance to be inside all limits with inputs known better.
func (s *robustSearch) ifKnown(ratios map[string]float64) (chance.Probability, error) {
	o, err := chance.Simulate(s.ctx, s.best.Plan, s.wish.Style, chance.Options{Samples: robustSamples, Seed: robustSeed, Known: func(in chance.Input) float64 {
		if ratio, known := ratios[in.Name]; known {
			return ratio
		}
		return 1
	}})
	if err != nil {
		return chance.Probability{}, err
	}
	return *o.Limits, nil
}
