// SPDX-License-Identifier: MIT

//go:build !js

package data

import (
	"embed"
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

//go:embed *.yaml
var files embed.FS

func (s *shelf[T]) cutFile() {
	content, err := files.ReadFile(s.file)
	if err != nil {
		panic(err) // the file is embedded
	}
	s.texts = map[string]string{}
	for _, text := range recordTexts(string(content), s.section) {
		id := recordID(text)
		s.texts[id] = text
		s.ids = append(s.ids, id)
	}
	slices.Sort(s.ids)
}

// recordStart begins a record in the files of this package.
const recordStart = "\n  - id: "

// recordTexts cuts one section of a file into the texts of its records. A
// section begins with its name at the margin and ends where the next one does.
func recordTexts(content, section string) []string {
	_, body, found := strings.Cut("\n"+content, "\n"+section+":\n")
	if !found {
		return nil
	}
	body = "\n" + body
	body = body[:sectionEnd(body)]
	var texts []string
	for _, piece := range strings.Split(body, recordStart)[1:] {
		texts = append(texts, "- id: "+piece+"\n")
	}
	return texts
}

// sectionEnd returns where the first line that begins at the margin starts.
func sectionEnd(body string) int {
	for at := 0; at+1 < len(body); at++ {
		if body[at] == '\n' && body[at+1] != ' ' && body[at+1] != '\n' {
			return at
		}
	}
	return len(body)
}

// recordID returns the id in the first line of a record's text.
func recordID(text string) string {
	line, _, _ := strings.Cut(strings.TrimPrefix(text, "- id: "), "\n")
	return strings.TrimSpace(line)
}

func parseRecord[T any](text string) (record T, err error) {
	// The other lines keep the four blanks they have in the file; the first
	// one is moved to the same depth.
	var one []T
	err = yaml.Unmarshal([]byte(strings.Replace(text, "- ", "  - ", 1)), &one)
	if err != nil {
		return record, err
	}
	if len(one) != 1 {
		return record, fmt.Errorf("found %d records in one text", len(one))
	}
	return one[0], nil
}
