// SPDX-License-Identifier: MIT

package store

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// The test program starts itself again as a writer when these are set.
const (
	childBook = "GYLE_TEST_CHILD_BOOK" // the path of the book
	childName = "GYLE_TEST_CHILD_NAME" // the slug it writes
	childRuns = "GYLE_TEST_CHILD_RUNS" // saves before it ends; 0 for ever
)

func TestMain(m *testing.M) {
	if path := os.Getenv(childBook); path != "" {
		if err := writeAsChild(path, os.Getenv(childName), os.Getenv(childRuns)); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// writeAsChild saves a document and a log entry in turn and says each number
// after it was saved, never before.
func writeAsChild(path, slug, runs string) error {
	b, err := Open(path, Options{Check: lineChecker})
	if err != nil {
		return err
	}
	ctx := context.Background()
	most, _ := strconv.Atoi(runs)
	base := 0
	if r, err := b.Get(ctx, "gyle", slug); err == nil {
		base = r.Number
	}
	for n := 0; most == 0 || n < most; n++ {
		r, err := b.Put(ctx, Draft{Kind: "gyle", Slug: slug, Text: fmt.Sprintf("title: %s\nsave: %d\n", slug, base+1), Base: base})
		if err != nil {
			return err
		}
		base = r.Number
		fmt.Println("revision", r.Number)
		e, err := b.AppendEvent(ctx, slug, Event{Kind: "note", Body: []byte(fmt.Sprintf(`{"after":%d}`, base))})
		if err != nil {
			return err
		}
		fmt.Println("event", e.Seq)
	}
	return b.Close()
}

func startChild(t *testing.T, path, slug string, runs int) (*exec.Cmd, io.Reader) {
	t.Helper()
	self, err := os.Executable()
	must(t, err)
	command := exec.Command(self)
	command.Env = append(os.Environ(), childBook+"="+path, childName+"="+slug, childRuns+"="+strconv.Itoa(runs))
	command.Stderr = os.Stderr
	out, err := command.StdoutPipe()
	must(t, err)
	must(t, command.Start())
	return command, out
}

// acknowledged reads what a writer said until it fell silent, and calls enough
// after each line.
func acknowledged(out io.Reader, enough func(lines int)) map[string]int {
	last := map[string]int{}
	lines := bufio.NewScanner(out)
	for count := 1; lines.Scan(); count++ {
		what, number, _ := strings.Cut(lines.Text(), " ")
		if n, err := strconv.Atoi(number); err == nil { // the last line may be cut
			last[what] = n
		}
		enough(count)
	}
	return last
}

// A writer is killed again and again in the middle of its work. Whatever it said
// was saved must be there, and the file must be sound. This is a crash of the
// program; a loss of power can't be tried here.
func TestKilledWriterLosesNothing(t *testing.T) {
	rounds := 5
	switch {
	case os.Getenv("GYLE_SOAK") == "1":
		rounds = 200
	case testing.Short() || raceEnabled:
		t.Skip("needs a second process and many writes")
	}
	path := filepath.Join(t.TempDir(), "crash.gylebook")
	b, err := Open(path, testOptions())
	must(t, err)
	must(t, b.Close())
	random := rand.New(rand.NewPCG(1, 2))
	for round := range rounds {
		killAfter := 5 + random.IntN(60)
		command, out := startChild(t, path, "g", 0)
		said := acknowledged(out, func(lines int) {
			if lines == killAfter {
				command.Process.Kill()
			}
		})
		if err := command.Wait(); err == nil {
			t.Fatal("the writer ended by itself")
		}
		verifyAfterCrash(t, path, round, said)
	}
}

func verifyAfterCrash(t *testing.T, path string, round int, said map[string]int) {
	t.Helper()
	ctx := context.Background()
	b, err := Open(path, Options{Check: lineChecker})
	must(t, err)
	defer b.Close()
	if !b.Opening().Unclean {
		t.Errorf("round %d: the crash wasn't noticed", round)
	}
	r, err := b.Get(ctx, "gyle", "g")
	must(t, err)
	if r.Number < said["revision"] || r.Number > said["revision"]+1 || r.Text != fmt.Sprintf("title: g\nsave: %d\n", r.Number) {
		t.Errorf("round %d: revision %d was acknowledged, %d is there: %q", round, said["revision"], r.Number, r.Text)
	}
	last, err := b.Events(ctx, "g", EventPage{Newest: true, Limit: 1})
	must(t, err)
	if len(last) != 1 || last[0].Seq < said["event"] || last[0].Seq > said["event"]+1 {
		t.Errorf("round %d: entry %d was acknowledged, the last is %+v", round, said["event"], last)
	}
}

// Two programs write to one book at once: every save of both is there.
func TestTwoProgramsAtOnce(t *testing.T) {
	if testing.Short() || raceEnabled {
		t.Skip("needs more processes")
	}
	const saves = 40
	path := filepath.Join(t.TempDir(), "shared.gylebook")
	b := openAt(t, path)
	var waiting sync.WaitGroup
	errs := make([]error, 2)
	for i := range errs {
		command, out := startChild(t, path, fmt.Sprintf("g%d", i), saves)
		waiting.Go(func() {
			said := acknowledged(out, func(int) {})
			errs[i] = command.Wait()
			if said["revision"] != saves || said["event"] != saves {
				errs[i] = errors.Join(errs[i], fmt.Errorf("acknowledged %v, want %d each", said, saves))
			}
		})
	}
	for n := range saves { // and this program is a third
		put(t, b, "gyle", "ours", fmt.Sprintf("title: ours %d", n))
	}
	waiting.Wait()
	must(t, errors.Join(errs...))
	for slug, want := range map[string]int{"g0": saves, "g1": saves, "ours": saves} {
		if r, err := b.Get(context.Background(), "gyle", slug); err != nil || r.Number != want {
			t.Errorf("%s is at revision %d, %v; want %d", slug, r.Number, err, want)
		}
	}
	again := openAt(t, path)
	if again.Opening().Unclean {
		t.Error("programs that ended properly are taken for crashed ones")
	}
}
