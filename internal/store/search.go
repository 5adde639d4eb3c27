// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Query asks for living documents that hold all the words. The last word, and
// every other of two letters or more, may be the beginning of a word.
type Query struct {
	Words string // as typed; no sign in it has a meaning
	Kind  string // only this kind; empty for all
	Page
}

// A Hit is a document found.
type Hit struct {
	Kind, Slug, Title string
	Snippet           string // a piece of the text around the first word found
}

const (
	mostWords     = 8  // words of a query that count
	snippetBefore = 40 // bytes
	snippetAfter  = 120
)

// Search finds documents: first those whose title holds all the words, then
// those that hold them anywhere; in each group the last changed first.
func (b *Book) Search(ctx context.Context, q Query) (found []Hit, next string, err error) {
	words := searchWords(q.Words)
	if len(words) == 0 {
		return nil, "", nil
	}
	group, start := "title", before("")
	if at := cursor(q.After, 2); at[0] != "" {
		group, start = at[0], before(at[1])
	}
	found, next, err = b.searchFrom(ctx, matcher(words, q.Kind), words, group, start, q.limit())
	if err != nil {
		return nil, "", fmt.Errorf("search for %s: %w", quote(q.Words), err)
	}
	return found, next, nil
}

func (b *Book) searchFrom(ctx context.Context, match func(group string) string, words []string, group string, start int64, limit int) (found []Hit, next string, err error) {
	for {
		hits, last, more, err := b.searchGroup(ctx, group, match(group), words, start, limit-len(found))
		if err != nil {
			return nil, "", err
		}
		found = append(found, hits...)
		switch {
		case more:
			return found, join(group, strconv.FormatInt(last, 10)), nil
		case group != "title":
			return found, "", nil
		case len(found) == limit:
			return found, join("text", ""), nil
		}
		group, start = "text", before("")
	}
}

// searchGroup reads one row more than it returns, to know whether there is one.
func (b *Book) searchGroup(ctx context.Context, group, match string, words []string, start int64, limit int) (hits []Hit, last int64, more bool, err error) {
	query := querySearch
	if group == "title" {
		query = querySearchTitle
	}
	rows, err := b.readers.QueryContext(ctx, query, match, start, limit+1)
	if err != nil {
		return nil, 0, false, err
	}
	defer rows.Close()
	for rows.Next() {
		if len(hits) == limit {
			return hits, last, true, nil
		}
		var h Hit
		var text string
		if err := rows.Scan(&last, &h.Kind, &h.Slug, &h.Title, &text); err != nil {
			return nil, 0, false, err
		}
		h.Snippet = snippet(text, words)
		hits = append(hits, h)
	}
	return hits, last, false, rows.Err()
}

// searchWords cuts what was typed into words of letters and digits. The rest,
// all the signs of the query language among them, falls away.
func searchWords(typed string) []string {
	words := strings.FieldsFunc(strings.ToValidUTF8(typed, " "), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r)
	})
	return words[:min(len(words), mostWords)]
}

// matcher writes the expression for a group of results. Words are quoted, so
// that AND or NEAR are words too.
func matcher(words []string, kind string) func(group string) string {
	terms := make([]string, len(words))
	for i, word := range words {
		terms[i] = `"` + word + `"`
		if utf8.RuneCountInString(word) >= 2 {
			terms[i] += " *"
		}
	}
	inTitle := "{title} : (" + strings.Join(terms, " AND ") + ")"
	anywhere := "{title text} : (" + strings.Join(terms, " AND ") + ")"
	return func(group string) string {
		match := inTitle
		if group != "title" {
			match = "(" + anywhere + ") NOT (" + inTitle + ")"
		}
		if kind != "" {
			match = `{kind} : "` + strings.ReplaceAll(kind, `"`, "") + `" AND (` + match + ")"
		}
		return match
	}
}

// snippet cuts a piece around the first of the words, or the beginning.
func snippet(text string, words []string) string {
	lower := strings.ToLower(text)
	if len(lower) != len(text) {
		lower = text // rare letters that change length: look for the words as typed
	}
	first := -1
	for _, word := range words {
		if at := strings.Index(lower, strings.ToLower(word)); at >= 0 && (first < 0 || at < first) {
			first = at
		}
	}
	from := max(first-snippetBefore, 0)
	to := min(max(first, 0)+snippetAfter, len(text))
	for from > 0 && !utf8.RuneStart(text[from]) {
		from--
	}
	for to < len(text) && !utf8.RuneStart(text[to]) {
		to++
	}
	piece := strings.Join(strings.Fields(text[from:to]), " ")
	if from > 0 {
		piece = "… " + piece
	}
	if to < len(text) {
		piece += " …"
	}
	return piece
}
