// SPDX-License-Identifier: MIT

package publish

import (
	"bytes"
	_ "embed"
	"html/template"
	"slices"
	"strings"
	"time"

	"gyle/blind"
	"gyle/quantity"
)

//go:embed page/tasting.html
var tastingHTML string

var tastingTemplate = template.Must(template.New("tasting").Parse(tastingHTML))

// tastingView is the page of one tasting. Who tasted stays out of it.
type tastingView struct {
	siteView
	Name, Date, Host, Question, Change, Expect string

	Tasted  []entryView // Words is the letter of the beer
	Flights []flightView
}

type flightView struct{ Name, Ask, Says string }

// tastings are all tastings of the site with an open key, each once, oldest
// first.
func (s Site) tastings() (list []Tasting) {
	for _, b := range s.Beers {
		for _, t := range b.Tastings {
			if t.Judged() && !slices.ContainsFunc(list, func(o Tasting) bool { return o.Slug == t.Slug }) {
				list = append(list, t)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b Tasting) int { return a.Doc.Date.Compare(b.Doc.Date.Time) })
	return list
}

// printer is that of the beers.
func (s Site) printer() quantity.Printer {
	if len(s.Beers) == 0 {
		return quantity.Printer{}
	}
	return s.Beers[0].Printer
}

// tastingEntry is a tasting as the index lists it.
func (s Site) tastingEntry(t Tasting) entryView {
	says := s.words().verdicts(t.Doc, s.printer())
	return entryView{
		Link: "tastings/" + t.Slug + "/index.html", Name: t.Doc.Name, By: t.Doc.Host, Says: strings.Join(says, " "),
		Words: strings.ToLower(strings.Join(append(says, t.Doc.Name, t.Doc.Host, t.Doc.Question, t.Doc.Change), " ")),
	}
}

// updated is when a tasting was over: the day it was held.
func (t Tasting) updated() time.Time { return t.Doc.Date.UTC() }

func (s Site) tastingPage(t Tasting, frame siteView) ([]byte, error) {
	w := s.words()
	v := tastingView{siteView: frame, Name: t.Doc.Name, Date: t.Doc.Date.String(), Host: t.Doc.Host, Question: t.Doc.Question, Change: t.Doc.Change, Expect: t.Doc.Expect}
	for _, beer := range t.Doc.Beers {
		e := entryView{Words: beer.Letter, Name: beer.Name}
		if e.Name == "" {
			e.Name = beer.Recipe
		}
		if i := slices.IndexFunc(s.Beers, func(b SiteBeer) bool { return b.Slug == beer.Recipe }); i >= 0 {
			e.Name, e.Link = title(s.Beers[i].Input.Recipe), "../../beers/"+beer.Recipe+"/index.html"
		}
		v.Tasted = append(v.Tasted, e)
	}
	for _, f := range blind.Of(t.Doc, s.printer()).Flights {
		one := flightView{Name: f.Name, Ask: f.Ask, Says: w.Void}
		switch {
		case f.State == blind.Judged:
			one.Says = w.verdict(f, s.printer())
		case f.State != blind.Voided:
			continue
		case w.Lang == English.Lang:
			one.Says = f.Says
		}
		v.Flights = append(v.Flights, one)
	}
	var out bytes.Buffer
	err := tastingTemplate.Execute(&out, v)
	return out.Bytes(), err
}
