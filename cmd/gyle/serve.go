// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"syscall"
	"unicode"

	"gyle/internal/store"
	"gyle/internal/web"
)

// serveCommand opens the workbench in the browser.
type serveCommand struct {
	Book string `arg:"" optional:"" help:"The book, a file ending in .gylebook; it is made when there is none. Without it, the book in your home folder (with --demo, one in the folder for passing files)."`
	Port int    `default:"8417" help:"Port to answer on; 0 takes a free one."`
	LAN  bool   `name:"lan" help:"Answer other devices on the network, too, once they are paired by a code."`
	Demo bool   `help:"Fill a new book with the example: an oat brown ale, two houses, two sheds."`
	Open bool   `help:"Open the browser."`
}

func (c *serveCommand) Help() string {
	return "Example:\n  gyle serve --demo --open\n\n" +
		"It answers on this machine alone unless --lan is given. Stop it with Ctrl-C; what was saved is safe at any time."
}

// Run serves until it is interrupted.
func (c *serveCommand) Run(s *streams) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return c.serve(ctx, s)
}

// garbagePercent lets memory grow to three times what is in use before it is
// gone through. What is in use are some megabytes; the time goes to the pages.
const garbagePercent = 200

func (c *serveCommand) serve(ctx context.Context, s *streams) (err error) {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbagePercent)
	}
	book, err := c.openBook(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	listener, err := c.listen()
	if err != nil {
		return err
	}
	defer listener.Close()
	port := listener.Addr().(*net.TCPAddr).Port
	server, err := web.New(c.options(book, port, s))
	if err != nil {
		return err
	}
	c.announce(s.out, server, book.Path(), port)
	if c.Open {
		openBrowser(localAddress(port))
	}
	return server.Serve(ctx, listener)
}

// openBook opens the book, and fills it when it is new and the example is
// wanted. The demonstration's own book also gets what the example gained since
// it was filled; what somebody changed there stays.
func (c *serveCommand) openBook(ctx context.Context) (*store.Book, error) {
	path, err := c.bookPath()
	if err != nil {
		return nil, err
	}
	book, err := store.Open(path, store.Options{Create: true, Check: checkDocument})
	if err != nil {
		return nil, bookError(path, err)
	}
	if !c.Demo || c.Book != "" && !book.Opening().Created {
		return book, nil
	}
	if err := fillWithExamples(ctx, book); err != nil {
		return nil, errors.Join(fmt.Errorf("fill %s with the example: %w", path, err), book.Close())
	}
	return book, nil
}

func (c *serveCommand) bookPath() (string, error) {
	switch {
	case c.Book != "":
		return c.Book, nil
	case c.Demo:
		return filepath.Join(os.TempDir(), "saltpan-lane.gylebook"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", fmt.Errorf("find your home folder: %w\n   name the book: gyle serve FILE.gylebook", err)
	}
	return filepath.Join(home, "gyle.gylebook"), nil
}

func (c *serveCommand) listen() (net.Listener, error) {
	host := "127.0.0.1"
	if c.LAN {
		host = ""
	}
	l, err := net.Listen("tcp", net.JoinHostPort(host, strconv.Itoa(c.Port)))
	if errors.Is(err, syscall.EADDRINUSE) {
		return nil, fmt.Errorf("port %d is taken, perhaps by another gyle\n   choose another one: gyle serve --port %d", c.Port, c.Port+1)
	}
	if err != nil {
		return nil, fmt.Errorf("answer on port %d: %w", c.Port, err)
	}
	return l, nil
}

func (c *serveCommand) options(book *store.Book, port int, s *streams) web.Options {
	o := web.Options{
		Book: webBook{book}, Kinds: bookKinds(), LAN: c.LAN,
		Demo: func(ctx context.Context) error { return fillWithExamples(ctx, book) },
		Log:  slog.New(slog.NewTextHandler(s.err, nil)),
	}
	if !c.LAN {
		return o
	}
	if name, err := os.Hostname(); err == nil {
		name = strings.ToLower(name)
		o.Names = []string{name, name + ".local"}
	}
	o.Links = lanAddresses(port)
	o.OnPair = func(device, nextCode string) {
		fmt.Fprintf(s.out, "paired             %s\ncode for the next  %s\n", printable(device), nextCode)
	}
	return o
}

func (c *serveCommand) announce(out io.Writer, server *web.Server, path string, port int) {
	fmt.Fprintf(out, "The book  %s\nlies open at  %s\n", path, localAddress(port))
	if c.LAN {
		for _, a := range lanAddresses(port) {
			fmt.Fprintf(out, "for other devices  %s\n", a)
		}
		fmt.Fprintf(out, "code to pair one   %s   (QR code: %sdevices)\n", server.PairingCode(), localAddress(port))
	}
	fmt.Fprintln(out, "Ctrl-C closes it.")
}

// printable is a name that a device gave itself, fit for a terminal.
func printable(name string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return -1
		}
		return r
	}, name)
}

func localAddress(port int) string { return fmt.Sprintf("http://localhost:%d/", port) }

// lanAddresses are the addresses under which other devices find this machine.
func lanAddresses(port int) (list []string) {
	own, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	for _, a := range own {
		if n, ok := a.(*net.IPNet); ok && n.IP.To4() != nil && !n.IP.IsLoopback() && !n.IP.IsLinkLocalUnicast() {
			list = append(list, fmt.Sprintf("http://%s:%d/", n.IP, port))
		}
	}
	return list
}

// openBrowser asks the system to show an address. When it can't, the address
// has been printed.
func openBrowser(address string) {
	command := map[string][]string{
		"darwin": {"open"}, "windows": {"rundll32", "url.dll,FileProtocolHandler"},
	}[runtime.GOOS]
	if command == nil {
		command = []string{"xdg-open"}
	}
	if err := exec.Command(command[0], append(command[1:], address)...).Start(); err != nil {
		return
	}
}
