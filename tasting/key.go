// SPDX-License-Identifier: MIT

package tasting

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
)

// sealed is what the commitment of a flight covers: all that decides how its
// answers will be read. Its fields stand in the order in which they are hashed.
type sealed struct {
	Version int               `json:"v"`
	Trial   string            `json:"trial"`
	Flight  string            `json:"flight"`
	Rule    sealedRule        `json:"rule"`
	At      string            `json:"at"`
	Seed    string            `json:"seed"`
	Serving [][]string        `json:"serving"` // taster, set, reference, codes
	Glasses map[string][]Code `json:"glasses"` // sorted by letter
}

type sealedRule struct {
	Kind       Method   `json:"kind"`
	Ask        string   `json:"ask"`
	Beers      []string `json:"beers"`
	Attribute  string   `json:"attribute"`
	Attributes []string `json:"attributes"`
	Scale      []string `json:"scale"`
	Alpha      string   `json:"alpha"`
	Aim        []string `json:"aim"` // share, d′, points, power
	Similar    string   `json:"similar"`
	Sides      string   `json:"sides"`
	Expect     []string `json:"expect"`
	Reference  string   `json:"reference"`
	Forced     bool     `json:"forced,omitempty"` // absent from keys that were sealed before there was such a rule
	Look       []string `json:"look,omitempty"`   // likewise: after, stop, needed
}

// KeyText returns the canonical text of a flight's key: one line of JSON
// without spaces, numbers as texts, that holds the rule, the serving plan and
// which code is which beer. The same flight and key always give the same text.
func (t *Tasting) KeyText(f *Flight, key *Key) []byte {
	k := sealed{
		Version: 1, Trial: t.Name, Flight: f.Name, Rule: t.rule(f), Seed: key.Seed,
		Serving: make([][]string, 0, len(f.Serving)), Glasses: map[string][]Code{},
	}
	if f.Design != nil {
		k.At = f.Design.At.String()
	}
	for _, s := range f.Serving {
		row := []string{s.Taster, strconv.Itoa(s.Set), string(s.Reference)}
		for _, code := range s.Codes {
			row = append(row, string(code))
		}
		k.Serving = append(k.Serving, row)
	}
	for letter, codes := range key.Glasses {
		k.Glasses[letter] = slices.Sorted(slices.Values(codes))
	}
	return oneLine(k)
}

// oneLine writes texts and whole numbers as one line of JSON, characters as
// they are.
func oneLine(v any) []byte {
	var b bytes.Buffer
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(v); err != nil {
		panic("tasting: texts can't be written: " + err.Error())
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n"))
}

func (t *Tasting) rule(f *Flight) sealedRule {
	number := func(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
	r := sealedRule{
		Kind: f.Kind, Ask: f.Ask, Beers: t.Letters(f), Attribute: f.Attribute, Attributes: f.Attributes,
		Alpha: number(float64(f.Alpha)), Similar: number(float64(f.Similar)), Sides: f.Sides, Expect: f.Expect, Reference: f.Reference,
		Forced: f.Forced,
	}
	if f.Look != nil {
		r.Look = []string{strconv.Itoa(f.Look.After), strconv.Itoa(f.Look.Stop), strconv.Itoa(f.Look.Needed)}
	}
	if f.Scale != nil {
		r.Scale = []string{number(f.Scale.From), number(f.Scale.To)}
	}
	if f.Aim != nil {
		r.Aim = []string{number(float64(f.Aim.Share)), number(f.Aim.DPrime), number(f.Aim.Points), number(float64(f.Aim.Power))}
	}
	return r
}

// NonceBytes is how many random bytes keep a key from being guessed: there are
// few enough keys to try them all.
const NonceBytes = 32

// Commit returns the commitment to a key text: SHA-256 over nonce and text, in
// hexadecimal digits. It shows nothing of the key, and no other key has it.
func Commit(nonce, text []byte) string {
	sum := sha256.Sum256(append(slices.Clone(nonce), text...))
	return hex.EncodeToString(sum[:])
}

// Seal writes the commitment of a flight's key into its design. The key stays
// with the caller; it is not part of the document until it is opened.
func (t *Tasting) Seal(f *Flight, key *Key) error {
	switch nonce, err := hex.DecodeString(key.Nonce); {
	case f.Design == nil || f.Design.At.IsZero():
		return fmt.Errorf("seal flight %s: the design has no date", f.Name)
	case len(f.Answers) > 0:
		return fmt.Errorf("seal flight %s: there are answers already", f.Name)
	case err != nil || len(nonce) != NonceBytes:
		return fmt.Errorf("seal flight %s: the nonce is not %d bytes in hexadecimal digits", f.Name, NonceBytes)
	default:
		f.Design.Commitment = Commit(nonce, t.KeyText(f, key))
		return nil
	}
}

// Verification is what the opened key of a flight shows.
type Verification int

// The outcomes of [Tasting.Verify].
const (
	StillSealed  Verification = iota // no key yet
	NotCommitted                     // a key, but nothing was committed to
	Matches                          // plan, rule and key are those that were sealed
	Differs                          // something was changed since: the answers prove nothing
)

// String returns the outcome in words.
func (v Verification) String() string {
	return [...]string{"still sealed", "not committed", "matches", "differs"}[v]
}

// Verify compares the key of a flight with the commitment of its design.
func (t *Tasting) Verify(f *Flight) Verification {
	switch {
	case f.Key == nil:
		return StillSealed
	case f.Design == nil || f.Design.Commitment == "":
		return NotCommitted
	}
	nonce, err := hex.DecodeString(f.Key.Nonce)
	if err != nil || len(nonce) != NonceBytes || Commit(nonce, t.KeyText(f, f.Key)) != f.Design.Commitment {
		return Differs
	}
	return Matches
}

// Open puts the key into a flight. It is refused when the key is not the one
// that was sealed, and while glasses are unanswered unless the answers were
// closed.
func (t *Tasting) Open(f *Flight, key *Key, at Time) error {
	if f.Key != nil {
		return fmt.Errorf("open flight %s: it is open already", f.Name)
	}
	if missing := f.Missing(); len(missing) > 0 && f.Closed == nil {
		return fmt.Errorf("open flight %s: %d sets have no answer yet, the first is that of %s; close the flight first", f.Name, len(missing), missing[0].Taster)
	}
	opened := *key
	opened.Opened = at
	opened.Glasses = maps.Clone(key.Glasses)
	f.Key = &opened
	if v := t.Verify(f); v == Differs {
		f.Key = nil
		return fmt.Errorf("open flight %s: the key is not the one that was sealed, or the plan was changed since", f.Name)
	}
	return nil
}

// BeerOf returns the letter of the beer behind a code, or nothing.
func (k *Key) BeerOf(code Code) string {
	if k == nil {
		return ""
	}
	for _, letter := range slices.Sorted(maps.Keys(k.Glasses)) {
		if slices.Contains(k.Glasses[letter], code) {
			return letter
		}
	}
	return ""
}

// Pattern returns the letters of a set in the order of tasting, the reference
// in front: "ABA".
func (k *Key) Pattern(s Serving) (pattern string) {
	if s.Reference != "" {
		pattern = k.BeerOf(s.Reference)
	}
	for _, code := range s.Codes {
		pattern += k.BeerOf(code)
	}
	return pattern
}

// Odd returns which glass of a set is unlike the others, from 1, or 0.
func (k *Key) Odd(s Serving) int {
	count := map[string]int{}
	for _, code := range s.Codes {
		count[k.BeerOf(code)]++
	}
	for i, code := range s.Codes {
		if len(count) == 2 && count[k.BeerOf(code)] == 1 && len(s.Codes) > 2 {
			return i + 1
		}
	}
	return 0
}
