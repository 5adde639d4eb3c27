// SPDX-License-Identifier: MIT

package document

import (
	"fmt"
	"strconv"
	"strings"
)

// Draft is a document that is being changed field by field. It takes any text
// as a value, right or wrong: the kind of the document judges it afterwards.
type Draft struct{ root *Node }

// OpenDraft begins to change a text. The error, if any, is Faults.
func OpenDraft(src []byte) (*Draft, error) {
	s := newSource("", src)
	if faults := s.parseBy(s.wholeTree); len(faults) > 0 {
		return nil, faults
	}
	if s.root.Kind != mapNode {
		return nil, Faults{s.faultSpan(1, 1, 1, "", "the document has no keys", "begin with a line such as gyle: recipe/1")}
	}
	return &Draft{s.root}, nil
}

// Get returns the text at a dotted path, or nothing.
func (d *Draft) Get(path string) string {
	n, _, rest := find(d.root, path)
	if rest != "" || n.Kind != textNode || n.Tag == "!!null" {
		return ""
	}
	return n.Value
}

// Len returns how many entries the list at a path has.
func (d *Draft) Len(path string) int {
	n, _, rest := find(d.root, path)
	if rest != "" || n.Kind != listNode {
		return 0
	}
	return len(n.Content)
}

// Set writes a text at a path and makes what is missing on the way there. An
// entry of a list may be one behind the last. An empty text takes the key away.
func (d *Draft) Set(path, value string) error {
	if value == "" {
		d.Remove(path)
		return nil
	}
	n, err := d.reach(path)
	if err != nil {
		return err
	}
	n.Kind, n.Tag, n.Value, n.Content = textNode, "!!str", value, nil
	n.Style = 0
	if strings.Contains(value, "\n") {
		n.Style = literalStyle
	}
	return nil
}

// SetList writes a list of texts at a path; an empty list takes the key away.
func (d *Draft) SetList(path string, values []string) error {
	if len(values) == 0 {
		d.Remove(path)
		return nil
	}
	n, err := d.reach(path)
	if err != nil {
		return err
	}
	n.Kind, n.Tag, n.Value, n.Content, n.Style = listNode, "", "", nil, flowStyle
	for _, v := range values {
		n.Content = append(n.Content, &Node{Kind: textNode, Tag: "!!str", Value: v})
	}
	return nil
}

// Remove takes away a key or an entry of a list. A map that is left empty on
// the way goes with it; an entry of a list doesn't.
func (d *Draft) Remove(path string) {
	steps := stepsOf(d.root, path)
	nodes := []*Node{d.root}
	for _, step := range steps {
		next := child(nodes[len(nodes)-1], step)
		if next == nil {
			return
		}
		nodes = append(nodes, next)
	}
	for i := len(steps) - 1; i >= 0; i-- {
		cut(nodes[i], steps[i])
		if len(nodes[i].Content) > 0 || nodes[i].Kind != mapNode || i > 0 && steps[i-1].list {
			return
		}
	}
}

// Move carries an entry of a list to another place. It reports whether both
// places exist.
func (d *Draft) Move(list string, from, to int) bool {
	n, _, rest := find(d.root, list)
	if rest != "" || n.Kind != listNode || min(from, to) < 0 || max(from, to) >= len(n.Content) {
		return false
	}
	moved := n.Content[from]
	n.Content = append(n.Content[:from], n.Content[from+1:]...)
	n.Content = append(n.Content[:to], append([]*Node{moved}, n.Content[to:]...)...)
	return true
}

// Text returns the text of the document. It has the comments of the text that
// it was opened with and its order, but not all of its spacing.
func (d *Draft) Text() ([]byte, error) {
	text, err := dump(d.root)
	if err != nil {
		return nil, fmt.Errorf("write the document: %w", err)
	}
	return text, nil
}

// place is one key or one place of a path.
type place struct {
	key   string
	index int
	list  bool
}

// stepsOf takes a path apart. Keys that the document has may hold dots; others
// end at the first one.
func stepsOf(n *Node, path string) (steps []place) {
	for path != "" {
		if inside, tail, ok := strings.Cut(strings.TrimPrefix(path, "["), "]"); ok && path[0] == '[' {
			if i, err := strconv.Atoi(inside); err == nil {
				steps, path = append(steps, place{index: i, list: true}), tail
				n = childOrNil(n, steps[len(steps)-1])
				continue
			}
		}
		path = strings.TrimPrefix(path, ".")
		end := strings.IndexAny(path, ".[")
		key, tail := path, ""
		if end >= 0 {
			key, tail = path[:end], path[end:]
		}
		if n != nil && n.Kind == mapNode {
			if k, _, rest := findKey(n, path); k != nil {
				key, tail = k.Value, rest
			}
		}
		steps, path = append(steps, place{key: key}), tail
		n = childOrNil(n, steps[len(steps)-1])
	}
	return steps
}

func childOrNil(n *Node, s place) *Node {
	if n == nil {
		return nil
	}
	return child(n, s)
}

// child returns what stands at a step, or nil.
func child(n *Node, s place) *Node {
	if s.list {
		if n.Kind == listNode && s.index >= 0 && s.index < len(n.Content) {
			return n.Content[s.index]
		}
		return nil
	}
	if n.Kind != mapNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == s.key {
			return n.Content[i+1]
		}
	}
	return nil
}

// cut takes what stands at a step out of a node.
func cut(n *Node, s place) {
	if s.list {
		n.Content = append(n.Content[:s.index], n.Content[s.index+1:]...)
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == s.key {
			n.Content = append(n.Content[:i], n.Content[i+2:]...)
			return
		}
	}
}

// reach returns the node at a path and makes it where there is none.
func (d *Draft) reach(path string) (*Node, error) {
	n := d.root
	for _, s := range stepsOf(d.root, path) {
		next := child(n, s)
		if next == nil {
			if err := become(n, s); err != nil {
				return nil, fmt.Errorf("write %s: %w", path, err)
			}
			next = &Node{Kind: textNode, Tag: "!!null", Style: entryStyle(n, s)}
			if !s.list {
				n.Content = append(n.Content, &Node{Kind: textNode, Tag: "!!str", Value: s.key})
			}
			n.Content = append(n.Content, next)
		}
		n = next
	}
	return n, nil
}

// entryStyle is the style of a new entry of a list: on one line, unless the
// entry before runs over several.
func entryStyle(list *Node, s place) nodeStyle {
	if !s.list || len(list.Content) > 0 && list.Content[len(list.Content)-1].Style&flowStyle == 0 {
		return 0
	}
	return flowStyle
}

// become turns an empty node into the map or list that a step needs.
func become(n *Node, s place) error {
	kind := mapNode
	if s.list {
		kind = listNode
	}
	if n.Kind == textNode && (n.Value == "" || n.Tag == "!!null") {
		n.Kind, n.Tag, n.Value, n.Style = kind, "", "", n.Style&flowStyle
	}
	if n.Kind != kind {
		return fmt.Errorf("found %s in its way", describe(n))
	}
	if s.list && s.index != len(n.Content) {
		return fmt.Errorf("the list has %d entries, there is no place %d", len(n.Content), s.index+1)
	}
	return nil
}
