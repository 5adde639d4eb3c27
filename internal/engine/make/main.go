// SPDX-License-Identifier: MIT

// Command make builds the engine of published pages into the folder that is
// named: go run ./internal/engine/make publish/engine
package main

import (
	"fmt"
	"os"

	"gyle/internal/engine"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: make FOLDER")
		os.Exit(2)
	}
	name, err := engine.Build(".", os.Args[1])
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	if name == engine.Gzipped {
		fmt.Println("the program xz is missing: published pages will be about half a megabyte larger than they need be")
	}
}
