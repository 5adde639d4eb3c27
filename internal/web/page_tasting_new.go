// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"gyle/blind"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/tasting"
)

// tastingForm is the form in which a tasting is designed.
type tastingForm struct {
	Recipes    []Document
	Kinds      []formChoice
	Question   string
	A, B       string
	Kind       string
	Attributes string
	Tasters    string
	Alpha      string
	Share      string
	ABV        string
	Sample     string
	Change     string
	Expect     string
	Liking     bool
	Author     string
	Fault      string
	Power      string // what the panel can find
}

// offeredKinds are the ways to compare two versions.
var offeredKinds = []formChoice{
	{"triangle", "triangle: three glasses, which is the odd one"},
	{"tetrad", "tetrad: four glasses, sort them in two pairs"},
	{"duo-trio", "duo-trio: which of two is the reference"},
	{"2-afc", "2-AFC: which of two has more of something"},
	{"3-afc", "3-AFC: which of three has most of something"},
	{"preference", "preference: which do you like better"},
	{"profile", "profile: how much of each attribute"},
}

// mostOffered is how many recipes the form offers.
const mostOffered = 500

func (s *Server) newTasting(w http.ResponseWriter, r *http.Request) error {
	query := r.URL.Query()
	f := tastingForm{
		A: query.Get("a"), B: query.Get("b"), Kind: "triangle", Tasters: "18", Alpha: "5 %", Share: "50 %", ABV: "", Sample: "50 mL",
		Change: query.Get("change"), Expect: query.Get("expect"), Liking: true, Author: handOf(r).Author,
	}
	return s.showNewTasting(w, r, http.StatusOK, f)
}

func (s *Server) showNewTasting(w http.ResponseWriter, r *http.Request, status int, f tastingForm) error {
	found, err := s.book.Titled(r.Context(), recipe.Kind, "", mostOffered)
	if err != nil {
		return err
	}
	f.Recipes, f.Kinds = found, offeredKinds
	f.Power = f.power(handOf(r).printer())
	return s.show(w, r, status, "page_tasting_new", Sheet{Title: "A blind tasting", Chapter: tasting.Kind, Folio: "not saved yet", Body: f})
}

func readTastingForm(form url.Values) tastingForm {
	get := func(name string) string { return strings.TrimSpace(form.Get(name)) }
	return tastingForm{
		Question: get("question"), A: get("a"), B: get("b"), Kind: get("kind"), Attributes: get("attributes"), Tasters: get("tasters"),
		Alpha: get("alpha"), Share: get("share"), ABV: get("abv"), Sample: get("sample"), Change: get("change"), Expect: get("expect"),
		Liking: form.Has("liking"), Author: shortName(get("author")),
	}
}

// lookTasting says what the panel could find while somebody types.
func (s *Server) lookTasting(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	f := readTastingForm(r.PostForm)
	f.Power = f.power(handOf(r).printer())
	return s.fragment(w, r, "page_tasting_new", "tasting-power", f)
}

// power says what the panel can find, or why nothing can be said.
func (f *tastingForm) power(pr quantity.Printer) string {
	n, err := strconv.Atoi(f.Tasters)
	if err != nil || n < 1 || n > mostTasters {
		return fmt.Sprintf("Say how many taste, 1 to %d.", mostTasters)
	}
	flight, err := f.flight()
	if err != nil {
		return sentence(err.Error())
	}
	plan, ok := blind.PlanOf(&flight, blind.Size{Tasters: n}, pr)
	if !ok {
		return "A profile compares each taster with themselves; a trained panel of ten or more is common practice."
	}
	return plan.Says
}

// mostTasters is the largest panel of a form.
const mostTasters = 400

// flight is the main flight of the form.
func (f *tastingForm) flight() (flight tasting.Flight, err error) {
	method := tasting.Method("")
	if err := method.UnmarshalText([]byte(f.Kind)); err != nil {
		return flight, err
	}
	attributes := strings.FieldsFunc(f.Attributes, func(r rune) bool { return r == ',' || r == '\n' || r == ';' })
	for i := range attributes {
		attributes[i] = strings.TrimSpace(attributes[i])
	}
	flight = NewFlight("question", method, attributes, []string{"A", "B"})
	if err := readPart(&flight.Alpha, f.Alpha, "alpha"); err != nil {
		return flight, err
	}
	if flight.Alpha <= 0 || flight.Alpha > 0.2 {
		return flight, &RefusedError{"a risk of a false alarm lies between 0 and 20 %"}
	}
	if method.Choice() {
		flight.Aim = &tasting.Aim{Power: quantity.Percent(80)}
		err = readPart(&flight.Aim.Share, f.Share, "share")
		if err == nil && (flight.Aim.Share <= 0 || flight.Aim.Share > 1) {
			err = &RefusedError{"the share that can tell lies between 0 and 100 %"}
		}
	}
	return flight, err
}

// readPart reads a value with its unit.
func readPart(into interface{ UnmarshalText([]byte) error }, text, what string) error {
	if err := into.UnmarshalText([]byte(text)); err != nil {
		return fmt.Errorf("%s: %w", what, err)
	}
	return nil
}

// document writes the form down as a tasting.
func (f *tastingForm) document(titles map[string]string, at tasting.Time) (*tasting.Tasting, error) {
	n, err := strconv.Atoi(f.Tasters)
	switch {
	case f.Question == "":
		return nil, &RefusedError{"Write down the question first: it must stand before the answers."}
	case titles[f.A] == "" || titles[f.B] == "":
		return nil, &RefusedError{"Choose two beers."}
	case err != nil || n < 1 || n > mostTasters:
		return nil, &RefusedError{fmt.Sprintf("Say how many taste, 1 to %d.", mostTasters)}
	}
	flight, err := f.flight()
	if err != nil {
		return nil, &RefusedError{sentence(err.Error())}
	}
	t := &tasting.Tasting{
		Name: titles[f.A] + " against " + titles[f.B], Question: f.Question, Date: tasting.Date(at), Change: f.Change, Expect: f.Expect,
		Beers: []tasting.Beer{{Letter: "A", Recipe: f.A}, {Letter: "B", Recipe: f.B}}, Flights: []tasting.Flight{flight},
	}
	if err := f.pour(t); err != nil {
		return nil, &RefusedError{sentence(err.Error())}
	}
	for i := range n {
		t.Panel = append(t.Panel, tasting.Assessor{ID: fmt.Sprintf("%02d", i+1), Trained: flight.Kind == tasting.Profile})
	}
	if f.Liking && flight.Kind.Choice() {
		liking := NewFlight("liking", tasting.Preference, nil, []string{"A", "B"})
		liking.Alpha = flight.Alpha
		t.Flights = append(t.Flights, liking)
	}
	return t, nil
}

// pour reads what is poured and how strong it is.
func (f *tastingForm) pour(t *tasting.Tasting) error {
	if f.Sample != "" {
		t.Conditions.Sample = new(quantity.Volume)
		if err := readPart(t.Conditions.Sample, f.Sample, "glass"); err != nil {
			return err
		}
	}
	if f.ABV == "" {
		return nil
	}
	abv := new(quantity.Fraction)
	if err := readPart(abv, f.ABV, "alcohol"); err != nil {
		return err
	}
	t.Beers[0].ABV, t.Beers[1].ABV = abv, abv
	return nil
}

// saveNewTasting fixes and dates the design, draws orders and codes, and seals
// the key.
func (s *Server) saveNewTasting(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	f := readTastingForm(r.PostForm)
	slug, err := s.planTasting(w, r, f)
	if isFault(err) {
		f.Fault = err.Error()
		return s.showNewTasting(w, r, http.StatusUnprocessableEntity, f)
	}
	if err != nil {
		return err
	}
	return seeOther(w, r, "/tasting/"+slug)
}

func (s *Server) planTasting(w http.ResponseWriter, r *http.Request, f tastingForm) (slug string, err error) {
	titles := map[string]string{}
	found, err := s.book.Titled(r.Context(), recipe.Kind, "", mostOffered)
	if err != nil {
		return "", err
	}
	for _, d := range found {
		titles[d.Slug] = d.Title
	}
	t, err := f.document(titles, tasting.At(s.now()))
	if err != nil {
		return "", err
	}
	keys, err := drawFlights(t, s.now())
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
	if _, err := s.Save(w, r, Draft{Kind: tasting.Kind, Slug: slug, Text: string(text), Author: f.Author, Why: "planned"}); err != nil {
		return "", err
	}
	return slug, KeepTastingKeys(r.Context(), s.book, slug, keys)
}

// sentence makes a sentence of an error.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + strings.TrimSuffix(text[1:], ".") + "."
}
