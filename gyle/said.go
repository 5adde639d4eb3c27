// SPDX-License-Identifier: MIT

package gyle

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gyle/quantity"
)

// Said reads an entry in one line, as somebody says it at the kettle:
//
//	26,4 @95 at full kettle
//	1.0415 @24 at full kettle with hydrometer
//	1.0110 at forced test marked hopped
//	5.46 of ph at mash
//	hops in challenger 35 g
//	sparge 13.1 L @ 77 °C
//	knock-out
//	element off 35–47 min, down to 94.5 °C
//	note the sacks stood in the cold shed
//
// It returns the body of the entry, without ID and time, and what was
// understood. A reading gets the instrument of the gyle where only one reads
// such a thing.
func (g *Gyle) Said(text string) (Entry, string, error) {
	text = strings.Join(strings.Fields(text), " ")
	if note, is := cutWord(text, "note"); is {
		return Entry{Note: note}, note, nil
	}
	if e, said, is, err := g.saidInterruption(text); is {
		return e, said, err
	}
	said, _ := cutWord(text, "did")
	if do, rest, is := cutDeed(said); is {
		return saidDeed(do, rest)
	}
	return g.saidReading(text)
}

// cutWord takes a first word off a text, if it is that one.
func cutWord(text, word string) (rest string, is bool) {
	if len(text) > len(word) && strings.EqualFold(text[:len(word)], word) && text[len(word)] == ' ' {
		return text[len(word)+1:], true
	}
	return text, false
}

// cutDeed takes the name of a deed off the beginning of a text: the longest
// that fits.
func cutDeed(text string) (do Do, rest string, is bool) {
	all := Deeds()
	slices.SortFunc(all, func(a, b Do) int { return cmp.Compare(len(b), len(a)) })
	for _, d := range all {
		for _, name := range []string{string(d), strings.ReplaceAll(string(d), " ", "-")} {
			if strings.EqualFold(text, name) {
				return d, "", true
			}
			if rest, is := cutWord(text, name); is {
				return d, rest, true
			}
		}
	}
	return "", text, false
}

// saidDeed reads what stands behind the name of a deed: of what, how much, and
// where.
func saidDeed(do Do, text string) (Entry, string, error) {
	d := Deed{Do: do}
	d.Place, text = cutPlace(text)
	what, amount := text, ""
	if i := strings.IndexAny(" "+text, "0123456789"); i >= 0 {
		// An amount begins with the first word that begins with a digit.
		words := strings.Fields(text)
		at := slices.IndexFunc(words, func(w string) bool { return w[0] >= '0' && w[0] <= '9' })
		if at >= 0 {
			what, amount = strings.Join(words[:at], " "), strings.Join(words[at:], " ")
		}
	}
	d.What = what
	if amount != "" {
		if err := d.SetAmount(amount); err != nil {
			return Entry{}, "", err
		}
	}
	e := Entry{Deed: &d}
	return e, e.Words(), e.faulty()
}

// SetAmount reads a mass, a volume, a time, a power, a temperature or a pressure
// into a deed: "35 g", "13.1 L @ 77 °C", "46 s", "2.3 kW", "67 °C", "1.2 bar".
func (d *Deed) SetAmount(text string) error {
	var mass quantity.Mass
	if err := mass.UnmarshalText([]byte(text)); err == nil {
		d.Mass = &mass
		return nil
	}
	var volume quantity.VolumeAt
	volumeErr := volume.UnmarshalText([]byte(text))
	if volumeErr == nil {
		d.Volume = &volume
		return nil
	}
	if err := d.Time.UnmarshalText([]byte(text)); err == nil {
		return nil
	}
	if err := d.Temperature.UnmarshalText([]byte(text)); err == nil {
		return nil
	}
	var power quantity.Power
	if err := power.UnmarshalText([]byte(text)); err == nil {
		d.Power = &power
		return nil
	}
	var pressure quantity.GaugePressure
	if err := pressure.UnmarshalText([]byte(text)); err == nil {
		d.Pressure = &pressure
		return nil
	}
	return &quantity.ParseError{Text: text, Msg: "“" + text + "” is no amount", Hint: "write it with its unit: 35 g, 1.8 mL, 13.1 L @ 77 °C"}
}

// cutPlace takes " at PLACE" off the end of a text.
func cutPlace(text string) (Place, string) {
	i := strings.LastIndex(" "+text, " at ")
	if i < 0 {
		return "", text
	}
	word := text[i+len("at "):]
	for _, w := range []string{word, strings.ReplaceAll(word, "-", " ")} {
		var p Place
		if err := p.UnmarshalText([]byte(w)); err == nil {
			return p, strings.TrimSpace(text[:i])
		}
	}
	return "", text
}

// saidReading reads a reading with the words behind it, in any order.
func (g *Gyle) saidReading(text string) (Entry, string, error) {
	r := Reading{}
	for more := true; more; {
		more = false
		if place, rest := cutPlace(text); place != "" {
			r.At, text, more = place, rest, true
		}
		if i := strings.LastIndex(text, " with "); i >= 0 {
			r.With, text, more = text[i+len(" with "):], text[:i], true
		}
		if i := strings.LastIndex(text, " marked "); i >= 0 {
			r.Mark, text, more = text[i+len(" marked "):], text[:i], true
		}
		if i := strings.LastIndex(text, " of "); i >= 0 {
			if err := r.Of.UnmarshalText([]byte(text[i+len(" of "):])); err != nil {
				return Entry{}, "", err
			}
			text, more = text[:i], true
		}
	}
	r.Value = text
	return g.Read(r)
}

// Read makes an entry of a reading: what it is of, where it wasn't said, and
// the instrument, where only one of the gyle reads such a thing.
func (g *Gyle) Read(r Reading) (Entry, string, error) {
	m, err := ParseReading(r.Value, r.Of)
	if err != nil && r.Of == OfGravity {
		m, err = ParseReading(r.Value, OfRefractometer) // 12.4 Bx where a gravity was asked for
	}
	if err != nil {
		return Entry{}, "", err
	}
	r.Of = m.Of
	if r.With == "" {
		r.With = g.only(m.Of)
	}
	e := Entry{Reading: &r}
	return e, m.Echo, e.faulty()
}

// only returns the one instrument that reads something.
func (g *Gyle) only(of Of) string {
	name := ""
	for _, i := range g.Instruments {
		if i.Of != of {
			continue
		}
		if name != "" {
			return ""
		}
		name = i.Name
	}
	return name
}

// faulty returns the first fault of what an entry says.
func (e Entry) faulty() (err error) {
	e.validateBody("", func(path, hint, format string, args ...any) {
		if err == nil {
			err = &quantity.ParseError{Msg: fmt.Sprintf(format, args...), Hint: hint}
		}
	})
	return err
}

// Words says what an entry says, on one line: "hops in challenger 35 g".
func (e Entry) Words() string { return e.WordsIn(quantity.Printer{}) }

// WordsIn says it in somebody's units. A reading stays as it was read.
func (e Entry) WordsIn(pr quantity.Printer) string {
	var parts []string
	add := func(text string) {
		if text != "" {
			parts = append(parts, text)
		}
	}
	switch {
	case e.Reading != nil:
		add(string(e.Reading.Of))
		add(e.Reading.Value)
		if !e.Reading.Sample.IsZero() {
			add("sample " + pr.Temperature(e.Reading.Sample))
		}
	case e.Deed != nil:
		e.Deed.words(pr, add)
	case e.Interruption != nil:
		add(e.Interruption.What)
		if !e.Interruption.To.IsZero() {
			add("for " + pr.Duration(e.Interruption.To.Since(e.Interruption.From)))
		}
	case e.Choice != nil:
		add("took: " + e.Choice.Took)
	case e.Series != nil:
		e.Series.words(add)
	case e.Override != nil:
		e.Override.words(pr, add)
	}
	return strings.Join(parts, " ")
}

// words says what was refused, and the reason to do it all the same.
func (o *Override) words(pr quantity.Printer, add func(string)) {
	add(o.Of + " all the same")
	if o.Into != "" {
		add("into " + o.Into)
	}
	if o.CO2 > 0 {
		add(pr.Carbonation(o.CO2) + " asked for, " + pr.Carbonation(o.Worst) + " at worst,")
	}
	add("because: " + o.Why)
}

func (d *Deed) words(pr quantity.Printer, add func(string)) {
	add(string(d.Do))
	add(strings.ReplaceAll(d.What, "-", " "))
	if d.Mass != nil {
		add(pr.Mass(*d.Mass))
	}
	if d.Volume != nil {
		add(pr.VolumeAt(*d.Volume))
	}
	if !d.Temperature.IsZero() {
		add("at " + pr.Temperature(d.Temperature))
	}
	if d.Time > 0 {
		add("for " + pr.Duration(d.Time))
	}
	if d.Power != nil {
		add(pr.Power(*d.Power))
	}
	if d.Pressure != nil {
		add("to " + pr.GaugePressure(*d.Pressure))
	}
	add(d.Moment)
	if d.Vessel != "" {
		add("into " + d.Vessel)
	}
	if d.Count > 0 {
		add(fmt.Sprintf("%d pieces", d.Count))
	}
}
