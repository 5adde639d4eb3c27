// SPDX-License-Identifier: MIT

package blind

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gyle/science/sensory"
	"gyle/tasting"
)

// Ranking is what a flight of orders shows.
type Ranking struct {
	Letters   []string  `json:"letters"`
	Names     []string  `json:"names"`
	Means     []float64 `json:"means"`          // mean place of each beer, 1 for the first of the order
	Times     []int     `json:"times"`          // how often each was ranked
	Sums      []float64 `json:"sums,omitempty"` // of the ranks, where everybody ranked all
	P         float64   `json:"p"`
	Method    string    `json:"method"`
	Outcome   string    `json:"outcome"`
	Agreement float64   `json:"agreement,omitempty"` // Kendall's W
	Expected  bool      `json:"expected,omitempty"`  // P is of the order that was named beforehand
	Least     float64   `json:"least,omitempty"`     // rank sums must lie so far apart
	Pairs     []Before  `json:"pairs,omitempty"`
}

// Before is a pair of beers after a difference was shown: the first stands
// before the second in the order.
type Before struct {
	First  string  `json:"first"`
	Second string  `json:"second"`
	By     float64 `json:"by"`          // rank sums; or standard deviations, where not all ranked all
	P      float64 `json:"p,omitempty"` // all pairs judged together, where not all ranked all
	Shown  bool    `json:"shown"`
}

func (out *Flight) ranking(t *tasting.Tasting, f *tasting.Flight, w words) {
	beers := t.Letters(f)
	_, rows := f.Orders(beers)
	if len(rows) == 0 {
		out.Says = "Nobody answered."
		return
	}
	r := &Ranking{Letters: beers, Outcome: string(sensory.NotConclusive)}
	r.means(t, rows)
	whole := !slices.ContainsFunc(rows, func(row []float64) bool { return slices.Contains(row, 0) })
	var err error
	if whole {
		err = r.whole(f, rows)
	} else {
		err = r.part(f, rows)
	}
	if err != nil {
		out.Says = "The orders can't be judged: " + err.Error() + "."
		return
	}
	out.Ranking = r
	out.Says = r.says(w)
	out.More = append(out.More, r.more(f, w)...)
	if len(rows) > out.Tasters {
		out.Warnings = append(out.Warnings, "Some tasters gave more than one order; each should have one voice.")
	}
}

// means is the mean place of each beer.
func (r *Ranking) means(t *tasting.Tasting, rows [][]float64) {
	r.Means, r.Times = make([]float64, len(r.Letters)), make([]int, len(r.Letters))
	for _, row := range rows {
		for i, rank := range row {
			if rank > 0 {
				r.Means[i] += rank
				r.Times[i]++
			}
		}
	}
	for i, letter := range r.Letters {
		r.Means[i] /= float64(max(1, r.Times[i]))
		r.Names = append(r.Names, NameOf(t, letter))
	}
}

// whole judges orders of all beers: by Friedman, or by Page where an order was
// named beforehand. One of them decides, so that the risk stays what it is.
func (r *Ranking) whole(f *tasting.Flight, rows [][]float64) error {
	ranks := sensory.Ranks(rows)
	if err := ranks.Check(); err != nil {
		return err
	}
	test := ranks.Friedman()
	r.Sums, r.Agreement = ranks.Sums(), ranks.Kendall().W
	if len(f.Expect) == len(r.Letters) {
		r.Expected = true
		test = r.inOrder(f.Expect, rows).Page()
	}
	r.judge(f, test)
	r.Least = sensory.RankHSD(len(rows), len(r.Letters), alphaOf(f))
	if r.Outcome != string(sensory.Different) || r.Expected {
		return nil
	}
	for _, pair := range ranks.Pairs(r.Least) {
		b := Before{First: r.Letters[pair.First], Second: r.Letters[pair.Second], By: pair.Difference, Shown: pair.Shown}
		if b.By < 0 {
			b.First, b.Second, b.By = b.Second, b.First, -b.By
		}
		r.Pairs = append(r.Pairs, b)
	}
	return nil
}

// inOrder puts the columns in the expected order turned round: the beer with
// most is expected in the first place.
func (r *Ranking) inOrder(expect []string, rows [][]float64) (turned sensory.Ranks) {
	for _, row := range rows {
		var one []float64
		for _, letter := range slices.Backward(expect) {
			one = append(one, row[slices.Index(r.Letters, letter)])
		}
		turned = append(turned, one)
	}
	return turned
}

// part judges orders of assessors who each got some of the beers, whatever
// became of the balance.
func (r *Ranking) part(f *tasting.Flight, rows [][]float64) error {
	var blocks []sensory.Block
	for _, row := range rows {
		var b sensory.Block
		for column, rank := range row {
			if rank > 0 {
				b.Beers, b.Ranks = append(b.Beers, column), append(b.Ranks, rank)
			}
		}
		if len(b.Beers) > 1 {
			blocks = append(blocks, b)
		}
	}
	shuffled, pairs, err := sensory.PartRanks(len(r.Letters), blocks)
	if err != nil {
		return err
	}
	test, err := sensory.Durbin(len(r.Letters), blocks)
	if err != nil || test.Method != "exact" {
		test = shuffled
	}
	r.judge(f, test)
	if r.Outcome != string(sensory.Different) {
		return nil
	}
	for _, pair := range pairs {
		b := Before{First: r.Letters[pair.First], Second: r.Letters[pair.Second], By: pair.Difference, P: pair.P, Shown: pair.P <= alphaOf(f)}
		if b.By < 0 {
			b.First, b.Second, b.By = b.Second, b.First, -b.By
		}
		r.Pairs = append(r.Pairs, b)
	}
	return nil
}

func (r *Ranking) judge(f *tasting.Flight, test sensory.RankTest) {
	r.P, r.Method = test.P, test.Method
	if r.P <= alphaOf(f) {
		r.Outcome = string(sensory.Different)
	}
}

// Ordered are the places of the beers by their mean place, the first one first.
func (r *Ranking) Ordered() []int {
	order := make([]int, len(r.Letters))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(r.Means[a], r.Means[b]) })
	return order
}

// says is the verdict. Beers whose order isn't shown are never called alike.
func (r *Ranking) says(w words) string {
	var places []string
	for _, i := range r.Ordered() {
		places = append(places, fmt.Sprintf("%s %s", r.Names[i], w.Number(r.Means[i], 1)))
	}
	list := "mean places: " + strings.Join(places, ", ")
	switch {
	case r.Outcome == string(sensory.Different) && r.Expected:
		return fmt.Sprintf("The expected order is shown (p %s, Page); %s.", w.p(r.P), list)
	case r.Outcome == string(sensory.Different):
		return fmt.Sprintf("Difference shown: the beers don’t all stand alike in the orders (p %s); %s.", w.p(r.P), list)
	case r.Expected:
		return fmt.Sprintf("The expected order is not shown (p %s, Page); %s.", w.p(r.P), list)
	}
	return fmt.Sprintf("Not shown (p %s); %s. The beers may still differ.", w.p(r.P), list)
}

func (r *Ranking) more(f *tasting.Flight, w words) (list []string) {
	var shown, open []string
	for _, b := range r.Pairs {
		text := b.First + " before " + b.Second
		if b.Shown {
			shown = append(shown, text)
		} else {
			open = append(open, b.First+" and "+b.Second)
		}
	}
	how := fmt.Sprintf("rank sums must lie %s apart, all pairs judged together", w.Number(r.Least, 1))
	if len(r.Sums) == 0 {
		how = "all pairs judged together, by shuffles of the ranks"
	}
	if len(shown) > 0 {
		list = append(list, "Shown: "+strings.Join(shown, ", ")+" ("+how+").")
	}
	if len(open) > 0 {
		list = append(list, "Order not shown between "+strings.Join(open, ", ")+".")
	}
	switch {
	case len(r.Sums) > 0:
		list = append(list, fmt.Sprintf("Agreement of the panel: Kendall’s W %s of 1.", w.Number(r.Agreement, 2)))
	case r.Method != "exact":
		list = append(list, "Each taster ranked some of the beers; the chance is found by "+r.Method+" of the ranks within each taster.")
	default:
		list = append(list, "Each taster ranked some of the beers, each pair equally often (Durbin, exact).")
	}
	return list
}
