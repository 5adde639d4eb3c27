// SPDX-License-Identifier: MIT

package publish

import (
	"bytes"
	_ "embed"
	"encoding/xml"
	"fmt"
	"html/template"
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

// A part is one file of a site: its path with slashes, a fingerprint of all it
// is made of, and how it is written.
type part struct {
	name, print string
	write       func() ([]byte, error)
}

// parts lists the files of a site. Nothing is computed yet but the index, whose
// content is its own fingerprint.
func (s Site) parts(e Engine) (list []part, err error) {
	frame, prints := s.view(), newPrints(s, e)
	for _, b := range s.Beers {
		if err := goodSlug(b.Slug); err != nil {
			return nil, err
		}
		b.Bundle.Lang, b.tastingLinks = s.Lang, true
		list = append(list, part{"beers/" + b.Slug + "/index.html", prints.bundle(b.Bundle), func() ([]byte, error) { return Page(b.Bundle, e) }})
	}
	add := func(name string, text []byte, err error) error {
		if err == nil {
			list = append(list, part{name, "", func() ([]byte, error) { return text, nil }})
		}
		return err
	}
	for _, st := range s.Styles {
		if err := goodSlug(st.Slug); err != nil {
			return nil, err
		}
		text, err := s.stylePage(st, frame)
		if err := add("styles/"+st.Slug+"/index.html", text, err); err != nil {
			return nil, err
		}
	}
	for _, t := range s.tastings() {
		if err := goodSlug(t.Slug); err != nil {
			return nil, err
		}
		text, err := s.tastingPage(t, frame)
		if err := add("tastings/"+t.Slug+"/index.html", text, err); err != nil {
			return nil, err
		}
	}
	text, err := s.index(frame)
	if err := add("index.html", text, err); err != nil {
		return nil, err
	}
	if s.URL == "" {
		return list, nil
	}
	text, err = s.feed()
	return list, add("feed.xml", text, err)
}

// Files returns the files of a site by their path, with slashes, all of them in
// memory; [Site.Publish] writes them one by one.
func (s Site) Files(e Engine) (map[string][]byte, error) {
	list, err := s.parts(e)
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{}
	for _, p := range list {
		if files[p.name], err = p.write(); err != nil {
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
