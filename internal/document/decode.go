// SPDX-License-Identifier: MIT

package document

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
)

// Unmarshal reads a document of a kind into the struct v points to. The error,
// if any, is [Faults]: all faults of the document in the order of its text.
// The source is returned even then, unless the text could not be parsed at all.
func Unmarshal(file string, src []byte, kind string, v any) (*Source, error) {
	s := newSource(file, src)
	if faults := s.parse(); len(faults) > 0 {
		return s, Sorted(faults)
	}
	if faults := s.kindFaults(kind); len(faults) > 0 {
		return s, faults
	}
	d := &Decode{source: s}
	body := *s.root
	body.Content = body.Content[2:]
	d.Value(&body, v)
	faults := Sorted(d.faults)
	if d.more > 0 {
		faults = append(faults, Fault{File: file, Msg: fmt.Sprintf("%d more faults are not shown", d.more)})
	}
	return s, faults.orNil()
}

// Decode is the state of one reading. A [Decoder] uses it to read its parts
// and to report faults at the place where it stands.
type Decode struct {
	source *Source
	path   []step
	faults Faults
	more   int // faults beyond maxFaults
}

// A step is one part of a path: a key, or an index when key is empty.
type step struct {
	key   string
	index int
}

// Path returns where in the document the reading stands: "grist[2].share".
func (d *Decode) Path() string {
	var b strings.Builder
	for _, s := range d.path {
		switch {
		case s.key == "":
			b.WriteString("[" + strconv.Itoa(s.index) + "]")
		case b.Len() > 0:
			b.WriteString("." + s.key)
		default:
			b.WriteString(s.key)
		}
	}
	return b.String()
}

// Fault reports a fault at n.
func (d *Decode) Fault(n *Node, msg, hint string) { d.faultIn(d.Path(), n, msg, hint) }

func (d *Decode) faultIn(path string, n *Node, msg, hint string) {
	if len(d.faults) >= maxFaults {
		d.more++
		return
	}
	d.faults = append(d.faults, d.source.faultAt(n, path, msg, hint))
}

// Value reads n into what v points to, as if it stood in place of the value
// that is being read. A [Decoder] gives it one of its parts, not itself.
func (d *Decode) Value(n *Node, v any) {
	target := reflect.ValueOf(v)
	if target.Kind() != reflect.Pointer || target.IsNil() {
		panic(fmt.Sprintf("document: cannot read into %T, a pointer is needed", v))
	}
	d.value(n, target.Elem())
}

// IsText reports whether n is a scalar and not a list or map.
func IsText(n *Node) bool { return n.Kind == textNode }

// IsMap reports whether n is a map of keys and values.
func IsMap(n *Node) bool { return n.Kind == mapNode }

// IsList reports whether n is a list.
func IsList(n *Node) bool { return n.Kind == listNode }

func (d *Decode) inside(s step, n *Node, v reflect.Value) {
	d.path = append(d.path, s)
	d.value(n, v)
	d.path = d.path[:len(d.path)-1]
}

func (d *Decode) value(n *Node, v reflect.Value) {
	p := planOf(v.Type())
	if p.shape == shapePointer {
		if v.IsNil() {
			v.Set(reflect.New(v.Type().Elem()))
		}
		d.value(n, v.Elem())
		return
	}
	before := len(d.faults) + d.more
	d.shaped(p, n, v)
	if p.validator && len(d.faults)+d.more == before {
		found := v.Addr().Interface().(Validator).Validate(d.source.At(d.Path()))
		d.faults = append(d.faults, found...)
	}
}

func (d *Decode) shaped(p *plan, n *Node, v reflect.Value) {
	if isEmpty(n) {
		d.emptyFault(p, n)
		return
	}
	switch p.shape {
	case shapeCustom:
		v.Addr().Interface().(Decoder).DecodeDocument(d, n)
	case shapeStruct:
		d.structure(p, n, v)
	case shapeList:
		d.list(n, v)
	case shapeMap:
		d.mapping(n, v)
	case shapeOrdered:
		d.ordered(n, v.Addr().Interface().(orderedMap))
	default:
		if n.Kind != textNode {
			d.Fault(n, "found "+describe(n)+" where "+scalarWords(p.shape)+" is expected", "write one value")
			return
		}
		d.scalar(p, n, v)
	}
}

func (d *Decode) emptyFault(p *plan, n *Node) {
	hint := "write a value, or delete the key"
	if p.shape == shapeList {
		hint = "write the entries below it, or delete the key"
	}
	d.Fault(n, "has no value", hint)
}

func (d *Decode) structure(p *plan, n *Node, v reflect.Value) {
	if n.Kind != mapNode {
		d.Fault(n, "found "+describe(n)+" where keys and values are expected", keysHint("write them as key: value; the keys are ", p.names))
		return
	}
	seen := make([]*Node, len(p.fields))
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		at, known := p.byName[key.Value]
		if known && seen[at] == nil && i+3 < len(n.Content) && decimalComma(value, n.Content[i+2], n.Content[i+3]) {
			seen[at] = key
			d.commaFault(key, value, n.Content[i+2])
			i += 2
			continue
		}
		switch {
		case !known:
			d.unknownKey(p, key, value)
		case seen[at] != nil:
			d.repeatedKey(key, seen[at])
		default:
			seen[at] = key
			d.inside(step{key: key.Value}, value, v.FieldByIndex(p.fields[at].index))
		}
	}
	for i, f := range p.fields {
		if f.required && seen[i] == nil {
			d.faultIn(join(d.Path(), f.name), n, "is missing", "add "+f.name+":")
		}
	}
}

func (d *Decode) unknownKey(p *plan, key, value *Node) {
	path, name := join(d.Path(), key.Value), key.Value
	if word, rest, ok := strings.Cut(name, ":"); ok && isEmpty(value) {
		d.faultIn(join(d.Path(), word), key, "a space is missing after the colon", "write "+word+": "+strings.TrimSpace(rest))
		return
	}
	if isEmpty(value) && name[0] >= '0' && name[0] <= '9' {
		d.faultIn(path, key, "found a number where a key is expected",
			"a comma separates the entries between { and }: write a decimal point, or put quotes around the number")
		return
	}
	if near, ok := Nearest(name, p.names); ok {
		d.faultIn(path, key, "unknown key", "did you mean "+near+"?")
		return
	}
	d.faultIn(path, key, "unknown key", keysHint("the keys here are ", p.names))
}

// decimalComma reports whether a value was cut in two at its decimal comma:
// between braces "12,4 °P" is a value, a comma and a key without value.
func decimalComma(value, next, nothing *Node) bool {
	if !IsText(value) || value.Style&(singleQuotedStyle|doubleQuotedStyle) != 0 || !isEmpty(nothing) || !IsText(next) {
		return false
	}
	digit := func(b byte) bool { return b >= '0' && b <= '9' }
	before, after := value.Value, next.Value
	return before != "" && after != "" && digit(before[len(before)-1]) && digit(after[0])
}

func (d *Decode) commaFault(key, value, next *Node) {
	d.faultIn(join(d.Path(), key.Value), value, "a comma separates the entries between { and }",
		fmt.Sprintf("write %s: %s.%s, or put quotes around it: \"%s,%s\"", key.Value, value.Value, next.Value, value.Value, next.Value))
}

func (d *Decode) repeatedKey(key, first *Node) {
	d.faultIn(join(d.Path(), key.Value), key, "this key was already given", fmt.Sprintf("it stands in line %d; delete one of the two", first.Line))
}

// keysHint lists keys in a hint, as long as they are few.
func keysHint(words string, names []string) string {
	const most = 16
	if len(names) > most {
		return words + strings.Join(names[:most], ", ") + " …"
	}
	return words + strings.Join(names, ", ")
}

func (d *Decode) list(n *Node, v reflect.Value) {
	if n.Kind != listNode {
		hint := `begin each entry with "- "`
		if n.Kind == textNode && planOf(v.Type().Elem()).shape != shapeStruct {
			hint = "write [" + clip(n.Value) + "]"
		}
		d.Fault(n, "found "+describe(n)+" where a list is expected", hint)
		return
	}
	items := reflect.MakeSlice(v.Type(), len(n.Content), len(n.Content))
	for i, item := range n.Content {
		d.inside(step{index: i}, item, items.Index(i))
	}
	v.Set(items)
}

func (d *Decode) mapping(n *Node, v reflect.Value) {
	entries := reflect.MakeMapWithSize(v.Type(), len(n.Content)/2)
	d.eachKey(n, func(key, value *Node) {
		entry := reflect.New(v.Type().Elem()).Elem()
		d.inside(step{key: key.Value}, value, entry)
		entries.SetMapIndex(reflect.ValueOf(key.Value).Convert(v.Type().Key()), entry)
	})
	v.Set(entries)
}

func (d *Decode) ordered(n *Node, o orderedMap) {
	o.clear()
	d.eachKey(n, func(key, value *Node) {
		d.inside(step{key: key.Value}, value, reflect.ValueOf(o.add(key.Value)).Elem())
	})
}

// eachKey calls visit for the keys of a map, each one once.
func (d *Decode) eachKey(n *Node, visit func(key, value *Node)) {
	if n.Kind != mapNode {
		d.Fault(n, "found "+describe(n)+" where keys and values are expected", "write them as key: value")
		return
	}
	seen := make(map[string]*Node, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if first := seen[key.Value]; first != nil {
			d.repeatedKey(key, first)
			continue
		}
		seen[key.Value] = key
		visit(key, value)
	}
}
