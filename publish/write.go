// SPDX-License-Identifier: MIT

package publish

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// list is the file in which a site remembers what was published, so that what
// is no longer part of it can be taken away and nothing else is touched.
const list = "published.txt"

// Written says what was done with the files of a site.
type Written struct {
	New, Changed, Removed, Same int

	Gone []string // the files that were removed
}

// record is what a site remembers of one file: what it was made of, and its
// size and time as it was written, so that it need not be read again.
type record struct {
	print string // empty where it isn't known
	size  int64
	time  int64 // nanoseconds of the Unix epoch
}

// Publish brings a folder up to date with a site. What is made of the same as
// before isn't computed again, unless somebody changed its file. Progress, which
// may be nil, is told how many of how many files are done.
func (s Site) Publish(folder string, e Engine, progress func(done, of int)) (Written, error) {
	parts, err := s.parts(e)
	if err != nil {
		return Written{}, err
	}
	return write(folder, parts, progress)
}

// Write brings a folder up to date: files that are the same are left alone,
// files of an earlier publication that are no longer part of it are removed,
// and files that gyle didn't write are never touched.
func Write(folder string, files map[string][]byte) (Written, error) {
	var parts []part
	for name, content := range files {
		parts = append(parts, part{name, "", func() ([]byte, error) { return content, nil }})
	}
	return write(folder, parts, nil)
}

// writer writes the parts of a site, several at once.
type writer struct {
	folder string
	before map[string]record

	mu    sync.Mutex
	w     Written
	now   map[string]record
	fault error
}

func write(folder string, parts []part, progress func(done, of int)) (Written, error) {
	before, err := publishedBefore(folder)
	if err != nil {
		return Written{}, err
	}
	o := &writer{folder: folder, before: before, now: map[string]record{}}
	if err := o.announce(parts); err != nil {
		return Written{}, err
	}
	work, all := make(chan part), sync.WaitGroup{}
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for p := range work {
				o.one(p, len(parts), progress)
			}
		})
	}
	for _, p := range parts {
		work <- p
	}
	close(work)
	all.Wait()
	if o.fault != nil {
		return o.w, o.fault
	}
	for name := range before {
		if _, still := o.now[name]; still {
			continue
		}
		if err := o.remove(name); err != nil {
			return o.w, err
		}
	}
	slices.Sort(o.w.Gone)
	return o.w, keepList(folder, o.now)
}

// announce writes down what will be written before it is, so that a publication
// that was broken off can be taken up again. It refuses to overwrite what isn't
// gyle's.
func (o *writer) announce(parts []part) error {
	all := map[string]record{}
	for name, e := range o.before {
		all[name] = e
	}
	for _, p := range parts {
		if _, ours := o.before[p.name]; ours {
			continue
		}
		target := filepath.Join(o.folder, filepath.FromSlash(p.name))
		have, err := os.ReadFile(target)
		if errors.Is(err, fs.ErrNotExist) {
			all[p.name] = record{}
			continue
		}
		if err != nil {
			return err
		}
		if text, err := p.write(); err != nil || !bytes.Equal(have, text) {
			return errors.Join(err, fmt.Errorf("%s is not from gyle and would be overwritten: publish into another folder, or move it away", target))
		}
		all[p.name] = record{}
	}
	if len(all) == len(o.before) {
		return nil
	}
	return keepList(o.folder, all)
}

// one writes one part, if it isn't there as it should be.
func (o *writer) one(p part, of int, progress func(done, of int)) {
	o.mu.Lock()
	broken := o.fault != nil
	o.mu.Unlock()
	if broken {
		return
	}
	done, now, err := o.put(p)
	o.mu.Lock()
	defer o.mu.Unlock()
	if err != nil {
		o.fault = err
		return
	}
	o.now[p.name] = now
	*map[change]*int{isSame: &o.w.Same, isNew: &o.w.New, isChanged: &o.w.Changed}[done]++
	if progress != nil {
		progress(len(o.now), of)
	}
}

// change is what became of a file.
type change int

const (
	isSame change = iota
	isNew
	isChanged
)

func (o *writer) put(p part) (change, record, error) {
	target := filepath.Join(o.folder, filepath.FromSlash(p.name))
	was := o.before[p.name]
	if info, err := os.Stat(target); err == nil && p.print != "" && was == (record{p.print, info.Size(), info.ModTime().UnixNano()}) {
		return isSame, was, nil
	}
	content, err := p.write()
	if err != nil {
		return 0, record{}, err
	}
	done := isChanged
	have, err := os.ReadFile(target)
	switch {
	case err == nil && bytes.Equal(have, content):
		done = isSame
	case errors.Is(err, fs.ErrNotExist):
		done = isNew
	case err != nil:
		return 0, record{}, err
	}
	if done != isSame {
		if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
			return 0, record{}, err
		}
		if err := replace(target, content); err != nil {
			return 0, record{}, err
		}
	}
	info, err := os.Stat(target)
	if err != nil {
		return 0, record{}, err
	}
	return done, record{p.print, info.Size(), info.ModTime().UnixNano()}, nil
}

// remove takes a file away, and its folder where nothing else is in it.
func (o *writer) remove(name string) error {
	target := filepath.Join(o.folder, filepath.FromSlash(name))
	if err := os.Remove(target); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	_ = os.Remove(filepath.Dir(target)) // a folder that holds anything stays
	o.w.Removed++
	o.w.Gone = append(o.w.Gone, name)
	return nil
}

// replace writes a file so that it is there whole or not at all.
func replace(target string, content []byte) error {
	part := target + ".part"
	if err := os.WriteFile(part, content, 0o644); err != nil {
		return err
	}
	return os.Rename(part, target)
}

func keepList(folder string, entries map[string]record) error {
	var lines []string
	for name, e := range entries {
		print := e.print
		if print == "" {
			print = "-"
		}
		lines = append(lines, fmt.Sprintf("%s %s %d %d", name, print, e.size, e.time))
	}
	slices.Sort(lines)
	return replace(filepath.Join(folder, list), []byte(strings.Join(lines, "\n")+"\n"))
}

// publishedBefore reads the list of a folder; an earlier form of it had the
// names only, and a sum.
func publishedBefore(folder string) (map[string]record, error) {
	text, err := os.ReadFile(filepath.Join(folder, list))
	if errors.Is(err, fs.ErrNotExist) {
		return map[string]record{}, nil
	}
	before := map[string]record{}
	for line := range strings.Lines(string(text)) {
		fields := strings.Fields(line)
		if len(fields) == 0 {
			continue
		}
		name := fields[0]
		if path.IsAbs(name) || strings.Contains(name, "..") || strings.Contains(name, `\`) {
			return nil, fmt.Errorf("%s names %q, which is outside the folder", list, name)
		}
		before[name] = record{}
		if len(fields) == 4 && fields[1] != "-" {
			size, err1 := strconv.ParseInt(fields[2], 10, 64)
			time, err2 := strconv.ParseInt(fields[3], 10, 64)
			if err1 == nil && err2 == nil {
				before[name] = record{fields[1], size, time}
			}
		}
	}
	return before, err
}

// prints makes fingerprints of what pages are made of.
type prints struct {
	frame string         // of all that pages share
	docs  map[any]string // of documents by their place in memory: many beers share a house
}

func newPrints(s Site, e Engine) *prints {
	p := &prints{docs: map[any]string{}}
	revision := ""
	if build, ok := debug.ReadBuildInfo(); ok {
		revision = fmt.Sprint(build.Main.Version, build.Settings) // another program may word a page otherwise
	}
	p.frame = sumOf(revision, e.Packing, e.Packed, e.Support, pageHTML, pageCSS, lzmaJS, pageJS, fmt.Sprint(*s.words()))
	return p
}

// bundle is the fingerprint of a page: the documents that it is made of, all
// that pages share, and how numbers are printed.
func (p *prints) bundle(b Bundle) string {
	parts := []string{p.frame, fmt.Sprint(b.Printer, b.Lang), p.of(b.Input.Recipe), p.of(b.Input.House)}
	if b.Input.Stock != nil {
		parts = append(parts, "stock", p.of(b.Input.Stock))
	}
	if b.Input.Water != nil {
		parts = append(parts, "water", p.of(b.Input.Water))
	}
	if b.Style != nil {
		parts = append(parts, "style", p.of(b.Style))
	}
	for _, v := range b.Versions {
		parts = append(parts, "version", p.of(v))
	}
	for _, t := range b.Tastings {
		parts = append(parts, "tasting", t.Slug, strconv.Itoa(t.Version), p.of(t.Doc))
	}
	for _, one := range b.Brews {
		parts = append(parts, "brew", one.Gyle.Name, one.Gyle.Date.String(), one.Gyle.House)
		for _, c := range one.Made.Compared {
			parts = append(parts, fmt.Sprint(c.Figure, c.Planned, c.Brewed))
		}
	}
	return sumOf(parts...)
}

// of is the fingerprint of a document. One that can't be written has none, and
// what is made of it is made anew.
func (p *prints) of(doc interface{ Text() ([]byte, error) }) string {
	if sum, known := p.docs[doc]; known {
		return sum
	}
	text, err := doc.Text()
	if err != nil {
		text = fmt.Appendf(nil, "%p", doc)
	}
	p.docs[doc] = sumOf(string(text))
	return p.docs[doc]
}

func sumOf(parts ...string) string {
	h := sha256.New()
	for _, part := range parts {
		fmt.Fprintf(h, "%d ", len(part))
		h.Write([]byte(part))
	}
	return hex.EncodeToString(h.Sum(nil))
}
