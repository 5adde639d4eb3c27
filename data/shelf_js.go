// SPDX-License-Identifier: MIT

package data

import (
	"encoding/json"
	"slices"
)

// unpacked are the records that the page brought along.
var unpacked Pack

// Unpack puts the records of a page in place of the shelves. It is called
// once, before anything is looked up.
func Unpack(p Pack) { unpacked = p }

func (s *shelf[T]) cutFile() {
	s.texts = map[string]string{}
	for id, text := range unpacked[s.place()] {
		s.texts[id] = string(text)
		s.ids = append(s.ids, id)
	}
	slices.Sort(s.ids)
}

func parseRecord[T any](text string) (record T, err error) {
	err = json.Unmarshal([]byte(text), &record)
	return record, err
}
