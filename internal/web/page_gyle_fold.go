// SPDX-License-Identifier: MIT

package web

import (
	"net/url"
	"slices"

	"gyle/gyle"
	"gyle/quantity"
)

// A logger may leave thousands of readings. The sheet shows the first and the
// last of a long run and says how many lie between; a link shows some of those.

// foldedLines stand for readings of a run that aren't shown.
type foldedLines struct {
	Count int
	Until string // when the last of them was read
	Show  string // where to see the first of them
}

const (
	longRun   = 120 // readings in a row, of which some are left out
	runEnds   = 20  // shown at either end
	runOpened = 200 // shown where the run was opened
)

// logLines are the events of the log in their order, long runs of readings
// folded. Those that a task names, and the run that is opened at one of its
// entries, are shown.
func logLines(g *gyle.Gyle, pr quantity.Printer, named map[gyle.ID]bool, opened gyle.ID) (lines []logLine) {
	facts := g.Log.Current()
	for from := 0; from < len(facts); {
		to := from
		for to < len(facts) && isPlain(facts[to]) && !named[facts[to].Entry.ID] {
			to++
		}
		if to-from <= longRun {
			to = max(to, from+1)
			for ; from < to; from++ {
				lines = append(lines, logLineOf(g, facts[from], pr))
			}
			continue
		}
		lines = append(lines, runLines(g, facts[from:to], pr, opened)...)
		from = to
	}
	return lines
}

// isPlain reports whether an event is a reading and nothing else.
func isPlain(f gyle.Fact) bool {
	return f.Entry.Reading != nil && f.Entry.Note == "" && !f.Struck && !f.Corrected()
}

// runLines are the lines of a long run.
func runLines(g *gyle.Gyle, run []gyle.Fact, pr quantity.Printer, opened gyle.ID) (lines []logLine) {
	shown := make([]bool, len(run))
	show := func(from, count int) {
		for i := max(from, 0); i < min(from+count, len(run)); i++ {
			shown[i] = true
		}
	}
	show(0, runEnds)
	show(len(run)-runEnds, runEnds)
	if at := slices.IndexFunc(run, func(f gyle.Fact) bool { return f.Entry.ID == opened }); at >= 0 {
		show(at, runOpened)
	}
	for i := 0; i < len(run); i++ {
		if shown[i] {
			lines = append(lines, logLineOf(g, run[i], pr))
			continue
		}
		first := i
		for !shown[i+1] { // the last of a run is shown
			i++
		}
		id := run[first].Entry.ID
		l := logLineOf(g, run[first], pr)
		l.Folded = &foldedLines{
			Count: i + 1 - first, Until: run[i].Entry.When().Format("2 Jan 15:04"),
			Show: "?open=" + url.QueryEscape(string(id)) + "#e-" + string(id),
		}
		lines = append(lines, l)
	}
	return lines
}

// logTail are the last lines of the log, the last one first.
func logTail(g *gyle.Gyle, pr quantity.Printer, count int) (lines []logLine) {
	facts := g.Log.Current()
	for i := len(facts) - 1; i >= 0 && len(lines) < count; i-- {
		lines = append(lines, logLineOf(g, facts[i], pr))
	}
	return lines
}
