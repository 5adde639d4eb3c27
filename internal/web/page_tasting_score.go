// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"gyle/data"
	"gyle/internal/document"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
	"gyle/tasting"
)

// sheetsBody is where score sheets are typed in, and those that are in.
type sheetsBody struct {
	*tastingBody
	Form    sheetForm
	Entered []enteredSheet
}

// enteredSheet is a sheet that is in the document.
type enteredSheet struct {
	tasting.Sheet
	Number   int
	Replaced bool
}

// sheetForm is a judge's sheet of one beer as it is typed.
type sheetForm struct {
	Judge, Beer, Place, Age, Total, Of, Comment string
	Corrects                                    int
	Rows                                        []sheetRow
	Faults                                      map[string]fieldFault // by the name of the field
	Problem                                     string                // of the sheet as a whole
	Beers                                       []formChoice
	Judges, Known                               []string
}

// sheetRow is one attribute of it.
type sheetRow struct {
	Number                               int
	Attribute, Level, Says, Terms, Words string
}

// LevelChoices are the words for how much.
func (sheetForm) LevelChoices() (list []formChoice) {
	for i, word := range quantity.LevelWords {
		list = append(list, formChoice{strconv.Itoa(i), fmt.Sprintf("%d %s", i, word)})
	}
	return list
}

// Opinions are what a judge can say of an attribute.
func (sheetForm) Opinions() []string { return tasting.Opinions() }

// Fault is what is wrong with a field.
func (f sheetForm) Fault(name string) fieldFault { return f.Faults[name] }

// FaultOf is what is wrong with a field of a row.
func (f sheetForm) FaultOf(name string, row int) fieldFault {
	return f.Faults[name+"-"+strconv.Itoa(row)]
}

func (f *sheetForm) fault(name, text, hint string) {
	if _, known := f.Faults[name]; !known {
		f.Faults[name] = fieldFault{Field: name, Text: text, Hint: hint}
	}
}

// Empty rows for what a judge adds, and how many rows a sheet may have.
const (
	spareAttributes = 2
	mostAttributes  = 60
)

// usualAttributes are the parts of a sheet where nothing else was asked (ISO 13299
// and common practice name these sections).
var usualAttributes = []string{"aroma", "appearance", "malt", "hops", "bitterness", "sweetness", "body", "carbonation", "finish", "overall"}

// tastingSheets shows the score sheets and the form for one more. With
// ?correct=2 it corrects the second sheet.
func (s *Server) tastingSheets(w http.ResponseWriter, r *http.Request) error {
	t, d, err := s.tasting(r)
	if err != nil {
		return err
	}
	form := sheetForm{Beer: r.URL.Query().Get("beer"), Judge: r.URL.Query().Get("judge"), Of: "50"}
	if n, err := strconv.Atoi(r.URL.Query().Get("correct")); err == nil && n >= 1 && n <= len(t.Sheets) {
		form = formOfSheet(t.Sheets[n-1], n)
	}
	return s.showSheets(w, r, http.StatusOK, t, d, form)
}

// formOfSheet fills the form with a sheet that is to be corrected.
func formOfSheet(sheet tasting.Sheet, number int) sheetForm {
	number64 := func(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
	f := sheetForm{Judge: sheet.Judge, Beer: sheet.Beer, Comment: sheet.Comment, Corrects: number, Of: "50"}
	if sheet.Place > 0 {
		f.Place = strconv.Itoa(sheet.Place)
	}
	if sheet.Age > 0 {
		f.Age = writtenOf(sheet.Age)
	}
	if sheet.Total != nil {
		f.Total, f.Of = number64(*sheet.Total), number64(sheet.Of)
	}
	for _, p := range sheet.Points {
		row := sheetRow{Attribute: p.Attribute, Says: p.Says, Words: p.Words}
		if p.Level != nil {
			scale := sheet.Levels()
			row.Level = number64((*p.Level - scale.From) / (scale.To - scale.From) * tasting.LevelScale.To)
		}
		var terms []string
		for _, term := range p.Terms {
			terms = append(terms, string(term))
		}
		row.Terms = strings.Join(terms, ", ")
		f.Rows = append(f.Rows, row)
	}
	return f
}

// writtenOf is a value as a document has it.
func writtenOf(v interface{ MarshalText() ([]byte, error) }) string {
	text, _ := v.MarshalText()
	return string(text)
}

func (s *Server) showSheets(w http.ResponseWriter, r *http.Request, status int, t *tasting.Tasting, d Document, form sheetForm) error {
	form.Known = data.TermNames()
	for _, b := range t.Beers {
		name := b.Name
		if name == "" {
			name = b.Recipe
		}
		form.Beers = append(form.Beers, formChoice{b.Letter, name})
	}
	for _, a := range t.Panel {
		if a.Out == "" {
			form.Judges = append(form.Judges, cmp.Or(a.Name, a.ID))
		}
	}
	form.addRows(s.askedAttributes(r.Context(), t))
	body := sheetsBody{tastingBody: &tastingBody{Document: d, Tasting: t, Here: "sheets", LAN: s.options.LAN}, Form: form}
	standing := t.StandingSheets()
	for i, sheet := range t.Sheets {
		body.Entered = append(body.Entered, enteredSheet{sheet, i + 1, !slices.Contains(standing, i+1)})
	}
	return s.show(w, r, status, "page_tasting_sheets", Sheet{Title: "Score sheets: " + d.Title, Chapter: d.Kind, Notice: savedNotice(r, d), Body: body})
}

// addRows adds the attributes that are not on the sheet yet, and empty rows.
func (f *sheetForm) addRows(asked []string) {
	for _, a := range asked {
		if !slices.ContainsFunc(f.Rows, func(r sheetRow) bool { return strings.EqualFold(r.Attribute, a) }) {
			f.Rows = append(f.Rows, sheetRow{Attribute: a})
		}
	}
	for range spareAttributes {
		f.Rows = append(f.Rows, sheetRow{})
	}
	f.Rows = f.Rows[:min(len(f.Rows), mostAttributes)]
	for i := range f.Rows {
		f.Rows[i].Number = i
	}
}

// askedAttributes are what the sheets of this tasting judge already, what its
// profiles ask for and what the styles of its beers are said to taste of; of
// none, the usual parts of a sheet.
func (s *Server) askedAttributes(ctx context.Context, t *tasting.Tasting) (asked []string) {
	add := func(a string) {
		if !slices.ContainsFunc(asked, func(known string) bool { return strings.EqualFold(known, a) }) {
			asked = append(asked, a)
		}
	}
	for _, sheet := range t.Sheets {
		for _, p := range sheet.Points {
			add(p.Attribute)
		}
	}
	for _, f := range t.Flights {
		for _, a := range f.Attributes {
			add(a)
		}
	}
	for _, b := range t.Beers {
		if st := s.styleOf(ctx, b); st != nil {
			for _, q := range st.Taste {
				add(q.Quality)
			}
		}
	}
	if len(asked) == 0 {
		asked = append(asked, usualAttributes...)
	}
	return asked
}

// styleOf is the style of a beer's recipe; nil where the book lacks one of them.
func (s *Server) styleOf(ctx context.Context, b tasting.Beer) *style.Style {
	if b.Recipe == "" {
		return nil
	}
	r, err := optional(ctx, s, recipe.Kind, b.Recipe, recipe.Parse)
	if err != nil || r == nil {
		return nil
	}
	st, err := optional(ctx, s, style.Kind, r.Style, style.Parse)
	if err != nil {
		return nil
	}
	return st
}

// saveTastingSheet enters a sheet. What can't be read stays in the form with a
// word beside it.
func (s *Server) saveTastingSheet(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	t, d, err := s.tasting(r)
	if err != nil {
		return err
	}
	form := readSheetForm(r.PostForm)
	sheet, rows := form.sheet(tasting.At(s.now()))
	if len(form.Faults) == 0 && form.Problem == "" {
		why := "score sheet of " + sheet.Judge
		_, err = ChangeTasting(r.Context(), s.book, d.Slug, handOf(r).Author, why, func(t *tasting.Tasting) error { return t.Enter(sheet) })
		var faults document.Faults
		if err != nil && !errors.As(err, &faults) {
			return err
		}
		form.place(faults, rows)
	}
	if len(form.Faults) > 0 || form.Problem != "" {
		return s.showSheets(w, r, http.StatusUnprocessableEntity, t, d, form)
	}
	return seeOther(w, r, "/tasting/"+d.Slug+"/sheets#entered")
}

// readSheetForm takes what was typed, as it was typed.
func readSheetForm(form url.Values) sheetForm {
	get := func(name string) string { return strings.TrimSpace(form.Get(name)) }
	f := sheetForm{
		Judge: shortName(get("judge")), Beer: get("beer"), Place: get("place"), Age: get("age"), Total: get("total"), Of: get("of"),
		Comment: shortWords(get("comment")), Faults: map[string]fieldFault{},
	}
	f.Corrects, _ = strconv.Atoi(get("corrects"))
	for i := range mostAttributes {
		n := strconv.Itoa(i)
		if !form.Has("attribute-" + n) {
			break
		}
		f.Rows = append(f.Rows, sheetRow{i, shortWords(get("attribute-" + n)), get("level-" + n), get("says-" + n), get("terms-" + n), shortWords(get("words-" + n))})
	}
	return f
}

// sheet reads the form; rows are the numbers of the rows of its points.
func (f *sheetForm) sheet(at tasting.Time) (sheet tasting.Sheet, rows []int) {
	sheet = tasting.Sheet{Judge: f.Judge, Beer: f.Beer, At: at, Comment: f.Comment, Corrects: f.Corrects}
	if sheet.Judge == "" {
		f.fault("judge", "Say who judged.", "A number will do.")
	}
	if sheet.Beer == "" {
		f.fault("beer", "Choose the beer.", "")
	}
	if f.Place != "" {
		n, err := strconv.Atoi(f.Place)
		if err != nil || n < 1 {
			f.fault("place", "The place is no number from 1 on.", "The first beer of a flight has place 1.")
		}
		sheet.Place = n
	}
	if f.Age != "" {
		if err := sheet.Age.UnmarshalText([]byte(f.Age)); err != nil {
			f.fault("age", "The age can’t be read.", "Write 61 d.")
		}
	}
	f.total(&sheet)
	for i, row := range f.Rows {
		if row.Level == "" && row.Says == "" && row.Terms == "" && row.Words == "" {
			continue
		}
		sheet.Points = append(sheet.Points, f.point(i, row))
		rows = append(rows, i)
	}
	if len(sheet.Points) == 0 && sheet.Total == nil && sheet.Comment == "" {
		f.Problem = "The sheet says nothing yet: give a level, an opinion or words."
	}
	return sheet, rows
}

func (f *sheetForm) total(sheet *tasting.Sheet) {
	if f.Total == "" {
		return
	}
	total, err := numberOf(f.Total)
	of, errOf := numberOf(f.Of)
	switch {
	case err != nil:
		f.fault("total", "The total is no number.", "Write 37.")
	case errOf != nil || of <= 0:
		f.fault("of", "Say out of how many points.", "50 is usual.")
	default:
		sheet.Total, sheet.Of = &total, of
	}
}

func (f *sheetForm) point(i int, row sheetRow) tasting.Point {
	n := strconv.Itoa(i)
	p := tasting.Point{Attribute: row.Attribute, Says: row.Says, Words: row.Words}
	if p.Attribute == "" {
		f.fault("attribute-"+n, "Name what is judged.", "")
	}
	if row.Level != "" {
		level, err := quantity.ParseLevel(row.Level)
		if err != nil {
			f.fault("level-"+n, "The level is neither a number nor a word for how much.", "0 to 5.")
		}
		p.Level = &level
	}
	for part := range strings.SplitSeq(row.Terms, ",") {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		var term tasting.Term
		var read *quantity.ParseError
		if err := term.UnmarshalText([]byte(part)); errors.As(err, &read) {
			f.fault("terms-"+n, sentence(read.Msg), sentence(strings.ReplaceAll(read.Hint, " words:", " words")))
			continue
		}
		p.Terms = append(p.Terms, term)
	}
	return p
}

// numberOf reads a number with point or comma.
func numberOf(text string) (float64, error) {
	return strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64)
}

// place puts the faults of a sheet beside their fields.
func (f *sheetForm) place(faults document.Faults, rows []int) {
	for _, one := range faults {
		_, field, _ := strings.Cut(one.Field, ".")
		name := field
		if rest, isPoint := strings.CutPrefix(field, "points["); isPoint {
			number, part, _ := strings.Cut(rest, "]")
			if i, err := strconv.Atoi(number); err == nil && i < len(rows) {
				name = cmp.Or(strings.TrimPrefix(part, "."), "words") + "-" + strconv.Itoa(rows[i])
			}
		}
		if name == "" || name == "corrects" {
			f.Problem = sentence(one.Msg) + " Choose “correct” beside that sheet to replace it."
			continue
		}
		f.fault(name, sentence(one.Msg), sentence(one.Hint))
	}
}
