// SPDX-License-Identifier: MIT

package plan

import (
	"bytes"
	"cmp"
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"gyle/quantity"
)

// WriteJSON writes any value as [Plan.JSON] writes plans: measures with their
// unit, names as a json tag says or as the key of a document is. What a
// document leaves out is left out.
func WriteJSON(v any) ([]byte, error) {
	e := &jsonWriter{}
	if err := e.write(reflect.ValueOf(v)); err != nil {
		return nil, fmt.Errorf("write JSON: %w", err)
	}
	var out bytes.Buffer
	if err := json.Indent(&out, e.Bytes(), "", "  "); err != nil {
		return nil, fmt.Errorf("write JSON: %w", err)
	}
	out.WriteByte('\n')
	return out.Bytes(), nil
}

// documentUnits lists the measures of documents that no plan has.
var documentUnits = map[reflect.Type]jsonUnit{
	reflect.TypeFor[quantity.Ratio]():        {"L/kg", 1},
	reflect.TypeFor[quantity.OilContent]():   {"mL/100 g", 1},
	reflect.TypeFor[quantity.PitchRate]():    {"M/mL/°P", 1},
	reflect.TypeFor[quantity.Power]():        {"kW", 1},
	reflect.TypeFor[quantity.HeatCapacity](): {"kJ/K", 1},
	reflect.TypeFor[quantity.Length]():       {"m", 1},
	reflect.TypeFor[quantity.MassFlow]():     {"kg/s", 1},
}

// documentMeasure writes the measures of documents that no plan has.
func (e *jsonWriter) documentMeasure(v reflect.Value) (done bool, err error) {
	if u, ok := documentUnits[v.Type()]; ok {
		return true, e.withUnit(v.Float()*u.times, u.unit)
	}
	switch m := v.Interface().(type) {
	case quantity.Estimate:
		return true, e.estimate(m.Value, m.SD, jsonUnit{"1", 1})
	case quantity.FractionEstimate:
		return true, e.estimate(float64(m.Value), float64(m.SD), jsonUnit{"%", 100})
	case quantity.Color:
		return true, e.withUnit(float64(m.EBC()), "EBC")
	case quantity.Gravity:
		if m.Scale == quantity.ScalePlato {
			return true, e.withUnit(m.Value, "°P")
		}
		return true, e.withUnit(m.Value, "SG")
	case json.Marshaler:
		if _, isText := m.(encoding.TextMarshaler); isText || v.Kind() == reflect.Pointer {
			return false, nil
		}
		b, err := m.MarshalJSON()
		e.Write(b)
		return true, err
	}
	return false, nil
}

// estimate writes a number with its standard deviation, where one was stated.
func (e *jsonWriter) estimate(value, sd float64, u jsonUnit) error {
	e.WriteString(`{"value":`)
	if err := e.number(value * u.times); err != nil {
		return err
	}
	if sd != 0 {
		e.WriteString(`,"sd":`)
		if err := e.number(sd * u.times); err != nil {
			return err
		}
	}
	e.WriteString(`,"unit":`)
	e.text(u.unit)
	e.WriteByte('}')
	return nil
}

// dictionary writes a map in the order of its keys.
func (e *jsonWriter) dictionary(v reflect.Value) error {
	e.WriteByte('{')
	keys := v.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return cmp.Compare(a.String(), b.String()) })
	for i, k := range keys {
		e.key(i, k.String())
		if err := e.write(v.MapIndex(k)); err != nil {
			return fmt.Errorf("%s: %w", k, err)
		}
	}
	e.WriteByte('}')
	return nil
}

// documentName is the name of a field that is a key of a document.
func documentName(tag string) (name string, optional bool) {
	name, options, _ := strings.Cut(tag, ",")
	return name, !strings.Contains(options, "required")
}

// JSONUnit returns the unit in which [Plan.JSON] and [WriteJSON] write measures
// of a type, and whether values of the type are measures with one unit.
func JSONUnit(t reflect.Type) (unit string, ok bool) {
	if t == reflect.TypeFor[quantity.Temperature]() {
		return "°C", true
	}
	if u, ok := jsonUnits[t]; ok {
		return u.unit, true
	}
	u, ok := documentUnits[t]
	return u.unit, ok
}

// JSONName returns the name under which [Plan.JSON] writes a field, and whether
// the field is left out where it is empty.
func JSONName(field reflect.StructField) (name string, optional bool) { return jsonName(field) }
