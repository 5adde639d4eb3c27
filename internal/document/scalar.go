// SPDX-License-Identifier: MIT

package document

import (
	"encoding"
	"errors"
	"math"
	"reflect"
	"strconv"
	"strings"
)

// A hinter is an error that knows what to write instead.
type hinter interface {
	error
	HintText() string
}

// scalarWords says what a scalar of a shape is.
func scalarWords(s shape) string {
	switch s {
	case shapeBool:
		return "yes or no"
	case shapeInt, shapeUint:
		return "a whole number"
	case shapeFloat:
		return "a number"
	case shapeText:
		return "a value"
	}
	return "a text"
}

func (d *Decode) scalar(p *plan, n *Node, v reflect.Value) {
	switch p.shape {
	case shapeText:
		d.text(n, v.Addr().Interface().(encoding.TextUnmarshaler))
	case shapeString:
		v.SetString(n.Value)
	case shapeBool:
		d.bool(n, v)
	case shapeInt, shapeUint:
		d.whole(p, n, v)
	case shapeFloat:
		d.float(n, v)
	}
}

func (d *Decode) text(n *Node, target encoding.TextUnmarshaler) {
	err := target.UnmarshalText([]byte(n.Value))
	if err == nil {
		return
	}
	d.Fault(n, err.Error(), hintOf(err))
}

// hintOf returns the hint of an error: of its HintText method, or of a field
// "Hint" as [Fault] and the parse errors of package quantity have it.
func hintOf(err error) string {
	for ; err != nil; err = errors.Unwrap(err) {
		if h, ok := err.(hinter); ok {
			return h.HintText()
		}
		v := reflect.Indirect(reflect.ValueOf(err))
		if v.Kind() != reflect.Struct {
			continue
		}
		if hint := v.FieldByName("Hint"); hint.IsValid() && hint.Kind() == reflect.String {
			return hint.String()
		}
	}
	return ""
}

func (d *Decode) bool(n *Node, v reflect.Value) {
	switch strings.ToLower(n.Value) {
	case "yes", "true":
		v.SetBool(true)
	case "no", "false":
		v.SetBool(false)
	default:
		d.Fault(n, "found "+strconv.Quote(clip(n.Value))+" where yes or no is expected", "write yes or no")
	}
}

func (d *Decode) whole(p *plan, n *Node, v reflect.Value) {
	var err error
	if p.shape == shapeUint {
		var u uint64
		u, err = strconv.ParseUint(n.Value, 10, v.Type().Bits())
		v.SetUint(u)
	} else {
		var i int64
		i, err = strconv.ParseInt(n.Value, 10, v.Type().Bits())
		v.SetInt(i)
	}
	switch {
	case errors.Is(err, strconv.ErrRange):
		d.Fault(n, "this number is too large, or below zero where none can be", "write a smaller whole number")
	case err != nil:
		d.Fault(n, "found "+strconv.Quote(clip(n.Value))+" where a whole number is expected", "write digits only, such as 3")
	}
}

func (d *Decode) float(n *Node, v reflect.Value) {
	text := n.Value
	if strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		text = strings.Replace(text, ",", ".", 1)
	}
	number, err := strconv.ParseFloat(text, v.Type().Bits())
	switch {
	case strings.Trim(text, "0123456789+-.eE") != "" || err != nil && !errors.Is(err, strconv.ErrRange):
		d.Fault(n, "found "+strconv.Quote(clip(n.Value))+" where a number is expected", "write digits with a decimal point and no unit, such as 1.5")
	case err != nil || math.IsInf(number, 0):
		d.Fault(n, "this number is too large", "write a smaller number")
	default:
		v.SetFloat(number)
	}
}
