// SPDX-License-Identifier: MIT

package recipe

import (
	"fmt"
	"strings"

	"gyle/internal/document"
	"gyle/quantity"
)

// Stage is a part of the brewing at which hops go in.
type Stage string

// The stages of a [Moment].
const (
	AtMash      Stage = "mash"       // into the mash
	AtFirstWort Stage = "first wort" // into the kettle while it fills
	AtBoil      Stage = "boil"       // so many minutes before the end of the boil
	AtFlameOut  Stage = "flame-out"  // at knock-out, before any cooling
	AtStand     Stage = "stand"      // steeped below boiling
	AtDry       Stage = "dry"        // cold, in fermenting or finished beer
)

// Moment is when a hop charge goes in: "boil 60 min", "first wort",
// "flame-out", "stand 80 °C 20 min" or "dry 3 d 14 °C".
type Moment struct {
	Stage       Stage
	Time        quantity.Duration    // minutes of boil, of stand, or of dry hopping
	Temperature quantity.Temperature // of the stand or the dry hopping; zero if not said
}

// momentHint shows the forms that are understood.
const momentHint = `write "boil 60 min", "first wort", "flame-out", "stand 80 °C 20 min", "dry 3 d 14 °C" or "mash"`

// UnmarshalText reads a moment.
func (m *Moment) UnmarshalText(text []byte) error {
	s := strings.Join(strings.Fields(string(text)), " ")
	for _, plain := range []Stage{AtMash, AtFirstWort, AtFlameOut} {
		if strings.EqualFold(s, string(plain)) {
			*m = Moment{Stage: plain}
			return nil
		}
	}
	stage, rest, _ := strings.Cut(s, " ")
	got := Moment{Stage: Stage(strings.ToLower(stage))}
	switch got.Stage {
	case AtBoil, AtStand, AtDry:
	default:
		return fault("%q is no moment of the brewing", likelyMoment(got.Stage, s), s)
	}
	if err := got.readMeasures(rest); err != nil {
		return err
	}
	*m = got
	return nil
}

// otherNames are words of the trade for moments, with how they are written here.
var otherNames = map[Stage]string{
	"whirlpool": `write "flame-out", or with its temperature "stand 80 °C 20 min"`,
	"steep":     `write "stand 80 °C 20 min"`,
	"hopstand":  `write "stand 80 °C 20 min"`,
	"flameout":  `write "flame-out"`,
	"flame":     `write "flame-out"`,
	"knock-out": `write "flame-out"`,
	"knockout":  `write "flame-out"`,
	"fwh":       `write "first wort"`,
	"first":     `write "first wort"`,
	"dryhop":    `write "dry 3 d 14 °C"`,
	"dry-hop":   `write "dry 3 d 14 °C"`,
}

// likelyMoment says how a moment was probably meant.
func likelyMoment(word Stage, s string) string {
	if hint, ok := otherNames[word]; ok {
		return hint
	}
	if _, err := quantity.ParseDuration(s); err == nil {
		return fmt.Sprintf("write \"boil %s\" for so long before the end of the boil", s)
	}
	known := []string{string(AtMash), string(AtFirstWort), string(AtBoil), string(AtFlameOut), string(AtStand), string(AtDry)}
	if near, ok := document.Nearest(string(word), known); ok {
		return "did you mean " + near + "?"
	}
	return momentHint
}

// readMeasures reads the times and temperatures behind the word of the stage.
func (m *Moment) readMeasures(s string) error {
	for _, part := range measures(s) {
		if d, err := quantity.ParseDuration(part); err == nil {
			m.Time += d
			continue
		}
		t, err := quantity.ParseTemperature(part)
		switch {
		case err != nil && strings.Trim(part, "0123456789.,") == "":
			return fault("%s of what?", fmt.Sprintf("write \"%s min\" or \"%s °C\"", part, part), part)
		case err != nil:
			return fault("%q is neither a time nor a temperature", momentHint, part)
		case !m.Temperature.IsZero():
			return fault("there are two temperatures", momentHint)
		}
		m.Temperature = t
	}
	switch {
	case m.Time < 0:
		return fault("a time can't be less than nothing", momentHint)
	case m.Stage == AtBoil && !m.Temperature.IsZero():
		return fault("a boil has no temperature of its own", `the house decides it; write "boil 60 min" or "stand 95 °C 10 min"`)
	case m.Stage == AtStand && m.Temperature.IsZero():
		return fault("a stand needs its temperature", momentHint)
	case m.Stage != AtBoil && m.Time == 0:
		return fault("%s needs its time", momentHint, map[Stage]string{AtStand: "a stand", AtDry: "dry hopping"}[m.Stage])
	case m.Stage == AtBoil && s == "":
		return fault("say how long before the end of the boil", momentHint)
	}
	return nil
}

// measures splits "80 °C 20 min" into its number-and-unit pairs. "for", "at"
// and "@" between them and a comma behind them are ignored.
func measures(s string) []string {
	var out []string
	for _, word := range strings.Fields(s) {
		word = strings.TrimSuffix(word, ",")
		switch strings.ToLower(word) {
		case "for", "at", "@", "of", "":
			continue
		}
		startsNumber := strings.ContainsAny(word[:1], "0123456789-+.,") || strings.HasPrefix(word, "−")
		if startsNumber || len(out) == 0 {
			out = append(out, word)
		} else {
			out[len(out)-1] += " " + word
		}
	}
	return out
}

// MarshalText writes m as UnmarshalText reads it.
func (m Moment) MarshalText() ([]byte, error) {
	switch m.Stage {
	case AtBoil:
		return []byte("boil " + text(m.Time)), nil
	case AtStand:
		return []byte("stand " + text(m.Temperature) + " " + text(m.Time)), nil
	case AtDry:
		s := "dry " + text(m.Time)
		if !m.Temperature.IsZero() {
			s += " " + text(m.Temperature)
		}
		return []byte(s), nil
	}
	return []byte(m.Stage), nil
}

func (m Moment) String() string { return text(m) }

// Words says the moment in the units of a reader: "stand 176 °F 20 min".
// [Moment.String] is for documents.
func (m Moment) Words(reader quantity.Printer) string {
	if reader.System != quantity.USCustomary || m.Temperature.IsZero() {
		return m.String()
	}
	warm := m.Temperature
	m.Temperature = quantity.Temperature{}
	if m.Stage == AtStand {
		return "stand " + reader.Temperature(warm) + " " + text(m.Time)
	}
	return m.String() + " " + reader.Temperature(warm)
}

// Rest is a time at one mash temperature: "67 °C for 60 min".
type Rest struct {
	Temperature quantity.Temperature
	Time        quantity.Duration
}

const restHint = `write "67 °C for 60 min"`

// UnmarshalText reads a rest.
func (r *Rest) UnmarshalText(b []byte) error {
	parts := measures(string(b))
	if len(parts) < 2 {
		return fault("a rest has a temperature and a time", restHint)
	}
	t, err := quantity.ParseTemperature(parts[0])
	if err != nil {
		return err
	}
	var total quantity.Duration
	for _, part := range parts[1:] {
		d, err := quantity.ParseDuration(part)
		if err != nil {
			return err
		}
		total += d
	}
	if total <= 0 {
		return fault("a rest lasts longer than nothing", restHint)
	}
	*r = Rest{t, total}
	return nil
}

// MarshalText writes r as UnmarshalText reads it.
func (r Rest) MarshalText() ([]byte, error) {
	return []byte(text(r.Temperature) + " for " + text(r.Time)), nil
}

func (r Rest) String() string { return text(r) }

// text writes a measure in its canonical form.
func text(m interface{ MarshalText() ([]byte, error) }) string {
	b, err := m.MarshalText()
	if err != nil {
		return "?"
	}
	return string(b)
}

// fault makes an error with a hint, as the document reader shows it.
func fault(format, hint string, args ...any) error {
	return &quantity.ParseError{Msg: fmt.Sprintf(format, args...), Hint: hint}
}
