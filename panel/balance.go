// SPDX-License-Identifier: MIT

package panel

import (
	"slices"

	"gyle/tasting"
)

// Counts says how balanced a plan is.
type Counts struct {
	Orders    map[string]int    // how often each order is served
	Places    map[string][]int  // of each beer: how often in each place
	Follows   map[[2]string]int // how often the first beer is tasted just before the second
	Together  map[[2]string]int // how often two beers are in one set, letters in order
	Reference map[string]int    // how often each beer is the reference
}

// Balance counts the orders of a plan by its key.
func Balance(f *tasting.Flight, key *tasting.Key) Counts {
	c := Counts{map[string]int{}, map[string][]int{}, map[[2]string]int{}, map[[2]string]int{}, map[string]int{}}
	for _, s := range f.Serving {
		c.Orders[key.Pattern(s)]++
		if s.Reference != "" {
			c.Reference[key.BeerOf(s.Reference)]++
		}
		before := ""
		var seen []string
		for place, code := range s.Codes {
			beer := key.BeerOf(code)
			for len(c.Places[beer]) < len(s.Codes) {
				c.Places[beer] = append(c.Places[beer], 0)
			}
			c.Places[beer][place]++
			if before != "" && before != beer {
				c.Follows[[2]string{before, beer}]++
			}
			for _, other := range seen {
				if other != beer {
					c.Together[[2]string{min(other, beer), max(other, beer)}]++
				}
			}
			if !slices.Contains(seen, beer) {
				seen = append(seen, beer)
			}
			before = beer
		}
	}
	return c
}
