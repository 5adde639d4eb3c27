// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"math"
	"net/http"
	"slices"
	"strings"

	brewday "gyle/day"
	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
)

// offerBody is what can be done at a reading, as the page draws it.
type offerBody struct {
	Over    gyle.ID
	EntryID gyle.ID
	Says    string
	Missed  string
	Notes   []string
	Tickets []ticketBody
}

// ticketBody is one option.
type ticketBody struct {
	Name, Does, Price, Caution       string
	OG, Volume, IBU, Color, PH, Mash string
	Minutes                          string
	Hops                             []string
}

// planOf makes the plan of a gyle anew from the documents of the book, for its
// kinetics; nil where the book lacks them. Note says where it isn't the plan that
// the gyle was begun with.
func (s *Server) planOf(ctx context.Context, g *gyle.Gyle) (p *plan.Plan, note string, err error) {
	read, err := s.readPlan(ctx, planQuery{Recipe: g.Recipe.ID, House: g.House, Stock: g.Stock, Water: g.Water})
	var missing fieldFaults
	if err != nil && !errors.As(err, &missing) {
		return nil, "", err
	}
	p, same := brewday.Again(g, read.in)
	if p != nil && !same {
		note = "The documents of the plan have changed since; the options reckon with them as they are now."
	}
	return p, note, nil
}

// mostOffers is how many entries back the page looks for one that asks for an
// answer.
const mostOffers = 8

// offers are the options at the last readings that missed the plan and that
// nobody has answered yet.
func (s *Server) offers(ctx context.Context, g *gyle.Gyle, pr quantity.Printer) (list []offerBody, err error) {
	standing := g.Log.Standing()
	answered := map[gyle.Place]bool{}
	var p *plan.Plan
	var note string
	for i := len(standing) - 1; i >= 0 && i >= len(standing)-mostOffers; i-- {
		e := standing[i]
		if c := e.Choice; c != nil {
			answered[placeIn(standing, c.Over)] = true
		}
		if e.Deed != nil && (e.Deed.Do == gyle.Pitched || e.Deed.Do == gyle.BoilStart && i < len(standing)-1) {
			break
		}
		if !mayMiss(e) || answered[placeIn(standing, e.ID)] {
			continue
		}
		if p == nil {
			if p, note, err = s.planOf(ctx, g); err != nil || p == nil {
				return nil, err
			}
		}
		answered[placeIn(standing, e.ID)] = true
		o, err := brewday.Answer(g, p, e.ID)
		if err != nil || len(o.Tickets) == 0 && len(o.Notes) == 0 {
			continue
		}
		body := offerBodyOf(o, e, pr)
		if note != "" && len(o.Tickets) > 0 {
			body.Notes = append(body.Notes, note)
		}
		body.EntryID = NewEntryID(s.now())
		list = append(list, body)
	}
	return list, nil
}

// mayMiss reports whether an entry is one that the day can answer.
func mayMiss(e gyle.Entry) bool {
	if e.Reading == nil {
		return e.Interruption != nil
	}
	return slices.Contains([]gyle.Place{gyle.AtMash, gyle.AtFullKettle, gyle.AtKnockOut, gyle.AtCooling}, e.Reading.At)
}

// placeIn is where an entry was read; an interruption has a place of its own.
func placeIn(log []gyle.Entry, id gyle.ID) gyle.Place {
	for _, e := range log {
		switch {
		case e.ID != id:
		case e.Reading != nil && e.Reading.At == gyle.AtMash:
			return e.Reading.At + gyle.Place(" "+e.Reading.Of)
		case e.Reading != nil:
			return e.Reading.At
		case e.Interruption != nil:
			return "interruption " + gyle.Place(e.ID)
		}
	}
	return gyle.Place("entry " + id)
}

func offerBodyOf(o brewday.Offer, e gyle.Entry, pr quantity.Printer) offerBody {
	b := offerBody{Over: e.ID, Says: e.WordsIn(pr), Missed: o.Missed, Notes: o.Notes}
	for _, t := range o.Tickets {
		b.Tickets = append(b.Tickets, ticketBodyOf(t, o.At, pr))
	}
	return b
}

func ticketBodyOf(t brewday.Ticket, at gyle.Place, pr quantity.Printer) ticketBody {
	b := ticketBody{
		Name: t.Name, Does: t.Does, Price: t.Price, Caution: t.Caution,
		OG: pr.Number(float64(t.OG), 4), Volume: pr.Number(float64(t.Volume), 2) + " L", IBU: pr.Number(float64(t.IBU), 1) + " IBU", Color: pr.EBC(t.Color),
		Minutes: "no time",
	}
	if m := t.Minutes.Minutes(); math.Abs(m) >= 0.05 {
		b.Minutes = strings.Replace(fmt.Sprintf("%+.0f min", m), "-", "−", 1)
		if math.Abs(m) < 2 {
			b.Minutes = strings.Replace(fmt.Sprintf("%+.0f s", m*60), "-", "−", 1)
		}
	}
	if t.PH > 0 {
		b.PH = "pH " + pr.PH(t.PH)
	}
	if !t.Mash.IsZero() && at == gyle.AtMash {
		b.Mash = "mash " + pr.Temperature(t.Mash)
	}
	for _, h := range t.Hops {
		b.Hops = append(b.Hops, fmt.Sprintf("%s of %s at %s instead of %s would keep the bitterness", pr.Mass(h.Mass), hopName(h.Hop), h.At, pr.Mass(h.Was)))
	}
	return b
}

// takeTicket logs that an option was taken; the day is timed anew from it.
func (s *Server) takeTicket(w http.ResponseWriter, r *http.Request) error {
	g, f, fault, err := s.readLogForm(r)
	if err != nil {
		return err
	}
	if fault != nil {
		return s.showGyle(w, r, http.StatusUnprocessableEntity, fault)
	}
	e, err := s.choice(r.Context(), g, gyle.ID(r.PostFormValue("over")), r.PostFormValue("take"), strings.TrimSpace(r.PostFormValue("why")), false)
	if err != nil {
		return err
	}
	e.ID, e.Time, e.Who = f.id, f.at, f.who
	if err := AppendEntries(r.Context(), s.book, r.PathValue("slug"), e); err != nil {
		return err
	}
	return seeOther(w, r, f.back+"#next")
}

// choice is the entry for taking an option at a reading. A phone that was without
// network may have named it by numbers that are a little off.
func (s *Server) choice(ctx context.Context, g *gyle.Gyle, over gyle.ID, take, why string, offline bool) (gyle.Entry, error) {
	if g.Plan == nil {
		return gyle.Entry{}, errBadForm
	}
	p, _, err := s.planOf(ctx, g)
	if err != nil {
		return gyle.Entry{}, err
	}
	if p == nil {
		return gyle.Entry{}, &RefusedError{"The documents that the plan was made of are no longer in the book, so the options can't be reckoned."}
	}
	o, err := brewday.Answer(g, p, over)
	if err != nil {
		return gyle.Entry{}, &RefusedError{"That reading was taken back in the meantime."}
	}
	for i, t := range o.Tickets {
		if t.Name == take {
			c := o.Choice(i, over, why)
			return gyle.Entry{Choice: &c}, nil
		}
	}
	if i, found := takenOffline(o.Tickets, take); offline && found {
		c := o.Choice(i, over, why)
		return gyle.Entry{Choice: &c, Note: "taken without network, as “" + take + "”"}, nil
	}
	return gyle.Entry{}, &RefusedError{"The readings have changed in the meantime and that option isn't there any more. Go back and look at the others."}
}
