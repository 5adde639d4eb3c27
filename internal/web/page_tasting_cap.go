// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"net/http"

	"gyle/panel"
	"gyle/quantity"
	"gyle/tasting"
)

// capForm is the part of the form of a tasting that says how much alcohol anybody
// is to be poured at most.
type capForm struct {
	Cap   string // grams of alcohol; empty: no cap
	Over  string // why it may be passed
	Later bool   // further questions may wait for another evening
}

// usualCap stands in the form at first: two drinks of 10 g.
const usualCap = "20 g"

// readCap reads the cap into a tasting that is about to be drawn.
func (f *capForm) readCap(t *tasting.Tasting) error {
	if f.Cap == "" {
		return nil
	}
	limit := &tasting.Cap{Over: f.Over}
	if err := readPart(&limit.Alcohol, f.Cap, "most alcohol for each"); err != nil {
		return &RefusedError{sentence(err.Error()) + " Write grams, such as 20 g, or leave it empty for no cap."}
	}
	if limit.Alcohol <= 0 || limit.Alcohol.Grams() > 100 {
		return &RefusedError{"Most alcohol for each: write up to 100 g; two drinks of 10 g are 20 g."}
	}
	t.Cap = limit
	return nil
}

// keepCap compares a drawn evening with its cap. What is above is refused with the
// ways to come below; or further questions are put off, and returned as a second
// evening.
func (f *capForm) keepCap(t *tasting.Tasting, keys map[string]*tasting.Key) (second *tasting.Tasting, err error) {
	var over *panel.OverCap
	switch err := panel.CheckCap(t); {
	case err == nil:
		return nil, nil
	case !errors.As(err, &over):
		return nil, err
	}
	if f.Later {
		if second, ok := panel.Part(t, over); ok {
			for _, name := range over.Later {
				delete(keys, name)
			}
			return second, nil
		}
	}
	return nil, &RefusedError{"Taster " + over.Error() + ". " + panel.Caution}
}

// capWords says what cap was chosen, and whether it can be compared.
func capWords(t *tasting.Tasting, pr quantity.Printer) string {
	if t.Cap == nil {
		return ""
	}
	text := "The organiser’s cap is " + pr.Number(t.Cap.Alcohol.Grams(), 0) + " g, " + pr.Number(t.Cap.Drinks(t.Cap.Alcohol), 1) + " drinks here."
	switch {
	case t.Cap.Over != "":
		text += " It may be passed: " + t.Cap.Over + "."
	case !panel.Watched(t):
		text += " It can’t be compared: the strength of the beers or the size of the glass isn’t written down."
	}
	return text + " A cap is a host’s choice, not advice on how much is safe; local limits for driving can be lower, down to none."
}

// saveSecond keeps the second evening of a tasting that was parted; nil: there is
// none. It is drawn on its own day.
func (s *Server) saveSecond(w http.ResponseWriter, r *http.Request, second *tasting.Tasting, author string) error {
	if second == nil {
		return nil
	}
	text, err := second.Text()
	if err != nil {
		return err
	}
	slug, err := s.freeSlug(r.Context(), tasting.Kind, second.Name)
	if err != nil {
		return err
	}
	_, err = s.Save(w, r, Draft{Kind: tasting.Kind, Slug: slug, Text: string(text), Author: author, Why: "put off: above the cap in one evening"})
	return err
}
