// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"gyle/blind"
	"gyle/panel"
	"gyle/quantity"
	"gyle/tasting"
)

// printTasting prints a tasting as far as it has come.
func printTasting(out *sheet, t *tasting.Tasting, v blind.Verdict, pr quantity.Printer) {
	defer out.flush()
	out.note("○", t.Name)
	out.note(" ", t.Question)
	for i, f := range v.Flights {
		out.heading("%s: %s, %d tasters", f.Name, f.Kind, f.Tasters)
		out.note(map[blind.State]string{blind.Judged: "●", blind.Voided: "✕"}[f.State]+strings.Repeat("○", boolCount(f.State != blind.Judged && f.State != blind.Voided)), f.Says)
		for _, text := range f.More {
			out.note(" ", text)
		}
		printAnswers(out, f)
		for _, text := range f.Warnings {
			out.note("?", text)
		}
		if f.Plan != nil {
			out.note("○", f.Plan.Says)
		}
		if f.State != blind.Judged && f.State != blind.Voided {
			printTrays(out, &t.Flights[i])
		}
	}
	printScoreSheets(out, v)
	printTellings(out, t, v, pr)
}

func boolCount(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// printAnswers prints a mark for each answer, and the slopes of a profile.
func printAnswers(out *sheet, f blind.Flight) {
	var dots []blind.Dot
	switch {
	case f.Choice != nil && f.Kind != string(tasting.TwoAFC):
		dots = f.Choice.Dots
	case f.Liking != nil:
		dots = f.Liking.Dots
	}
	marks := ""
	for _, right := range []bool{true, false} {
		for _, d := range dots {
			if d.Right == right {
				marks += map[bool]string{true: "●", false: "○"}[right]
			}
		}
	}
	if marks != "" {
		out.note(" ", marks)
	}
	for _, s := range f.Slopes {
		mark := "○"
		if s.Shown {
			mark = "●"
		}
		out.row(mark, s.Attribute, fmt.Sprintf("%.1f → %.1f", s.From, s.To), fmt.Sprintf("%+.1f, sd %.1f", s.Mean, s.SD), fmt.Sprintf("p %.3f, corrected %.2f", s.P, s.Corrected))
	}
}

func printTrays(out *sheet, f *tasting.Flight) {
	for _, s := range f.Serving {
		codes := make([]string, len(s.Codes))
		for i, code := range s.Codes {
			codes[i] = string(code)
		}
		reference := ""
		if s.Reference != "" {
			reference = "reference " + string(s.Reference)
		}
		out.row("  "+s.Taster, strings.Join(codes, " "), reference)
	}
	if f.Design != nil && f.Design.Commitment != "" {
		out.note(" ", "sealed: "+f.Design.Commitment)
	}
}

func printScoreSheets(out *sheet, v blind.Verdict) {
	for _, b := range v.Sheets {
		out.heading("Score sheets: %s", b.Beer)
		for _, total := range b.Totals {
			out.row("  "+total.Judge, fmt.Sprintf("%g of %g", total.Total, total.Of))
		}
		for _, p := range b.Points {
			said := make([]string, len(p.Says))
			for i, s := range p.Says {
				said[i] = s.Text()
			}
			accord := p.Accord
			if p.Open {
				accord = "conflict, left open"
			}
			out.row("  "+p.Attribute, accord, strings.Join(said, " · "))
		}
		for _, s := range b.Comments {
			out.row("  on the whole", s.Judge, "“"+s.Words+"”")
		}
		if b.Agree != nil {
			out.note(" ", b.Agree.Says)
		}
	}
	for _, a := range v.Agree {
		out.note(" ", a.Says)
	}
}

// printTellings prints what must be told with the outcome, and the alcohol.
func printTellings(out *sheet, t *tasting.Tasting, v blind.Verdict, pr quantity.Printer) {
	if len(v.Remarks)+len(v.Cannot) > 0 {
		out.heading("To be told with it")
	}
	for _, r := range v.Remarks {
		out.note("?", r.Text)
	}
	for _, text := range v.Cannot {
		out.note("·", text)
	}
	poured, known := panel.Poured(t)
	if !known {
		return
	}
	most := quantity.Mass(0)
	for _, taster := range slices.Sorted(maps.Keys(poured)) {
		most = max(most, poured[taster])
	}
	limit := ""
	if t.Cap != nil {
		limit = "The organiser’s cap is " + pr.Number(t.Cap.Alcohol.Grams(), 0) + " g, which is no advice on how much is safe. "
		if t.Cap.Over != "" {
			limit += "It may be passed: " + t.Cap.Over + ". "
		}
	}
	out.note("!", "Alcohol poured to each: up to "+pr.Number(most.Grams(), 1)+" g. "+limit+panel.Caution)
}

// printKeys prints which code is which beer, for the pourer.
func printKeys(out *sheet, t *tasting.Tasting, sealed map[string]*tasting.Key) error {
	defer out.flush()
	for i := range t.Flights {
		f := &t.Flights[i]
		key := f.Key
		if key == nil {
			key = sealed[f.Name]
		}
		if key == nil {
			return fmt.Errorf("the key of flight %s isn't here; who planned the tasting has it", f.Name)
		}
		out.heading("Key of %s, for the pourer alone", f.Name)
		for _, letter := range slices.Sorted(maps.Keys(key.Glasses)) {
			codes := make([]string, len(key.Glasses[letter]))
			for j, code := range key.Glasses[letter] {
				codes[j] = string(code)
			}
			out.note(letter, blind.NameOf(t, letter)+": "+strings.Join(codes, " "))
		}
	}
	return nil
}
