// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"net/url"
	"strings"

	"gyle/quantity"
)

// hand is how one reader likes the book: units, the sign between whole and
// tenth, and the name that goes under what they write. Each browser keeps its
// own.
type hand struct {
	US     bool
	Comma  bool
	Author string
}

const handCookie = "gyle-hand"

// handOf reads the hand of a request; without one it is metric, with a point.
func handOf(r *http.Request) (h hand) {
	cookie, err := r.Cookie(handCookie)
	if err != nil {
		return h
	}
	values, err := url.ParseQuery(cookie.Value)
	if err != nil {
		return h
	}
	return hand{US: values.Get("units") == "us", Comma: values.Get("decimal") == "comma", Author: values.Get("author")}
}

func (h hand) printer() quantity.Printer {
	p := quantity.Printer{DecimalComma: h.Comma}
	if h.US {
		p.System = quantity.USCustomary
	}
	return p
}

func (h hand) cookie() *http.Cookie {
	values := url.Values{"author": {h.Author}}
	if h.US {
		values.Set("units", "us")
	}
	if h.Comma {
		values.Set("decimal", "comma")
	}
	return &http.Cookie{
		Name: handCookie, Value: values.Encode(), Path: "/", MaxAge: int(pairedFor.Seconds()),
		HttpOnly: true, SameSite: http.SameSiteLaxMode,
	}
}

// maxAuthor is the longest name under a revision, in letters.
const maxAuthor = 80

// shortName is a name as it may stand under a revision.
func shortName(name string) string {
	letters := []rune(strings.Join(strings.Fields(name), " "))
	if len(letters) > maxAuthor {
		letters = letters[:maxAuthor]
	}
	return string(letters)
}
