// SPDX-License-Identifier: MIT

package document

import "errors"

// A Node is a part of a document as it was written: a scalar, list or map.
//
// In a browser there is no YAML library: documents reach it as the printer
// writes them.
type Node struct {
	Kind                                  nodeKind
	Style                                 nodeStyle
	Tag, Value, Anchor                    string
	HeadComment, LineComment, FootComment string
	Content                               []*Node
	Line, Column                          int
}

type (
	nodeKind  uint32
	nodeStyle uint32
)

const (
	listNode nodeKind = 1 << iota
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

// tree reads the top node of the text.
func (s *Source) tree() (*Node, Faults) {
	root, err := readPlain(s.text)
	var fault errPlain
	if errors.As(err, &fault) {
		return nil, Faults{s.faultSpan(fault.Line, fault.Column, 1, "", fault.Msg, "write the document as gyle prints it")}
	}
	return root, nil
}

// dump is not there: a page changes values, it edits no texts.
func dump(*Node) ([]byte, error) { return nil, errors.ErrUnsupported }
