// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// A house, a store and a water are begun by their name and lead to their form.
func TestBeginByName(t *testing.T) {
	book := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: book}))
	for _, kind := range []string{"brewhouse", "stock", "water"} {
		want(t, c.get("/new/"+kind), http.StatusOK, "What you call it", "/new/"+kind+"?as=text")
		want(t, c.get("/new/"+kind+"?as=text"), http.StatusOK, "gyle: "+kind+"/1")
		want(t, c.post("/new/"+kind, url.Values{"begin": {"yes"}, "name": {"  "}}), http.StatusUnprocessableEntity, "needs a name")
		answer := c.post("/new/"+kind, url.Values{"begin": {"yes"}, "name": {`Quay: "No. 2" #3`}})
		want(t, answer, http.StatusSeeOther)
		to := answer.Header().Get("Location")
		if !strings.HasPrefix(to, "/"+kind+"/quay") || !strings.HasSuffix(to, "/edit") {
			t.Fatalf("%s leads to %s", kind, to)
		}
		want(t, c.get(to), http.StatusOK, `value="Quay: &#34;No. 2&#34; #3"`)
	}
}
