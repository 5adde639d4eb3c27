// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"fmt"
	"strings"
	"testing"
)

func TestSearch(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "recipe", "ferry-brown", "title: Ferry Brown\nhop: challenger\nNOT too dry")
	put(t, b, "style", "brown", "title: Brown ale\nMilder als ein Kölsch")
	put(t, b, "recipe", "pale", "title: Pale\nnot brown at all")
	put(t, b, "recipe", "ferry-brown", "title: Ferry Brown\nhop: bramling\nNOT too dry")
	for _, test := range []struct{ words, kind, want string }{
		{"brown", "", "[ferry-brown brown pale]"}, // titles first, last changed first
		{"BRO", "", "[ferry-brown brown pale]"},
		{"brown", "recipe", "[ferry-brown pale]"},
		{"brown", `re"cipe`, "[ferry-brown pale]"},
		{"ferry bro", "", "[ferry-brown]"},
		{"bramling", "", "[ferry-brown]"},
		{"challenger", "", "[]"}, // an old revision
		{"kolsch", "", "[brown]"},
		{"recipe", "", "[]"}, // the kind isn't a word of the text
		{"NOT", "", "[ferry-brown pale]"},
		{"", "", "[]"},
		{`"`, "", "[]"},
		{`brown" OR "pale`, "", "[]"}, // OR is a word
		{"title:", "", "[ferry-brown pale brown]"},
		{"-brown (ferry", "", "[ferry-brown]"},
		{"brown*", "", "[ferry-brown brown pale]"},
		{"NEAR(brown ferry)", "", "[]"},
		{"{title} : brown ^ferry + AND", "", "[]"},
		{"\xff\x00brown", "", "[ferry-brown brown pale]"},
	} {
		hits, _, err := b.Search(ctx, Query{Words: test.words, Kind: test.kind})
		names := []string{}
		for _, hit := range hits {
			names = append(names, hit.Slug)
		}
		if got := fmt.Sprint(names); err != nil || got != test.want {
			t.Errorf("Search %q %q = %s, %v; want %s", test.words, test.kind, got, err, test.want)
		}
	}
}

func FuzzSearch(f *testing.F) {
	for _, seed := range []string{"brown", `"`, "a AND", "*", "^", "NEAR(", "{a}:b", "-", "\x00", "é́", "日本"} {
		f.Add(seed)
	}
	b := openTest(f)
	put(f, b, "recipe", "a", "title: A\nbrown")
	f.Fuzz(func(t *testing.T, words string) {
		if _, _, err := b.Search(context.Background(), Query{Words: words}); err != nil {
			t.Errorf("Search %q: %v", words, err)
		}
	})
}

func TestSnippet(t *testing.T) {
	long := strings.Repeat("ä ", 100) + "Bramling Cross" + strings.Repeat(" ö", 100)
	got := snippet(long, []string{"bramling"})
	if !strings.Contains(got, "Bramling Cross") || !strings.HasPrefix(got, "… ") || !strings.HasSuffix(got, " …") {
		t.Errorf("snippet = %q", got)
	}
	if strings.ContainsRune(got, '\uFFFD') {
		t.Errorf("snippet cuts a letter: %q", got)
	}
	if got := snippet("short\ntext", []string{"absent"}); got != "short text" {
		t.Errorf("snippet of a short text = %q", got)
	}
}
