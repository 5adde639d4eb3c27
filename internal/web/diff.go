// SPDX-License-Identifier: MIT

package web

import "strings"

// change is a line of a comparison: kept (" "), taken out ("-") or put in ("+").
type change struct {
	Sign string
	Line string
}

// Class names the line for the stylesheet.
func (c change) Class() string {
	return map[string]string{"-": "out", "+": "in"}[c.Sign]
}

// maxDiff bounds the work of a comparison: lines of one text times lines of
// the other, after equal beginnings and ends are set aside.
const maxDiff = 4_000_000

// compare lists how one text becomes another, line by line.
func compare(from, to string) []change {
	a, b := linesOf(from), linesOf(to)
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		head++
	}
	tail := 0
	for tail < len(a)-head && tail < len(b)-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	list := marked(nil, " ", a[:head])
	list = middle(list, a[head:len(a)-tail], b[head:len(b)-tail])
	return marked(list, " ", a[len(a)-tail:])
}

func linesOf(text string) []string {
	text = strings.TrimSuffix(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	if text == "" {
		return nil
	}
	return strings.Split(text, "\n")
}

func marked(list []change, sign string, lines []string) []change {
	for _, l := range lines {
		list = append(list, change{sign, l})
	}
	return list
}

// middle compares by the longest common subsequence of lines. Texts that have
// too much between their equal ends are shown as replaced.
func middle(list []change, a, b []string) []change {
	if len(a)*len(b) > maxDiff {
		return marked(marked(list, "-", a), "+", b)
	}
	common := commonLines(a, b)
	i, j := 0, 0
	for i < len(a) && j < len(b) {
		switch {
		case a[i] == b[j]:
			list = append(list, change{" ", a[i]})
			i, j = i+1, j+1
		case common[i+1][j] >= common[i][j+1]:
			list = append(list, change{"-", a[i]})
			i++
		default:
			list = append(list, change{"+", b[j]})
			j++
		}
	}
	return marked(marked(list, "-", a[i:]), "+", b[j:])
}

// commonLines counts, for each place in a and b, the lines that can still be
// kept in common from there on.
func commonLines(a, b []string) [][]int32 {
	count := make([][]int32, len(a)+1)
	for i := range count {
		count[i] = make([]int32, len(b)+1)
	}
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			if a[i] == b[j] {
				count[i][j] = count[i+1][j+1] + 1
			} else {
				count[i][j] = max(count[i+1][j], count[i][j+1])
			}
		}
	}
	return count
}

// shortened leaves out kept lines that are far from any change; a left-out
// stretch becomes one line with the sign "…".
func shortened(list []change, around int) (short []change) {
	near := make([]bool, len(list))
	for i, c := range list {
		if c.Sign == " " {
			continue
		}
		for j := max(0, i-around); j <= min(len(list)-1, i+around); j++ {
			near[j] = true
		}
	}
	for i, c := range list {
		switch {
		case near[i]:
			short = append(short, c)
		case len(short) == 0 || short[len(short)-1].Sign != "…":
			short = append(short, change{Sign: "…"})
		}
	}
	return short
}

// differs reports whether a comparison has any change.
func differs(list []change) bool {
	for _, c := range list {
		if c.Sign != " " {
			return true
		}
	}
	return false
}
