// SPDX-License-Identifier: MIT

package publish

import (
	"encoding/xml"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"
)

func saltpanLane(t *testing.T) Site {
	t.Helper()
	b := ferryBrown(t)
	s := Site{Title: "Saltpan Lane Brewing Circle", By: "A. Quillmark", URL: "https://example.org/beer",
		Styles: []SiteStyle{{Slug: "oat-brown-ale", Style: b.Style}}}
	for i, r := range b.Versions {
		one := b
		one.Input.Recipe, one.Versions = r, b.Versions[:i+1]
		s.Beers = append(s.Beers, SiteBeer{Slug: "ferry-brown-" + string(rune('1'+i)), Updated: time.Date(2026, 10, 1+i, 12, 0, 0, 0, time.UTC), Bundle: one})
	}
	return s
}

// A site published again changes only what changed, and keeps what it didn't make.
func TestSiteIsPublishedAgain(t *testing.T) {
	folder := t.TempDir()
	own := filepath.Join(folder, "own.html")
	if err := os.WriteFile(own, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	s := saltpanLane(t)
	publish := func() Written {
		t.Helper()
		files, err := s.Files(Engine{Support: "// none"})
		if err != nil {
			t.Fatal(err)
		}
		w, err := Write(folder, files)
		if err != nil {
			t.Fatal(err)
		}
		return w
	}
	if w := publish(); w.New != 7 || w.Same != 0 {
		t.Errorf("first: %+v", w)
	}
	if w := publish(); w.Same != 7 || w.New+w.Changed+w.Removed != 0 {
		t.Errorf("again: %+v", w)
	}
	changed := *s.Beers[1].Input.Recipe
	changed.Note = "A note."
	s.Beers[1].Input.Recipe = &changed
	if w := publish(); w.Changed != 2 || w.Same != 5 { // the page, and the words of the index
		t.Errorf("after a note: %+v", w)
	}
	s.Beers = s.Beers[1:]
	if w := publish(); w.Removed != 1 || w.Gone[0] != "beers/ferry-brown-1/index.html" {
		t.Errorf("without the first beer: %+v", w)
	}
	if _, err := os.Stat(filepath.Join(folder, "beers/ferry-brown-1/index.html")); !os.IsNotExist(err) {
		t.Errorf("the first beer is still there: %v", err)
	}
	if text, err := os.ReadFile(own); err != nil || string(text) != "mine" {
		t.Errorf("own.html: %q, %v", text, err)
	}
}

func TestSiteOverwritesNothingOfOthers(t *testing.T) {
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "index.html"), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Write(folder, map[string][]byte{"index.html": []byte("gyle's")}); err == nil {
		t.Error("somebody's index.html was overwritten")
	}
	for _, slug := range []string{"", "../up", "a/b", "Ä"} {
		s := Site{Beers: []SiteBeer{{Slug: slug, Bundle: ferryBrown(t)}}}
		if _, err := s.Files(Engine{}); err == nil {
			t.Errorf("the slug %q was published", slug)
		}
	}
}

// Every link of a site leads to one of its files.
func TestSiteLinks(t *testing.T) {
	files, err := saltpanLane(t).Files(Engine{Support: "// none"})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"index.html", "styles/oat-brown-ale/index.html"} {
		links := strings.Split(string(files[name]), `href="`)[1:]
		if len(links) < 4 {
			t.Errorf("%s has %d links", name, len(links))
		}
		for _, link := range links {
			link, _, _ = strings.Cut(link, `"`)
			if target := filepath.Join(filepath.Dir(name), link); files[target] == nil {
				t.Errorf("%s links to %s, which is not there", name, target)
			}
		}
	}
	var feed atomFeed
	if err := xml.Unmarshal(files["feed.xml"], &feed); err != nil {
		t.Fatal(err)
	}
	if len(feed.Entry) != 4 || feed.Entry[0].Title != "Ferry Brown 4" || feed.Updated != "2026-10-04T12:00:00Z" {
		t.Errorf("feed: %+v", feed)
	}
}

// Every language says everything.
func TestLanguagesAreComplete(t *testing.T) {
	for code, words := range Languages {
		v := reflect.ValueOf(*words)
		for i := range v.NumField() {
			if name := v.Type().Field(i).Name; v.Field(i).String() == "" && name != "Ready" {
				t.Errorf("%s has no %s", code, name)
			}
		}
	}
}
