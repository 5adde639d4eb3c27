// SPDX-License-Identifier: MIT

package describe

import (
	"encoding"
	"encoding/json"
	"reflect"
	"strings"

	"gyle/plan"
	"gyle/quantity"
	chem "gyle/science/water"
)

var (
	textReader = reflect.TypeFor[encoding.TextUnmarshaler]()
	textWriter = reflect.TypeFor[encoding.TextMarshaler]()
	jsonWriter = reflect.TypeFor[json.Marshaler]()
	rawJSON    = reflect.TypeFor[json.RawMessage]()
	anyType    = reflect.TypeFor[any]()
)

// of draws a type in the form of the schema.
func (w *work) of(t reflect.Type) *node {
	if t.Kind() == reflect.Pointer {
		return w.of(t.Elem())
	}
	if words, ok := w.words[t]; ok {
		return w.refer(t, func(n *node) {
			*n = node{Type: "string", Description: w.comments[keyOf(t)]}
			for _, word := range words {
				n.Enum = append(n.Enum, word)
			}
		})
	}
	if n := w.special(t); n != nil {
		return n
	}
	switch t.Kind() {
	case reflect.Struct:
		return w.refer(t, func(n *node) {
			*n = node{Type: "object", Description: w.comments[keyOf(t)], Additional: false}
			w.fields(n, t, nil)
		})
	case reflect.Slice, reflect.Array:
		return &node{Type: "array", Items: w.of(t.Elem())}
	case reflect.Map:
		return &node{Type: "object", Additional: w.of(t.Elem())}
	}
	return &node{Type: w.scalar(t)}
}

// special draws what has a form of its own; nil where t has none.
func (w *work) special(t reflect.Type) *node {
	switch {
	case t == rawJSON || t == anyType:
		return &node{Description: "any JSON"}
	case w.form == Document && strings.HasPrefix(t.Name(), "Ordered["):
		return &node{Type: "object", Additional: w.of(t.Elem().Field(1).Type)}
	case w.form == Document && reflect.PointerTo(t).Implements(textReader):
		return w.refer(t, func(n *node) { *n = written(t, w.comments[keyOf(t)]) })
	case w.form == Plan:
		if n := w.measure(t); n != nil {
			return n
		}
	}
	if form, ok := reflect.PointerTo(t).MethodByName("JSONForm"); ok {
		return w.of(form.Type.Out(0))
	}
	switch {
	case w.form != Document && t.Implements(textWriter):
		return &node{Type: "string"}
	case w.form != Document && t.Implements(jsonWriter):
		return &node{Description: "written by " + t.String()}
	}
	return nil
}

// scalar is the JSON type of a Go kind. A document's words may look like
// numbers to a reader of YAML, and it has yes and no.
func (w *work) scalar(t reflect.Type) any {
	document := w.form == Document
	switch t.Kind() {
	case reflect.String:
		if document {
			return []string{"string", "number", "boolean"}
		}
		return "string"
	case reflect.Bool:
		if document {
			return []string{"boolean", "string"} // yes and no are words to many readers of YAML
		}
		return "boolean"
	case reflect.Float32, reflect.Float64:
		if document {
			return []string{"number", "string"} // with a decimal comma
		}
		return "number"
	}
	if document {
		return []string{"integer", "string"}
	}
	return "integer"
}

// measure draws a measure of a plan with its unit; nil where t is none.
func (w *work) measure(t reflect.Type) *node {
	number := &node{Type: "number"}
	unit, ok := plan.JSONUnit(t)
	switch {
	case ok:
		return w.refer(t, func(n *node) { *n = *measured(unit, w.comments[keyOf(t)]) })
	case t == reflect.TypeFor[quantity.VolumeAt]():
		return w.refer(t, func(n *node) {
			*n = *measured("L", w.comments[keyOf(t)])
			n.Properties = append(n.Properties, member{"at", measured("°C", "temperature of the liquid")})
			n.Required = append(n.Required, "at")
		})
	case t == reflect.TypeFor[chem.Ions]():
		return w.refer(t, func(n *node) {
			*n = node{Type: "object", Description: "ions by symbol", Additional: false}
			for _, ion := range chem.AllIons() {
				n.Properties = append(n.Properties, member{ion.Symbol(), measured("mg/L", "")})
				n.Required = append(n.Required, ion.Symbol())
			}
		})
	case t == reflect.TypeFor[plan.Figure]():
		return w.refer(t, func(n *node) {
			*n = node{Type: "object", Description: w.comments[keyOf(t)], Additional: false, Required: []string{"figure", "value", "unit", "why"}}
			n.Properties = ordered{{"figure", &node{Type: "string", Description: "its name: og, ibu, color …"}}, {"value", number},
				{"sd", &node{Type: "number", Description: "standard deviation, in the unit"}}, {"aim", &node{Type: "number", Description: "what the recipe asks for, in the unit"}},
				{"unit", &node{Type: "string", Description: "SG, %, IBU, EBC, vol, pH, mg/L, mEq/L, or 1 of a ratio"}}, {"why", &node{Type: "string"}}}
		})
	case strings.HasPrefix(t.Name(), "Span["):
		return w.refer(t, func(n *node) {
			*n = node{Type: "object", Description: "a range; an end left out is open", Additional: false,
				Properties: ordered{{"low", w.of(t.Field(0).Type)}, {"high", w.of(t.Field(1).Type)}}}
		})
	}
	return nil
}

// measured is a number with its unit.
func measured(unit, says string) *node {
	return &node{Type: "object", Description: says, Additional: false, Required: []string{"value", "unit"},
		Properties: ordered{{"value", &node{Type: "number"}}, {"unit", &node{Const: unit}}}}
}

// fields draws the fields of a struct into n; those of an outer struct hide
// those of the same name in one that it embeds.
func (w *work) fields(n *node, t reflect.Type, hidden map[string]bool) {
	own := map[string]bool{}
	for name := range hidden {
		own[name] = true
	}
	for i := range t.NumField() {
		if name, _, _ := w.tag(t.Field(i)); name != "" {
			own[name] = true
		}
	}
	for i := range t.NumField() {
		f := t.Field(i)
		if w.embeds(f) {
			w.fields(n, f.Type, own)
			continue
		}
		name, optional, ok := w.tag(f)
		if !ok || hidden[name] {
			continue
		}
		part := w.of(f.Type)
		if unit := f.Tag.Get("unit"); unit != "" && w.form == Plan {
			part = measured(unit, "")
		}
		n.Properties = append(n.Properties, member{name, part.described(w.comments[keyOf(t)+"."+f.Name])})
		if !optional {
			n.Required = append(n.Required, name)
		}
	}
}

// embeds reports whether the fields of f stand among those of its struct.
func (w *work) embeds(f reflect.StructField) bool {
	tag := "json"
	if w.form == Document {
		tag = "gyle"
	}
	return f.Anonymous && f.Type.Kind() == reflect.Struct && f.Tag.Get(tag) == ""
}

// tag reads how a field is written: its name, and whether it may be missing.
func (w *work) tag(f reflect.StructField) (name string, optional, ok bool) {
	switch w.form {
	case Document:
		tag := f.Tag.Get("gyle")
		name, options, _ := strings.Cut(tag, ",")
		return name, !strings.Contains(options, "required"), tag != "" && tag != "-"
	case Plan:
		name, optional := plan.JSONName(f)
		_, temperature := reflect.Zero(f.Type).Interface().(quantity.Temperature)
		return name, optional || temperature, f.IsExported()
	}
	name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
	if name == "" {
		name = f.Name
	}
	return name, strings.Contains(options, "omit"), (f.IsExported() || f.Anonymous) && name != "-"
}
