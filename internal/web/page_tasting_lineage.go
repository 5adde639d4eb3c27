// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"gyle/blind"
	"gyle/internal/chart"
	"gyle/quantity"
	"gyle/science/sensory"
	"gyle/tasting"
)

// outcome is what a blind tasting says of a version against its parent.
type outcome struct {
	Slug, Title string
	Label       string              // "Judged" of score sheets; empty: tasted blind
	Later       string              // recipe of the later version
	Says        []string            // of each flight
	Sheets      map[string][]string // what score sheets say, by the recipe of the version
	Panel       *chart.Panel
}

// mostOutcomes is how many verdicts are kept.
const mostOutcomes = 1000

// tasted finds what panels said of each version. A tasting belongs to the
// version that was the later of its beers.
func (s *Server) tasted(ctx context.Context, list []recipeVersion, pr quantity.Printer) error {
	for i := range list {
		for _, slug := range list[i].Tastings {
			d, err := s.book.Get(ctx, tasting.Kind, slug)
			if errors.Is(err, ErrNotFound) || d.Deleted {
				continue
			}
			if err != nil {
				return err
			}
			key := parsedKey{fmt.Sprintf("%s %v", slug, pr), d.Text}
			found, known := s.outcomes.get(key)
			if !known {
				if found, err = outcomeOf(d, pr); err != nil {
					continue // its own page tells what is wrong with it
				}
				s.outcomes.put(key, found)
			}
			if len(found.Says) > 0 && found.Later == list[i].Slug {
				list[i].Outcomes = append(list[i].Outcomes, *found)
			}
			if lines := found.Sheets[list[i].Slug]; len(lines) > 0 {
				list[i].Outcomes = append(list[i].Outcomes, outcome{Slug: slug, Title: found.Title + ", score sheets", Label: "Judged", Says: lines})
			}
		}
	}
	return nil
}

// outcomeOf judges the flights of a tasting whose keys are open.
func outcomeOf(d Document, pr quantity.Printer) (*outcome, error) {
	t, err := tasting.Parse(d.Slug, []byte(d.Text))
	if err != nil {
		return nil, err
	}
	o := &outcome{Slug: d.Slug, Title: d.Title, Later: t.Beers[len(t.Beers)-1].Recipe, Sheets: map[string][]string{}}
	verdict := blind.Of(t, pr)
	for _, of := range verdict.Sheets {
		if of.Recipe != "" {
			o.Sheets[of.Recipe] = append(o.Sheets[of.Recipe], sheetLines(of)...)
		}
	}
	for _, f := range verdict.Flights {
		if f.State != blind.Judged && f.State != blind.Voided {
			continue
		}
		o.Says = append(o.Says, f.Says)
		if c := f.Choice; c != nil && f.State == blind.Judged && o.Panel == nil && !sensory.Protocol(c.Protocol).TwoSided() {
			protocol := sensory.Protocol(c.Protocol)
			o.Panel = &chart.Panel{
				Right: c.Right, Of: c.N, Guess: protocol.Guess(), Verdict: c.Outcome,
				Interval: &quantity.Span[quantity.Fraction]{Low: quantity.Fraction(protocol.AtShare(c.Reach.Low)), High: quantity.Fraction(protocol.AtShare(c.Reach.High))},
			}
			if c.Outcome == string(sensory.NotConclusive) {
				o.Panel.Verdict = "not shown; up to " + pr.Fraction(quantity.Fraction(c.Upper), 0) + " could still tell"
			}
		}
	}
	return o, nil
}

// sheetLines are what score sheets say of one beer, attribute by attribute. What
// contradicts stays side by side.
func sheetLines(of blind.OfBeer) (lines []string) {
	for _, p := range of.Points {
		accord := p.Accord
		if p.Open {
			accord = "conflict, left open"
		}
		said := make([]string, len(p.Says))
		for i, s := range p.Says {
			said[i] = s.Text()
		}
		lines = append(lines, sentence(p.Attribute+": "+accord+" ("+strings.Join(said, "; ")+")"))
	}
	return lines
}

// Outcome is what panels said of the version on the sheet.
func (b *recipeBody) Outcome() []outcome {
	for _, v := range b.Versions {
		if v.Now {
			return v.Outcomes
		}
	}
	return nil
}

// panel is the first count of right answers among the outcomes.
func (v recipeVersion) panel() *chart.Panel {
	for _, o := range v.Outcomes {
		if o.Panel != nil {
			return o.Panel
		}
	}
	return nil
}
