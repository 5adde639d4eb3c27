// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"gyle/brewhouse"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/water"
)

// recipeMode says what a form of fields is for.
type recipeMode string

const (
	recipeEdit recipeMode = "edit" // a correction of the document
	recipeTry  recipeMode = "try"  // a look at what would be, never saved
	recipeNew  recipeMode = "new"
)

// recipeEditBody is a recipe being written by fields.
type recipeEditBody struct {
	Mode        recipeMode
	Document    Document // its Revision is the one the edit began with
	Form        recipeForm
	Author, Why string
	Changed     bool // something was typed that isn't saved
	Comments    bool // the saved text has comments, which fields don't keep
	Ground      *recipeGround
	Refused     string // why the book didn't take it

	Look recipeLook
}

// Action is where the form goes.
func (b *recipeEditBody) Action() string {
	if b.Mode == recipeNew {
		return "/new/recipe/fields"
	}
	return b.Document.Path() + "/" + string(b.Mode)
}

// Live is where the form goes while somebody types.
func (b *recipeEditBody) Live() string {
	if b.Mode == recipeNew {
		return "/new/recipe/look"
	}
	return b.Document.Path() + "/look"
}

// recipeLook is what stands beside the form: sums, figures, verdicts,
// drawings.
type recipeLook struct {
	*recipeDrawn            // nil where nothing can be drawn yet
	Mode         recipeMode // of the form
	Faults       []recipeTrouble
	Rough        bool     // drawn without what is at fault
	Sum          string   // "98.5 %", where the grist is in shares
	Left         string   // "1.5 % left"
	RestTo       string   // row that may take what is left
	RestName     string   // and the malt in it
	Masses       bool     // the grist or the hops are written in masses
	Echo         []string // what the masses mean
	Changes      []string // against the saved version
	Ground       *recipeGround
}

func (s *Server) editRecipe(w http.ResponseWriter, r *http.Request) error {
	return s.openRecipe(w, r, recipeEdit)
}

func (s *Server) tryRecipe(w http.ResponseWriter, r *http.Request) error {
	return s.openRecipe(w, r, recipeTry)
}

// openRecipe shows the saved recipe in a form.
func (s *Server) openRecipe(w http.ResponseWriter, r *http.Request, mode recipeMode) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	if d.Deleted {
		return ErrNotFound
	}
	b := &recipeEditBody{Mode: mode, Document: d, Author: handOf(r).Author, Comments: hasComments(d.Text)}
	if b.Form.W, err = readWritten(d.Text); err != nil {
		return seeOther(w, r, d.Path()+"/text")
	}
	if b.Ground, err = s.recipeGround(r.Context()); err != nil {
		return err
	}
	return s.showRecipeForm(w, r, http.StatusOK, b)
}

// newRecipe shows an empty form; a copy begins as a text.
func (s *Server) newRecipe(w http.ResponseWriter, r *http.Request) error {
	if r.URL.Query().Has("from") || r.URL.Query().Get("as") == "text" {
		r.SetPathValue("kind", recipe.Kind)
		return s.newText(w, r)
	}
	b := &recipeEditBody{Mode: recipeNew, Document: Document{Kind: recipe.Kind}, Author: handOf(r).Author}
	b.Form.W = writtenRecipe{Grist: make([]writtenGrain, 3), Hops: make([]writtenCharge, 2), Mash: writtenMash{Rests: make([]string, 1)}, By: b.Author}
	var err error
	if b.Ground, err = s.recipeGround(r.Context()); err != nil {
		return err
	}
	return s.showRecipeForm(w, r, http.StatusOK, b)
}

// readRecipeEdit reads the form of fields.
func (s *Server) readRecipeEdit(r *http.Request, mode recipeMode) (*recipeEditBody, error) {
	b := &recipeEditBody{Mode: mode, Document: Document{Kind: recipe.Kind}, Changed: true}
	var err error
	if mode != recipeNew {
		if _, b.Document, err = s.read(r); err != nil {
			return nil, err
		}
	}
	if err := readForm(r); err != nil {
		return nil, err
	}
	b.Comments = hasComments(b.Document.Text)
	b.Form.W = readRecipeForm(r.PostForm)
	b.Author, b.Why = shortName(r.PostFormValue("author")), r.PostFormValue("reason")
	if mode != recipeNew {
		if b.Document.Revision, err = strconv.Atoi(r.PostFormValue("base")); err != nil {
			return nil, errBadForm
		}
	}
	b.Ground, err = s.groundOf(r)
	return b, err
}

// groundOf reads the ground that a form chose, or that of the book.
func (s *Server) groundOf(r *http.Request) (*recipeGround, error) {
	if !r.PostForm.Has("on.house") {
		return s.recipeGround(r.Context())
	}
	g := &recipeGround{HouseSlug: r.PostForm.Get("on.house"), StockSlug: r.PostForm.Get("on.stock"), WaterSlug: r.PostForm.Get("on.water")}
	return g, errors.Join(
		readChosen(r.Context(), s, g, brewhouse.Kind, g.HouseSlug, brewhouse.Parse, &g.House),
		readChosen(r.Context(), s, g, stock.Kind, g.StockSlug, stock.Parse, &g.Stock),
		readChosen(r.Context(), s, g, water.Kind, g.WaterSlug, water.Parse, &g.Water),
	)
}

// lookRecipe answers with what stands beside the form, while somebody types.
func (s *Server) lookRecipe(w http.ResponseWriter, r *http.Request) error {
	mode := recipeNew
	if r.PathValue("slug") != "" {
		mode = recipeEdit
	}
	b, err := s.readRecipeEdit(r, mode)
	if err != nil {
		return err
	}
	if r.PostFormValue("mode") == string(recipeTry) {
		b.Mode = recipeTry
	}
	if _, err := s.lookAt(r.Context(), b, handOf(r).printer()); err != nil {
		return err
	}
	return s.fragment(w, r, "page_recipe_edit", "recipe-look", b.Look)
}

// lookAt reads the form as a recipe and fills what stands beside it. The
// recipe is nil where something is at fault.
func (s *Server) lookAt(ctx context.Context, b *recipeEditBody, pr quantity.Printer) (*recipe.Recipe, error) {
	r, err := b.Form.judge()
	if err != nil {
		return nil, err
	}
	b.Look = recipeLook{Mode: b.Mode, Faults: b.Form.Troubles(), Ground: b.Ground}
	b.addUp(pr)
	seen := r
	if seen == nil {
		compact, _ := b.Form.W.compact()
		rough, _ := compact.without(b.Form.raw).scaled()
		if seen, err = rough.read(); err != nil {
			return nil, nil // too little is written to draw it
		}
		b.Look.Rough = true
	}
	now := recipeVersion{Recipe: seen}
	var list []recipeVersion
	if b.Look.recipeDrawn, list, err = s.drawRecipe(ctx, b.Ground, now, pr, true); err != nil {
		return nil, err
	}
	b.echo(seen)
	saved, err := s.compareWithSaved(b, seen, pr)
	label, before := "now", saved
	if saved == nil {
		label, before = versionLabel(seen), parentOf(list, seen)
	}
	b.Look.Strips = b.Look.strips("strips", label, before, pr, true)
	return r, err
}

// echo says what masses were taken to mean.
func (b *recipeEditBody) echo(r *recipe.Recipe) {
	for _, g := range r.Grist {
		b.Look.Masses = b.Look.Masses || g.Mass != nil
	}
	for _, c := range r.Hops {
		b.Look.Masses = b.Look.Masses || c.Mass != nil
	}
	if b.Look.Masses && b.Look.Plan != nil {
		b.Look.Echo = b.Look.Plan.Echo
	}
}

// compareWithSaved sets the figures beside those of the saved version and
// lists what was changed. It returns the saved one, if there is one.
func (s *Server) compareWithSaved(b *recipeEditBody, r *recipe.Recipe, pr quantity.Printer) (*recipe.Recipe, error) {
	if b.Mode == recipeNew {
		return nil, nil
	}
	saved, err := parsed(s, b.Document.Slug, b.Document.Text, recipe.Parse)
	if err != nil {
		return nil, nil // the saved text is at fault: there is nothing to compare with
	}
	before, err := s.figureVersion(b.Ground, saved, b.Look.Style, pr)
	if err != nil {
		return nil, err
	}
	b.Look.compareWith(before)
	for _, d := range recipe.Differences(saved, r) {
		b.Look.Changes = append(b.Look.Changes, d.String())
	}
	return saved, nil
}

// addUp says what the shares add up to, and which grain may take what is left.
func (b *recipeEditBody) addUp(pr quantity.Printer) {
	_, sum := b.Form.W.scaled()
	if sum <= 0 {
		return
	}
	b.Look.Sum = shortShare(sum, pr)
	left := 100 - sum
	if left > -leastLeft && left < leastLeft {
		return
	}
	b.Look.Left = shortShare(left, pr) + " left"
	if left < 0 {
		b.Look.Left = shortShare(-left, pr) + " too much"
	}
	if i := b.Form.W.base(); i >= 0 && writtenShare(b.Form.W.Grist[i])+left > 0 {
		b.Look.RestTo, b.Look.RestName = recipeRow("grist", i), b.Form.W.Grist[i].Malt
	}
}

// shortShare prints a share without zeros at its end.
func shortShare(percent float64, pr quantity.Printer) string {
	return strings.TrimRight(strings.TrimRight(pr.Number(percent, 2), "0"), ".,") + " %"
}

// leastLeft is the smallest rest of the shares that is told, in percent: half
// of the last digit shown.
const leastLeft = 0.005

// base is the row of the base malt, or of the largest share; -1 where no share
// is written.
func (w writtenRecipe) base() int {
	best, most := -1, 0.0
	for i, g := range w.Grist {
		weight := writtenShare(g)
		if weight > 0 && g.Role == string(recipe.RoleBase) {
			weight += 1000
		}
		if weight > most {
			best, most = i, weight
		}
	}
	return best
}

// writtenShare is the share of a grain in percent, 0 where none can be read.
func writtenShare(g writtenGrain) float64 {
	f, err := quantity.ParseFraction(g.Share)
	if err != nil {
		return 0
	}
	return f.Percent()
}

// giveRest lets a grain take what the shares lack.
func (w *writtenRecipe) giveRest(path string) {
	_, sum := w.scaled()
	for i := range w.Grist {
		if recipeRow("grist", i) == path {
			w.Grist[i].Share = shortShare(writtenShare(w.Grist[i])+100-sum, quantity.Printer{})
		}
	}
}

func (s *Server) showRecipeForm(w http.ResponseWriter, r *http.Request, status int, b *recipeEditBody) error {
	if err := s.offer(r.Context(), b.Ground); err != nil {
		return err
	}
	var err error
	if b.Form.Lists, err = s.recipeLists(r.Context(), b.Ground); err != nil {
		return err
	}
	if b.Mode != recipeNew || b.Changed {
		if _, err := s.lookAt(r.Context(), b, handOf(r).printer()); err != nil {
			return err
		}
	}
	if status == http.StatusOK && b.Changed && b.Form.New != "" {
		b.Form.Faults = nil // a new row is not a fault yet
	}
	b.Look.Mode, b.Look.Ground = b.Mode, b.Ground
	return s.show(w, r, status, "page_recipe_edit", b.sheet())
}

func (b *recipeEditBody) sheet() Sheet {
	sheet := Sheet{Title: b.Document.Title, Chapter: recipe.Kind, Body: b}
	if b.Refused != "" {
		sheet.Notice = &Notice{Text: "Not saved: " + b.Refused}
	}
	switch b.Mode {
	case recipeNew:
		sheet.Title = "A new beer"
	case recipeTry:
		sheet.Title, sheet.Folio = "Trying "+b.Document.Title, "not saved"
	default:
		sheet.Folio = fmt.Sprintf("revision %d, not saved yet", b.Document.Revision+1)
	}
	return sheet
}

func (s *Server) saveRecipe(w http.ResponseWriter, r *http.Request) error {
	return s.doRecipe(w, r, recipeEdit)
}

func (s *Server) retryRecipe(w http.ResponseWriter, r *http.Request) error {
	return s.doRecipe(w, r, recipeTry)
}

func (s *Server) saveNewRecipe(w http.ResponseWriter, r *http.Request) error {
	return s.doRecipe(w, r, recipeNew)
}

// doRecipe does what the button says that was pressed: change the rows, look,
// save, or ask for a new version.
func (s *Server) doRecipe(w http.ResponseWriter, r *http.Request, mode recipeMode) error {
	b, err := s.readRecipeEdit(r, mode)
	if err != nil {
		return err
	}
	do, what, _ := strings.Cut(r.PostFormValue("do"), ":")
	switch do {
	case "add":
		b.Form.addRow(what)
	case "drop":
		b.Form.dropRow(what)
	case "rest":
		b.Form.W.giveRest(what)
	case "intent":
		err = s.asIntent(r.Context(), b)
	case "back":
		b.Form.W, err = readWritten(plainLines(r.PostFormValue("text")))
	case "save":
		if mode != recipeTry {
			return s.keepRecipe(w, r, b)
		}
	case "version":
		if mode != recipeNew {
			return s.askNext(w, r, b)
		}
	}
	if err != nil {
		return err
	}
	return s.showRecipeForm(w, r, http.StatusOK, b)
}

func plainLines(text string) string { return strings.ReplaceAll(text, "\r\n", "\n") }

// asIntent writes what the masses mean in their place.
func (s *Server) asIntent(ctx context.Context, b *recipeEditBody) error {
	r, err := s.lookAt(ctx, b, quantity.Printer{})
	if err != nil || r == nil || b.Look.Plan == nil {
		return err
	}
	text, err := b.Look.Plan.RecipeDocument().Text()
	if err != nil {
		return err
	}
	b.Form.W, err = readWritten(string(text))
	return err
}

// keepRecipe saves the form, or shows its faults.
func (s *Server) keepRecipe(w http.ResponseWriter, r *http.Request, b *recipeEditBody) error {
	read, err := b.Form.judge()
	if err != nil {
		return err
	}
	if read == nil {
		return s.showRecipeForm(w, r, http.StatusUnprocessableEntity, b)
	}
	text, err := read.Text()
	if err != nil {
		return err
	}
	draft := Draft{Kind: recipe.Kind, Slug: b.Document.Slug, Text: string(text), Author: b.Author, Why: b.Why, Base: b.Document.Revision}
	if b.Mode == recipeNew {
		if draft.Slug, err = s.freeSlug(r.Context(), recipe.Kind, versionTitle(read.Name, read.Version)); err != nil {
			return err
		}
	}
	saved, err := s.Save(w, r, draft)
	var conflict *ConflictError
	var refused *RefusedError
	switch {
	case errors.As(err, &conflict):
		c, err := s.chapter(recipe.Kind)
		if err != nil {
			return err
		}
		mine := editBody{Chapter: c, Slug: draft.Slug, Title: b.Document.Title, Base: draft.Base, Text: draft.Text, Author: b.Author, Why: b.Why}
		return s.showConflict(w, r, mine, conflict)
	case errors.As(err, &refused):
		b.Refused = refused.Reason
		return s.showRecipeForm(w, r, http.StatusUnprocessableEntity, b)
	case err != nil:
		return err
	}
	return seeOther(w, r, saved.Path()+"?done=saved")
}
