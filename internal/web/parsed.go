// SPDX-License-Identifier: MIT

package web

import (
	"container/list"
	"sync"
)

// cache keeps the last results of something slow. It may be used by several
// pages at once; what it hands out is shared and must not be changed.
type cache[K comparable, V any] struct {
	mu      sync.Mutex
	most    int
	entries map[K]*list.Element
	recent  list.List // of cached[K, V], the last used first
}

type cached[K comparable, V any] struct {
	key   K
	value V
}

func newCache[K comparable, V any](most int) *cache[K, V] {
	return &cache[K, V]{most: most, entries: map[K]*list.Element{}}
}

func (c *cache[K, V]) get(key K) (value V, ok bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	e, ok := c.entries[key]
	if !ok {
		return value, false
	}
	c.recent.MoveToFront(e)
	return e.Value.(cached[K, V]).value, true
}

// put keeps a value and drops the one that was out of use for longest. Of two
// values under one key the first stays.
func (c *cache[K, V]) put(key K, value V) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.entries[key] != nil {
		return
	}
	c.entries[key] = c.recent.PushFront(cached[K, V]{key, value})
	for c.recent.Len() > c.most {
		last := c.recent.Back()
		delete(c.entries, c.recent.Remove(last).(cached[K, V]).key)
	}
}

// How much is kept: about the recipes of one brewer's decades. A parsed recipe
// takes four kilobytes with its text, the figures of a version three (measured).
const (
	mostParsed  = 6000
	mostFigured = 6000
)

// parsedKey is what a document is parsed from. The text itself is the key, not
// a revision, so that a draft never stands for what was saved.
type parsedKey struct{ name, text string }

// parsed parses the text of a document, or returns what was made of the same
// text before. Nobody changes a document once it is parsed.
func parsed[T any](s *Server, name, text string, parse func(string, []byte) (*T, error)) (*T, error) {
	key := parsedKey{name, text}
	if known, ok := s.parsed.get(key); ok {
		if d, ok := known.(*T); ok {
			return d, nil
		}
	}
	d, err := parse(name, []byte(text))
	if err != nil {
		return nil, err
	}
	s.parsed.put(key, d)
	return d, nil
}
