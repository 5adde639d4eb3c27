// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"strings"

	"gyle/internal/document"
	chem "gyle/science/water"
)

// waterFields shows the form of a water.
func (s *Server) waterFields(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	draft, err := document.OpenDraft([]byte(d.Text))
	if err != nil {
		return seeOther(w, r, d.Path()+"/text")
	}
	form := waterForm(d, d.Revision)
	form.fill(draft)
	meant := map[string]string{}
	for i := range draft.Len("meant") {
		label := draft.Get(listPath("meant", i))
		ion, _, _ := strings.Cut(label, " ")
		meant[asPath(ion)] = label
	}
	form.each(func(x *formField) {
		if label, ok := meant[x.Path]; ok {
			x.Value = label
		}
	})
	form.Author = handOf(r).Author
	return s.showForm(w, r, http.StatusOK, d, form)
}

func listPath(list string, i int) string {
	return strings.TrimSuffix(rowPath(list, i, ""), ".")
}

// asPath is the name of the field that says how an ion was printed.
func asPath(ion string) string { return "as." + ion }

func waterForm(d Document, base int) docForm {
	ions := formGroup{Title: "The numbers as printed", Across: 2,
		About: "Leave empty what the sheet doesn't report: that isn't the same as none. Many sheets print an ion as something else; " +
			"say so here, and the printed number stays as it is."}
	for _, ion := range chem.AllIons() {
		symbol := ion.Symbol()
		ions.Fields = append(ions.Fields, formField{Path: "printed." + symbol, Label: upperFirst(ion.String()) + ", " + symbol, Unit: "mg/L"})
		ions.Fields = append(ions.Fields, formField{Path: asPath(symbol), Label: "Printed as", Options: printedAs(symbol)})
	}
	return docForm{
		Title: d.Title, Action: d.Path() + "/edit", Back: d.Path(), Base: base,
		Groups: []formGroup{
			{Title: "The report", Fields: []formField{
				{Path: "name", Label: "Name"},
				{Path: "supply", Label: "Who printed it", Hint: "Town water, own well, a laboratory."},
				{Path: "date", Label: "Of which day", Hint: "As printed: a day, a year, a mean of the year."},
				{Path: "pH", Label: "pH", Hint: "Drinking water lies between 6.5 and 9.5."},
			}},
			ions,
			{Title: "Measured alkalinity", About: "A titration goes before the printed bicarbonate.", Fields: []formField{
				{Path: "alkalinity", Label: "Alkalinity or acid capacity", Hint: "With its unit: 138 mg/L as CaCO3, 2.76 mEq/L, 2.76 mmol/L (acid capacity to pH 4.3), 7.7 °dH."},
				{Path: "endpoint", Label: "Titrated to pH", Hint: "Usual: 4.3 or 4.5."},
			}},
			{Title: "Besides", Fields: []formField{{Path: "note", Label: "Note", Area: true}}},
		},
	}
}

// printedAs are the ways in which an ion may be printed.
func printedAs(symbol string) []formChoice {
	list := []formChoice{{"", "the ion itself"}}
	for _, l := range chem.Labels {
		if l.Ion.Symbol() == symbol {
			list = append(list, formChoice{l.String(), l.As})
		}
	}
	return list
}

func (s *Server) saveWaterFields(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	base, draft, err := s.openForm(r, d)
	if err != nil {
		return err
	}
	form := waterForm(d, base)
	form.fillTyped(r.PostForm)
	var meant []string
	form.each(func(x *formField) {
		if err != nil || strings.HasPrefix(x.Path, "as.") {
			if x.Value != "" {
				meant = append(meant, x.Value)
			}
			return
		}
		err = draft.Set(x.Path, x.text())
	})
	if err != nil {
		return err
	}
	if err := draft.SetList("meant", meant); err != nil {
		return err
	}
	if draft.Get("printed") == "" && noIons(&form) {
		form.fault("printed.Ca", "the report has no numbers", "type at least calcium, bicarbonate, chloride and sulfate")
		return s.showForm(w, r, http.StatusUnprocessableEntity, d, form)
	}
	return s.saveForm(w, r, d, form, draft, "")
}

// noIons reports whether no ion was typed.
func noIons(form *docForm) bool {
	none := true
	form.each(func(x *formField) {
		if strings.HasPrefix(x.Path, "printed.") && strings.TrimSpace(x.Value) != "" {
			none = false
		}
	})
	return none
}
