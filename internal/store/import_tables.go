// SPDX-License-Identifier: MIT

package store

import (
	"bufio"
	"bytes"
	"database/sql"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// eachRow reads a table of the folder line by line. A table that is missing has
// no lines.
func (i *importer) eachRow(name string, head []string, row func(cells []string, line int) error) error {
	file, err := os.Open(filepath.Join(i.folder, name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer file.Close()
	table := csv.NewReader(skipMark(file))
	table.FieldsPerRecord = len(head)
	first, err := table.Read()
	if err != nil || !slices.Equal(first, head) {
		return i.fault(name, 1, fmt.Errorf("the first line must be %s", strings.Join(head, ",")))
	}
	for {
		cells, err := table.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return i.fault(name, 0, err) // it tells the line itself
		}
		line, _ := table.FieldPos(0)
		if err := row(cells, line); err != nil {
			return err
		}
	}
}

// skipMark drops the byte-order mark that spreadsheets put at the beginning.
func skipMark(file io.Reader) io.Reader {
	buffer := bufio.NewReaderSize(file, 1<<16)
	mark := []byte("\uFEFF")
	if start, err := buffer.Peek(len(mark)); err == nil && bytes.Equal(start, mark) {
		buffer.Discard(len(mark))
	}
	return buffer
}

// revisions takes the histories, document by document.
func (i *importer) revisions() error {
	var history []Revision
	var first int // line
	seen := map[name]bool{}
	take := func() error {
		if len(history) == 0 {
			return nil
		}
		n := name{history[0].Kind, history[0].Slug}
		err := i.document(n, history, first)
		history = nil
		return err
	}
	err := i.eachRow(revisionsFile, revisionsHead, func(cells []string, line int) error {
		n := name{cells[0], cells[1]}
		if len(history) == 0 || n != (name{history[0].Kind, history[0].Slug}) {
			if err := take(); err != nil {
				return err
			}
			first = line
			if seen[n] {
				return i.fault(revisionsFile, line, errors.New("the lines of a document must stand together"))
			}
			seen[n] = true
		}
		r, err := readRevision(cells, len(history)+1)
		if err != nil {
			return i.fault(revisionsFile, line, err)
		}
		history = append(history, r)
		return nil
	})
	if err != nil || len(i.faults) > 0 {
		return err
	}
	return take()
}

func readRevision(cells []string, number int) (r Revision, err error) {
	r = Revision{Kind: cells[0], Slug: cells[1], Number: number, Act: Act(cells[4])}
	if err := checkName(r.Kind, r.Slug); err != nil {
		return r, err
	}
	if cells[2] != strconv.Itoa(number) {
		return r, fmt.Errorf("number %s where %d comes next", quote(cells[2]), number)
	}
	if r.Act != Put && (number == 1 || r.Act != Delete && r.Act != Restore) {
		return r, fmt.Errorf("act %s can't stand here", quote(cells[4]))
	}
	if r.At, err = readTime(cells[3]); err != nil {
		return r, err
	}
	if r.Author, r.Why, err = cleanWords(cells[5], cells[6]); err != nil {
		return r, err
	}
	if r.Title, err = clean("title", cells[7], maxTitle); err != nil {
		return r, err
	}
	r.Text, err = clean("text", cells[8], MaxText)
	return r, err
}

func readTime(text string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return t, &InvalidError{"time " + quote(text), "write it as " + timeForm}
	}
	return t.UTC().Truncate(time.Millisecond), nil
}

// A logEnd is how far the import of a log has come.
type logEnd struct {
	slug    string
	id      int64
	last    int // entries read from the folder
	had     int // entries the book had before
	touched int64
}

// events takes the logs, gyle by gyle.
func (i *importer) events() error {
	insert, err := prepareInsertEvent(i.ctx, i.tx)
	if err != nil {
		return err
	}
	defer insert.Close()
	var log logEnd
	err = i.eachRow(eventsFile, eventsHead, func(cells []string, line int) error {
		if cells[0] != log.slug {
			if err := i.endLog(log); err != nil {
				return err
			}
			log, err = i.beginLog(cells[0])
			if errors.Is(err, ErrNotFound) {
				return i.fault(eventsFile, line, fmt.Errorf("gyle %s: %w", quote(cells[0]), err))
			}
			if err != nil {
				return err
			}
		}
		return i.entry(insert, &log, cells, line)
	})
	if err != nil {
		return err
	}
	return i.endLog(log)
}

func (i *importer) beginLog(slug string) (log logEnd, err error) {
	log.slug = slug
	log.id, log.touched, err = gyleOf(i.ctx, i.tx, slug)
	if err != nil && !errors.Is(err, ErrDeleted) {
		return log, err
	}
	return log, i.tx.QueryRowContext(i.ctx, queryLastSeq, log.id).Scan(&log.had)
}

func (i *importer) endLog(log logEnd) error {
	_, err := i.tx.ExecContext(i.ctx, `UPDATE document SET touched = ?2 WHERE id = ?1 AND touched < ?2`, log.id, log.touched)
	return err
}

func (i *importer) entry(insert *sql.Stmt, log *logEnd, cells []string, line int) error {
	log.last++
	e, err := readEvent(cells, log.last)
	if err != nil {
		return i.fault(eventsFile, line, err)
	}
	if e.Seq <= log.had {
		return i.compareEntry(*log, e, line)
	}
	if err := insertEvent(i.ctx, insert, log.id, e); err != nil {
		return i.fault(eventsFile, line, err)
	}
	log.touched = max(log.touched, e.Recorded.UnixMilli())
	i.report.Events++
	return nil
}

func (i *importer) compareEntry(log logEnd, e Event, line int) error {
	have, err := readEvents(i.ctx, i.tx, queryEvents, log.id, e.Seq-1, 1)
	if err != nil {
		return err
	}
	if len(have) == 1 && sameEvent(have[0], e) {
		return nil
	}
	return i.fault(eventsFile, line, fmt.Errorf("gyle %s: entry %d is another one in the book", log.slug, e.Seq))
}

func sameEvent(a, b Event) bool {
	return a.Seq == b.Seq && a.At.Equal(b.At) && a.Recorded.Equal(b.Recorded) && a.Kind == b.Kind &&
		a.Author == b.Author && a.Corrects == b.Corrects && a.Token == b.Token && bytes.Equal(a.Body, b.Body)
}

func readEvent(cells []string, seq int) (e Event, err error) {
	e = Event{Seq: seq, Kind: cells[4], Author: cells[5], Token: cells[7], Body: []byte(cells[8])}
	if cells[1] != strconv.Itoa(seq) {
		return e, fmt.Errorf("seq %s where %d comes next", quote(cells[1]), seq)
	}
	if e.At, err = readTime(cells[2]); err != nil {
		return e, err
	}
	if e.Recorded, err = readTime(cells[3]); err != nil {
		return e, err
	}
	if cells[6] != "" {
		if e.Corrects, err = strconv.Atoi(cells[6]); err != nil || e.Corrects < 1 || e.Corrects >= seq {
			return e, fmt.Errorf("corrects %s is no earlier entry", quote(cells[6]))
		}
	}
	return e, cleanEvent(&e)
}

// settings takes the settings that the book doesn't have.
func (i *importer) settings() error {
	return i.eachRow(settingsFile, settingsHead, func(cells []string, line int) error {
		key, err := clean("key", cells[0], maxName)
		if err != nil {
			return i.fault(settingsFile, line, err)
		}
		value, err := clean("setting", cells[1], maxWords)
		if err != nil {
			return i.fault(settingsFile, line, err)
		}
		result, err := i.tx.ExecContext(i.ctx, `
			INSERT INTO setting (key, value)
			VALUES (?1, ?2)
			ON CONFLICT DO NOTHING`,
			key, value)
		if err != nil {
			return err
		}
		added, err := result.RowsAffected()
		i.report.Settings += int(added)
		return err
	})
}
