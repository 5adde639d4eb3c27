// SPDX-License-Identifier: MIT

//go:build !js

package document

import (
	"bytes"
	"errors"

	"go.yaml.in/yaml/v4"
)

// A Node is a part of a document as it was written: a scalar, list or map.
type Node = yaml.Node

type (
	nodeKind  = yaml.Kind
	nodeStyle = yaml.Style
)

const (
	listNode  = yaml.SequenceNode
	mapNode   = yaml.MappingNode
	textNode  = yaml.ScalarNode
	aliasNode = yaml.AliasNode

	taggedStyle       = yaml.TaggedStyle
	doubleQuotedStyle = yaml.DoubleQuotedStyle
	singleQuotedStyle = yaml.SingleQuotedStyle
	literalStyle      = yaml.LiteralStyle
	foldedStyle       = yaml.FoldedStyle
	flowStyle         = yaml.FlowStyle
)

// tree reads the top node of the text; it is nil when there is none.
func (s *Source) tree() (*Node, Faults) {
	var document yaml.Node
	if err := yaml.Load([]byte(s.text), &document); err != nil {
		return nil, Faults{s.syntaxFault(err)}
	}
	if document.Kind != yaml.DocumentNode || len(document.Content) != 1 {
		return nil, nil
	}
	return document.Content[0], nil
}

// dump writes a node as YAML.
func dump(n *Node) ([]byte, error) {
	return yaml.Dump(n, yaml.WithIndent(2), yaml.WithLineWidth(-1))
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
