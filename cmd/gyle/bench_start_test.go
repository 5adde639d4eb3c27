// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
	"time"
)

// starts is how often BenchmarkStart starts the program.
const starts = 10

// BenchmarkStart builds the program as make build does, reports its size, and
// how long it takes from its start on the big book until the first page has come.
func BenchmarkStart(b *testing.B) {
	if runtime.GOOS == "windows" {
		b.Skip("Windows can't interrupt a program as Ctrl-C does")
	}
	book, program := bigBook(b), filepath.Join(b.TempDir(), "gyle")
	build := exec.Command("../../scripts/build", program, ".")
	if out, err := build.CombinedOutput(); err != nil {
		b.Fatalf("build: %v\n%s", err, out)
	}
	info, err := os.Stat(program)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		var took []time.Duration
		for range starts {
			took = append(took, startOnce(b, program, book))
		}
		b.ReportMetric(0, "ns/op")
		b.ReportMetric(quantile(took, 0.5).Seconds()*1000, "p50-ms")
		b.ReportMetric(quantile(took, 1).Seconds()*1000, "worst-ms")
		b.ReportMetric(float64(info.Size())/1e6, "MB")
	}
}

// startOnce starts the program, waits for the first page, and ends it as Ctrl-C
// does, so that the book is closed.
func startOnce(b *testing.B, program, book string) time.Duration {
	b.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		b.Fatal(err)
	}
	port := l.Addr().(*net.TCPAddr).Port
	l.Close()
	serve := exec.Command(program, "serve", book, "--port", fmt.Sprint(port))
	start := time.Now()
	if err := serve.Start(); err != nil {
		b.Fatal(err)
	}
	for {
		if _, err := ask(fmt.Sprintf("http://127.0.0.1:%d/", port), "", nil); err == nil {
			break
		}
		if time.Since(start) > 30*time.Second {
			serve.Process.Kill()
			b.Fatal("no page came within 30 s")
		}
		time.Sleep(time.Millisecond)
	}
	took := time.Since(start)
	if err := serve.Process.Signal(os.Interrupt); err != nil {
		b.Fatal(err)
	}
	if err := serve.Wait(); err != nil {
		b.Fatalf("serve ended with %v", err)
	}
	return took
}
