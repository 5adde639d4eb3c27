// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"strings"

	"gyle/chance"
	"gyle/formulate"
	"gyle/quantity"
)

// printFormulated prints how a recipe that was found stands, and the room it has.
func printFormulated(s *sheet, r *formulate.Result, pr quantity.Printer) {
	j := r.Judgement
	if r.Planned.Style != "" {
		j = r.Planned
	}
	if r.Outlook != nil {
		chance.Put(&j, r.Outlook)
	}
	printJudgement(s, j)
	s.heading("Room with all else free")
	s.row("", ">now", ">least", ">most", "")
	for _, room := range append(r.Aims, r.Rooms...) {
		name := room.Name
		if f := quantity.Figure(room.Name); room.Unit != "%" && room.Unit != "g/L" {
			name = f.Label()
		}
		least, most := room.Text(pr, room.Least), room.Text(pr, room.Most)
		if !room.Known() {
			least, most = "–", "–"
		}
		s.row(name, ">"+room.Text(pr, room.Now), ">"+least, ">"+most, room.At)
	}
	s.flush()
	s.heading("What was found")
	for _, text := range r.Says {
		s.note("·", text)
	}
	for _, text := range r.Hinders {
		s.note("✕", text)
	}
	for _, text := range r.Remedies {
		s.note("→", text)
	}
	for i := range r.GivenUp {
		s.note("!", "These can't hold together:")
		for _, one := range r.GivenUp[i].Clashes {
			s.note("    -", one.String())
		}
	}
	if len(r.NotUsed) > 0 {
		s.heading("Not used in solving")
	}
	for _, n := range r.NotUsed {
		s.note("·", n.Phrase+": "+strings.TrimPrefix(n.Reason, "can't be used in solving: "))
	}
}

// printSwap prints one swap: what it keeps, what it gives up, and the recipe.
func printSwap(s *sheet, one formulate.Swap) {
	if one.Conflict != nil {
		s.heading("%s for %s: no", one.To, one.From)
		fmt.Fprintln(s.w, one.Conflict.Error())
		return
	}
	s.heading("%s for %s, by its %s", one.To, one.From, one.Role)
	for _, k := range one.Kept {
		s.note("+", k)
	}
	for _, k := range one.Lost {
		s.note("−", k)
	}
	fmt.Fprintf(s.w, "\n%s", one.Text)
}
