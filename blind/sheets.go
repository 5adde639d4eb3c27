// SPDX-License-Identifier: MIT

package blind

import (
	"gyle/science/sensory"
	"gyle/tasting"
)

// OfBeer is what the score sheets say of one beer.
type OfBeer struct {
	Letter string    `json:"letter"`
	Beer   string    `json:"beer"`
	Totals []Total   `json:"totals,omitempty"`
	Within bool      `json:"within"` // the totals lie as near as custom asks
	Points []OfPoint `json:"points"`
}

// Total is one judge's total.
type Total struct {
	Judge string  `json:"judge"`
	Total float64 `json:"total"`
	Of    float64 `json:"of"`
}

// OfPoint is what judges say of one attribute. A conflict stays open: no mean
// is taken, and no change follows from it.
type OfPoint struct {
	Attribute string `json:"attribute"`
	Accord    string `json:"accord"`
	Open      bool   `json:"open"`
	Says      []Said `json:"says"`
}

// Said is one judge's words on one attribute.
type Said struct {
	Judge string `json:"judge"`
	Says  string `json:"says,omitempty"`
	Words string `json:"words,omitempty"`
}

// opinions are the words of a sheet as opinions.
var opinions = map[string]sensory.Opinion{"too little": sensory.TooLittle, "right": sensory.Right, "too much": sensory.TooMuch}

// sheetsOf reads the score sheets of all beers.
func sheetsOf(t *tasting.Tasting) (list []OfBeer) {
	corrected := map[int]bool{}
	for _, s := range t.Sheets {
		corrected[s.Corrects] = true
	}
	for _, b := range t.Beers {
		attributes, says := t.Said(b.Letter)
		of := OfBeer{Letter: b.Letter, Beer: NameOf(t, b.Letter)}
		var totals []float64
		for i, s := range t.Sheets {
			if s.Beer == b.Letter && s.Total != nil && !corrected[i+1] {
				of.Totals = append(of.Totals, Total{s.Judge, *s.Total, s.Of})
				totals = append(totals, *s.Total)
			}
		}
		_, of.Within = sensory.Spread(totals, sensory.UsualSpread)
		for _, a := range attributes {
			of.Points = append(of.Points, pointOf(a, says[a]))
		}
		if len(of.Totals) > 0 || len(of.Points) > 0 {
			list = append(list, of)
		}
	}
	return list
}

func pointOf(attribute string, says []tasting.Say) OfPoint {
	point := OfPoint{Attribute: attribute}
	var all []sensory.Opinion
	for _, s := range says {
		point.Says = append(point.Says, Said{s.Judge, s.Says, s.Words})
		if opinion, told := opinions[s.Says]; told {
			all = append(all, opinion)
		}
	}
	accord := sensory.AccordOf(all)
	point.Accord, point.Open = accord.String(), accord == sensory.Conflict
	return point
}
