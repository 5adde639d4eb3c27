// SPDX-License-Identifier: MIT

package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"

	"gyle/internal/describe"
	"gyle/schema"
)

// The schemas in the repository are those of the types.
func TestSchemasAreFresh(t *testing.T) {
	d, err := describe.New("../..", wordsOf())
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, k := range described() {
		names = append(names, k.Name)
		text, err := d.Schema(k)
		if err != nil {
			t.Fatal(err)
		}
		if *update {
			if err := os.WriteFile("../../schema/"+k.Name+".json", text, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if have, _ := schema.Text(k.Name); !bytes.Equal(have, text) {
			t.Errorf("schema/%s.json isn't what the types say: run go generate ./cmd/gyle", k.Name)
		}
	}
	slices.Sort(names)
	if have := schema.Names(); !*update && !slices.Equal(have, names) {
		t.Errorf("there are schemas of %v, want %v", have, names)
	}
}

// compiled is a schema as another program reads it, held against the rules of
// the draft it names.
func compiled(t *testing.T, name string) *jsonschema.Schema {
	t.Helper()
	text, ok := schema.Text(name)
	if !ok {
		t.Fatalf("there is no schema of %s", name)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource(name+".json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(name + ".json")
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return s
}

// Every example is what its schema says, and a wrong key is not. The schemas
// are read by a validator of another project.
func TestExamplesHoldToTheirSchemas(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		kind, _, _ := strings.Cut(strings.TrimPrefix(string(text[bytes.Index(text, []byte("gyle: ")):]), "gyle: "), "/")
		s := compiled(t, kind)
		value := asJSON(t, text)
		if err := s.Validate(value); err != nil {
			t.Errorf("%s: %v", file, err)
		}
		value.(map[string]any)["nonsense"] = "x"
		if s.Validate(value) == nil {
			t.Errorf("%s: a key that no document has is allowed", file)
		}
	}
}

// asJSON reads YAML as a program does that knows nothing of gyle.
func asJSON(t *testing.T, text []byte) any {
	t.Helper()
	var value any
	if err := yaml.Unmarshal(text, &value); err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return decoded(t, b)
}

func decoded(t *testing.T, b []byte) any {
	t.Helper()
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		t.Fatalf("%v: %.300s", err, b)
	}
	return value
}

// What the commands print for programs is what the schemas say.
func TestCommandsHoldToTheirSchemas(t *testing.T) {
	t.Chdir("../../examples")
	for _, c := range []struct{ kind, line string }{
		{"plan", "plan ferry-brown-4.yaml --house boathouse.yaml --stock boathouse-shed.yaml --water saltpan-lane.yaml --json"},
		{"plan", "plan ferry-brown-3.yaml --house garage.yaml --json"},
		{"plan", "plan ferry-brown-3.yaml --house garage.yaml --stock garage-shed.yaml --water saltpan-lane.yaml --chance --json"},
		{"check", "check ferry-brown-3.yaml saltpan-lane.yaml --style oat-brown-ale.yaml --json"},
		{"verdict", "tasting tasting-2-3.yaml --json"},
		{"verdict", "tasting tasting-profile.yaml --json"},
		{"verdict", "tasting tasting-3-4.yaml --json"},
		{"log", "log gyle-17.yaml --json"},
		{"reconstruction", "reconstruct gyle-21.yaml --json"},
		{"comparison", "compare ferry-brown-2.yaml ferry-brown-3.yaml --house garage.yaml --json"},
		{"comparison", "compare ferry-brown-4.yaml --house garage.yaml --house boathouse.yaml --json"},
		{"formula", "formulate oat-brown-ale.yaml --like ferry-brown-4.yaml --json"},
		{"variations", "formulate oat-brown-ale.yaml --like ferry-brown-4.yaml --variations 2 --json"},
		{"swaps", "formulate oat-brown-ale.yaml --like ferry-brown-4.yaml --swap chocolate=brown --json"},
		{"treatments", "treat saltpan-lane.yaml --volume 28.8L --aim Ca=110 --aim Cl=100 --json"},
		{"why", "why ibu --recipe ferry-brown-4.yaml --house garage.yaml --json"},
	} {
		var out, complaints bytes.Buffer
		if code := run(strings.Fields(c.line), strings.NewReader(""), &out, &complaints); code > 1 || out.Len() == 0 {
			t.Errorf("gyle %s: %d %s", c.line, code, complaints.String())
			continue
		}
		if err := compiled(t, c.kind).Validate(decoded(t, out.Bytes())); err != nil {
			t.Errorf("gyle %s: %v", c.line, err)
		}
	}
}
