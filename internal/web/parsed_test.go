// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"reflect"
	"sync"
	"testing"

	"gyle/brewhouse"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

func TestCacheDropsWhatWasOutOfUseForLongest(t *testing.T) {
	c := newCache[int, string](2)
	c.put(1, "one")
	c.put(2, "two")
	c.get(1)
	c.put(3, "three")
	c.put(3, "another three")
	for key, want := range map[int]string{1: "one", 2: "", 3: "three"} {
		if got, _ := c.get(key); got != want {
			t.Errorf("%d is %q, want %q", key, got, want)
		}
	}
}

// Pages share parsed documents: none may change one, also when many are drawn
// at once.
func TestPagesLeaveParsedDocumentsAlone(t *testing.T) {
	book := fullBook(t)
	book.settings[recipeHouseSetting], book.settings[recipeStockSetting], book.settings[recipeWaterSetting] = "garage", "garage-shed", "saltpan-lane"
	s := newTestServer(t, Options{Book: book})
	var all sync.WaitGroup
	for range 4 {
		for _, path := range []string{
			"/recipe/ferry-brown-4", "/recipe/ferry-brown-4/edit", "/recipe/ferry-brown-3.json", "/style/oat-brown-ale?recipe=ferry-brown-2",
			"/brewhouse/garage", "/stock/garage-shed", "/water/saltpan-lane",
			"/plan?recipe=ferry-brown-4&house=boathouse&stock=boathouse-shed&water=saltpan-lane&swap=challenger%3Dnorthdown",
			"/compare?recipe=ferry-brown-4&house=garage&house=boathouse&stock=garage-shed&stock=boathouse-shed&water=saltpan-lane",
		} {
			all.Go(func() {
				w, r := httptest.NewRecorder(), httptest.NewRequest(http.MethodGet, "http://localhost"+path, nil)
				r.RemoteAddr = "127.0.0.1:4000"
				if s.ServeHTTP(w, r); w.Code != http.StatusOK {
					t.Errorf("%s answered %d", path, w.Code)
				}
			})
		}
	}
	all.Wait()
	if s.parsed.recent.Len() < 5 {
		t.Fatalf("only %d documents were kept", s.parsed.recent.Len())
	}
	for key := range s.parsed.entries {
		kept, _ := s.parsed.get(key)
		if fresh, err := parseAgain(kept, key); err != nil || !reflect.DeepEqual(kept, fresh) {
			t.Errorf("%s was changed after it was parsed (%v)", key.name, err)
		}
	}
}

func parseAgain(kept any, key parsedKey) (any, error) {
	text := []byte(key.text)
	switch kept.(type) {
	case *recipe.Recipe:
		return recipe.Parse(key.name, text)
	case *style.Style:
		return style.Parse(key.name, text)
	case *brewhouse.House:
		return brewhouse.Parse(key.name, text)
	case *stock.Stock:
		return stock.Parse(key.name, text)
	case *water.Water:
		return water.Parse(key.name, text)
	}
	return nil, fmt.Errorf("no kind for a %T", kept)
}
