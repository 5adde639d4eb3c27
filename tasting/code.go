// SPDX-License-Identifier: MIT

package tasting

import (
	"fmt"
	"slices"

	"gyle/quantity"
)

// Code is what stands on a glass: three digits, the first not zero.
type Code string

// UnmarshalText reads a code.
func (c *Code) UnmarshalText(b []byte) error {
	if len(b) != 3 || b[0] < '1' || b[0] > '9' || !digit(b[1]) || !digit(b[2]) {
		return &quantity.ParseError{Text: string(b), Msg: fmt.Sprintf("%q is no code", b), Hint: "write three digits, the first not 0: 527"}
	}
	*c = Code(b)
	return nil
}

func digit(b byte) bool { return b >= '0' && b <= '9' }

// MarshalText writes the code.
func (c Code) MarshalText() ([]byte, error) { return []byte(c), nil }

// Loaded are codes that mean something to people: calls for help and the like.
var Loaded = []Code{"112", "187", "666", "911", "999"}

// Misread says why a code is easily misread or remembered, or nothing.
func (c Code) Misread() string {
	if len(c) != 3 {
		return "is no code"
	}
	first, second, third := c[0], c[1], c[2]
	switch {
	case second == '0' || third == '0':
		return "has a 0, which is read as 6, 8 or O"
	case first == second || second == third || first == third:
		return "repeats a digit"
	case second == first+1 && third == second+1, second+1 == first && third+1 == second:
		return "is a run"
	}
	return ""
}

// Ominous says why a code is better left out, or nothing: it is easily misread
// or means something to people.
func (c Code) Ominous() string {
	if slices.Contains(Loaded, c) {
		return "means something to people"
	}
	return c.Misread()
}

// Apart returns in how many places two codes differ.
func (c Code) Apart(d Code) (places int) {
	for i := range min(len(c), len(d)) {
		if c[i] != d[i] {
			places++
		}
	}
	return places
}
