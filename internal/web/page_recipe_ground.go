// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strings"

	"gyle/brewhouse"
	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// Settings of the book that say on which house recipes are figured. Without a
// house the figures are those that a recipe means.
const (
	recipeHouseSetting = "recipe.house"
	recipeStockSetting = "recipe.stock"
	recipeWaterSetting = "recipe.water"
)

// recipeGround is what recipes are figured on.
type recipeGround struct {
	HouseSlug, StockSlug, WaterSlug string
	House                           *brewhouse.House // nil: figuredRecipe on intent alone
	Stock                           *stock.Stock
	Water                           *water.Water
	Missing                         []string // readChosen once, and no longer in the book

	Houses, Stocks, Waters []Document // what may be readChosen
}

// Name says in a few words what the figures stand on.
func (g *recipeGround) Name() string {
	if g.House == nil {
		return "intent alone"
	}
	name := g.House.Name
	if g.Stock != nil {
		name += ", " + g.Stock.Name
	}
	if g.Water != nil {
		name += ", " + g.Water.Name
	}
	return name
}

// recipeGround reads what the book chose to figure recipes on.
func (s *Server) recipeGround(ctx context.Context) (*recipeGround, error) {
	g := new(recipeGround)
	for key, slug := range map[string]*string{recipeHouseSetting: &g.HouseSlug, recipeStockSetting: &g.StockSlug, recipeWaterSetting: &g.WaterSlug} {
		var err error
		if *slug, err = s.book.Setting(ctx, key, ""); err != nil {
			return nil, err
		}
	}
	err := errors.Join(
		readChosen(ctx, s, g, brewhouse.Kind, g.HouseSlug, brewhouse.Parse, &g.House),
		readChosen(ctx, s, g, stock.Kind, g.StockSlug, stock.Parse, &g.Stock),
		readChosen(ctx, s, g, water.Kind, g.WaterSlug, water.Parse, &g.Water),
	)
	return g, err
}

// readChosen reads one readChosen document; a deleted or missing one is named.
func readChosen[T any](ctx context.Context, s *Server, g *recipeGround, kind, slug string, parse func(string, []byte) (*T, error), into **T) error {
	if slug == "" {
		return nil
	}
	d, err := s.book.Get(ctx, kind, slug)
	if errors.Is(err, ErrNotFound) || err == nil && d.Deleted {
		g.Missing = append(g.Missing, slug)
		return nil
	}
	if err != nil {
		return err
	}
	read, err := parsed(s, slug, d.Text, parse)
	if err != nil {
		g.Missing = append(g.Missing, slug)
		return nil
	}
	*into = read
	return nil
}

// mostRecipeChoices is how many documents a list to choose from offers.
const mostRecipeChoices = 200

// offer fills the lists to choose from.
func (s *Server) offer(ctx context.Context, g *recipeGround) error {
	for kind, into := range map[string]*[]Document{brewhouse.Kind: &g.Houses, stock.Kind: &g.Stocks, water.Kind: &g.Waters} {
		found, _, err := s.book.List(ctx, kind, Part{Limit: mostRecipeChoices})
		if err != nil {
			return err
		}
		*into = found
	}
	return nil
}

// saveGround keeps the choice for the whole book.
func (s *Server) saveGround(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	for _, choice := range []struct{ key, kind, slug string }{
		{recipeHouseSetting, brewhouse.Kind, r.PostFormValue("house")},
		{recipeStockSetting, stock.Kind, r.PostFormValue("stock")},
		{recipeWaterSetting, water.Kind, r.PostFormValue("water")},
	} {
		if choice.slug != "" {
			if d, err := s.book.Get(r.Context(), choice.kind, choice.slug); err != nil {
				return err
			} else if d.Deleted {
				return ErrNotFound
			}
		}
		if err := s.book.SetSetting(r.Context(), choice.key, choice.slug); err != nil {
			return err
		}
	}
	back := r.PathValue("slug")
	return seeOther(w, r, "/recipe/"+back)
}

// figuredRecipe is a recipe with its figures, by a plan or by what it means.
type figuredRecipe struct {
	Recipe  *recipe.Recipe
	Plan    *plan.Plan // nil: figures are those that are meant
	Refusal []string   // why there is no plan
	Figures []recipeFigure
	Style   *style.Style
	Judged  *judge.Judgement
}

// recipeFigure is one number of the beer.
type recipeFigure struct {
	Name        quantity.Figure
	Label, Text string // "original gravity", "1.050"
	Band, Aim   string // "1.048–1.052"
	Lack        string // why there is no number
	Why         string // a formula to read more about
	Was         string // in the version that it is compared with, where it differs
	Word        judge.Word
	value, sd   float64
	known       bool
}

// recipeFigures are the figures of a recipe's sheet, in their order.
var recipeFigures = []quantity.Figure{
	quantity.OG, quantity.FG, quantity.ABV, quantity.Bitterness, quantity.BUGU, quantity.BeerColor, quantity.Attenuation, quantity.CO2, quantity.MashPH,
}

// figure works a recipe out on the ground.
func (g *recipeGround) figure(r *recipe.Recipe, st *style.Style, pr quantity.Printer) (*figuredRecipe, error) {
	f := &figuredRecipe{Recipe: r, Style: st}
	if g.House != nil {
		p, err := plan.Make(plan.Input{Recipe: r, House: g.House, Stock: g.Stock, Water: g.Water, Options: plan.Options{Reader: pr}})
		if err != nil {
			f.Refusal = strings.Split(err.Error(), "\n")
		} else {
			f.Plan = p
		}
	}
	if f.Plan != nil {
		f.Recipe = f.Plan.RecipeDocument()
	}
	f.count(pr)
	if st == nil {
		return f, nil
	}
	j, err := f.judge(pr)
	if err != nil {
		return nil, err
	}
	f.Judged = &j
	f.wordFigures()
	return f, nil
}

func (f *figuredRecipe) judge(pr quantity.Printer) (judge.Judgement, error) {
	if f.Plan != nil {
		return judge.PlanFor(pr, f.Style, f.Plan)
	}
	return judge.RecipeFor(pr, f.Style, f.Recipe)
}

// count fills the figures.
func (f *figuredRecipe) count(pr quantity.Printer) {
	meant, lacks := judge.Meant(f.Recipe)
	for _, name := range recipeFigures {
		line := recipeFigure{Name: name, Label: name.Label(), Lack: lacks[name]}
		if value, ok := meant[name]; ok {
			line.value, line.known, line.Lack = value, true, ""
		}
		if f.Plan != nil {
			f.predict(&line, pr)
		}
		if line.known {
			line.Text = pr.Figure(name, line.value)
			line.Why = formulaOf(string(name), f.Plan != nil)
		}
		f.Figures = append(f.Figures, line)
	}
}

// predict takes a figure from the plan, with its band and what was aimed at.
func (f *figuredRecipe) predict(line *recipeFigure, pr quantity.Printer) {
	got, ok := f.Plan.Find(line.Name)
	if !ok {
		return
	}
	line.value, line.sd, line.known, line.Lack = got.Value, got.SD, true, ""
	if got.SD > 0 {
		band := pr.FigureBand(line.Name, got.Band())
		if from := strings.Index(band, "("); from >= 0 {
			line.Band = strings.Trim(band[from:], "()")
		}
	}
	if got.Aim != nil {
		if aim := pr.Figure(line.Name, *got.Aim); aim != pr.Figure(line.Name, got.Value) {
			line.Aim = aim
		}
	}
}

// derivedFigures follow from aims by a formula even without a plan.
var derivedFigures = map[string]bool{string(quantity.ABV): true, string(quantity.Attenuation): true, string(quantity.BUGU): true}

// formulaOf names the formula behind a figure; empty where it is simply aimed at.
func formulaOf(name string, planned bool) string {
	if !planned && !derivedFigures[name] {
		return ""
	}
	reason, ok := plan.Explain(name)
	if !ok || len(reason.Formulas) == 0 {
		return ""
	}
	return reason.Formulas[0]
}

// wordFigures puts the verdict on each figure beside it.
func (f *figuredRecipe) wordFigures() {
	for _, v := range f.Judged.Verdicts {
		if v.Subject != style.OnFigure || v.Part != 0 {
			continue
		}
		name := f.Style.Rules[v.Rule].FigureName()
		for i := range f.Figures {
			if line := &f.Figures[i]; line.Name == name && (line.Word == "" || v.Broken()) {
				line.Word = v.Word
			}
		}
	}
}

// compareWith notes what each figure was in another version.
func (f *figuredRecipe) compareWith(before *figuredRecipe) {
	for i := range f.Figures {
		if was := before.Figures[i]; was.Text != f.Figures[i].Text {
			f.Figures[i].Was = was.Text
			if !was.known {
				f.Figures[i].Was = "not known"
			}
		}
	}
}

// find returns a figure by name.
func (f *figuredRecipe) find(name quantity.Figure) recipeFigure {
	for _, line := range f.Figures {
		if line.Name == name {
			return line
		}
	}
	return recipeFigure{Name: name}
}

// recipeStyle reads the style of a recipe. Without one in the book the reason is
// told.
func (s *Server) recipeStyle(ctx context.Context, id string) (st *style.Style, lack string, err error) {
	if id == "" {
		return nil, "The recipe names no style, so nothing judges it.", nil
	}
	d, err := s.book.Get(ctx, style.Kind, id)
	if errors.Is(err, ErrNotFound) || err == nil && d.Deleted {
		return nil, fmt.Sprintf("The style %s isn't in this book, so nothing judges the recipe.", id), nil
	}
	if err != nil {
		return nil, "", err
	}
	st, err = parsed(s, id, d.Text, style.Parse)
	if err != nil {
		return nil, fmt.Sprintf("The style %s can't be read, so nothing judges the recipe.", id), nil
	}
	return st, "", nil
}
