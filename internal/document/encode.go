// SPDX-License-Identifier: MIT

package document

import (
	"encoding"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Marshal prints v, a struct or a pointer to one, as the canonical text of a
// document. Keys stand in the order of the struct, those of maps in the order
// of the alphabet; zero values are left out unless required or kept. Comments
// of a file that v was read from are not in v and so are not printed.
func Marshal(kind string, v any) ([]byte, error) {
	body, err := encode(reflect.ValueOf(v), "", false)
	if err != nil {
		return nil, fmt.Errorf("print %s: %w", kind, err)
	}
	if body == nil || body.form != formMap {
		return nil, fmt.Errorf("print %s: %T is not a struct", kind, v)
	}
	text := fmt.Appendf(nil, "%s: %s/%d\n", kindKey, kind, Version)
	return append(text, body.document()...), nil
}

// form is what an item is in the text.
type form int

const (
	formText form = iota
	formList
	formMap
)

// An item is a value on its way to the text.
type item struct {
	form form
	text string
	keys []string // of a map
	of   []*item  // values of a map or entries of a list
	flow bool     // print on one line if it fits
}

func (i *item) add(key string, value *item) {
	i.keys = append(i.keys, key)
	i.of = append(i.of, value)
}

// encode turns a value into an item, nil when nothing is to be printed.
func encode(v reflect.Value, path string, flow bool) (*item, error) {
	if !v.IsValid() {
		return nil, nil
	}
	if v.Kind() == reflect.Interface || v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return nil, nil
		}
		return encode(v.Elem(), path, flow)
	}
	p := planOf(v.Type())
	if p.encoder {
		return encode(reflect.ValueOf(addressable(v).Addr().Interface().(Encoder).EncodeDocument()), path, flow)
	}
	switch p.shape {
	case shapeStruct:
		return encodeStruct(p, v, path, flow)
	case shapeList:
		return encodeList(v, path, flow)
	case shapeMap:
		return encodeMap(v, path, flow)
	case shapeOrdered:
		return encodeOrdered(addressable(v).Addr().Interface().(orderedMap), path, flow)
	}
	text, err := scalarText(p, v)
	if err == nil && (!utf8.ValidString(text) || strings.ContainsRune(text, 0)) {
		err = fmt.Errorf("the text %q holds a NUL or bytes that are not UTF-8", clip(text))
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return &item{text: text}, nil
}

// addressable returns v itself or a copy whose address can be taken.
func addressable(v reflect.Value) reflect.Value {
	if v.CanAddr() {
		return v
	}
	copied := reflect.New(v.Type()).Elem()
	copied.Set(v)
	return copied
}

func encodeStruct(p *plan, v reflect.Value, path string, flow bool) (*item, error) {
	m := &item{form: formMap, flow: flow}
	for _, f := range p.fields {
		value := v.FieldByIndex(f.index)
		if !f.required && !f.keep && isZero(value) {
			continue
		}
		inner, err := encode(value, join(path, f.name), f.flow)
		if err != nil {
			return nil, err
		}
		switch {
		case inner != nil:
			m.add(f.name, inner)
		case f.required:
			return nil, fmt.Errorf("%s: is required and has no value", join(path, f.name))
		}
	}
	return m, nil
}

func encodeList(v reflect.Value, path string, flow bool) (*item, error) {
	l := &item{form: formList}
	texts := true
	for i := range v.Len() {
		inner, err := encode(v.Index(i), path+"["+strconv.Itoa(i)+"]", flow)
		if err != nil {
			return nil, err
		}
		if inner == nil {
			return nil, fmt.Errorf("%s[%d]: an entry of a list is empty", path, i)
		}
		texts = texts && inner.form == formText
		l.of = append(l.of, inner)
	}
	l.flow = flow && texts
	return l, nil
}

func encodeMap(v reflect.Value, path string, flow bool) (*item, error) {
	m := &item{form: formMap, flow: flow}
	keys := v.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
	for _, key := range keys {
		if err := m.addChecked(key.String(), v.MapIndex(key), path, flow); err != nil {
			return nil, err
		}
	}
	return m, nil
}

func encodeOrdered(o orderedMap, path string, flow bool) (*item, error) {
	m := &item{form: formMap, flow: flow}
	for i := range o.length() {
		key, value := o.at(i)
		if slices.Contains(m.keys, key) {
			return nil, fmt.Errorf("%s: the key %q is there twice", path, key)
		}
		if err := m.addChecked(key, reflect.ValueOf(value), path, flow); err != nil {
			return nil, err
		}
	}
	return m, nil
}

// addChecked adds a key that came from the data and not from a struct.
func (i *item) addChecked(key string, v reflect.Value, path string, flow bool) error {
	if key == "" || utf8.RuneCountInString(key) > maxKey || !utf8.ValidString(key) || strings.ContainsRune(key, 0) {
		return fmt.Errorf("%s: %q cannot be a key", path, clip(key))
	}
	inner, err := encode(v, join(path, key), flow)
	if err != nil {
		return err
	}
	if inner == nil {
		return fmt.Errorf("%s: the key %q has no value", path, key)
	}
	i.add(key, inner)
	return nil
}

func scalarText(p *plan, v reflect.Value) (string, error) {
	switch p.shape {
	case shapeString:
		return v.String(), nil
	case shapeBool:
		if v.Bool() {
			return "yes", nil
		}
		return "no", nil
	case shapeInt:
		return strconv.FormatInt(v.Int(), 10), nil
	case shapeUint:
		return strconv.FormatUint(v.Uint(), 10), nil
	case shapeFloat:
		return floatText(v.Float(), v.Type().Bits())
	}
	marshaler, ok := addressable(v).Addr().Interface().(encoding.TextMarshaler)
	if !ok {
		return "", fmt.Errorf("type %s can be read but not printed", v.Type())
	}
	text, err := marshaler.MarshalText()
	return string(text), err
}

func floatText(f float64, bits int) (string, error) {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		return "", fmt.Errorf("%g is not a number that can be written down", f)
	}
	if size := math.Abs(f); size != 0 && (size < 1e-6 || size >= 1e15) {
		return strconv.FormatFloat(f, 'e', -1, bits), nil
	}
	return strconv.FormatFloat(f, 'f', -1, bits), nil
}

// isZero reports whether a value says nothing and can be left out.
func isZero(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map:
		return v.Len() == 0
	case reflect.Pointer, reflect.Interface:
		return v.IsNil()
	}
	if z, ok := v.Interface().(interface{ IsZero() bool }); ok {
		return z.IsZero()
	}
	p := planOf(v.Type())
	if p.shape != shapeStruct || p.encoder {
		return v.IsZero()
	}
	for _, f := range p.fields {
		if !isZero(v.FieldByIndex(f.index)) {
			return false
		}
	}
	return true
}
