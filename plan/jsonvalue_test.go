// SPDX-License-Identifier: MIT

package plan_test

import (
	"encoding/json"
	"os"
	"testing"

	"gyle/brewhouse"
	"gyle/plan"
)

// A document in JSON has the keys of its text, with measures in fixed units.
func TestWriteJSONOfADocument(t *testing.T) {
	text, err := os.ReadFile("../examples/boathouse.yaml")
	if err != nil {
		t.Fatal(err)
	}
	house, err := brewhouse.Parse("boathouse.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	out, err := plan.WriteJSON(struct {
		Document any                `json:"document"`
		Of       map[string]float64 `json:"of"`
	}{house, map[string]float64{"b": 2, "a": 1}})
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Document struct {
			Name   string
			Note   string
			Kettle map[string]struct {
				Value float64
				Unit  string
			}
			Mash struct {
				Yield struct {
					Value, SD float64
					Unit      string
				}
				Conversion *struct{}
			}
		}
		Of map[string]float64
	}
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	// The numbers are those of examples/boathouse.yaml.
	loss := got.Document.Kettle["heat loss"]
	yield := got.Document.Mash.Yield
	if got.Document.Name != "Boathouse" || loss.Value != 1.7 || loss.Unit != "kW" || yield.Value != 78 || yield.SD != 2 || yield.Unit != "%" {
		t.Errorf("got %+v", got)
	}
	if got.Document.Mash.Conversion != nil || got.Of["b"] != 2 {
		t.Errorf("a key that the house leaves out is there, or one is missing:\n%s", out)
	}
}
