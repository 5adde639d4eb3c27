// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"slices"
	"strings"
	"time"

	"gyle/blind"
	"gyle/panel"
	"gyle/tasting"
)

// tastingRoutes are the sheets of a blind tasting, and the ballots that its
// assessors open.
func (s *Server) tastingRoutes(page func(pattern string, h handle)) {
	page("GET /new/tasting", s.newTasting)
	page("POST /new/tasting/look", s.lookTasting)
	page("POST /new/tasting/plan", s.saveNewTasting)
	page("GET /recipe/{slug}/questions", s.nextQuestions)
	page("GET /tasting/{slug}", s.tastingPage)
	page("POST /tasting/{slug}/draw", s.drawTasting)
	page("GET /tasting/{slug}/paper", s.tastingPaper)
	page("GET /tasting/{slug}/ballots.pdf", s.ballotSheets)
	page("GET /tasting/{slug}/cards.pdf", s.cardSheets)
	page("GET /tasting/{slug}/links", s.tastingLinks)
	page("GET /tasting/{slug}/answers", s.tastingAnswers)
	page("POST /tasting/{slug}/answers", s.saveTastingAnswer)
	page("POST /tasting/{slug}/open", s.openTasting)
	page("GET /tasting/{slug}/panel", s.tastingPanel)
	page("POST /tasting/{slug}/panel", s.saveTastingPanel)
	page("GET /tasting/{slug}/sheets", s.tastingSheets)
	page("POST /tasting/{slug}/sheets", s.saveTastingSheet)
	page("GET /ballot/{token}", s.ballotPage)
	page("POST /ballot/{token}", s.takeBallot)
	page("GET /pourer/{words}", s.pourerPage)
	page("GET /pourer/{words}/hand-over", s.handOver)
	page("GET /pourer/{words}/sheet.pdf", s.pourerSheet)
	page("POST /pourer/{words}/open", s.pourerOpens)
}

// tastingBody is the sheet of a tasting.
type tastingBody struct {
	Document Document
	Tasting  *tasting.Tasting
	Verdict  blind.Verdict
	Flights  []flightBody
	Log      []logAnswer
	Alcohol  string
	Caution  string
	Sealed   bool // some flight is planned and not open
	Undrawn  bool // some flight has no orders yet
	Complete bool // every set is answered
	LAN      bool
	Here     string
	beersBody
}

// flightBody is one flight with its drawings.
type flightBody struct {
	blind.Flight
	Planned *tasting.Flight
	Row     string // the answers, drawn
	Drawn   []slopeBody
}

// slopeBody is one attribute of a profile.
type slopeBody struct {
	blind.Slope
	Drawing string
}

// logAnswer is an answer that was changed or came late.
type logAnswer struct {
	Flight, Taster string
	Text           string
	Late           bool
}

// tasting reads the tasting that the address names.
func (s *Server) tasting(r *http.Request) (*tasting.Tasting, Document, error) {
	_, d, err := s.read(r)
	if err != nil {
		return nil, d, err
	}
	t, err := tasting.Parse(d.Slug, []byte(d.Text))
	return t, d, err
}

func (s *Server) tastingPage(w http.ResponseWriter, r *http.Request) error {
	t, d, err := s.tasting(r)
	if d.Deleted || err != nil && d.Text != "" {
		r.SetPathValue("kind", tasting.Kind)
		return s.document(w, r)
	}
	if err != nil {
		return err
	}
	body, err := s.tastingBody(r, t, d)
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, "page_tasting", Sheet{Title: d.Title, Chapter: d.Kind, Folio: folio(d), Notice: savedNotice(r, d), Body: body})
}

func (s *Server) tastingBody(r *http.Request, t *tasting.Tasting, d Document) (*tastingBody, error) {
	pr := handOf(r).printer()
	b := &tastingBody{Document: d, Tasting: t, Verdict: blind.Of(t, pr), Complete: true, LAN: s.options.LAN, Caution: panel.Caution, Here: "sheet"}
	for i := range t.Flights {
		f := &t.Flights[i]
		one := flightBody{Flight: b.Verdict.Flights[i], Planned: f}
		one.draw(pr)
		b.Flights = append(b.Flights, one)
		b.Undrawn = b.Undrawn || len(f.Serving) == 0
		if len(f.Serving) > 0 && f.Key == nil {
			b.Sealed = true
			b.Complete = b.Complete && len(f.Missing()) == 0
		}
		b.Log = append(b.Log, changedAnswers(f)...)
	}
	b.Alcohol = alcoholWords(t, pr)
	return b, s.table(r.Context(), &b.beersBody, t, pr)
}

// changedAnswers lists what was changed and what came late, which stays in
// sight.
func changedAnswers(f *tasting.Flight) (list []logAnswer) {
	late := map[string]bool{}
	for _, a := range f.TooLate() {
		late[a.ID] = true
		list = append(list, logAnswer{f.Name, a.Taster, "came " + a.Arrived().Format("15:04:05") + ", when the answers were closed; it doesn't count", true})
	}
	for _, a := range f.Answers {
		switch {
		case late[a.ID]:
		case a.Corrects != "":
			why := a.Why
			if why == "" {
				why = "no reason given"
			}
			list = append(list, logAnswer{f.Name, a.Taster, "changed an answer at " + a.Arrived().Format("15:04:05") + ": " + why, false})
		case !a.Came.IsZero():
			list = append(list, logAnswer{f.Name, a.Taster, "answered " + a.At.Format("15:04:05") + ", which arrived " + a.Came.Format("15:04:05"), false})
		}
	}
	return list
}

// drawTasting draws orders and codes for flights that were written by hand.
func (s *Server) drawTasting(w http.ResponseWriter, r *http.Request) error {
	slug, words := r.PathValue("slug"), ""
	_, err := ChangeTasting(r.Context(), s.book, slug, handOf(r).Author, "orders and codes drawn", func(t *tasting.Tasting) error {
		keys, err := drawFlights(t, s.now(), panel.Wish{})
		if err != nil {
			return err
		}
		if _, err := (&capForm{}).keepCap(t, keys); err != nil {
			return err
		}
		words, err = LockTastingKeys(r.Context(), s.book, slug, keys)
		return err
	})
	if err != nil {
		return refuse(err)
	}
	return seeOther(w, r, "/pourer/"+words+"/hand-over")
}

// refuse shows a fault of a tasting as words, not as something that broke.
func refuse(err error) error {
	if isFault(err) {
		return &RefusedError{strings.TrimSpace(err.Error())}
	}
	return err
}

// drawFlights draws orders and codes of all flights that have none, and fixes
// and dates them.
func drawFlights(t *tasting.Tasting, at time.Time, wish panel.Wish) (map[string]*tasting.Key, error) {
	keys := map[string]*tasting.Key{}
	var ids []string
	for _, a := range t.Panel {
		if a.Out == "" {
			ids = append(ids, a.ID)
		}
	}
	if len(ids) == 0 {
		return nil, &RefusedError{"Nobody is on the panel yet."}
	}
	for i := range t.Flights {
		f := &t.Flights[i]
		if len(f.Serving) > 0 {
			continue
		}
		wish := wish
		wish.Tasters = ids
		wish.Seed, wish.Nonce = panel.Draw()
		if i > 0 {
			wish.Sets = 1 // further questions are asked once
		}
		key, err := panel.Plan(t, f, wish, tasting.At(at))
		if err != nil {
			return nil, &RefusedError{err.Error()}
		}
		keys[f.Name] = key
	}
	if len(keys) == 0 {
		return nil, &RefusedError{"Orders and codes are drawn already; a plan is never drawn twice."}
	}
	return keys, nil
}

// servedTasters lists who is served in any flight, in the order of the panel.
func servedTasters(t *tasting.Tasting) (ids []string) {
	for i := range t.Flights {
		for _, set := range t.Flights[i].Serving {
			if !slices.Contains(ids, set.Taster) {
				ids = append(ids, set.Taster)
			}
		}
	}
	return ids
}
