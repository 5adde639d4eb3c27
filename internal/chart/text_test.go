// SPDX-License-Identifier: MIT

package chart

import (
	"strings"
	"testing"
)

// A cut text fits, and three letters more wouldn't (a space and a comma at the
// end are left out).
func TestFitCutsAtTheWidth(t *testing.T) {
	l := letters{}
	for _, text := range []string{"Ferry Brown", "Wool, mallow and iron", strings.Repeat("wort ", 20_000), strings.Repeat("🍺", 400)} {
		for _, width := range []float64{0, 3, 20, 61.5, 100} {
			got := fit(text, l, width)
			if textWidth(got, l) > width {
				t.Errorf("fit(%.30q, %g) = %q is %g wide", text, width, got, textWidth(got, l))
			}
			if n := len([]rune(strings.TrimSuffix(got, "…"))); n > 0 && strings.HasSuffix(got, "…") {
				longer := string([]rune(text + "    ")[:n+3]) + "…"
				if textWidth(longer, l) <= width {
					t.Errorf("fit(%.30q, %g) = %q, and %q fits, too", text, width, got, longer)
				}
			}
		}
	}
}
