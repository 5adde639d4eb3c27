// SPDX-License-Identifier: MIT

package publish

import (
	"embed"
	"encoding/base64"
	"errors"
	"io/fs"
)

// The engine is built into this folder before the program is; see Makefile.
//
//go:embed engine
var engineFiles embed.FS

// An Engine is what a page computes with, as the build packed it.
type Engine struct {
	Packing string // "lzma" or "gzip"
	Packed  string // base64
	Support string // the script of the Go release that compiled it
}

// ErrNoEngine says that this program was built without the engine of pages.
var ErrNoEngine = errors.New(`this gyle was built without the engine that pages compute with: build it with "make build"`)

// EmbeddedEngine returns the engine that this program was built with.
func EmbeddedEngine() (Engine, error) {
	folder, err := fs.Sub(engineFiles, "engine")
	if err != nil {
		return Engine{}, err
	}
	return EngineIn(folder)
}

// EngineIn returns the engine in a folder that the build wrote.
func EngineIn(folder fs.FS) (Engine, error) {
	for _, way := range []struct{ packing, file string }{{"lzma", "gyle.wasm.lzma"}, {"gzip", "gyle.wasm.gz"}} {
		packed, err := fs.ReadFile(folder, way.file)
		if err != nil {
			continue
		}
		support, err := fs.ReadFile(folder, "wasm_exec.js")
		if err != nil {
			return Engine{}, err
		}
		return Engine{way.packing, base64.StdEncoding.EncodeToString(packed), string(support)}, nil
	}
	return Engine{}, ErrNoEngine
}
