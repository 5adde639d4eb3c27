// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"gyle/brewhouse"
	"gyle/cellar"
	"gyle/data"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/carbonation"
)

// cellarBody is the sheet of a gyle from the pitching on.
type cellarBody struct {
	Document  Document
	Path      string
	NotYet    bool // nothing is pitched
	Ferment   *fermentBody
	Overrides []overrideLine
	Packaged  []string // what the log says of packaging
	Fill      *fillBody
	Hold      *holdBody
	Fields    map[string]cellarField
	Packages  []option
	Sugars    []option
	Table     tableBody
	Series    []seriesLine
	EntryID   gyle.ID
}

// cellarField is one line of a form of the cellar.
type cellarField struct {
	Name, Label, Value, Help string
	Fault                    fieldFault
}

// overrideLine is a refusal that was set aside in writing.
type overrideLine struct {
	ID      gyle.ID
	When    string
	Who     string
	Says    string
	Why     string
	Refused []string
	Struck  bool
}

// fillBody says what may come of a filling.
type fillBody struct {
	Refused            bool
	Verdict            string
	Worst, Warm, Hot   string
	Cautions, Reasons  []string
	Notes              []string
	Priming, Keg, Held string
	Because            cellarField
}

// holdBody says what a closed vessel has to bear.
type holdBody struct {
	Need, Rating, Refused, Instead, Cold, CloseAt string
	Because                                       cellarField
}

// cellarForm is what the forms of the cellar say.
type cellarForm struct {
	values url.Values
	faults fieldFaults
	wish   cellar.Wish
	count  int
	hold   struct {
		co2    quantity.Carbonation
		at     quantity.Temperature
		rating *quantity.GaugePressure
	}
}

// cellarRoutes are the addresses of a gyle from the pitching on.
func (s *Server) cellarRoutes(page func(pattern string, h handle)) {
	page("GET /gyle/{slug}/cellar", s.cellarPage)
	page("POST /gyle/{slug}/cellar", s.takeCellar)
	page("POST /gyle/{slug}/table", s.takeTable)
	page("GET /gyle/{slug}/series/{id}", s.seriesText)
	page("GET /gyle/{slug}/together", s.togetherPage)
	page("GET /gyle/{slug}/kettle-options.json", s.kettleOptions)
}

// cellarPage shows the cellar of a gyle.
func (s *Server) cellarPage(w http.ResponseWriter, r *http.Request) error {
	return s.showCellar(w, r, http.StatusOK, r.URL.Query(), nil, tableBody{})
}

func (s *Server) showCellar(w http.ResponseWriter, r *http.Request, status int, values url.Values, more fieldFaults, table tableBody) error {
	g, d, err := s.gyle(r.Context(), r.PathValue("slug"))
	if err != nil {
		return err
	}
	pr := handOf(r).printer()
	body := cellarBody{Document: d, Path: d.Path(), EntryID: NewEntryID(s.now()), Table: table}
	body.Ferment = s.fermentOf(g, pr).draw(pr)
	body.overrides(g, pr)
	body.series(g)
	if body.NotYet = body.Ferment == nil; !body.NotYet {
		f, err := s.cellarForm(r.Context(), g, body.Ferment.beer, values, pr)
		if err != nil {
			return err
		}
		f.faults = append(f.faults, more...)
		if len(f.faults) > 0 {
			status = http.StatusUnprocessableEntity
		}
		body.fill(f, body.Ferment.beer, pr)
	}
	return s.show(w, r, status, "page_cellar", Sheet{Title: d.Title + ", in the cellar", Chapter: gyle.Kind, Folio: folio(d), Path: d.Path(), Body: body})
}

// overrides lists what was done in spite of a refusal, for ever, and what was
// packaged.
func (b *cellarBody) overrides(g *gyle.Gyle, pr quantity.Printer) {
	for _, f := range g.Log.Current() {
		e := f.Entry
		switch {
		case e.Override != nil:
			b.Overrides = append(b.Overrides, overrideLine{ID: e.ID, When: e.When().Format("2 Jan 2006, 15:04"), Who: e.Who, Says: e.WordsIn(pr), Why: e.Override.Why, Refused: e.Override.Refused, Struck: f.Struck})
		case e.Deed != nil && !f.Struck && (e.Deed.Do == gyle.Packaged || e.Deed.Do == gyle.Primed):
			b.Packaged = append(b.Packaged, e.When().Format("2 Jan 2006, 15:04")+": "+e.WordsIn(pr))
		}
	}
}

// standing are the values that stand in a field where nobody typed any.
func (f *cellarForm) standing(g *gyle.Gyle, beer *cellar.Beer, house *brewhouse.House, pr quantity.Printer) url.Values {
	usual := url.Values{"into": {cellar.Packages[carbonation.CrownBottle]}, "sugar": {"sucrose"}, "store": {pr.Temperature(quantity.Celsius(20))}, "keg": {pr.Temperature(quantity.Celsius(5))}}
	if p := g.Plan; p != nil {
		if p.Cellar.CO2 > 0 {
			usual.Set("co2", p.Cellar.CO2.String())
			usual.Set("hold-co2", p.Cellar.CO2.String())
		}
		if p.Volumes.Packaged > 0 {
			usual.Set("volume", pr.Volume(p.Volumes.Packaged))
		}
		if p.Cellar.Sugar != "" {
			usual.Set("sugar", p.Cellar.Sugar)
		}
	}
	held := beer.Warmest
	if held.IsZero() {
		held = quantity.Celsius(20)
	}
	usual.Set("held", pr.Temperature(held))
	usual.Set("hold-at", pr.Temperature(held))
	for _, v := range g.Vessels {
		if v.For == "keg" {
			usual.Set("into", cellar.Packages[carbonation.Keg])
			if v.Relief != nil {
				usual.Set("rating", pr.GaugePressure(*v.Relief))
			}
		}
	}
	if relief := reliefOf(beer, house); relief != nil {
		usual.Set("relief", pr.GaugePressure(*relief))
	}
	return usual
}

// reliefOf is the rating of the fermenter's relief valve: as the gyle has it,
// else the house; nil where neither says it.
func reliefOf(beer *cellar.Beer, house *brewhouse.House) *quantity.GaugePressure {
	if beer.Vessel != nil {
		return beer.Vessel
	}
	if house != nil {
		return house.Fermenter.Relief
	}
	return nil
}

// cellarForm reads what the forms say. An absent field stands at its usual
// value; an empty one says nothing.
func (s *Server) cellarForm(ctx context.Context, g *gyle.Gyle, beer *cellar.Beer, typed url.Values, pr quantity.Printer) (*cellarForm, error) {
	house, err := optional(ctx, s, brewhouse.Kind, g.House, brewhouse.Parse)
	if err != nil {
		return nil, err
	}
	f := &cellarForm{}
	f.values = f.standing(g, beer, house, pr)
	for key, v := range typed {
		f.values[key] = v
	}
	if house != nil {
		f.wish.Air = carbonation.AirPressure(house.Altitude)
	}
	if f.wish.Into, err = cellar.PackageOf(f.values.Get("into")); err != nil {
		f.fault("into", err)
	}
	f.wish.Sugar = f.values.Get("sugar")
	if _, known := data.Sugar(f.wish.Sugar); !known {
		f.faults = append(f.faults, fieldFault{"sugar", "“" + f.wish.Sugar + "” is no known sugar", "choose one of the list"})
		f.wish.Sugar = ""
	}
	readField(f, "co2", &f.wish.CO2, quantity.ParseCarbonation)
	readField(f, "store", &f.wish.Warmest, degrees)
	readField(f, "held", &f.wish.Held, degrees)
	readField(f, "keg", &f.wish.Keg, degrees)
	readField(f, "volume", &f.wish.Volume, quantity.ParseVolume)
	f.wish.Rating = f.pressure("rating")
	readField(f, "hold-co2", &f.hold.co2, quantity.ParseCarbonation)
	readField(f, "hold-at", &f.hold.at, degrees)
	f.hold.rating = f.pressure("relief")
	readField(f, "count", &f.count, strconv.Atoi)
	if f.count < 0 {
		f.faults = append(f.faults, fieldFault{"count", "a count can't be negative", ""})
	}
	return f, nil
}

// degrees reads a temperature of the cellar; a bare number is °C.
func degrees(text string) (quantity.Temperature, error) {
	m, err := gyle.ParseReading(text, gyle.OfTemperature)
	return m.Temperature(), err
}

// readField reads a field into its place; an empty one leaves it.
func readField[T any](f *cellarForm, name string, into *T, parse func(string) (T, error)) {
	text := strings.TrimSpace(f.values.Get(name))
	if text == "" {
		return
	}
	value, err := parse(text)
	if err != nil {
		f.fault(name, err)
		return
	}
	*into = value
}

func (f *cellarForm) pressure(name string) *quantity.GaugePressure {
	var p quantity.GaugePressure
	before := len(f.faults)
	readField(f, name, &p, quantity.ParseGaugePressure)
	switch {
	case strings.TrimSpace(f.values.Get(name)) == "" || len(f.faults) > before:
		return nil
	case p <= 0:
		f.faults = append(f.faults, fieldFault{name, "a rating is more than nothing", "read it on the plate or the valve"})
		return nil
	}
	return &p
}

func (f *cellarForm) fault(name string, err error) {
	one := fieldFault{Field: name, Text: err.Error()}
	var parse *quantity.ParseError
	if errors.As(err, &parse) {
		one.Text, one.Hint = parse.Msg, parse.Hint
	}
	f.faults = append(f.faults, one)
}

// labels of the fields, with what helps to fill them in.
var cellarLabels = []struct{ name, label, help string }{
	{"co2", "Carbonation", ""}, {"volume", "How much", ""}, {"store", "Warmest store", "on the warmest day it will see"},
	{"held", "Warmest since it finished", "it decides how much gas the beer has kept"}, {"keg", "The keg stands at", ""},
	{"rating", "The keg is rated for", "as its plate or its valve says"}, {"count", "How many", "of bottles or kegs"},
	{"hold-co2", "Carbonation", ""}, {"hold-at", "Temperature of the vessel", ""}, {"relief", "Its relief valve is rated for", "as the valve says"},
	{"because", "Your reason, in writing", "it stays in the log for ever, with the cautions"}, {"hold-because", "Your reason, in writing", "it stays in the log for ever, with the cautions"},
	{"set", "Set it to", "on the gauge"}, {"when", "When", ""},
}

// fill reckons, and puts the fields as they stand on the sheet.
func (b *cellarBody) fill(f *cellarForm, beer *cellar.Beer, pr quantity.Printer) {
	b.Fields = map[string]cellarField{}
	for _, l := range cellarLabels {
		b.Fields[l.name] = cellarField{Name: l.name, Label: l.label, Help: l.help, Value: f.values.Get(l.name), Fault: f.faults.For(l.name)}
	}
	for _, p := range cellar.Packages {
		b.Packages = append(b.Packages, option{Value: p, Name: p, Chosen: p == cellar.Packages[f.wish.Into]})
	}
	for _, id := range data.SugarIDs() {
		if sugar, _ := data.Sugar(id); sugar.PrimingPerVolume != nil {
			b.Sugars = append(b.Sugars, option{Value: id, Name: sugar.Name, Chosen: id == f.wish.Sugar})
		}
	}
	if f.wish.CO2 > 0 && f.wish.Sugar != "" {
		if made, err := beer.Fill(f.wish); err == nil {
			b.Fill = fillOf(made, b.Fields["because"], pr)
		}
	}
	if f.hold.co2 > 0 && !f.hold.at.IsZero() {
		b.Hold = holdOf(beer.Closed(f.hold.co2, f.hold.at, f.wish.Air, f.hold.rating), b.Fields["hold-because"], pr)
	}
}

// severityWords say what a severity means for a filling.
var severityWords = map[carbonation.Severity]string{
	carbonation.Fine: "you may", carbonation.Warn: "with care", carbonation.Refuse: "refused",
}

func fillOf(f cellar.Filling, because cellarField, pr quantity.Printer) *fillBody {
	j := f.Verdict
	out := &fillBody{
		Refused: f.Refused(), Verdict: severityWords[j.Severity], Cautions: j.Cautions, Reasons: f.Reasons, Notes: f.Notes, Because: because,
		Worst: pr.Carbonation(j.WorstCase), Warm: pr.GaugePressure(j.Pressure) + " at " + pr.Temperature(f.Wish.Warmest), Hot: pr.GaugePressure(j.HotDay) + " at " + pr.Temperature(quantity.Celsius(40)),
		Held: pr.Carbonation(f.Residual),
	}
	if f.Wish.Into == carbonation.Keg {
		out.Keg = pr.GaugePressure(f.Keg) + " at " + pr.Temperature(f.Wish.Keg)
	} else if f.Priming > 0 {
		sugar, _ := data.Sugar(f.Wish.Sugar)
		out.Priming = pr.Mass(f.Priming) + " of " + strings.ToLower(sugar.Name)
	}
	return out
}

func holdOf(h cellar.Hold, because cellarField, pr quantity.Printer) *holdBody {
	out := &holdBody{Need: pr.GaugePressure(h.Need), Refused: h.Refused, Because: because}
	if h.Rating != nil {
		out.Rating = pr.GaugePressure(*h.Rating)
	}
	if h.Instead > 0 {
		out.Instead = pr.Carbonation(h.Instead)
	}
	if !h.Cold.IsZero() {
		out.Cold = pr.Temperature(h.Cold)
	}
	if h.CloseAt > 0 {
		out.CloseAt = pr.SG(h.CloseAt)
	}
	return out
}

// takeCellar logs a filling or a pressure. What is refused is logged only with a
// written reason.
func (s *Server) takeCellar(w http.ResponseWriter, r *http.Request) error {
	g, f, fault, err := s.readLogForm(r)
	if err != nil {
		return err
	}
	again := func(faults ...fieldFault) error {
		return s.showCellar(w, r, http.StatusUnprocessableEntity, r.PostForm, faults, tableBody{})
	}
	if fault != nil {
		return again(fieldFault{"when", fault.Text, fault.Hint})
	}
	beer := cellar.Of(g, f.at)
	if beer == nil {
		return &RefusedError{"Nothing was pitched yet, so there is nothing to fill."}
	}
	form, err := s.cellarForm(r.Context(), g, beer, r.PostForm, handOf(r).printer())
	if err != nil {
		return err
	}
	if len(form.faults) > 0 {
		return again()
	}
	entries, field, err := form.entries(g, beer)
	var refused *cellar.ErrRefused
	switch {
	case errors.As(err, &refused):
		return again(fieldFault{field, "Refused: " + refused.Cautions[0] + ".", "If you must, write your reason here; it stays in the log with the cautions."})
	case err != nil:
		return again(fieldFault{field, err.Error(), ""})
	}
	for i := range entries {
		entries[i].ID, entries[i].Time, entries[i].Who = numbered(f.id, i), f.at, f.who
	}
	if err := AppendEntries(r.Context(), s.book, r.PathValue("slug"), entries...); err != nil {
		return err
	}
	return seeOther(w, r, "/gyle/"+url.PathEscape(r.PathValue("slug"))+"/cellar#done")
}

// numbered is the ID of the n-th entry of a form.
func numbered(id gyle.ID, n int) gyle.ID {
	if n == 0 {
		return id
	}
	return id + gyle.ID(fmt.Sprintf("-%d", n))
}

// entries are what a form asks to be logged; field is where a fault belongs.
func (f *cellarForm) entries(g *gyle.Gyle, beer *cellar.Beer) (entries []gyle.Entry, field string, err error) {
	if f.values.Get("do") == "set" {
		p, err := quantity.ParseGaugePressure(strings.TrimSpace(f.values.Get("set")))
		if err != nil {
			return nil, "set", err
		}
		vessel := ""
		for _, v := range g.Vessels {
			if v.For == "fermenter" {
				vessel = v.Name
			}
		}
		entries, err = cellar.SetPressure(p, vessel, f.hold.rating, f.values.Get("hold-because"))
		return entries, "hold-because", err
	}
	made, err := beer.Fill(f.wish)
	if err != nil {
		return nil, "co2", err
	}
	if f.wish.Volume <= 0 && f.count == 0 {
		return nil, "volume", errors.New("say how much is filled, or how many")
	}
	entries, err = made.Entries(f.count, f.values.Get("because"))
	return entries, "because", err
}
