// SPDX-License-Identifier: MIT

package plan

import (
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"gyle/quantity"
	"gyle/science/boil"
	chem "gyle/science/water"
)

// JSON writes the plan for other programs.
//
// Every measure is an object with its full precision and a unit that never
// changes from plan to plan:
//
//	"fullKettle": {"value": 95.79470036360004, "unit": "L"}
//
// Masses are in kg, volumes in L at 20 °C, temperatures in °C, times in min,
// shares in %, gravities in SG 20/20 °C. A volume as it reads hot adds "at"
// with the temperature of the liquid. A range is {"low": …, "high": …}, each
// end a measure; an open end is left out. A figure has "value" and "unit", and
// "sd" and "aim" in that same unit where they are known. Ions are an object of
// measures by symbol. Moments, ways and roles are the words of the documents.
//
// Keys stand in the order of the brewing and don't change their order. A list
// is never null. What is empty and not needed is left out, as are temperatures
// that were never set. A number that is not finite is an error: it would be a
// fault of the program, not of the beer.
func (p *Plan) JSON() ([]byte, error) {
	e := &jsonWriter{}
	if err := e.write(reflect.ValueOf(p).Elem()); err != nil {
		return nil, fmt.Errorf("write plan as JSON: %w", err)
	}
	var out bytes.Buffer
	if err := json.Indent(&out, e.Bytes(), "", "  "); err != nil {
		return nil, fmt.Errorf("write plan as JSON: %w", err)
	}
	out.WriteByte('\n')
	return out.Bytes(), nil
}

// jsonUnit is the unit a kind of measure has in JSON, and how many of them
// make one of those the program reckons in.
type jsonUnit struct {
	unit  string
	times float64
}

// jsonUnits lists the measures that are plain numbers.
var jsonUnits = map[reflect.Type]jsonUnit{
	reflect.TypeFor[quantity.Mass]():           {"kg", 1},
	reflect.TypeFor[quantity.Volume]():         {"L", 1},
	reflect.TypeFor[quantity.Duration]():       {"min", 1},
	reflect.TypeFor[quantity.Fraction]():       {"%", 100},
	reflect.TypeFor[quantity.SG]():             {"SG", 1},
	reflect.TypeFor[quantity.Plato]():          {"°P", 1},
	reflect.TypeFor[quantity.EBC]():            {"EBC", 1},
	reflect.TypeFor[quantity.IBU]():            {"IBU", 1},
	reflect.TypeFor[quantity.Carbonation]():    {"vol", 1},
	reflect.TypeFor[quantity.Concentration]():  {"mg/L", 1},
	reflect.TypeFor[quantity.Charge]():         {"mEq/L", 1},
	reflect.TypeFor[quantity.PH]():             {"pH", 1},
	reflect.TypeFor[quantity.Dose]():           {"g/L", 1},
	reflect.TypeFor[quantity.GaugePressure]():  {"bar", 1},
	reflect.TypeFor[boil.MicrogramsPerLitre](): {"µg/L", 1},
}

// jsonWriter writes compact JSON.
type jsonWriter struct{ bytes.Buffer }

// write writes any value of a plan.
func (e *jsonWriter) write(v reflect.Value) error {
	if done, err := e.measure(v); done || err != nil {
		return err
	}
	if done, err := e.documentMeasure(v); done || err != nil {
		return err
	}
	if text, ok := v.Interface().(encoding.TextMarshaler); ok && v.Kind() != reflect.Pointer {
		b, err := text.MarshalText()
		e.text(string(b))
		return err
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			e.WriteString("null")
			return nil
		}
		return e.write(v.Elem())
	case reflect.Struct:
		return e.object(v)
	case reflect.Slice:
		return e.list(v)
	case reflect.Map:
		return e.dictionary(v)
	case reflect.String:
		e.text(v.String())
	case reflect.Bool:
		e.WriteString(strconv.FormatBool(v.Bool()))
	case reflect.Int:
		e.WriteString(strconv.FormatInt(v.Int(), 10))
	case reflect.Float64:
		return e.number(v.Float())
	default:
		return fmt.Errorf("%s has no form in JSON", v.Type())
	}
	return nil
}

// measure writes v if it is a measure, with its unit.
func (e *jsonWriter) measure(v reflect.Value) (done bool, err error) {
	if u, ok := jsonUnits[v.Type()]; ok {
		return true, e.withUnit(v.Float()*u.times, u.unit)
	}
	switch m := v.Interface().(type) {
	case quantity.Temperature:
		return true, e.withUnit(m.Celsius(), "°C")
	case quantity.VolumeAt:
		return true, e.volumeAt(m)
	case chem.Ions:
		return true, e.ions(m)
	case Figure:
		return true, e.figure(m)
	}
	if strings.HasPrefix(v.Type().Name(), "Span[") {
		return true, e.span(v)
	}
	return false, nil
}

// withUnit writes a measure.
func (e *jsonWriter) withUnit(value float64, unit string) error {
	e.WriteString(`{"value":`)
	if err := e.number(value); err != nil {
		return err
	}
	e.WriteString(`,"unit":`)
	e.text(unit)
	e.WriteByte('}')
	return nil
}

func (e *jsonWriter) volumeAt(m quantity.VolumeAt) error {
	e.WriteString(`{"value":`)
	if err := e.number(float64(m.Volume)); err != nil {
		return err
	}
	e.WriteString(`,"unit":"L","at":`)
	if err := e.withUnit(m.At.Celsius(), "°C"); err != nil {
		return err
	}
	e.WriteByte('}')
	return nil
}

// ions writes the ions by symbol, in the order of a water report.
func (e *jsonWriter) ions(ions chem.Ions) error {
	e.WriteByte('{')
	for i, ion := range chem.AllIons() {
		e.key(i, ion.Symbol())
		if err := e.withUnit(ions[ion], "mg/L"); err != nil {
			return err
		}
	}
	e.WriteByte('}')
	return nil
}

// figureUnit is the unit of a figure in JSON; "1" is that of a ratio.
func figureUnit(f quantity.Figure) jsonUnit {
	switch f {
	case quantity.OG, quantity.FG:
		return jsonUnit{"SG", 1}
	case quantity.ABV, quantity.Attenuation:
		return jsonUnit{"%", 100}
	case quantity.Bitterness:
		return jsonUnit{"IBU", 1}
	case quantity.BeerColor:
		return jsonUnit{"EBC", 1}
	case quantity.CO2:
		return jsonUnit{"vol", 1}
	case quantity.MashPH:
		return jsonUnit{"pH", 1}
	case quantity.BUGU, quantity.SulfateToChloride:
		return jsonUnit{"1", 1}
	case quantity.ResidualAlkalinity:
		return jsonUnit{"mEq/L", 1}
	}
	return jsonUnit{"mg/L", 1}
}

func (e *jsonWriter) figure(f Figure) error {
	u := figureUnit(f.Figure)
	e.WriteString(`{"figure":`)
	e.text(string(f.Figure))
	type part struct {
		key   string
		value float64
	}
	parts := []part{{"value", f.Value}}
	if f.SD != 0 {
		parts = append(parts, part{"sd", f.SD})
	}
	if f.Aim != nil {
		parts = append(parts, part{"aim", *f.Aim})
	}
	for _, p := range parts {
		e.key(1, p.key)
		if err := e.number(p.value * u.times); err != nil {
			return fmt.Errorf("%s: %w", f.Figure, err)
		}
	}
	e.WriteString(`,"unit":`)
	e.text(u.unit)
	e.WriteString(`,"why":`)
	e.text(f.Why)
	e.WriteByte('}')
	return nil
}

// span writes a range; an end that is open is left out.
func (e *jsonWriter) span(v reflect.Value) error {
	e.WriteByte('{')
	written := 0
	for i, name := range []string{"low", "high"} {
		end := v.Field(i)
		if end.Kind() == reflect.Float64 && math.IsInf(end.Float(), 2*i-1) {
			continue
		}
		if t, ok := end.Interface().(quantity.Temperature); ok && math.IsInf(t.Kelvin(), 2*i-1) {
			continue
		}
		e.key(written, name)
		if err := e.write(end); err != nil {
			return err
		}
		written++
	}
	e.WriteByte('}')
	return nil
}

func (e *jsonWriter) object(v reflect.Value) error {
	e.WriteByte('{')
	written := 0
	for i := range v.NumField() {
		field := v.Type().Field(i)
		if !field.IsExported() {
			continue
		}
		name, optional := jsonName(field)
		if absent(v.Field(i), optional) {
			continue
		}
		e.key(written, name)
		if err := e.member(v.Field(i), field.Tag.Get("unit")); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		written++
	}
	e.WriteByte('}')
	return nil
}

// member writes a field; a tag gives the unit of what is no measure by itself.
func (e *jsonWriter) member(v reflect.Value, unit string) error {
	if unit != "" {
		return e.withUnit(v.Float(), unit)
	}
	return e.write(v)
}

// jsonName is the name of a field: as its tag says, else with a small letter.
func jsonName(field reflect.StructField) (name string, optional bool) {
	if tag := field.Tag.Get("gyle"); tag != "" {
		return documentName(tag)
	}
	name, options, _ := strings.Cut(field.Tag.Get("json"), ",")
	if name == "" {
		first, size := utf8.DecodeRuneInString(field.Name)
		name = string(unicode.ToLower(first)) + field.Name[size:]
	}
	return name, options == "omitempty"
}

// absent reports whether a field is left out: an optional one that is empty, or
// a temperature that was never set.
func absent(v reflect.Value, optional bool) bool {
	if t, ok := v.Interface().(quantity.Temperature); ok {
		return t.IsZero()
	}
	if !optional {
		return false
	}
	return v.IsZero() || v.Kind() == reflect.Slice && v.Len() == 0
}

func (e *jsonWriter) list(v reflect.Value) error {
	e.WriteByte('[')
	for i := range v.Len() {
		if i > 0 {
			e.WriteByte(',')
		}
		if err := e.write(v.Index(i)); err != nil {
			return err
		}
	}
	e.WriteByte(']')
	return nil
}

// key writes the name of member i of an object.
func (e *jsonWriter) key(i int, name string) {
	if i > 0 {
		e.WriteByte(',')
	}
	e.text(name)
	e.WriteByte(':')
}

func (e *jsonWriter) number(x float64) error {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Errorf("%v is no number", x)
	}
	b, err := json.Marshal(x)
	e.Write(b)
	return err
}

func (e *jsonWriter) text(s string) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	_ = enc.Encode(s) // a string can always be written
	e.Write(bytes.TrimSuffix(b.Bytes(), []byte("\n")))
}
