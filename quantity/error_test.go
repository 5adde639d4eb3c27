// SPDX-License-Identifier: MIT

package quantity

import "testing"

// An error names the text and what it was read as, or the message alone where
// that says it all.
func TestParseErrorOnOneLine(t *testing.T) {
	_, err := ParseMass("9")
	if got, want := err.Error(), `read "9" as a mass: the unit is missing`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	said := &ParseError{Text: "bse", Msg: `"bse" is no role of a grain`, Hint: "write base"}
	if got, want := said.Error(), `"bse" is no role of a grain`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
