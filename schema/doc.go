// SPDX-License-Identifier: MIT

// Package schema holds a JSON Schema (draft 2020-12) for each kind of document
// and for the JSON that the program hands out, so that editors can complete and
// check documents and other programs can read what gyle writes.
//
// The files are drawn from the Go types and their comments by package
// internal/describe; a test of cmd/gyle finds one that isn't fresh. They say
// what form a document has; "gyle check" knows more: what fits together.
package schema

import (
	"embed"
	"slices"
	"strings"
)

//go:embed *.json
var files embed.FS

// Names returns the names of all schemas, sorted: the kinds of documents, and
// what the program hands out as JSON.
func Names() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		panic(err) // the folder is part of the program
	}
	var names []string
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ".json"))
	}
	slices.Sort(names)
	return names
}

// Text returns the schema of a name and whether there is one.
func Text(name string) ([]byte, bool) {
	if !slices.Contains(Names(), name) {
		return nil, false
	}
	text, err := files.ReadFile(name + ".json")
	return text, err == nil
}
