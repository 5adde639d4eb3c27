// SPDX-License-Identifier: MIT

// Command gyle develops, proves and teaches beer recipes. Documents are plain
// YAML; a plan brings a recipe, a brewhouse, a stock and a water together.
// "gyle help" lists what it can do, and each command shows an example.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"

	"github.com/alecthomas/kong"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

// The exit codes of gyle.
const (
	exitOK     = 0
	exitFault  = 1 // a document has faults, a plan can't be made, a book can't be opened
	exitUsage  = 2 // the command itself was not understood
	exitBroken = 3 // a limit of a style is broken (check --strict)
)

// errBroken ends "check --strict" after the verdicts have been printed.
var errBroken = errors.New("a limit of the style is broken")

// usageError is a command that can't be understood, beyond what the parser sees.
type usageError struct{ error }

func (e *usageError) Unwrap() error { return e.error }

func usage(format string, args ...any) error { return &usageError{fmt.Errorf(format, args...)} }

// errFaults ends a check after the faults have been printed.
var errFaults = errors.New("")

// streams is what a command reads from and writes to.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// commandLine is the whole of it; each field is a command.
type commandLine struct {
	Check       checkCommand       `cmd:"" help:"Read documents, say what is wrong with them, and hold a recipe against its style."`
	Plan        planCommand        `cmd:"" help:"Work out kilos, litres, grams and minutes for a recipe on a house."`
	Compare     compareCommand     `cmd:"" help:"Set one recipe on two houses, or two recipes on one house, side by side."`
	Why         whyCommand         `cmd:"" help:"Say how a figure comes about: formula, inputs, source, validity."`
	Formulate   formulateCommand   `cmd:"" help:"Find a recipe that fits a style, from what is in the shed."`
	Treat       treatCommand       `cmd:"" help:"Find salts, soft water and acid for a liquor."`
	Log         logCommand         `cmd:"" help:"Print the log of a gyle, or add what was read or done."`
	Day         dayCommand         `cmd:"" help:"Print the brew day of a gyle, or of several on one axis."`
	Calendar    calendarCommand    `cmd:"" help:"Say which fermenter holds which beer, and when one is free."`
	Lots        lotsCommand        `cmd:"" help:"Say what gyles used and reserve of each lot, and what is left."`
	Package     packageCommand     `cmd:"" help:"Say whether a gyle may be filled, with which sugar or pressure, and log it."`
	Reconstruct reconstructCommand `cmd:"" help:"Work out from the log what was really brewed."`
	Publish     publishCommand     `cmd:"" help:"Write a recipe as a page that brews on the reader's kit, as text, as a label, or as a site."`
	Tasting     tastingCommand     `cmd:"" help:"Plan a blind tasting, or say what it shows."`
	Example     exampleCommand     `cmd:"" help:"Write the example documents into a folder: a recipe, two houses, a style."`
	Export      exportCommand      `cmd:"" help:"Write a gyle book as plain text."`
	Import      importCommand      `cmd:"" help:"Read a folder of documents into a gyle book, all of it or nothing."`
	Backup      backupCommand      `cmd:"" help:"Copy a gyle book, also while its pages are open."`
	Schema      schemaCommand      `cmd:"" help:"Print the JSON Schema of a kind of document, or of what --json prints."`
	Version     kong.VersionFlag   `help:"Print the version."`
	Serve       serveCommand       `cmd:"" help:"Open the gyle book in the browser."`
}

const description = `Develop, prove and teach beer recipes: the style as rules, the recipe as intent, the plan for any brewhouse.

Documents are plain text. "gyle example DIR" writes some to play with. A name that is no file is looked up in the gyle book
given by --book or GYLE_BOOK.

Exit codes: 0 all is well; 1 a document has faults, or what was asked can't be done; 2 the command was not understood;
3 a limit of the style is broken (check --strict).`

// exitError carries kong's wish to exit (after --help) out of the parser.
type exitError int

func (e exitError) Error() string { return "exit" }

// run is main without the process: it returns the exit code.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) (code int) {
	defer func() {
		broken := recover()
		if e, ok := broken.(exitError); ok {
			code = int(e)
		} else if broken != nil {
			panic(broken)
		}
	}()
	var line commandLine
	parser, err := kong.New(&line,
		kong.Name("gyle"),
		kong.Description(description),
		kong.Vars{"version": version()},
		kong.Writers(stdout, stderr),
		kong.Exit(func(code int) { panic(exitError(code)) }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
	)
	if err != nil {
		fmt.Fprintln(stderr, "gyle:", err)
		return exitUsage
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	context, err := parser.Parse(helpFirst(args))
	if err != nil {
		fmt.Fprintln(stderr, misunderstood(parser, args, err))
		return exitUsage
	}
	return report(context.Run(&streams{stdin, stdout, stderr}), stderr)
}

// version tells which gyle this is, as the build knows it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "gyle"
	}
	text := "gyle " + info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			text += " (" + s.Value[:min(12, len(s.Value))] + ")"
		}
	}
	return text
}

// report prints an error and turns it into an exit code.
func report(err error, stderr io.Writer) int {
	switch {
	case err == nil:
		return exitOK
	case errors.Is(err, errBroken):
		return exitBroken
	case errors.Is(err, errFaults):
		return exitFault
	}
	fmt.Fprintln(stderr, err)
	var misused *usageError
	if errors.As(err, &misused) {
		return exitUsage
	}
	return exitFault
}
