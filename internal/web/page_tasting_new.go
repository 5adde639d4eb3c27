// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"gyle/gyle"
	"gyle/recipe"
	"gyle/tasting"
)

// tastingForm is the form in which a tasting is designed.
type tastingForm struct {
	Recipes    []Document
	Brewings   []Document
	Kinds      []formChoice
	Question   string
	A, B       string
	More       []string // further beers of a ranking or profile
	GyleA      string
	GyleB      string
	Split      bool // both come from one wort
	Kind       string
	Attributes string
	Direction  string // of an attribute: later, earlier, or either
	Reference  string // of a duo-trio: either, or A; of A or not A: A or B
	Ordered    bool   // the beers stand from least to most
	None       bool   // no preference is an answer
	Tasters    string
	Sets       string
	Glasses    string
	Look       string
	Alpha      string
	Share      string
	ABV        string
	Sample     string
	Change     string
	Changes    []string // what the recipes differ in, where they differ in several things
	Expect     string
	Liking     bool
	Author     string
	Fault      string
	Power      string // what the panel can find
	capForm
}

// offeredKinds are the ways to compare versions.
var offeredKinds = []formChoice{
	{"triangle", "triangle: three glasses, which is the odd one"},
	{"tetrad", "tetrad: four glasses, sort them in two pairs"},
	{"duo-trio", "duo-trio: which of two is the reference"},
	{"2-afc", "2-AFC: which of two has more of something"},
	{"3-afc", "3-AFC: which of three has most of something"},
	{"a-not-a", "A or not A: is this the beer just learnt"},
	{"preference", "preference: which do you like better"},
	{"ranking", "ranking: put three or more in order"},
	{"profile", "profile: how much of each attribute"},
}

// directions and references are the choices of the form.
var (
	directions = []formChoice{{"later", "the later version"}, {"earlier", "the earlier version"}, {"either", "not known: either way counts"}}
	references = []formChoice{{"", "each of the two in turn"}, {"A", "the earlier version"}, {"B", "the later version"}}
)

// Directions, References and MoreBeers fill the choices of the page.
func (f tastingForm) Directions() []formChoice { return directions }
func (f tastingForm) References() []formChoice { return references }
func (f tastingForm) MoreBeers() []string {
	return append(slices.Clone(f.More), make([]string, max(0, mostMore-len(f.More)))...)
}

// mostMore is how many beers may join the two.
const mostMore = 6

// offered are the documents of a kind to choose from, the last written first,
// and those that were chosen.
func (s *Server) offered(ctx context.Context, kind string, chosen ...string) ([]Document, error) {
	found, _, err := s.book.List(ctx, kind, Part{Limit: longestChoice})
	if err != nil {
		return nil, err
	}
	for _, slug := range chosen {
		if slug == "" || slices.ContainsFunc(found, func(d Document) bool { return d.Slug == slug }) {
			continue
		}
		switch d, err := s.book.Get(ctx, kind, slug); {
		case err == nil && !d.Deleted:
			found = append(found, d)
		case err != nil && !errors.Is(err, ErrNotFound):
			return nil, err
		}
	}
	return found, nil
}

func (f tastingForm) recipes() []string { return append([]string{f.A, f.B}, f.More...) }

func (s *Server) newTasting(w http.ResponseWriter, r *http.Request) error {
	query := r.URL.Query()
	f := tastingForm{
		A: query.Get("a"), B: query.Get("b"), Kind: "triangle", Tasters: "18", Alpha: "5 %", Share: "50 %", ABV: "", Sample: "50 mL",
		Change: query.Get("change"), Expect: query.Get("expect"), Liking: true, Author: handOf(r).Author, Direction: "later", Sets: "1", capForm: capForm{Cap: usualCap},
	}
	if kind := query.Get("kind"); kind != "" {
		f.Kind = kind
	}
	if tasters := query.Get("tasters"); tasters != "" {
		f.Tasters = tasters
	}
	return s.showNewTasting(w, r, http.StatusOK, f)
}

func (s *Server) showNewTasting(w http.ResponseWriter, r *http.Request, status int, f tastingForm) error {
	found, err := s.offered(r.Context(), recipe.Kind, f.recipes()...)
	if err != nil {
		return err
	}
	f.Recipes, f.Kinds = found, offeredKinds
	if f.Brewings, err = s.offered(r.Context(), gyle.Kind, f.GyleA, f.GyleB); err != nil {
		return err
	}
	f.Power = f.power(handOf(r).printer())
	return s.show(w, r, status, "page_tasting_new", Sheet{Title: "A blind tasting", Chapter: tasting.Kind, Folio: "not saved yet", Body: f})
}

func readTastingForm(form url.Values) tastingForm {
	get := func(name string) string { return strings.TrimSpace(form.Get(name)) }
	f := tastingForm{
		Question: get("question"), A: get("a"), B: get("b"), Kind: get("kind"), Attributes: get("attributes"), Tasters: get("tasters"),
		Alpha: get("alpha"), Share: get("share"), ABV: get("abv"), Sample: get("sample"), Change: get("change"), Expect: get("expect"),
		Liking: form.Has("liking"), Author: shortName(get("author")), GyleA: get("gyle-a"), GyleB: get("gyle-b"), Split: form.Has("split"),
		Direction: get("direction"), Reference: get("reference"), Ordered: form.Has("ordered"), None: form.Has("none"),
		Sets: get("sets"), Glasses: get("glasses"), Look: get("look"), capForm: capForm{get("cap"), shortWords(get("over")), form.Has("part")},
	}
	for _, more := range form["more"] {
		if more != "" && len(f.More) < mostMore {
			f.More = append(f.More, more)
		}
	}
	return f
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

// readPart reads a value with its unit.
func readPart(into interface{ UnmarshalText([]byte) error }, text, what string) error {
	if err := into.UnmarshalText([]byte(text)); err != nil {
		return fmt.Errorf("%s: %w", what, err)
	}
	return nil
}

// saveNewTasting fixes and dates the design, draws orders and codes, and seals
// the key.
func (s *Server) saveNewTasting(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	f := readTastingForm(r.PostForm)
	next, err := "", error(nil)
	if r.PostForm.Get("do") == "seat" {
		next, err = s.seatTasting(w, r, f)
		next = "/tasting/" + next + "/panel"
	} else {
		next, err = s.planTasting(w, r, f)
		next = "/pourer/" + next + "/hand-over"
	}
	var several *changesError
	if errors.As(err, &several) {
		f.Changes, f.Fault = several.list, several.Error()
		return s.showNewTasting(w, r, http.StatusUnprocessableEntity, f)
	}
	if isFault(err) {
		f.Fault = err.Error()
		return s.showNewTasting(w, r, http.StatusUnprocessableEntity, f)
	}
	if err != nil {
		return err
	}
	return seeOther(w, r, next)
}

// designed is the tasting of the form, before anything is drawn.
func (s *Server) designed(r *http.Request, f tastingForm) (*tasting.Tasting, error) {
	titles := map[string]string{}
	found, err := s.offered(r.Context(), recipe.Kind, f.recipes()...)
	if err != nil {
		return nil, err
	}
	for _, d := range found {
		titles[d.Slug] = d.Title
	}
	t, err := f.document(titles, tasting.At(s.now()))
	if err != nil {
		return nil, err
	}
	if err := s.oneQuestion(r.Context(), f); err != nil {
		return nil, err
	}
	return t, f.readCap(t)
}

// planTasting keeps the tasting and returns the words that unlock its keys.
func (s *Server) planTasting(w http.ResponseWriter, r *http.Request, f tastingForm) (words string, err error) {
	t, err := s.designed(r, f)
	if err != nil {
		return "", err
	}
	keys, err := drawFlights(t, s.now(), f.wish())
	if err != nil {
		return "", err
	}
	second, err := f.keepCap(t, keys)
	if err != nil {
		return "", err
	}
	text, err := t.Text()
	if err != nil {
		return "", err
	}
	slug, err := s.freeSlug(r.Context(), tasting.Kind, t.Name)
	if err != nil {
		return "", err
	}
	if _, err := s.Save(w, r, Draft{Kind: tasting.Kind, Slug: slug, Text: string(text), Author: f.Author, Why: "planned"}); err != nil {
		return "", err
	}
	if err := s.saveSecond(w, r, second, f.Author); err != nil {
		return "", err
	}
	return LockTastingKeys(r.Context(), s.book, slug, keys)
}

// sentence makes a sentence of an error.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + strings.TrimSuffix(text[1:], ".") + "."
}
