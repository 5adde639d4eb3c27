// SPDX-License-Identifier: MIT

package formulate

import (
	"fmt"
	"slices"

	"gyle/judge"
	"gyle/style"
)

// sentences says what was found.
func (w *work) sentences(d *draft, out *Result) []string {
	says := slices.Clone(w.says)
	add := func(format string, args ...any) { says = append(says, fmt.Sprintf(format, args...)) }
	j := out.Judgement
	add("%s: of the rules that apply, %d well inside, %d near an edge, %d broken, %d that only a plan can tell.",
		out.Recipe.Name, j.Count(judge.Inside), j.Count(judge.Edge), j.Count(judge.Outside), j.Count(judge.Unknown))
	if w.wish.House == nil {
		add("Colour and the bitterness of doses are reckoned on %s; a plan on your own gives others.", w.house.Name)
	}
	if w.wish.Objective == Middle && d.margin < farthest {
		if v, ok := w.tightest(d, j); ok {
			add("The narrowest place is %s at %s of %s.", v.Phrase, v.Text, v.Range)
		}
	}
	if w.anyYeast && out.Recipe.Yeast != nil {
		add("The yeast was chosen by its attenuation and by what its kind usually brews; any that ends there will do.")
	}
	for _, v := range out.Planned.Broken() {
		if v.Severity == style.Limit {
			add("On %s: %s", w.house.Name, v.Line())
		}
	}
	for _, n := range w.notUsed {
		if w.wish.Style.Rules[n.Rule].Severity != style.Option {
			add("The rule on %s %s.", n.Phrase, n.Reason)
		}
	}
	return says
}

// tightest returns the verdict that is nearest to an end of its range.
func (w *work) tightest(d *draft, j judge.Judgement) (nearest judge.Verdict, ok bool) {
	best := farthest - 0.01
	for _, v := range j.Verdicts {
		if v.Word != judge.Inside && v.Word != judge.Edge {
			continue
		}
		for i := range d.ds {
			one := &d.ds[i]
			if one.Rule != v.Rule || one.Part != v.Part || one.kind == onYeast || one.kind == onCount {
				continue
			}
			if m := w.margin(one, v.Value/one.scale); m < best {
				best, nearest, ok = m, v, true
			}
		}
	}
	return nearest, ok
}
