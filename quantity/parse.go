// SPDX-License-Identifier: MIT

package quantity

import (
	"fmt"
	"math"
	"sort"
	"strings"
)

// ParseError says why a text could not be read, and what to write instead.
type ParseError struct {
	Text string // the text as it was written
	What string // what it was read as: "a volume"; empty where Msg says it all
	Msg  string // what is wrong with it
	Hint string // what to write instead; may be empty
}

// Error returns the fault on one line, without the hint.
func (e *ParseError) Error() string {
	if e.What == "" {
		return e.Msg
	}
	return fmt.Sprintf("read %q as %s: %s", e.Text, e.What, e.Msg)
}

// trouble is a fault before it is known in which text it stands.
type trouble struct{ msg, hint string }

func (t *trouble) in(text, what string) error {
	return &ParseError{Text: text, What: what, Msg: t.msg, Hint: t.hint}
}

// kind describes how one measure is read, written and ordered.
type kind[T any] struct {
	what     string                           // "a volume"
	units    []unit[T]                        // what may follow a number
	refused  []refusal                        // units that could mean several things
	bare     func(number) (T, *trouble)       // reads a number without a unit; nil refuses it
	add      func(T, T) T                     // allows "1 h 15 min"; nil refuses it
	text     func(T) string                   // canonical text
	position func(T) float64                  // place on the scale, for ordering
	open     func(like T, infinity float64) T // an end of a range that isn't there
	zero     bool                             // "0" needs no unit
	decimal  bool                             // a comma always begins decimals: "1,050"
	alone    func(float64) bool               // numbers that never borrow the unit of a range; may be nil
	tidy     func(string) string              // takes away what may stand before the number; may be nil

	bySpelling map[string]func(number) T
	refusals   map[string]func(number) *trouble
}

// unit is one unit: its spellings, parted by bars, the preferred one first, and
// what a number in it means.
type unit[T any] struct {
	spellings string
	read      func(number) T
}

// refusal is a unit that is refused because it has several meanings.
type refusal struct {
	spellings string
	explain   func(number) *trouble
}

// measured is a type that knows its kind. All measures of this package do.
type measured[T any] interface{ kind() *kind[T] }

// newKind makes k ready for use.
func newKind[T any](k kind[T]) *kind[T] {
	k.bySpelling = map[string]func(number) T{}
	for _, u := range k.units {
		for s := range strings.SplitSeq(u.spellings, "|") {
			k.bySpelling[compact(s)] = u.read
		}
	}
	k.refusals = map[string]func(number) *trouble{}
	for _, r := range k.refused {
		for s := range strings.SplitSeq(r.spellings, "|") {
			k.refusals[compact(s)] = r.explain
		}
	}
	return &k
}

// of turns a constructor such as [Grams] into a reader.
func of[T any](make func(float64) T) func(number) T {
	return func(n number) T { return make(n.value) }
}

// times reads a number in a unit of the given size.
func times[T ~float64](size float64) func(number) T {
	return func(n number) T { return T(n.value * size) }
}

// per reads a number in a unit of which so many make the canonical one.
// (Dividing by 1000 is exact where multiplying by 0.001 isn't.)
func per[T ~float64](count float64) func(number) T {
	return func(n number) T { return T(n.value / count) }
}

// parse reads a text as the measure k.
func parse[T any](k *kind[T], text string) (T, error) {
	value, fault := k.read(clean(text))
	if fault != nil {
		var none T
		return none, fault.in(text, k.what)
	}
	return value, nil
}

// unmarshal reads a text into a measure.
func unmarshal[T any](k *kind[T], into *T, text []byte) error {
	value, err := parse(k, string(text))
	if err != nil {
		return err
	}
	*into = value
	return nil
}

// marshal writes a measure canonically.
func marshal[T any](k *kind[T], value T) ([]byte, error) {
	if p := k.position(value); math.IsNaN(p) || math.IsInf(p, 0) {
		return nil, fmt.Errorf("write %s: the number isn't finite", k.what)
	}
	return []byte(k.text(value)), nil
}

// read reads a cleaned text.
func (k *kind[T]) read(s string) (T, *trouble) {
	var none T
	if k.tidy != nil {
		s = k.tidy(s)
	}
	n, unit, fault := scan(s)
	if fault != nil {
		return none, fault
	}
	if k.add != nil {
		return k.readParts(n, unit)
	}
	return k.readOne(n, unit)
}

// readParts reads the sum of several numbers, each with its unit.
func (k *kind[T]) readParts(n number, rest string) (T, *trouble) {
	var none T
	unit, rest := cutBeforeDigit(rest)
	sum, fault := k.readOne(n, unit)
	for fault == nil && rest != "" {
		if n, unit, fault = scan(rest); fault != nil {
			break
		}
		unit, rest = cutBeforeDigit(unit)
		if strings.HasPrefix(n.text, "-") {
			return none, &trouble{"only the first number can have a minus sign", ""}
		}
		var part T
		if part, fault = k.readOne(n, unit); fault == nil {
			sum = k.add(sum, part)
		}
	}
	if fault != nil {
		return none, fault
	}
	return sum, nil
}

// readOne gives a number its meaning in a unit.
func (k *kind[T]) readOne(n number, unit string) (T, *trouble) {
	var none T
	if n.doubt != nil && !k.decimal {
		return none, n.doubt
	}
	if unit == "" {
		return k.readBare(n)
	}
	read, known := k.bySpelling[compact(unit)]
	if !known {
		if explain, found := k.refusals[compact(unit)]; found {
			return none, explain(n)
		}
		return none, k.unknown(n, unit)
	}
	value := read(n)
	if p := k.position(value); math.IsNaN(p) || math.IsInf(p, 0) {
		return none, &trouble{"the number is too large", ""}
	}
	return value, nil
}

func (k *kind[T]) readBare(n number) (T, *trouble) {
	if k.bare != nil {
		return k.bare(n)
	}
	if k.zero && n.value == 0 {
		return k.units[0].read(n), nil
	}
	var none T
	if k.preferred()[0] == "%" && n.value > 0 && n.value <= 1 {
		return none, &trouble{"the sign % is missing", fmt.Sprintf("write \"%.4g %%\" where it is a part of one, %q where it is percent", 100*n.value, n.text+" %")}
	}
	if k.what == "a mass" && n.value >= 20 {
		return none, &trouble{"the unit is missing", fmt.Sprintf("write %q or %q", n.text+" g", n.text+" kg")}
	}
	return none, &trouble{"the unit is missing", fmt.Sprintf("write %q", n.text+" "+k.preferred()[0])}
}

// unknown explains that a unit isn't one of this measure.
func (k *kind[T]) unknown(n number, unit string) *trouble {
	if len(k.units) == 0 {
		return &trouble{fmt.Sprintf("%q stands behind the number", unit), "write the number alone"}
	}
	if strings.ContainsAny(unit[:1], "/:") && (len(unit) == 1 || isDigit(unit[1])) {
		return &trouble{fmt.Sprintf("%q isn't understood in a number", unit[:1]), "write a decimal number and a unit"}
	}
	hint := "write one of " + strings.Join(k.preferred(), ", ")
	if len(k.units) == 1 {
		hint = fmt.Sprintf("write %q", n.text+" "+k.preferred()[0])
	}
	if measure, foreign := measureOf[unit]; foreign {
		return &trouble{fmt.Sprintf("%q is a unit of %s", unit, measure), hint}
	}
	if near := nearest(unit, k.spellings()); near != "" {
		hint = fmt.Sprintf("did you mean %q?", n.text+" "+near)
	}
	return &trouble{fmt.Sprintf("the unit %q is unknown", unit), hint}
}

// measureOf says what the common units measure, for those that stand in the
// wrong place.
var measureOf = map[string]string{
	"g": "mass", "kg": "mass", "lb": "mass", "oz": "mass",
	"mL": "volume", "L": "volume", "l": "volume", "hL": "volume",
	"min": "time", "h": "time", "d": "time", "s": "time",
	"°C": "temperature", "°F": "temperature", "K": "temperature",
	"EBC": "colour", "SRM": "colour", "°L": "colour",
	"IBU": "bitterness", "BU": "bitterness", "°P": "gravity",
	"vol": "carbonation", "bar": "pressure", "psi": "pressure",
	"g/L": "what is dissolved in a litre", "mg/L": "concentration", "ppm": "concentration",
	"%": "a share", "kW": "power", "W": "power", "m": "length", "ft": "length",
}

// spellings returns all spellings of all units.
func (k *kind[T]) spellings() []string {
	var all []string
	for _, u := range k.units {
		all = append(all, strings.Split(u.spellings, "|")...)
	}
	return all
}

// preferred returns the first spelling of each unit.
func (k *kind[T]) preferred() []string {
	names := make([]string, 0, len(k.units))
	for _, u := range k.units {
		name, _, _ := strings.Cut(u.spellings, "|")
		names = append(names, name)
	}
	return names
}

// nearest returns the name that differs from word by one letter in four or
// less, or "".
func nearest(word string, names []string) string {
	sorted := append([]string(nil), names...)
	sort.Strings(sorted)
	best, bestDistance := "", 1+len([]rune(word))/4
	for _, name := range sorted {
		d := editDistance(strings.ToLower(word), strings.ToLower(name))
		if d < bestDistance || (d == bestDistance && best == "" && d < len([]rune(name))) {
			best, bestDistance = name, d
		}
	}
	return best
}

// editDistance counts the letters to put in, take out or change between a and b.
func editDistance(a, b string) int {
	x, y := []rune(a), []rune(b)
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i := range x {
		diagonal := row[0]
		row[0] = i + 1
		for j := range y {
			cost := 1
			if x[i] == y[j] {
				cost = 0
			}
			next := min(row[j+1]+1, row[j]+1, diagonal+cost)
			diagonal, row[j+1] = row[j+1], next
		}
	}
	return row[len(y)]
}
