// SPDX-License-Identifier: MIT

package web

import (
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// maxBody is the longest request: a document of 1 MiB, three times as long
// when a form encodes it, and what goes with it.
const maxBody = 4 << 20

// policy lets a page load what this server sent and nothing else.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; " +
	"connect-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// guard stands before all routes. It answers only under the machine's own
// names, takes no form from another site, and lets only paired devices in.
func (s *Server) guard(next http.Handler) http.Handler {
	crossOrigin := http.NewCrossOriginProtection()
	crossOrigin.SetDenyHandler(s.answer(func(http.ResponseWriter, *http.Request) error { return errForeign }))
	next = crossOrigin.Handler(s.pairedOnly(next))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "same-origin") // no-referrer would make the Origin of our own forms "null"
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if !s.ownHost(r) {
			http.Error(w, "This gyle book doesn't answer under that name.", http.StatusMisdirectedRequest)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, maxBody)
		next.ServeHTTP(w, r)
	})
}

// ownHost reports whether the request names this machine. A foreign name that
// leads here is a page trying to reach the book behind the reader's back.
func (s *Server) ownHost(r *http.Request) bool {
	name := hostName(r.Host)
	if name == "localhost" || slices.ContainsFunc(s.options.Names, func(own string) bool { return strings.EqualFold(own, name) }) {
		return true
	}
	asked, err := netip.ParseAddr(name)
	if err != nil {
		return false
	}
	local, _ := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	return local != nil && addressOf(local.String()) == asked.Unmap()
}

func hostName(host string) string {
	if name, _, err := net.SplitHostPort(host); err == nil {
		return strings.ToLower(name)
	}
	return strings.ToLower(strings.Trim(host, "[]"))
}

// addressOf is the address of "address:port", without its zone.
func addressOf(hostPort string) netip.Addr {
	a, err := netip.ParseAddrPort(hostPort)
	if err != nil {
		return netip.Addr{}
	}
	return a.Addr().Unmap().WithZone("")
}

// atThisMachine reports whether the request comes from this machine itself.
func atThisMachine(r *http.Request) bool { return addressOf(r.RemoteAddr).IsLoopback() }

// pairedOnly shows other devices nothing but the pairing page, the ballots and the
// pourer's sheet whose links they know, and what those pages are made of, until they are paired.
func (s *Server) pairedOnly(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		open := r.URL.Path == "/pair" || strings.HasPrefix(r.URL.Path, "/static/") || strings.HasPrefix(r.URL.Path, "/ballot/") || strings.HasPrefix(r.URL.Path, "/pourer/")
		switch {
		case atThisMachine(r), s.options.LAN && (open || s.devices.knows(r)):
			next.ServeHTTP(w, r)
		case s.options.LAN:
			http.Redirect(w, r, "/pair", http.StatusSeeOther)
		default:
			http.Error(w, "This gyle book answers only on its own machine.", http.StatusForbidden)
		}
	})
}
