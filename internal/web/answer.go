// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"net/http"
	"net/url"
	"runtime/debug"
	"strings"
	"unicode"
)

// A handle does the work of one address: it reads the request, does what is
// asked, and shows a page. It returns its error before anything is sent.
type handle func(w http.ResponseWriter, r *http.Request) error

// Errors that have a page of their own.
var (
	errForeign         = errors.New("the form came from another site")
	errWrongCode       = errors.New("the code isn't right, or was used already")
	errTooManyAttempts = errors.New("too many codes were tried; wait a minute")
	errNotHere         = errors.New("only at the machine that keeps the book")
)

// answer turns a handle into a handler that shows errors as pages.
func (s *Server) answer(h handle) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer s.recoverPage(w, r)
		if err := h(w, r); err != nil {
			s.fail(w, r, err)
		}
	})
}

func (s *Server) recoverPage(w http.ResponseWriter, r *http.Request) {
	x := recover()
	if x == nil {
		return
	}
	if x == http.ErrAbortHandler {
		panic(x)
	}
	s.log.Error("broke", "path", loggedPath(r), "error", x, "stack", string(debug.Stack()))
	s.failWith(w, r, http.StatusInternalServerError, broke)
}

// loggedPath is the path as a log may keep it: without what only the bearer of a
// ballot or of the pourer's sheet knows.
func loggedPath(r *http.Request) string {
	for _, secret := range []string{"/ballot/", "/pourer/"} {
		if strings.HasPrefix(r.URL.Path, secret) {
			return secret + "…"
		}
	}
	return r.URL.Path
}

// failure is what an error page says.
type failure struct{ Title, Text string }

var broke = failure{"Something broke", "Nothing was saved. Go back, your text is still in its form; then try again."}

// fail shows the page of an error. What the reader can't mend is logged and
// not shown.
func (s *Server) fail(w http.ResponseWriter, r *http.Request, err error) {
	status, f := failureOf(err)
	if status == http.StatusInternalServerError {
		s.log.Error("fail", "method", r.Method, "path", loggedPath(r), "error", err)
	}
	s.failWith(w, r, status, f)
}

func failureOf(err error) (int, failure) {
	var refused *RefusedError
	var tooLarge *http.MaxBytesError
	switch {
	case errors.Is(err, ErrNotFound):
		return http.StatusNotFound, failure{"No such page", "This book has no page of that name. It may have been written under another one: try Find."}
	case errors.As(err, &refused):
		return http.StatusUnprocessableEntity, failure{"Not done", refused.Reason}
	case errors.As(err, &tooLarge):
		return http.StatusRequestEntityTooLarge, failure{"Too long", "A document may have a million letters; this one has more. Nothing was saved."}
	case errors.Is(err, errForeign):
		return http.StatusForbidden, failure{"Not taken", "That form came from another site. Nothing was saved. Open the page here and try again."}
	case errors.Is(err, errNotHere):
		return http.StatusForbidden, failure{"Not from here", "Devices are paired and unpaired at the machine that keeps the book."}
	case errors.Is(err, errBadForm):
		return http.StatusBadRequest, failure{"Not understood", "The form was incomplete. Nothing was saved. Open the page again and try once more."}
	}
	return http.StatusInternalServerError, broke
}

func (s *Server) failWith(w http.ResponseWriter, r *http.Request, status int, f failure) {
	err := s.show(w, r, status, "page_failure", Sheet{Title: f.Title, Body: f})
	if err != nil {
		s.log.Error("show failure", "error", err)
		http.Error(w, f.Title+". "+f.Text, status)
	}
}

// errBadForm says that a form lacks what its page put there.
var errBadForm = errors.New("the form is incomplete")

// readForm reads the form of a request.
func readForm(r *http.Request) error {
	err := r.ParseForm()
	var tooLarge *http.MaxBytesError
	if err != nil && !errors.As(err, &tooLarge) {
		return errBadForm
	}
	for _, form := range []url.Values{r.Form, r.PostForm} {
		for _, values := range form {
			for i, v := range values {
				values[i] = typeable(v)
			}
		}
	}
	return err
}

// typeable leaves out of a text what no keyboard writes and no document can
// hold: control characters and broken letters.
func typeable(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\t' && r != '\n' && r != '\r' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, ""))
}

// seeOther sends the browser on after something was done, so that reloading
// doesn't do it again.
func seeOther(w http.ResponseWriter, r *http.Request, path string) error {
	http.Redirect(w, r, path, http.StatusSeeOther)
	return nil
}
