// SPDX-License-Identifier: MIT

package web

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"net/http"
	"path"
	"strings"
	"sync"
)

//go:embed static
var staticFiles embed.FS

// asset is a file that pages load, as it is sent.
type asset struct {
	kind   string
	plain  []byte
	packed []byte // with gzip; nil where that doesn't make it shorter
	hash   string
}

// assets are read and packed once.
var assets = sync.OnceValue(func() map[string]asset {
	files, err := staticFiles.ReadDir("static")
	if err != nil {
		panic(fmt.Sprintf("read embedded files: %v", err))
	}
	all := map[string]asset{}
	for _, f := range files {
		text, err := staticFiles.ReadFile("static/" + f.Name())
		if err != nil {
			panic(fmt.Sprintf("read embedded files: %v", err))
		}
		all[f.Name()] = newAsset(f.Name(), text)
	}
	return all
})

var assetKinds = map[string]string{
	".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml",
	".woff2": "font/woff2", ".txt": "text/plain; charset=utf-8",
}

func newAsset(name string, text []byte) asset {
	sum := sha256.Sum256(text)
	a := asset{kind: assetKinds[path.Ext(name)], plain: text, hash: hex.EncodeToString(sum[:6])}
	if strings.HasSuffix(name, ".woff2") {
		return a
	}
	var b bytes.Buffer
	z, _ := gzip.NewWriterLevel(&b, gzip.BestCompression)
	z.Write(text)
	z.Close()
	if b.Len() < len(text) {
		a.packed = b.Bytes()
	}
	return a
}

// staticPath is the address of a file, with its hash, so that browsers may
// keep it for good.
func staticPath(name string) string {
	a, ok := assets()[name]
	if !ok {
		panic("no static file " + name)
	}
	return "/static/" + name + "?v=" + a.hash
}

// newStatic serves the files. Fonts are named by the stylesheet without their
// hash; they change so rarely that a day is short enough.
func newStatic() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		a, ok := assets()[r.PathValue("file")]
		if !ok {
			http.NotFound(w, r)
			return
		}
		h := w.Header()
		h.Set("Content-Type", a.kind)
		h.Set("Vary", "Accept-Encoding")
		h.Set("ETag", `"`+a.hash+`"`)
		h.Set("Cache-Control", "public, max-age=86400")
		if r.URL.Query().Get("v") == a.hash {
			h.Set("Cache-Control", "public, max-age=31536000, immutable")
		}
		if r.Header.Get("If-None-Match") == `"`+a.hash+`"` {
			w.WriteHeader(http.StatusNotModified)
			return
		}
		if a.packed != nil && acceptsGzip(r) {
			h.Set("Content-Encoding", "gzip")
			w.Write(a.packed)
			return
		}
		w.Write(a.plain)
	})
}
