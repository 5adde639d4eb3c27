// SPDX-License-Identifier: MIT

package style_test

import (
	"fmt"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"gyle/internal/document/documenttest"
	"gyle/style"
)

// TestDocuments reads styles, and compares the faults, or the canonical text
// and every rule as it was understood.
func TestDocuments(t *testing.T) {
	documenttest.Golden(t, "testdata/*.txtar", func(files []txtar.File) string {
		text := documenttest.Canonical(t, files[0], style.Parse)
		s, err := style.Parse(files[0].Name, files[0].Data)
		if err != nil {
			return text
		}
		return text + "\n" + understood(s)
	})
}

// understood lists the rules with their subject, range, parts and condition.
func understood(s *style.Style) string {
	var out strings.Builder
	fmt.Fprintf(&out, "edge %g\n", s.EdgeShare())
	for i := range s.Rules {
		r := &s.Rules[i]
		fmt.Fprintf(&out, "%s: %s", r.Subject(), r.Phrase())
		switch {
		case r.GravityRange() != nil:
			low, _ := r.GravityRange().Low.MarshalText()
			high, _ := r.GravityRange().High.MarshalText()
			fmt.Fprintf(&out, " in %s to %s", low, high)
		case r.Subject() != style.OnCharges:
			fmt.Fprintf(&out, " in %.6g to %.6g", r.Range().Low, r.Range().High)
		}
		for _, p := range r.OfWhich {
			fmt.Fprintf(&out, ", of which %s %.6g to %.6g", p.Share.Phrase(), p.Range().Low, p.Range().High)
		}
		if c := r.When; c != nil {
			fmt.Fprintf(&out, ", when hops %q malts %v figure %q %.6g to %.6g", c.Hops, c.Malts, c.Figure, c.Span.Low, c.Span.High)
		}
		fmt.Fprintln(&out, ",", r.Severity)
	}
	return out.String()
}
