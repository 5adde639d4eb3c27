// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"gyle/gyle"
	"gyle/internal/document"
)

// tableBody is the form into which the table of a logger is pasted, as it was
// sent, with what is asked about it.
type tableBody struct {
	Text, With string
	Said       string // what became of the last one
	Asked      string // what the table doesn't say
	AskDates   bool
	Dates      string
	Columns    []tableColumn
	LeaveOut   bool
	Faults     []tableFault
}

// tableColumn is a column that may be asked for.
type tableColumn struct {
	Name, Head, Example string
	Means               []option
}

// tableFault is a line that can't be read, where it stands.
type tableFault struct{ Where, Text, Line, Hint string }

// seriesLine is a series that the log holds.
type seriesLine struct {
	ID     gyle.ID
	Says   string
	With   string
	Struck bool
}

func (b *cellarBody) series(g *gyle.Gyle) {
	for _, f := range g.Log.Current() {
		if s := f.Entry.Series; s != nil {
			b.Series = append(b.Series, seriesLine{f.Entry.ID, f.Entry.Words(), s.With, f.Struck})
		}
	}
}

// loggerFile is what a form says about its table.
func loggerFile(r *http.Request) gyle.LoggerFile {
	f := gyle.LoggerFile{Dates: r.PostFormValue("dates"), With: strings.TrimSpace(r.PostFormValue("with")), LeaveOut: r.PostFormValue("leave-out") != ""}
	for i := 0; ; i++ {
		means, asked := r.PostForm[fmt.Sprintf("c%d", i)]
		if !asked {
			return f
		}
		f.Columns = append(f.Columns, means[0])
	}
}

// takeTable reads the table of a logger into the log: all that is new in it, or
// nothing.
func (s *Server) takeTable(w http.ResponseWriter, r *http.Request) error {
	g, f, _, err := s.readLogForm(r)
	if err != nil {
		return err
	}
	file := loggerFile(r)
	table := tableBody{Text: r.PostFormValue("table"), With: file.With, LeaveOut: file.LeaveOut, Dates: file.Dates}
	again := func(status int) error { return s.showCellar(w, r, status, url.Values{}, nil, table) }
	read, err := g.ReadLogger(table.Text, file)
	if err != nil {
		if !table.ask(err, file) {
			return err
		}
		return again(http.StatusUnprocessableEntity)
	}
	if len(read.Series) == 0 {
		table.Said = fmt.Sprintf("The log has all %d lines of this table already: nothing was added.", read.Rows)
		return again(http.StatusOK)
	}
	var entries []gyle.Entry
	for i := range read.Series {
		entries = append(entries, gyle.Entry{ID: numbered(f.id, i), Time: f.at, Who: f.who, Series: &read.Series[i]})
	}
	if n := len(read.LeftOut); n > 0 {
		const told = 5
		entries[0].Note = fmt.Sprintf("%d lines of the table couldn't be read: %s", n, strings.Join(read.LeftOut[:min(n, told)], "; "))
	}
	if err := AppendEntries(r.Context(), s.book, r.PathValue("slug"), entries...); err != nil {
		return err
	}
	return seeOther(w, r, f.back+"/cellar#tables")
}

// ask turns what is wrong with a table, or not said in it, into questions; not ok
// for trouble of another kind.
func (t *tableBody) ask(err error, file gyle.LoggerFile) bool {
	var question *gyle.LoggerQuestion
	var faults document.Faults
	switch {
	case errors.As(err, &question):
		t.Asked, t.AskDates = capital(question.Msg)+".", question.Dates
		for i, c := range question.Columns {
			column := tableColumn{Name: fmt.Sprintf("c%d", i), Head: c.Head, Example: c.Example}
			column.Means = append(column.Means, option{Value: "", Name: "choose", Chosen: c.Means == ""})
			for _, means := range gyle.LoggerMeanings() {
				name := means
				switch means {
				case gyle.LoggerUnread:
					name = "leave it out"
				case gyle.LoggerDays, gyle.LoggerHours, gyle.LoggerMinutes, gyle.LoggerSeconds:
					name += " since pitching"
				}
				column.Means = append(column.Means, option{Value: means, Name: name, Chosen: means == c.Means})
			}
			t.Columns = append(t.Columns, column)
		}
	case errors.As(err, &faults):
		for _, f := range faults {
			fault := tableFault{Where: fmt.Sprintf("line %d, column %d", f.Line, f.Col), Text: f.Msg, Hint: f.Hint}
			if f.Line == 0 {
				fault.Where = "the columns"
			}
			if n := len(f.Context); n > 0 {
				fault.Line = f.Context[n-1]
			}
			t.Faults = append(t.Faults, fault)
		}
		for i, means := range file.Columns {
			t.Columns = append(t.Columns, tableColumn{Name: fmt.Sprintf("c%d", i), Means: []option{{Value: means, Name: means, Chosen: true}}})
		}
	default:
		return false
	}
	return true
}

// seriesText sends the rows of a series as a table, as they were read.
func (s *Server) seriesText(w http.ResponseWriter, r *http.Request) error {
	g, _, err := s.gyle(r.Context(), r.PathValue("slug"))
	if err != nil {
		return err
	}
	for _, e := range g.Log {
		if string(e.ID) != r.PathValue("id") || e.Series == nil {
			continue
		}
		heads := make([]string, len(e.Series.Columns))
		for i, c := range e.Series.Columns {
			heads[i] = c.String()
		}
		var b strings.Builder
		b.WriteString("time;" + strings.Join(heads, ";") + "\n")
		for line := range strings.SplitSeq(e.Series.Rows, "\n") {
			b.WriteString(strings.ReplaceAll(line, " ", ";") + "\n")
		}
		w.Header().Set("Content-Type", "text/csv; charset=utf-8")
		w.Header().Set("Content-Disposition", `attachment; filename="`+r.PathValue("slug")+`-readings.csv"`)
		_, err := w.Write([]byte(b.String()))
		return err
	}
	return ErrNotFound
}
