// SPDX-License-Identifier: MIT

package gyle

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"gyle/quantity"
)

// outage is something that didn't work from one time to another: "element off
// 35–47 min, down to 94.5 °C", "gas out 10:40 to 10:52".
var outage = regexp.MustCompile(`^(\D*?[^\s\d])\s+(?:from\s+)?(\d{1,2}:\d{2}|\d{1,3})\s*(?:min\s*)?(?:–|-|−|to|until)\s*(\d{1,2}:\d{2}|\d{1,3})\s*(?:min|minutes)?(?:[,;]?\s+down to\s+(.+))?$`)

// saidInterruption reads an interruption that is over, said in one line. Plain
// numbers are minutes since the boil began. It is not ok for a text that says
// no such thing.
func (g *Gyle) saidInterruption(text string) (e Entry, said string, ok bool, err error) {
	m := outage.FindStringSubmatch(text)
	if m == nil || saysSpan(m[1]) {
		return e, "", false, nil
	}
	i := Interruption{What: strings.TrimRight(m[1], ",: ")}
	if i.From, err = g.minuteOrClock(m[2]); err != nil {
		return e, "", true, err
	}
	if i.To, err = g.minuteOrClock(m[3]); err != nil {
		return e, "", true, err
	}
	if m[4] != "" {
		lowest, err := ParseReading(m[4], OfTemperature)
		if err != nil {
			return e, "", true, err
		}
		i.Lowest = lowest.Temperature()
	}
	if !i.From.Before(i.To.Time) {
		return e, "", true, &quantity.ParseError{Text: text, Msg: "it ends before it begins", Hint: "write the earlier time first: element off 35–47 min"}
	}
	e = Entry{Interruption: &i}
	return e, fmt.Sprintf("%s from %s to %s", i.What, i.From.Format("15:04"), i.To.Format("15:04")), true, nil
}

// saysSpan reports whether the words before a span are those of a reading or of
// a deed with an amount, for which a span makes no sense here.
func saysSpan(words string) bool {
	do, rest, is := cutDeed(words)
	return is && rest != "" || is && do != HeatOff && do != HeatOn
}

// minuteOrClock reads a time of the clock, or minutes since the boil began.
func (g *Gyle) minuteOrClock(text string) (Time, error) {
	began, boils := g.boilBegan()
	if minutes, err := strconv.Atoi(text); err == nil {
		if !boils {
			return Time{}, &quantity.ParseError{Text: text, Msg: "the log doesn't say when the boil began, so minutes can't be counted from it",
				Hint: "log boil start first, or write times of the clock: element off 10:40–10:52"}
		}
		return began.Add(quantity.Duration(minutes)), nil
	}
	clock, err := time.Parse("15:04", text)
	if err != nil {
		return Time{}, &quantity.ParseError{Text: text, Msg: fmt.Sprintf("%s is no time of the clock", text), Hint: "write 10:40–10:52"}
	}
	day := began.Time
	switch {
	case boils:
	case len(g.Log) > 0:
		day = g.Log[len(g.Log)-1].When().Time
	case g.Plan != nil && !g.Plan.Start.IsZero():
		day = g.Plan.Start.Time
	default:
		day = time.Date(g.Date.Year(), g.Date.Month(), g.Date.Day(), 0, 0, 0, 0, g.Zone())
	}
	return At(time.Date(day.Year(), day.Month(), day.Day(), clock.Hour(), clock.Minute(), 0, 0, day.Location())), nil
}

// boilBegan is when the boil began, as the log has it.
func (g *Gyle) boilBegan() (Time, bool) {
	for _, e := range g.Log.Standing() {
		if e.Deed != nil && e.Deed.Do == BoilStart {
			return e.When(), true
		}
	}
	return Time{}, false
}
