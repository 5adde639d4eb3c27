// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gyle/blind"
	"gyle/panel"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/tasting"
)

// mostTasters is the largest panel of a form, mostSets how many trays each may
// get.
const (
	mostTasters = 400
	mostSets    = 6
)

// power says what the panel can find, or why nothing can be said.
func (f *tastingForm) power(pr quantity.Printer) string {
	size, err := f.size()
	if err != nil {
		return err.Error()
	}
	flight, err := f.flight()
	if err != nil {
		return sentence(err.Error())
	}
	plan, ok := blind.PlanOf(&flight, size, pr)
	if !ok {
		return "A profile compares each taster with themselves; a trained panel of ten or more is common practice."
	}
	return plan.Says
}

// size reads how many taste, and what each of them gets.
func (f *tastingForm) size() (size blind.Size, err error) {
	for _, part := range []struct {
		into      *int
		text      string
		low, high int
		what      string
	}{
		{&size.Tasters, f.Tasters, 1, mostTasters, "how many taste"}, {&size.Sets, f.Sets, 1, mostSets, "how many trays each gets"},
		{&size.Glasses, f.Glasses, 1, 16, "how many glasses each gets"}, {&size.Stages, f.Look, 1, mostTasters - 1, "after how many tasters to look"},
	} {
		if part.text == "" && part.into != &size.Tasters {
			continue
		}
		n, err := strconv.Atoi(part.text)
		if err != nil || n < part.low || n > part.high {
			return size, &RefusedError{fmt.Sprintf("Say %s, %d to %d.", part.what, part.low, part.high)}
		}
		*part.into = n
	}
	size.Beers = 2 + len(f.More)
	if f.Kind == string(tasting.Profile) && size.Glasses > size.Beers || f.Kind == string(tasting.Ranking) && size.Glasses > size.Beers {
		return size, &RefusedError{fmt.Sprintf("There are %d beers: each can get %d glasses at most.", size.Beers, size.Beers)}
	}
	return size, nil
}

// wish is what the serving plan of the form is made from.
func (f *tastingForm) wish() panel.Wish {
	size, _ := f.size() // read before
	return panel.Wish{Sets: size.Sets, PerTaster: size.Glasses, Glasses: size.Glasses}
}

// letters are those of the beers of the form.
func (f *tastingForm) letters() (list []string) {
	for i := range 2 + len(f.More) {
		list = append(list, string(rune('A'+i)))
	}
	return list
}

// flight is the main flight of the form.
func (f *tastingForm) flight() (flight tasting.Flight, err error) {
	method := tasting.Method("")
	if err := method.UnmarshalText([]byte(f.Kind)); err != nil {
		return flight, err
	}
	letters := f.letters()
	switch {
	case method.Pair() && len(letters) > 2:
		return flight, &RefusedError{fmt.Sprintf("a %s compares two beers; for %d choose a ranking or a profile", method, len(letters))}
	case method == tasting.Ranking && len(letters) < 3:
		return flight, &RefusedError{"a ranking needs three beers or more; for two choose a preference or 2-AFC"}
	}
	flight = NewFlight("question", method, attributesIn(f.Attributes), letters)
	if err := readPart(&flight.Alpha, f.Alpha, "alpha"); err != nil {
		return flight, err
	}
	if flight.Alpha <= 0 || flight.Alpha > 0.2 {
		return flight, &RefusedError{"a risk of a false alarm lies between 0 and 20 %"}
	}
	f.rule(&flight, letters)
	if method.Choice() {
		flight.Aim = &tasting.Aim{Power: quantity.Percent(80)}
		err = readPart(&flight.Aim.Share, f.Share, "share")
		if err == nil && (flight.Aim.Share <= 0 || flight.Aim.Share > 1) {
			err = &RefusedError{"the share that can tell lies between 0 and 100 %"}
		}
	}
	if err == nil {
		err = f.stages(&flight)
	}
	return flight, err
}

// attributesIn reads words between commas.
func attributesIn(text string) (list []string) {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == '\n' || r == ';' }) {
		if word = strings.TrimSpace(word); word != "" {
			list = append(list, word)
		}
	}
	return list
}

// rule sets what only some kinds have: a direction, an order, a reference, a
// choice that is forced.
func (f *tastingForm) rule(flight *tasting.Flight, letters []string) {
	switch flight.Kind {
	case tasting.TwoAFC, tasting.ThreeAFC:
		switch {
		case f.Direction == "earlier":
			flight.Expect = []string{letters[1], letters[0]}
		case f.Direction == "either" && flight.Kind == tasting.TwoAFC:
			flight.Sides, flight.Expect = "two", nil
		}
	case tasting.Ranking:
		if f.Ordered {
			flight.Expect = letters
		}
	case tasting.DuoTrio:
		flight.Reference = f.Reference
	case tasting.ANotA:
		if f.Reference != "" {
			flight.Reference = f.Reference
		}
	case tasting.Preference:
		flight.Forced = !f.None
	}
}

// stages plans a look before the end, if one is wished.
func (f *tastingForm) stages(flight *tasting.Flight) error {
	size, err := f.size()
	if err != nil || size.Stages == 0 {
		return err
	}
	switch {
	case !flight.Kind.Choice() && flight.Kind != tasting.Preference:
		return &RefusedError{"only right answers and preferences can be looked at before the end"}
	case size.Sets > 1:
		return &RefusedError{"a look counts tasters: give each one tray"}
	case flight.Kind == tasting.Preference && !flight.Forced:
		return &RefusedError{"a look at a preference needs a choice of all: don’t offer “no preference”"}
	}
	look, found := blind.LookFor(flight, size.Stages, size.Tasters)
	if !found {
		return &RefusedError{fmt.Sprintf("a look after %d of %d tasters isn’t possible: look before the end", size.Stages, size.Tasters)}
	}
	flight.Look = &look
	return nil
}

// document writes the form down as a tasting.
func (f *tastingForm) document(titles map[string]string, at tasting.Time) (*tasting.Tasting, error) {
	slugs := append([]string{f.A, f.B}, f.More...)
	switch {
	case f.Question == "":
		return nil, &RefusedError{"Write down the question first: it must stand before the answers."}
	case slices.ContainsFunc(slugs, func(slug string) bool { return titles[slug] == "" }):
		return nil, &RefusedError{"Choose two beers."}
	}
	size, err := f.size()
	if err != nil {
		return nil, err
	}
	flight, err := f.flight()
	if err != nil {
		return nil, &RefusedError{sentence(err.Error())}
	}
	t := &tasting.Tasting{Question: f.Question, Date: tasting.Date(at), Change: f.Change, Expect: f.Expect, Flights: []tasting.Flight{flight}}
	var names []string
	for i, slug := range slugs {
		t.Beers = append(t.Beers, tasting.Beer{Letter: string(rune('A' + i)), Recipe: slug})
		names = append(names, titles[slug])
	}
	t.Name = strings.Join(names, " against ")
	t.Beers[0].Gyle, t.Beers[1].Gyle = f.GyleA, f.GyleB
	if f.Split {
		t.Beers[0].Split, t.Beers[1].Split = "one wort", "one wort"
	}
	if err := f.pour(t); err != nil {
		return nil, &RefusedError{sentence(err.Error())}
	}
	for i := range size.Tasters {
		t.Panel = append(t.Panel, tasting.Assessor{ID: fmt.Sprintf("%02d", i+1), Trained: flight.Kind == tasting.Profile})
	}
	if f.Liking && flight.Kind.Choice() {
		liking := NewFlight("liking", tasting.Preference, nil, []string{"A", "B"})
		liking.Alpha, liking.Forced = flight.Alpha, !f.None
		t.Flights = append(t.Flights, liking)
	}
	return t, nil
}

// pour reads what is poured and how strong it is.
func (f *tastingForm) pour(t *tasting.Tasting) error {
	if f.Sample != "" {
		t.Conditions.Sample = new(quantity.Volume)
		if err := readPart(t.Conditions.Sample, f.Sample, "glass"); err != nil {
			return err
		}
	}
	if f.ABV == "" {
		return nil
	}
	abv := new(quantity.Fraction)
	if err := readPart(abv, f.ABV, "alcohol"); err != nil {
		return err
	}
	for i := range t.Beers {
		t.Beers[i].ABV = abv
	}
	return nil
}

// changesError asks which of several changes is the question.
type changesError struct{ list []string }

func (e *changesError) Error() string {
	return fmt.Sprintf("The two versions differ in %d things: a tasting of them can’t tell which one was noticed. Say under “what is different” which change is the question, or brew a version between them.", len(e.list))
}

// oneQuestion asks which change is the question where two versions differ in
// several and nothing was said.
func (s *Server) oneQuestion(ctx context.Context, f tastingForm) error {
	if f.Change != "" || len(f.More) > 0 || f.A == f.B {
		return nil
	}
	list, err := s.changesBetween(ctx, f.A, f.B)
	if err != nil || len(list) < 2 {
		return err
	}
	return &changesError{list}
}

// changesBetween lists the changes between two recipes that follow from no
// other, in a brewer's words.
func (s *Server) changesBetween(ctx context.Context, a, b string) (list []string, err error) {
	var both [2]*recipe.Recipe
	for i, slug := range []string{a, b} {
		d, err := s.book.Get(ctx, recipe.Kind, slug)
		if errors.Is(err, ErrNotFound) || err == nil && d.Deleted {
			return nil, nil
		}
		if err != nil {
			return nil, err
		}
		if both[i], err = parsed(s, d.Slug, d.Text, recipe.Parse); err != nil {
			return nil, nil // its own page tells what is wrong with it
		}
	}
	differences := recipe.Differences(both[0], both[1])
	if recipe.Independent(differences) < 2 {
		return nil, nil
	}
	for _, d := range differences {
		if !d.Follows() {
			list = append(list, differenceWords(d))
		}
	}
	return list, nil
}
