// SPDX-License-Identifier: MIT

package plan_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gyle/plan"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// rounded returns JSON with every number rounded to six significant digits, so
// that a golden file doesn't hang on the last bit of a processor.
func rounded(t *testing.T, text []byte) []byte {
	t.Helper()
	var out bytes.Buffer
	for _, line := range strings.SplitAfter(string(text), "\n") {
		before, rest, found := strings.Cut(line, `": `)
		number := strings.TrimRight(rest, ",\n")
		var x float64
		if !found || json.Unmarshal([]byte(number), &x) != nil {
			out.WriteString(line)
			continue
		}
		short, _ := json.Marshal(significant(x))
		out.WriteString(before + `": ` + string(short) + rest[len(number):])
	}
	return out.Bytes()
}

func significant(x float64) float64 {
	if x == 0 {
		return 0
	}
	scale := math.Pow(10, 6-math.Ceil(math.Log10(math.Abs(x))))
	return math.Round(x*scale) / scale
}

func TestJSONGolden(t *testing.T) {
	in := keepingOil(onBoathouse(t, "4"))
	in.Swap = map[string]string{"challenger": "northdown"}
	got := rounded(t, must[[]byte](t)(made(t, in).JSON()))
	golden := filepath.Join("testdata", "boathouse-ferry-brown-4.json")
	if *update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("the JSON of the plan has changed; run go test -update and review the diff of %s", golden)
	}
}

// The measures keep their full precision and units that don't wander.
func TestJSONMeasures(t *testing.T) {
	p := made(t, onBoathouse(t, "4"))
	var got struct {
		Volumes struct {
			FullKettle struct {
				Value float64
				Unit  string
			}
			FullKettleHot struct{ At struct{ Value float64 } }
		}
		Cellar struct {
			DryRange struct{ Low, High struct{ Unit string } }
		}
		Hops struct {
			Charges []struct{ Mass struct{ Unit string } }
		}
		Cautions []string
	}
	if err := json.Unmarshal(must[[]byte](t)(p.JSON()), &got); err != nil {
		t.Fatal(err)
	}
	if v := got.Volumes.FullKettle; v.Value != float64(p.Volumes.FullKettle) || v.Unit != "L" {
		t.Errorf("full kettle %v, want %v L", v, float64(p.Volumes.FullKettle))
	}
	near(t, "temperature of the hot reading, °C", got.Volumes.FullKettleHot.At.Value, 98, 1e-9)
	if got.Cellar.DryRange.Low.Unit != "kg" || got.Cellar.DryRange.High.Unit != "kg" {
		t.Errorf("a range of masses is in %v", got.Cellar.DryRange)
	}
	for _, c := range got.Hops.Charges {
		if c.Mass.Unit != "kg" {
			t.Errorf("a charge is in %s, want kg", c.Mass.Unit)
		}
	}
	if got.Cautions == nil {
		t.Error("an empty list is null")
	}
}

func TestJSONRefusesWhatIsNoNumber(t *testing.T) {
	p := made(t, onBoathouse(t, "4"))
	p.Figures = append([]plan.Figure(nil), p.Figures...)
	p.Figures[2].SD = math.NaN()
	if _, err := p.JSON(); err == nil || !strings.Contains(err.Error(), "figures: abv: NaN is no number") {
		t.Errorf("error %v should name the figure", err)
	}
}
