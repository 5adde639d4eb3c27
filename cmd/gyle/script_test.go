// SPDX-License-Identifier: MIT

package main

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

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
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"await": await, "newer": newer, "bytes": writeBytes, "words": readWords,
		},
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

// await FILE waits until a program running in the background has made a file.
func await(ts *testscript.TestScript, neg bool, args []string) {
	const patience = 30 * time.Second
	for end := time.Now().Add(patience); ; time.Sleep(10 * time.Millisecond) {
		if _, err := os.Stat(ts.MkAbs(args[0])); err == nil {
			return
		}
		if time.Now().After(end) {
			ts.Fatalf("%s did not appear", args[0])
		}
	}
}

// newer BOOK marks a book as written by a program to come. The user version
// stands big-endian at byte 60 (SQLite, "Database File Format", section 1.3).
func newer(ts *testscript.TestScript, neg bool, args []string) {
	file, err := os.OpenFile(ts.MkAbs(args[0]), os.O_RDWR, 0)
	ts.Check(err)
	_, err = file.WriteAt([]byte{0, 0, 0, 99}, 60)
	ts.Check(errors.Join(err, file.Close()))
}

// bytes FILE TEXT writes a file of which each byte counts; TEXT is a quoted Go
// string. A third argument repeats it.
func writeBytes(ts *testscript.TestScript, neg bool, args []string) {
	text, err := strconv.Unquote(`"` + args[1] + `"`)
	ts.Check(err)
	if len(args) > 2 {
		n, err := strconv.Atoi(args[2])
		ts.Check(err)
		text = strings.Repeat(text, n)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o644))
}
