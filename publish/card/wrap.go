// SPDX-License-Identifier: MIT

package card

import (
	"strings"

	"gyle/publish/font"
)

// phrase is one line of a text that was broken into lines.
type phrase struct {
	text string
	glue bool // it goes on inside a word that was too long for a line
}

// wrap breaks text into lines of a width. A word that is wider than a line is
// broken anywhere. It loses nothing: see joined.
func wrap(face font.Face, size float64, text string, width float64) (lines []phrase) {
	line, used := "", 0.0
	glue := false
	space := face.Width("n n", size) - face.Width("nn", size)
	flush := func() {
		if line != "" {
			lines = append(lines, phrase{line, glue})
		}
		line, used, glue = "", 0, false
	}
	for word := range strings.SplitSeq(font.Clean(text), " ") {
		wide := face.Width(word, size)
		switch {
		case word == "":
			continue
		case line != "" && used+space+wide <= width:
			line, used = line+" "+word, used+space+wide
			continue
		}
		flush()
		for wide > width {
			head := fitting(face, size, word, width)
			lines = append(lines, phrase{head, glue})
			word, glue = word[len(head):], true
			wide = face.Width(word, size)
		}
		line, used = word, wide
	}
	flush()
	return lines
}

// fitting returns the longest beginning of a word that fits into a width, one
// letter at least.
func fitting(face font.Face, size float64, word string, width float64) string {
	end, used := 0, 0.0
	for i, r := range word {
		wide := face.Width(string(r), size)
		if i > 0 && used+wide > width {
			break
		}
		end, used = i+len(string(r)), used+wide
	}
	return word[:end]
}

// joined puts lines together again.
func joined(lines []phrase) string {
	var out strings.Builder
	for i, l := range lines {
		if i > 0 && !l.glue {
			out.WriteByte(' ')
		}
		out.WriteString(l.text)
	}
	return out.String()
}

// tight keeps a number and its unit on one line.
func tight(text string) string {
	words := strings.Split(font.Clean(text), " ")
	var out strings.Builder
	for i, word := range words {
		out.WriteString(word)
		if i+1 == len(words) {
			break
		}
		if endsInDigit(word) && isUnit(words[i+1]) {
			out.WriteRune('\u00A0')
		} else {
			out.WriteByte(' ')
		}
	}
	return out.String()
}

func endsInDigit(word string) bool {
	return word != "" && word[len(word)-1] >= '0' && word[len(word)-1] <= '9'
}

// units that stand behind numbers; a longer word is no unit.
func isUnit(word string) bool {
	word = strings.TrimRight(word, ".,;:)")
	const longest = 8 // "M/mL/°P"
	if len(word) == 0 || len(word) > longest+2 {
		return false
	}
	switch word {
	case "%", "°C", "°F", "L", "mL", "g", "kg", "min", "h", "d", "s", "EBC", "SRM", "IBU", "vol", "bar", "psi", "lb", "oz", "g/L", "mg/L", "L/kg", "°P", "mEq/L", "M/mL/°P", "mL/hL", "mL/100", "US":
		return true
	}
	return false
}
