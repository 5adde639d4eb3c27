// SPDX-License-Identifier: MIT

// Package document reads and writes gyle documents: plain YAML files whose
// first key names their kind, as in "gyle: recipe/1".
//
// The reader is strict and patient. It collects every fault of a document and
// reports them in the order of the text, each with the line, a caret under the
// words in question and a hint what to write instead. The printer is
// canonical: what it prints reads back as the same values, and printing those
// gives the same text. It does not keep the comments of a file it has read; to
// change one value in a text that somebody keeps by hand, use [Splice].
//
// Text is taken as it stands: 1.050 and "1.050" are the same. Numbers with
// units are read by types that implement [encoding.TextUnmarshaler], as those
// of package quantity do. The package knows nothing of brewing; package recipe
// and its neighbours say which keys a document has.
//
// # Struct tags
//
// A field takes part when it carries the tag `gyle:"name,options"`. Embedded
// structs without a tag are inlined. The options are
//
//   - required: a document without the key has a fault; the key is always printed.
//   - flow: print on one line. A struct or map becomes {a: 1, b: 2}, a list of
//     texts [a, b], and each entry of a list of structs its own "- {a: 1}".
//   - keep: print the key even when its value is zero.
package document
