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
	page("GET /tasting/{slug}", s.tastingPage)
	page("POST /tasting/{slug}/draw", s.drawTasting)
	page("GET /tasting/{slug}/pourer", s.tastingPourer)
	page("GET /tasting/{slug}/paper", s.tastingPaper)
	page("GET /tasting/{slug}/links", s.tastingLinks)
	page("GET /tasting/{slug}/answers", s.tastingAnswers)
	page("POST /tasting/{slug}/answers", s.saveTastingAnswer)
	page("POST /tasting/{slug}/open", s.openTasting)
	page("GET /tasting/{slug}/sheets", s.tastingSheets)
	page("POST /tasting/{slug}/sheets", s.saveTastingSheet)
	page("GET /ballot/{token}", s.ballotPage)
	page("POST /ballot/{token}", s.takeBallot)
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
	HasKey   bool // the book holds the keys that are missing
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
	keys, err := TastingKeys(r.Context(), s.book, d.Slug)
	if err != nil {
		return nil, err
	}
	b.HasKey = true
	for i := range t.Flights {
		f := &t.Flights[i]
		one := flightBody{Flight: b.Verdict.Flights[i], Planned: f}
		one.draw(pr)
		b.Flights = append(b.Flights, one)
		b.Undrawn = b.Undrawn || len(f.Serving) == 0
		if len(f.Serving) > 0 && f.Key == nil {
			b.Sealed = true
			b.HasKey = b.HasKey && keys[f.Name] != nil
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
	slug := r.PathValue("slug")
	var keys map[string]*tasting.Key
	_, err := ChangeTasting(r.Context(), s.book, slug, handOf(r).Author, "orders and codes drawn", func(t *tasting.Tasting) (err error) {
		keys, err = drawFlights(t, s.now())
		if err != nil {
			return err
		}
		return KeepTastingKeys(r.Context(), s.book, slug, keys)
	})
	if err != nil {
		return refuse(err)
	}
	return seeOther(w, r, "/tasting/"+slug)
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
func drawFlights(t *tasting.Tasting, at time.Time) (map[string]*tasting.Key, error) {
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
		seed, nonce := panel.Draw()
		key, err := panel.Plan(t, f, panel.Wish{Tasters: ids, Seed: seed, Nonce: nonce}, tasting.At(at))
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

// openTasting closes the answers and opens the keys.
func (s *Server) openTasting(w http.ResponseWriter, r *http.Request) error {
	slug := r.PathValue("slug")
	keys, err := TastingKeys(r.Context(), s.book, slug)
	if err != nil {
		return err
	}
	s.ballots.Lock()
	defer s.ballots.Unlock()
	_, err = ChangeTasting(r.Context(), s.book, slug, handOf(r).Author, "answers closed, key opened", func(t *tasting.Tasting) error {
		return OpenTasting(t, keys, s.now())
	})
	if err != nil {
		return refuse(err)
	}
	return seeOther(w, r, "/tasting/"+slug)
}

// trayBody is one set of glasses as the pourer fills it.
type trayBody struct {
	Taster, Reference string
	ReferenceBeer     string
	Glasses           []glassBody
}

// glassBody is one glass and what is poured into it.
type glassBody struct{ Code, Beer string }

// pourerFlight is one flight with its key.
type pourerFlight struct {
	Name, Kind, Commitment string
	Trays                  []trayBody
	Away                   bool // the key isn't here
}

// tastingPourer is the only page that shows which code is which beer before
// the key is open.
func (s *Server) tastingPourer(w http.ResponseWriter, r *http.Request) error {
	t, d, err := s.tasting(r)
	if err != nil {
		return err
	}
	keys, err := TastingKeys(r.Context(), s.book, d.Slug)
	if err != nil {
		return err
	}
	var flights []pourerFlight
	for i := range t.Flights {
		f := &t.Flights[i]
		key := f.Key
		if key == nil {
			key = keys[f.Name]
		}
		one := pourerFlight{Name: f.Name, Kind: string(f.Kind), Away: key == nil}
		if f.Design != nil {
			one.Commitment = f.Design.Commitment
		}
		if key != nil {
			one.Trays = traysOf(f, key)
		}
		flights = append(flights, one)
	}
	var beers []string
	for _, b := range t.Beers {
		beers = append(beers, b.Letter+": "+strings.TrimSuffix(blind.NameOf(t, b.Letter), " ("+b.Letter+")"))
	}
	body := struct {
		*tastingBody
		Keys  []pourerFlight
		Beers []string
	}{&tastingBody{Document: d, Tasting: t, Here: "pourer", LAN: s.options.LAN, Caution: panel.Caution, Alcohol: alcoholWords(t, handOf(r).printer())}, flights, beers}
	return s.show(w, r, http.StatusOK, "page_tasting_pourer", Sheet{Title: "Pourer’s sheet: " + d.Title, Chapter: d.Kind, Body: body})
}

func traysOf(f *tasting.Flight, key *tasting.Key) (trays []trayBody) {
	for _, set := range f.Serving {
		tray := trayBody{Taster: set.Taster, Reference: string(set.Reference)}
		if set.Reference != "" {
			tray.ReferenceBeer = key.BeerOf(set.Reference)
		}
		for _, code := range set.Codes {
			tray.Glasses = append(tray.Glasses, glassBody{string(code), key.BeerOf(code)})
		}
		trays = append(trays, tray)
	}
	return trays
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
