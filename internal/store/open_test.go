// SPDX-License-Identifier: MIT

package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"modernc.org/sqlite"
)

func TestOpenSetsEveryConnection(t *testing.T) {
	b := openTest(t)
	for pragma, want := range map[string]string{
		"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "5000", "trusted_schema": "0",
	} {
		var got string
		if err := b.writer.QueryRow("PRAGMA " + pragma).Scan(&got); err != nil || got != want {
			t.Errorf("writer: %s = %q, %v; want %s", pragma, got, err, want)
		}
	}
	ctx := context.Background()
	for i := range readerLimit { // held open, so that each is another connection
		conn, err := b.readers.Conn(ctx)
		must(t, err)
		defer conn.Close()
		for pragma, want := range map[string]string{"query_only": "1", "foreign_keys": "1", "busy_timeout": "5000"} {
			var got string
			if err := conn.QueryRowContext(ctx, "PRAGMA "+pragma).Scan(&got); err != nil || got != want {
				t.Errorf("reader %d: %s = %q, %v; want %s", i, pragma, got, err, want)
			}
		}
	}
	if _, err := sqlite.OFDLocking(true); err == nil && !sqlite.OFDLockingEnabled() {
		t.Error("locks aren't bound to the open file")
	}
}

func TestTablesAreStrict(t *testing.T) {
	b := openTest(t)
	rows, err := b.readers.Query(`SELECT name FROM pragma_table_list WHERE type = 'table' AND strict = 0 AND name NOT LIKE 'sqlite_%'`)
	must(t, err)
	defer rows.Close()
	for rows.Next() {
		var name string
		must(t, rows.Scan(&name))
		t.Errorf("table %s isn't strict", name)
	}
	must(t, rows.Err())
}

func TestOpenWantsAFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "none.gylebook")
	if _, err := Open(path, Options{}); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("Open without a file: %v, want not exist", err)
	}
	if entries, _ := os.ReadDir(filepath.Dir(path)); len(entries) != 0 {
		t.Errorf("it left %v", entries)
	}
}

func TestCloseLeavesOneFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.gylebook")
	b, err := Open(path, testOptions())
	must(t, err)
	if !b.Opening().Created {
		t.Error("a new book isn't told to be new")
	}
	put(t, b, "water", "tap", "title: Tap")
	must(t, b.Close())
	if entries, _ := os.ReadDir(filepath.Dir(path)); len(entries) != 1 {
		t.Errorf("after Close there is %v, want the book alone", entries)
	}
	again := openAt(t, path)
	if o := again.Opening(); o != (Opening{}) {
		t.Errorf("Opening = %+v, want nothing to tell", o)
	}
}

// untouched opens the file at path, which must be refused, and compares the
// folder before and after.
func untouched(t *testing.T, path string) error {
	t.Helper()
	before, err := os.ReadFile(path)
	must(t, err)
	b, refused := Open(path, testOptions())
	if refused == nil {
		b.Close()
		t.Fatal("opened")
	}
	after, err := os.ReadFile(path)
	must(t, err)
	if !bytes.Equal(before, after) {
		t.Error("the file was changed")
	}
	return refused
}

func TestNewerBookIsLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "newer.gylebook")
	options := testOptions()
	options.migrations = append(slices.Clone(migrations), `CREATE TABLE tomorrow (id INTEGER PRIMARY KEY) STRICT`)
	b, err := Open(path, options)
	must(t, err)
	put(t, b, "water", "tap", "title: Tap")
	must(t, b.Close())
	var newer *NewerError
	if err := untouched(t, path); !errors.As(err, &newer) || newer.Have != len(migrations)+1 || newer.Known != len(migrations) {
		t.Errorf("Open: %v, want a NewerError", err)
	}
	if entries, _ := os.ReadDir(filepath.Dir(path)); len(entries) != 1 {
		t.Errorf("the refusal left %v", entries)
	}
}

// The header of the file may be older than the book: the latest schema can stand
// in the log beside it, as after a crash.
func TestNewerBookIsSeenInItsLog(t *testing.T) {
	path := filepath.Join(t.TempDir(), "newer.gylebook")
	b, err := Open(path, testOptions())
	must(t, err)
	defer b.Close()
	if _, err := b.writer.Exec(`PRAGMA user_version = 99`); err != nil {
		t.Fatal(err)
	}
	var newer *NewerError
	if err := untouched(t, path); !errors.As(err, &newer) || newer.Have != 99 {
		t.Errorf("Open: %v, want a NewerError", err)
	}
}

func TestOtherFilesAreLeftAlone(t *testing.T) {
	folder := t.TempDir()
	other := filepath.Join(folder, "other.db")
	db, err := sql.Open("sqlite", "file:"+other)
	must(t, err)
	_, err = db.Exec(`CREATE TABLE mine (id INTEGER)`)
	must(t, errors.Join(err, db.Close()))
	text := filepath.Join(folder, "notes.txt")
	must(t, os.WriteFile(text, []byte(strings.Repeat("mash in at nine\n", 100)), 0o666))
	for _, path := range []string{other, text} {
		if err := untouched(t, path); !errors.Is(err, ErrNotBook) {
			t.Errorf("Open %s: %v, want ErrNotBook", filepath.Base(path), err)
		}
	}
	if _, err := Open(folder, testOptions()); !errors.Is(err, ErrNotBook) {
		t.Errorf("Open of a folder: %v, want ErrNotBook", err)
	}
}

func TestMigrationKeepsACopy(t *testing.T) {
	path := filepath.Join(t.TempDir(), "old.gylebook")
	b, err := Open(path, testOptions())
	must(t, err)
	put(t, b, "water", "tap", "title: Tap")
	must(t, b.Close())
	options := testOptions()
	options.migrations = append(slices.Clone(migrations), `CREATE TABLE tomorrow (id INTEGER PRIMARY KEY) STRICT`)
	b, err = Open(path, options)
	must(t, err)
	if b.Opening().Migrated != len(migrations) {
		t.Errorf("Opening = %+v, want the old format", b.Opening())
	}
	must(t, second(b.Get(context.Background(), "water", "tap")))
	must(t, b.Close())
	old := openAt(t, path+".format1")
	must(t, second(old.Get(context.Background(), "water", "tap")))
}

func TestFailedMigrationChangesNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "old.gylebook")
	b, err := Open(path, testOptions())
	must(t, err)
	must(t, b.Close())
	options := testOptions()
	options.migrations = append(slices.Clone(migrations), `CREATE TABLE half (id INTEGER) STRICT; CREATE NONSENSE`)
	if _, err := Open(path, options); err == nil {
		t.Fatal("a broken migration went through")
	}
	b = openAt(t, path)
	var tables int
	must(t, b.readers.QueryRow(`SELECT count(*) FROM sqlite_schema WHERE name = 'half'`).Scan(&tables))
	if tables != 0 {
		t.Error("half a migration stays")
	}
}

func TestInterruptedCreationIsTakenUp(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new.gylebook")
	db, err := sql.Open("sqlite", "file:"+path+"?_journal_mode=WAL")
	must(t, err)
	must(t, errors.Join(db.Ping(), db.Close()))
	put(t, openAt(t, path), "water", "tap", "title: Tap")
}

func TestUncleanStopIsChecked(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.gylebook")
	b, err := Open(path, testOptions())
	must(t, err)
	put(t, b, "water", "tap", "title: Tap")
	must(t, b.disconnect()) // without leave: as a killed program
	openTokens.Delete(b.token)
	again := openAt(t, path)
	if !again.Opening().Unclean {
		t.Error("an unclean stop isn't told")
	}
}

func TestDamagedBookIsRefusedAfterACrash(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.gylebook")
	b, err := Open(path, testOptions())
	must(t, err)
	for i := range 20 {
		put(t, b, "water", "w"+string(rune('a'+i)), strings.Repeat("title: Tap\n", 300))
	}
	must(t, b.disconnect())
	openTokens.Delete(b.token)
	text, err := os.ReadFile(path)
	must(t, err)
	from := len(text) / 2 / 4096 * 4096 // spoil pages in the middle
	copy(text[from:], bytes.Repeat([]byte{0x5a}, 3*4096))
	must(t, os.WriteFile(path, text, 0o666))
	var damaged *DamagedError
	if _, err := Open(path, testOptions()); !errors.As(err, &damaged) || len(damaged.Problems) == 0 {
		t.Errorf("Open of a damaged book: %v, want a DamagedError", err)
	}
}

func TestBackup(t *testing.T) {
	b, ctx := fullBook(t), context.Background()
	target := filepath.Join(t.TempDir(), "copy.gylebook")
	must(t, b.Backup(ctx, target))
	put(t, b, "water", "late", "title: Late")
	must(t, b.Backup(ctx, target)) // over the older copy
	if entries, _ := os.ReadDir(filepath.Dir(target)); len(entries) != 1 {
		t.Errorf("the backup left %v", entries)
	}
	copied := openAt(t, target)
	if copied.Opening() != (Opening{}) {
		t.Errorf("Opening of the copy = %+v", copied.Opening())
	}
	_, want := exported(t, b)
	if _, got := exported(t, copied); len(got) != len(want) || got[revisionsFile] != want[revisionsFile] || got[eventsFile] != want[eventsFile] {
		t.Error("the copy holds something else")
	}
	for name, path := range map[string]string{"the book itself": b.Path(), "a book in use": target} {
		if err := b.Backup(ctx, path); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("backup onto %s: %v", name, err)
		}
	}
	notes := filepath.Join(t.TempDir(), "notes.txt")
	must(t, os.WriteFile(notes, []byte("mine"), 0o666))
	if err := b.Backup(ctx, notes); err == nil {
		t.Error("a backup took the place of somebody's file")
	}
}

// A program that waits too long for another is told so, in words.
func TestBusyBook(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.gylebook")
	one := openAt(t, path)
	options := testOptions()
	options.BusyTimeout = time.Millisecond
	two, err := Open(path, options)
	must(t, err)
	defer two.Close()
	tx, err := one.writer.Begin()
	must(t, err)
	_, err = two.Put(context.Background(), Draft{Kind: "water", Slug: "tap", Text: "x"})
	must(t, tx.Rollback())
	if !errors.Is(err, ErrBusy) {
		t.Errorf("save into a busy book: %v, want ErrBusy", err)
	}
}
