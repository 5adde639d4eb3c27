// SPDX-License-Identifier: MIT

package font

import (
	"bytes"
	"embed"
	"fmt"
	"sync"

	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/shaping"
)

//go:embed *.ttf OFL.txt
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

var faceFiles = [faceCount]string{"book-regular.ttf", "book-italic.ttf", "figures-regular.ttf", "figures-semibold.ttf"}

// TTF returns the file of the face.
func (f Face) TTF() []byte {
	text, err := files.ReadFile(faceFiles[f])
	if err != nil {
		panic(err) // it is embedded
	}
	return text
}

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
			panic(fmt.Errorf("read the face %s: %w", faceFiles[f], err)) // it is embedded
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
