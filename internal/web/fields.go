// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"unicode/utf8"

	"gyle/internal/document"
)

// field is one value of a document in a form. Its Path is where it stands in
// the text: "grist[2].share".
type field struct {
	Path, Name, Value string
	Fault             *faultBody
}

// Input is the name of the field in the form.
func (f field) Input() string { return fieldPrefix + f.Path }

// ID is the name of the field on the page.
func (f field) ID() string { return "field-" + strings.ReplaceAll(f.Path, " ", "_") }

// Long reports whether the value wants more than a line.
func (f field) Long() bool {
	return strings.Contains(f.Value, "\n") || utf8.RuneCountInString(f.Value) > 60
}

// Size is the width of the field in letters.
func (f field) Size() int { return min(max(utf8.RuneCountInString(f.Value)+2, 7), 42) }

const fieldPrefix = "f:"

// fieldGroup is the values under one key of a document, in rows: one for a
// map, one for each entry of a list.
type fieldGroup struct {
	Name string // empty for the single values
	List bool
	Rows [][]field
}

// fieldTree catches the values of a document without knowing its kind.
type fieldTree struct{ root *document.Node }

// DecodeDocument keeps the whole document.
func (t *fieldTree) DecodeDocument(_ *document.Decode, n *document.Node) { t.root = n }

// fieldsOf lists the values of a text, in its order.
func fieldsOf(kind, text string) ([]fieldGroup, error) {
	var t fieldTree
	if _, err := document.Unmarshal(kind+".yaml", []byte(text), kind, &t); err != nil {
		return nil, err
	}
	single := fieldGroup{Rows: [][]field{nil}}
	var groups []fieldGroup
	for i := 0; i+1 < len(t.root.Content); i += 2 {
		key, value := t.root.Content[i].Value, t.root.Content[i+1]
		switch {
		case !simpleKey(key):
		case document.IsText(value):
			single.Rows[0] = append(single.Rows[0], field{Path: key, Name: key, Value: value.Value})
		case document.IsList(value):
			groups = append(groups, listGroup(key, value))
		default:
			groups = append(groups, fieldGroup{Name: key, Rows: [][]field{fieldsUnder(key, "", value)}})
		}
	}
	return append([]fieldGroup{single}, groups...), nil
}

func listGroup(key string, list *document.Node) fieldGroup {
	g := fieldGroup{Name: key, List: true}
	for i, entry := range list.Content {
		g.Rows = append(g.Rows, fieldsUnder(fmt.Sprintf("%s[%d]", key, i), "", entry))
	}
	return g
}

// fieldsUnder lists the values within a node; name is what leads to it from
// the row it stands in.
func fieldsUnder(path, name string, n *document.Node) (list []field) {
	switch {
	case document.IsText(n):
		return []field{{Path: path, Name: name, Value: n.Value}}
	case document.IsList(n):
		for i, entry := range n.Content {
			list = append(list, fieldsUnder(fmt.Sprintf("%s[%d]", path, i), fmt.Sprintf("%s %d", name, i+1), entry)...)
		}
	case document.IsMap(n):
		for i := 0; i+1 < len(n.Content); i += 2 {
			if key := n.Content[i].Value; simpleKey(key) {
				list = append(list, fieldsUnder(path+"."+key, strings.TrimSpace(name+" "+key), n.Content[i+1])...)
			}
		}
	}
	return list
}

// simpleKey reports whether a key may stand in a path.
func simpleKey(key string) bool { return key != "" && !strings.ContainsAny(key, ".[]") }

// spliceFields puts the values of a form into a text. What the form leaves as
// it was keeps every letter, comments too; a value that was emptied goes with
// its key.
func spliceFields(kind, text string, form url.Values) (string, error) {
	list, err := allFields(kind, text)
	if err != nil {
		return text, err
	}
	var emptied []string
	for _, f := range list {
		typed := strings.ReplaceAll(form.Get(f.Input()), "\r\n", "\n")
		switch {
		case !form.Has(f.Input()) || typed == f.Value:
		case typed == "":
			emptied = append(emptied, f.Path)
		default:
			changed, err := document.Splice([]byte(text), f.Path, typed)
			if err != nil {
				return text, &RefusedError{fmt.Sprintf("%s can't be changed here (%v). Edit it as text.", f.Path, err)}
			}
			text = string(changed)
		}
	}
	slices.Reverse(emptied) // so that the places of those before stay right
	return withDraft(text, func(d *document.Draft) error {
		for _, path := range emptied {
			d.Remove(path)
		}
		return nil
	}, len(emptied) > 0)
}

// allFields lists the values of a text in one row.
func allFields(kind, text string) (list []field, err error) {
	groups, err := fieldsOf(kind, text)
	for _, g := range groups {
		for _, row := range g.Rows {
			list = append(list, row...)
		}
	}
	return list, err
}

// withDraft changes a text field by field, when it is wanted.
func withDraft(text string, change func(*document.Draft) error, wanted bool) (string, error) {
	if !wanted {
		return text, nil
	}
	d, err := document.OpenDraft([]byte(text))
	if err != nil {
		return text, err
	}
	if err := change(d); err != nil {
		return text, err
	}
	changed, err := d.Text()
	if err != nil {
		return text, err
	}
	return string(changed), nil
}

// addLine adds an entry to a list, like its last one.
func addLine(kind, text, list string) (string, error) {
	all, err := allFields(kind, text)
	if err != nil {
		return text, err
	}
	return withDraft(text, func(d *document.Draft) error {
		n := d.Len(list)
		last, next := fmt.Sprintf("%s[%d]", list, n-1), fmt.Sprintf("%s[%d]", list, n)
		for _, f := range all {
			if rest, ok := strings.CutPrefix(f.Path, last); ok {
				if err := d.Set(next+rest, f.Value); err != nil {
					return errBadForm
				}
			}
		}
		return nil
	}, true)
}

// takeLine takes an entry out of a list.
func takeLine(text, path string) (string, error) {
	return withDraft(text, func(d *document.Draft) error { d.Remove(path); return nil }, true)
}
