// SPDX-License-Identifier: MIT

// Package examples holds one complete book: the oat brown ale of the Saltpan
// Lane Brewing Circle, a club that doesn't exist. Its style, the versions of
// its recipe, two houses, two sheds and a town's water show what each kind of
// document looks like. The guides, the tests and the first run read them.
package examples

import (
	"embed"
	"io/fs"
)

//go:embed *.yaml
var files embed.FS

// Documents is the folder of the documents; the name of a file without its
// ending is the name of the document in a book.
func Documents() fs.FS { return files }
