// SPDX-License-Identifier: MIT

package main

import (
	"io/fs"
	"os"
	"testing"

	"gyle/examples"
)

// The brewings of the example are those that the packages are tested with.
func TestExampleBrewings(t *testing.T) {
	for name, tested := range map[string]string{"gyle-17.yaml": "garage-v3.yaml", "gyle-21.yaml": "boathouse-v4.yaml"} {
		shown, err := fs.ReadFile(examples.Documents(), name)
		if err != nil {
			t.Fatal(err)
		}
		if text, err := os.ReadFile("../../gyle/testdata/" + tested); err != nil || string(text) != string(shown) {
			t.Errorf("%s isn't %s: %v", name, tested, err)
		}
	}
}
