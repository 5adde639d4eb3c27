// SPDX-License-Identifier: MIT

package day

import (
	"cmp"
	"slices"
	"strings"

	"gyle/gyle"
)

// Joint is several gyles on one time axis.
type Joint struct {
	Tasks   []JointTask `json:"tasks"` // in the order of their times
	Clashes []Clash     `json:"clashes"`
}

// JointTask is a task of one of several days.
type JointTask struct {
	Day  int `json:"day"` // index of the day
	Task     // as it is there
}

// Clash is a person or a vessel that two gyles want at once.
type Clash struct {
	Who    string    `json:"who,omitempty"`
	Vessel string    `json:"vessel,omitempty"`
	From   gyle.Time `json:"from"`
	To     gyle.Time `json:"to"`
	Days   [2]int    `json:"days"`
	Tasks  [2]string `json:"tasks"` // what they do; empty for vessels
}

// Together lays several days side by side. What is done already clashes no
// more.
func Together(days ...*Day) Joint {
	var j Joint
	for i, d := range days {
		for _, t := range d.Tasks {
			j.Tasks = append(j.Tasks, JointTask{i, t})
		}
		for k := range i {
			j.Clashes = append(j.Clashes, handsOf(k, i, days)...)
			j.Clashes = append(j.Clashes, vesselsOf(k, i, days)...)
		}
	}
	slices.SortStableFunc(j.Tasks, func(a, b JointTask) int {
		return cmp.Or(a.At.Compare(b.At.Time), cmp.Compare(a.Day, b.Day))
	})
	slices.SortStableFunc(j.Clashes, func(a, b Clash) int {
		return cmp.Or(a.From.Compare(b.From.Time), strings.Compare(a.Who+a.Vessel, b.Who+b.Vessel))
	})
	return j
}

// handsOf finds the tasks of two days that one person would do at once.
func handsOf(a, b int, days []*Day) (out []Clash) {
	if !sameName(days[a].Brewer, days[b].Brewer) {
		return nil
	}
	for _, x := range days[a].Tasks {
		for _, y := range days[b].Tasks {
			if !x.wantsHands() || !y.wantsHands() {
				continue
			}
			if from, to := overlap(x.At, x.At.Add(x.Time), y.At, y.At.Add(y.Time)); from.Before(to.Time) {
				out = append(out, Clash{Who: days[a].Brewer, From: from, To: to, Days: [2]int{a, b}, Tasks: [2]string{x.What, y.What}})
			}
		}
	}
	return out
}

func (t Task) wantsHands() bool {
	return t.Hands && !t.Wish && (t.State == Ahead || t.State == Due)
}

// vesselsOf finds the vessels that two days hold at once.
func vesselsOf(a, b int, days []*Day) (out []Clash) {
	for _, x := range days[a].Uses {
		for _, y := range days[b].Uses {
			if !sameName(x.Vessel, y.Vessel) {
				continue
			}
			if from, to := overlap(x.From, x.To, y.From, y.To); from.Before(to.Time) {
				out = append(out, Clash{Vessel: x.Vessel, From: from, To: to, Days: [2]int{a, b}})
			}
		}
	}
	return out
}

// overlap returns the time that two times share; it ends before it begins
// where they share none.
func overlap(from1, to1, from2, to2 gyle.Time) (from, to gyle.Time) {
	from, to = from1, to1
	if from2.After(from.Time) {
		from = from2
	}
	if to2.Before(to.Time) {
		to = to2
	}
	return from, to
}
