// SPDX-License-Identifier: MIT

package web

import (
	"net/http"

	"gyle/gyle"
	"gyle/publish"
	"gyle/publish/table"
	"gyle/quantity"
	"gyle/tasting"
)

// tableRoutes are the addresses of tables for a spreadsheet.
func (s *Server) tableRoutes(page func(pattern string, h handle)) {
	planTable := func(name string, lay func(planned, quantity.Printer) (table.Table, error)) {
		page("GET /plan/"+name+".csv", s.withPlan(func(w http.ResponseWriter, r *http.Request, _ publish.Bundle, p planned) error {
			pr := handOf(r).printer()
			t, err := lay(p, pr)
			if err != nil {
				return err
			}
			return sendTable(w, t, pr, readPlanQuery(r.URL.Query()).Recipe+"."+name)
		}))
	}
	planTable("grist", func(p planned, pr quantity.Printer) (table.Table, error) { return table.Grist(p.plan, pr), nil })
	planTable("hops", func(p planned, pr quantity.Printer) (table.Table, error) { return table.Hops(p.plan, pr), nil })
	planTable("day", func(p planned, pr quantity.Printer) (table.Table, error) { return table.Day(p.plan, pr) })
	gyleTable := func(name string, lay func(*gyle.Gyle, quantity.Printer) table.Table) {
		page("GET /gyle/{slug}/"+name+".csv", func(w http.ResponseWriter, r *http.Request) error {
			g, d, err := s.gyle(r.Context(), r.PathValue("slug"))
			if err != nil {
				return err
			}
			pr := handOf(r).printer()
			return sendTable(w, lay(g, pr), pr, d.Slug+"."+name)
		})
	}
	gyleTable("log", table.Log)
	gyleTable("readings", table.Readings)
	page("GET /tasting/{slug}/answers.csv", func(w http.ResponseWriter, r *http.Request) error {
		d, err := s.book.Get(r.Context(), tasting.Kind, r.PathValue("slug"))
		if err != nil {
			return err
		}
		if d.Deleted {
			return ErrNotFound
		}
		t, err := tasting.Parse(d.Slug, []byte(d.Text))
		if err != nil {
			return err
		}
		pr := handOf(r).printer()
		return sendTable(w, table.Answers(t, pr), pr, d.Slug+".answers")
	})
}

// sendTable answers with a table, to be saved under a name.
func sendTable(w http.ResponseWriter, t table.Table, pr quantity.Printer, name string) error {
	asFile(w, "text/csv; charset=utf-8; header=present", name+".csv")
	_, err := w.Write(t.CSV(pr))
	return err
}
