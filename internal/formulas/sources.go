// SPDX-License-Identifier: MIT

package formulas

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
)

// Source is one entry of sources.bib.
type Source struct {
	Key    string
	Fields map[string]string
	Line   int
}

var entryHead = regexp.MustCompile(`^@[a-z]+\{([^,\s]+),\s*$`)

// ReadSources reads a file of BibTeX entries in the order of the file. It
// understands what this project writes: an entry's head on a line of its own,
// fields as name = {value}, several to a line or not, and a closing brace alone.
func ReadSources(file string) ([]Source, error) {
	b, err := os.ReadFile(file)
	if err != nil {
		return nil, fmt.Errorf("read sources: %w", err)
	}
	var sources []Source
	var body strings.Builder
	open := false
	for i, line := range strings.Split(string(b), "\n") {
		head := entryHead.FindStringSubmatch(line)
		switch {
		case head != nil && open:
			return nil, fmt.Errorf("read sources: %s:%d: entry %s begins before the last one ended", file, i+1, head[1])
		case head != nil:
			sources = append(sources, Source{Key: head[1], Line: i + 1})
			open = true
			body.Reset()
		case line == "}" && open:
			sources[len(sources)-1].Fields = readFields(body.String())
			open = false
		case open:
			body.WriteString(line + "\n")
		case strings.TrimSpace(line) != "" && !strings.HasPrefix(line, "%"):
			return nil, fmt.Errorf("read sources: %s:%d: %q stands outside of an entry", file, i+1, line)
		}
	}
	return sources, nil
}

var fieldHead = regexp.MustCompile(`^[\s,]*([a-z]+)\s*=\s*\{`)

// readFields reads name = {value} pairs; braces inside a value are balanced.
func readFields(body string) map[string]string {
	fields := map[string]string{}
	for {
		head := fieldHead.FindStringSubmatchIndex(body)
		if head == nil {
			return fields
		}
		name, rest := body[head[2]:head[3]], body[head[1]:]
		end := closingBrace(rest)
		fields[name] = withoutTeX(rest[:end])
		body = rest[min(end+1, len(rest)):]
	}
}

func closingBrace(s string) int {
	depth := 1
	for i, r := range s {
		switch r {
		case '{':
			depth++
		case '}':
			depth--
		}
		if depth == 0 {
			return i
		}
	}
	return len(s)
}

var unTeX = strings.NewReplacer(
	`{\"a}`, "ä", `{\"o}`, "ö", `{\"u}`, "ü", `{\"U}`, "Ü", `{\textdegree}`, "°", `\textdegree`, "°",
	`\'y`, "ý", `\oe`, "øe", `\%`, "%", `--`, "–", `{`, "", `}`, "",
)

func withoutTeX(s string) string {
	return strings.Join(strings.Fields(unTeX.Replace(s)), " ")
}

// Cite returns the entry as a line of text for people.
func (s Source) Cite() string {
	f := s.Fields
	var b strings.Builder
	if f["author"] != "" {
		b.WriteString(authors(f["author"]) + ": ")
	}
	b.WriteString(f["title"])
	where := f["journal"]
	for _, other := range []string{f["series"], f["booktitle"], f["howpublished"], f["publisher"]} {
		if where == "" {
			where = other
		}
	}
	if where != "" {
		b.WriteString(". " + where)
	}
	if f["volume"] != "" {
		b.WriteString(" " + f["volume"])
	}
	if f["number"] != "" {
		b.WriteString(" (no. " + f["number"] + ")")
	}
	if f["pages"] != "" {
		b.WriteString(", " + f["pages"])
	}
	if f["year"] != "" {
		b.WriteString(", " + f["year"])
	}
	if f["doi"] != "" {
		b.WriteString(", doi " + f["doi"])
	}
	return b.String()
}

// authors turns "Malowicki, Mark G. and Shellhammer, Thomas H." into
// "Malowicki and Shellhammer".
func authors(field string) string {
	var names []string
	for name := range strings.SplitSeq(field, " and ") {
		last, _, comma := strings.Cut(name, ",")
		if !comma && strings.Contains(name, ". ") {
			last = name[strings.LastIndex(name, ". ")+2:]
		}
		names = append(names, strings.TrimSpace(last))
	}
	if n := len(names); n > 1 && names[n-1] == "others" {
		return strings.Join(names[:n-1], ", ") + " et al."
	} else if n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return names[0]
}

// datedKey is the usual shape of a key: a name and a year.
var datedKey = regexp.MustCompile(`\b[a-z]{2,}(?:18|19|20)[0-9]{2}[a-z]?\b`)

var word = regexp.MustCompile(`[a-z][a-z0-9-]*[a-z0-9]`)

// Cited returns the keys named in the source line of a formula, sorted. The
// line begins with a key and may name more. Keys that no entry has are
// returned apart.
func Cited(line string, known map[string]Source) (keys, unknown []string) {
	for i, w := range word.FindAllString(line, -1) {
		_, ok := known[w]
		switch {
		case ok && (i == 0 || datedKey.MatchString(w) || !plainWord(w)):
			keys = append(keys, w)
		case !ok && (i == 0 || datedKey.MatchString(w)):
			unknown = append(unknown, w)
		}
	}
	slices.Sort(keys)
	return slices.Compact(keys), unknown
}

// plainWord reports whether a key is an ordinary word, which cites nothing
// when it stands in the middle of a sentence.
func plainWord(key string) bool { return key == "practice" || key == "derived" || key == "balling" }

// DatedKeys returns every word of text that looks like a key with a year.
func DatedKeys(text string) []string { return datedKey.FindAllString(text, -1) }

// ByKey returns sources by their keys; a key given twice is an error.
func ByKey(sources []Source) (map[string]Source, error) {
	known := map[string]Source{}
	for _, s := range sources {
		if before, twice := known[s.Key]; twice {
			return nil, fmt.Errorf("source %s stands in lines %d and %d", s.Key, before.Line, s.Line)
		}
		known[s.Key] = s
	}
	return known, nil
}
