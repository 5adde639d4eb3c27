// SPDX-License-Identifier: MIT

// Package formulas reads the comments of the chapters in science/ into a
// catalogue: for each formula its text, its source, the range in which it is
// valid, how it was checked and how well it is known. The reference
// docs/formulas.md and the pages that answer "why this number?" are made from
// that catalogue, so they can't disagree with the code.
//
// It reads Go files, it doesn't run them. The program itself does not import
// it: it uses the generated file science/catalogue.go. The generator is
// internal/formulas/gen; `go generate ./...` runs it.
package formulas
