// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"context"
	"net/http"
	"slices"
	"strings"

	"gyle/data"
	"gyle/panel"
	"gyle/publish/sheet"
	"gyle/recipe"
	"gyle/tasting"
)

// allergens lists what all beers of a tasting contain together. It is empty where no
// recipe is known.
func (s *Server) allergens(ctx context.Context, t *tasting.Tasting) string {
	var list []*recipe.Recipe
	for _, b := range t.Beers {
		if b.Recipe == "" {
			continue
		}
		d, err := s.book.Get(ctx, recipe.Kind, b.Recipe)
		if err != nil {
			continue
		}
		if r, err := parsed(s, d.Slug, d.Text, recipe.Parse); err == nil {
			list = append(list, r)
		}
	}
	return ContainTogether(list)
}

// ContainTogether says which allergens beers contain together: which beer has what
// would show which is which. It is empty without a recipe.
func ContainTogether(list []*recipe.Recipe) string {
	var found []string
	for _, r := range list {
		for _, allergen := range recipeAllergens(r) {
			if !slices.Contains(found, allergen) {
				found = append(found, allergen)
			}
		}
	}
	if len(list) == 0 {
		return ""
	}
	slices.Sort(found)
	return "The beers together contain: " + strings.Join(found, ", ") + ". Told from the recipes; not legal advice."
}

// paperBody is what is printed for an evening without phones.
type paperBody struct {
	*tastingBody
	Ballots  []paperBallot
	Contains string
}

// paperBallot is one assessor's ballot.
type paperBallot struct {
	Taster  string
	Sets    []ballotSet
	Alcohol string
}

// tastingPaper prints a tent card and a ballot for each assessor.
func (s *Server) tastingPaper(w http.ResponseWriter, r *http.Request) error {
	t, d, err := s.tasting(r)
	if err != nil {
		return err
	}
	poured, known := panel.Poured(t)
	body := paperBody{tastingBody: &tastingBody{Document: d, Tasting: t, Here: "paper", LAN: s.options.LAN, Caution: panel.Caution}, Contains: s.allergens(r.Context(), t)}
	for _, taster := range servedTasters(t) {
		one := paperBallot{Taster: taster, Sets: ballotSets(t, taster)}
		if known {
			one.Alcohol = drunkWords(poured[taster], handOf(r).printer())
		}
		body.Ballots = append(body.Ballots, one)
	}
	return s.show(w, r, http.StatusOK, "page_tasting_paper", Sheet{Title: "Cards and ballots: " + d.Title, Chapter: d.Kind, Body: body})
}

// evening is a tasting with what its papers must tell.
func (s *Server) evening(r *http.Request, t *tasting.Tasting) sheet.Evening {
	e := sheet.Evening{Tasting: t, Contains: s.allergens(r.Context(), t), Caution: panel.Caution, Alcohol: map[string]string{}}
	if poured, known := panel.Poured(t); known {
		for taster, mass := range poured {
			e.Alcohol[taster] = drunkWords(mass, handOf(r).printer())
		}
	}
	return e
}

// sendEvening answers with a PDF on the paper that is asked for: paper=a4 or letter.
func sendEvening(w http.ResponseWriter, r *http.Request, name string, write func(sheet.Paper) ([]byte, error)) error {
	paper, err := sheet.PaperNamed(cmp.Or(r.URL.Query().Get("paper"), sheet.A4.Name))
	if err != nil {
		return unknownWish(err)
	}
	pdf, err := write(paper)
	if err != nil {
		return &RefusedError{sentence(err.Error())}
	}
	asFile(w, "application/pdf", name+"."+paper.Name+".pdf")
	_, err = w.Write(pdf)
	return err
}

// ballotSheets is a ballot for each taster, to be printed.
func (s *Server) ballotSheets(w http.ResponseWriter, r *http.Request) error {
	return s.eveningSheet(w, r, "ballots", sheet.Ballots)
}

// cardSheets is a card for each glass, to be cut out.
func (s *Server) cardSheets(w http.ResponseWriter, r *http.Request) error {
	return s.eveningSheet(w, r, "cards", sheet.Cards)
}

func (s *Server) eveningSheet(w http.ResponseWriter, r *http.Request, name string, write func(sheet.Evening, sheet.Paper) ([]byte, error)) error {
	t, d, err := s.tasting(r)
	if err != nil {
		return err
	}
	return sendEvening(w, r, d.Slug+"."+name, func(p sheet.Paper) ([]byte, error) { return write(s.evening(r, t), p) })
}

// ballotLink is the link of one assessor.
type ballotLink struct {
	Taster string
	link
	Answered bool
}

// tastingLinks shows a link and its QR code for each assessor's phone.
func (s *Server) tastingLinks(w http.ResponseWriter, r *http.Request) error {
	t, d, err := s.tasting(r)
	if err != nil {
		return err
	}
	tasters := servedTasters(t)
	links, err := s.ballotLinks(r.Context(), d.Slug, tasters)
	if err != nil {
		return err
	}
	base := "http://" + r.Host + "/"
	if len(s.options.Links) > 0 {
		base = s.options.Links[0]
	}
	body := struct {
		*tastingBody
		Links []ballotLink
	}{tastingBody: &tastingBody{Document: d, Tasting: t, Here: "links", LAN: s.options.LAN}}
	for _, taster := range tasters {
		drawing, err := qrDrawing(base + links[taster])
		if err != nil {
			return err
		}
		one := ballotLink{Taster: taster, link: link{base + links[taster], drawing}, Answered: true}
		for _, q := range ballotSets(t, taster) {
			one.Answered = one.Answered && q.Standing != nil
		}
		body.Links = append(body.Links, one)
	}
	return s.show(w, r, http.StatusOK, "page_tasting_links", Sheet{Title: "Phone ballots: " + d.Title, Chapter: d.Kind, Body: body})
}

// tastingAnswers is where the host types what stands on paper ballots.
func (s *Server) tastingAnswers(w http.ResponseWriter, r *http.Request) error {
	return s.showAnswers(w, r, http.StatusOK, "")
}

func (s *Server) showAnswers(w http.ResponseWriter, r *http.Request, status int, problem string) error {
	t, d, err := s.tasting(r)
	if err != nil {
		return err
	}
	body := paperBody{tastingBody: &tastingBody{Document: d, Tasting: t, Here: "answers", LAN: s.options.LAN}, Contains: problem}
	for _, taster := range servedTasters(t) {
		body.Ballots = append(body.Ballots, paperBallot{Taster: taster, Sets: ballotSets(t, taster)})
	}
	return s.show(w, r, status, "page_tasting_answers", Sheet{Title: "Answers from paper: " + d.Title, Chapter: d.Kind, Body: body})
}

func (s *Server) saveTastingAnswer(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	slug, taster := r.PathValue("slug"), r.PostForm.Get("taster")
	err := s.takeAnswer(r, slug, taster)
	if problem := ballotProblem(err); err != nil && problem != "" {
		return s.showAnswers(w, r, http.StatusUnprocessableEntity, problem)
	}
	if err != nil && err != tasting.ErrAgain {
		return err
	}
	return seeOther(w, r, "/tasting/"+slug+"/answers#of-"+taster)
}

// recipeAllergens lists the cereals and other allergens of a recipe's
// ingredients (Regulation (EU) 1169/2011, annex II).
func recipeAllergens(r *recipe.Recipe) (list []string) {
	for _, g := range r.Grist {
		malt, isMalt := data.Malt(g.Malt)
		sugar, isSugar := data.Sugar(g.Malt)
		switch {
		case isMalt:
			list = append(list, malt.Allergens...)
		case isSugar:
			list = append(list, sugar.Allergens...)
		default:
			list = append(list, "what is in "+g.Malt+", which isn’t known here")
		}
	}
	return list
}
