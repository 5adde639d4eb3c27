// SPDX-License-Identifier: MIT

package web

import (
	"bytes"
	"encoding"
	"encoding/json"
	"math"
	"net/http"
	"time"

	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
)

// recipeMeasure is a measure as plans write it for programs: a number in a unit
// that never changes.
type recipeMeasure struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

func recipeMeasured[T ~float64](v *T, times float64, unit string) *recipeMeasure {
	if v == nil {
		return nil
	}
	return &recipeMeasure{float64(*v) * times, unit}
}

// recipeSpan is a range of measures.
type recipeSpan struct {
	Low  *recipeMeasure `json:"low,omitempty"` // missing where the range is open
	High *recipeMeasure `json:"high,omitempty"`
}

// recipeJSONBody is a recipe with its figures and verdicts.
type recipeJSONBody struct {
	Kind     string             `json:"kind"`
	Document string             `json:"document"` // its slug
	Title    string             `json:"title"`
	Revision int                `json:"revision"`
	At       time.Time          `json:"at"`
	Author   string             `json:"author,omitempty"`
	Why      string             `json:"why,omitempty"`
	Recipe   recipeJSON         `json:"recipe"`
	On       recipeGroundJSON   `json:"figuredOn"`
	Figures  []recipeFigureJSON `json:"figures"`
	Judged   *judge.Judgement   `json:"judgement,omitempty"`
}

// recipeGroundJSON names what the figures stand on; without a house they are those
// that the recipe means.
type recipeGroundJSON struct {
	House   string   `json:"house,omitempty"`
	Stock   string   `json:"stock,omitempty"`
	Water   string   `json:"water,omitempty"`
	Refusal []string `json:"refusal,omitempty"` // why the house can't brew it
}

type recipeFigureJSON struct {
	Figure quantity.Figure `json:"figure"`
	Value  float64         `json:"value"`
	Unit   string          `json:"unit,omitempty"`
	SD     float64         `json:"sd,omitempty"`
}

type recipeJSON struct {
	Name    string             `json:"name"`
	Version int                `json:"version,omitempty"`
	Parent  int                `json:"parent,omitempty"`
	By      string             `json:"by,omitempty"`
	Change  *recipeChangeJSON  `json:"change,omitempty"`
	Style   string             `json:"style,omitempty"`
	Size    *recipeMeasure     `json:"size,omitempty"`
	Aims    recipeAimsJSON     `json:"aims"`
	Grist   []recipeGrainJSON  `json:"grist"`
	Mash    recipeMashJSON     `json:"mash"`
	Boil    *recipeMeasure     `json:"boil,omitempty"`
	Hops    []recipeChargeJSON `json:"hops"`
	Water   *recipeWaterJSON   `json:"water,omitempty"`
	Yeast   *recipeYeastJSON   `json:"yeast,omitempty"`
	Package *recipePackageJSON `json:"package,omitempty"`
	Note    string             `json:"note,omitempty"`
}

type recipeChangeJSON struct {
	What   string `json:"what"`
	Why    string `json:"why,omitempty"`
	Expect string `json:"expect,omitempty"`
}

type recipeAimsJSON struct {
	OG    *recipeMeasure `json:"og,omitempty"`
	FG    *recipeMeasure `json:"fg,omitempty"`
	IBU   *recipeMeasure `json:"ibu,omitempty"`
	Color *recipeMeasure `json:"color,omitempty"`
	CO2   *recipeMeasure `json:"co2,omitempty"`
}

type recipeGrainJSON struct {
	Malt  string         `json:"malt"`
	Share *recipeMeasure `json:"share,omitempty"`
	Mass  *recipeMeasure `json:"mass,omitempty"`
	Color *recipeMeasure `json:"color,omitempty"`
	In    string         `json:"in"`
	Role  string         `json:"role,omitempty"`
	Why   string         `json:"why,omitempty"`
}

type recipeMashJSON struct {
	Ratio  *recipeMeasure   `json:"ratio,omitempty"`
	PH     *recipeMeasure   `json:"ph,omitempty"`
	Rests  []recipeRestJSON `json:"rests"`
	Sparge string           `json:"sparge,omitempty"`
}

type recipeRestJSON struct {
	Temperature recipeMeasure `json:"temperature"`
	Time        recipeMeasure `json:"time"`
}

type recipeChargeJSON struct {
	Hop        string         `json:"hop"`
	Bitterness *recipeMeasure `json:"bitterness,omitempty"`
	Dose       *recipeMeasure `json:"dose,omitempty"`
	Mass       *recipeMeasure `json:"mass,omitempty"`
	Oil        *recipeMeasure `json:"oil,omitempty"`
	At         string         `json:"at"`
	Why        string         `json:"why,omitempty"`
}

type recipeWaterJSON struct {
	Ca    *recipeMeasure `json:"Ca,omitempty"`
	Mg    *recipeMeasure `json:"Mg,omitempty"`
	Na    *recipeMeasure `json:"Na,omitempty"`
	Cl    *recipeMeasure `json:"Cl,omitempty"`
	SO4   *recipeMeasure `json:"SO4,omitempty"`
	HCO3  *recipeMeasure `json:"HCO3,omitempty"`
	Salts []string       `json:"salts,omitempty"`
	Acid  string         `json:"acid,omitempty"`
}

type recipeYeastJSON struct {
	Kind        string         `json:"kind"`
	Attenuation *recipeSpan    `json:"attenuation,omitempty"`
	Temperature *recipeSpan    `json:"temperature,omitempty"`
	Pitch       *recipeMeasure `json:"pitch,omitempty"`
}

type recipePackageJSON struct {
	In    string `json:"in,omitempty"`
	Sugar string `json:"sugar,omitempty"`
}

// recipeJSON sends a recipe with its figures and verdicts to a program.
func (s *Server) recipeJSON(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	if d.Deleted {
		return ErrNotFound
	}
	read, err := parsed(s, d.Slug, d.Text, recipe.Parse)
	if err != nil {
		return &RefusedError{"The text of this recipe is at fault: open it as text."}
	}
	g, err := s.recipeGround(r.Context())
	if err != nil {
		return err
	}
	st, _, err := s.recipeStyle(r.Context(), read.Style)
	if err != nil {
		return err
	}
	f, err := g.figure(read, st, quantity.Printer{})
	if err != nil {
		return err
	}
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(jsonOf(d, read, g, f)); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	_, err = w.Write(text.Bytes())
	return err
}

func jsonOf(d Document, r *recipe.Recipe, g *recipeGround, f *figuredRecipe) recipeJSONBody {
	body := recipeJSONBody{
		Kind: d.Kind, Document: d.Slug, Title: d.Title, Revision: d.Revision, At: d.At.UTC(), Author: d.Author, Why: d.Why,
		Recipe: jsonRecipe(r), Judged: f.Judged, Figures: []recipeFigureJSON{},
	}
	if g.House != nil {
		body.On = recipeGroundJSON{g.HouseSlug, g.StockSlug, g.WaterSlug, f.Refusal}
	}
	for _, line := range f.Figures {
		if line.known {
			scale := line.Name.Shown(1)
			body.Figures = append(body.Figures, recipeFigureJSON{line.Name, line.value * scale, line.Name.Unit(), line.sd * scale})
		}
	}
	return body
}

func jsonRecipe(r *recipe.Recipe) recipeJSON {
	out := recipeJSON{
		Name: r.Name, Version: r.Version, Parent: r.Parent, By: r.By, Style: r.Style, Size: recipeMeasured(r.Size, 1, "L"),
		Aims: recipeAimsJSON{recipeGravity(r.Aims.OG), recipeGravity(r.Aims.FG), recipeMeasured(r.Aims.IBU, 1, "IBU"), recipeColor(r.Aims.Color), recipeMeasured(r.Aims.CO2, 1, "vol")},
		Mash: recipeMashJSON{recipeMeasured(r.Mash.Ratio, 1, "L/kg"), recipeMeasured(r.Mash.PH, 1, "pH"), []recipeRestJSON{}, r.Mash.Sparge},
		Boil: recipeMeasured(r.Boil, 1, "min"), Grist: []recipeGrainJSON{}, Hops: []recipeChargeJSON{}, Note: r.Note,
	}
	if c := r.Change; c != nil {
		out.Change = &recipeChangeJSON{c.What, c.Why, c.Expect}
	}
	for _, rest := range r.Mash.Rests {
		out.Mash.Rests = append(out.Mash.Rests, recipeRestJSON{recipeMeasure{rest.Temperature.Celsius(), "°C"}, recipeMeasure{rest.Time.Minutes(), "min"}})
	}
	for _, g := range r.Grist {
		out.Grist = append(out.Grist, recipeGrainJSON{g.Malt, recipeMeasured(g.Share, 100, "%"), recipeMeasured(g.Mass, 1, "kg"), recipeColor(g.Color), documentWords(g.In), string(g.Role), g.Why})
	}
	for _, c := range r.Hops {
		out.Hops = append(out.Hops, recipeChargeJSON{c.Hop, recipeMeasured(c.Bitterness, 1, "IBU"), recipeMeasured(c.Dose, 1, "g/L"), recipeMeasured(c.Mass, 1, "kg"), recipeMeasured(c.Oil, 1, "mL/100 g"), documentWords(c.At), c.Why})
	}
	if w := r.Water; w != nil {
		ion := func(c *quantity.Concentration) *recipeMeasure { return recipeMeasured(c, 1, "mg/L") }
		out.Water = &recipeWaterJSON{ion(w.Ca), ion(w.Mg), ion(w.Na), ion(w.Cl), ion(w.SO4), ion(w.HCO3), w.Salts, w.Acid}
	}
	if y := r.Yeast; y != nil {
		out.Yeast = jsonYeast(y)
	}
	if p := r.Package; p != nil {
		out.Package = &recipePackageJSON{p.In, p.Sugar}
	}
	return out
}

func jsonYeast(y *recipe.Yeast) *recipeYeastJSON {
	out := &recipeYeastJSON{Kind: y.Kind, Pitch: recipeMeasured(y.Pitch, 1, "M/mL/°P")}
	if a := y.Attenuation; a != nil {
		out.Attenuation = recipeSpanOf(a.Low.Percent(), a.High.Percent(), "%")
	}
	if t := y.Temperature; t != nil {
		out.Temperature = recipeSpanOf(t.Low.Celsius(), t.High.Celsius(), "°C")
	}
	return out
}

// recipeSpanOf leaves open ends out.
func recipeSpanOf(low, high float64, unit string) *recipeSpan {
	span := new(recipeSpan)
	if !math.IsInf(low, 0) {
		span.Low = &recipeMeasure{low, unit}
	}
	if !math.IsInf(high, 0) {
		span.High = &recipeMeasure{high, unit}
	}
	return span
}

// recipeGravity keeps the scale on which a gravity was written.
func recipeGravity(g *quantity.Gravity) *recipeMeasure {
	switch {
	case g == nil:
		return nil
	case g.Scale == quantity.ScalePlato:
		return &recipeMeasure{g.Value, "°P"}
	}
	return &recipeMeasure{g.Value, "SG"}
}

// recipeColor is a colour on the EBC scale.
func recipeColor(c *quantity.Color) *recipeMeasure {
	if c == nil {
		return nil
	}
	return &recipeMeasure{float64(c.EBC()), "EBC"}
}

// documentWords writes a moment or an entry as documents do.
func documentWords(v encoding.TextMarshaler) string {
	text, err := v.MarshalText()
	if err != nil {
		return ""
	}
	return string(text)
}
