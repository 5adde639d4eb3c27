// SPDX-License-Identifier: MIT

// Package store keeps a gyle book: one file (*.gylebook) with every style,
// recipe, brewhouse, stock, water, gyle and tasting a brewer has written, each
// with all its earlier revisions, and the logs of the brew days.
//
// It promises that nothing written is lost. A save that was acknowledged
// survives a crash of the program and of the machine. A save that started from
// an old revision is refused and shows the current one. A deletion is a revision
// too and can be taken back. A log only grows; a wrong entry is put right by a
// later entry that names it.
//
// The package knows documents as kind, slug, title and text, and leaves their
// meaning to the [Checker] that the caller hands in. The book is an SQLite file
// in write-ahead mode: two programs on one machine may share it, a network drive
// may not. [Book.Export] writes the same content as plain text for any other
// tool; [Book.Import] reads it back.
package store
