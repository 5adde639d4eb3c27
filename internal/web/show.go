// SPDX-License-Identifier: MIT

package web

import (
	"bytes"
	"compress/gzip"
	"embed"
	"fmt"
	"html/template"
	"net/http"
	"path"
	"strings"
	"sync"

	"gyle/quantity"
)

//go:embed templates
var templateFiles embed.FS

// Sheet is a page before it is drawn.
type Sheet struct {
	Title   string // heading and name of the tab
	Chapter string // kind or word that the contents list marks: "recipe", "find"
	Folio   string // page number at the foot: "revision 4"
	Notice  *Notice
	Path    string // of the document, where parts of the page post to it
	Body    any    // what the page's template draws, as .Body
}

// Notice is a line above a page that says what was just done, with a way back.
type Notice struct {
	Text         string
	Undo         string // where the button posts to, or empty
	UndoRevision int
}

// frame is what a template gets: the sheet and what stands around it.
type frame struct {
	Sheet
	Book     string
	Chapters []chapter
	Print    quantity.Printer
	Hand     hand
	Near     bool // the reader sits at this machine
	LAN      bool
}

// pages are the templates by the name of their file: "page_list".
type pages map[string]*template.Template

func readPages() (pages, error) {
	base, err := template.New("").Funcs(helpers).ParseFS(templateFiles, "templates/layout.html", "templates/parts*.html")
	if err != nil {
		return nil, fmt.Errorf("read templates: %w", err)
	}
	files, err := templateFiles.ReadDir("templates")
	if err != nil {
		return nil, err
	}
	p := pages{}
	for _, f := range files {
		if !strings.HasPrefix(f.Name(), "page_") {
			continue
		}
		t, err := template.Must(base.Clone()).ParseFS(templateFiles, "templates/"+f.Name())
		if err != nil {
			return nil, fmt.Errorf("read templates: %w", err)
		}
		p[strings.TrimSuffix(f.Name(), path.Ext(f.Name()))] = t
	}
	return p, nil
}

// show draws a whole page and sends it. Nothing is sent when drawing fails.
func (s *Server) show(w http.ResponseWriter, r *http.Request, status int, page string, sheet Sheet) error {
	return s.draw(w, r, status, page, "layout", sheet)
}

// fragment draws one block of a page, for a form that is recalculated while
// somebody types.
func (s *Server) fragment(w http.ResponseWriter, r *http.Request, page, block string, body any) error {
	return s.draw(w, r, http.StatusOK, page, block, Sheet{Body: body})
}

func (s *Server) draw(w http.ResponseWriter, r *http.Request, status int, page, block string, sheet Sheet) error {
	t := s.pages[page]
	if t == nil {
		return fmt.Errorf("show %s: there is no such template", page)
	}
	h := handOf(r)
	var text bytes.Buffer
	err := t.ExecuteTemplate(&text, block, frame{
		Sheet: sheet, Book: s.bookName(r.Context()), Chapters: s.chapters, Print: h.printer(), Hand: h,
		Near: atThisMachine(r), LAN: s.options.LAN,
	})
	if err != nil {
		return fmt.Errorf("show %s: %w", page, err)
	}
	send(w, r, status, text.Bytes())
	return nil
}

// send writes a page, compressed where the browser takes it. Browsers ask
// again each time, but may keep what was typed into a form for going back.
func send(w http.ResponseWriter, r *http.Request, status int, text []byte) {
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	if h.Get("Cache-Control") == "" {
		h.Set("Cache-Control", "private, no-cache")
	}
	h.Set("Vary", "Accept-Encoding, Cookie")
	if !acceptsGzip(r) || len(text) < 1024 {
		w.WriteHeader(status)
		w.Write(text)
		return
	}
	h.Set("Content-Encoding", "gzip")
	w.WriteHeader(status)
	z := packers.Get().(*gzip.Writer)
	defer packers.Put(z)
	z.Reset(w)
	z.Write(text)
	z.Close()
}

// packers are used again: each takes nearly a megabyte to make.
var packers = sync.Pool{New: func() any {
	z, _ := gzip.NewWriterLevel(nil, packLevel) // fails only for levels that don't exist
	return z
}}

// packLevel spends a third of the usual time for a tenth more bytes, which is
// right for a server one cable away.
const packLevel = 3

func acceptsGzip(r *http.Request) bool {
	return strings.Contains(r.Header.Get("Accept-Encoding"), "gzip")
}
