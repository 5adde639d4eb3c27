// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"log/slog"
	"net"
	"net/http"
	"sync"
	"time"
)

// Options say how the workbench is served.
type Options struct {
	Book  Book
	Kinds []string // kinds of document that the book can read; nil for all in [chapters]

	// Demo fills an empty book with the example; nil where there is none.
	Demo func(context.Context) error

	LAN   bool     // other devices may pair; without it only this machine is answered
	Names []string // names of this machine beside localhost and its addresses
	Links []string // addresses for other devices, the best first: "http://192.168.1.5:8417/"

	// OnPair is told which device was paired, and the code for the next one.
	OnPair func(device, nextCode string)

	Log *slog.Logger     // nil is slog.Default()
	Now func() time.Time // nil is time.Now
}

// Server answers the requests of browsers.
type Server struct {
	book     Book
	options  Options
	chapters []chapter
	pages    pages
	parsed   *cache[parsedKey, any]
	figured  *cache[figuredKey, *figuredRecipe]
	gyles    *cache[parsedKey, *openGyle]
	lessons  lessonShelf
	briefs   briefShelf
	starting sync.Mutex // one gyle at a time asks for a vessel
	devices  *devices
	ballots  sync.Mutex // one answer at a time
	outcomes *cache[parsedKey, *outcome]
	handler  http.Handler
	log      *slog.Logger
	now      func() time.Time
}

// New makes a server. It fails only if a template is broken or the book's list
// of paired devices can't be read.
func New(o Options) (*Server, error) {
	s := &Server{book: o.Book, options: o, log: o.Log, now: o.Now, chapters: chaptersOf(o.Kinds)}
	if s.log == nil {
		s.log = slog.Default()
	}
	if s.now == nil {
		s.now = time.Now
	}
	s.parsed, s.figured = newCache[parsedKey, any](mostParsed), newCache[figuredKey, *figuredRecipe](mostFigured)
	s.outcomes, s.gyles = newCache[parsedKey, *outcome](mostOutcomes), newCache[parsedKey, *openGyle](mostOpen)
	var err error
	if s.pages, err = readPages(); err != nil {
		return nil, err
	}
	if s.devices, err = readDevices(context.Background(), o.Book, s.now); err != nil {
		return nil, err
	}
	s.handler = s.guard(s.routes())
	return s, nil
}

func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }

// PairingCode is the code that pairs the next device, for the terminal.
func (s *Server) PairingCode() string { return s.devices.currentCode() }

// How long a request and the last requests after the end may take.
const (
	headerTimeout = 5 * time.Second
	readTimeout   = 30 * time.Second
	writeTimeout  = time.Minute
	idleTimeout   = 2 * time.Minute
	graceTimeout  = 5 * time.Second
)

// Serve answers on a listener until ctx is done; requests under way are then
// finished.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{
		Handler:           s,
		ReadHeaderTimeout: headerTimeout,
		ReadTimeout:       readTimeout,
		WriteTimeout:      writeTimeout,
		IdleTimeout:       idleTimeout,
		MaxHeaderBytes:    64 << 10,
		ErrorLog:          slog.NewLogLogger(s.log.Handler(), slog.LevelWarn),
	}
	ahead, stop := context.WithCancel(ctx)
	var reading sync.WaitGroup
	reading.Go(func() { s.readAhead(ahead) })
	defer func() { stop(); reading.Wait() }()
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(l) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	grace, cancel := context.WithTimeout(context.Background(), graceTimeout)
	defer cancel()
	err := server.Shutdown(grace)
	if served := <-ended; !errors.Is(served, http.ErrServerClosed) {
		return served
	}
	return err
}
