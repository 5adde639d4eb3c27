// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"math"
	"net/http"
	"strings"

	"gyle/internal/chart"
	"gyle/internal/document"
	"gyle/plan"
	"gyle/quantity"
	chem "gyle/science/water"
	"gyle/water"
)

// waterBody is a water as a sheet: two columns that must meet, and what the
// water does in brewing.
type waterBody struct {
	Document Document
	Water    *water.Water
	Ions     []ionLine
	Columns  string // drawing
	Balance  chem.BalanceResult
	Printed  chem.BalanceResult
	Choices  []labelChoice // readings that would close the gap
	Reading  waterReading
	Notes    []chem.Caution
	Meant    []string
}

// ionLine is one ion, as printed and as read.
type ionLine struct {
	Symbol, Name string
	Printed      string
	Reading      string
	Charge       string // in mEq/L
	As           string // what was printed, where it wasn't the ion itself
	Missing      bool   // not reported
}

// labelChoice is one explanation of a gap.
type labelChoice struct {
	Labels    string // "HCO3 as CaCO3, SO4 as S"
	Steps     []chem.Step
	After     chem.BalanceResult
	Preferred bool
}

// waterReading is what the ions mean in brewing.
type waterReading struct {
	Alkalinity         quantity.Charge        `json:"alkalinity"`
	ResidualAlkalinity quantity.Charge        `json:"residualAlkalinity"`
	Hardness           quantity.Charge        `json:"hardness"`
	Sulfate            quantity.Concentration `json:"sulfate"`
	Chloride           quantity.Concentration `json:"chloride"`
	Ratio              *float64               `json:"sulfateToChloride,omitempty"` // nil without chloride
	Solids             quantity.Concentration `json:"dissolvedSolids"`
	Taste              string                 `json:"taste"`
}

func (s *Server) water(w http.ResponseWriter, r *http.Request) error {
	asJSON := asksJSON(r)
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	doc, err := parsed(s, d.Slug, d.Text, water.Parse)
	if err != nil || d.Deleted {
		return s.document(w, r)
	}
	body := readWater(d, doc, handOf(r).printer())
	if asJSON {
		return sendDocumentJSON(w, doc, body.computed())
	}
	notice := savedNotice(r, d)
	if r.URL.Query().Get("done") == "read" {
		notice = &Notice{Text: fmt.Sprintf("Saved as revision %d. The printed numbers stand as they were; ask the supplier to be sure.", d.Revision)}
	}
	return s.show(w, r, http.StatusOK, "page_water", Sheet{Title: d.Title, Chapter: d.Kind, Folio: folio(d), Notice: notice, Body: body})
}

// readWater works out everything that the sheet of a water shows.
func readWater(d Document, doc *water.Water, pr quantity.Printer) waterBody {
	printed, ions := plan.Printed(doc), plan.Reading(doc)
	b := waterBody{
		Document: d, Water: doc, Balance: chem.Balance(ions), Printed: chem.Balance(printed),
		Ions: ionLines(doc, printed, ions, pr), Reading: readingOf(ions), Notes: notesOn(doc, ions),
	}
	for _, m := range doc.Meant {
		b.Meant = append(b.Meant, m.String())
	}
	if len(doc.Meant) == 0 {
		b.Choices = labelChoices(printed)
	}
	b.Columns = chart.Responsive(chart.Sheet{ID: "balance", Printer: pr}, func(s chart.Sheet) string {
		return chart.WaterColumns(s, waterColumns(ions, b.Choices))
	})
	return b
}

// mostChoices is how many readings are offered.
const mostChoices = 4

func labelChoices(printed chem.Ions) (list []labelChoice) {
	for _, m := range chem.Mislabels(printed) {
		if len(list) == mostChoices {
			break
		}
		list = append(list, labelChoice{Labels: m.String(), Steps: m.Steps, After: m.Balance, Preferred: m.Preferred})
	}
	return list
}

func waterColumns(ions chem.Ions, choices []labelChoice) chart.Water {
	var columns chart.Water
	for _, ion := range chem.AllIons() {
		block := chart.IonBlock{Ion: ion.Symbol(), Charge: ions.Charge(ion)}
		if ion.Valence() > 0 {
			columns.Cations = append(columns.Cations, block)
		} else {
			columns.Anions = append(columns.Anions, block)
		}
	}
	if len(choices) > 0 && choices[0].Preferred {
		columns.Hint = "They would if " + inWords(choices[0].Labels) + "."
	}
	return columns
}

// inWords says labels in a sentence: "the HCO3 was printed as CaCO3 and …".
func inWords(labels string) string {
	parts := strings.Split(labels, ", ")
	for i, p := range parts {
		ion, as, _ := strings.Cut(p, " as ")
		parts[i] = ion + " was printed as " + as
	}
	if n := len(parts); n > 1 {
		return strings.Join(parts[:n-1], ", ") + " and " + parts[n-1]
	}
	return parts[0]
}

// ionLines are the ions in the order of a report.
func ionLines(doc *water.Water, printed, ions chem.Ions, pr quantity.Printer) (lines []ionLine) {
	for _, ion := range chem.AllIons() {
		p := *printedField(&doc.Printed, ion)
		line := ionLine{Symbol: ion.Symbol(), Name: ion.String(), Missing: p == nil}
		if p != nil {
			line.Printed = pr.Concentration(*p)
		}
		for _, m := range doc.Meant {
			if m.Ion == ion.Symbol() {
				line.As = m.As
			}
		}
		if !line.Missing || ions[ion] > 0 {
			line.Reading = pr.Concentration(quantity.Concentration(ions[ion]))
			line.Charge = pr.Number(float64(ions.Charge(ion)), 2)
		}
		if line.Missing && ion == chem.Carbonate {
			continue // reported only by waters that have been softened
		}
		lines = append(lines, line)
	}
	return lines
}

// printedField is the number that a report prints for an ion.
func printedField(p *water.Printed, ion chem.Ion) **quantity.Concentration {
	return [...]**quantity.Concentration{
		chem.Calcium: &p.Ca, chem.Magnesium: &p.Mg, chem.Sodium: &p.Na, chem.Potassium: &p.K, chem.Bicarbonate: &p.HCO3,
		chem.Carbonate: &p.CO3, chem.Chloride: &p.Cl, chem.Sulfate: &p.SO4, chem.Nitrate: &p.NO3,
	}[ion]
}

func readingOf(ions chem.Ions) waterReading {
	r := waterReading{
		Alkalinity: chem.Alkalinity(ions), ResidualAlkalinity: chem.ResidualAlkalinity(ions), Hardness: chem.Hardness(ions),
		Sulfate: quantity.Concentration(ions[chem.Sulfate]), Chloride: quantity.Concentration(ions[chem.Chloride]),
		Solids: chem.DissolvedSolids(ions),
	}
	r.Taste = chem.SolidsBand(r.Solids)
	if r.Chloride > 0 {
		ratio := float64(r.Sulfate / r.Chloride)
		r.Ratio = &ratio
	}
	return r
}

// notesOn are the values outside what is customary or drinkable. An ion that
// wasn't reported is no fault of the water.
func notesOn(doc *water.Water, ions chem.Ions) (notes []chem.Caution) {
	for _, c := range chem.Check(ions) {
		if c.Value > 0 {
			notes = append(notes, c)
		}
	}
	if doc.PH == nil {
		return notes
	}
	if limit, ok := chem.LimitFor("pH"); ok {
		if c, outside := limit.Judge(float64(*doc.PH)); outside {
			notes = append(notes, c)
		}
	}
	return notes
}

// waterComputed is what the sheet works out, for programs.
type waterComputed struct {
	Reading    chem.Ions      `json:"ions"`
	Balance    balanceJSON    `json:"balance"`
	AsPrinted  balanceJSON    `json:"balanceAsPrinted"`
	Properties waterReading   `json:"properties"`
	Notes      []cautionJSON  `json:"notes"`
	Mislabels  []mislabelJSON `json:"mislabels"`
}

type balanceJSON struct {
	Cations    quantity.Charge   `json:"cations"`
	Anions     quantity.Charge   `json:"anions"`
	Difference quantity.Fraction `json:"difference"` // over the sum
	Verdict    string            `json:"verdict"`
}

type cautionJSON struct {
	Symbol   string `json:"symbol"`
	Severity string `json:"severity"`
	Text     string `json:"text"`
}

type mislabelJSON struct {
	Labels    string      `json:"labels"`
	Balance   balanceJSON `json:"balance"`
	Preferred bool        `json:"preferred"`
}

func balanceOf(b chem.BalanceResult) balanceJSON {
	return balanceJSON{b.Cations, b.Anions, quantity.Percent(b.Difference), b.Verdict}
}

func (b waterBody) computed() waterComputed {
	c := waterComputed{Reading: plan.Reading(b.Water), Balance: balanceOf(b.Balance), AsPrinted: balanceOf(b.Printed), Properties: b.Reading}
	for _, n := range b.Notes {
		c.Notes = append(c.Notes, cautionJSON{n.Symbol, n.Severity, n.Text})
	}
	for _, m := range b.Choices {
		c.Mislabels = append(c.Mislabels, mislabelJSON{m.Labels, balanceOf(m.After), m.Preferred})
	}
	return c
}

// Gap prints a difference of charges with its sign.
func (waterBody) Gap(p quantity.Printer, b chem.BalanceResult) string {
	sign := ""
	if b.Difference > 0 {
		sign = "+"
	}
	return sign + p.Fraction(quantity.Percent(b.Difference), 1)
}

// Meets reports whether the columns meet well enough to be believed.
func (waterBody) Meets(b chem.BalanceResult) bool {
	return b.Verdict == chem.OK || b.Verdict == chem.Usable
}

// InWords says labels in a sentence.
func (waterBody) InWords(labels string) string { return inWords(labels) }

// CaCO3 prints a charge as calcium carbonate.
func (waterBody) CaCO3(p quantity.Printer, q quantity.Charge) string {
	return p.Concentration(chem.AsCaCO3(q)) + " as CaCO3"
}

// German prints a charge in German degrees.
func (waterBody) German(p quantity.Printer, q quantity.Charge) string {
	return p.Number(chem.GermanDegrees(q), 1) + " °dH"
}

// waterMeant saves how the printed numbers are meant, in a revision of its
// own. The printed numbers stay. Without labels they are read as printed.
func (s *Server) waterMeant(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	base, draft, err := s.openForm(r, d)
	if err != nil {
		return err
	}
	labels := r.PostFormValue("labels")
	why := "read " + labels
	var list []string
	if labels == "" {
		why = "read as printed"
	} else {
		list = strings.Split(labels, ", ")
	}
	if err := draft.SetList("meant", list); err != nil {
		return err
	}
	text, err := draftText(d.Kind, draft)
	var faults document.Faults
	if errors.As(err, &faults) {
		return errBadForm
	}
	if err != nil {
		return err
	}
	_, err = s.Save(w, r, Draft{Kind: d.Kind, Slug: d.Slug, Text: text, Author: handOf(r).Author, Why: why, Base: base})
	var conflict *ConflictError
	if errors.As(err, &conflict) {
		return &RefusedError{"Somebody changed the water in the meantime. Nothing was saved; look at it once more."}
	}
	if err != nil {
		return err
	}
	return seeOther(w, r, d.Path()+"?done=read")
}

// Ratio prints a ratio, or nothing where there is none.
func (waterBody) Ratio(p quantity.Printer, ratio *float64) string {
	if ratio == nil || math.IsInf(*ratio, 0) {
		return ""
	}
	return p.Number(*ratio, 2)
}
