// SPDX-License-Identifier: MIT

package document

// A Node is a part of a document as it was written: a text, a list or a map.
// It is small, for a long log has very many.
type Node struct {
	Value string
	Tag   string // as YAML resolves it: "!!str", "!!null", "!!float"

	// Content has the entries of a list, or the keys of a map, each followed by
	// its value.
	Content []*Node

	Line, Column int // from 1; columns are characters

	comments *comments // nil: none
	Kind     nodeKind
	Style    nodeStyle
	anchored bool // begins with &
}

// comments stand before a node, behind it and below it.
type comments struct{ head, line, foot string }

type (
	nodeKind  uint8
	nodeStyle uint8
)

const (
	listNode nodeKind = 1 + iota
	mapNode
	textNode
	aliasNode
)

const (
	taggedStyle nodeStyle = 1 << iota
	doubleQuotedStyle
	singleQuotedStyle
	literalStyle
	foldedStyle
	flowStyle
)
