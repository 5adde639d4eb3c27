// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"gyle/tasting"
)

// sealedKey is a key as it is kept.
type sealedKey struct {
	Seed    string                    `json:"seed"`
	Nonce   string                    `json:"nonce"`
	Glasses map[string][]tasting.Code `json:"glasses"`
}

// KeysText writes the sealed keys of a tasting, by the names of their flights.
func KeysText(keys map[string]*tasting.Key) ([]byte, error) {
	kept := map[string]sealedKey{}
	for flight, k := range keys {
		kept[flight] = sealedKey{k.Seed, k.Nonce, k.Glasses}
	}
	return json.Marshal(kept)
}

// ParseKeys reads what [KeysText] wrote.
func ParseKeys(text []byte) (map[string]*tasting.Key, error) {
	var kept map[string]sealedKey
	if err := json.Unmarshal(text, &kept); err != nil {
		return nil, fmt.Errorf("read the sealed keys: %w", err)
	}
	keys := map[string]*tasting.Key{}
	for flight, k := range kept {
		keys[flight] = &tasting.Key{Seed: k.Seed, Nonce: k.Nonce, Glasses: k.Glasses}
	}
	return keys, nil
}

// errKeyAway says that the book doesn't hold the key of a flight.
var errKeyAway = &RefusedError{"That doesn't open the key of this tasting. The pourer's link or words do; who planned the tasting was given them."}

// OpenTasting closes the answers of all planned flights that aren't open yet and
// puts their keys into the document. Flights whose keys are elsewhere stay sealed.
// It is refused for a key that isn't the sealed one.
func OpenTasting(t *tasting.Tasting, keys map[string]*tasting.Key, at time.Time) error {
	opened, waiting := 0, 0
	for i := range t.Flights {
		f := &t.Flights[i]
		if f.Key != nil || len(f.Serving) == 0 {
			continue
		}
		if waiting++; keys[f.Name] == nil {
			continue
		}
		if f.Closed == nil {
			f.Close(tasting.At(at))
		}
		if err := t.Open(f, keys[f.Name], tasting.At(at)); err != nil {
			return err
		}
		opened++
	}
	if opened == 0 && waiting > 0 {
		return errKeyAway
	}
	if opened == 0 {
		return &RefusedError{"No flight is waiting for its key."}
	}
	return nil
}

// tastingTries is how often a change is tried again that met another one.
const tastingTries = 20

// ChangeTasting reads a tasting, changes it, and saves it; where somebody else
// saved meanwhile it begins again, so that answers that come at once all stay.
func ChangeTasting(ctx context.Context, b Book, slug, author, why string, change func(*tasting.Tasting) error) (Document, error) {
	for try := 0; ; try++ {
		d, err := b.Get(ctx, tasting.Kind, slug)
		if err != nil {
			return d, err
		}
		if d.Deleted {
			return d, ErrNotFound
		}
		t, err := tasting.Parse(slug+".yaml", []byte(d.Text))
		if err != nil {
			return d, err
		}
		if err := change(t); err != nil {
			return d, err
		}
		text, err := t.Text()
		if err != nil {
			return d, err
		}
		saved, err := b.Save(ctx, Draft{Kind: tasting.Kind, Slug: slug, Text: string(text), Author: author, Why: why, Base: d.Revision})
		var conflict *ConflictError
		if errors.As(err, &conflict) && try < tastingTries {
			continue
		}
		return saved, err
	}
}

// asks are the sentences on the ballots of each method.
var asks = map[tasting.Method]string{
	tasting.Triangle:   "Two glasses hold the same beer. Which is the odd one? Guess if you can't tell.",
	tasting.DuoTrio:    "Taste the reference first. Which of the other two is the same beer? Guess if you can't tell.",
	tasting.TwoAFC:     "Which of the two has more %s? Guess if you can't tell.",
	tasting.ThreeAFC:   "Which of the three has most %s? Guess if you can't tell.",
	tasting.Tetrad:     "Sort the four into two groups of two that are alike. Guess if you can't tell.",
	tasting.ANotA:      "Is this the beer that you learnt?",
	tasting.Preference: "Which of the two would you rather drink a pint of?",
	tasting.Ranking:    "Put the glasses in order, the one with most %s first.",
	tasting.Profile:    "How much of each, on the line from 0 to 9?",
}

// NewFlight is a flight with the usual sentence and rule of its method.
// Attributes are those of a profile, or the one that is asked for; letters are
// its beers, of which the later is expected to have more.
func NewFlight(name string, method tasting.Method, attributes, letters []string) tasting.Flight {
	f := tasting.Flight{Name: name, Kind: method, Ask: asks[method]}
	attribute := "of it"
	if len(attributes) > 0 {
		attribute = attributes[0]
	}
	switch method {
	case tasting.TwoAFC, tasting.ThreeAFC, tasting.Ranking:
		f.Attribute, f.Ask = attribute, fmt.Sprintf(f.Ask, attribute)
		if method == tasting.Ranking && (attribute == "liking" || len(attributes) == 0) {
			f.Attribute, f.Ask = "liking", "Put the glasses in order, the one you like best first."
		}
		if method != tasting.Ranking {
			f.Sides, f.Expect = "one", letters
		}
	case tasting.Profile:
		f.Attributes, f.Scale = attributes, &tasting.Scale{From: 0, To: 9}
	case tasting.Preference:
		f.Sides = "two"
		f.Forced = true
	case tasting.ANotA:
		f.Reference = letters[0]
	}
	return f
}
