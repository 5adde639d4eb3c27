// SPDX-License-Identifier: MIT

package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"gyle/internal/store"
	"gyle/internal/web"
)

// killRounds is how often the server is killed between entries: a few by
// default, 200 where there is time.
func killRounds() int {
	if os.Getenv("GYLE_SOAK") != "" {
		return 200
	}
	return 4
}

// The server is killed right after it has acknowledged an entry, and while it
// takes the next one. What was acknowledged is in the log, once, and what is
// sent again adds nothing.
func TestKilledBetweenEntries(t *testing.T) {
	if testing.Short() {
		t.Skip("starts and kills a server")
	}
	own, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(t.TempDir(), "gyle")
	if err := os.Symlink(own, program); err != nil {
		t.Skip("no symbolic links here:", err)
	}
	book := filepath.Join(t.TempDir(), "killed.gylebook")
	var acknowledged []string
	for round := range killRounds() {
		address, kill := startServer(t, program, book)
		send := func(id string) bool {
			now := time.Now().Format(time.RFC3339)
			body := fmt.Sprintf(`{"now":%q,"entries":[{"id":%q,"time":%q,"note":"round %d"}]}`, now, id, now, round)
			answer, err := http.Post(address+"gyle/gyle-21/entries", "application/json", strings.NewReader(body))
			if err != nil {
				return false
			}
			defer answer.Body.Close()
			return answer.StatusCode == http.StatusOK
		}
		for n := range 3 {
			id := fmt.Sprintf("k%d-%d", round, n)
			if !send(id) {
				t.Fatalf("round %d: entry %s wasn't taken", round, id)
			}
			acknowledged = append(acknowledged, id)
		}
		if len(acknowledged) > 3 && !send(acknowledged[round]) {
			t.Errorf("round %d: an entry sent again isn't acknowledged", round)
		}
		last := fmt.Sprintf("k%d-last", round)
		taken := make(chan bool)
		go func() { taken <- send(last) }()
		time.Sleep(time.Duration(round%5) * time.Millisecond)
		kill()
		if <-taken {
			acknowledged = append(acknowledged, last)
		}
	}
	checkLog(t, book, acknowledged)
}

// startServer serves a book, filled with the example when it is new; kill ends
// the program at once.
func startServer(t *testing.T, program, book string) (address string, kill func()) {
	t.Helper()
	command := exec.Command(program, "serve", book, "--demo", "--port", "0")
	out, err := command.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := command.Start(); err != nil {
		t.Fatal(err)
	}
	kill = func() { command.Process.Kill(); command.Wait() }
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if _, found, ok := strings.Cut(lines.Text(), "lies open at"); ok {
			return strings.TrimSpace(found), kill
		}
	}
	kill()
	t.Fatal("the server said no address")
	return "", nil
}

func checkLog(t *testing.T, path string, acknowledged []string) {
	t.Helper()
	book, err := store.Open(path, store.Options{Check: checkDocument})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	g, _, err := web.ReadGyle(context.Background(), webBook{book}, "gyle-21")
	if err != nil {
		t.Fatal(err)
	}
	times := map[string]int{}
	for _, e := range g.Log {
		times[string(e.ID)]++
	}
	for _, id := range acknowledged {
		if times[id] != 1 {
			t.Errorf("%s was acknowledged and stands %d times in the log", id, times[id])
		}
	}
}
