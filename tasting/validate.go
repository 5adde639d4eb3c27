// SPDX-License-Identifier: MIT

package tasting

import (
	"fmt"
	"slices"
	"strings"

	"gyle/internal/document"
)

// A checker collects the faults of a document.
type checker struct {
	tasting *Tasting
	source  *document.Source
	faults  document.Faults
	codes   map[Code]string // every code with the place where it stands
}

func (c *checker) add(path, hint, format string, args ...any) {
	c.faults = append(c.faults, c.source.Fault(path, fmt.Sprintf(format, args...), hint))
}

// Validate finds the faults that no single field shows.
func (t *Tasting) Validate(s *document.Source) document.Faults {
	c := &checker{tasting: t, source: s, codes: map[Code]string{}}
	c.beers()
	c.panel()
	c.conditions()
	c.cap()
	names := map[string]bool{}
	for i := range t.Flights {
		f := &t.Flights[i]
		at := fmt.Sprintf("flights[%d]", i)
		if names[f.Name] {
			c.add(at+".name", "give each flight its own name", "there is another flight %q", f.Name)
		}
		names[f.Name] = true
		c.flight(f, at)
	}
	c.sheets()
	return c.faults
}

func (c *checker) beers() {
	seen := map[string]bool{}
	for i, b := range c.tasting.Beers {
		at := fmt.Sprintf("beers[%d]", i)
		if len(b.Letter) != 1 || b.Letter[0] < 'A' || b.Letter[0] > 'Z' {
			c.add(at+".letter", "write one capital letter: A", "%q is no letter", b.Letter)
		}
		if seen[b.Letter] {
			c.add(at+".letter", "give each beer a letter of its own", "there is another beer %s", b.Letter)
		}
		seen[b.Letter] = true
		if b.Name == "" && b.Recipe == "" && b.Gyle == "" {
			c.add(at, "add recipe: with its id, or name:", "nothing says which beer %s is", b.Letter)
		}
		if b.ABV != nil && (*b.ABV < 0 || *b.ABV > 0.8) {
			c.add(at+".abv", "write the alcohol by volume: 4.8 %", "no beer has %g %% of alcohol", b.ABV.Percent())
		}
	}
	if len(c.tasting.Beers) == 0 {
		c.add("beers", "add - {letter: A, recipe: ferry-brown-2}", "there is no beer")
	}
	if len(c.tasting.Beers) == 1 && len(c.tasting.Flights) > 0 {
		c.add("beers", "add the beer it is compared with", "one beer can't be told from another")
	}
}

func (c *checker) panel() {
	seen := map[string]bool{}
	for i, a := range c.tasting.Panel {
		if seen[a.ID] {
			c.add(fmt.Sprintf("panel[%d].id", i), "give everyone an id of their own; a number will do", "there is another %q in the panel", a.ID)
		}
		seen[a.ID] = true
	}
}

func (c *checker) conditions() {
	if v := c.tasting.Conditions.Sample; v != nil && (*v <= 0 || *v > 1) {
		c.add("conditions.sample", "30 to 60 mL are usual, up to 100 mL for a profile", "%g L is no sample", v.Litres())
	}
}

// letter checks that a beer of the evening, or of a flight, is meant.
func (c *checker) letter(path, letter string, among []string) bool {
	if slices.Contains(among, letter) {
		return true
	}
	c.add(path, "the beers are "+strings.Join(among, ", "), "%q is none of the beers", letter)
	return false
}

func (c *checker) all() []string { return c.tasting.Letters(&Flight{}) }

func (c *checker) taster(path, id string) bool {
	if slices.ContainsFunc(c.tasting.Panel, func(a Assessor) bool { return a.ID == id }) {
		return true
	}
	var ids []string
	for _, a := range c.tasting.Panel {
		ids = append(ids, a.ID)
	}
	hint := "add them to the panel"
	if near, ok := document.Nearest(id, ids); ok {
		hint = "write " + near + ", or add them to the panel"
	}
	c.add(path, hint, "%q is not in the panel", id)
	return false
}
