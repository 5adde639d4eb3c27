// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"encoding/json"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"

	brewday "gyle/day"
	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/gravity"
)

// kettleTables are the options at readings that may come, reckoned before they
// do, for a phone whose network goes: the phone looks between the four nearest.
type kettleTables struct {
	At map[gyle.Place]kettleTable `json:"at"`
	// Hot is the volume at 20 °C of a litre that is read hot, Warm what a warm
	// sample adds to the gravity that a hydrometer shows; at each of Degrees.
	Degrees []float64 `json:"degrees"`
	Hot     []float64 `json:"hot"`
	Warm    []float64 `json:"warm"`
}

// kettleTable are the offers over volumes (L at 20 °C, in rows) and gravities.
type kettleTable struct {
	Litres []float64     `json:"litres"`
	SG     []float64     `json:"sg"`
	Offers []kettleOffer `json:"offers"` // row by row
}

// How far the readings may be from the plan, and in which steps.
const (
	tableVolumes  = 9
	tableStep     = 0.03 // of the planned volume
	tableSGs      = 13
	tablePoint    = 0.001
	hydrometersAt = 20 // °C
)

// kettleOptions sends the tables; an empty one where the plan can't be made any
// more.
func (s *Server) kettleOptions(w http.ResponseWriter, r *http.Request) error {
	g, _, err := s.gyle(r.Context(), r.PathValue("slug"))
	if err != nil {
		return err
	}
	tables, err := s.kettleTables(r.Context(), g, handOf(r).printer())
	if err != nil {
		return err
	}
	text, err := json.Marshal(tables)
	if err != nil {
		return err
	}
	sendJSON(w, http.StatusOK, text)
	return nil
}

func (s *Server) kettleTables(ctx context.Context, g *gyle.Gyle, pr quantity.Printer) (t kettleTables, err error) {
	t.At = map[gyle.Place]kettleTable{}
	if g.Plan == nil {
		return t, nil
	}
	p, _, err := s.planOf(ctx, g)
	if err != nil || p == nil {
		return t, err
	}
	const coldest, hottest, step = 5, 105, 5
	for celsius := coldest; celsius <= hottest; celsius += step {
		at := quantity.Celsius(float64(celsius))
		t.Degrees = append(t.Degrees, float64(celsius))
		t.Hot = append(t.Hot, float64(gravity.VolumeAt20(quantity.VolumeAt{Volume: 1, At: at})))
		true20, _ := gravity.HydrometerSG(p.Gravity.FullKettle, at, quantity.Celsius(hydrometersAt))
		t.Warm = append(t.Warm, float64(true20-p.Gravity.FullKettle))
	}
	full := p.Gravity.FullKettle
	t.At[gyle.AtFullKettle] = tableOf(p.Volumes.FullKettle, full, func(k brewday.Kettle) brewday.Offer { return brewday.FullKettle(p, k) }, pr)
	t.At[gyle.AtKnockOut] = tableOf(p.Volumes.KnockOut, p.Gravity.OG, func(k brewday.Kettle) brewday.Offer { return knockedOut(g, p, k) }, pr)
	return t, nil
}

// knockedOut answers a kettle at knock-out with the full kettle as it was read.
func knockedOut(g *gyle.Gyle, p *plan.Plan, k brewday.Kettle) brewday.Offer {
	for _, e := range g.Log.Standing() {
		if e.Reading != nil && e.Reading.At == gyle.AtFullKettle {
			if sg, err := brewday.WortGravity(g, *e.Reading); err == nil {
				k.Full = sg
			}
		}
	}
	return brewday.KnockedOut(p, k)
}

func tableOf(volume quantity.Volume, sg quantity.SG, answer func(brewday.Kettle) brewday.Offer, pr quantity.Printer) (t kettleTable) {
	for j := range tableSGs {
		t.SG = append(t.SG, float64(sg)+tablePoint*float64(j-tableSGs/2))
	}
	for i := range tableVolumes {
		litres := volume.Litres() * (1 + tableStep*float64(i-tableVolumes/2))
		t.Litres = append(t.Litres, litres)
		for _, one := range t.SG {
			o := answer(brewday.Kettle{Volume: quantity.VolumeAt{Volume: quantity.Volume(litres)}, SG: quantity.SG(one)})
			body := offerBody{Missed: o.Missed, Notes: o.Notes}
			for _, ticket := range o.Tickets {
				body.Tickets = append(body.Tickets, ticketBodyOf(ticket, o.At, pr))
			}
			t.Offers = append(t.Offers, kettleOfferOf(body))
		}
	}
	return t
}

// figures are the numbers in the name of a ticket.
var figures = regexp.MustCompile(`\d+(?:[.,]\d+)?`)

// takenOffline finds the ticket that a phone without network has meant: one of
// the same words whose numbers are nearest, for the phone reckons between those
// that the book had sent.
func takenOffline(tickets []brewday.Ticket, take string) (found int, ok bool) {
	found = -1
	words, nearest := figures.ReplaceAllString(take, "#"), 0.0
	for i, t := range tickets {
		if figures.ReplaceAllString(t.Name, "#") != words {
			continue
		}
		off := 0.0
		mine, theirs := figures.FindAllString(t.Name, -1), figures.FindAllString(take, -1)
		for n := range mine {
			off += abs(numberIn(mine[n]) - numberIn(theirs[n]))
		}
		if found < 0 || off < nearest {
			found, nearest = i, off
		}
	}
	const near = 12 // minutes, of a boil
	return found, found >= 0 && nearest <= near
}

func numberIn(text string) float64 {
	x, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil {
		return 0
	}
	return x
}

func abs(x float64) float64 { return max(x, -x) }

// readOf is what the log has of an ask with options, as it was typed.
func readOf(standing []gyle.Entry, a brewday.Ask) string {
	for _, e := range slices.Backward(standing) {
		if e.Reading != nil && e.Reading.At == a.Reading.At && e.Reading.Of == a.Reading.Of {
			return e.Reading.Value
		}
	}
	return ""
}
