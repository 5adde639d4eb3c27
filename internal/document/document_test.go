// SPDX-License-Identifier: MIT

package document

import (
	"math"
	"strconv"
	"strings"
)

// A percent is a quantity with a unit, as the recipes of the tests use it.
type percent float64

func (p *percent) UnmarshalText(text []byte) error {
	number, ok := strings.CutSuffix(string(text), " %")
	if !ok {
		return &percentError{"a share has no unit", "write " + string(text) + " %"}
	}
	value, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsNaN(value) || math.IsInf(value, 0) {
		return &percentError{"a share is not a number", ""}
	}
	*p = percent(value)
	return nil
}

func (p percent) MarshalText() ([]byte, error) {
	text, err := floatText(float64(p), 64)
	return []byte(text + " %"), err
}

type percentError struct{ Msg, Hint string }

func (e *percentError) Error() string { return e.Msg }

type testRecipe struct {
	Name    string             `gyle:"name,required"`
	Version int                `gyle:"version"`
	Tested  bool               `gyle:"tested"`
	Aims    testAims           `gyle:"aims,flow"`
	Grist   []testMalt         `gyle:"grist,required,flow"`
	Steps   []testStep         `gyle:"steps"`
	Rests   []string           `gyle:"rests,flow"`
	Notes   []string           `gyle:"notes"`
	Water   map[string]float64 `gyle:"water,flow"`
	Lots    Ordered[testStep]  `gyle:"lots"`
	Rule    testRule           `gyle:"rule"`
	Rules   []testRule         `gyle:"rules,flow"`
	Spare   *float64           `gyle:"spare"`
	Mash    testMash           `gyle:"mash"`
	testWhy
}

// testWhy is inlined where it is embedded.
type testWhy struct {
	Why string `gyle:"why"`
}

type testAims struct {
	OG  float64 `gyle:"og"`
	IBU float64 `gyle:"ibu,keep"`
}

type testMalt struct {
	Malt  string  `gyle:"malt,required"`
	Share percent `gyle:"share,required"`
	Role  string  `gyle:"role"`
}

type testMash struct {
	Ratio float64    `gyle:"ratio"`
	Steps []testStep `gyle:"steps"`
	Inner *testMash  `gyle:"inner"`
}

type testStep struct {
	What    string     `gyle:"what"`
	Minutes uint8      `gyle:"minutes"`
	List    [][]string `gyle:"list"`
	testWhy
}

func (r *testRecipe) Validate(s *Source) Faults {
	var total percent
	for _, m := range r.Grist {
		total += m.Share
	}
	if total > 100 {
		return Faults{s.FaultKey("grist", "the shares add up to more than 100 %", "")}
	}
	return nil
}

func (m *testMalt) Validate(s *Source) Faults {
	if m.Share < 0 {
		return Faults{s.Fault("share", "a share is below zero", "write a share from 0 to 100 %")}
	}
	return nil
}

// A testRule is either a text or a map.
type testRule struct {
	Text  string
	Above float64
}

type testRuleMap struct {
	Above float64 `gyle:"above,required"`
}

func (r *testRule) DecodeDocument(d *Decode, n *Node) {
	if IsText(n) {
		d.Value(n, &r.Text)
		return
	}
	var m testRuleMap
	d.Value(n, &m)
	r.Above = m.Above
}

func (r testRule) EncodeDocument() any {
	if r.Text != "" {
		return r.Text
	}
	return testRuleMap{r.Above}
}
