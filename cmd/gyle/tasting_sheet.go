// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"gyle/blind"
	"gyle/causes"
	"gyle/data"
	"gyle/gyle"
	"gyle/internal/web"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
	"gyle/tasting"
)

// tastingSheet enters a judge's score sheet.
type tastingSheet struct {
	Tasting  string            `arg:"" help:"Tasting: a file, or a name in the book."`
	Points   []string          `arg:"" optional:"" name:"remark" help:"What is said of an attribute: \"roast: 4, too much, astringent, a touch high\"."`
	Judge    string            `required:"" placeholder:"NAME" help:"Who judged; a number will do."`
	Beer     string            `required:"" placeholder:"LETTER" help:"Letter of the beer."`
	Age      quantity.Duration `placeholder:"TIME" help:"Age of the bottle: \"61 d\"."`
	Place    int               `placeholder:"N" help:"Place in the judge's flight."`
	Total    string            `placeholder:"N/OF" help:"Total and out of how many: 37/50."`
	Comment  string            `placeholder:"WORDS" help:"On the beer as a whole."`
	Corrects int               `placeholder:"N" help:"Number of the sheet that this one replaces."`
	shelving
	printing
}

// Help is shown by "gyle tasting sheet --help".
func (tastingSheet) Help() string {
	return `Example:

  gyle tasting sheet evening.yaml --judge "judge 1" --beer B --total 33/50 \
    "roast: 4, too much, astringent, a touch high" "silk: medium, right"

A number from 0 to 5, or a word from none to high, is how much; too little, right or too much is the opinion; words of the
standard terminology become terms; all else is the judge's own words. A second sheet of the same judge and beer corrects
the first, which stays. What judges say against each other is shown, never averaged.`
}

// Run enters the sheet.
func (c *tastingSheet) Run(s *streams) (err error) {
	entered, err := c.sheet(time.Now())
	if err != nil {
		return err
	}
	l := c.library()
	defer closing(l, &err)
	t, _, err := readTasting(l, c.Tasting)
	if err != nil {
		return err
	}
	if isFile(c.Tasting) {
		if err := t.Enter(entered); err != nil {
			return err
		}
		text, err := t.Text()
		if err != nil {
			return err
		}
		if err := replaceFile(c.Tasting, text); err != nil {
			return err
		}
	} else if _, err = web.ChangeTasting(context.Background(), webBook{l.book}, tastingSlug(c.Tasting), "", "score sheet of "+entered.Judge, func(kept *tasting.Tasting) error {
		t = kept
		return t.Enter(entered)
	}); err != nil {
		return err
	}
	out := &sheet{w: s.out}
	printScoreSheets(out, blind.Of(t, c.printer()))
	out.flush()
	return nil
}

// sheet reads the sheet from the command line.
func (c *tastingSheet) sheet(at time.Time) (s tasting.Sheet, err error) {
	s = tasting.Sheet{Judge: c.Judge, Beer: c.Beer, At: tasting.At(at), Place: c.Place, Age: c.Age, Comment: c.Comment, Corrects: c.Corrects}
	if c.Total != "" {
		total, of, split := strings.Cut(c.Total, "/")
		x, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(total), ",", "."), 64)
		y, errOf := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(of), ",", "."), 64)
		if err != nil || errOf != nil || !split {
			return s, usage("--total %s: write the total and out of how many, such as 37/50", strconv.Quote(c.Total))
		}
		s.Total, s.Of = &x, y
	}
	for _, line := range c.Points {
		p, err := tasting.ParsePoint(line)
		if err != nil {
			return s, usage("%w", err)
		}
		s.Points = append(s.Points, p)
	}
	if len(s.Points) == 0 && s.Total == nil && s.Comment == "" {
		return s, usage("the sheet says nothing: add a remark such as \"roast: 4, too much\", --total or --comment")
	}
	return s, nil
}

// tastingCauses looks in the log of a gyle for what may lie behind a note.
type tastingCauses struct {
	Gyle  string   `arg:"" help:"Gyle: a file, or a name in the book."`
	Notes []string `arg:"" optional:"" name:"note" help:"What was tasted: astringent, DMS, butter, cardboard."`
	JSON  bool     `name:"json" help:"Print for programs."`
	shelving
	printing
}

// Help is shown by "gyle tasting causes --help".
func (tastingCauses) Help() string {
	return "Examples:\n\n  gyle tasting causes gyle-17.yaml astringent\n  gyle tasting causes gyle-21 \"sweetcorn\" --book my.gylebook\n\n" +
		"The usual causes of a note, by common practice: first what the log of this gyle shows, then what no log tells, then what\n" +
		"the log speaks against. Possibilities to look into, never a diagnosis. It knows these notes: " + strings.Join(data.NoteIDs(), ", ") + "."
}

// Run looks and prints.
func (c *tastingCauses) Run(s *streams) (err error) {
	var ids []string
	for _, word := range c.Notes {
		found := notesCalled(word)
		if len(found) == 0 {
			return usage("%s is no off-note that is known here; known are %s, and words for them", strconv.Quote(word), strings.Join(data.NoteIDs(), ", "))
		}
		ids = append(ids, found...)
	}
	if len(ids) == 0 {
		return usage("say what was tasted; known are %s, and words for them", strings.Join(data.NoteIDs(), ", "))
	}
	l := c.library()
	defer closing(l, &err)
	brew, err := brewNamed(l, c.Gyle, c.shelving, c.printing)
	if err != nil {
		return err
	}
	var traces []causes.Trace
	for _, id := range ids {
		trace, _ := causes.Look(id, brew, c.printer())
		traces = append(traces, trace)
	}
	if c.JSON {
		return printJSON(s.out, traces)
	}
	out := &sheet{w: s.out}
	for _, trace := range traces {
		out.heading("%s, in %s", trace.Name, gyleTitle(brew.Gyle))
		printHints(out, trace.Hints)
	}
	out.note("·", notDiagnosis)
	return nil
}

const notDiagnosis = "Possibilities by common practice, not a diagnosis: a note is confirmed only when another blind sitting finds it again."

// notesCalled finds the off-notes of an id, a term or a word.
func notesCalled(word string) []string {
	if _, known := data.Note(word); known {
		return []string{word}
	}
	if term, known := data.Term(word); known {
		word = term.Name
	}
	return data.NotesIn(word)
}

// brewNamed reads a gyle and reconstructs it, as far as its log goes.
func brewNamed(l *library, name string, shelf shelving, p printing) (causes.Brew, error) {
	g, _, err := readGyle(l, name)
	if err != nil {
		return causes.Brew{}, err
	}
	b := causes.Brew{Gyle: g}
	if done, err := (&reconstructCommand{Gyle: name, shelving: shelf, printing: p}).reconstruct(l); err == nil {
		b.Made = done.made // without it the log alone is looked at
	}
	return b, nil
}

// hintMarks stand before hints.
var hintMarks = map[causes.State]string{causes.Shows: "●", causes.Silent: "○", causes.Against: "–"}

func printHints(out *sheet, hints []causes.Hint) {
	for _, h := range hints {
		text := h.Says()
		for _, id := range h.Entries {
			text += " [" + string(id) + "]"
		}
		out.note(hintMarks[h.State], text)
	}
}

// printBeers prints each beer against its style, and what may lie behind the
// off-notes that were named in it.
func (c *tastingShow) printBeers(out *sheet, l *library, t *tasting.Tasting) error {
	for _, beer := range t.Beers {
		st, err := styleOfBeer(l, c.Tasting, beer)
		if err != nil {
			return err
		}
		if st != nil {
			printAgainst(out, blind.Against(t, beer.Letter, st, c.printer()))
		}
		named := causes.Of(t, beer.Letter)
		if len(named) == 0 {
			continue
		}
		brew, known, err := c.brewOf(l, beer)
		if err != nil {
			return err
		}
		brew.Packed, brew.Tasted, brew.Kept = beer.Packed, t.Date, beer.Kept
		out.heading("Off-notes in %s", blind.NameOf(t, beer.Letter))
		for _, n := range named {
			printNamed(out, n)
			if trace, _ := causes.Look(n.Note, brew, c.printer()); !n.Open {
				printHints(out, trace.Hints)
			}
		}
		if !known {
			out.note("?", "The gyle of this beer isn’t at hand: only the usual causes can be listed.")
		}
		out.note("·", notDiagnosis)
	}
	return nil
}

func printNamed(out *sheet, n causes.Named) {
	who := make([]string, len(n.Voices))
	for i, v := range n.Voices {
		who[i] = v.Who + " “" + v.Words + "”"
	}
	text := fmt.Sprintf("%s: %s; %d of %d", n.Name, strings.Join(who, ", "), len(n.Voices), n.Of)
	switch {
	case n.Open:
		text += "; another judge says the opposite: conflict, left open"
	case !n.Reported:
		text += ", too few to count as reported"
	}
	out.note(" ", text)
}

// printAgainst prints a beer against the sensory ranges of its style.
func printAgainst(out *sheet, of *blind.OfStyle) {
	if of == nil {
		return
	}
	out.heading("%s against the style %s, as advice", of.Beer, of.Style)
	out.note(" ", of.Says)
	for _, r := range of.Rows {
		mark := map[string]string{"inside": "●", "outside": "✕"}[r.Fit]
		if mark == "" {
			mark = "○"
		}
		out.note(mark, r.Says)
	}
	if len(of.Unasked) > 0 {
		out.note(" ", "Nobody was asked about: "+strings.Join(of.Unasked, ", ")+".")
	}
}

// styleOfBeer is the style of a beer's recipe; nil where one of them isn't at
// hand.
func styleOfBeer(l *library, of string, beer tasting.Beer) (*style.Style, error) {
	r, err := beside(l, "", of, recipe.Kind, beer.Recipe, recipe.Parse)
	if err != nil || r == nil {
		return nil, err
	}
	return beside(l, "", of, style.Kind, r.Style, style.Parse)
}

// brewOf finds the gyle of a beer beside the tasting's file, or in the book.
func (c *tastingShow) brewOf(l *library, beer tasting.Beer) (causes.Brew, bool, error) {
	none := causes.Brew{Gyle: &gyle.Gyle{}}
	if beer.Gyle == "" {
		return none, false, nil
	}
	if isFile(c.Tasting) {
		if file := filepath.Join(filepath.Dir(c.Tasting), beer.Gyle+".yaml"); isFile(file) {
			b, err := brewNamed(l, file, c.shelving, c.printing)
			return b, err == nil, err
		}
	}
	if there, err := l.holds(gyle.Kind, beer.Gyle); err != nil || !there {
		return none, false, err
	}
	b, err := brewNamed(l, beer.Gyle, c.shelving, c.printing)
	return b, err == nil, err
}
