// SPDX-License-Identifier: MIT

package calendar

import (
	"fmt"
	"math"
	"strings"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/recipe"
)

// Part is one stretch of a beer's time in the fermenter.
type Part struct {
	What      string // "fermentation", "dry hops", "chilling"
	Low, High int    // days, at least and at most; the most are kept free
}

// Need is how long a beer needs its fermenter, part after part. A vessel is
// kept for the longest.
type Need []Part

// Days returns the least and the most days of all parts together.
func (n Need) Days() (low, high int) {
	for _, p := range n {
		low, high = low+p.Low, high+p.High
	}
	return low, high
}

// String says it in words: "fermentation 7 to 10 days, chilling 2 days".
func (n Need) String() string {
	var texts []string
	for _, p := range n {
		text := fmt.Sprintf("%s %d days", p.What, p.High)
		if p.Low != p.High {
			text = fmt.Sprintf("%s %d to %d days", p.What, p.Low, p.High)
		}
		texts = append(texts, strings.Replace(text, " 1 days", " 1 day", 1))
	}
	return strings.Join(texts, ", ")
}

// What a house doesn't say. Common practice: ales ferment out in about a week
// and are left until the gravity has stood still for two or three days; beers
// below 15 °C take two to three weeks; two days of cold let the yeast settle.
var (
	warmDays  = quantity.Span[quantity.Duration]{Low: quantity.Days(7), High: quantity.Days(10)}
	coldDays  = quantity.Span[quantity.Duration]{Low: quantity.Days(14), High: quantity.Days(21)}
	coldBelow = quantity.Celsius(15)
	chillDays = quantity.Days(2)
)

// NeedOf returns how long the beer of a plan needs its fermenter in a house,
// which may be nil. Dry hops go in when the fermentation is over, the longest
// charge counts.
func NeedOf(p *gyle.Plan, house *brewhouse.House) Need {
	ferments, chill := warmDays, chillDays
	if p != nil && p.Cellar.Range != nil && p.Cellar.Range.HasHigh() && p.Cellar.Range.High.Below(coldBelow) {
		ferments = coldDays
	}
	if house != nil && house.Fermenter.Ferments != nil {
		ferments = *house.Fermenter.Ferments
	}
	if house != nil && house.Fermenter.Chill != nil {
		chill = *house.Fermenter.Chill
	}
	need := Need{part("fermentation", ferments)}
	if dry := dryHops(p); dry > 0 {
		need = append(need, part("dry hops", quantity.Exactly(dry)))
	}
	if chill > 0 {
		need = append(need, part("chilling", quantity.Exactly(chill)))
	}
	return need
}

func part(what string, days quantity.Span[quantity.Duration]) Part {
	return Part{What: what, Low: wholeDays(days.Low), High: wholeDays(days.High)}
}

// wholeDays counts a day that was begun.
func wholeDays(d quantity.Duration) int { return int(math.Ceil(d.Days() - 1e-6)) }

// dryHops is how long the longest charge of dry hops of a plan stays.
func dryHops(p *gyle.Plan) (longest quantity.Duration) {
	if p == nil {
		return 0
	}
	for _, c := range p.Hops {
		var at recipe.Moment
		if at.UnmarshalText([]byte(c.At)) == nil && at.Stage == recipe.AtDry {
			longest = max(longest, at.Time)
		}
	}
	return longest
}
