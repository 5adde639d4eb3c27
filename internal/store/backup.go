// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"time"
)

// Backup writes a checked copy of the book to path, while others go on reading
// and writing. The copy appears there whole or not at all. It may take the place
// of an older copy, but of no other file.
func (b *Book) Backup(ctx context.Context, path string) error {
	if err := b.backup(ctx, path); err != nil {
		return fmt.Errorf("back up to %s: %w", path, err)
	}
	return nil
}

func (b *Book) backup(ctx context.Context, path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	if err := mayReplace(path, b.path); err != nil {
		return err
	}
	db, err := sql.Open("sqlite", b.dsn("rw", nil)) // a connection of its own: saves go on meanwhile
	if err != nil {
		return err
	}
	defer db.Close()
	return vacuumInto(ctx, db, path)
}

// vacuumInto writes a copy beside the target, checks it, brings it to the disk
// and gives it the target's name.
func vacuumInto(ctx context.Context, db *sql.DB, target string) error {
	folder, err := os.MkdirTemp(filepath.Dir(target), ".gyle-backup-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	copied := filepath.Join(folder, "copy")
	if _, err := db.ExecContext(ctx, `VACUUM INTO ?1`, copied); err != nil {
		return plain(err)
	}
	if err := settleCopy(ctx, copied); err != nil {
		return err
	}
	if err := syncFile(copied); err != nil {
		return err
	}
	if err := os.Rename(copied, target); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(target))
}

// settleCopy takes the programs that have the original open off the copy's list
// and checks it.
func settleCopy(ctx context.Context, path string) error {
	db, err := sql.Open("sqlite", dsn(path, "rw", time.Second, nil))
	if err != nil {
		return err
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() // after Commit it does nothing
	if _, err := tx.ExecContext(ctx, `DELETE FROM opener`); err != nil {
		return err
	}
	if err := checkIntegrity(ctx, tx, path); err != nil {
		return err
	}
	return errors.Join(tx.Commit(), db.Close())
}

// mayReplace refuses to write over the open book, over a book in use and over
// anything that isn't a book.
func mayReplace(path, book string) error {
	there, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if open, err := os.Stat(book); err == nil && os.SameFile(there, open) {
		return &InvalidError{"target", "it is the book itself"}
	}
	if _, err := os.Stat(path + "-wal"); err == nil {
		return &InvalidError{"target", "it is a book in use"}
	}
	is, err := isBook(path)
	if err == nil && !is {
		err = &InvalidError{"target", "a file is there that isn't a gyle book"}
	}
	return err
}

// isBook looks for the application's mark, which stands big-endian at byte 68 of
// an SQLite file (SQLite, "Database File Format", section 1.3).
func isBook(path string) (bool, error) {
	file, err := os.Open(path)
	if err != nil {
		return false, err
	}
	defer file.Close()
	header := make([]byte, 100)
	if _, err := io.ReadFull(file, header); err != nil {
		return false, nil // shorter than any book
	}
	return binary.BigEndian.Uint32(header[68:72]) == applicationID, nil
}

func syncFile(path string) error {
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(file.Sync(), file.Close())
}

// syncFolder makes a rename last. Windows has no such thing for folders.
func syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(folder.Sync(), folder.Close())
}
