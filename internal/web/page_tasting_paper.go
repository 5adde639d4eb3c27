// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"gyle/data"
	"gyle/panel"
	"gyle/recipe"
	"gyle/tasting"
)

// allergens lists what all beers of a tasting contain together: which beer has
// what would show which is which. It is empty where no recipe is known.
func (s *Server) allergens(ctx context.Context, t *tasting.Tasting) string {
	var found []string
	known := false
	for _, b := range t.Beers {
		if b.Recipe == "" {
			continue
		}
		d, err := s.book.Get(ctx, recipe.Kind, b.Recipe)
		if err != nil {
			continue
		}
		r, err := parsed(s, d.Slug, d.Text, recipe.Parse)
		if err != nil {
			continue
		}
		known = true
		for _, allergen := range recipeAllergens(r) {
			if !slices.Contains(found, allergen) {
				found = append(found, allergen)
			}
		}
	}
	if !known {
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
	err := s.takeAnswer(r, slug, taster, s.now())
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
