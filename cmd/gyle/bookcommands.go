// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"gyle/internal/store"
)

// exportCommand writes a book as plain text.
type exportCommand struct {
	Book   string `arg:"" help:"The gyle book, a file ending in .gylebook."`
	Folder string `arg:"" help:"Folder to write to; it is made, or must be empty."`
}

// Help is shown by "gyle export --help".
func (exportCommand) Help() string {
	return `Example:

  gyle export my.gylebook my-book

Each document becomes a file, recipe/ferry-brown-4.yaml; all revisions, the logs of the brew days and the settings become
tables that any spreadsheet opens. "gyle import" reads the folder back, so a book never locks anything in.`
}

// Run exports.
func (c *exportCommand) Run(s *streams) (err error) {
	book, err := openBook(c.Book)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	if isFile(c.Folder) {
		return notFolder(c.Folder)
	}
	if err := book.Export(context.Background(), c.Folder); err != nil {
		return plainly(c.Folder, err)
	}
	fmt.Fprintf(s.out, "%s is written to %s\n", c.Book, c.Folder)
	return nil
}

// backupCommand copies a book that may be in use.
type backupCommand struct {
	Book string `arg:"" help:"The gyle book, a file ending in .gylebook."`
	File string `arg:"" help:"Where the copy goes; an older copy there is replaced."`
}

// Help is shown by "gyle backup --help".
func (backupCommand) Help() string {
	return `Example:

  gyle backup my.gylebook /media/stick/my-2026-11-25.gylebook

The copy is checked before it gets its name. The pages may stay open meanwhile. To go back to a copy, open it as any book.`
}

// Run backs up.
func (c *backupCommand) Run(s *streams) (err error) {
	book, err := openBook(c.Book)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	target := c.File
	if info, err := os.Stat(target); err == nil && info.IsDir() {
		target = filepath.Join(target, filepath.Base(c.Book))
	}
	if _, err := os.Stat(filepath.Dir(target)); errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no folder %s", filepath.Dir(target))
	}
	if err := book.Backup(context.Background(), target); err != nil {
		return plainly(target, err)
	}
	fmt.Fprintf(s.out, "%s is copied to %s, and the copy is sound\n", c.Book, target)
	return nil
}

// importCommand reads a folder into a book, all of it or nothing.
type importCommand struct {
	Book   string `arg:"" help:"The gyle book, a file ending in .gylebook."`
	Folder string `arg:"" help:"Folder that gyle export wrote, any folder with documents, or a published page."`
	New    bool   `help:"Make the book; it must not be there yet."`
	By     string `help:"Who is to stand as author of what was edited in the folder." placeholder:"NAME"`
}

// Help is shown by "gyle import --help".
func (importCommand) Help() string {
	return `Examples:

  gyle import my.gylebook my-book --new
  gyle import my.gylebook my-book --by "A. Quillmark"
  gyle import my.gylebook ferry-brown.html

Every document is checked first. When one has a fault, all faults are shown and nothing is imported. What was edited in the
folder becomes a new revision; nothing in the book is overwritten.`
}

// Run imports.
func (c *importCommand) Run(s *streams) error {
	folder, done, err := arrange(c.Folder)
	if err != nil {
		return err
	}
	defer done()
	var report store.ImportReport
	if c.New {
		report, err = c.intoNew(folder)
	} else {
		report, err = c.intoBook(c.Book, folder)
	}
	if err != nil {
		return err
	}
	fmt.Fprintln(s.out, importText(c.Book, report))
	return nil
}

func (c *importCommand) intoBook(path string, folder arranged) (report store.ImportReport, err error) {
	book, err := openBook(path)
	if err != nil {
		if _, statErr := os.Stat(path); errors.Is(statErr, fs.ErrNotExist) {
			err = fmt.Errorf("%w\n   --new makes it", err)
		}
		return report, err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	report, err = book.Import(context.Background(), folder.path, c.By)
	return report, plainly(c.Folder, folder.name(err))
}

// intoNew fills a book under another name and gives it its own when all went
// well, so that a fault leaves no half of a book.
func (c *importCommand) intoNew(folder arranged) (report store.ImportReport, err error) {
	if _, err := os.Lstat(c.Book); err == nil {
		return report, fmt.Errorf("%s is there already\n   without --new the folder is imported into it", c.Book)
	}
	part, err := os.MkdirTemp(filepath.Dir(c.Book), ".gyle-import-")
	if errors.Is(err, fs.ErrNotExist) {
		return report, fmt.Errorf("there is no folder %s to make the book in", filepath.Dir(c.Book))
	}
	if err != nil {
		return report, err
	}
	defer os.RemoveAll(part)
	path := filepath.Join(part, "book")
	book, err := store.Open(path, store.Options{Create: true, Check: checkDocument})
	if err != nil {
		return report, err
	}
	if err := book.Close(); err != nil {
		return report, err
	}
	if report, err = c.intoBook(path, folder); err != nil {
		return report, err
	}
	if _, err := os.Lstat(c.Book); err == nil {
		return report, fmt.Errorf("%s was made meanwhile by another program; nothing was imported", c.Book)
	}
	return report, os.Rename(path, c.Book)
}

// importText counts what came into the book.
func importText(book string, r store.ImportReport) string {
	var parts []string
	for _, p := range []struct {
		n         int
		one, many string
	}{
		{r.Documents, "new document", "new documents"}, {r.Revisions, "revision", "revisions"},
		{r.Events, "log entry", "log entries"}, {r.Settings, "setting", "settings"},
	} {
		switch {
		case p.n == 1:
			parts = append(parts, "1 "+p.one)
		case p.n > 1:
			parts = append(parts, fmt.Sprintf("%d %s", p.n, p.many))
		}
	}
	if len(parts) == 0 {
		return book + " has all of it already"
	}
	return "into " + book + ": " + strings.Join(parts, ", ")
}

// plainly leaves of an error of the store what a brewer needs: what is wrong,
// and with which of the names that were given.
func plainly(given string, err error) error {
	var faults *store.ImportError
	var invalid *store.InvalidError
	switch {
	case errors.As(err, &faults):
		return faults
	case errors.As(err, &invalid) && invalid.What == "target":
		return fmt.Errorf("%s: %s; nothing was written", given, invalid.Problem)
	}
	return err
}

func notFolder(name string) error {
	return fmt.Errorf("%s is a file, and a folder is wanted here", name)
}
