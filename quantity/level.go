// SPDX-License-Identifier: MIT

package quantity

import (
	"fmt"
	"strconv"
	"strings"
)

// LevelWords are the words for how much of something is tasted, from 0 to 5.
// Each stands for half a step to either side.
var LevelWords = []string{"none", "low", "medium-low", "medium", "medium-high", "high"}

// MostLevel is the number of the last of [LevelWords].
const MostLevel = 5

// ParseLevel reads a level on the scale of [LevelWords]: a word or a number.
func ParseLevel(text string) (float64, error) {
	word := strings.ToLower(strings.TrimSpace(text))
	for i, w := range LevelWords {
		if word == w || word == strings.ReplaceAll(w, "-", " ") {
			return float64(i), nil
		}
	}
	level, err := strconv.ParseFloat(strings.ReplaceAll(word, ",", "."), 64)
	if err != nil || !(level >= 0) || level > 1e6 {
		return 0, &ParseError{Text: text, What: "a level", Msg: "it is neither a number nor a word for how much", Hint: "write 0 to 5, or " + strings.Join(LevelWords, ", ")}
	}
	return level, nil
}

// Levels is how much of something is wanted, on a scale from 0 to Of.
type Levels struct{ Low, High, Of float64 }

// UnmarshalText reads "2..4 of 5", "2..4" (of 5) or "low..medium".
func (l *Levels) UnmarshalText(text []byte) error {
	hint := "write 2..4 of 5, or low..medium"
	reach, of, scaled := strings.Cut(string(text), " of ")
	found := Levels{Of: MostLevel}
	var err error
	if scaled {
		if found.Of, err = ParseLevel(of); err != nil || found.Of <= 0 {
			return &ParseError{Text: string(text), What: "levels", Msg: fmt.Sprintf("%q is no end of a scale", strings.TrimSpace(of)), Hint: hint}
		}
	}
	low, high, ranged := strings.Cut(reach, "..")
	if !ranged {
		high = low
	}
	if found.Low, err = ParseLevel(low); err == nil {
		found.High, err = ParseLevel(high)
	}
	switch {
	case err != nil:
		return &ParseError{Text: string(text), What: "levels", Msg: "an end is neither a number nor a word for how much", Hint: hint}
	case found.Low > found.High:
		return &ParseError{Text: string(text), What: "levels", Msg: "the lower end is above the upper end", Hint: "put the smaller one first"}
	case found.High > found.Of:
		return &ParseError{Text: string(text), What: "levels", Msg: fmt.Sprintf("%g is not on a scale to %g", found.High, found.Of), Hint: hint}
	}
	*l = found
	return nil
}

// MarshalText writes the range with its scale: "2..4 of 5".
func (l Levels) MarshalText() ([]byte, error) {
	number := func(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
	text := number(l.Low)
	if l.High != l.Low {
		text += ".." + number(l.High)
	}
	return []byte(text + " of " + number(l.Of)), nil
}

// String returns the range as it is written.
func (l Levels) String() string {
	text, _ := l.MarshalText()
	return string(text)
}

// SpokenLevels reads a range in words, such as "low to medium"; false where they
// say nothing of how much.
func SpokenLevels(words string) (Levels, bool) {
	low, high, ranged := strings.Cut(strings.ToLower(strings.TrimSpace(words)), " to ")
	if !ranged {
		high = low
	}
	var ends [2]float64
	for i, word := range []string{low, high} {
		level, err := ParseLevel(word)
		if err != nil || level > MostLevel {
			return Levels{}, false
		}
		ends[i] = level
	}
	return Levels{ends[0], ends[1], MostLevel}, ends[0] <= ends[1]
}
