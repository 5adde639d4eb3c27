// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"strings"
)

// foldings spell letters with marks as plain ones.
var foldings = strings.NewReplacer(
	"ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "æ", "ae", "ø", "o", "å", "a", "œ", "oe", "ł", "l", "đ", "d",
	"á", "a", "à", "a", "â", "a", "ã", "a", "ą", "a", "č", "c", "ć", "c", "ç", "c", "ď", "d", "é", "e", "è", "e", "ê", "e", "ë", "e", "ě", "e", "ę", "e",
	"í", "i", "ì", "i", "î", "i", "ï", "i", "ň", "n", "ñ", "n", "ń", "n", "ó", "o", "ò", "o", "ô", "o", "õ", "o", "ř", "r",
	"š", "s", "ś", "s", "ť", "t", "ú", "u", "ù", "u", "û", "u", "ů", "u", "ý", "y", "ž", "z", "ź", "z", "ż", "z")

// maxSlug is the longest address of a document that is made from its title.
const maxSlug = 60

// slugOf turns a title into an address: "Ferry Brown 4" into "ferry-brown-4".
func slugOf(title string) string {
	words := strings.FieldsFunc(foldings.Replace(strings.ToLower(title)), func(r rune) bool {
		return !('a' <= r && r <= 'z' || '0' <= r && r <= '9')
	})
	slug := strings.Join(words, "-")
	if len(slug) > maxSlug {
		slug = strings.TrimRight(slug[:maxSlug], "-")
	}
	return slug
}

// freeSlug returns an address for a new document that none had before.
func (s *Server) freeSlug(ctx context.Context, kind, title string) (string, error) {
	first := slugOf(title)
	if first == "" {
		first = kind
	}
	for n := 1; n < 1000; n++ {
		slug := first
		if n > 1 {
			slug = fmt.Sprintf("%s-%d", first, n)
		}
		_, err := s.book.Get(ctx, kind, slug)
		if errors.Is(err, ErrNotFound) {
			return slug, nil
		}
		if err != nil {
			return "", err
		}
	}
	return "", &RefusedError{"There are too many of that name. Choose another one."}
}
