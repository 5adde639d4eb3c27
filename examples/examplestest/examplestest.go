// SPDX-License-Identifier: MIT

// Package examplestest lets the tests of other packages read the documents of
// the demonstration. It is no part of the program.
package examplestest

import (
	"io/fs"

	"gyle/examples"
)

// T is what tests, benchmarks and drawn tests have in common.
type T interface {
	Helper()
	Fatal(args ...any)
}

// Load reads the document of a name, "garage", as its package parses it. The
// test ends where that fails.
func Load[D any](t T, name string, parse func(file string, text []byte) (D, error)) D {
	t.Helper()
	text, err := fs.ReadFile(examples.Documents(), name+".yaml")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}
