// SPDX-License-Identifier: MIT

package chance

import (
	"encoding/json"

	"gyle/science/uncertainty"
)

// bandJSON is a band in the unit in which its figure is printed.
type bandJSON struct {
	Figure    string            `json:"figure"`
	Label     string            `json:"label"`
	Unit      string            `json:"unit,omitempty"`
	Planned   float64           `json:"planned"`
	Mean      float64           `json:"mean"`
	SD        float64           `json:"sd"`
	Median    float64           `json:"median"`
	Half      uncertainty.Range `json:"half"`
	OneSD     uncertainty.Range `json:"oneSD"`
	Most      uncertainty.Range `json:"most"`
	NearlyAll uncertainty.Range `json:"nearlyAll"`
	Blame     []Blame           `json:"blame"`
	Explained float64           `json:"explained"`
}

// MarshalJSON writes the band with its unit: gravities as SG, shares in %,
// volumes in L. Of the beers, half lie in "half", 68 in 100 in "oneSD", 90 in
// "most" and 95 in "nearlyAll". Shares of blame are of 1.
func (b Band) MarshalJSON() ([]byte, error) { return json.Marshal(b.JSONForm()) }

// JSONForm returns what MarshalJSON writes; schemas are drawn from its type.
func (b Band) JSONForm() bandJSON {
	factor, unit := b.Figure.Shown(1), b.Figure.Unit()
	if b.Figure == Collected || b.Figure == Packaged {
		factor, unit = 1, "L"
	}
	scaled := func(r uncertainty.Range) uncertainty.Range {
		return uncertainty.Range{Low: r.Low * factor, High: r.High * factor}
	}
	out := bandJSON{
		Figure: b.Name, Label: b.Label(), Unit: unit, Planned: b.Planned * factor, Mean: b.Mean * factor, SD: b.SD * factor, Median: b.Median * factor,
		Half: scaled(b.Half), OneSD: scaled(b.Sigma), Most: scaled(b.Most), NearlyAll: scaled(b.Nearly),
		Blame: []Blame{}, Explained: b.Explained,
	}
	for _, x := range b.Blame {
		x.Per *= factor
		out.Blame = append(out.Blame, x)
	}
	return out
}
