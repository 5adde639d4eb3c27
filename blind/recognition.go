// SPDX-License-Identifier: MIT

package blind

import (
	"fmt"

	"gyle/science/sensory"
	"gyle/tasting"
)

// Recognition is what a flight of A or not A shows.
type Recognition struct {
	Learnt      string   `json:"learnt"` // letter
	Hits        int      `json:"hits"`   // glasses of it that were called A
	Glasses     int      `json:"glasses"`
	FalseAlarms int      `json:"falseAlarms"` // glasses of the other beer that were
	Others      int      `json:"others"`
	P           float64  `json:"p"`
	Method      string   `json:"method"`
	Outcome     string   `json:"outcome"`
	Distance    float64  `json:"distance"`
	Apart       Reach    `json:"apart"`
	Threads     []Called `json:"tasters"`
}

// Called is what one taster called A.
type Called struct {
	Taster      string `json:"taster"`
	Hits        int    `json:"hits"`
	Glasses     int    `json:"glasses"`
	FalseAlarms int    `json:"falseAlarms"`
	Others      int    `json:"others"`
}

func (c Called) table() sensory.Table {
	return sensory.Table{A: c.Hits, B: c.Glasses - c.Hits, C: c.FalseAlarms, D: c.Others - c.FalseAlarms}
}

// recognition judges A or not A. Who judged several glasses is held against
// their own readiness to say A; single glasses are judged together.
func (out *Flight) recognition(t *tasting.Tasting, f *tasting.Flight, w words) {
	r := &Recognition{Learnt: f.Reference, Threads: calledBy(f), Method: "Fisher, exact"}
	several := false
	var tables []sensory.Table
	for _, c := range r.Threads {
		r.Hits, r.Glasses = r.Hits+c.Hits, r.Glasses+c.Glasses
		r.FalseAlarms, r.Others = r.FalseAlarms+c.FalseAlarms, r.Others+c.Others
		several = several || c.Glasses+c.Others > 1
		tables = append(tables, c.table())
	}
	if r.Glasses == 0 || r.Others == 0 {
		out.Says = "There are no answers to both beers."
		return
	}
	all := sensory.Recognition{Hits: r.Hits, CupsA: r.Glasses, FalseAlarms: r.FalseAlarms, CupsB: r.Others}
	r.P = all.P()
	if several {
		r.P, r.Method = sensory.RecognitionBy(tables), "exact, within each taster"
	}
	r.Outcome = string(sensory.NotConclusive)
	if r.P <= alphaOf(f) {
		r.Outcome = string(sensory.Different)
	}
	r.Distance = all.Distance().Value
	r.Apart = reachOf(all.DistanceInterval(confidence), confidence)
	out.Recognition = r
	counts := fmt.Sprintf("%s was called the learnt beer in %d of %d glasses, the other one in %d of %d (p %s)", NameOf(t, r.Learnt), r.Hits, r.Glasses, r.FalseAlarms, r.Others, w.p(r.P))
	out.Says = "Not shown: " + counts + "."
	if r.Outcome == string(sensory.Different) {
		out.Says = "Difference shown: " + counts + "."
	} else if !r.Apart.Open {
		out.More = append(out.More, fmt.Sprintf("The beers could still lie up to d′ %s apart.", w.Number(r.Apart.High, 1)))
	}
	out.More = append(out.More, fmt.Sprintf("Their distance d′ is about %s (%s).", w.Number(max(0, r.Distance), 1), w.reach(r.Apart, 1)))
	if several {
		out.More = append(out.More, "Each taster’s answers are weighed against that taster’s own readiness to say yes; the distance takes all for equally ready.")
	}
}

// calledBy counts what each taster said, in the order of their first answers.
func calledBy(f *tasting.Flight) (list []Called) {
	place := map[string]int{}
	for _, a := range f.Standing() {
		beer := f.Key.BeerOf(a.Code)
		if beer == "" {
			continue
		}
		i, known := place[a.Taster]
		if !known {
			i = len(list)
			place[a.Taster], list = i, append(list, Called{Taster: a.Taster})
		}
		c, yes := &list[i], 0
		if a.Says == "a" {
			yes = 1
		}
		if beer == f.Reference {
			c.Glasses, c.Hits = c.Glasses+1, c.Hits+yes
		} else {
			c.Others, c.FalseAlarms = c.Others+1, c.FalseAlarms+yes
		}
	}
	return list
}
