// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"math"
	"net/http"
	"slices"

	"gyle/brewhouse"
	"gyle/data"
	"gyle/formulate"
	"gyle/internal/chart"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	chem "gyle/science/water"
	"gyle/stock"
	"gyle/water"
)

// treatBody is the sheet on which a water is made into a liquor.
type treatBody struct {
	Document Document
	Query    treatQuery
	Faults   fieldFaults
	Trouble  string // why there is no answer
	Choices  struct{ Recipes, Houses, Stocks, Salts, Acids []option }
	Aims     []ionAim

	liquor *formulate.Liquor
	recipe *recipe.Recipe
	plan   *plan.Plan

	Ways   []treatWay // the first is the one a plan takes
	Trades []formulate.Trade
	Next   *taking // of the recipe with these wishes, where they are new
	Plan   string  // address
}

// ionAim is a field of the form.
type ionAim struct{ Symbol, Name, Field, Value string }

// treatWay is one treatment as it is shown.
type treatWay struct {
	formulate.Treatment
	Path     string // of the sheet with this one first
	Blend    [2]string
	Into     []treatVessel
	Ions     []treatIon
	Columns  string // drawn
	RailLine string // drawn
	Residual string
	Outlets  []treatOutlet
}

// treatVessel is what goes into one of the liquors.
type treatVessel struct {
	Name, Litres string
	Doses        []treatDose
}

type treatDose struct{ Name, Amount, Also string }

// treatIon is one ion before and after.
type treatIon struct {
	Symbol, Name, Before, After, Aim string
	Missed                           bool
}

type treatOutlet struct{ Says, Path, Left string }

// treatPage shows the sheet.
func (s *Server) treatPage(w http.ResponseWriter, r *http.Request) error {
	b, err := s.treatFor(r, readTreatQuery(r.PathValue("slug"), r.URL.Query()))
	if err != nil {
		return err
	}
	status := http.StatusOK
	if len(b.Faults) > 0 || b.Trouble != "" {
		status = http.StatusUnprocessableEntity
	}
	return s.show(w, r, status, "page_treat", Sheet{Title: "Treat " + b.Document.Title, Chapter: water.Kind, Body: b})
}

// lookTreat answers with the figures while somebody types.
func (s *Server) lookTreat(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	b, err := s.treatFor(r, readTreatQuery(r.PathValue("slug"), r.PostForm))
	if err != nil {
		return err
	}
	return s.fragment(w, r, "page_treat", "t-look", b)
}

// treatJSON is what a program gets.
type treatJSON struct {
	Total      quantity.Volume       `json:"total"`
	Sparge     quantity.Volume       `json:"sparge"`
	Treatments []formulate.Treatment `json:"treatments"`
	Outlets    []formulate.Outlet    `json:"outlets"` // out of what the first one misses
	Trades     []formulate.Trade     `json:"trades"`
}

func (s *Server) treatJSON(w http.ResponseWriter, r *http.Request) error {
	b, err := s.treatFor(r, readTreatQuery(r.PathValue("slug"), r.URL.Query()))
	if err != nil {
		return err
	}
	if len(b.Ways) == 0 {
		return answerJSON(w, http.StatusUnprocessableEntity, formulaJSON{Faults: b.Faults, Trouble: b.Trouble})
	}
	out := treatJSON{Total: b.liquor.Volume, Sparge: b.liquor.Sparge, Trades: b.Trades}
	for _, way := range b.Ways {
		out.Treatments = append(out.Treatments, way.Treatment)
	}
	if out.Outlets, err = formulate.Outlets(*b.liquor, b.Ways[0].Treatment); err != nil {
		return err
	}
	text, err := plan.WriteJSON(out)
	if err == nil {
		sendJSON(w, http.StatusOK, text)
	}
	return err
}

// treatFor works the sheet out.
func (s *Server) treatFor(r *http.Request, q treatQuery) (*treatBody, error) {
	ctx, pr := r.Context(), handOf(r).printer()
	d, err := s.book.Get(ctx, water.Kind, q.Water)
	if err != nil {
		return nil, err
	}
	b := &treatBody{Document: d, Query: q}
	if err := s.readTreat(ctx, b, pr); err != nil {
		return nil, err
	}
	if err := s.treatChoices(ctx, b); err != nil {
		return nil, err
	}
	if b.Trouble == "" && len(b.Faults) == 0 && b.liquor.Volume > 0 && len(b.liquor.Aims) > 0 {
		b.solve(pr)
	}
	return b, nil
}

// readTreat reads the documents and the form.
func (s *Server) readTreat(ctx context.Context, b *treatBody, pr quantity.Printer) error {
	q := &b.Query
	report, err := documentAt(ctx, s, water.Kind, "water", q.Water, water.Parse, &b.Faults)
	if err != nil {
		return err
	}
	if b.recipe, err = documentAt(ctx, s, recipe.Kind, "recipe", q.Recipe, recipe.Parse, &b.Faults); err != nil {
		return err
	}
	house, err := documentAt(ctx, s, brewhouse.Kind, "house", q.House, brewhouse.Parse, &b.Faults)
	if err != nil {
		return err
	}
	shed, err := documentAt(ctx, s, stock.Kind, "stock", q.Stock, stock.Parse, &b.Faults)
	if err != nil {
		return err
	}
	q.fillFrom(b.recipe)
	b.liquor = &formulate.Liquor{Report: report, Reader: pr}
	q.read(b.liquor, &b.Faults)
	switch {
	case len(b.Faults) > 0:
	case b.recipe == nil && q.All != "":
		q.readLitres(b.liquor, &b.Faults)
	case b.recipe == nil:
	case house == nil:
		b.Faults = append(b.Faults, fieldFault{"house", "how much liquor a recipe takes depends on the house", "choose one"})
	default:
		in := plan.Input{Recipe: b.wished(), House: house, Stock: shed, Water: report, Options: plan.Options{Reader: pr}}
		if b.plan, err = plan.Make(in); err != nil {
			if !isRefusal(err) {
				return err
			}
			b.Trouble = err.Error()
			return nil
		}
		b.Plan = planQuery{Recipe: q.Recipe, House: q.House, Stock: q.Stock, Water: q.Water}.Path()
		l := b.plan.Liquor
		b.liquor.Volume, b.liquor.Sparge, b.liquor.DoughIn, b.liquor.Goods = l.Total, l.Sparge, l.Mash, b.plan.Goods()
		if l.SpargeAt.IsZero() {
			b.liquor.Sparge = 0
		}
	}
	return nil
}

// wished is the recipe with the wishes of the form in place of its own. What
// wasn't changed keeps the words of the recipe.
func (b *treatBody) wished() *recipe.Recipe {
	r := *b.recipe
	was := r.Water
	if was == nil {
		was = &recipe.Water{}
	}
	now := &recipe.Water{Acid: b.liquor.Acid, Salts: sameSalts(was.Salts, b.liquor.Salts)}
	for _, a := range []struct {
		ion chem.Ion
		to  **quantity.Concentration
	}{{chem.Calcium, &now.Ca}, {chem.Magnesium, &now.Mg}, {chem.Sodium, &now.Na}, {chem.Chloride, &now.Cl}, {chem.Sulfate, &now.SO4}, {chem.Bicarbonate, &now.HCO3}} {
		if aim, aimed := b.liquor.Aims[a.ion]; aimed {
			c := quantity.Concentration(aim)
			*a.to = &c
		}
	}
	if was.Acid == "" && now.Acid == acidID("lactic-88") || acidID(was.Acid) == now.Acid {
		now.Acid = was.Acid
	}
	if b.liquor.MostSoft > 0 {
		soft := b.liquor.MostSoft
		now.Soft = &soft
	}
	r.Water, r.Mash.PH = now, b.liquor.PH
	return &r
}

// sameSalts are the salts that were chosen, by the names that they had; none
// where they are the usual ones and the recipe had none.
func sameSalts(was, ids []string) (names []string) {
	if was == nil && len(ids) == len(plan.UsualSalts) && !slices.ContainsFunc(plan.UsualSalts, func(name string) bool { return !slices.Contains(ids, saltID(name)) }) {
		return nil
	}
	for _, id := range ids {
		name := id
		for _, old := range was {
			if saltID(old) == id {
				name = old
			}
		}
		names = append(names, name)
	}
	return names
}

func saltID(name string) string {
	s, _ := data.Salt(name)
	return s.ID
}

func (s *Server) treatChoices(ctx context.Context, b *treatBody) (err error) {
	q, c := b.Query, &b.Choices
	if c.Recipes, err = s.documentOptions(ctx, recipe.Kind, q.Recipe); err != nil {
		return err
	}
	if c.Houses, err = s.documentOptions(ctx, brewhouse.Kind, q.House); err != nil {
		return err
	}
	if c.Stocks, err = s.documentOptions(ctx, stock.Kind, q.Stock); err != nil {
		return err
	}
	for _, salt := range chem.Salts {
		c.Salts = append(c.Salts, option{salt.ID, salt.Name, q.Has(salt.ID)})
	}
	for _, acid := range chem.Acids {
		if !acid.NeedsConfirmation {
			c.Acids = append(c.Acids, option{acid.ID, acid.Name, acid.ID == q.Acid})
		}
	}
	for _, ion := range aimIons {
		b.Aims = append(b.Aims, ionAim{ion.Symbol(), upperFirst(ion.String()), "aim." + ion.Symbol(), q.Aim[ion.Symbol()]})
	}
	return nil
}

// solve finds the treatments and words them.
func (b *treatBody) solve(pr quantity.Printer) {
	ways, err := formulate.Treat(*b.liquor)
	if err == nil {
		b.Trades, err = formulate.Trades(*b.liquor)
	}
	if err != nil {
		b.Trouble = err.Error()
		return
	}
	for i, t := range ways {
		way := b.way(t, i, pr)
		if i == 0 {
			outlets, err := formulate.Outlets(*b.liquor, t)
			if err != nil {
				b.Trouble = err.Error()
				return
			}
			way.Outlets = b.outlets(outlets)
		}
		b.Ways = append(b.Ways, way)
	}
	if b.recipe == nil {
		return
	}
	now := b.wished()
	if len(recipe.Differences(b.recipe, now)) == 0 {
		return
	}
	if text, err := now.Text(); err == nil {
		b.Next = &taking{Text: string(text), Why: "water of " + b.Document.Title + " treated", Next: b.Query.Recipe, NextTitle: versionTitle(now.Name, now.Version)}
	}
}

// mostOutlets is how many ways out are offered.
const mostOutlets = 5

func (b *treatBody) outlets(list []formulate.Outlet) (out []treatOutlet) {
	for _, o := range list[:min(len(list), mostOutlets)] {
		q := b.Query
		q.Typed, q.Aim, q.Salts = true, map[string]string{}, nil
		for ion, aim := range o.Aims {
			q.Aim[ion.Symbol()] = formNumber(aim)
		}
		for _, name := range o.Salts {
			q.Salts = append(q.Salts, saltID(name))
		}
		if q.Soft = ""; o.Soft > 0 {
			q.Soft = formNumber(math.Round(o.Soft.Percent())) + " %"
		}
		shown := treatOutlet{Says: o.Says, Path: q.Path()}
		if o.Missed > 0 {
			shown.Left = "not everything is met then"
		}
		out = append(out, shown)
	}
	return out
}

// way words one treatment.
func (b *treatBody) way(t formulate.Treatment, i int, pr quantity.Printer) treatWay {
	l := b.liquor
	q := b.Query
	if q.Soft = ""; t.Soft > 0 {
		q.Soft = formNumber(t.Soft.Percent()) + " %"
	}
	q.Typed = true
	way := treatWay{Treatment: t, Path: q.Path(), Residual: pr.Charge(t.Residual)}
	if t.Soft > 0 {
		soft := quantity.Volume(float64(t.Soft) * float64(l.Volume))
		way.Blend = [2]string{pr.Volume(soft), pr.Volume(l.Volume - soft)}
	}
	first := treatVessel{Name: "Into the mash liquor", Litres: pr.Volume(l.Volume - l.Sparge), Doses: doses(t.Mash, t.MashAcid, "with the grain", pr)}
	if l.Sparge <= 0 {
		first.Name = "Into all of the liquor"
	}
	way.Into = append(way.Into, first)
	if l.Sparge > 0 {
		way.Into = append(way.Into, treatVessel{"Into the sparge liquor", pr.Volume(l.Sparge), doses(t.Sparge, t.SpargeAcid, "to pH "+pr.PH(t.SpargePH), pr)})
	}
	way.Ions = b.ionsOf(t, pr)
	if i > 0 {
		return way
	}
	way.Columns = chart.Responsive(chart.Sheet{ID: "liquor", Printer: pr}, func(s chart.Sheet) string { return chart.WaterColumns(s, liquorColumns(t)) })
	if t.Rail != nil {
		way.RailLine = b.rail(t, pr)
	}
	return way
}

// doses are salts in grams, as scales for salts show them in any units, and an
// acid by volume and by weight.
func doses(salts []plan.SaltDose, acid *plan.AcidDose, how string, pr quantity.Printer) (list []treatDose) {
	for _, s := range salts {
		decimals := 1
		if math.Abs(math.Round(s.Mass.Grams()*10)-s.Mass.Grams()*10) > 1e-6 {
			decimals = 2
		}
		list = append(list, treatDose{Name: s.Name, Amount: pr.Number(s.Mass.Grams(), decimals) + " g"})
	}
	if acid != nil {
		product, _ := chem.AcidByID(acid.Acid)
		list = append(list, treatDose{acid.Name, pr.Number(acid.ML, 1) + " mL", pr.Number(acid.ML*product.Density, 1) + " g by weight, " + how})
	}
	return list
}

func (b *treatBody) ionsOf(t formulate.Treatment, pr quantity.Printer) (list []treatIon) {
	for _, ion := range chem.AllIons() {
		if ion == chem.Carbonate {
			continue
		}
		line := treatIon{Symbol: ion.Symbol(), Name: upperFirst(ion.String()), Before: pr.Number(chem.Amount(t.Before, ion), 0), After: pr.Number(chem.Amount(t.Ions, ion), 0)}
		if aim, aimed := b.liquor.Aims[ion]; aimed {
			line.Aim = pr.Number(aim, 0)
		}
		line.Missed = slices.ContainsFunc(t.Missed, func(m chem.Miss) bool { return m.Ion == ion })
		list = append(list, line)
	}
	return list
}

// liquorColumns stacks what the water holds and what each salt brings.
func liquorColumns(t formulate.Treatment) chart.Water {
	var columns chart.Water
	for _, ion := range chem.AllIons() {
		to := &columns.Cations
		if ion.Valence() < 0 {
			to = &columns.Anions
		}
		*to = append(*to, chart.IonBlock{Ion: ion.Symbol(), Charge: t.Base.Charge(ion)})
		brought := t.Ions.Charge(ion) - t.Base.Charge(ion)
		names := ""
		for _, s := range t.Salts {
			if salt, ok := chem.SaltByID(s.Salt); ok && salt.Gives[ion] > 0 {
				if names != "" {
					names = "salts"
					break
				}
				names = salt.Name
			}
		}
		if names != "" {
			*to = append(*to, chart.IonBlock{Ion: ion.Symbol(), Charge: brought, Salt: names})
		}
	}
	return columns
}

func (b *treatBody) rail(t formulate.Treatment, pr quantity.Printer) string {
	data := railOf(*t.Rail, t.PHSD)
	if ph := b.liquor.PH; ph != nil {
		data.Aim = &quantity.Span[quantity.PH]{Low: *ph, High: *ph}
	}
	return chart.Responsive(chart.Sheet{ID: "mash-rail", Printer: pr}, func(s chart.Sheet) string { return chart.PHRail(s, data) })
}
