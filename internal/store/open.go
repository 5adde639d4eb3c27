// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"time"

	"modernc.org/sqlite"
)

// applicationID marks the file as a gyle book: "gyle" in ASCII.
const applicationID = 0x67796c65

const (
	readerLimit    = 4               // pages read at once; more would only queue at the disk
	defaultTimeout = 5 * time.Second // longest wait for another program's save
)

// Options say how to open a book.
type Options struct {
	Create      bool             // make the file when there is none
	Check       Checker          // judges documents; nil takes any text
	Now         func() time.Time // the clock; nil is time.Now
	BusyTimeout time.Duration    // wait for another program's save; 0 is five seconds

	migrations []string // for tests; nil is the embedded list
}

// A Book is an open gyle book. Its methods may be called at the same time.
type Book struct {
	path    string
	options Options
	writer  *sql.DB // one connection: saves queue in the program, not at the file
	readers *pool
	token   string
	opening Opening
}

// Opening tells what opening a book met.
type Opening struct {
	Created  bool // there was no file
	Migrated int  // schema before the migration, 0 when there was none
	Unclean  bool // the book had not been closed; it was checked and is sound
}

// Opening tells what opening this book met.
func (b *Book) Opening() Opening { return b.opening }

// Path is the absolute path of the book's file.
func (b *Book) Path() string { return b.path }

// Open opens the book at path. It refuses a file that isn't a gyle book and a
// book of a newer gyle, both without touching the file; brings an older book up
// to date; and checks a book that was not closed properly.
func Open(path string, options Options) (*Book, error) {
	b, err := open(path, options)
	if err != nil {
		return nil, fmt.Errorf("open book %s: %w", path, plain(err))
	}
	return b, nil
}

func open(path string, options Options) (*Book, error) {
	if err := prepareDriver(); err != nil {
		return nil, err
	}
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	b := &Book{path: path, options: options.withDefaults()}
	if b.opening.Created, err = b.inspect(); err != nil {
		return nil, err
	}
	if err := b.connect(); err != nil {
		return nil, errors.Join(asDamage(err, path), b.disconnect())
	}
	return b, nil
}

func (o Options) withDefaults() Options {
	if o.Check == nil {
		o.Check = func(string, []byte) (string, []Ref, error) { return "", nil, nil }
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.BusyTimeout <= 0 {
		o.BusyTimeout = defaultTimeout
	}
	if o.migrations == nil {
		o.migrations = migrations
	}
	return o
}

// prepareDriver sets what holds for the whole process and must come before the
// first file is opened. Without locks bound to the open file, another part of
// the program that opens and closes the book's file would drop its locks.
var prepareDriver = sync.OnceValue(func() error {
	sqlite.StrictPragmas(true)
	_, err := sqlite.OFDLocking(true)
	if errors.Is(err, sqlite.ErrOFDLockingUnavailable) {
		return nil // not Linux: POSIX locks, and nobody here opens the file twice
	}
	return err
})

// inspect looks at the file through a read-only connection and refuses what
// isn't a book for this program. It reports whether a new book is to be made.
func (b *Book) inspect() (create bool, err error) {
	info, err := os.Stat(b.path)
	switch {
	case errors.Is(err, fs.ErrNotExist) && b.options.Create:
		return true, nil
	case err != nil:
		return false, err
	case info.IsDir():
		return false, fmt.Errorf("%w: it is a folder", ErrNotBook)
	case info.Size() == 0:
		return b.inspectEmpty()
	}
	more := url.Values{}
	if _, err := os.Stat(b.path + "-wal"); errors.Is(err, fs.ErrNotExist) {
		more.Set("immutable", "1") // nobody has it open: look without making files beside it
	}
	db, err := sql.Open("sqlite", b.dsn("ro", more))
	if err != nil {
		return false, err
	}
	defer db.Close()
	return b.checkHeader(db)
}

// inspectEmpty takes an empty file for a book to be made: a temporary file made
// for the purpose, or what a crash left in the first moment of creation.
func (b *Book) inspectEmpty() (create bool, err error) {
	if !b.options.Create {
		return false, fmt.Errorf("%w: the file is empty", ErrNotBook)
	}
	return true, nil
}

func (b *Book) checkHeader(db *sql.DB) (create bool, err error) {
	var id, schema, tables int
	err = db.QueryRow(`
		SELECT application_id, user_version, (SELECT count(*) FROM sqlite_schema)
		FROM pragma_application_id, pragma_user_version`).Scan(&id, &schema, &tables)
	if err != nil {
		return false, err
	}
	if id == 0 && schema == 0 && tables == 0 {
		return b.inspectEmpty()
	}
	if id != applicationID {
		return false, fmt.Errorf("%w: it is some other database", ErrNotBook)
	}
	if schema > len(b.options.migrations) {
		return false, &NewerError{Path: b.path, Have: schema, Known: len(b.options.migrations)}
	}
	return false, nil
}

// connect opens both pools, migrates, and enters this program as an opener.
func (b *Book) connect() (err error) {
	mode := "rw"
	if b.opening.Created {
		mode = "rwc"
	}
	b.writer, err = sql.Open("sqlite", b.dsn(mode, url.Values{
		"_txlock":       {"immediate"},
		"_journal_mode": {"WAL"},
		"_synchronous":  {"FULL"},
	}))
	if err != nil {
		return err
	}
	b.writer.SetMaxOpenConns(1)
	ctx := context.Background()
	if b.opening.Migrated, err = migrate(ctx, b.writer, b.path, b.options.migrations); err != nil {
		return err
	}
	if err := b.enter(ctx); err != nil {
		return err
	}
	readers, err := sql.Open("sqlite", b.dsn("rw", url.Values{"_query_only": {"1"}}))
	if err != nil {
		return err
	}
	b.readers = &pool{DB: readers}
	b.readers.SetMaxOpenConns(readerLimit)
	b.readers.SetMaxIdleConns(readerLimit)
	return nil
}

// dsn names the file with the settings that each connection needs. They stand
// here because a PRAGMA run once would set one connection of a pool only.
func (b *Book) dsn(mode string, more url.Values) string {
	return dsn(b.path, mode, b.options.BusyTimeout, more)
}

func dsn(path, mode string, timeout time.Duration, more url.Values) string {
	query := url.Values{
		"mode":          {mode},
		"_busy_timeout": {strconv.FormatInt(timeout.Milliseconds(), 10)},
		"_foreign_keys": {"1"},
		"_defensive":    {"1"},
		"_dqs":          {"0"},
		"_pragma":       {"trusted_schema(0)", "journal_size_limit(67108864)"},
	}
	for key, values := range more {
		query[key] = values
	}
	slashed := filepath.ToSlash(path)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed // a drive letter
	}
	return (&url.URL{Scheme: "file", Path: slashed, RawQuery: query.Encode()}).String()
}

// Close ends the use of the book. The last program to close it leaves a single
// file behind.
func (b *Book) Close() error {
	err := errors.Join(b.leave(context.Background()), b.disconnect())
	if err != nil {
		return fmt.Errorf("close book %s: %w", b.path, err)
	}
	return nil
}

func (b *Book) disconnect() error {
	var errs []error
	if b.readers != nil {
		errs = append(errs, b.readers.Close())
	}
	if b.writer != nil {
		errs = append(errs, b.writer.Close())
	}
	return errors.Join(errs...)
}

// update runs work in one transaction of the writer: all of it is saved, or none.
func (b *Book) update(ctx context.Context, work func(tx *sql.Tx) error) error {
	tx, err := b.writer.BeginTx(ctx, nil)
	if err != nil {
		return plain(err)
	}
	defer tx.Rollback() // after Commit it does nothing
	if err := work(tx); err != nil {
		return plain(err)
	}
	return plain(tx.Commit())
}
