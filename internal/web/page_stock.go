// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/hops"
	"gyle/shed"
	"gyle/stock"
)

// stockBody is a store as a sheet: lots by what they are, oldest first.
type stockBody struct {
	Document Document
	Stock    *stock.Stock
	Words    string // searched for
	Shelves  []shelf
	Today    string
	Faded    int // lots of hops that lost more than a fifth
	Hidden   int // lots that the search left out
	accounts map[string]*lotAccount
}

// shelf is the lots of one list: malts, hops or yeasts.
type shelf struct {
	Title, List, Add string
	Groups           []lotGroup
}

// lotGroup is the lots of one malt, hop or yeast.
type lotGroup struct {
	Name string // as the lots say
	Full string // as the table of typical values says
	Mass string // of all its lots
	Lots []lotLine
}

// lotLine is one lot.
type lotLine struct {
	List     string // malts, hops or yeasts
	Number   int    // in that list, from 1
	Lot      string
	Mass     string
	Age      string
	Facts    []lotFact
	Label    string // alpha when packed
	Now      string // alpha now
	Left     string // share of the alpha that is left
	Faded    bool
	Note     string
	Account  *lotAccount // what gyles have taken; nil where none did
	mass     *quantity.Mass
	born     time.Time // zero where it isn't known
	searched string
}

// lotFact is a number of a lot; a typical one stands in where the lot is
// silent.
type lotFact struct {
	Name, Value string
	Typical     bool
}

func (s *Server) stock(w http.ResponseWriter, r *http.Request) error {
	asJSON := asksJSON(r)
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	st, err := parsed(s, d.Slug, d.Text, stock.Parse)
	if err != nil || d.Deleted {
		return s.document(w, r)
	}
	body := stockBody{Document: d, Stock: st, Words: strings.TrimSpace(r.URL.Query().Get("words"))}
	uses, err := s.usesOfStock(r.Context(), d.Slug)
	if err != nil {
		return err
	}
	lots := shed.Lots(st, uses)
	body.accounts = accountsOf(lots, handOf(r).printer())
	body.fill(stock.Date{Time: s.now()}, handOf(r).printer())
	if asJSON {
		computed := hopsToday(st, stock.Date{Time: s.now()})
		computed.Lots = shed.Records(lots)
		return sendDocumentJSON(w, st, computed)
	}
	return s.show(w, r, http.StatusOK, "page_stock", Sheet{Title: d.Title, Chapter: d.Kind, Folio: folio(d), Notice: savedNotice(r, d), Body: body})
}

// hopsComputed is what age has done to the hops, for programs.
type hopsComputed struct {
	On   stock.Date       `json:"on"`
	Hops []hopToday       `json:"hops"`
	Lots []shed.LotRecord `json:"lots"` // what gyles used and reserve, and what is left
}

type hopToday struct {
	Lot   string            `json:"lot"`
	Label quantity.Fraction `json:"alphaWhenPacked"`
	Now   quantity.Fraction `json:"alphaNow"`
	Left  quantity.Fraction `json:"left"`
	Warn  bool              `json:"faded"`
}

func hopsToday(st *stock.Stock, on stock.Date) hopsComputed {
	c := hopsComputed{On: on}
	for _, h := range st.Hops {
		now, label := plan.AlphaNow(aged(h, st.Counted, on), on)
		today := hopToday{Lot: h.Lot, Label: label, Now: now}
		if label > 0 {
			today.Left = now / label
			today.Warn = today.Left < hops.RetentionToWarn
		}
		c.Hops = append(c.Hops, today)
	}
	return c
}

// aged gives a lot whose age was counted on a day the age it has on another.
func aged(h stock.Hops, counted, on stock.Date) stock.Hops {
	if h.Age == nil || counted.IsZero() || !on.After(counted.Time) {
		return h
	}
	older := *h.Age + quantity.Hours(on.Sub(counted.Time).Hours())
	h.Age = &older
	return h
}

// fill makes the groups of lots as they are on a day.
func (b *stockBody) fill(on stock.Date, pr quantity.Printer) {
	b.Today = on.Format("2 January 2006")
	l := lotReader{stock: b.Stock, on: on, pr: pr}
	var malts, hopLots, yeasts, salts []namedLot
	for i, m := range b.Stock.Malts {
		malts = append(malts, l.malt(i, m))
	}
	for i, h := range b.Stock.Hops {
		hopLots = append(hopLots, l.hops(i, h))
	}
	for i, y := range b.Stock.Yeasts {
		yeasts = append(yeasts, l.yeast(i, y))
	}
	for i, x := range b.Stock.Salts {
		salts = append(salts, l.salt(i, x))
	}
	b.Shelves = []shelf{
		{"Malt and grain", "malts", "Add malt", b.group(malts, pr)},
		{"Hops", "hops", "Add hops", b.group(hopLots, pr)},
		{"Yeast", "yeasts", "Add yeast", b.group(yeasts, pr)},
		{"Salts and acids", "salts", "Add a salt or an acid", b.group(salts, pr)},
	}
}

// namedLot is a lot with the name it is grouped under.
type namedLot struct {
	name, full string
	line       lotLine
}

// group puts lots of the same name together, oldest first; the groups stand in
// the order in which the store lists them. Lots without the words that are
// searched for are left out.
func (b *stockBody) group(lots []namedLot, pr quantity.Printer) (groups []lotGroup) {
	for _, l := range lots {
		if !hasWords(l.line.searched, b.Words) {
			b.Hidden++
			continue
		}
		l.line.Account = b.accounts[l.line.Lot]
		if l.line.Faded {
			b.Faded++
		}
		i := slices.IndexFunc(groups, func(g lotGroup) bool { return g.Name == l.name })
		if i < 0 {
			groups, i = append(groups, lotGroup{Name: l.name, Full: l.full}), len(groups)
		}
		groups[i].Lots = append(groups[i].Lots, l.line)
	}
	for i := range groups {
		slices.SortStableFunc(groups[i].Lots, olderFirst)
		groups[i].Mass = totalMass(groups[i].Lots, pr)
	}
	return groups
}

// olderFirst orders lots by their age; those of unknown age come last.
func olderFirst(a, b lotLine) int {
	switch {
	case a.born.IsZero() && b.born.IsZero():
		return 0
	case a.born.IsZero():
		return 1
	case b.born.IsZero():
		return -1
	}
	return cmp.Compare(a.born.Unix(), b.born.Unix())
}

func totalMass(lots []lotLine, pr quantity.Printer) string {
	var sum quantity.Mass
	for _, l := range lots {
		if l.mass == nil {
			return ""
		}
		sum += *l.mass
	}
	return pr.Mass(sum)
}

// hasWords reports whether a text has every one of some words.
func hasWords(text, words string) bool {
	for _, word := range strings.Fields(strings.ToLower(words)) {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

// lotReader turns lots into lines.
type lotReader struct {
	stock *stock.Stock
	on    stock.Date
	pr    quantity.Printer
}

// share is a fact of a lot as a share, or the middle of what is typical.
func (l lotReader) share(name string, given *quantity.Fraction, typical *data.Range) (lotFact, bool) {
	if given != nil {
		return lotFact{name, l.pr.Fraction(*given, 1), false}, true
	}
	if typical == nil {
		return lotFact{}, false
	}
	return lotFact{name, l.pr.Fraction(quantity.Percent(typical.Mid()), 1), true}, true
}

func (l lotReader) malt(i int, m stock.Malt) namedLot {
	typical, known := data.Malt(m.Malt)
	line := lotLine{List: "malts", Number: i + 1, Lot: m.Lot, Mass: massText(m.Mass, l.pr), Note: m.Note, mass: m.Mass, born: m.Bought.Time}
	line.Age = l.since(m.Bought, "bought")
	extract, moisture := (*data.Range)(nil), (*data.Range)(nil)
	if known {
		extract, moisture = &typical.ExtractDryBasis, &typical.Moisture
	}
	if f, ok := l.share("extract, dry", m.Extract, extract); ok {
		line.Facts = append(line.Facts, f)
	}
	if f, ok := l.share("moisture", m.Moisture, moisture); ok {
		line.Facts = append(line.Facts, f)
	}
	switch {
	case m.Color != nil:
		line.Facts = append(line.Facts, lotFact{"colour", l.pr.Color(*m.Color), false})
	case known:
		line.Facts = append(line.Facts, lotFact{"colour", l.pr.EBC(quantity.EBC(typical.ColourEBC.Mid())), true})
	}
	if m.PH != nil {
		line.Facts = append(line.Facts, lotFact{"mash pH", l.pr.PH(*m.PH), false})
	}
	if m.Protein != nil {
		line.Facts = append(line.Facts, lotFact{"protein", l.pr.Fraction(*m.Protein, 1), false})
	}
	if m.Price != "" {
		line.Facts = append(line.Facts, lotFact{"price", m.Price, false})
	}
	return namedLot{m.Malt, typical.Name, line.search(m.Malt, typical.Name)}
}

func (l lotReader) hops(i int, h stock.Hops) namedLot {
	typical, known := data.Hop(h.Hop)
	line := lotLine{List: "hops", Number: i + 1, Lot: h.Lot, Mass: massText(h.Mass, l.pr), Note: h.Note, mass: h.Mass}
	now, label := plan.AlphaNow(aged(h, l.stock.Counted, l.on), l.on)
	line.Label, line.Now = l.pr.Fraction(label, 1), l.pr.Fraction(now, 1)
	if label > 0 {
		line.Left = l.pr.Fraction(now/label, 0)
		line.Faded = float64(now/label) < float64(hops.RetentionToWarn)
	}
	switch {
	case !h.Packed.IsZero():
		line.Age, line.born = l.since(h.Packed, "packed"), h.Packed.Time
	case h.Age != nil:
		old := aged(h, l.stock.Counted, l.on)
		line.born = l.on.AddDate(0, 0, -int(old.Age.Days()+0.5))
		line.Age = l.since(stock.Date{Time: line.born}, "packed about")
	default:
		line.Age = "age not said"
	}
	if h.Alpha == nil {
		line.Facts = append(line.Facts, lotFact{"alpha when packed", line.Label, true})
	}
	switch {
	case h.Oil != nil:
		line.Facts = append(line.Facts, lotFact{"oil", l.pr.OilContent(*h.Oil), false})
	case known && typical.Oil != nil:
		line.Facts = append(line.Facts, lotFact{"oil", l.pr.OilContent(quantity.OilContent(typical.Oil.Mid())), true})
	}
	if h.Kept != nil {
		line.Facts = append(line.Facts, lotFact{"kept at", l.pr.Temperature(*h.Kept), false})
	}
	line.Facts = append(line.Facts, lotFact{"as", cmp.Or(h.Form, "pellets"), h.Form == ""}, lotFact{"pack", cmp.Or(h.Pack, "open"), h.Pack == ""})
	if h.Price != "" {
		line.Facts = append(line.Facts, lotFact{"price", h.Price, false})
	}
	return namedLot{h.Hop, typical.Name, line.search(h.Hop, typical.Name)}
}

func (l lotReader) yeast(i int, y stock.Yeast) namedLot {
	typical, _ := data.Yeast(y.Yeast)
	line := lotLine{List: "yeasts", Number: i + 1, Lot: y.Lot, Mass: massText(y.Mass, l.pr), Note: y.Note, mass: y.Mass, born: y.Packed.Time}
	line.Age = l.since(y.Packed, "packed")
	line.Facts = append(line.Facts, lotFact{"as", cmp.Or(y.Form, "dry"), y.Form == ""})
	if y.Cells != nil {
		unit := " × 10⁹ cells per g"
		if y.Form == "liquid" || y.Form == "slurry" {
			unit = " × 10⁹ cells per mL"
		}
		line.Facts = append(line.Facts, lotFact{"cells", l.pr.Number(*y.Cells, 1) + unit, false})
	}
	if y.Price != "" {
		line.Facts = append(line.Facts, lotFact{"price", y.Price, false})
	}
	if y.Viability != nil {
		line.Facts = append(line.Facts, lotFact{"living", l.pr.Fraction(*y.Viability, 0), false})
	}
	return namedLot{y.Yeast, typical.Name, line.search(y.Yeast, typical.Name)}
}

// search sets the words by which a line is found.
func (line lotLine) search(words ...string) lotLine {
	line.searched = strings.ToLower(strings.Join(append(words, line.Lot, line.Note), " "))
	return line
}

func massText(m *quantity.Mass, pr quantity.Printer) string {
	if m == nil {
		return ""
	}
	return pr.Mass(*m)
}

// since says how long ago something was done.
func (l lotReader) since(day stock.Date, did string) string {
	if day.IsZero() {
		return "age not said"
	}
	days := int(l.on.Sub(day.Time).Hours() / 24)
	text := fmt.Sprintf("%s %s", did, day.Format("2 Jan 2006"))
	if days < 0 {
		return text
	}
	return fmt.Sprintf("%s, %d days ago", text, days)
}
