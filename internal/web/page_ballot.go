// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base32"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strings"

	"gyle/panel"
	"gyle/quantity"
	"gyle/tasting"
)

// A ballot is opened by a link that only its assessor has. What is sent there
// is made of tasting.Ballot, which knows no beers, no key and nobody else.

// ballotSetting lists the tastings that have links, each with the secret that
// their tokens are made with.
const ballotSetting = "tasting.ballots"

// ballotSecret is what the tokens of one tasting are made with.
type ballotSecret struct {
	Slug   string `json:"slug"`
	Secret string `json:"secret"`
}

// letters of tokens: small, without those taken for one another.
var tokenLetters = base32.NewEncoding("abcdefghijkmnpqrstuvwxyz23456789").WithPadding(base32.NoPadding)

// token is the secret part of an assessor's link: 130 bits that nobody guesses.
func (b ballotSecret) token(taster string) string {
	mac := hmac.New(sha256.New, []byte(b.Secret))
	mac.Write([]byte("ballot\x00" + taster))
	return tokenLetters.EncodeToString(mac.Sum(nil))[:26]
}

func (s *Server) ballotSecrets(ctx context.Context) (map[string]ballotSecret, error) {
	text, err := s.book.Setting(ctx, ballotSetting, "{}")
	if err != nil {
		return nil, err
	}
	all := map[string]ballotSecret{}
	if err := json.Unmarshal([]byte(text), &all); err != nil {
		return nil, fmt.Errorf("read the links of ballots: %w", err)
	}
	return all, nil
}

// ballotLinks returns the links of a tasting, by taster; they are made when
// they are first asked for and stay.
func (s *Server) ballotLinks(ctx context.Context, slug string, tasters []string) (map[string]string, error) {
	s.ballots.Lock()
	defer s.ballots.Unlock()
	all, err := s.ballotSecrets(ctx)
	if err != nil {
		return nil, err
	}
	id := ""
	for known, secret := range all {
		if secret.Slug == slug {
			id = known
		}
	}
	if id == "" {
		id = strings.ToLower(rand.Text()[:8])
		all[id] = ballotSecret{slug, rand.Text() + rand.Text()}
		text, err := json.Marshal(all)
		if err != nil {
			return nil, err
		}
		if err := s.book.SetSetting(ctx, ballotSetting, string(text)); err != nil {
			return nil, err
		}
	}
	links := map[string]string{}
	for _, taster := range tasters {
		links[taster] = "ballot/" + id + "-" + all[id].token(taster)
	}
	return links, nil
}

// bearer finds the tasting and the taster of a token.
func (s *Server) bearer(ctx context.Context, token string) (slug, taster string, t *tasting.Tasting, err error) {
	id, secret, _ := strings.Cut(token, "-")
	all, err := s.ballotSecrets(ctx)
	if err != nil {
		return "", "", nil, err
	}
	known, ok := all[id]
	if !ok {
		return "", "", nil, ErrNotFound
	}
	d, err := s.book.Get(ctx, tasting.Kind, known.Slug)
	if err != nil || d.Deleted {
		return "", "", nil, ErrNotFound
	}
	if t, err = tasting.Parse(known.Slug, []byte(d.Text)); err != nil {
		return "", "", nil, err
	}
	for _, one := range servedTasters(t) {
		if subtle.ConstantTimeCompare([]byte(known.token(one)), []byte(secret)) == 1 {
			taster = one
		}
	}
	if taster == "" {
		return "", "", nil, ErrNotFound
	}
	return known.Slug, taster, t, nil
}

// ballotBody is what an assessor sees.
type ballotBody struct {
	Path     string
	Taster   string
	Name     string
	OfAge    bool
	Out      bool
	Sets     []ballotSet
	Open     int // sets still to answer
	Alcohol  string
	Caution  string
	Contains string
	Problem  string
}

// ballotSet is one question about one set of glasses, or about one glass.
type ballotSet struct {
	Number     int
	Flight     string
	Ask        string
	Kind       tasting.Method
	Set        int
	Reference  string
	Codes      []string
	Glass      string // the glass that is judged alone
	Attributes []string
	Scores     []string // that may be given
	Alike      bool     // two are to be named
	None       bool     // no preference may be said
	Order      bool     // all are to be put in order
	YesNo      bool     // whether it is the beer just learnt
	Commitment string   // printed, so that the key can be checked
	ID         string   // of the answer that the form will send
	Standing   *tasting.Answer
	Closed     bool
}

// ballotSets are the questions of all flights that a taster is served.
func ballotSets(t *tasting.Tasting, taster string) (sets []ballotSet) {
	for i := range t.Flights {
		b, ok := t.Ballot(&t.Flights[i], taster)
		if !ok {
			continue
		}
		for _, served := range b.Sets {
			glasses := []string{""}
			if b.Kind.ByGlass() {
				glasses = textCodes(served.Codes)
			}
			for _, glass := range glasses {
				sets = append(sets, questionOf(b, served, glass, len(sets)+1))
			}
		}
	}
	return sets
}

func textCodes(codes []tasting.Code) (list []string) {
	for _, code := range codes {
		list = append(list, string(code))
	}
	return list
}

func questionOf(b tasting.Ballot, served tasting.Serving, glass string, number int) ballotSet {
	q := ballotSet{
		Number: number, Flight: b.Flight, Ask: b.Ask, Kind: b.Kind, Set: served.Set, Reference: string(served.Reference), Codes: textCodes(served.Codes),
		Glass: glass, Alike: b.Kind == tasting.Tetrad, None: b.Kind == tasting.Preference && !b.Forced, Order: b.Kind == tasting.Ranking,
		YesNo: b.Kind == tasting.ANotA, Commitment: b.Commitment, ID: strings.ToLower(rand.Text()[:12]), Closed: b.Closed,
	}
	if b.Kind == tasting.Profile {
		q.Attributes = b.Attributes
		if b.Scale != nil && b.Scale.To-b.Scale.From <= 20 {
			for score := b.Scale.From; score <= b.Scale.To; score++ {
				q.Scores = append(q.Scores, fmt.Sprintf("%g", score))
			}
		}
	}
	for i, a := range b.Answered {
		if a.Set == served.Set && (glass == "" || string(a.Code) == glass) {
			q.Standing = &b.Answered[i]
		}
	}
	return q
}

// Words are what was answered, in the taster's own codes.
func (q ballotSet) Words() string {
	a := q.Standing
	switch {
	case a == nil:
		return ""
	case len(a.Codes) > 0 && q.Alike:
		return string(a.Codes[0]) + " and " + string(a.Codes[1]) + " belong together"
	case len(a.Codes) > 0:
		return strings.Join(textCodes(a.Codes), ", ")
	case a.Says == "none":
		return "no preference"
	case a.Says != "":
		return string(a.Code) + ": " + a.Says
	case len(a.Scores) > 0:
		var said []string
		for _, s := range a.Scores {
			said = append(said, fmt.Sprintf("%s %g", s.Key, s.Value))
		}
		return string(a.Code) + ": " + strings.Join(said, ", ")
	}
	return string(a.Code)
}

// Field is the name under which the page tells this question from others.
func (q ballotSet) Field() string { return fmt.Sprintf("q%d", q.Number) }

func (s *Server) ballotPage(w http.ResponseWriter, r *http.Request) error {
	slug, taster, t, err := s.bearer(r.Context(), r.PathValue("token"))
	if err != nil {
		return s.noBallot(w, r, err)
	}
	return s.showBallot(w, r, http.StatusOK, slug, taster, t, "")
}

func (s *Server) showBallot(w http.ResponseWriter, r *http.Request, status int, slug, taster string, t *tasting.Tasting, problem string) error {
	b := ballotBody{Path: "/ballot/" + r.PathValue("token"), Taster: taster, Sets: ballotSets(t, taster), Caution: panel.Caution, Problem: problem}
	for _, q := range b.Sets {
		if q.Standing == nil && !q.Closed {
			b.Open++
		}
	}
	for _, a := range t.Panel {
		if a.ID == taster {
			b.Name, b.OfAge, b.Out = a.Name, a.OfAge, a.Out != ""
		}
	}
	if poured, known := panel.Poured(t); known {
		b.Alcohol = drunkWords(poured[taster], handOf(r).printer())
	}
	b.Contains = s.allergens(r.Context(), t)
	return s.draw(w, r, status, "page_ballot", "ballot", Sheet{Title: "Ballot " + taster, Body: b})
}

func drunkWords(poured quantity.Mass, pr quantity.Printer) string {
	return "Your glasses hold up to " + pr.Number(poured.Grams(), 1) + " g of alcohol together (" + drinks(poured, pr) + ")."
}

// noBallot answers a link that leads nowhere, and says nothing else.
func (s *Server) noBallot(w http.ResponseWriter, r *http.Request, err error) error {
	if !errors.Is(err, ErrNotFound) {
		s.log.Error("ballot", "error", err)
	}
	return s.draw(w, r, http.StatusNotFound, "page_ballot", "ballot", Sheet{Title: "No such ballot", Body: ballotBody{Problem: "No ballot has this address. Ask the host for your link."}})
}
