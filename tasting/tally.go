// SPDX-License-Identifier: MIT

package tasting

import (
	"math"
	"slices"
)

// Tally is the answers of a flight, counted by its key.
type Tally struct {
	Sets     int            // served
	Answered int            // sets, or glasses where they are judged one by one
	Right    int            // of a choice
	For      map[string]int // named, preferred, or called A: by letter
	NotA     map[string]int // called not A
	None     int            // no preference
	ByPlace  []int          // how often each glass was named, by its place
	RightIn  []int          // of those, right
}

// Tally counts the answers that stand. It needs the key.
func (f *Flight) Tally() (Tally, bool) {
	t := Tally{Sets: len(f.Serving), For: map[string]int{}, NotA: map[string]int{}}
	if f.Key == nil {
		return t, false
	}
	for _, a := range f.Standing() {
		s, ok := f.served(a.Answer)
		if !ok {
			continue
		}
		t.Answered++
		right := f.Right(a.Answer)
		if right {
			t.Right++
		}
		switch a.Says {
		case sayNone:
			t.None++
			continue
		case sayNotA:
			t.NotA[f.Key.BeerOf(a.Code)]++
			continue
		}
		if place := slices.Index(s.Codes, a.Code); place >= 0 {
			t.For[f.Key.BeerOf(a.Code)]++
			for len(t.ByPlace) < len(s.Codes) {
				t.ByPlace, t.RightIn = append(t.ByPlace, 0), append(t.RightIn, 0)
			}
			t.ByPlace[place]++
			if right {
				t.RightIn[place]++
			}
		}
	}
	return t, true
}

// Stages returns the flight cut in two by its look: the sets before it with
// their answers, and all others. Without a look the first part is the whole.
func (f *Flight) Stages() (first, rest Flight) {
	first, rest = *f, *f
	if f.Look == nil {
		rest.Serving, rest.Answers = nil, nil
		return first, rest
	}
	cut := min(f.Look.After, len(f.Serving))
	first.Serving, rest.Serving = f.Serving[:cut], f.Serving[cut:]
	first.Answers, rest.Answers = nil, nil
	for _, a := range f.Answers {
		if _, early := first.served(a); early {
			first.Answers = append(first.Answers, a)
		} else {
			rest.Answers = append(rest.Answers, a)
		}
	}
	return first, rest
}

// stopped reports whether a flight with a look ended there: the first stage is
// answered in full, and nothing of the second.
func (f *Flight) stopped() bool {
	first, rest := f.Stages()
	return f.Look != nil && len(first.Missing()) == 0 && len(rest.Answers) == 0
}

// served returns the set that an answer is about.
func (f *Flight) served(a Answer) (Serving, bool) {
	for _, s := range f.Serving {
		if s.Taster == a.Taster && s.Set == a.Set {
			return s, true
		}
	}
	return Serving{}, false
}

// Right reports whether an answer to a choice, or to A or not A, is right. It
// needs the key. The expected order of a directional choice says which beer is
// the stronger; without one no answer is right or wrong.
func (f *Flight) Right(a Answer) bool {
	s, ok := f.served(a)
	if !ok || f.Key == nil {
		return false
	}
	beer := f.Key.BeerOf(a.Code)
	switch f.Kind {
	case Triangle:
		odd := f.Key.Odd(s)
		return odd > 0 && s.Codes[odd-1] == a.Code
	case DuoTrio:
		return beer != "" && beer == f.Key.BeerOf(s.Reference)
	case TwoAFC, ThreeAFC:
		return len(f.Expect) > 0 && beer == f.Expect[len(f.Expect)-1]
	case Tetrad:
		return len(a.Codes) == 2 && f.Key.BeerOf(a.Codes[0]) == f.Key.BeerOf(a.Codes[1])
	case ANotA:
		return (a.Says == sayA) == (beer == f.Reference)
	}
	return false
}

// Orders returns the ranks that assessors gave: a row for each answer that
// stands, a column for each letter, 1 for the first of the order. Beers that an
// assessor didn't get have rank 0. It needs the key.
func (f *Flight) Orders(letters []string) (tasters []string, ranks [][]float64) {
	if f.Key == nil {
		return nil, nil
	}
	for _, a := range f.Standing() {
		row := make([]float64, len(letters))
		for place, code := range a.Codes {
			if column := slices.Index(letters, f.Key.BeerOf(code)); column >= 0 {
				row[column] = float64(place + 1)
			}
		}
		tasters, ranks = append(tasters, a.Taster), append(ranks, row)
	}
	return tasters, ranks
}

// ScoresOf returns the scores of one attribute, a row for each assessor in the
// order of their first answer and a column for each letter; several glasses of a
// beer give their mean. What was not assessed is NaN. It needs the key.
func (f *Flight) ScoresOf(attribute string, letters []string) (tasters []string, scores [][]float64) {
	if f.Key == nil {
		return nil, nil
	}
	var counts [][]float64
	for _, a := range f.Standing() {
		score, given := a.Scores.Get(attribute)
		column := slices.Index(letters, f.Key.BeerOf(a.Code))
		if !given || column < 0 {
			continue
		}
		row := slices.Index(tasters, a.Taster)
		if row < 0 {
			row = len(tasters)
			tasters = append(tasters, a.Taster)
			scores, counts = append(scores, make([]float64, len(letters))), append(counts, make([]float64, len(letters)))
		}
		scores[row][column] += score
		counts[row][column]++
	}
	for i, row := range scores {
		for j := range row {
			if row[j] /= counts[i][j]; counts[i][j] == 0 {
				row[j] = math.NaN()
			}
		}
	}
	return tasters, scores
}

// What answers and sheets can say.
const (
	sayA         = "a"
	sayNotA      = "not a"
	sayNone      = "none"
	sayTooLittle = "too little"
	sayRight     = "right"
	sayTooMuch   = "too much"
)
