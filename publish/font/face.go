// SPDX-License-Identifier: MIT

package font

import (
	"bytes"
	"compress/gzip"
	"embed"
	"fmt"
	"io"
	"sync"

	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/shaping"
)

//go:embed *.ttf.gz OFL.txt
var files embed.FS

// Face is one of the faces.
type Face int

// The faces.
const (
	Book        Face = iota // words
	BookItalic              // what somebody says: reasons
	Figures                 // numbers and their units
	FiguresBold             // the numbers that matter
	faceCount
)

// ttf unpacks the file of a face, once.
var ttf = [faceCount]func() []byte{unpacked("book-regular"), unpacked("book-italic"), unpacked("figures-regular"), unpacked("figures-semibold")}

func unpacked(name string) func() []byte {
	return sync.OnceValue(func() []byte {
		packed, err := files.Open(name + ".ttf.gz")
		if err != nil {
			panic(err) // it is embedded
		}
		z, err := gzip.NewReader(packed)
		if err != nil {
			panic(err)
		}
		text, err := io.ReadAll(z)
		if err != nil {
			panic(err)
		}
		return text
	})
}

// TTF returns the file of the face, which nobody changes.
func (f Face) TTF() []byte { return ttf[f]() }

// Licence returns the licence of the faces. Whoever hands the files on hands
// it on with them.
func Licence() string {
	text, err := files.ReadFile("OFL.txt")
	if err != nil {
		panic(err) // it is embedded
	}
	return string(text)
}

// Em is the size of the square on which the letters of all faces are drawn;
// outlines and advances are in this unit.
const Em = 1000

// loaded is a face ready for shaping. A face of the shaping library serves one
// caller at a time, hence the lock.
type loaded struct {
	sync.Mutex
	face     *font.Face
	shaper   shaping.HarfbuzzShaper
	outlines map[font.GID][]Segment
	widths   map[string]float64
}

var faces = sync.OnceValue(func() (all [faceCount]*loaded) {
	for f := range faceCount {
		parsed, err := font.ParseTTF(bytes.NewReader(f.TTF()))
		if err != nil {
			panic(fmt.Errorf("read face %d: %w", f, err)) // it is embedded
		}
		all[f] = &loaded{face: parsed, outlines: map[font.GID][]Segment{}, widths: map[string]float64{}}
	}
	return all
})

// has reports whether the face has a letter.
func (f Face) has(r rune) bool {
	_, ok := faces()[f].face.NominalGlyph(r)
	return ok
}
