// SPDX-License-Identifier: MIT

package judge

import (
	"fmt"
	"strings"

	"gyle/style"
)

// Line says a verdict in one line, without the author's reason and the mend:
// "outside (advice): oats-flaked + oats-malted 18 %, 2 points above 8–16 %".
func (v Verdict) Line() string {
	s := fmt.Sprintf("%s (%s): %s", v.Word, v.Severity, v.Phrase)
	switch {
	case v.Word == Unknown || v.Word == Idle && v.Text == "":
		return s + ": " + v.Lack
	case v.Subject == style.OnCharges:
		if v.Broken() {
			return s + ": " + v.Text
		}
		return s
	case v.Broken():
		return s + " " + v.Text + ", " + v.Off + " " + strings.TrimPrefix(strings.TrimSuffix(v.Range, " or more"), "up to ")
	}
	s += " " + v.Text + " (" + v.Range + ")"
	if v.Word == Idle {
		s += ": " + v.Lack
	}
	return s
}

// String says a verdict with the author's sentence and what would mend it.
func (v Verdict) String() string {
	s := v.Line()
	if v.When != "" {
		s += "\n   when " + v.When
	}
	if v.Why != "" {
		s += "\n   “" + v.Why + "”"
	}
	if v.Mend != "" {
		s += "\n   to mend it: " + v.Mend
	}
	return s
}
