// SPDX-License-Identifier: MIT

package describe

import (
	"bytes"
	"encoding/json"
)

// A node is a part of a schema. Its fields stand in the order in which they
// are written.
type node struct {
	Schema      string   `json:"$schema,omitempty"`
	ID          string   `json:"$id,omitempty"`
	Ref         string   `json:"$ref,omitempty"`
	Title       string   `json:"title,omitempty"`
	Description string   `json:"description,omitempty"`
	Type        any      `json:"type,omitempty"` // a word or several
	Const       any      `json:"const,omitempty"`
	Enum        []any    `json:"enum,omitempty"`
	Properties  ordered  `json:"properties,omitempty"`
	Required    []string `json:"required,omitempty"`
	Additional  any      `json:"additionalProperties,omitempty"` // false or a node
	Items       *node    `json:"items,omitempty"`
	Examples    []any    `json:"examples,omitempty"`
	Defs        ordered  `json:"$defs,omitempty"`
}

// ordered is an object whose keys keep their order.
type ordered []member

type member struct {
	key   string
	value *node
}

// MarshalJSON writes the object.
func (o ordered) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(m.key)
		if err != nil {
			return nil, err
		}
		b.Write(append(key, ':'))
		value, err := json.Marshal(m.value)
		if err != nil {
			return nil, err
		}
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// described returns n with a description; a reference may have one beside it.
func (n *node) described(text string) *node {
	if text == "" {
		return n
	}
	out := *n
	out.Description = text
	return &out
}
