// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/http"
	"strconv"

	"gyle/internal/document"
)

// stockFields shows the form of a store without its lots.
func (s *Server) stockFields(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	draft, err := document.OpenDraft([]byte(d.Text))
	if err != nil {
		return seeOther(w, r, d.Path()+"/text")
	}
	form := stockForm(d, d.Revision)
	form.fill(draft)
	form.Author = handOf(r).Author
	return s.showForm(w, r, http.StatusOK, d, form)
}

func stockForm(d Document, base int) docForm {
	return docForm{
		Title: d.Title, Action: d.Path() + "/edit", Back: d.Path(), Base: base,
		Lead: "Lots are added and changed on the sheet, one by one.",
		Groups: []formGroup{{Title: "The store", Fields: []formField{
			{Path: "name", Label: "Name"},
			{Path: "counted", Label: "Counted on", Hint: "Year-month-day: 2026-11-25. The ages of lots that give only an age are reckoned from it."},
			{Path: "note", Label: "Note", Area: true},
		}}},
	}
}

func (s *Server) saveStockFields(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	base, draft, err := s.openForm(r, d)
	if err != nil {
		return err
	}
	form := stockForm(d, base)
	form.fillTyped(r.PostForm)
	if err := form.apply(draft); err != nil {
		return err
	}
	return s.saveForm(w, r, d, form, draft, "")
}

// lotForms are the fields of a lot by the list it stands in.
var lotForms = map[string]struct {
	title  string
	fields func(at string) []formGroup
}{
	"malts":  {"lot of malt", maltFields},
	"hops":   {"lot of hops", hopFields},
	"yeasts": {"lot of yeast", yeastFields},
	"salts":  {"lot of a salt or an acid", saltFields},
}

const priceHint = "As you paid: 1.20 €/kg."

func maltFields(at string) []formGroup {
	return []formGroup{
		{Title: "The lot", Fields: []formField{
			{Path: at + ".lot", Label: "Mark of the lot", Hint: "A name of its own, so that a log can point at it: PA-A."},
			{Path: at + ".malt", Label: "Malt", Hint: "As recipes call it: pale-ale, oats-flaked, chocolate."},
			{Path: at + ".mass", Label: "What is left of it", Unit: "kg"},
			{Path: at + ".bought", Label: "Bought on", Hint: "Year-month-day: 2026-09-05."},
			{Path: at + ".price", Label: "Price", Hint: priceHint},
		}},
		{Title: "Its analysis", About: "From the sheet that came with the sack. What is left empty is taken as typical for the malt.", Fields: []formField{
			{Path: at + ".extract", Label: "Extract, fine grind, dry", Unit: "%", Hint: "Pale malts 79 to 82 %, roasted 70 to 74 %."},
			{Path: at + ".moisture", Label: "Moisture", Unit: "%", Hint: "Usual: 3 to 5 %. Two points more cost half a degree Plato."},
			{Path: at + ".color", Label: "Colour", Unit: "EBC", Hint: "Dark malts differ by a tenth and more from lot to lot. Lovibond: 80 °L."},
			{Path: at + ".mash ph", Label: "pH of a mash in distilled water", Hint: "Cooled sample. Pale 5.6 to 5.8, roasted 4.3 to 4.8."},
			{Path: at + ".buffer", Label: "Buffer", Hint: "mEq per kilo and pH: pale malt about 40."},
			{Path: at + ".protein", Label: "Protein", Unit: "%", Hint: "Usual: 9 to 12 %."},
			{Path: at + ".note", Label: "Note", Wide: true},
		}},
	}
}

func hopFields(at string) []formGroup {
	return []formGroup{
		{Title: "The lot", Fields: []formField{
			{Path: at + ".lot", Label: "Mark of the lot", Hint: "A name of its own: CL-A."},
			{Path: at + ".hop", Label: "Hop", Hint: "As recipes call it: challenger, bramling-cross."},
			{Path: at + ".mass", Label: "What is left of it", Unit: "g"},
			{Path: at + ".form", Label: "As", Options: []formChoice{{"", "not said: pellets"}, {"pellets", "pellets"}, {"cones", "cones"}, {"bag", "cones in a bag"}, {"extract", "extract"}}},
			{Path: at + ".price", Label: "Price", Hint: "As you paid: 4.50 €/100 g."},
		}},
		{Title: "Its analysis", About: "From the label. What is left empty is taken as typical for the hop.", Fields: []formField{
			{Path: at + ".alpha", Label: "Alpha acids on the label", Unit: "%"},
			{Path: at + ".oil", Label: "Oil", Unit: "mL/100 g", Hint: "Usual: 0.5 to 2.5."},
			{Path: at + ".six-month loss", Label: "Alpha lost in six months", Unit: "%", Hint: "At 20 °C in air: good keepers 20 %, poor ones 50 %."},
		}},
		{Title: "How it was kept", About: "Alpha acids fade with time, warmth and air. Give the day it was packed, or its age; not both.", Fields: []formField{
			{Path: at + ".packed", Label: "Packed on", Hint: "Year-month-day. If only the crop year is known: 1 October of it."},
			{Path: at + ".age", Label: "Age", Unit: "d", Hint: "On the day the store was counted."},
			{Path: at + ".kept", Label: "Kept at", Unit: "°C", Hint: "Freezer −18 °C, fridge 4 °C."},
			{Path: at + ".pack", Label: "Pack", Options: []formChoice{{"", "not said: open"}, {"open", "open, or a plain bag"}, {"airtight", "airtight, with air inside"}, {"foil", "foil, evacuated or flushed with gas"}}},
			{Path: at + ".note", Label: "Note", Wide: true},
		}},
	}
}

func yeastFields(at string) []formGroup {
	return []formGroup{{Title: "The lot", Fields: []formField{
		{Path: at + ".lot", Label: "Mark of the lot", Hint: "A name of its own: Y-1."},
		{Path: at + ".yeast", Label: "Yeast", Hint: "As recipes call it: english-ale."},
		{Path: at + ".form", Label: "As", Options: []formChoice{{"", "not said: dry"}, {"dry", "dry"}, {"liquid", "liquid"}, {"slurry", "slurry"}}},
		{Path: at + ".mass", Label: "What is left of it", Unit: "g"},
		{Path: at + ".cells", Label: "Cells", Hint: "Thousand millions per gram (dry: 6 to 20) or per mL (slurry: about 1)."},
		{Path: at + ".viability", Label: "Living", Unit: "%"},
		{Path: at + ".packed", Label: "Packed on", Hint: "Year-month-day."},
		{Path: at + ".price", Label: "Price", Hint: "Of a pack, which is counted whole: 4.20 €/22 g, 2.10 € a pack."},
		{Path: at + ".note", Label: "Note", Wide: true},
	}}}
}

// lotAsked returns the form of the lot that a request means: number n of a
// list, or a new one behind the last.
func lotAsked(d Document, draft *document.Draft, list, number string, base int) (docForm, int, error) {
	kind, ok := lotForms[list]
	if !ok {
		return docForm{}, 0, ErrNotFound
	}
	n := draft.Len(list)
	form := docForm{Title: "A new " + kind.title, Action: d.Path() + "/lot", Back: d.Path(), Base: base, Save: "Save the lot"}
	if number != "" {
		asked, err := strconv.Atoi(number)
		if err != nil || asked < 1 || asked > n+1 {
			return docForm{}, 0, ErrNotFound
		}
		n = asked - 1
	}
	if n < draft.Len(list) {
		form.Title = upperFirst(kind.title) + " " + draft.Get(rowPath(list, n, "lot"))
		form.Remove = "Take this lot out"
	}
	form.Hidden = []formChoice{{"list", list}, {"n", strconv.Itoa(n + 1)}}
	form.Groups = kind.fields(listPath(list, n))
	return form, n, nil
}

func (s *Server) stockLot(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	draft, err := document.OpenDraft([]byte(d.Text))
	if err != nil {
		return seeOther(w, r, d.Path()+"/text")
	}
	form, _, err := lotAsked(d, draft, r.FormValue("list"), r.FormValue("n"), d.Revision)
	if err != nil {
		return err
	}
	form.fill(draft)
	form.Author = handOf(r).Author
	return s.showForm(w, r, http.StatusOK, d, form)
}

func (s *Server) saveStockLot(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	base, draft, err := s.openForm(r, d)
	if err != nil {
		return err
	}
	form, n, err := lotAsked(d, draft, r.PostFormValue("list"), r.PostFormValue("n"), base)
	if err != nil {
		return err
	}
	at := listPath(r.PostFormValue("list"), n)
	lot := draft.Get(at + ".lot")
	if r.PostFormValue("do") == "remove" {
		draft.Remove(at)
		form.fill(draft)
		form.Author, form.Why = handOf(r).Author, "lot "+lot+" taken out"
		return s.saveForm(w, r, d, form, draft, "")
	}
	form.fillTyped(r.PostForm)
	if draft.Len(r.PostFormValue("list")) == 0 {
		draft.Remove(r.PostFormValue("list")) // an empty list may be written as nothing
	}
	for _, key := range []string{"lot", "malt", "hop", "yeast", "salt"} {
		err = errors.Join(err, keepKey(&form, draft, at+"."+key))
	}
	if err = errors.Join(err, form.apply(draft)); err != nil {
		return err
	}
	if form.Why == "" {
		form.Why = fmt.Sprintf("lot %s", r.PostForm.Get(at+".lot"))
	}
	return s.saveForm(w, r, d, form, draft, "")
}

// keepKey makes the entry of a lot even when nothing was typed, so that the
// fault is told beside its fields.
func keepKey(form *docForm, draft *document.Draft, path string) (err error) {
	form.each(func(x *formField) {
		if x.Path == path {
			err = draft.Set(path, "?")
		}
	})
	return err
}
