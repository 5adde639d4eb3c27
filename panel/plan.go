// SPDX-License-Identifier: MIT

package panel

import (
	"encoding/hex"
	"fmt"
	"slices"
	"strconv"

	"gyle/tasting"
)

// Wish is what a plan is made from.
type Wish struct {
	Tasters []string // ids, in the order of the panel
	Seed    uint64
	Nonce   [tasting.NonceBytes]byte // random bytes of the system

	Sets      int  // of each taster; 0 is 1
	PerTaster int  // glasses of a ranking or profile; 0: all beers
	Glasses   int  // of A or not A; 0 is 4
	InTurn    bool // orders in turn along the panel, where seats are drawn by lot

	Avoid []tasting.Code // codes with a meaning in this house; [tasting.Loaded] are avoided anyway
}

// Plan makes the serving plan of a flight and its key. The codes of the other
// flights of the evening are not used again. The plan is written into the flight
// and dated, the key is sealed and returned: it is for the pourer alone.
func Plan(t *tasting.Tasting, f *tasting.Flight, wish Wish, at tasting.Time) (*tasting.Key, error) {
	if len(f.Answers) > 0 {
		return nil, fmt.Errorf("plan flight %s: there are answers already", f.Name)
	}
	if len(wish.Tasters) == 0 {
		return nil, fmt.Errorf("plan flight %s: there is nobody to taste", f.Name)
	}
	random := NewRandom(wish.Seed)
	orders, err := ordersFor(t, f, wish, random)
	if err != nil {
		return nil, fmt.Errorf("plan flight %s: %w", f.Name, err)
	}
	serving, glasses, err := deal(f, wish, orders, newCoder(random, taken(t, f, wish.Avoid)))
	if err == nil {
		err = clash(t, f, serving)
	}
	if err != nil {
		return nil, fmt.Errorf("plan flight %s: %w", f.Name, err)
	}
	by := ""
	if f.Design != nil {
		by = f.Design.By
	}
	f.Serving, f.Design = serving, &tasting.Design{At: at, By: by}
	key := &tasting.Key{Seed: strconv.FormatUint(wish.Seed, 10), Nonce: hex.EncodeToString(wish.Nonce[:]), Glasses: glasses}
	if err := t.Seal(f, key); err != nil {
		return nil, fmt.Errorf("plan flight %s: %w", f.Name, err)
	}
	return key, nil
}

// taken lists the codes that must not be dealt: those to avoid, and those of
// the flights before this one.
func taken(t *tasting.Tasting, f *tasting.Flight, avoid []tasting.Code) []tasting.Code {
	codes := slices.Concat(tasting.Loaded, avoid)
	for i := range t.Flights {
		if t.Flights[i].Name == f.Name {
			break
		}
		codes = append(codes, codesOf(&t.Flights[i])...)
	}
	return codes
}

func codesOf(f *tasting.Flight) (codes []tasting.Code) {
	for _, s := range f.Serving {
		codes = append(append(codes, s.Codes...), s.Reference)
	}
	return codes
}

// clash finds a flight that has codes of this plan already.
func clash(t *tasting.Tasting, f *tasting.Flight, serving []tasting.Serving) error {
	dealt := codesOf(&tasting.Flight{Serving: serving})
	for i := range t.Flights {
		other := &t.Flights[i]
		if other.Name == f.Name {
			continue
		}
		for _, code := range codesOf(other) {
			if code != "" && slices.Contains(dealt, code) {
				return fmt.Errorf("flight %s has code %s already: plan the flights in their order", other.Name, code)
			}
		}
	}
	return nil
}

// deal puts codes on the glasses of each order.
func deal(f *tasting.Flight, wish Wish, orders []string, codes *coder) (serving []tasting.Serving, glasses map[string][]tasting.Code, err error) {
	glasses = map[string][]tasting.Code{}
	sets := max(wish.Sets, 1)
	for i, order := range orders {
		tray, err := codes.tray(len(order))
		if err != nil {
			return nil, nil, err
		}
		for place, letter := range order {
			glasses[string(letter)] = append(glasses[string(letter)], tray[place])
		}
		s := tasting.Serving{Taster: wish.Tasters[i/sets], Codes: tray}
		if sets > 1 {
			s.Set = i%sets + 1
		}
		if f.Kind == tasting.DuoTrio {
			s.Reference, s.Codes = tray[0], tray[1:]
		}
		serving = append(serving, s)
	}
	for letter := range glasses {
		slices.Sort(glasses[letter]) // the order of pouring would give the orders away
	}
	return serving, glasses, nil
}

// Same reports whether a flight's plan is the one that its opened key's seed
// makes from a wish.
func Same(t *tasting.Tasting, f *tasting.Flight, wish Wish) (bool, error) {
	if f.Key == nil || f.Design == nil {
		return false, fmt.Errorf("check the plan of flight %s: its key is not open", f.Name)
	}
	seed, err := strconv.ParseUint(f.Key.Seed, 10, 64)
	if err != nil {
		return false, fmt.Errorf("check the plan of flight %s: read its seed: %w", f.Name, err)
	}
	again := *f
	again.Answers, again.Key = nil, nil
	wish.Seed = seed
	// Flights planned later were unknown to the plan.
	then := *t
	if i := slices.IndexFunc(t.Flights, func(o tasting.Flight) bool { return o.Name == f.Name }); i >= 0 {
		then.Flights = t.Flights[:i+1]
	}
	key, err := Plan(&then, &again, wish, f.Design.At)
	if err != nil {
		return false, err
	}
	same := slices.EqualFunc(again.Serving, f.Serving, func(a, b tasting.Serving) bool {
		return a.Taster == b.Taster && a.Set == b.Set && key.Pattern(a) == f.Key.Pattern(b) && slices.Equal(a.Codes, b.Codes) && a.Reference == b.Reference
	})
	return same, nil
}
