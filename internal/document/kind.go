// SPDX-License-Identifier: MIT

package document

import (
	"fmt"
	"strconv"
	"strings"
)

// Version is the version of the document kinds that this program reads and writes.
const Version = 1

// kindKey is the first key of every document.
const kindKey = "gyle"

const byteOrderMark = "\ufeff"

// splitKind takes "recipe/1" apart.
func splitKind(text string) (kind string, version int, ok bool) {
	kind, number, ok := strings.Cut(text, "/")
	version, err := strconv.Atoi(number)
	if !ok || err != nil || kind == "" || version < 1 {
		return "", 0, false
	}
	return kind, version, true
}

// kindFaults checks the first key of a document against the kind that is read.
func (s *Source) kindFaults(kind string) Faults {
	want := fmt.Sprintf("%s: %s/%d", kindKey, kind, Version)
	if s.root.Kind != mapNode {
		return Faults{s.faultAt(s.root, "", "found "+describe(s.root)+" where a document of keys and values is expected", "begin with the line "+want)}
	}
	key, value, _ := findKey(s.root, kindKey)
	if key == nil {
		return Faults{s.faultAt(s.root, kindKey, "the document does not say what kind it is", "begin with the line "+want)}
	}
	found, version, ok := splitKind(value.Value)
	switch {
	case value.Kind != textNode || !ok:
		return Faults{s.faultAt(value, kindKey, "cannot read the kind of document", "write "+want)}
	case found != kind:
		return Faults{s.faultAt(value, kindKey, fmt.Sprintf("this is a %s, not a %s", found, kind), "open it as a "+found+", or write "+want)}
	case version > Version:
		return Faults{s.faultAt(value, kindKey, fmt.Sprintf("%s/%d is newer than this program", kind, version),
			fmt.Sprintf("this gyle reads %s/%d; a newer gyle is needed for this file", kind, Version))}
	case s.root.Content[0] != key:
		return Faults{s.faultAt(key, kindKey, "the kind stands below other keys", "move this line to the top")}
	}
	return nil
}
