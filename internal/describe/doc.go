// SPDX-License-Identifier: MIT

// Package describe draws JSON Schemas from Go types: their fields and tags give
// the form, their comments the descriptions. It knows the three ways in which
// the program writes: documents (tags "gyle"), plans (every measure with its
// unit) and plain JSON (tags "json").
//
// A type that writes itself as JSON says by a method JSONForm what it writes.
// The package is used by tests and the generator of the folder schema.
package describe
