// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/http"
	"strconv"

	"gyle/style"
)

// orderBody is the rules of a style to be put in order.
type orderBody struct {
	Document Document
	Rules    []orderLine
}

// orderLine is one rule with what may be done to it.
type orderLine struct {
	Number      int
	Phrase, Why string
	Range       string
	Severity    style.Severity
	First, Last bool
}

// styleRules lists the rules of a style, to be changed, moved or taken out.
func (s *Server) styleRules(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	st, err := style.Parse(d.Slug, []byte(d.Text))
	if err != nil {
		return seeOther(w, r, d.Path()+"/text")
	}
	sheet := styleBody{Document: d, Style: st}
	verdicts, err := sheet.judge(handOf(r).printer())
	if err != nil {
		return err
	}
	body := orderBody{Document: d}
	for _, line := range ruleLines(st, verdicts, false, handOf(r).printer()) {
		body.Rules = append(body.Rules, orderLine{
			Number: line.Number, Phrase: line.Phrase, Why: line.Why, Range: line.Range, Severity: line.Severity,
			First: line.Number == 1, Last: line.Number == len(st.Rules),
		})
	}
	return s.show(w, r, http.StatusOK, "page_style_order", Sheet{Title: "The rules of " + d.Title, Chapter: d.Kind, Folio: folio(d), Notice: savedNotice(r, d), Body: body})
}

// saveStyleRules moves a rule up or down, or takes it out. It is a revision
// like any other, so it can be gone back on.
func (s *Server) saveStyleRules(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	base, draft, err := s.openForm(r, d)
	if err != nil {
		return err
	}
	n, err := strconv.Atoi(r.PostFormValue("n"))
	if err != nil || n < 1 || n > draft.Len("rules") {
		return errBadForm
	}
	why, to := "", n
	switch r.PostFormValue("do") {
	case "up":
		why, to = fmt.Sprintf("rule %d moved up", n), n-1
	case "down":
		why, to = fmt.Sprintf("rule %d moved down", n), n+1
	case "remove":
		why = fmt.Sprintf("rule %d taken out", n)
		draft.Remove(rulePath(n - 1))
	default:
		return errBadForm
	}
	if to != n && !draft.Move("rules", n-1, to-1) {
		return seeOther(w, r, d.Path()+"/rules")
	}
	text, err := draftText(d.Kind, draft)
	if err != nil {
		return err
	}
	_, err = s.Save(w, r, Draft{Kind: d.Kind, Slug: d.Slug, Text: text, Author: handOf(r).Author, Why: why, Base: base})
	var conflict *ConflictError
	if errors.As(err, &conflict) {
		return &RefusedError{"Somebody changed the style in the meantime. Nothing was done; look at its rules once more."}
	}
	if err != nil {
		return err
	}
	return seeOther(w, r, fmt.Sprintf("%s/rules?done=saved#rule-%d", d.Path(), to))
}
