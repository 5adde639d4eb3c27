// SPDX-License-Identifier: MIT

package blind

import (
	"slices"
	"strings"

	"gyle/science/sensory"
	"gyle/tasting"
)

// OfBeer is what the score sheets say of one beer.
type OfBeer struct {
	Letter   string     `json:"letter"`
	Beer     string     `json:"beer"`
	Recipe   string     `json:"recipe,omitempty"` // the version that was judged
	Gyle     string     `json:"gyle,omitempty"`
	Totals   []Total    `json:"totals,omitempty"`
	Within   bool       `json:"within"` // the totals lie as near as custom asks
	Points   []OfPoint  `json:"points"`
	Comments []Said     `json:"comments,omitempty"`
	Agree    *Agreement `json:"agreement,omitempty"` // on what is strong in it and what is weak
}

// Total is one judge's total.
type Total struct {
	Judge string  `json:"judge"`
	Total float64 `json:"total"`
	Of    float64 `json:"of"`
}

// OfPoint is what judges say of one attribute. A conflict stays open: no mean
// is taken, and no change follows from it.
type OfPoint struct {
	Attribute string `json:"attribute"`
	Accord    string `json:"accord"`
	Open      bool   `json:"open"`
	Says      []Said `json:"says"`
}

// Said is one judge's words on one attribute, or on the beer.
type Said struct {
	Judge string   `json:"judge"`
	Level string   `json:"level,omitempty"` // as it stands on the sheet, with the end of its scale
	Says  string   `json:"says,omitempty"`
	Terms []string `json:"terms,omitempty"`
	Words string   `json:"words,omitempty"`
}

// Text is what the judge says in one line.
func (s Said) Text() string {
	var parts []string
	for _, part := range append([]string{s.Level, s.Says}, s.Terms...) {
		if part != "" {
			parts = append(parts, part)
		}
	}
	if s.Words != "" {
		parts = append(parts, "“"+s.Words+"”")
	}
	return s.Judge + ": " + strings.Join(parts, ", ")
}

// opinions are the words of a sheet as opinions.
var opinions = map[string]sensory.Opinion{"too little": sensory.TooLittle, "right": sensory.Right, "too much": sensory.TooMuch}

// sheetsOf reads the score sheets of all beers.
func sheetsOf(t *tasting.Tasting, w words) (list []OfBeer) {
	for _, b := range t.Beers {
		attributes, says := t.Said(b.Letter)
		of := OfBeer{Letter: b.Letter, Beer: NameOf(t, b.Letter), Recipe: b.Recipe, Gyle: b.Gyle}
		var totals []float64
		for _, n := range t.StandingSheets() {
			s := t.Sheets[n-1]
			if s.Beer != b.Letter {
				continue
			}
			if s.Total != nil {
				of.Totals = append(of.Totals, Total{s.Judge, *s.Total, s.Of})
				totals = append(totals, *s.Total*usualTotal/s.Of)
			}
			if s.Comment != "" {
				of.Comments = append(of.Comments, Said{Judge: s.Judge, Words: s.Comment})
			}
		}
		_, of.Within = sensory.Spread(totals, sensory.UsualSpread)
		for _, a := range attributes {
			of.Points = append(of.Points, pointOf(a, says[a], w))
		}
		of.Agree = agreementIn(says, attributes, w)
		if len(of.Totals) > 0 || len(of.Points) > 0 || len(of.Comments) > 0 {
			list = append(list, of)
		}
	}
	return list
}

// usualTotal is out of how many points the usual spread of totals is.
const usualTotal = 50

func pointOf(attribute string, says []tasting.Say, w words) OfPoint {
	point := OfPoint{Attribute: attribute}
	var all []sensory.Opinion
	var levels []float64
	for _, s := range says {
		said := Said{Judge: s.Judge, Says: s.Says, Words: s.Words}
		if s.Level != nil {
			said.Level = w.Number(*s.Level, scoreDecimals(*s.Level)) + " of " + w.Number(s.Scale.To, scoreDecimals(s.Scale.To))
			levels = append(levels, levelOf(*s.Level, s.Scale))
		}
		for _, term := range s.Terms {
			said.Terms = append(said.Terms, string(term))
		}
		point.Says = append(point.Says, said)
		if opinion, told := opinions[s.Says]; told {
			all = append(all, opinion)
		}
	}
	accord := sensory.AccordOf(all)
	if byLevel := sensory.AccordOfLevels(levels); byLevel == sensory.Conflict || accord == sensory.Silent {
		accord = byLevel
	}
	if accord == sensory.Silent && len(says) == 1 {
		accord = sensory.OneVoice
	}
	point.Accord, point.Open = accord.String(), accord == sensory.Conflict
	if accord == sensory.Silent {
		point.Accord = "in words only"
	}
	return point
}

// scoreDecimals is how many decimals a score needs.
func scoreDecimals(x float64) int {
	if x == float64(int(x)) {
		return 0
	}
	return 1
}

// levelOf brings a score to the scale of the words for how much, from 0 to 5.
func levelOf(score float64, scale tasting.Scale) float64 {
	return (score - scale.From) / (scale.To - scale.From) * tasting.LevelScale.To
}

// Agreement is how far judges agree about an order.
type Agreement struct {
	Of     string  `json:"of"`
	Judges int     `json:"judges"`
	Items  int     `json:"items"` // that each of them judged: attributes, or beers
	W      float64 `json:"w"`     // Kendall's W: 0 no agreement, 1 all alike
	P      float64 `json:"p"`
	Method string  `json:"method"`
	Says   string  `json:"says"`
}

// fewestItems is the least to put in order that can show agreement.
const fewestItems = 3

// agreementIn compares what judges find strong and what weak in one beer: their
// levels of the attributes that all of them judged.
func agreementIn(says map[string][]tasting.Say, attributes []string, w words) *Agreement {
	levels := map[string]map[string]float64{} // judge, attribute
	var judges []string
	for _, a := range attributes {
		for _, s := range says[a] {
			if s.Level == nil {
				continue
			}
			if levels[s.Judge] == nil {
				levels[s.Judge] = map[string]float64{}
				judges = append(judges, s.Judge)
			}
			levels[s.Judge][a] = levelOf(*s.Level, s.Scale)
		}
	}
	slices.Sort(judges)
	return agreementOf("what is strong in it and what is weak", judges, attributes, levels, "attributes", w)
}

// agreementOf compares rows of numbers, of those items that all judges have.
func agreementOf(of string, judges, items []string, numbers map[string]map[string]float64, kind string, w words) *Agreement {
	shared := slices.DeleteFunc(slices.Clone(items), func(item string) bool {
		return slices.ContainsFunc(judges, func(judge string) bool { _, known := numbers[judge][item]; return !known })
	})
	if len(judges) < 2 || len(shared) < fewestItems {
		return nil
	}
	rows := make([][]float64, len(judges))
	for i, judge := range judges {
		for _, item := range shared {
			rows[i] = append(rows[i], numbers[judge][item])
		}
	}
	found := sensory.RanksOf(rows).Kendall()
	a := &Agreement{Of: of, Judges: len(judges), Items: len(shared), W: found.W, P: found.P, Method: found.Method}
	a.Says = "On " + of + " the judges agree " + agreementWord(a.W) + " (Kendall’s W " + w.Number(a.W, 2) + " of 1; " +
		w.Number(float64(a.Judges), 0) + " judges, " + w.Number(float64(a.Items), 0) + " " + kind + "; p " + w.p(a.P) + ")."
	if a.P > 0.05 {
		a.Says += " So few could agree so far by chance."
	}
	return a
}

// agreementWord is Kendall's W in a word, as panels usually call it.
func agreementWord(w float64) string {
	switch {
	case w < 0.3:
		return "hardly"
	case w < 0.5:
		return "somewhat"
	case w <= 0.7:
		return "well"
	}
	return "strongly"
}

// agreementsOn compares in which order judges put the beers: by their totals and
// by each attribute.
func agreementsOn(t *tasting.Tasting, w words) (list []Agreement) {
	type table = map[string]map[string]float64 // judge, beer
	tables, names, judges := map[string]table{}, []string{}, []string{}
	put := func(name, judge, beer string, x float64) {
		if tables[name] == nil {
			tables[name] = table{}
			names = append(names, name)
		}
		if tables[name][judge] == nil {
			tables[name][judge] = map[string]float64{}
		}
		tables[name][judge][beer] = x
	}
	for _, n := range t.StandingSheets() {
		s := t.Sheets[n-1]
		if !slices.Contains(judges, s.Judge) {
			judges = append(judges, s.Judge)
		}
		if s.Total != nil {
			put("the totals", s.Judge, s.Beer, *s.Total/s.Of)
		}
		for _, p := range s.Points {
			if p.Level != nil {
				put(p.Attribute, s.Judge, s.Beer, levelOf(*p.Level, s.Levels()))
			}
		}
	}
	slices.Sort(names)
	letters := t.Letters(&tasting.Flight{})
	for _, name := range names {
		who := slices.DeleteFunc(slices.Clone(judges), func(judge string) bool { return tables[name][judge] == nil })
		if a := agreementOf(name, who, letters, tables[name], "beers", w); a != nil {
			list = append(list, *a)
		}
	}
	return list
}
