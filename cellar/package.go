// SPDX-License-Identifier: MIT

package cellar

import (
	"fmt"
	"strings"

	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/carbonation"
)

// Packages are the words for what a beer is filled into, in the order of
// carbonation.Package.
var Packages = []string{"crown bottles", "heavy bottles", "PET bottles", "keg"}

// PackageOf reads one of [Packages].
func PackageOf(word string) (carbonation.Package, error) {
	word = strings.ToLower(strings.TrimSpace(word))
	for i, w := range Packages {
		if strings.ToLower(w) == word || strings.TrimSuffix(strings.ToLower(w), "s") == word {
			return carbonation.Package(i), nil
		}
	}
	if word == "bottles" || word == "bottle" || word == "" {
		return carbonation.CrownBottle, nil
	}
	return 0, &quantity.ParseError{Text: word, Msg: fmt.Sprintf("%q is nothing that beer is filled into here", word), Hint: "write one of " + strings.Join(Packages, ", ")}
}

// ErrRefused is a refusal that nobody has set aside in writing.
type ErrRefused struct{ Cautions []string }

func (e *ErrRefused) Error() string { return "refused: " + strings.Join(e.Cautions, "; ") }

// Entries are the entries of the log, without ID and time, for a filling that is
// done. One that is refused needs a written reason, which stands first in the
// log, with all its cautions; without it the error is [ErrRefused].
func (f Filling) Entries(count int, because string) ([]gyle.Entry, error) {
	var entries []gyle.Entry
	because = strings.TrimSpace(because)
	switch {
	case f.Refused() && because == "":
		return nil, &ErrRefused{f.Verdict.Cautions}
	case f.Refused():
		entries = append(entries, gyle.Entry{Override: &gyle.Override{
			Of: "filling", Refused: f.Verdict.Cautions, Why: because, Into: Packages[f.Wish.Into],
			CO2: f.Wish.CO2, Worst: f.Verdict.WorstCase, Warmest: f.Wish.Warmest,
		}})
	}
	if f.Priming > 0 {
		mass := f.Priming
		entries = append(entries, gyle.Entry{Deed: &gyle.Deed{Do: gyle.Primed, What: f.Wish.Sugar, Mass: &mass}})
	}
	d := gyle.Deed{Do: gyle.Packaged, Vessel: Packages[f.Wish.Into], Count: count}
	if f.Wish.Volume > 0 {
		d.Volume = &quantity.VolumeAt{Volume: f.Wish.Volume}
	}
	if f.Wish.Into == carbonation.Keg {
		pressure := f.Keg
		d.Pressure = &pressure
		d.Temperature = f.Wish.Keg
	}
	return append(entries, gyle.Entry{Deed: &d}), nil
}

// SetPressure is the entry, with its override where the vessel doesn't bear it,
// for a pressure that a vessel was set to.
func SetPressure(p quantity.GaugePressure, vessel string, rating *quantity.GaugePressure, because string) ([]gyle.Entry, error) {
	var entries []gyle.Entry
	because = strings.TrimSpace(because)
	if refused := Above(p, rating); refused != "" {
		if because == "" {
			return nil, &ErrRefused{[]string{refused}}
		}
		entries = append(entries, gyle.Entry{Override: &gyle.Override{Of: "pressure", Refused: []string{refused}, Why: because}})
	}
	return append(entries, gyle.Entry{Deed: &gyle.Deed{Do: gyle.Set, Pressure: &p, Vessel: vessel}}), nil
}
