// SPDX-License-Identifier: MIT

package tasting

import (
	"gyle/internal/document"
	"gyle/quantity"
)

// Kind is the first key of a tasting document: "gyle: tasting/1".
const Kind = "tasting"

// Tasting is one evening with its question.
type Tasting struct {
	Name       string     `gyle:"name,required"`
	Question   string     `gyle:"question,required"` // what the evening is to settle
	Host       string     `gyle:"host"`
	Date       Date       `gyle:"date"`
	Beers      []Beer     `gyle:"beers,required"`
	Change     string     `gyle:"change"` // what the later version did differently
	Expect     string     `gyle:"expect"` // what its brewer expects of that
	Conditions Conditions `gyle:"conditions"`
	Cap        *Cap       `gyle:"cap,flow"` // nil: nobody chose one
	Panel      []Assessor `gyle:"panel,flow"`
	Flights    []Flight   `gyle:"flights"`
	Sheets     []Sheet    `gyle:"sheets"`
	Note       string     `gyle:"note"`
}

// Beer is a beer of the evening, named by a letter that no assessor sees.
type Beer struct {
	Letter  string                `gyle:"letter,required"`
	Name    string                `gyle:"name"`
	Recipe  string                `gyle:"recipe"` // id of the recipe
	Gyle    string                `gyle:"gyle"`   // id of the brewing
	Split   string                `gyle:"split"`  // the wort it shares with another beer of the evening
	ABV     *quantity.Fraction    `gyle:"abv"`
	CO2     *quantity.Carbonation `gyle:"co2"`
	Packed  Date                  `gyle:"packed"`
	Kept    quantity.Temperature  `gyle:"kept"` // storage temperature
	Control bool                  `gyle:"control"`
	Note    string                `gyle:"note"`
}

// Conditions are what must be the same for all glasses.
type Conditions struct {
	Sample      *quantity.Volume     `gyle:"sample"` // poured into each glass
	Temperature quantity.Temperature `gyle:"temperature"`
	Glass       string               `gyle:"glass"`
	Masked      string               `gyle:"masked"` // what was hidden: colour, haze, foam
	Pour        string               `gyle:"pour"`   // how carbonation and foam were made alike
	Palate      string               `gyle:"palate"` // water, bread
	Room        string               `gyle:"room"`
	Pourer      string               `gyle:"pourer"` // sees the key, doesn't meet the panel
	Server      string               `gyle:"server"` // sees codes only
}

// Assessor is one of the panel, under a number or a name. Names are kept only
// of those who wish it.
type Assessor struct {
	ID      string `gyle:"id,required"`
	Name    string `gyle:"name"`
	Trained bool   `gyle:"trained"`
	OfAge   bool   `gyle:"of age"` // said so, where alcohol needs it
	Out     string `gyle:"out"`    // withdrew; no reason is asked for
}

// Flight is one question asked in one way.
type Flight struct {
	Name       string            `gyle:"name,required"`
	Kind       Method            `gyle:"kind,required"`
	Ask        string            `gyle:"ask"`        // the sentence on the ballot
	Beers      []string          `gyle:"beers,flow"` // letters; all when left out
	Attribute  string            `gyle:"attribute"`  // of a directional question or a ranking: "bitterness"
	Attributes []string          `gyle:"attributes,flow"`
	Scale      *Scale            `gyle:"scale,flow"`  // of a profile
	Alpha      quantity.Fraction `gyle:"alpha"`       // risk of a false alarm
	Aim        *Aim              `gyle:"aim,flow"`    // what the panel shall be able to find
	Similar    quantity.Fraction `gyle:"similar"`     // largest share that may tell, if likeness is the question
	Sides      string            `gyle:"sides"`       // one or two
	Expect     []string          `gyle:"expect,flow"` // letters from least to most, if an order is expected
	Reference  string            `gyle:"reference"`   // letter of the beer that all know: of a duo-trio, or A of A or not A
	Forced     bool              `gyle:"forced"`      // of a preference: who has none names one all the same
	Look       *Look             `gyle:"look,flow"`   // of a plan that may stop early
	Design     *Design           `gyle:"design"`
	Serving    []Serving         `gyle:"serving,flow"`
	Answers    []Answer          `gyle:"answers,flow"`
	Closed     *Closing          `gyle:"closed,flow"`
	Key        *Key              `gyle:"key"`
	Note       string            `gyle:"note"`
}

// Scale is the range of scores of a profile.
type Scale struct {
	From float64 `gyle:"from,keep"`
	To   float64 `gyle:"to,required"`
}

// Aim is the effect that the panel shall find, and how surely.
type Aim struct {
	Share  quantity.Fraction `gyle:"share"`  // of tasters who can tell
	DPrime float64           `gyle:"dprime"` // or distance in standard deviations
	Points float64           `gyle:"points"` // or difference on the scale
	Power  quantity.Fraction `gyle:"power"`
}

// Look is a plan in two stages: the first sets of the serving plan are counted,
// and either show something or the others are poured. It is fixed with the rule.
type Look struct {
	After  int `gyle:"after,required"`  // sets of the first stage
	Stop   int `gyle:"stop,required"`   // right ones that end the tasting there
	Needed int `gyle:"needed,required"` // right ones of all sets that show something at the end
}

// Design says when the rule, the orders and the codes were fixed.
type Design struct {
	At         Time   `gyle:"at,required"`
	Commitment string `gyle:"commitment"` // hash of the sealed key, 64 hexadecimal digits
	By         string `gyle:"by"`
}

// Serving is one set of glasses, in the order of tasting.
type Serving struct {
	Taster    string `gyle:"taster,required"`
	Set       int    `gyle:"set"` // first, second … of the same taster; 0 for the only one
	Reference Code   `gyle:"reference"`
	Codes     []Code `gyle:"codes,required,flow"`
}

// Closing seals the answers: their number and the hash of their chain.
type Closing struct {
	At    Time   `gyle:"at,required"`
	Count int    `gyle:"answers,keep"`
	Head  string `gyle:"head"` // see [Flight.Head]
}

// Key says which code was which beer. It stands in the document once opened.
type Key struct {
	Opened  Time              `gyle:"opened"`
	Seed    string            `gyle:"seed"`  // of the random numbers, in decimal digits
	Nonce   string            `gyle:"nonce"` // 64 hexadecimal digits that nobody could guess
	Glasses map[string][]Code `gyle:"glasses,required,flow"`
}

// Answer is what one assessor said of one set, or of one glass of it where
// glasses are judged one by one.
type Answer struct {
	ID       string                    `gyle:"id,required"`
	At       Time                      `gyle:"at,required"`
	Came     Time                      `gyle:"came"` // when it arrived, if later than it was given
	Taster   string                    `gyle:"taster,required"`
	Set      int                       `gyle:"set"`
	Code     Code                      `gyle:"code"`
	Codes    []Code                    `gyle:"codes,flow"` // of an order, or of a pair that belongs together
	Says     string                    `gyle:"says"`       // "a", "not a"; "none" of a preference
	Scores   document.Ordered[float64] `gyle:"scores,flow"`
	Comment  string                    `gyle:"comment"`
	Corrects string                    `gyle:"corrects"` // id of the answer in whose place it stands
	Why      string                    `gyle:"why"`      // reason of a correction
}

// Parse reads a tasting document. The error is document.Faults: every fault
// with its position.
func Parse(file string, text []byte) (*Tasting, error) {
	t := new(Tasting)
	if _, err := document.Unmarshal(file, text, Kind, t); err != nil {
		return nil, err
	}
	return t, nil
}

// Advise reads a tasting document and returns its remarks of a weight or more,
// each at its place in the text.
func Advise(file string, text []byte, least Weight) (document.Faults, error) {
	t := new(Tasting)
	source, err := document.Unmarshal(file, text, Kind, t)
	if err != nil {
		return nil, err
	}
	var found document.Faults
	for _, r := range t.Remarks() {
		if r.Weight >= least {
			found = append(found, source.Fault(r.Path, r.Weight.String()+": "+r.Text, r.Hint))
		}
	}
	return document.Sorted(found), nil
}

// Text returns the canonical text of t. Answers keep their order.
func (t *Tasting) Text() ([]byte, error) { return document.Marshal(Kind, t) }

// Flight returns the flight of a name, or nil.
func (t *Tasting) Flight(name string) *Flight {
	for i := range t.Flights {
		if t.Flights[i].Name == name {
			return &t.Flights[i]
		}
	}
	return nil
}

// Letters returns the beers of a flight: its own, or all.
func (t *Tasting) Letters(f *Flight) []string {
	if len(f.Beers) > 0 {
		return f.Beers
	}
	letters := make([]string, len(t.Beers))
	for i, b := range t.Beers {
		letters[i] = b.Letter
	}
	return letters
}
