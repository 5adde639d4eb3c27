// SPDX-License-Identifier: MIT

package document

import "strings"

// longestWord is the longest word [Nearest] looks at, in characters.
const longestWord = 48

// Nearest returns the known word that was probably meant by word: the one with
// the fewest slips of the pen between them, when these are at most a third of
// the word's length and at most three. Upper and lower case count as the same.
func Nearest(word string, known []string) (string, bool) {
	lower := []rune(strings.ToLower(word))
	if len(lower) == 0 || len(lower) > longestWord {
		return "", false
	}
	limit := min(3, max(1, len(lower)/3))
	best, nearest := limit+1, ""
	for _, candidate := range known {
		other := []rune(strings.ToLower(candidate))
		if len(other) > longestWord || len(other)-len(lower) > limit || len(lower)-len(other) > limit {
			continue
		}
		if d := slips(lower, other); d < best && d < len(other) {
			best, nearest = d, candidate
		}
	}
	return nearest, best <= limit
}

// slips counts the letters to insert, delete, replace or swap with their
// neighbour to make b of a (optimal string alignment distance).
func slips(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
