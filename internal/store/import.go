// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// ImportReport counts what an import added.
type ImportReport struct{ Documents, Revisions, Events, Settings int }

// A Fault is one thing wrong with a folder to be imported.
type Fault struct {
	File string // slashed, from the folder: "recipe/ferry-brown.yaml"
	Line int    // 0 where the error tells its own place or has none
	Err  error
}

func (f Fault) Error() string {
	if named, ok := f.Err.(interface{ WithFile(string) error }); ok {
		return named.WithFile(f.File).Error()
	}
	if f.Line > 0 {
		return fmt.Sprintf("%s:%d: %v", f.File, f.Line, f.Err)
	}
	return f.File + ": " + f.Err.Error()
}

// An ImportError lists what is wrong with the folder. Nothing was imported.
type ImportError struct {
	Faults []Fault
	More   bool // there are more than are listed
}

// mostFaults is the number after which an import stops looking.
const mostFaults = 100

func (e *ImportError) Error() string {
	lines := make([]string, len(e.Faults))
	for i, fault := range e.Faults {
		lines[i] = fault.Error()
	}
	if e.More {
		lines = append(lines, "and more")
	}
	return "nothing was imported:\n" + strings.Join(lines, "\n")
}

// Import reads a folder that [Book.Export] wrote, or one with documents alone
// (KIND/SLUG.yaml), into the book: all of it or nothing. Histories and logs that
// the book has already are compared and continued; where the folder and the book
// went different ways it is a fault. A document edited in the folder becomes a
// new revision. Settings that the book has stay as they are.
func (b *Book) Import(ctx context.Context, folder, author string) (ImportReport, error) {
	i := &importer{book: b, ctx: ctx, folder: folder, author: author, files: map[name]*file{}}
	err := i.readFiles()
	if err == nil && len(i.faults) == 0 {
		err = b.update(ctx, i.run)
	}
	if err == nil {
		err = i.refusal()
	}
	if err != nil {
		return ImportReport{}, fmt.Errorf("import %s: %w", folder, err)
	}
	return i.report, nil
}

type name struct{ kind, slug string }

func (n name) file() string { return path.Join(n.kind, n.slug+documentEnd) }

// A file is a document found in the folder.
type file struct {
	Revision
	refs []Ref
	done bool
}

type importer struct {
	book   *Book
	ctx    context.Context
	tx     *sql.Tx
	folder string
	author string
	files  map[name]*file
	faults []Fault
	report ImportReport
}

// errTooMany ends an import that has found faults enough.
var errTooMany = errors.New("too many faults")

func (i *importer) fault(file string, line int, err error) error {
	i.faults = append(i.faults, Fault{file, line, err})
	if len(i.faults) >= mostFaults {
		return errTooMany
	}
	return nil
}

func (i *importer) refusal() error {
	if len(i.faults) == 0 {
		return nil
	}
	return &ImportError{Faults: i.faults, More: len(i.faults) >= mostFaults}
}

// readFiles reads and checks all documents of the folder.
func (i *importer) readFiles() error {
	entries, err := os.ReadDir(i.folder)
	if err != nil {
		return err
	}
	for _, entry := range entries {
		if !entry.IsDir() || strings.HasPrefix(entry.Name(), ".") {
			continue
		}
		if err := i.readKind(entry.Name()); err != nil && !errors.Is(err, errTooMany) {
			return err
		}
	}
	return nil
}

func (i *importer) readKind(kind string) error {
	if !slices.Contains(Kinds, kind) {
		return i.fault(kind, 0, errors.New("no kind of document; folders are "+strings.Join(Kinds, ", ")))
	}
	entries, err := os.ReadDir(filepath.Join(i.folder, kind))
	if err != nil {
		return err
	}
	for _, entry := range entries {
		slug, isDocument := strings.CutSuffix(entry.Name(), documentEnd)
		if !isDocument || strings.HasPrefix(slug, ".") {
			continue
		}
		if err := i.readFile(name{kind, slug}, entry); err != nil {
			return err
		}
	}
	return nil
}

func (i *importer) readFile(n name, entry fs.DirEntry) error {
	info, err := entry.Info()
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() || info.Size() > MaxText {
		return i.fault(n.file(), 0, fmt.Errorf("no plain file, or longer than %d bytes", MaxText))
	}
	text, err := os.ReadFile(filepath.Join(i.folder, n.kind, entry.Name()))
	if err != nil {
		return err
	}
	draft := Draft{Kind: n.kind, Slug: n.slug, Text: string(text), Author: i.author, Why: "imported"}
	r, refs, err := i.book.examine(draft)
	if err != nil {
		return i.fault(n.file(), 0, err)
	}
	i.files[n] = &file{Revision: r, refs: refs}
	return nil
}

// run does the import inside a transaction that its error would undo.
func (i *importer) run(tx *sql.Tx) error {
	i.tx = tx
	for _, step := range []func() error{i.revisions, i.filesAlone, i.events, i.settings} {
		if err := step(); err != nil && !errors.Is(err, errTooMany) {
			return err
		}
		if err := i.refusal(); err != nil {
			return err
		}
	}
	return nil
}

// filesAlone takes the documents that the folder has no history of.
func (i *importer) filesAlone() error {
	names := make([]name, 0, len(i.files))
	for n, f := range i.files {
		if !f.done {
			names = append(names, n)
		}
	}
	slices.SortFunc(names, func(a, b name) int { return strings.Compare(a.file(), b.file()) })
	for _, n := range names {
		if err := i.document(n, nil, 0); err != nil {
			return err
		}
	}
	return nil
}

// document continues the book's history of a document by that of the folder,
// whose first line in the table is given, and by the file when it was edited.
func (i *importer) document(n name, history []Revision, line int) error {
	now, err := currentOf(i.ctx, i.tx, n.kind, n.slug)
	isNew := errors.Is(err, ErrNotFound)
	if err != nil && !isNew {
		return err
	}
	before := now.Number
	for _, r := range history {
		if r.Number <= before {
			err = i.compare(r, line)
		} else if err = i.add(&now, r); err == nil && r.Number == before+1 && isNew {
			i.report.Documents++
		}
		if err != nil {
			return err
		}
	}
	return i.edited(n, now, history, line)
}

func (i *importer) compare(r Revision, line int) error {
	rows, err := i.tx.QueryContext(i.ctx, queryRevision, r.Kind, r.Slug, r.Number)
	if err != nil {
		return err
	}
	have, err := scanRevisions(rows, r.Kind, r.Slug)
	if err != nil || (len(have) == 1 && have[0] == r) {
		return err
	}
	return i.fault(revisionsFile, line, fmt.Errorf("%s %s: revision %d is another one in the book", r.Kind, r.Slug, r.Number))
}

func (i *importer) add(now *current, r Revision) error {
	if err := write(i.ctx, i.tx, *now, r, nil); err != nil {
		return err
	}
	i.report.Revisions++
	next, err := currentOf(i.ctx, i.tx, r.Kind, r.Slug)
	*now = next
	return err
}

// edited compares the file with the end of its history and adds what was edited.
func (i *importer) edited(n name, now current, history []Revision, line int) error {
	f := i.files[n]
	if f == nil {
		if now.Act != Delete && len(history) > 0 && history[len(history)-1].Act != Delete {
			return i.fault(n.file(), 0, fmt.Errorf("missing, though %s says that it is there", revisionsFile))
		}
		return i.refsOfDeleted(now)
	}
	f.done = true
	if last := len(history) - 1; last >= 0 && history[last].Act != Delete && history[last].Text == f.Text {
		if now.Number > len(history) {
			return nil // not edited, and the book is further on
		}
	} else if now.Number == 0 || now.Act == Delete || now.Text != f.Text {
		return i.addEdited(f, now, history)
	}
	return writeRefs(i.ctx, i.tx, f.Revision, f.refs)
}

func (i *importer) addEdited(f *file, now current, history []Revision) error {
	if len(history) > 0 && now.Number > len(history) {
		return i.fault(name{f.Kind, f.Slug}.file(), 0, errors.New("was changed in the folder and in the book"))
	}
	if now.Number == 0 {
		i.report.Documents++
	}
	f.Number = now.Number + 1
	i.report.Revisions++
	return write(i.ctx, i.tx, now, f.Revision, f.refs)
}

// refsOfDeleted notes what a deleted document names, for its return. A text that
// the checker of today refuses keeps none.
func (i *importer) refsOfDeleted(now current) error {
	if now.Number == 0 {
		return nil
	}
	_, refs, err := i.book.options.Check(now.Kind, []byte(now.Text))
	if err != nil {
		refs = nil
	}
	return writeRefs(i.ctx, i.tx, now.Revision, refs)
}
