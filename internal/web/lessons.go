// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"context"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/reconstruct"
)

// A house learns from its brews in the order in which they were brewed, and
// each is looked at with what the ones before it taught. That takes reading all
// their logs. So what was learned is kept, after each brew; a log that grew is
// read again, and what came after it.

// lessonShelf keeps what the houses learned.
type lessonShelf struct {
	mu     sync.Mutex
	houses map[string]*lessons
}

// lessons is what one house learned.
type lessons struct {
	mu     sync.Mutex
	wanted atomic.Int32 // who waits for mu
	house  *brewhouse.House
	dated  map[string]datedBrew
	taught []taught // in the order of brewing; never changed once it was handed out
}

// datedBrew is a brew and where it stands in the order.
type datedBrew struct {
	Brew
	date   gyle.Date
	number int
	silent bool // no entry yet, or it can't be read
}

// taught is the book of a house after a brew.
type taught struct {
	datedBrew
	book reconstruct.Book
}

// of returns the lessons of a house.
func (l *lessonShelf) of(slug string) *lessons {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.houses[slug] == nil {
		if l.houses == nil {
			l.houses = map[string]*lessons{}
		}
		l.houses[slug] = &lessons{}
	}
	return l.houses[slug]
}

// taught is what the brews of a house taught, one after the other, up to now.
// The house is nil where the book lacks its document.
func (s *Server) taught(ctx context.Context, slug string, house *brewhouse.House) ([]taught, error) {
	if slug == "" {
		return nil, nil
	}
	brews, err := s.book.Brews(ctx, brewhouse.Kind, slug)
	if err != nil {
		return nil, err
	}
	l := s.lessons.of(slug)
	l.wanted.Add(1)
	l.mu.Lock()
	l.wanted.Add(-1)
	defer l.mu.Unlock()
	if l.dated == nil || l.house != house {
		l.house, l.dated, l.taught = house, map[string]datedBrew{}, nil
	}
	order, read, err := s.inOrder(ctx, l, brews)
	if err != nil {
		return nil, err
	}
	same := 0
	for same < len(order) && same < len(l.taught) && l.taught[same].datedBrew == order[same] {
		same++
	}
	if same == len(order) && same == len(l.taught) {
		return l.taught, nil
	}
	chain := slices.Clone(l.taught[:same])
	for _, brew := range order[same:] {
		g := read[brew.Slug]
		if g == nil {
			if g, _, err = ReadGyle(ctx, s.book, brew.Slug); err != nil {
				return nil, err
			}
		}
		chain = append(chain, taught{brew, bookAfter(chain, house).After(g, house, brewName(g))})
	}
	l.taught = chain
	return chain, nil
}

// inOrder puts the brews that can teach in the order of brewing. What had to be
// read for that comes with it.
func (s *Server) inOrder(ctx context.Context, l *lessons, brews []Brew) (order []datedBrew, read map[string]*gyle.Gyle, err error) {
	read = map[string]*gyle.Gyle{}
	for _, b := range brews {
		known, ok := l.dated[b.Slug]
		if !ok || known.Brew != b {
			known = datedBrew{Brew: b, silent: true}
			began := time.Now()
			g, _, err := ReadGyle(ctx, s.book, b.Slug)
			l.giveWay(ctx, time.Since(began))
			switch {
			case ctx.Err() != nil:
				return nil, nil, ctx.Err()
			case err == nil && len(g.Log) > 0:
				known = datedBrew{Brew: b, date: g.Date, number: g.Number}
				read[b.Slug] = g
				s.briefs.keep(b, g, l.house)
			}
			l.dated[b.Slug] = known
		}
		if !known.silent {
			order = append(order, known)
		}
	}
	slices.SortStableFunc(order, func(x, y datedBrew) int {
		return cmp.Or(x.date.Compare(y.date.Time), cmp.Compare(x.number, y.number))
	})
	return order, read, nil
}

// bookAfter is the book after the last of some brews.
func bookAfter(chain []taught, house *brewhouse.House) reconstruct.Book {
	if len(chain) == 0 {
		return reconstruct.NewBook(house)
	}
	return chain[len(chain)-1].book
}

// before are the brews of days before that of a gyle.
func before(chain []taught, g *gyle.Gyle) []taught {
	n := slices.IndexFunc(chain, func(t taught) bool { return !t.date.Before(g.Date.Time) })
	if n < 0 {
		return chain
	}
	return chain[:n]
}

// aheadKey marks the context of what is read ahead of the pages.
type aheadKey struct{}

// givesWay is how many times as long as its work a reading ahead rests.
const givesWay = 10

// giveWay rests after work that nobody waits for, so that pages go first. It
// doesn't rest while a page waits for this very house.
func (l *lessons) giveWay(ctx context.Context, took time.Duration) {
	if ctx.Value(aheadKey{}) == nil || l.wanted.Load() > 0 {
		return
	}
	select {
	case <-ctx.Done():
	case <-time.After(givesWay * took):
	}
}

// readAhead learns from the brews of all houses, so that nobody waits for it on a
// page. What can't be read is told on its own page.
func (s *Server) readAhead(ctx context.Context) {
	ctx = context.WithValue(ctx, aheadKey{}, true)
	part := Part{Limit: 100}
	for ctx.Err() == nil {
		houses, next, err := s.book.List(ctx, brewhouse.Kind, part)
		if err != nil {
			return
		}
		for _, d := range houses {
			if house, err := optional(ctx, s, brewhouse.Kind, d.Slug, brewhouse.Parse); err == nil {
				_, _ = s.taught(ctx, d.Slug, house)
			}
		}
		if part.After = next; next == "" {
			return
		}
	}
}
