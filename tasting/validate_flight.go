// SPDX-License-Identifier: MIT

package tasting

import (
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strings"
)

func (c *checker) flight(f *Flight, at string) {
	before := len(c.faults)
	c.flightBeers(f, at)
	c.rule(f, at)
	c.attributes(f, at)
	c.serving(f, at)
	c.key(f, at)
	if len(c.faults) == before { // answers to a broken plan would only repeat its faults
		c.answers(f, at)
		c.closing(f, at)
	}
}

func (c *checker) flightBeers(f *Flight, at string) {
	seen := map[string]bool{}
	for i, letter := range f.Beers {
		path := fmt.Sprintf("%s.beers[%d]", at, i)
		if c.letter(path, letter, c.all()) && seen[letter] {
			c.add(path, "", "beer %s stands there twice", letter)
		}
		seen[letter] = true
	}
	letters := c.tasting.Letters(f)
	if f.Kind.Pair() && len(letters) != 2 {
		c.add(at+".kind", "add beers: [A, B] to the flight", "%s compares two beers, not %d", f.Kind.one(), len(letters))
	}
	if f.Kind == Ranking && len(letters) < 3 {
		c.add(at+".kind", "write preference or 2-afc", "a ranking of %d beers is a comparison", len(letters))
	}
	for i, letter := range f.Expect {
		c.letter(fmt.Sprintf("%s.expect[%d]", at, i), letter, letters)
	}
	if len(f.Expect) > 0 && len(f.Expect) != len(letters) {
		c.add(at+".expect", "name all beers of the flight, from least to most", "the expected order has %d of %d beers", len(f.Expect), len(letters))
	}
	if f.Reference != "" {
		c.letter(at+".reference", f.Reference, letters)
	}
	switch {
	case f.Kind == ANotA && f.Reference == "":
		c.add(at+".kind", "add reference: A", "nothing says which beer the panel learns first")
	case f.Kind != ANotA && f.Kind != DuoTrio && f.Reference != "":
		c.add(at+".reference", "delete it", "%s has no reference", f.Kind.one())
	}
}

// rule checks the numbers by which the flight will be judged.
func (c *checker) rule(f *Flight, at string) {
	if f.Alpha < 0 || f.Alpha >= 0.5 {
		c.add(at+".alpha", "5 % is usual", "a risk of a false alarm of %g %% decides nothing", f.Alpha.Percent())
	}
	if f.Similar < 0 || f.Similar >= 1 {
		c.add(at+".similar", "20 to 30 % are usual", "a share lies between 0 and 100 %%")
	}
	if f.Similar > 0 && !f.Kind.Choice() {
		c.add(at+".similar", "ask for likeness by a triangle, a tetrad or a duo-trio", "%s has no share who can tell", f.Kind.one())
	}
	if aim := f.Aim; aim != nil {
		if aim.Power < 0 || aim.Power >= 1 {
			c.add(at+".aim.power", "80 % is usual", "a power lies between 0 and 100 %%")
		}
		if aim.Share < 0 || aim.Share > 1 {
			c.add(at+".aim.share", "half of the tasters: 50 %", "a share lies between 0 and 100 %%")
		}
		if aim.DPrime < 0 {
			c.add(at+".aim.dprime", "1 is about a threshold", "a distance isn't less than nothing")
		}
	}
	c.sides(f, at)
	c.look(f, at)
}

// look checks a plan in two stages, and that nobody is forced elsewhere.
func (c *checker) look(f *Flight, at string) {
	if f.Forced && f.Kind != Preference {
		c.add(at+".forced", "delete it", "in %s everybody chooses", f.Kind.one())
	}
	l := f.Look
	if l == nil {
		return
	}
	if !f.Kind.Choice() && f.Kind != Preference {
		c.add(at+".look", "delete it: only right answers or voices are counted before the end", "%s has no look before the end", f.Kind.one())
	}
	if l.After < 1 || len(f.Serving) > 0 && l.After >= len(f.Serving) {
		c.add(at+".look.after", fmt.Sprintf("the plan has %d sets", len(f.Serving)), "a look after %d sets isn't before the end", l.After)
	}
	if l.Stop < 1 || l.Stop > l.After+1 {
		c.add(at+".look.stop", "", "%d right answers of %d are impossible", l.Stop, l.After)
	}
	if l.Needed < 1 || len(f.Serving) > 0 && l.Needed > len(f.Serving)+1 {
		c.add(at+".look.needed", "", "%d right answers of %d are impossible", l.Needed, len(f.Serving))
	}
	if slices.ContainsFunc(f.Serving, func(s Serving) bool { return s.Set > 1 }) {
		c.add(at+".look", "give each taster one set", "stages count tasters, and some have several sets")
	}
}

func (c *checker) sides(f *Flight, at string) {
	switch {
	case f.Sides != "" && f.Sides != "one" && f.Sides != "two":
		c.add(at+".sides", "write one or two", "%q is no number of sides", f.Sides)
	case f.Kind == Preference && f.Sides == "one":
		c.add(at+".sides", "write two, or ask for an attribute by 2-afc", "either beer may be preferred")
	case f.Sides == "two" && f.Kind.Choice() && f.Kind != TwoAFC:
		c.add(at+".sides", "write one, or leave it out", "in %s only right answers count", f.Kind.one())
	case f.Kind == TwoAFC && f.Sides == "one" && len(f.Expect) == 0:
		c.add(at+".sides", "add expect: [A, B] if B is expected to have more, or write two", "one side needs the order that is expected")
	case f.Kind == ThreeAFC && len(f.Expect) == 0:
		c.add(at+".kind", "add expect: [A, B] if B is expected to have more", "a 3-afc needs to know which beer should have more")
	}
}

func (c *checker) attributes(f *Flight, at string) {
	switch f.Kind {
	case TwoAFC, ThreeAFC, Ranking:
		if f.Attribute == "" {
			c.add(at+".kind", "add attribute: bitterness, or attribute: liking for a ranking", "%s asks about one attribute", f.Kind.one())
		}
	case Profile:
		if len(f.Attributes) == 0 {
			c.add(at+".kind", "add attributes: [roast, bitterness, fullness]", "a profile scores attributes")
		}
		if f.Scale == nil {
			c.add(at+".kind", "add scale: {from: 0, to: 9}", "a profile has a scale")
		}
	default:
		if f.Attribute != "" {
			c.add(at+".attribute", "delete it, or write 2-afc", "%s names no attribute", f.Kind.one())
		}
	}
	if f.Kind != Profile && (len(f.Attributes) > 0 || f.Scale != nil) {
		c.add(at+".kind", "make it a profile, in a flight of its own", "%s has no scores", f.Kind.one())
	}
	if f.Scale != nil && !(f.Scale.From < f.Scale.To) {
		c.add(at+".scale", "write {from: 0, to: 9}", "the scale ends before it begins")
	}
	for i, name := range f.Attributes {
		if slices.Index(f.Attributes, name) < i {
			c.add(fmt.Sprintf("%s.attributes[%d]", at, i), "", "%s stands there twice", name)
		}
	}
}

func (c *checker) serving(f *Flight, at string) {
	if len(f.Serving) > 0 && f.Design == nil {
		c.add(at+".serving", "add design: with at: and the time when orders and codes were fixed", "nothing says when the plan was made")
	}
	if f.Design != nil && f.Design.Commitment != "" && !isHash(f.Design.Commitment) {
		c.add(at+".design.commitment", "", "a commitment has 64 hexadecimal digits")
	}
	low, high := f.Kind.Glasses(len(c.tasting.Letters(f)))
	sets := map[subject]bool{}
	for i, s := range f.Serving {
		path := fmt.Sprintf("%s.serving[%d]", at, i)
		c.taster(path+".taster", s.Taster)
		about := subject{taster: s.Taster, set: s.Set}
		if sets[about] {
			c.add(path, "number the sets of one taster: set: 2", "%s has this set already", s.Taster)
		}
		sets[about] = true
		if s.Set < 0 {
			c.add(path+".set", "", "there is no set %d", s.Set)
		}
		if n := len(s.Codes); n < low || n > high {
			c.add(path+".codes", "", "%s has %s, not %d", f.Kind.one(), glasses(low, high), n)
		}
		switch {
		case f.Kind == DuoTrio && s.Reference == "":
			c.add(path, "add reference: with the code of its glass", "the set of %s has no reference", s.Taster)
		case f.Kind != DuoTrio && s.Reference != "":
			c.add(path+".reference", "delete it", "%s has no reference", f.Kind.one())
		}
		c.once(path+".reference", s.Reference)
		for j, code := range s.Codes {
			c.once(fmt.Sprintf("%s.codes[%d]", path, j), code)
		}
	}
}

func glasses(low, high int) string {
	if low == high {
		return fmt.Sprintf("%d glasses", low)
	}
	return fmt.Sprintf("%d to %d glasses", low, high)
}

// once checks that a code stands on one glass of the evening only.
func (c *checker) once(path string, code Code) {
	if code == "" {
		return
	}
	if other, known := c.codes[code]; known {
		c.add(path, "every glass of the evening has a code of its own", "%s stands at %s, too", code, other)
		return
	}
	c.codes[code] = path
}

func isHash(s string) bool {
	b, err := hex.DecodeString(s)
	return err == nil && len(b) == 32
}

// key checks that it names each glass of the plan once and nothing else.
func (c *checker) key(f *Flight, at string) {
	k := f.Key
	if k == nil {
		return
	}
	if k.Nonce != "" && !isHash(k.Nonce) {
		c.add(at+".key.nonce", "", "a nonce has 64 hexadecimal digits")
	}
	if strings.Trim(k.Seed, "0123456789") != "" {
		c.add(at+".key.seed", "write digits only", "%q is no seed", k.Seed)
	}
	beers := map[Code]string{}
	letters := c.tasting.Letters(f)
	for _, letter := range slices.Sorted(maps.Keys(k.Glasses)) {
		path := at + ".key.glasses." + letter
		if !c.letter(path, letter, letters) {
			continue
		}
		for _, code := range k.Glasses[letter] {
			if beers[code] != "" {
				c.add(path, "", "glass %s is named twice in the key", code)
			}
			beers[code] = letter
		}
	}
	used := 0
	for i, s := range f.Serving {
		path := fmt.Sprintf("%s.serving[%d]", at, i)
		complete := true
		for _, code := range append([]Code{s.Reference}, s.Codes...) {
			switch {
			case code == "":
			case beers[code] == "":
				c.add(path, "the key names the beer of every glass", "glass %s is not in the key", code)
				complete = false
			default:
				used++
			}
		}
		if complete {
			c.pattern(f, k.Pattern(s), path)
		}
	}
	if used < len(beers) && len(f.Serving) > 0 {
		c.add(at+".key.glasses", "", "the key names %d glasses, the plan serves %d", len(beers), used)
	}
}

// pattern checks that a set holds the beers that its kind asks for.
func (c *checker) pattern(f *Flight, pattern, path string) {
	count := map[rune]int{}
	for _, letter := range pattern {
		count[letter]++
	}
	switch f.Kind {
	case Triangle, ThreeAFC, DuoTrio, TwoAFC, Preference:
		if len(count) != 2 {
			c.add(path, "", "the set %s has one beer only", pattern)
		}
	case Tetrad:
		for letter, n := range count {
			if n != 2 {
				c.add(path, "a tetrad has two glasses of each beer", "the set %s has %d of %c", pattern, n, letter)
				break
			}
		}
	case Ranking:
		if len(count) != len(pattern) {
			c.add(path, "each beer stands in an order once", "the set %s has a beer twice", pattern)
		}
	}
	if f.Kind == DuoTrio && len(count) == 2 && pattern[1] == pattern[2] {
		c.add(path, "one of the two is the reference", "the set %s has the same beer in both glasses", pattern)
	}
	if f.Kind == DuoTrio && f.Reference != "" && pattern[:1] != f.Reference {
		c.add(path, "", "the reference of this set is %s, that of the flight %s", pattern[:1], f.Reference)
	}
	if f.Kind == ThreeAFC && len(f.Expect) == 2 && count[rune(f.Expect[1][0])] != 1 {
		c.add(path, "the beer that should have more stands in one glass", "the set %s has the weaker beer as the odd one", pattern)
	}
}
