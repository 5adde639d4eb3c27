// SPDX-License-Identifier: MIT

package main

import (
	"path/filepath"
	"testing"
	"time"

	"gyle/internal/store"
)

// A recipe of a book is dated by its revision, so that a site published again
// on another day says the same.
func TestChangedIsWhenTheRevisionWasWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "dated.gylebook")
	book, err := store.Open(path, store.Options{Create: true, Check: checkDocument})
	if err != nil {
		t.Fatal(err)
	}
	if err := fillWithExamples(t.Context(), book); err != nil {
		t.Fatal(err)
	}
	written, err := book.Get(t.Context(), "recipe", "ferry-brown-4")
	if err != nil {
		t.Fatal(err)
	}
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	l := &library{path: path}
	defer l.close()
	at, err := changed(l, "ferry-brown-4")
	if err != nil || !at.Equal(written.At.Truncate(time.Second)) || at.IsZero() {
		t.Errorf("changed at %v, written at %v: %v", at, written.At, err)
	}
	if _, err := changed(l, "none"); err == nil {
		t.Error("a recipe that isn't there was changed some time")
	}
}
