// SPDX-License-Identifier: MIT

package web

import (
	"html/template"
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// useWish is what a brewer asks of one ingredient.
type useWish string

const (
	mayUse  useWish = ""
	mustUse useWish = "must"
	useUp   useWish = "up"
	noUse   useWish = "not"
)

// formulaQuery is the address of a search for a recipe. Nothing of it is kept
// elsewhere.
type formulaQuery struct {
	Style, Like, House, Stock, Water string // slugs
	Size, Aim, Name                  string
	Also                             string // more malts and hops, as typed
	Robust                           bool
	Do                               string // "", find, vary or swap
	Swap, For                        string // ingredient and candidates
	Use                              map[string]useWish
	Least                            map[string]string
	Plenty                           []string // ingredients to be bought: the shed's mass is no limit
	Ease                             []easing
}

// easing is a rule that gives way: rule and part, and its new end.
type easing struct {
	Rule, Part int
	To         float64 // not a number: the rule is left out
}

func (e easing) String() string {
	to := "off"
	if !math.IsNaN(e.To) {
		to = strconv.FormatFloat(e.To, 'g', -1, 64)
	}
	return strconv.Itoa(e.Rule) + "." + strconv.Itoa(e.Part) + "=" + to
}

// readEasing reads what String writes; ok is false for anything else.
func readEasing(text string) (e easing, ok bool) {
	place, to, _ := strings.Cut(text, "=")
	rule, part, _ := strings.Cut(place, ".")
	var errs [3]error
	e.Rule, errs[0] = strconv.Atoi(rule)
	e.Part, errs[1] = strconv.Atoi(part)
	if e.To = math.NaN(); to != "off" {
		e.To, errs[2] = strconv.ParseFloat(to, 64)
	}
	return e, errs == [3]error{} && !math.IsInf(e.To, 0)
}

func readFormulaQuery(v url.Values) formulaQuery {
	typed := func(key string) string { return strings.TrimSpace(v.Get(key)) }
	q := formulaQuery{
		Style: v.Get("style"), Like: v.Get("like"), House: v.Get("house"), Stock: v.Get("stock"), Water: v.Get("water"),
		Size: typed("size"), Aim: v.Get("aim"), Name: typed("name"), Also: typed("also"), Robust: v.Get("robust") != "",
		Do: v.Get("do"), Swap: v.Get("swap"), For: typed("for"), Use: map[string]useWish{}, Least: map[string]string{}, Plenty: v["plenty"],
	}
	for key, values := range v {
		if name, ok := strings.CutPrefix(key, "use."); ok && values[0] != "" {
			q.Use[name] = useWish(values[0])
		}
		if name, ok := strings.CutPrefix(key, "least."); ok && strings.TrimSpace(values[0]) != "" {
			q.Least[name] = strings.TrimSpace(values[0])
		}
	}
	for _, text := range v["ease"] {
		if e, ok := readEasing(text); ok {
			q.Ease = append(q.Ease, e)
		}
	}
	return q
}

// values is the query without what is empty.
func (q formulaQuery) values() url.Values {
	v := url.Values{}
	for _, p := range [][2]string{
		{"style", q.Style}, {"like", q.Like}, {"house", q.House}, {"stock", q.Stock}, {"water", q.Water}, {"size", q.Size},
		{"aim", q.Aim}, {"name", q.Name}, {"also", q.Also}, {"do", q.Do}, {"swap", q.Swap}, {"for", q.For},
	} {
		if p[1] != "" {
			v.Set(p[0], p[1])
		}
	}
	if q.Robust {
		v.Set("robust", "1")
	}
	for name, use := range q.Use {
		v.Set("use."+name, string(use))
	}
	for name, least := range q.Least {
		v.Set("least."+name, least)
	}
	for _, name := range q.Plenty {
		v.Add("plenty", name)
	}
	for _, e := range q.Ease {
		v.Add("ease", e.String())
	}
	return v
}

// Path is the stable address of the search.
func (q formulaQuery) Path() string { return "/formulate?" + q.values().Encode() }

// JSON is the address of the same for programs.
func (q formulaQuery) JSON() string { return "/formulate.json?" + q.values().Encode() }

// Encoded is the query as it stands in an address.
func (q formulaQuery) Encoded() template.URL { return template.URL(q.values().Encode()) }

// with returns a copy that may be changed.
func (q formulaQuery) with() formulaQuery {
	use, least := map[string]useWish{}, map[string]string{}
	for k, v := range q.Use {
		use[k] = v
	}
	for k, v := range q.Least {
		least[k] = v
	}
	q.Use, q.Least = use, least
	q.Plenty, q.Ease = slices.Clone(q.Plenty), slices.Clone(q.Ease)
	return q
}

// without returns the query without one easing.
func (q formulaQuery) without(e easing) formulaQuery {
	out := q.with()
	out.Ease = slices.DeleteFunc(out.Ease, func(one easing) bool { return one.String() == e.String() })
	return out
}
