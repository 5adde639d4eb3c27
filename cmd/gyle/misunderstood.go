// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/alecthomas/kong"

	"gyle/internal/document"
)

// helpFirst reads "gyle help plan" as "gyle plan --help".
func helpFirst(args []string) []string {
	if args[0] != "help" {
		return args
	}
	return append(args[1:len(args):len(args)], "--help")
}

// wordings put what the parser says into the words of the help.
var wordings = []struct {
	said *regexp.Regexp
	ours string
}{
	{regexp.MustCompile(`^missing flags: (.*)$`), "it needs $1"},
	{regexp.MustCompile(`^expected "(.*)"$`), "it needs $1"},
	{regexp.MustCompile(`^(\S+): expected "<key>=<value>" but got "(.*)"$`), "$1: write the hop and the one to use for it, such as challenger=northdown, not $2"},
	{regexp.MustCompile(`^(\S+): expected a valid 64 bit int but got "(.*)"$`), "$1: write a whole number, not $2"},
	{regexp.MustCompile(`^(\S+): expected \S+ value but got "EOL".*$`), "$1: a value is missing behind it"},
	{regexp.MustCompile(`^(\S+) must be one of (.*) but got "(.*)"$`), "$1: write one of $2, not $3"},
}

// misunderstood says what is wrong with a command line, and where to read on.
func misunderstood(parser *kong.Kong, args []string, err error) string {
	var commands []string
	for _, node := range parser.Model.Children {
		commands = append(commands, node.Name)
	}
	command := ""
	for _, name := range commands {
		if args[0] == name {
			command = name
		}
	}
	if command == "" && !strings.HasPrefix(args[0], "-") {
		hint := "the commands are " + strings.Join(commands, ", ")
		if near, ok := document.Nearest(args[0], commands); ok {
			hint = "did you mean gyle " + near + "?"
		}
		return fmt.Sprintf("gyle: there is no command %s\n   %s", args[0], hint)
	}
	said := err.Error()
	for _, w := range wordings {
		if w.said.MatchString(said) {
			said = w.said.ReplaceAllString(said, w.ours)
			break
		}
	}
	call := strings.TrimSpace("gyle " + command)
	return fmt.Sprintf("%s: %s\n   %s --help shows how", call, said, call)
}
