// SPDX-License-Identifier: MIT

package publish

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"encoding/xml"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"gyle/style"
)

// A Site is what a static site is made of. Its addresses depend on the slugs
// alone, so links to it stay good for as long as a recipe keeps its slug.
type Site struct {
	Title  string
	By     string
	URL    string // where it will stand, "https://example.org/beer/"; a feed needs it, all else does without
	Beers  []SiteBeer
	Styles []SiteStyle
	Lang   string
}

// A SiteBeer is one recipe of a site.
type SiteBeer struct {
	Slug    string
	Updated time.Time // when its document was last changed
	Bundle
}

// A SiteStyle is one style of a site.
type SiteStyle struct {
	Slug    string
	Updated time.Time
	Style   *style.Style
}

var (
	//go:embed page/index.html
	indexHTML string
	//go:embed page/style.html
	styleHTML string
	//go:embed page/index.js
	indexJS string
	//go:embed page/site.css
	siteCSS string
)

var (
	indexTemplate = template.Must(template.New("index").Parse(indexHTML))
	styleTemplate = template.Must(template.New("style").Parse(styleHTML))
)

// Files returns the files of a site by their path, with slashes.
func (s Site) Files(e Engine) (map[string][]byte, error) {
	files, frame := map[string][]byte{}, s.view()
	for _, b := range s.Beers {
		if err := goodSlug(b.Slug); err != nil {
			return nil, err
		}
		b.Bundle.Lang, b.tastingLinks = s.Lang, true
		page, err := Page(b.Bundle, e)
		if err != nil {
			return nil, err
		}
		files["beers/"+b.Slug+"/index.html"] = page
	}
	for _, st := range s.Styles {
		if err := goodSlug(st.Slug); err != nil {
			return nil, err
		}
		page, err := s.stylePage(st, frame)
		if err != nil {
			return nil, err
		}
		files["styles/"+st.Slug+"/index.html"] = page
	}
	for _, t := range s.tastings() {
		if err := goodSlug(t.Slug); err != nil {
			return nil, err
		}
		page, err := s.tastingPage(t, frame)
		if err != nil {
			return nil, err
		}
		files["tastings/"+t.Slug+"/index.html"] = page
	}
	var err error
	if files["index.html"], err = s.index(frame); err != nil {
		return nil, err
	}
	if s.URL != "" {
		if files["feed.xml"], err = s.feed(); err != nil {
			return nil, err
		}
	}
	return files, nil
}

// goodSlug refuses a slug that would leave the folder of the site.
func goodSlug(slug string) error {
	if slug == "" || strings.Trim(slug, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
		return fmt.Errorf("publish %q: a slug has small letters, digits and hyphens only", slug)
	}
	return nil
}

type (
	siteView struct {
		W      *Words
		Site   Site
		Policy string
		CSS    template.CSS
		Script template.JS
		Beers  []entryView
		Styles []entryView

		Tastings []entryView
	}
	entryView struct{ Link, Name, By, Says, Words string }
	styleView struct {
		siteView
		Style *style.Style
		Prose []string
		Rules []ruleView
		Beers []entryView
	}
)

func (s Site) words() *Words {
	if w := Languages[s.Lang]; w != nil {
		return w
	}
	return &English
}

func (s Site) view() siteView {
	v := siteView{W: s.words(), Site: s, CSS: template.CSS(pageCSS + siteCSS), Script: template.JS(strings.TrimSpace(indexJS))}
	v.Policy = policy(v.CSS, []template.JS{v.Script})
	for _, b := range s.Beers {
		v.Beers = append(v.Beers, b.entry("beers/"))
	}
	for _, st := range s.Styles {
		v.Styles = append(v.Styles, entryView{Link: "styles/" + st.Slug + "/index.html", Name: st.Style.Name, By: st.Style.By, Words: strings.ToLower(st.Style.Name + " " + st.Style.Prose)})
	}
	for _, t := range s.tastings() {
		v.Tastings = append(v.Tastings, s.tastingEntry(t))
	}
	return v
}

// entry is a beer as the index lists it, with the words it is found by.
func (b SiteBeer) entry(folder string) entryView {
	r := b.Input.Recipe
	e := entryView{Link: folder + b.Slug + "/index.html", Name: title(r), By: r.By}
	var says []string
	for _, a := range aims(r.Aims, b.Printer, b.words().say) {
		says = append(says, a.Value)
	}
	e.Says = strings.Join(says, " · ")
	words := []string{e.Name, e.By, r.Note}
	if b.Style != nil {
		words = append(words, b.Style.Name)
	}
	for _, g := range r.Grist {
		words = append(words, grain(g, b.Printer, b.words().say).Malt)
	}
	for _, c := range r.Hops {
		words = append(words, charge(c, b.Printer, b.words().say).Hop)
	}
	e.Words = strings.ToLower(strings.Join(words, " "))
	return e
}

func (s Site) index(frame siteView) ([]byte, error) {
	var out bytes.Buffer
	err := indexTemplate.Execute(&out, frame)
	return out.Bytes(), err
}

func (s Site) stylePage(st SiteStyle, frame siteView) ([]byte, error) {
	v := styleView{siteView: frame, Style: st.Style}
	for paragraph := range strings.SplitSeq(st.Style.Prose, "\n\n") {
		v.Prose = append(v.Prose, strings.TrimSpace(paragraph))
	}
	for i := range st.Style.Rules {
		v.Rules = append(v.Rules, rule(&st.Style.Rules[i], v.W.say)...)
	}
	for _, b := range s.Beers {
		if b.Input.Recipe.Style == st.Slug {
			v.Beers = append(v.Beers, b.entry("../../beers/"))
		}
	}
	var out bytes.Buffer
	err := styleTemplate.Execute(&out, v)
	return out.Bytes(), err
}

// Atom, RFC 4287.
type (
	atomFeed struct {
		XMLName xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
		Title   string      `xml:"title"`
		ID      string      `xml:"id"`
		Updated string      `xml:"updated"`
		Author  string      `xml:"author>name"`
		Link    []atomLink  `xml:"link"`
		Entry   []atomEntry `xml:"entry"`
	}
	atomLink struct {
		Rel  string `xml:"rel,attr,omitempty"`
		Href string `xml:"href,attr"`
	}
	atomEntry struct {
		Title   string   `xml:"title"`
		ID      string   `xml:"id"`
		Updated string   `xml:"updated"`
		Link    atomLink `xml:"link"`
		Summary string   `xml:"summary"`
	}
)

func (s Site) feed() ([]byte, error) {
	base := strings.TrimSuffix(s.URL, "/") + "/"
	f := atomFeed{Title: s.Title, ID: base, Author: s.By, Link: []atomLink{{Rel: "self", Href: base + "feed.xml"}, {Href: base}}}
	add := func(e entryView, at time.Time) {
		f.Entry = append(f.Entry, atomEntry{Title: e.Name, ID: base + e.Link, Updated: at.UTC().Format(time.RFC3339), Link: atomLink{Href: base + e.Link}, Summary: e.Says})
	}
	for _, b := range s.Beers {
		add(b.entry("beers/"), b.Updated)
	}
	for _, t := range s.tastings() {
		add(s.tastingEntry(t), t.updated())
	}
	slices.SortStableFunc(f.Entry, func(a, b atomEntry) int { return strings.Compare(b.Updated, a.Updated) })
	f.Updated = time.Time{}.Format(time.RFC3339)
	if len(f.Entry) > 0 {
		f.Updated = f.Entry[0].Updated
	}
	text, err := xml.MarshalIndent(f, "", "  ")
	return append([]byte(xml.Header), append(text, '\n')...), err
}

// list is the file in which a site remembers what was published, so that what
// is no longer part of it can be taken away and nothing else is touched.
const list = "published.txt"

// Written says what Write did.
type Written struct{ New, Changed, Removed, Same int }

// Write brings a folder up to date: files that are the same are left alone,
// files of an earlier publication that are no longer part of it are removed,
// and files that gyle didn't write are never touched.
func Write(folder string, files map[string][]byte) (w Written, err error) {
	before, err := publishedBefore(folder)
	if err != nil {
		return w, err
	}
	var lines []string
	for name, content := range files {
		sum := sha256.Sum256(content)
		lines = append(lines, name+" "+hex.EncodeToString(sum[:]))
		if err := w.put(folder, name, content, before); err != nil {
			return w, err
		}
	}
	for name := range before {
		if _, still := files[name]; still {
			continue
		}
		if err := os.Remove(filepath.Join(folder, filepath.FromSlash(name))); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return w, err
		}
		w.Removed++
	}
	slices.Sort(lines)
	return w, replace(filepath.Join(folder, list), []byte(strings.Join(lines, "\n")+"\n"))
}

func (w *Written) put(folder, name string, content []byte, before map[string]bool) error {
	target := filepath.Join(folder, filepath.FromSlash(name))
	have, err := os.ReadFile(target)
	switch {
	case err == nil && bytes.Equal(have, content):
		w.Same++
		return nil
	case err == nil && !before[name]:
		return fmt.Errorf("%s is not from gyle and would be overwritten: publish into another folder, or move it away", target)
	case err == nil:
		w.Changed++
	case errors.Is(err, fs.ErrNotExist):
		w.New++
	default:
		return err
	}
	if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
		return err
	}
	return replace(target, content)
}

// replace writes a file so that it is there whole or not at all.
func replace(target string, content []byte) error {
	part := target + ".part"
	if err := os.WriteFile(part, content, 0o644); err != nil {
		return err
	}
	return os.Rename(part, target)
}

func publishedBefore(folder string) (map[string]bool, error) {
	text, err := os.ReadFile(filepath.Join(folder, list))
	if errors.Is(err, fs.ErrNotExist) {
		return map[string]bool{}, nil
	}
	before := map[string]bool{}
	for line := range strings.Lines(string(text)) {
		name, _, ok := strings.Cut(strings.TrimSpace(line), " ")
		if ok && path.IsAbs(name) || strings.Contains(name, "..") {
			return nil, fmt.Errorf("%s names %q, which is outside the folder", list, name)
		}
		before[name] = ok
	}
	return before, err
}
