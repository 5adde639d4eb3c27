// SPDX-License-Identifier: MIT

package tasting

import (
	"fmt"
	"strings"

	"gyle/internal/document"
	"gyle/quantity"
)

// Method is the way a flight asks.
type Method string

// The methods.
const (
	Triangle   Method = "triangle"   // three glasses, two alike: which is the odd one?
	DuoTrio    Method = "duo-trio"   // a reference and two glasses: which is the reference?
	TwoAFC     Method = "2-afc"      // two glasses: which has more of an attribute?
	ThreeAFC   Method = "3-afc"      // three glasses, two alike: which has most of an attribute?
	Tetrad     Method = "tetrad"     // four glasses: sort them into two groups of two
	ANotA      Method = "a-not-a"    // single glasses: is this the beer just learnt?
	Preference Method = "preference" // two glasses: which do you prefer?
	Ranking    Method = "ranking"    // three or more glasses: put them in order
	Profile    Method = "profile"    // how much of each attribute?
)

// Methods lists all methods.
var Methods = []Method{Triangle, DuoTrio, TwoAFC, ThreeAFC, Tetrad, ANotA, Preference, Ranking, Profile}

// UnmarshalText reads a method.
func (m *Method) UnmarshalText(b []byte) error {
	word := strings.ToLower(strings.TrimSpace(string(b)))
	var names []string
	for _, known := range Methods {
		if word == string(known) {
			*m = known
			return nil
		}
		names = append(names, string(known))
	}
	hint := "write " + strings.Join(names, ", ")
	if near, ok := document.Nearest(word, names); ok {
		hint = "write " + near
	}
	return &quantity.ParseError{Text: string(b), Msg: fmt.Sprintf("%q is no kind of flight", b), Hint: hint}
}

// MarshalText writes the method.
func (m Method) MarshalText() ([]byte, error) { return []byte(m), nil }

// one returns the method with its article.
func (m Method) one() string {
	if m == ANotA {
		return "an " + string(m)
	}
	return "a " + string(m)
}

// Pair reports whether a flight of this kind compares exactly two beers.
func (m Method) Pair() bool { return m != Ranking && m != Profile }

// Choice reports whether its answers are right or wrong.
func (m Method) Choice() bool {
	switch m {
	case Triangle, DuoTrio, TwoAFC, ThreeAFC, Tetrad:
		return true
	}
	return false
}

// ByGlass reports whether each glass is answered alone.
func (m Method) ByGlass() bool { return m == ANotA || m == Profile }

// Glasses returns how many coded glasses a set has, the reference of a duo-trio
// not counted; beers are those of the flight. The highest may be more than the
// lowest: a flight may serve some of the beers only.
func (m Method) Glasses(beers int) (low, high int) {
	switch m {
	case Triangle, ThreeAFC:
		return 3, 3
	case DuoTrio, TwoAFC, Preference:
		return 2, 2
	case Tetrad:
		return 4, 4
	case ANotA:
		return 1, 8
	case Ranking:
		return 2, max(beers, 2)
	}
	return 1, max(2*beers, 2)
}

// Patterns returns the orders in which a flight of two beers is balanced. A is
// the first beer, B the second; a duo-trio has its reference in front. There
// are none for [ANotA], [Ranking] and [Profile].
func (m Method) Patterns() []string {
	switch m {
	case Triangle:
		return []string{"AAB", "ABA", "BAA", "ABB", "BAB", "BBA"}
	case DuoTrio:
		return []string{"AAB", "ABA", "BAB", "BBA"}
	case TwoAFC, Preference:
		return []string{"AB", "BA"}
	case ThreeAFC: // the second beer is the stronger one
		return []string{"AAB", "ABA", "BAA"}
	case Tetrad:
		return []string{"AABB", "ABAB", "ABBA", "BBAA", "BABA", "BAAB"}
	}
	return nil
}
