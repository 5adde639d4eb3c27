// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"os"
)

//go:embed migrations/*.sql
var migrationFiles embed.FS

// migrations holds the steps from an empty file to today's schema; the number
// of steps taken is the file's user_version. Steps are added, never changed.
var migrations = readMigrations()

func readMigrations() []string {
	names, err := fs.Glob(migrationFiles, "migrations/*.sql") // sorted by name
	if err != nil {
		panic(err)
	}
	steps := make([]string, len(names))
	for i, name := range names {
		text, err := migrationFiles.ReadFile(name)
		if err != nil {
			panic(err)
		}
		steps[i] = string(text)
	}
	return steps
}

// migrate brings the file to the last of the steps, all in one transaction, and
// returns the schema that an older book had. An older book is copied first.
func migrate(ctx context.Context, db *sql.DB, path string, steps []string) (from int, err error) {
	have, err := schemaOf(ctx, db)
	if err != nil || have == len(steps) {
		return 0, err
	}
	if have > len(steps) {
		return 0, &NewerError{Path: path, Have: have, Known: len(steps)}
	}
	if have > 0 {
		if err := copyBefore(ctx, db, path, have); err != nil {
			return 0, err
		}
	}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return 0, err
	}
	defer tx.Rollback() // after Commit it does nothing
	from, err = takeSteps(ctx, tx, path, steps)
	if err != nil {
		return 0, err
	}
	return from, tx.Commit()
}

type queryer interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

func schemaOf(ctx context.Context, db queryer) (schema int, err error) {
	err = db.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&schema)
	return schema, err
}

// takeSteps asks for the schema again: since the first look another program may
// have migrated the file.
func takeSteps(ctx context.Context, tx *sql.Tx, path string, steps []string) (from int, err error) {
	from, err = schemaOf(ctx, tx)
	if err != nil {
		return 0, err
	}
	if from > len(steps) {
		return 0, &NewerError{Path: path, Have: from, Known: len(steps)}
	}
	for i := from; i < len(steps); i++ {
		if _, err := tx.ExecContext(ctx, steps[i]); err != nil {
			return 0, fmt.Errorf("migrate to book format %d: %w", i+1, err)
		}
	}
	_, err = tx.ExecContext(ctx, fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", applicationID, len(steps)))
	return from, err
}

// copyBefore keeps the book as it was before a migration beside it, so that the
// older program can still read it. A copy that is there already is left alone.
func copyBefore(ctx context.Context, db *sql.DB, path string, schema int) error {
	target := fmt.Sprintf("%s.format%d", path, schema)
	if _, err := os.Stat(target); err == nil {
		return nil
	}
	if err := vacuumInto(ctx, db, target); err != nil {
		return fmt.Errorf("keep a copy before migrating: %w", err)
	}
	return nil
}
