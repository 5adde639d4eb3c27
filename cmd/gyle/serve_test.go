// SPDX-License-Identifier: MIT

package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net/http"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"gyle/internal/store"
)

// terminal is a buffer that a command writes to while the test reads it.
type terminal struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (b *terminal) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.text.Write(p)
}

func (b *terminal) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.text.String()
}

// served starts gyle serve and returns its address and what ends it.
func served(t testing.TB, c serveCommand) (address string, end func()) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	var out terminal
	ended := make(chan error, 1)
	go func() { ended <- c.serve(ctx, &streams{strings.NewReader(""), &out, io.Discard}) }()
	for {
		select {
		case err := <-ended:
			t.Fatalf("serve ended: %v", err)
		case <-time.After(10 * time.Millisecond):
		}
		if found := regexp.MustCompile(`http://localhost:\d+/`).FindString(out.String()); found != "" {
			return found, func() {
				cancel()
				if err := <-ended; err != nil {
					t.Errorf("serve ended with %v", err)
				}
			}
		}
	}
}

func fetch(t *testing.T, address string) (int, string) {
	t.Helper()
	answer, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, string(text)
}

// The book of the example answers with all its pages, keeps what is saved, and
// has it still when it is opened again.
func TestServeDemo(t *testing.T) {
	command := serveCommand{Book: filepath.Join(t.TempDir(), "demo.gylebook"), Demo: true}
	address, end := served(t, command)
	for _, path := range []string{"", "recipe", "recipe/ferry-brown-4", "style/oat-brown-ale", "brewhouse/garage", "stock/garage-shed", "water/saltpan-lane", "find?words=currant"} {
		if status, text := fetch(t, address+path); status != http.StatusOK || !strings.Contains(text, "Saltpan Lane Brewing Circle") {
			t.Errorf("/%s: status %d", path, status)
		}
	}
	answer, err := http.PostForm(address+"new/water", url.Values{"base": {"0"}, "author": {"A. Quillmark"},
		"text": {"gyle: water/1\nname: Rain\nprinted: {Ca: 2 mg/L}\n"}})
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if answer.StatusCode != http.StatusOK || answer.Request.URL.Path != "/water/rain" {
		t.Errorf("saving answered %d at %s", answer.StatusCode, answer.Request.URL)
	}
	end()

	address, end = served(t, command)
	defer end()
	if status, _ := fetch(t, address+"water/rain"); status != http.StatusOK {
		t.Errorf("after opening again: status %d", status)
	}
}

// What the store refuses comes to the reader as a page and not as a breakdown.
func TestServeTellsRefusals(t *testing.T) {
	address, end := served(t, serveCommand{Book: filepath.Join(t.TempDir(), "book.gylebook")})
	defer end()
	post := func(path string, form url.Values) (int, string) {
		answer, err := http.PostForm(address+path, form)
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		text, err := io.ReadAll(answer.Body)
		if err != nil {
			t.Fatal(err)
		}
		return answer.StatusCode, string(text)
	}
	rain := "gyle: water/1\nname: Rain\nprinted: {Ca: 2 mg/L}\n"
	post("new/water", url.Values{"base": {"0"}, "text": {rain}})
	post("water/rain/text", url.Values{"base": {"1"}, "text": {strings.Replace(rain, "2 mg", "3 mg", 1)}})
	for name, c := range map[string]struct {
		path   string
		form   url.Values
		status int
		word   string
	}{
		"a stale save":     {"water/rain/text", url.Values{"base": {"1"}, "text": {strings.Replace(rain, "2 mg", "4 mg", 1)}}, http.StatusConflict, "Two hands"},
		"a faulty text":    {"water/rain/text", url.Values{"base": {"2"}, "text": {"gyle: water/1\nnaem: Rain\n"}}, http.StatusUnprocessableEntity, "did you mean"},
		"a stale deletion": {"water/rain/delete", url.Values{"base": {"1"}}, http.StatusUnprocessableEntity, "in the meantime"},
		"no such document": {"water/snow/text", url.Values{"base": {"1"}, "text": {rain}}, http.StatusNotFound, "No such page"},
		"a reason too long": {"water/rain/text", url.Values{"base": {"2"}, "text": {rain}, "why": {strings.Repeat("long ", 4000)}},
			http.StatusUnprocessableEntity, "reason"},
	} {
		t.Run(name, func(t *testing.T) {
			if status, text := post(c.path, c.form); status != c.status || !strings.Contains(text, c.word) {
				t.Errorf("status %d, want %d and %q", status, c.status, c.word)
			}
		})
	}
}

// A demonstration book of an earlier day gets what the example gained since;
// what was changed or taken out there stays so.
func TestOldDemoBookGetsNewExamples(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	ctx := t.Context()
	c := &serveCommand{Demo: true}
	book, err := c.openBook(ctx)
	if err != nil {
		t.Fatal(err)
	}
	mine, err := book.Get(ctx, "water", "saltpan-lane")
	if err != nil {
		t.Fatal(err)
	}
	changed := strings.Replace(mine.Text, "Saltpan Lane supply", "My water", 1)
	if _, err := book.Put(ctx, store.Draft{Kind: "water", Slug: "saltpan-lane", Text: changed, Base: mine.Number, Author: "me", Why: "mine"}); err != nil {
		t.Fatal(err)
	}
	if _, err := book.Delete(ctx, store.Removal{Kind: "recipe", Slug: "ferry-brown-1", Base: 1, Author: "me", Anyway: true}); err != nil {
		t.Fatal(err)
	}
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	if book, err = c.openBook(ctx); err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if again, err := book.Get(ctx, "water", "saltpan-lane"); err != nil || again.Text != changed {
		t.Errorf("the water is %q, %v", again.Text, err)
	}
	if _, err := book.Get(ctx, "recipe", "ferry-brown-1"); !errors.Is(err, store.ErrDeleted) {
		t.Errorf("the recipe that was taken out: %v", err)
	}
}
