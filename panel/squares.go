// SPDX-License-Identifier: MIT

package panel

import "slices"

// Williams returns orders of k beers in which every beer stands in every place
// equally often and follows every other equally often: k orders for an even
// number, 2·k for an odd one (Williams 1949; tables for 4 to 16 samples in
// MacFie, Bratchell, Greenhoff and Vallis 1989, abstract). The first row is 0,
// 1, k − 1, 2, k − 2 …; each further row adds one to all, modulo k; an odd
// number needs the reversed rows, too.
func Williams(k int) [][]int {
	if k < 1 {
		return nil
	}
	first := make([]int, k)
	for place := range first {
		if place%2 == 1 {
			first[place] = (place + 1) / 2
		} else {
			first[place] = (k - place/2) % k
		}
	}
	var rows [][]int
	for shift := range k {
		row := make([]int, k)
		for place, beer := range first {
			row[place] = (beer + shift) % k
		}
		rows = append(rows, row)
	}
	if k%2 == 1 && k > 1 {
		for _, row := range slices.Clone(rows) {
			back := slices.Clone(row)
			slices.Reverse(back)
			rows = append(rows, back)
		}
	}
	return rows
}

// blocksOf lists balanced incomplete blocks: each beer as often as any other,
// each pair of beers together equally often. Those of cyclic designs are made
// by adding 1, 2 … modulo the number of beers (well-known designs, from memory;
// their balance is tested).
var blocksOf = map[[2]int][][]int{
	{6, 3}:  digits("012 013 024 035 045 125 134 145 234 235"),
	{9, 3}:  digits("012 345 678 036 147 258 048 156 237 057 138 246"),
	{8, 4}:  digits("0123 4567 0145 2367 0167 2345 0246 1357 0257 1346 0347 1256 0356 1247"),
	{7, 3}:  cyclic(7, 0, 1, 3),
	{7, 4}:  cyclic(7, 2, 4, 5, 6), // what the blocks of three leave out
	{11, 5}: cyclic(11, 1, 3, 4, 5, 9),
	{13, 4}: cyclic(13, 0, 1, 3, 9),
}

// mostBlocks bounds the designs that take every choice of beers.
const mostBlocks = 24

// Blocks returns a balanced incomplete design: which m of k beers each block
// has. It returns false when none is known that is small enough.
func Blocks(k, m int) ([][]int, bool) {
	if blocks, ok := blocksOf[[2]int{k, m}]; ok {
		return blocks, true
	}
	if m < 2 || m > k {
		return nil, false
	}
	all := choices(k, m, mostBlocks)
	return all, all != nil
}

func digits(text string) (blocks [][]int) {
	block := []int{}
	for _, c := range text + " " {
		if c == ' ' {
			blocks, block = append(blocks, block), []int{}
			continue
		}
		block = append(block, int(c-'0'))
	}
	return blocks
}

func cyclic(k int, first ...int) (blocks [][]int) {
	for shift := range k {
		block := make([]int, len(first))
		for i, beer := range first {
			block[i] = (beer + shift) % k
		}
		blocks = append(blocks, block)
	}
	return blocks
}

// choices returns every choice of m out of k, or nothing if there are more
// than most.
func choices(k, m, most int) (all [][]int) {
	choice := make([]int, m)
	for i := range choice {
		choice[i] = i
	}
	for {
		if all = append(all, slices.Clone(choice)); len(all) > most {
			return nil
		}
		i := m - 1
		for i >= 0 && choice[i] == k-m+i {
			i--
		}
		if i < 0 {
			return all
		}
		choice[i]++
		for j := i + 1; j < m; j++ {
			choice[j] = choice[j-1] + 1
		}
	}
}
