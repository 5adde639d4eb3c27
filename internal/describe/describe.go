// SPDX-License-Identifier: MIT

package describe

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
)

// A Form is a way in which the program writes a type.
type Form int

// The forms.
const (
	Document Form = iota // YAML with "gyle" tags, read as JSON
	Plan                 // as [gyle/plan.Plan.JSON] writes
	Plain                // as encoding/json writes
)

// A Kind is one thing to be described.
type Kind struct {
	Name  string // of the file: "recipe", "plan"
	Title string // in a brewer's words
	Says  string // what it is and who writes it
	Type  reflect.Type
	Form  Form
}

// A Describer draws schemas of the project's types.
type Describer struct {
	comments comments
	words    map[reflect.Type][]string
}

// New reads the comments of the project in a folder. words lists what a type
// of words may say.
func New(root string, words map[reflect.Type][]string) (*Describer, error) {
	c, err := readComments(root)
	if err != nil {
		return nil, fmt.Errorf("read the comments of the types: %w", err)
	}
	return &Describer{c, words}, nil
}

// dialect is the JSON Schema that is written.
const dialect = "https://json-schema.org/draft/2020-12/schema"

// Schema draws the schema of a kind.
func (d *Describer) Schema(k Kind) ([]byte, error) {
	w := &work{Describer: d, form: k.Form, names: map[string]reflect.Type{}}
	of := w.of(k.Type)
	root := node{Schema: dialect, ID: "urn:gyle:schema:" + k.Name + ":1", Title: k.Title, Description: k.Says}
	if k.Form == Document {
		body := w.definition(of)
		body.Properties = append(ordered{{"gyle", &node{Const: k.Name + "/1", Description: "kind and version of the document; its first key"}}}, body.Properties...)
		body.Required = append([]string{"gyle"}, body.Required...)
		root.Type, root.Properties, root.Required, root.Additional = body.Type, body.Properties, body.Required, body.Additional
	} else {
		root.Type, root.Ref, root.Items = of.Type, of.Ref, of.Items
	}
	root.Defs = w.defs
	if k.Form == Document {
		root.Defs = w.defs.without(nameOf(k.Type))
	}
	text, err := json.Marshal(root)
	if err != nil {
		return nil, fmt.Errorf("write the schema of %s: %w", k.Name, err)
	}
	var out bytes.Buffer
	if err := json.Indent(&out, text, "", "  "); err != nil {
		return nil, err
	}
	out.WriteByte('\n')
	return bytes.ReplaceAll(bytes.ReplaceAll(bytes.ReplaceAll(out.Bytes(), []byte(`\u003c`), []byte("<")), []byte(`\u003e`), []byte(">")), []byte(`\u0026`), []byte("&")), w.fault
}

func (o ordered) without(key string) (rest ordered) {
	for _, m := range o {
		if m.key != key {
			rest = append(rest, m)
		}
	}
	return rest
}

// work is a schema in the making.
type work struct {
	*Describer
	form  Form
	defs  ordered
	names map[string]reflect.Type
	fault error
}

// refer returns a reference to a definition, which is drawn where it is new.
// It stands in the list before it is drawn, so that a type may hold itself.
func (w *work) refer(t reflect.Type, draw func(*node)) *node {
	name := nameOf(t)
	if was, taken := w.names[name]; taken {
		if was != t {
			w.fault = fmt.Errorf("%s and %s are both called %s", was, t, name)
		}
		return &node{Ref: "#/$defs/" + name}
	}
	w.names[name] = t
	def := &node{}
	w.defs = append(w.defs, member{name, def})
	draw(def)
	return &node{Ref: "#/$defs/" + name}
}

// definition returns what a reference refers to.
func (w *work) definition(n *node) *node {
	name := strings.TrimPrefix(n.Ref, "#/$defs/")
	for _, m := range w.defs {
		if m.key == name {
			return m.value
		}
	}
	return &node{}
}

// nameOf is the name of a type among definitions: with its package where that
// says more.
func nameOf(t reflect.Type) string {
	name := t.Name()
	inner := ""
	if head, rest, generic := strings.Cut(name, "["); generic {
		name, inner = head, rest[strings.LastIndex(rest, ".")+1:]
		inner = " of " + strings.TrimSuffix(inner, "]")
	}
	folder := t.PkgPath()[strings.LastIndex(t.PkgPath(), "/")+1:]
	if folder == "gyle" && strings.HasSuffix(t.PkgPath(), "cmd/gyle") || folder == "main" {
		return strings.TrimSuffix(name, "JSON") + inner
	}
	return folder + "." + strings.TrimSuffix(name, "JSON") + strings.ReplaceAll(inner, " of ", "-")
}

// keyOf is the name under which a type's comments are kept.
func keyOf(t reflect.Type) string {
	path := t.PkgPath()
	if path == "main" {
		path = module + "/cmd/gyle"
	}
	name, _, _ := strings.Cut(t.Name(), "[")
	return path + "." + name
}
