// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"net/http"
	"strings"
)

// planHead answers with the stylesheet that sets the running head of the
// printed sheet: recipe, version, house and day. Margins of a page take their
// text from a stylesheet alone.
func (s *Server) planHead(w http.ResponseWriter, r *http.Request) error {
	p, err := s.readPlan(r.Context(), readPlanQuery(r.URL.Query()))
	if _, faulty := err.(fieldFaults); err != nil && !faulty {
		return err
	}
	head := "Plan of a brew"
	if p.in.Recipe != nil && p.in.House != nil {
		head = recipeName(p) + " · " + p.in.House.Name
	}
	h := w.Header()
	h.Set("Content-Type", "text/css; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	fmt.Fprintf(w, "@page { @top-left { content: %s; } @top-right { content: %s; } }\n", cssString(head), cssString("planned "+s.today()))
	return nil
}

// cssString quotes a text for a stylesheet. Everything but plain letters and
// digits is written by its number, so that no text can end the string.
func cssString(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		if r == ' ' || '0' <= r && r <= '9' || 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' {
			b.WriteRune(r)
			continue
		}
		fmt.Fprintf(&b, `\%06X `, r)
	}
	b.WriteByte('"')
	return b.String()
}
