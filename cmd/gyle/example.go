// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"gyle/examples"
)

// exampleCommand writes the example documents into a folder.
type exampleCommand struct {
	Folder string `arg:"" help:"Folder to write to; it is made when there is none. Files that are there stay as they are."`
}

// Help is shown by "gyle example --help".
func (exampleCommand) Help() string {
	return `Example:

  gyle example ferry
  cd ferry
  gyle plan ferry-brown-4.yaml --house garage.yaml --stock garage-shed.yaml --water saltpan-lane.yaml

The documents are the oat brown ale of a club that doesn't exist: its style, four versions of the recipe, two houses, two
sheds and a town's water. They are plain text to change and play with; "gyle import my.gylebook ferry --new" makes a book.`
}

// Run writes the documents. It replaces no file.
func (c *exampleCommand) Run(s *streams) error {
	if isFile(c.Folder) {
		return notFolder(c.Folder)
	}
	if err := os.MkdirAll(c.Folder, 0o755); err != nil {
		return fmt.Errorf("make the folder %s: %w", c.Folder, err)
	}
	names, err := fs.Glob(examples.Documents(), "*.yaml")
	if err != nil {
		return err
	}
	for _, name := range names {
		text, err := fs.ReadFile(examples.Documents(), name)
		if err != nil {
			return err
		}
		to := filepath.Join(c.Folder, name)
		if _, err := os.Lstat(to); err == nil {
			fmt.Fprintf(s.out, "%s is there already and stays\n", to)
			continue
		}
		if err := os.WriteFile(to, text, 0o644); err != nil {
			return fmt.Errorf("write %s: %w", to, err)
		}
		fmt.Fprintln(s.out, to)
	}
	return nil
}
