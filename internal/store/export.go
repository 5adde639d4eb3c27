// SPDX-License-Identifier: MIT

package store

import (
	"bufio"
	"context"
	"database/sql"
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"time"
)

// The files of an exported folder beside KIND/SLUG.yaml.
const (
	settingsFile  = "settings.csv"
	revisionsFile = "revisions.csv"
	eventsFile    = "events.csv"
	documentEnd   = ".yaml"
)

// The columns of those files. Times are RFC 3339 in UTC with milliseconds.
var (
	settingsHead  = []string{"key", "value"}
	revisionsHead = []string{"kind", "slug", "number", "at", "act", "author", "why", "title", "text"}
	eventsHead    = []string{"gyle", "seq", "at", "recorded", "kind", "author", "corrects", "token", "body"}
)

const timeForm = "2006-01-02T15:04:05.000Z"

// Export writes the whole book as plain text into a new or empty folder: each
// living document as KIND/SLUG.yaml, all revisions, log entries and settings as
// comma-separated tables. The same book gives the same bytes.
func (b *Book) Export(ctx context.Context, folder string) error {
	if err := b.export(ctx, folder); err != nil {
		return fmt.Errorf("export to %s: %w", folder, err)
	}
	return nil
}

func (b *Book) export(ctx context.Context, folder string) error {
	folder, err := filepath.Abs(folder)
	if err != nil {
		return err
	}
	if err := wantEmpty(folder); err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(folder), 0o777); err != nil {
		return err
	}
	part, err := os.MkdirTemp(filepath.Dir(folder), ".gyle-export-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(part)
	if err := b.exportInto(ctx, part); err != nil {
		return err
	}
	if err := os.Chmod(part, 0o755); err != nil {
		return err
	}
	if err := os.Remove(folder); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return os.Rename(part, folder)
}

func wantEmpty(folder string) error {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err == nil && len(entries) > 0 {
		err = &InvalidError{"target", "the folder isn't empty"}
	}
	return err
}

// exportInto reads all tables in one transaction, so that they fit together.
func (b *Book) exportInto(ctx context.Context, folder string) error {
	tx, err := b.readers.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return plain(err)
	}
	defer tx.Rollback()
	for _, table := range []struct {
		file  string
		head  []string
		query string
		row   func(*sql.Rows) ([]string, error)
	}{
		{settingsFile, settingsHead, exportSettings, settingRow},
		{revisionsFile, revisionsHead, exportRevisions, revisionRow},
		{eventsFile, eventsHead, exportEvents, eventRow},
	} {
		rows, err := tx.QueryContext(ctx, table.query)
		if err != nil {
			return err
		}
		if err := writeTable(filepath.Join(folder, table.file), table.head, rows, table.row); err != nil {
			return err
		}
	}
	return exportDocuments(ctx, tx, folder)
}

// These read whole tables, for they copy them.
const (
	exportSettings  = `SELECT key, value FROM setting ORDER BY key`
	exportRevisions = `
		SELECT d.kind, d.slug, r.number, r.at, r.act, r.author, r.why, r.title, r.text
		FROM document d
		CROSS JOIN revision r ON r.document = d.id
		ORDER BY d.kind, d.slug, r.number`
	exportEvents = `
		SELECT d.slug, e.seq, e.at, e.recorded, e.kind, e.author, e.corrects, coalesce(e.token, ''), e.body
		FROM document d
		CROSS JOIN event e ON e.gyle = d.id
		WHERE d.kind = 'gyle'
		ORDER BY d.slug, e.seq`
	exportCurrent = `
		SELECT d.kind, d.slug, r.text
		FROM document d
		CROSS JOIN revision r ON r.document = d.id AND r.number = d.revision
		WHERE d.deleted = 0
		ORDER BY d.kind, d.slug`
)

func writeTable(path string, head []string, rows *sql.Rows, row func(*sql.Rows) ([]string, error)) error {
	defer rows.Close()
	file, err := os.Create(path)
	if err != nil {
		return err
	}
	defer file.Close() // a second Close does nothing
	buffer := bufio.NewWriterSize(file, 1<<16)
	table := csv.NewWriter(buffer)
	if err := table.Write(head); err != nil {
		return err
	}
	for rows.Next() {
		cells, err := row(rows)
		if err != nil {
			return err
		}
		if err := table.Write(cells); err != nil {
			return err
		}
	}
	table.Flush()
	return errors.Join(rows.Err(), table.Error(), buffer.Flush(), file.Close())
}

func settingRow(rows *sql.Rows) ([]string, error) {
	cells := make([]string, len(settingsHead))
	return cells, rows.Scan(&cells[0], &cells[1])
}

func revisionRow(rows *sql.Rows) ([]string, error) {
	var number int
	var at int64
	cells := make([]string, len(revisionsHead))
	err := rows.Scan(&cells[0], &cells[1], &number, &at, &cells[4], &cells[5], &cells[6], &cells[7], &cells[8])
	cells[2], cells[3] = strconv.Itoa(number), formatTime(fromMilli(at))
	return cells, err
}

func eventRow(rows *sql.Rows) ([]string, error) {
	var seq int
	var at, recorded int64
	var corrects sql.NullInt64
	cells := make([]string, len(eventsHead))
	err := rows.Scan(&cells[0], &seq, &at, &recorded, &cells[4], &cells[5], &corrects, &cells[7], &cells[8])
	cells[1], cells[2], cells[3] = strconv.Itoa(seq), formatTime(fromMilli(at)), formatTime(fromMilli(recorded))
	if corrects.Valid {
		cells[6] = strconv.FormatInt(corrects.Int64, 10)
	}
	return cells, err
}

func formatTime(t time.Time) string { return t.UTC().Format(timeForm) }

func exportDocuments(ctx context.Context, tx *sql.Tx, folder string) error {
	rows, err := tx.QueryContext(ctx, exportCurrent)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var kind, slug, text string
		if err := rows.Scan(&kind, &slug, &text); err != nil {
			return err
		}
		if err := os.MkdirAll(filepath.Join(folder, kind), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(folder, kind, slug+documentEnd), []byte(text), 0o666); err != nil {
			return err
		}
	}
	return rows.Err()
}
