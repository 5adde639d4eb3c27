// SPDX-License-Identifier: MIT

// Command gen writes docs/formulas.md and science/catalogue.go from the
// comments of the chapters in science. It is run by `go generate ./...`, in
// the folder science, and takes the root of the project as its argument.
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"gyle/internal/formulas"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: gen ROOT")
		os.Exit(2)
	}
	if err := write(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "gen:", err)
		os.Exit(1)
	}
}

func write(root string) error {
	c, err := formulas.Load(root)
	if err != nil {
		return err
	}
	code, err := c.Go()
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(root, "science", "catalogue.go"), code, 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(root, "docs", "formulas.md"), c.Markdown(), 0o644)
}
