// SPDX-License-Identifier: MIT

package quantity

import "testing"

// The words and their numbers are common practice of descriptive panels.
func TestLevels(t *testing.T) {
	for text, want := range map[string]string{
		"2..4 of 5": "2..4 of 5", "2..4": "2..4 of 5", "low..medium": "1..3 of 5", "none": "0 of 5", "1,5..3 of 9": "1.5..3 of 9", "medium high..high": "4..5 of 5",
	} {
		var l Levels
		if err := l.UnmarshalText([]byte(text)); err != nil || l.String() != want {
			t.Errorf("%q reads as %q, %v; want %q", text, l, err, want)
		}
		var again Levels
		if err := again.UnmarshalText([]byte(l.String())); err != nil || again != l {
			t.Errorf("%q reads back as %+v, %v", l, again, err)
		}
	}
	for _, text := range []string{"4..2", "2..7", "much", "2..4 of beer", "", "..3", "-1..2", "1..NaN", "2 of 0"} {
		var l Levels
		if err := l.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q reads as %+v", text, l)
		}
	}
	for words, want := range map[string]string{"medium to high": "3..5 of 5", "medium": "3 of 5", "none to low": "0..1 of 5"} {
		if l, ok := SpokenLevels(words); !ok || l.String() != want {
			t.Errorf("%q is spoken as %v, want %s", words, l, want)
		}
	}
	if l, ok := SpokenLevels("of oats"); ok {
		t.Errorf("of oats is %v", l)
	}
}
