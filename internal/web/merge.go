// SPDX-License-Identifier: MIT

package web

import (
	"slices"
	"strings"
)

// merge brings two changes of one text together, line by line. It is not ok
// when both changed the same place, or places without a line between them.
func merge(base, mine, theirs string) (merged string, ok bool) {
	b, m, t := linesOf(base), linesOf(mine), linesOf(theirs)
	inMine, inTheirs := keptLines(base, mine), keptLines(base, theirs)
	var out []string
	i, j, k := 0, 0, 0 // done of base, mine and theirs
	for i < len(b) || j < len(m) || k < len(t) {
		next, nextMine, nextTheirs := i, len(m), len(t)
		for next < len(b) && (inMine[next] < 0 || inTheirs[next] < 0) {
			next++
		}
		if next < len(b) {
			nextMine, nextTheirs = inMine[next], inTheirs[next]
		}
		part, ok := mergePart(b[i:next], m[j:nextMine], t[k:nextTheirs])
		if !ok {
			return "", false
		}
		out = append(out, part...)
		if next < len(b) {
			out = append(out, b[next])
		}
		i, j, k = next+1, nextMine+1, nextTheirs+1
		if next >= len(b) {
			break
		}
	}
	return strings.Join(out, "\n") + "\n", true
}

// mergePart merges lines that stand between two lines which all three texts
// have.
func mergePart(base, mine, theirs []string) ([]string, bool) {
	switch {
	case slices.Equal(base, mine):
		return theirs, true
	case slices.Equal(base, theirs), slices.Equal(mine, theirs):
		return mine, true
	}
	return nil, false
}

// keptLines tells for each line of a text which line of the other it became,
// or -1 where it was taken out.
func keptLines(from, to string) []int {
	kept := make([]int, len(linesOf(from)))
	i, j := 0, 0
	for _, c := range compare(from, to) {
		switch c.Sign {
		case " ":
			kept[i] = j
			i, j = i+1, j+1
		case "-":
			kept[i] = -1
			i++
		default:
			j++
		}
	}
	return kept
}
