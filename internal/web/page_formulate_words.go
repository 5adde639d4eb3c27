// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"gyle/formulate"
	"gyle/internal/chart"
	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
)

// aimNames are the aims as people choose them.
var aimNames = map[formulate.Objective]string{
	formulate.Middle: "as far from every edge as may be", formulate.Near: "as near to the recipe as may be", formulate.Cheapest: "as cheap as may be",
	formulate.Lots: "to use up what I mark", formulate.Fewest: "with few ingredients",
}

// formulateChoices lists what can be chosen.
func (s *Server) formulateChoices(ctx context.Context, b *formulateBody, wish formulate.Wish) (err error) {
	c, q := &b.Choices, b.Query
	for _, list := range []struct {
		kind, chosen string
		to           *[]option
	}{
		{"style", q.Style, &c.Styles}, {"recipe", q.Like, &c.Recipes}, {"brewhouse", q.House, &c.Houses}, {"stock", q.Stock, &c.Stocks}, {"water", q.Water, &c.Waters},
	} {
		if *list.to, err = s.documentOptions(ctx, list.kind, list.chosen); err != nil {
			return err
		}
	}
	for _, o := range formulate.Objectives() {
		if o != formulate.Near || q.Like != "" {
			c.Aims = append(c.Aims, option{string(o), aimNames[o], string(o) == q.Aim || q.Aim == "" && o == formulate.Near})
		}
	}
	for _, m := range wish.Malts {
		row := b.ingredientRow(m.Malt, maltWords(m.Malt), m.Mass)
		row.Malt = true
		c.Malts = append(c.Malts, row)
	}
	for _, h := range wish.Hops {
		c.Hops = append(c.Hops, b.ingredientRow(h.Hop, hopName(h.Hop), h.Mass))
	}
	if wish.Start != nil {
		c.Swaps = swapOptions(wish.Start, q.Swap)
	}
	return nil
}

func (b *formulateBody) ingredientRow(id, name string, there *quantity.Mass) ingredientChoice {
	name = strings.ReplaceAll(name, " ebc", " EBC")
	row := ingredientChoice{ID: id, Name: name, Least: b.Query.Least[id], Fault: b.Faults.Of("least." + id)}
	if there != nil {
		row.There = b.pr.Mass(*there)
	}
	for _, use := range []struct {
		value useWish
		name  string
	}{{mayUse, "may be used"}, {mustUse, "must be used"}, {useUp, "to be used up"}, {noUse, "must not"}} {
		if use.value == useUp && there == nil {
			continue
		}
		row.Use = append(row.Use, option{string(use.value), use.name, b.Query.Use[id] == use.value})
	}
	return row
}

// Choosing reports whether anything is asked of a single ingredient.
func (b *formulateBody) Choosing() bool {
	q := b.Query
	unread := slices.ContainsFunc(b.Faults, func(f fieldFault) bool { return f.Field == "also" || strings.HasPrefix(f.Field, "least.") })
	return unread || len(q.Use)+len(q.Least) > 0 || q.Also != "" || q.Aim == string(formulate.Lots)
}

func swapOptions(r *recipe.Recipe, chosen string) (list []option) {
	seen := map[string]bool{}
	add := func(id, name string) {
		if !seen[id] {
			seen[id] = true
			list = append(list, option{id, name, id == chosen})
		}
	}
	for _, g := range r.Grist {
		add(g.Malt, maltWords(g.Malt))
	}
	for _, c := range r.Hops {
		add(c.Hop, hopName(c.Hop))
	}
	return list
}

// rulesConflict is a conflict as sentences and ways out.
type rulesConflict struct {
	Clashes []clashBody
	Choices []wayOut
	More    bool
}

type clashBody struct{ Phrase, Range, Severity, Why string }

// wayOut is one demand that gives way, and the address of the search without it.
type wayOut struct{ Says, Path string }

func (b *formulateBody) conflictOf(c *formulate.Conflict) rulesConflict {
	out := rulesConflict{More: c.More}
	for _, one := range c.Clashes {
		out.Clashes = append(out.Clashes, clashBody{one.Phrase, one.Range, string(one.Severity), one.Why})
	}
	for _, one := range c.Choices {
		out.Choices = append(out.Choices, wayOut{one.Says, b.Query.giving(c.Clashes[one.Clash], one).Path()})
	}
	return out
}

// giving is the query in which one demand gives way.
func (q formulaQuery) giving(clash formulate.Clash, choice formulate.Choice) formulaQuery {
	out := q.with()
	switch clash.Wish {
	case formulate.WantedMust, formulate.WantedWithout:
		delete(out.Use, clash.Name)
		delete(out.Least, clash.Name)
	case formulate.WantedLeast:
		out.Least[clash.Name] = fmt.Sprintf("%.4g %%", choice.To)
	case formulate.WantedStock:
		out.Plenty = append(out.Plenty, clash.Name)
	default:
		if clash.Rule >= 0 {
			out.Ease = append(out.Ease, easing{clash.Rule, clash.Part, choice.To})
		}
	}
	return out
}

// smallRoom is the share of the grist up to which rooms are drawn on a scale of
// their own, so that the small ones can be seen.
const smallRoom = 0.25

// roomsOf draws the room of every ingredient and of the aims.
func roomsOf(id string, r *formulate.Result, pr quantity.Printer) string {
	groups := []chart.RoomGroup{{Name: "Aims", Own: true}, {Name: "Grist, by mass"}, {Name: "Grist, the smaller part"}, {Name: "Hops, all charges together"}}
	add := func(k int, name string, room formulate.Room) {
		groups[k].Rooms = append(groups[k].Rooms, chart.Room{
			Name: name, Now: room.Text(pr, room.Now), Low: room.Text(pr, room.Least), High: room.Text(pr, room.Most),
			Least: room.Least, Most: room.Most, Value: room.Now, Unknown: !room.Known(),
		})
	}
	for _, room := range r.Aims {
		add(0, quantity.Figure(room.Name).Label(), room)
	}
	for _, room := range r.Rooms {
		switch {
		case room.Most <= 0 && room.Now == 0:
		case room.Unit == "g/L":
			add(3, hopName(room.Name), room)
		case room.Most > smallRoom:
			add(1, maltWords(room.Name), room)
		default:
			add(2, maltWords(room.Name), room)
		}
	}
	return chart.Responsive(chart.Sheet{ID: id, Printer: pr}, func(s chart.Sheet) string {
		return chart.RoomStrips(s, "Room of every ingredient with all else free", groups)
	})
}

// vary proposes clearly different beers.
func (b *formulateBody) vary(ctx context.Context, wish formulate.Wish, pr quantity.Printer) error {
	const many = 4
	all, err := formulate.Variations(ctx, wish, wish.Start, many)
	if err != nil {
		return err
	}
	if len(all) == 0 {
		b.Trouble = "The style leaves no clearly different beer around this recipe."
	}
	for i, v := range all {
		one := foundOther{Title: capital(v.Says), Text: v.Text, Taking: b.taking(v.Text, v.Says, fmt.Sprintf("variation-%d", i+1))}
		one.tally(v.Judgement)
		b.Variations = append(b.Variations, one)
	}
	return nil
}

// swap puts other ingredients in the place of one.
func (b *formulateBody) swap(ctx context.Context, wish formulate.Wish, pr quantity.Printer) error {
	candidates := strings.FieldsFunc(b.Query.For, func(r rune) bool { return r == ',' || r == ';' })
	for i := range candidates {
		candidates[i] = strings.ToLower(strings.TrimSpace(candidates[i]))
		if err := (&formulate.Wish{}).Add(candidates[i]); err != nil {
			b.Faults = append(b.Faults, fieldFault{"for", err.Error(), "names are those of recipes, with commas between them"})
		}
	}
	if len(candidates) == 0 {
		b.Faults = append(b.Faults, fieldFault{"for", "say what may stand in for it", "northdown, magnum"})
	}
	if len(b.Faults) > 0 {
		b.Trouble = "What stands in can’t be read."
		return nil
	}
	all, err := formulate.Swaps(ctx, wish, wish.Start, b.Query.Swap, candidates)
	if err != nil {
		return err
	}
	for i, sw := range all {
		what := ingredientName(sw.To) + " for " + ingredientName(sw.From)
		one := foundOther{Title: what, Kept: sw.Kept, Lost: sw.Lost, Text: sw.Text}
		if sw.Conflict != nil {
			c := b.conflictOf(sw.Conflict)
			one.Conflict = &c
		} else {
			one.Title += ", by its " + sw.Role
			one.Taking = b.taking(sw.Text, what, fmt.Sprintf("swap-%d", i+1))
			one.tally(sw.Judgement)
		}
		b.Swaps = append(b.Swaps, one)
	}
	return nil
}

func (f *foundOther) tally(j judge.Judgement) {
	f.Broken = j.Broken()
	f.Tally = fmt.Sprintf("%d inside, %d at the edge, %d outside", j.Count(judge.Inside), j.Count(judge.Edge), j.Count(judge.Outside))
}
