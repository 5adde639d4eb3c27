// SPDX-License-Identifier: MIT

// Package engine builds the part of gyle that a published page takes along:
// the command gyle-wasm, compiled for browsers and packed as small as may be.
//
// It is a tool of the build. Where the program xz is installed the engine is
// packed with it; elsewhere with gzip, which makes pages about half a megabyte
// larger.
package engine

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// Names of the files that Build writes.
const (
	Packed  = "gyle.wasm.lzma"
	Gzipped = "gyle.wasm.gz"
	Support = "wasm_exec.js" // of the Go release that compiled the engine
	stamp   = "stamp"
)

// Build compiles the engine in the module at root and writes it into folder,
// with the script of the Go release that goes with it. What is there and fresh
// is left alone. It reports the name of the packed file.
func Build(root, folder string) (name string, err error) {
	wasm, err := compile(root)
	if err != nil {
		return "", err
	}
	support, err := supportScript(root)
	if err != nil {
		return "", err
	}
	name = Gzipped
	if _, err := exec.LookPath("xz"); err == nil {
		name = Packed
	}
	sum := sha256.Sum256(append(wasm, support...))
	want := name + " " + hex.EncodeToString(sum[:])
	if have, err := os.ReadFile(filepath.Join(folder, stamp)); err == nil && string(have) == want {
		return name, nil
	}
	packed, err := pack(wasm, name)
	if err != nil {
		return "", err
	}
	for _, old := range []string{Packed, Gzipped, stamp} {
		if err := os.Remove(filepath.Join(folder, old)); err != nil && !os.IsNotExist(err) {
			return "", err
		}
	}
	for _, file := range []struct {
		name string
		text []byte
	}{{name, packed}, {Support, support}, {stamp, []byte(want)}} {
		if err := os.WriteFile(filepath.Join(folder, file.name), file.text, 0o644); err != nil {
			return "", err
		}
	}
	return name, nil
}

// compile compiles the engine. Calls aren't written out in place: a smaller
// engine arrives sooner, and it has time enough.
func compile(root string) ([]byte, error) {
	scratch, err := os.MkdirTemp("", "gyle-engine")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(scratch)
	out := filepath.Join(scratch, "gyle.wasm")
	build := exec.Command("go", "build", "-trimpath", "-gcflags=all=-l", "-ldflags=-s -w", "-o", out, "./cmd/gyle-wasm")
	build.Dir = root
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=-buildvcs=false")
	if said, err := build.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("compile the engine: %w\n%s", err, said)
	}
	return os.ReadFile(out)
}

func supportScript(root string) ([]byte, error) {
	ask := exec.Command("go", "env", "GOROOT")
	ask.Dir = root
	said, err := ask.Output()
	if err != nil {
		return nil, fmt.Errorf("ask for the folder of Go: %w", err)
	}
	return os.ReadFile(filepath.Join(strings.TrimSpace(string(said)), "lib", "wasm", Support))
}

func pack(wasm []byte, name string) ([]byte, error) {
	if name == Gzipped {
		var b bytes.Buffer
		w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
		if err != nil {
			return nil, err
		}
		if _, err := w.Write(wasm); err != nil {
			return nil, err
		}
		err = w.Close()
		return b.Bytes(), err
	}
	xz := exec.Command("xz", "--format=lzma", "-9e", "--stdout")
	xz.Stdin = bytes.NewReader(wasm)
	var fault bytes.Buffer
	xz.Stderr = &fault
	packed, err := xz.Output()
	if err != nil || len(packed) < lzmaHeader {
		return nil, fmt.Errorf("pack the engine: %w: %s", err, fault.Bytes())
	}
	// The header leaves the size open when the input is a stream; the page
	// wants to know it.
	binary.LittleEndian.PutUint64(packed[5:lzmaHeader], uint64(len(wasm)))
	return packed, nil
}

// lzmaHeader is the length of the header of the .lzma format: properties, size
// of the dictionary, size of what is packed.
const lzmaHeader = 13
