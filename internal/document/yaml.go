// SPDX-License-Identifier: MIT

//go:build !js

package document

import (
	"bytes"
	"errors"

	"go.yaml.in/yaml/v4"
)

// kinds and styles are those of the library beside ours.
var (
	kinds = map[yaml.Kind]nodeKind{
		yaml.SequenceNode: listNode, yaml.MappingNode: mapNode, yaml.ScalarNode: textNode, yaml.AliasNode: aliasNode,
	}
	styles = []struct {
		theirs yaml.Style
		ours   nodeStyle
	}{
		{yaml.TaggedStyle, taggedStyle}, {yaml.DoubleQuotedStyle, doubleQuotedStyle}, {yaml.SingleQuotedStyle, singleQuotedStyle},
		{yaml.LiteralStyle, literalStyle}, {yaml.FoldedStyle, foldedStyle}, {yaml.FlowStyle, flowStyle},
	}
)

// nodeOf copies a node of the library.
func nodeOf(y *yaml.Node) *Node {
	n := &Node{Kind: kinds[y.Kind], Tag: y.Tag, Value: y.Value, Line: y.Line, Column: y.Column, anchored: y.Anchor != ""}
	for _, s := range styles {
		if y.Style&s.theirs != 0 {
			n.Style |= s.ours
		}
	}
	if y.HeadComment != "" || y.LineComment != "" || y.FootComment != "" {
		n.comments = &comments{y.HeadComment, y.LineComment, y.FootComment}
	}
	if len(y.Content) > 0 {
		n.Content = make([]*Node, len(y.Content))
	}
	for i, inner := range y.Content {
		n.Content[i] = nodeOf(inner)
	}
	return n
}

// yamlOf makes a node of the library. Anchors and aliases are refused when a
// document is read, so there are none.
func yamlOf(n *Node) *yaml.Node {
	y := &yaml.Node{Tag: n.Tag, Value: n.Value}
	for theirs, ours := range kinds {
		if ours == n.Kind {
			y.Kind = theirs
		}
	}
	for _, s := range styles {
		if n.Style&s.ours != 0 {
			y.Style |= s.theirs
		}
	}
	if c := n.comments; c != nil {
		y.HeadComment, y.LineComment, y.FootComment = c.head, c.line, c.foot
	}
	for _, inner := range n.Content {
		y.Content = append(y.Content, yamlOf(inner))
	}
	return y
}

// tree reads the top node of the text; it is nil when there is none. Texts as
// the program writes them, long logs above all, take the short way.
func (s *Source) tree() (*Node, Faults) {
	if root, err := readCanonical(s.text); err == nil {
		return root, nil
	}
	return s.wholeTree()
}

// wholeTree reads the top node with all that the YAML library knows of it: its
// comments, and the tags that tell a number from a text when it is written.
func (s *Source) wholeTree() (*Node, Faults) {
	var document yaml.Node
	if err := yaml.Load([]byte(s.text), &document); err != nil {
		return nil, Faults{s.syntaxFault(err)}
	}
	if document.Kind != yaml.DocumentNode || len(document.Content) != 1 {
		return nil, nil
	}
	return nodeOf(document.Content[0]), nil
}

// dump writes a node as YAML.
func dump(n *Node) ([]byte, error) {
	return yaml.Dump(yamlOf(n), yaml.WithIndent(2), yaml.WithLineWidth(-1))
}

// secondDocument returns the place where a second document begins.
func (s *Source) secondDocument() (line int) {
	loader, err := yaml.NewLoader(bytes.NewReader([]byte(s.text)))
	if err != nil {
		return 0
	}
	for i := 0; i < 2; i++ {
		var n yaml.Node
		if err := loader.Load(&n); err != nil {
			return 0
		}
		line = n.Line
	}
	return line
}

// loadError returns the first error of the YAML library with a position.
func loadError(err error) *yaml.LoadError {
	var e *yaml.LoadError
	if !errors.As(err, &e) {
		return &yaml.LoadError{Message: err.Error()}
	}
	return e
}
