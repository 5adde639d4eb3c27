// SPDX-License-Identifier: MIT

package web

import "net/http"

// routes lists every address that is answered. A pattern with a literal kind
// ("GET /recipe/{slug}") goes before the one for any kind.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	page := func(pattern string, h handle) { mux.Handle(pattern, s.answer(h)) }

	page("GET /{$}", s.home)
	page("GET /first", s.first)
	page("POST /first/demo", s.firstDemo)
	page("GET /find", s.find)
	page("GET /why", s.whyAll)
	page("GET /why/{name}", s.why)
	page("GET /settings", s.settings)
	page("POST /settings", s.saveSettings)

	page("GET /plan", s.planPage)
	page("GET /plan.json", s.planJSON)
	page("GET /plan/head.css", s.planHead)
	page("GET /plan/why/{name}", s.planWhy)

	page("GET /pair", s.pair)
	page("POST /pair", s.savePair)
	page("GET /devices", s.deviceList)
	page("POST /devices/{id}/unpair", s.unpair)

	page("GET /{kind}", s.list)
	page("GET /new/{kind}", s.newText)
	page("POST /new/{kind}", s.saveNew)
	page("POST /check/{kind}", s.check)
	page("GET /{kind}/{slug}", s.document)
	page("GET /{kind}/{slug}/text", s.editText)
	page("POST /{kind}/{slug}/text", s.saveText)
	page("GET /{kind}/{slug}/fields", s.editFields)
	page("POST /{kind}/{slug}/fields", s.saveFields)
	page("POST /{kind}/{slug}/fields/check", s.checkFields)
	page("GET /{kind}/{slug}/history", s.history)
	page("GET /{kind}/{slug}/at/{revision}", s.revision)
	page("POST /{kind}/{slug}/delete", s.delete)
	page("POST /{kind}/{slug}/undelete", s.undelete)

	mux.Handle("GET /static/{file}", newStatic())
	page("/", func(http.ResponseWriter, *http.Request) error { return ErrNotFound })
	return mux
}
