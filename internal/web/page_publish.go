// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/http"
	"strings"

	"gyle/publish"
	"gyle/publish/card"
	"gyle/publish/sheet"
	"gyle/schema"
)

// publishRoutes are the addresses under which a plan is handed on, as files
// to be saved.
func (s *Server) publishRoutes(page func(pattern string, h handle)) {
	page("GET /plan/page.html", s.handOn("html", "text/html; charset=utf-8", func(b publish.Bundle, _ planned) ([]byte, error) {
		engine, err := publish.EmbeddedEngine()
		if err != nil {
			return nil, err
		}
		return publish.Page(b, engine)
	}))
	page("GET /plan/recipe.txt", s.handOn("txt", "text/plain; charset=utf-8", func(b publish.Bundle, _ planned) ([]byte, error) {
		text, err := publish.Text(b)
		return []byte(text), err
	}))
	page("GET /plan/recipe.md", s.handOn("md", "text/markdown; charset=utf-8", func(b publish.Bundle, _ planned) ([]byte, error) {
		text, err := publish.Markdown(b)
		return []byte(text), err
	}))
	page("GET /plan/cards.zip", s.withPlan(planCards))
	page("GET /plan/sheets.pdf", s.withPlan(planSheets))
	page("GET /style/{slug}/cards.zip", s.ofStyle(sendCards))
	page("GET /style/{slug}/guide.pdf", s.ofStyle(func(w http.ResponseWriter, r *http.Request, b card.Bundle, name string) error {
		return sendSheet(w, r, b, name, sheet.Guide)
	}))
	page("GET /schema/{file}", s.schema)
	s.tableRoutes(page)
	page("GET /plan/label.txt", s.handOn("label.txt", "text/plain; charset=utf-8", func(b publish.Bundle, p planned) ([]byte, error) {
		return []byte(publish.LabelFor(p.plan, b.ABV(), "", "", b.Printer).In(b.Lang).Text()), nil
	}))
}

// schema answers with the JSON Schema of a kind of document, or of what the
// program hands out as JSON.
func (s *Server) schema(w http.ResponseWriter, r *http.Request) error {
	name, isJSON := strings.CutSuffix(r.PathValue("file"), ".json")
	text, ok := schema.Text(name)
	if !isJSON || !ok {
		return ErrNotFound
	}
	w.Header().Set("Content-Type", "application/schema+json; charset=utf-8")
	_, err := w.Write(text)
	return err
}

// handOn answers with a file that is made of a plan. What can't be planned
// leads back to the plan sheet, which says why.
func (s *Server) handOn(extension, media string, write func(publish.Bundle, planned) ([]byte, error)) handle {
	return s.withPlan(func(w http.ResponseWriter, r *http.Request, b publish.Bundle, p planned) error {
		content, err := write(b, p)
		if err != nil {
			return err
		}
		asFile(w, media, readPlanQuery(r.URL.Query()).Recipe+"."+extension)
		_, err = w.Write(content)
		return err
	})
}

// withPlan makes the plan that an address asks for and hands it on. What can't
// be planned leads back to the plan sheet.
func (s *Server) withPlan(hand func(http.ResponseWriter, *http.Request, publish.Bundle, planned) error) handle {
	return func(w http.ResponseWriter, r *http.Request) error {
		q := readPlanQuery(r.URL.Query())
		p, err := s.madePlan(r.Context(), q)
		var faults fieldFaults
		if errors.As(err, &faults) || isRefusal(err) {
			return seeOther(w, r, q.Path())
		}
		if err != nil {
			return err
		}
		bundle, err := s.bundle(r, q.Recipe, p, handOf(r).printer())
		if err != nil {
			return err
		}
		if lang := r.URL.Query().Get("language"); publish.Languages[lang] != nil {
			bundle.Lang = lang
		}
		return hand(w, r, bundle, p)
	}
}

// asFile says that an answer is a file to be saved.
func asFile(w http.ResponseWriter, media, name string) {
	h := w.Header()
	h.Set("Content-Type", media)
	h.Set("Content-Disposition", fmt.Sprintf("attachment; filename=%q", name))
	h.Set("Cache-Control", "no-store")
}
