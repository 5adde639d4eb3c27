// SPDX-License-Identifier: MIT

package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite the expected output in the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"gyle": main})
}

// The scripts run gyle as a user does. The documents of the demo scenario lie
// in the folder they start in.
func TestScripts(t *testing.T) {
	examples, err := filepath.Abs("../../examples")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: *update,
		Setup: func(env *testscript.Env) error {
			files, err := filepath.Glob(filepath.Join(examples, "*.yaml"))
			if err != nil {
				return err
			}
			for _, file := range files {
				text, err := os.ReadFile(file)
				if err == nil {
					err = os.WriteFile(filepath.Join(env.WorkDir, filepath.Base(file)), text, 0o644)
				}
				if err != nil {
					return err
				}
			}
			return nil
		},
	})
}
