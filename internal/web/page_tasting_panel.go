// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"gyle/internal/document"
	"gyle/panel"
	"gyle/tasting"
)

// panelBody is where the seats of a panel are filled.
type panelBody struct {
	*tastingBody
	Seats   []seatRow
	Add     string // seats to add
	Fixed   string // when orders were fixed; empty: seats may come and go
	Problem string
	Drawn   bool // every flight has its orders
}

// seatRow is one seat as it is typed.
type seatRow struct {
	tasting.Assessor
	Number int
	Gone   bool
}

func (s *Server) tastingPanel(w http.ResponseWriter, r *http.Request) error {
	t, d, err := s.tasting(r)
	if err != nil {
		return err
	}
	return s.showPanel(w, r, http.StatusOK, t, d, panelBody{Seats: seatsOf(t.Panel)})
}

func seatsOf(panel []tasting.Assessor) (rows []seatRow) {
	for i, a := range panel {
		rows = append(rows, seatRow{Assessor: a, Number: i})
	}
	return rows
}

func (s *Server) showPanel(w http.ResponseWriter, r *http.Request, status int, t *tasting.Tasting, d Document, body panelBody) error {
	body.tastingBody = &tastingBody{Document: d, Tasting: t, Here: "panel", LAN: s.options.LAN, Caution: panel.Caution}
	if at, fixed := t.Fixed(); fixed {
		body.Fixed = at.Format("2 January 2006, 15:04")
	}
	body.Drawn = true
	for _, f := range t.Flights {
		body.Drawn = body.Drawn && len(f.Serving) > 0
	}
	return s.show(w, r, status, "page_tasting_panel", Sheet{Title: "Panel: " + d.Title, Chapter: d.Kind, Notice: savedNotice(r, d), Body: body})
}

// saveTastingPanel keeps the panel. What can't be is said, and what was typed
// stays in the form.
func (s *Server) saveTastingPanel(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	t, d, err := s.tasting(r)
	if err != nil {
		return err
	}
	body := panelBody{Seats: readSeats(r.PostForm), Add: strings.TrimSpace(r.PostForm.Get("add"))}
	seats, err := body.panel()
	if err == nil {
		_, err = ChangeTasting(r.Context(), s.book, d.Slug, handOf(r).Author, "the panel", func(kept *tasting.Tasting) error {
			return kept.Seat(keepWord(kept.Panel, seats))
		})
	}
	if body.Problem = panelProblem(err); body.Problem != "" {
		return s.showPanel(w, r, http.StatusUnprocessableEntity, t, d, body)
	}
	if err != nil {
		return err
	}
	return seeOther(w, r, "/tasting/"+d.Slug+"/panel")
}

// keepWord keeps why somebody withdrew, in the words that stand there.
func keepWord(before, after []tasting.Assessor) []tasting.Assessor {
	for i := range after {
		for _, b := range before {
			if b.ID == after[i].ID && b.Out != "" && after[i].Out != "" {
				after[i].Out = b.Out
			}
		}
	}
	return after
}

// panelProblem says in words why a panel isn't kept; empty for what broke.
func panelProblem(err error) string {
	var fixed *tasting.FixedError
	var faults document.Faults
	var refused *RefusedError
	switch {
	case errors.As(err, &fixed):
		return sentence(fixed.Error())
	case errors.As(err, &refused):
		return refused.Reason
	case errors.As(err, &faults):
		return sentence(faults[0].Msg) + " " + sentence(faults[0].Hint)
	}
	return ""
}

// readSeats takes the rows as they were typed.
func readSeats(form url.Values) (rows []seatRow) {
	for i := range mostTasters {
		n := strconv.Itoa(i)
		if !form.Has("id-" + n) {
			break
		}
		row := seatRow{Number: i, Gone: form.Has("gone-" + n)}
		row.ID, row.Name = strings.TrimSpace(form.Get("id-"+n)), shortName(form.Get("name-"+n))
		row.Trained, row.OfAge = form.Has("trained-"+n), form.Has("age-"+n)
		if form.Has("out-" + n) {
			row.Out = "withdrew"
		}
		rows = append(rows, row)
	}
	return rows
}

// panel makes the panel of the form.
func (b *panelBody) panel() (seats []tasting.Assessor, err error) {
	for _, row := range b.Seats {
		if !row.Gone {
			seats = append(seats, row.Assessor)
		}
	}
	if b.Add != "" {
		n, err := strconv.Atoi(b.Add)
		if err != nil || n < 0 || len(seats)+n > mostTasters {
			return nil, &RefusedError{fmt.Sprintf("Say how many seats to add; a panel has up to %d.", mostTasters)}
		}
		seats = tasting.MoreSeats(seats, n)
	}
	if len(seats) == 0 {
		return nil, &RefusedError{"A panel needs one seat at least."}
	}
	return seats, nil
}

// seatTasting keeps a tasting whose orders aren't drawn yet, so that its panel can
// be seated first.
func (s *Server) seatTasting(w http.ResponseWriter, r *http.Request, f tastingForm) (slug string, err error) {
	if size, err := f.size(); err == nil && (size.Sets > 1 || size.Glasses > 0 || size.Stages > 0) {
		return "", &RefusedError{"Several trays, part of the beers for each, or a look before the end are drawn at once: fix the design now."}
	}
	t, err := s.designed(r, f)
	if err != nil {
		return "", err
	}
	text, err := t.Text()
	if err != nil {
		return "", err
	}
	if slug, err = s.freeSlug(r.Context(), tasting.Kind, t.Name); err != nil {
		return "", err
	}
	_, err = s.Save(w, r, Draft{Kind: tasting.Kind, Slug: slug, Text: string(text), Author: f.Author, Why: "designed, not drawn yet"})
	return slug, err
}
