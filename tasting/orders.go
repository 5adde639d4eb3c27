// SPDX-License-Identifier: MIT

package tasting

import (
	"fmt"
	"slices"
	"strings"
)

// orders says when the orders of a set are not equally often on the table.
func (r *remarker) orders(f *Flight, at string) {
	if f.Key == nil || len(f.Serving) == 0 {
		return
	}
	count := map[string]int{}
	for _, s := range f.Serving {
		count[f.Key.Pattern(s)]++
	}
	patterns := r.tasting.Patterns(f)
	if len(patterns) == 0 {
		r.places(f, at)
		return
	}
	low, high := len(f.Serving), 0
	var parts []string
	for _, p := range patterns {
		low, high = min(low, count[p]), max(high, count[p])
		parts = append(parts, fmt.Sprintf("%s %d", p, count[p]))
	}
	switch {
	case high-low > 1:
		r.add(Doubt, at+".serving", "let the plan be made: it gives each order equally often", "orders are out of balance: %s", strings.Join(parts, ", "))
	case high > low:
		r.add(Advice, at+".serving", fmt.Sprintf("a panel of a multiple of %d has each order equally often", len(patterns)), "orders are not equally often: %s", strings.Join(parts, ", "))
	}
}

// places says when a beer stands first more often than another.
func (r *remarker) places(f *Flight, at string) {
	first := map[string]int{}
	for _, s := range f.Serving {
		if len(s.Codes) > 0 {
			first[f.Key.BeerOf(s.Codes[0])]++
		}
	}
	low, high := len(f.Serving), 0
	var parts []string
	for _, letter := range r.tasting.Letters(f) {
		low, high = min(low, first[letter]), max(high, first[letter])
		parts = append(parts, fmt.Sprintf("%s %d", letter, first[letter]))
	}
	if high-low > 1 && f.Kind != ANotA {
		r.add(Doubt, at+".serving", "the first glass is scored highest: let the plan be made, it balances places", "beers don't come first equally often: %s", strings.Join(parts, ", "))
	}
}

// orderOf returns the letters that stand for A and B in the patterns of a kind:
// the reference in front, or the order that is expected.
func (t *Tasting) orderOf(f *Flight) []string {
	letters := slices.Clone(t.Letters(f))
	if f.Kind == ThreeAFC && len(f.Expect) == len(letters) {
		return f.Expect
	}
	if f.Reference != "" && len(letters) == 2 && letters[1] == f.Reference {
		slices.Reverse(letters)
	}
	return letters
}

// Patterns returns the orders in which a flight of two beers is balanced, in
// its own letters; a duo-trio with one reference has half of them.
func (t *Tasting) Patterns(f *Flight) []string {
	letters := t.orderOf(f)
	if len(letters) < 2 {
		return nil
	}
	var own []string
	names := strings.NewReplacer("A", letters[0], "B", letters[1])
	for _, p := range f.Kind.Patterns() {
		if f.Kind == DuoTrio && f.Reference != "" && p[0] != 'A' {
			continue
		}
		own = append(own, names.Replace(p))
	}
	return own
}
