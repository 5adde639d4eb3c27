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
	page("GET /plan/cost.json", s.planCostJSON)
	page("GET /plan/why/{name}", s.planWhy)
	s.publishRoutes(page)
	page("GET /formulate", s.formulatePage)
	page("GET /formulate.json", s.formulateJSON)
	page("POST /formulate/take", s.takeFormula)
	page("GET /compare", s.comparePage)
	page("GET /compare.json", s.compareJSONPage)

	page("GET /pair", s.pair)
	page("POST /pair", s.savePair)
	page("GET /devices", s.deviceList)
	page("POST /devices/{id}/unpair", s.unpair)

	s.recipeRoutes(page)
	s.sheetRoutes(page)
	s.tastingRoutes(page)
	s.gyleRoutes(page)

	page("GET /{kind}", s.list)
	page("GET /new/{kind}", s.newText)
	page("POST /new/{kind}", s.saveNew)
	page("POST /check/{kind}", s.check)
	page("GET /{kind}/{slug}", s.document)
	for _, c := range s.chapters {
		s.documentRoutes(mux, c.Kind)
	}

	mux.Handle("GET /static/{file}", newStatic())
	page("/", func(http.ResponseWriter, *http.Request) error { return ErrNotFound })
	return mux
}

// documentRoutes lists what can be done with each document of a kind. The
// patterns name the kind, so that they leave other addresses of three parts
// alone.
func (s *Server) documentRoutes(mux *http.ServeMux, kind string) {
	page := func(method, path string, h handle) {
		mux.Handle(method+" /"+kind+"/{slug}/"+path, s.answer(func(w http.ResponseWriter, r *http.Request) error {
			r.SetPathValue("kind", kind)
			return h(w, r)
		}))
	}
	page("GET", "text", s.editText)
	page("POST", "text", s.saveText)
	page("GET", "history", s.history)
	page("GET", "at/{revision}", s.revision)
	page("POST", "delete", s.delete)
	page("POST", "undelete", s.undelete)
}

// recipeRoutes are the addresses of recipes that have pages of their own.
func (s *Server) recipeRoutes(page func(pattern string, h handle)) {
	page("GET /recipe/{slug}", s.recipePage)
	page("POST /recipe/{slug}/on", s.saveGround)
	page("GET /recipe/{slug}/edit", s.editRecipe)
	page("POST /recipe/{slug}/edit", s.saveRecipe)
	page("GET /recipe/{slug}/try", s.tryRecipe)
	page("POST /recipe/{slug}/try", s.retryRecipe)
	page("POST /recipe/{slug}/look", s.lookRecipe)
	page("POST /recipe/{slug}/next", s.saveNext)
	page("GET /new/recipe", s.newRecipe)
	page("POST /new/recipe/fields", s.saveNewRecipe)
	page("POST /new/recipe/look", s.lookRecipe)
}

// sheetRoutes are the sheets of styles, houses, stores and waters.
func (s *Server) sheetRoutes(page func(pattern string, h handle)) {
	page("GET /new/style", s.beginStyle)
	page("POST /new/style", s.saveNewStyle)
	page("GET /style/{slug}", s.style)
	page("GET /style/{slug}/edit", s.styleProse)
	page("POST /style/{slug}/edit", s.saveStyleProse)
	page("GET /style/{slug}/rules", s.styleRules)
	page("POST /style/{slug}/rules", s.saveStyleRules)
	page("GET /style/{slug}/rule", s.styleRule)
	page("POST /style/{slug}/rule", s.saveStyleRule)
	page("POST /style/{slug}/rule/words", s.styleRuleWords)
	page("GET /brewhouse/{slug}", s.house)
	page("GET /brewhouse/{slug}/edit", s.houseFields)
	page("POST /brewhouse/{slug}/edit", s.saveHouseFields)
	page("GET /stock/{slug}", s.stock)
	page("GET /stock/{slug}/edit", s.stockFields)
	page("POST /stock/{slug}/edit", s.saveStockFields)
	page("GET /stock/{slug}/lot", s.stockLot)
	page("POST /stock/{slug}/lot", s.saveStockLot)
	page("GET /water/{slug}", s.water)
	page("GET /water/{slug}/edit", s.waterFields)
	page("POST /water/{slug}/edit", s.saveWaterFields)
	page("POST /water/{slug}/meant", s.waterMeant)
	page("GET /water/{slug}/treat", s.treatPage)
	page("GET /water/{slug}/treat.json", s.treatJSON)
	page("POST /water/{slug}/treat/look", s.lookTreat)
}

// gyleRoutes are the addresses of a brewing.
func (s *Server) gyleRoutes(page func(pattern string, h handle)) {
	page("POST /brew", s.beginGyle)
	page("GET /calendar", s.calendarPage)
	page("GET /calendar.json", s.calendarJSON)
	page("GET /gyle/{slug}", s.gylePage)
	page("GET /gyle/worker.js", s.kettleWorker)
	page("GET /gyle/{slug}/kettle", s.kettlePage)
	page("GET /gyle/{slug}/kettle.json", s.kettleJSON)
	page("POST /gyle/{slug}/entries", s.takeEntries)
	page("GET /gyle/{slug}/brewed", s.brewedPage)
	s.cellarRoutes(page)
	page("GET /brewhouse/{slug}/learned", s.learnedPage)
	page("POST /gyle/{slug}/log", s.logGyle)
	page("POST /gyle/{slug}/take", s.takeTicket)
	page("POST /gyle/{slug}/strike", s.strikeGyle)
	page("POST /gyle/{slug}/correct", s.correctGyle)
}
