// SPDX-License-Identifier: MIT

package document

import (
	"encoding"
	"fmt"
	"reflect"
	"strings"
	"sync"
)

// A Validator checks a value after it was read from a document without fault.
// Every struct, element or field that is a Validator is asked, the inner ones
// first; s is the source seen from that value, so paths are relative to it.
type Validator interface {
	Validate(s *Source) Faults
}

// A Decoder reads itself from a node. It is meant for values with two forms,
// such as a text or a map; everything else does with struct tags.
type Decoder interface {
	DecodeDocument(d *Decode, n *Node)
}

// An Encoder says what is printed in its place: a string, or any other value
// that has a form of its own. Nil means nothing. It goes with [Decoder].
type Encoder interface {
	EncodeDocument() any
}

// shape is the way a Go type is written in a document.
type shape int

const (
	shapeText shape = iota // encoding.TextUnmarshaler
	shapeCustom
	shapeString
	shapeBool
	shapeInt
	shapeUint
	shapeFloat
	shapePointer
	shapeList
	shapeMap
	shapeOrdered
	shapeStruct
)

// A plan is what reading and printing need to know of a type.
type plan struct {
	shape     shape
	validator bool
	encoder   bool
	fields    []field        // of a struct, embedded ones included
	byName    map[string]int // index in fields
	names     []string
}

// A field is one tagged field of a struct.
type field struct {
	name                 string
	index                []int
	required, flow, keep bool
}

var (
	textType      = reflect.TypeFor[encoding.TextUnmarshaler]()
	decoderType   = reflect.TypeFor[Decoder]()
	encoderType   = reflect.TypeFor[Encoder]()
	validatorType = reflect.TypeFor[Validator]()
	orderedType   = reflect.TypeFor[orderedMap]()
)

var plans sync.Map // reflect.Type to *plan

func planOf(t reflect.Type) *plan {
	if p, ok := plans.Load(t); ok {
		return p.(*plan)
	}
	p, _ := plans.LoadOrStore(t, newPlan(t))
	return p.(*plan)
}

func newPlan(t reflect.Type) *plan {
	if t.Kind() == reflect.Pointer {
		return &plan{shape: shapePointer}
	}
	pointer := reflect.PointerTo(t)
	p := &plan{
		shape:     shapeOf(t),
		validator: pointer.Implements(validatorType),
		encoder:   pointer.Implements(encoderType),
	}
	if p.shape == shapeStruct {
		p.byName = make(map[string]int)
		p.addFields(t, nil)
	}
	return p
}

func shapeOf(t reflect.Type) shape {
	pointer := reflect.PointerTo(t)
	switch {
	case pointer.Implements(orderedType):
		return shapeOrdered
	case pointer.Implements(decoderType):
		return shapeCustom
	case pointer.Implements(textType):
		return shapeText
	}
	switch t.Kind() {
	case reflect.String:
		return shapeString
	case reflect.Bool:
		return shapeBool
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return shapeInt
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return shapeUint
	case reflect.Float32, reflect.Float64:
		return shapeFloat
	case reflect.Slice:
		return shapeList
	case reflect.Map:
		if t.Key().Kind() == reflect.String {
			return shapeMap
		}
	case reflect.Struct:
		return shapeStruct
	}
	panic(fmt.Sprintf("document: type %s has no form in a document", t))
}

// addFields lists the tagged fields of t, which is reached through index.
func (p *plan) addFields(t reflect.Type, index []int) {
	for i := range t.NumField() {
		f := t.Field(i)
		at := append(append([]int(nil), index...), i)
		tag, tagged := f.Tag.Lookup("gyle")
		switch {
		case !tagged && f.Anonymous && f.Type.Kind() == reflect.Struct:
			p.addFields(f.Type, at)
		case tagged && tag != "-":
			if !f.IsExported() {
				panic(fmt.Sprintf("document: field %s of %s has a tag but is not exported", f.Name, t))
			}
			p.addField(t, newField(tag, at))
		}
	}
}

func (p *plan) addField(t reflect.Type, f field) {
	if _, twice := p.byName[f.name]; twice || f.name == "" {
		panic(fmt.Sprintf("document: bad or repeated key %q in %s", f.name, t))
	}
	p.byName[f.name] = len(p.fields)
	p.fields = append(p.fields, f)
	p.names = append(p.names, f.name)
}

func newField(tag string, index []int) field {
	name, options, _ := strings.Cut(tag, ",")
	f := field{name: name, index: index}
	for option := range strings.SplitSeq(options, ",") {
		switch option {
		case "":
		case "required":
			f.required = true
		case "flow":
			f.flow = true
		case "keep":
			f.keep = true
		default:
			panic(fmt.Sprintf("document: unknown option %q in tag %q", option, tag))
		}
	}
	return f
}
