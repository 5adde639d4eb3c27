// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"net/http"
	"strings"

	"gyle/blind"
	"gyle/panel"
	"gyle/publish/sheet"
	"gyle/tasting"
)

// The pourer's sheet is opened by words that were shown once. They alone unlock the
// key, for a paired device as for any other: who hasn't got them gets what an
// address that never was gets.

// trayBody is one set of glasses as the pourer fills it.
type trayBody struct {
	Taster, Reference string
	ReferenceBeer     string
	Second            bool // the first of the second stage
	Glasses           []glassBody
}

// glassBody is one glass and what is poured into it.
type glassBody struct{ Code, Beer string }

// pourerFlight is one flight with its key.
type pourerFlight struct {
	Name, Kind, Commitment string
	Learn                  string // the beer that is tasted by name before the glasses
	Look                   string // what the look of a plan in two stages says
	Trays                  []trayBody
	Open                   bool
}

// pourerBody is the pourer's sheet, and the page that hands it over.
type pourerBody struct {
	Document Document
	Tasting  *tasting.Tasting
	Words    string // of this sheet
	Path     string
	Link     link
	Keys     []pourerFlight
	Beers    []string
	Caution  string
	Alcohol  string
	Sealed   bool
	Missing  int // sets that aren't answered
	Paired   bool
	LAN      bool
}

// pourer reads the tasting and the keys that the words of the address unlock. Its
// answers are kept by no cache.
func (s *Server) pourer(w http.ResponseWriter, r *http.Request) (*pourerBody, map[string]*tasting.Key, error) {
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Referrer-Policy", "same-origin")
	slug, keys, err := UnlockTastingKeys(r.Context(), s.book, r.PathValue("words"))
	if err != nil {
		return nil, nil, err
	}
	d, err := s.book.Get(r.Context(), tasting.Kind, slug)
	if err != nil || d.Deleted {
		return nil, nil, errors.Join(err, ErrNotFound)
	}
	t, err := tasting.Parse(d.Slug, []byte(d.Text))
	if err != nil {
		return nil, nil, err
	}
	b := &pourerBody{
		Document: d, Tasting: t, Words: r.PathValue("words"), Path: "/pourer/" + r.PathValue("words"), LAN: s.options.LAN,
		Paired: atThisMachine(r) || s.devices.knows(r), Caution: panel.Caution, Alcohol: alcoholWords(t, handOf(r).printer()),
	}
	for i := range t.Flights {
		f := &t.Flights[i]
		if keys[f.Name] == nil {
			continue
		}
		b.Keys = append(b.Keys, pourerFlightOf(t, f, keys[f.Name]))
		if f.Key == nil {
			b.Sealed, b.Missing = true, b.Missing+len(f.Missing())
		}
	}
	for _, beer := range t.Beers {
		b.Beers = append(b.Beers, beer.Letter+": "+strings.TrimSuffix(blind.NameOf(t, beer.Letter), " ("+beer.Letter+")"))
	}
	return b, keys, nil
}

func pourerFlightOf(t *tasting.Tasting, f *tasting.Flight, key *tasting.Key) pourerFlight {
	one := pourerFlight{Name: f.Name, Kind: string(f.Kind), Trays: traysOf(f, key), Open: f.Key != nil}
	if f.Design != nil {
		one.Commitment = f.Design.Commitment
	}
	if f.Kind == tasting.ANotA {
		one.Learn = f.Reference
	}
	if f.Key == nil {
		one.Look, _ = blind.AtLook(t, f, key)
	}
	return one
}

// pourerPage is the only page that shows which code is which beer before the key is
// open.
func (s *Server) pourerPage(w http.ResponseWriter, r *http.Request) error {
	b, _, err := s.pourer(w, r)
	if err != nil {
		return s.noPourer(w, r, err)
	}
	return s.draw(w, r, http.StatusOK, "page_tasting_pourer", "pourer", Sheet{Title: "Pourer’s sheet: " + b.Document.Title, Body: b})
}

// handOver shows the words and the link to who fixed the design, and no glass.
func (s *Server) handOver(w http.ResponseWriter, r *http.Request) error {
	b, _, err := s.pourer(w, r)
	if err != nil {
		return s.noPourer(w, r, err)
	}
	base := "http://" + r.Host
	if len(s.options.Links) > 0 {
		base = strings.TrimSuffix(s.options.Links[0], "/")
	}
	drawing, err := qrDrawing(base + b.Path)
	if err != nil {
		return err
	}
	b.Link = link{base + b.Path, drawing}
	return s.draw(w, r, http.StatusOK, "page_tasting_handover", "handover", Sheet{Title: "For the pourer: " + b.Document.Title, Body: b})
}

// pourerSheet is the pourer's sheet to be printed.
func (s *Server) pourerSheet(w http.ResponseWriter, r *http.Request) error {
	b, keys, err := s.pourer(w, r)
	if err != nil {
		return s.noPourer(w, r, err)
	}
	return sendEvening(w, r, "pourer", func(p sheet.Paper) ([]byte, error) {
		return sheet.Pourer(s.evening(r, b.Tasting), keys, p)
	})
}

// noPourer answers words that unlock nothing, and says nothing else.
func (s *Server) noPourer(w http.ResponseWriter, r *http.Request, err error) error {
	if !errors.Is(err, ErrNotFound) {
		s.log.Error("pourer", "error", err)
	}
	return s.draw(w, r, http.StatusNotFound, "page_tasting_pourer", "pourer", Sheet{Title: "No such sheet", Body: &pourerBody{}})
}

// pourerOpens closes the answers and opens the keys that the words unlock.
func (s *Server) pourerOpens(w http.ResponseWriter, r *http.Request) error {
	b, keys, err := s.pourer(w, r)
	if err != nil {
		return s.noPourer(w, r, err)
	}
	if err := s.openKeys(r, b.Document.Slug, keys); err != nil {
		return refuse(err)
	}
	if b.Paired {
		return seeOther(w, r, b.Document.Path())
	}
	return seeOther(w, r, b.Path)
}

// openTasting closes the answers and opens the keys, for who has the pourer's words.
func (s *Server) openTasting(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	slug := r.PathValue("slug")
	keys, err := UnlockAll(r.Context(), s.book, slug, r.PostForm.Get("words"))
	if err == nil {
		err = s.openKeys(r, slug, keys)
	}
	if err != nil {
		return refuse(err)
	}
	return seeOther(w, r, "/tasting/"+slug)
}

func (s *Server) openKeys(r *http.Request, slug string, keys map[string]*tasting.Key) error {
	s.ballots.Lock()
	defer s.ballots.Unlock()
	_, err := ChangeTasting(r.Context(), s.book, slug, handOf(r).Author, "answers closed, key opened", func(t *tasting.Tasting) error {
		return OpenTasting(t, keys, s.now())
	})
	return err
}

func traysOf(f *tasting.Flight, key *tasting.Key) (trays []trayBody) {
	for i, set := range f.Serving {
		tray := trayBody{Taster: set.Taster, Reference: string(set.Reference), Second: f.Look != nil && i == f.Look.After}
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
