// SPDX-License-Identifier: MIT

package publish

import (
	"strconv"
	"strings"

	"gyle/blind"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/reconstruct"
	"gyle/science/sensory"
	"gyle/tasting"
)

// A Tasting is a blind tasting that put one version of the beer to the test.
type Tasting struct {
	Slug    string // its address on a site, and the name in the book
	Version int    // the later of the versions that were compared
	Doc     *tasting.Tasting
}

// A Brew is a brewing of the recipe and what was reconstructed of it.
type Brew struct {
	Gyle *gyle.Gyle
	Made *reconstruct.Reconstruction
}

// Judged reports whether a flight's key is open, so that there is something to
// tell. What an evening says before may not be handed on.
func (t Tasting) Judged() bool {
	for i := range t.Doc.Flights {
		if t.Doc.Flights[i].Key != nil {
			return true
		}
	}
	return false
}

// Panel returns what panels said of each version, by its number; teaching
// cards show it.
func (b Bundle) Panel() map[int]string {
	said := map[int]string{}
	for _, t := range b.Tastings {
		text := strings.Join(b.words().verdicts(t.Doc, b.Printer), " ")
		if text == "" || t.Version == 0 {
			continue
		}
		said[t.Version] = strings.TrimSpace(said[t.Version] + " " + text)
	}
	return said
}

// ABV returns the alcohol of the beer as brewed last, a share of the volume; 0
// where no brew of the recipe was given.
func (b Bundle) ABV() quantity.Fraction {
	if len(b.Brews) == 0 {
		return 0
	}
	return b.Brews[len(b.Brews)-1].Made.Beer.ABV
}

// verdicts are the sentences of the flights whose keys are open.
func (w *Words) verdicts(t *tasting.Tasting, pr quantity.Printer) (said []string) {
	for _, f := range blind.Of(t, pr).Flights {
		switch {
		case f.State == blind.Voided && w.Lang != English.Lang:
			said = append(said, w.Void)
		case f.State == blind.Voided:
			said = append(said, f.Says)
		case f.State == blind.Judged:
			said = append(said, w.verdict(f, pr))
		}
	}
	return said
}

// verdict is the sentence of one flight with its interval.
func (w *Words) verdict(f blind.Flight, pr quantity.Printer) string {
	text := f.Says
	if w.Lang != English.Lang {
		text = w.flight(f, pr)
	}
	if c := f.Choice; c != nil && !sensory.Protocol(c.Protocol).TwoSided() {
		text += " " + fill(w.CanTell, percent(pr, c.Share), percent(pr, c.Reach.Low), percent(pr, c.Reach.High), percent(pr, c.Reach.Level))
	}
	return text
}

// flight words a verdict anew, from its numbers.
func (w *Words) flight(f blind.Flight, pr quantity.Printer) string {
	number := func(x float64, decimals int) string { return pr.Number(x, decimals) }
	switch {
	case f.Choice != nil:
		c := f.Choice
		count := fill(w.Count, strconv.Itoa(c.Right), strconv.Itoa(c.N), number(c.Expected, 1), number(c.P, 4))
		switch sensory.Outcome(c.Outcome) {
		case sensory.Different:
			return fill(w.Shown, count)
		case sensory.SmallDifference:
			return fill(w.SmallShown, count, percent(pr, c.Limit))
		case sensory.BelowLimit:
			return fill(w.BelowLimit, count, percent(pr, c.Limit))
		}
		if sensory.Protocol(c.Protocol).TwoSided() {
			return fill(w.NotShownAlone, count)
		}
		return fill(w.NotShown, count, percent(pr, c.Upper))
	case f.Liking != nil:
		l, form := f.Liking, w.NotPreferred
		if l.Shown {
			form = w.Preferred
		}
		return fill(form, strconv.Itoa(l.For), strconv.Itoa(l.Against), number(l.P, 3), percent(pr, l.Reach.Low), percent(pr, l.Reach.High), percent(pr, l.Reach.Level), l.First)
	case len(f.Slopes) > 0:
		var shown []string
		for _, s := range f.Slopes {
			if s.Shown {
				shown = append(shown, s.Attribute+" "+pr.Signed(s.Mean, 1)+" (p "+number(s.Corrected, 3)+")")
			}
		}
		if len(shown) == 0 {
			return w.ProfileSame
		}
		return fill(w.Profile, strings.Join(shown, ", "))
	case f.Ranking != nil:
		return fill(w.Ranked, strings.Join(f.Ranking.Names, ", "), number(f.Ranking.P, 3))
	}
	return w.Unanswered
}

// fill puts values in the places {1}, {2} … of a sentence, so that a language
// may have them in another order.
func fill(sentence string, values ...string) string {
	var pairs []string
	for i, v := range values {
		pairs = append(pairs, "{"+strconv.Itoa(i+1)+"}", v)
	}
	return strings.NewReplacer(pairs...).Replace(sentence)
}

func percent(pr quantity.Printer, share float64) string {
	return pr.Fraction(quantity.Fraction(share), 0)
}

type (
	// versionView is a version with what a panel said of it.
	versionView struct {
		*recipe.Recipe
		Panel []panelView
	}
	panelView struct {
		Name, Date, Link string
		Says             []string
	}
	brewView struct {
		Name, Date string
		Figures    [][]string // figure, planned, brewed
	}
)

// tell fills in the versions with what panels said, and the brews.
func (v *pageView) tell(b Bundle) {
	versions := b.Versions
	if len(versions) == 0 && len(b.Tastings) > 0 {
		versions = []*recipe.Recipe{b.Input.Recipe}
	}
	for _, r := range versions {
		one := versionView{Recipe: r}
		for _, t := range b.Tastings {
			if t.Version != r.Version || !t.Judged() {
				continue
			}
			p := panelView{Name: t.Doc.Name, Date: t.Doc.Date.String(), Says: v.W.verdicts(t.Doc, b.Printer)}
			if b.tastingLinks {
				p.Link = "../../tastings/" + t.Slug + "/index.html"
			}
			one.Panel = append(one.Panel, p)
		}
		v.Versions = append(v.Versions, one)
	}
	for _, brew := range b.Brews {
		one := brewView{Name: brew.Gyle.Name, Date: brew.Gyle.Date.String()}
		if brew.Gyle.House != "" {
			one.Name += " " + v.W.OnHouse + " " + brew.Gyle.House
		}
		for _, c := range brew.Made.Compared {
			planned := ""
			if c.Planned != 0 {
				planned = b.Printer.Figure(c.Figure, c.Planned)
			}
			one.Figures = append(one.Figures, []string{v.W.figure(c.Figure), planned, b.Printer.FigureBand(c.Figure, c.Brewed)})
		}
		v.Brews = append(v.Brews, one)
	}
}

// words are those of the language of b; English where it has none.
func (b Bundle) words() *Words {
	if w := Languages[b.Lang]; w != nil {
		return w
	}
	return &English
}

// figure is the name of a figure.
func (w *Words) figure(f quantity.Figure) string {
	if name := w.figures[f]; name != "" {
		return name
	}
	return f.Label()
}
