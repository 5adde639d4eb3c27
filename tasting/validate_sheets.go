// SPDX-License-Identifier: MIT

package tasting

import (
	"fmt"
	"strings"
)

func (c *checker) sheets() {
	for i := range c.tasting.Sheets {
		c.sheet(i)
	}
}

func (c *checker) sheet(i int) {
	s, at := c.tasting.Sheets[i], fmt.Sprintf("sheets[%d]", i)
	c.letter(at+".beer", s.Beer, c.all())
	switch {
	case s.Total != nil && s.Of <= 0:
		c.add(at+".total", "add of: 50", "nothing says out of how many points it is")
	case s.Total != nil && (*s.Total < 0 || *s.Total > s.Of):
		c.add(at+".total", "", "%g is not between 0 and %g", *s.Total, s.Of)
	}
	if s.Place < 0 {
		c.add(at+".place", "the first beer of a flight has place 1", "there is no place %d", s.Place)
	}
	if scale := s.Levels(); !(scale.From < scale.To) {
		c.add(at+".scale", "write scale: {from: 0, to: 5}", "a scale from %g to %g has no room", scale.From, scale.To)
	}
	switch {
	case s.Corrects == 0:
		c.again(i, at)
	case s.Corrects < 0 || s.Corrects > i:
		c.add(at+".corrects", "write the number of an earlier sheet, the first is 1", "there is no earlier sheet %d", s.Corrects)
	case c.tasting.Sheets[s.Corrects-1].Judge != s.Judge || c.tasting.Sheets[s.Corrects-1].Beer != s.Beer:
		c.add(at+".corrects", "", "sheet %d is of another judge or beer", s.Corrects)
	}
	c.points(s, at)
}

// again checks that a judge has one sheet of a beer, and that another says that
// it corrects it.
func (c *checker) again(i int, at string) {
	s, last := c.tasting.Sheets[i], 0
	for j, other := range c.tasting.Sheets[:i] {
		if other.Judge == s.Judge && other.Beer == s.Beer {
			last = j + 1
		}
	}
	if last > 0 {
		c.add(at, fmt.Sprintf("add corrects: %d if it replaces that sheet", last), "%s has judged %s already", s.Judge, s.Beer)
	}
}

func (c *checker) points(s Sheet, at string) {
	seen := map[string]bool{}
	scale := s.Levels()
	for j, p := range s.Points {
		path := fmt.Sprintf("%s.points[%d]", at, j)
		switch p.Says {
		case "", sayTooLittle, sayRight, sayTooMuch:
		default:
			c.add(path+".says", "write too little, right or too much", "%q is no opinion", p.Says)
		}
		if p.silent() {
			c.add(path, "add level, says, terms or words, or delete the entry", "nothing is said of %s", p.Attribute)
		}
		if p.Level != nil && !(*p.Level >= scale.From && *p.Level <= scale.To) {
			c.add(path+".level", "add scale: to the sheet where its levels go further", "%g is not on the scale from %g to %g", *p.Level, scale.From, scale.To)
		}
		if strings.TrimSpace(p.Attribute) == "" {
			c.add(path+".attribute", "name what is judged: roast", "it has no attribute")
		}
		if seen[p.Attribute] {
			c.add(path+".attribute", "put both into one entry", "%s stands on this sheet twice", p.Attribute)
		}
		seen[p.Attribute] = true
	}
}
