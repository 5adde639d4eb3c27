// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"crypto/rand"
	"database/sql"
	"errors"
	"os"
	"runtime"
	"sync"
	"syscall"
)

// openTokens holds the tokens of the books this process has open, so that a row
// left by an earlier process with the same number (always 1 in a container) is
// not taken for ours.
var openTokens sync.Map

// enter writes this program into the list of openers. When the list holds a
// program that no longer runs, the book was not closed: it is checked before
// anything else is done with it.
func (b *Book) enter(ctx context.Context) error {
	b.token = rand.Text()
	host, err := os.Hostname()
	if err != nil {
		host = ""
	}
	return b.update(ctx, func(tx *sql.Tx) error {
		dead, err := deadOpeners(ctx, tx, host)
		if err != nil {
			return err
		}
		if len(dead) > 0 {
			b.opening.Unclean = true
			if err := checkIntegrity(ctx, tx, b.path); err != nil {
				return err
			}
		}
		for _, token := range dead {
			if _, err := tx.ExecContext(ctx, `DELETE FROM opener WHERE token = ?1`, token); err != nil {
				return err
			}
		}
		openTokens.Store(b.token, true)
		_, err = tx.ExecContext(ctx, `
			INSERT INTO opener (token, host, pid, opened)
			VALUES (?1, ?2, ?3, ?4)`,
			b.token, host, os.Getpid(), b.now().UnixMilli())
		return err
	})
}

// leave takes this program off the list of openers.
func (b *Book) leave(ctx context.Context) error {
	defer openTokens.Delete(b.token)
	return b.update(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `DELETE FROM opener WHERE token = ?1`, b.token)
		return err
	})
}

func deadOpeners(ctx context.Context, tx *sql.Tx, host string) (tokens []string, err error) {
	rows, err := tx.QueryContext(ctx, `SELECT token, host, pid FROM opener ORDER BY token`)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var token, where string
		var pid int
		if err := rows.Scan(&token, &where, &pid); err != nil {
			return nil, err
		}
		if where != host || !running(token, pid) {
			tokens = append(tokens, token)
		}
	}
	return tokens, rows.Err()
}

// running tells whether the opener still lives. A number that the system gave to
// another program in the meantime counts as alive: then the check waits until
// that program has ended.
func running(token string, pid int) bool {
	if pid == os.Getpid() {
		_, ours := openTokens.Load(token)
		return ours
	}
	process, err := os.FindProcess(pid)
	if err != nil {
		return false // Windows says so here
	}
	defer process.Release()
	if runtime.GOOS == "windows" {
		return true
	}
	err = process.Signal(syscall.Signal(0))
	return err == nil || errors.Is(err, os.ErrPermission)
}

// checkIntegrity reads the whole file: pages, indexes and references between rows.
func checkIntegrity(ctx context.Context, tx *sql.Tx, path string) error {
	problems, err := texts(ctx, tx, `SELECT integrity_check FROM pragma_integrity_check WHERE integrity_check <> 'ok'`)
	if err != nil {
		return err
	}
	loose, err := texts(ctx, tx, `
		SELECT 'row of ' || "table" || ' names a row of ' || parent || ' that is not there'
		FROM pragma_foreign_key_check`)
	if err != nil {
		return err
	}
	if problems = append(problems, loose...); len(problems) > 0 {
		return &DamagedError{Path: path, Problems: problems}
	}
	return nil
}

func texts(ctx context.Context, tx *sql.Tx, query string, args ...any) (found []string, err error) {
	rows, err := tx.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var text string
		if err := rows.Scan(&text); err != nil {
			return nil, err
		}
		found = append(found, text)
	}
	return found, rows.Err()
}
