// SPDX-License-Identifier: MIT

package science

import (
	"slices"
	"strings"
)

// Formula is what the comment of one function says of its formula.
type Formula struct {
	Name    string // chapter and function: "hops.IsoRate"
	Summary string // what it returns
	Text    string // the formula with its units, line by line
	Notes   string // what else must be known to use it
	Source  string // keys of [Sources], and where in them
	Valid   string // range in which it holds
	Check   string // how the code was checked
	Tag     string // how well it is known: verified, second-hand, …, estimate
}

// All returns every formula, sorted by name.
func All() []Formula { return slices.Clone(catalogue) }

// Lookup finds a formula by chapter and function: "hops.IsoRate".
func Lookup(name string) (Formula, bool) {
	i, ok := slices.BinarySearchFunc(catalogue, name, func(f Formula, name string) int {
		return strings.Compare(f.Name, name)
	})
	if !ok {
		return Formula{}, false
	}
	return catalogue[i], true
}

// Cited returns the keys of [Sources] that a formula names, in the order of
// its source line.
func (f Formula) Cited() []string {
	var keys []string
	for _, w := range strings.FieldsFunc(f.Source, func(r rune) bool { return strings.ContainsRune(" ,;:().", r) }) {
		if _, ok := Sources[w]; ok && !slices.Contains(keys, w) {
			keys = append(keys, w)
		}
	}
	return keys
}
