// SPDX-License-Identifier: MIT

package day

import (
	"slices"

	"gyle/gyle"
	"gyle/quantity"
)

// time gives each task its time: when it was done, else after the task that it
// follows. What is overdue is pushed to now, and everything behind it.
func (l *layout) time(start gyle.Time, log *facts, now gyle.Time) {
	last := -1
	for i := range l.tasks {
		t := &l.tasks[i]
		t.State = Ahead
		if log == nil {
			continue
		}
		since := gyle.Time{}
		if t.since != "" {
			if since = l.find(t.since).At; l.find(t.since).State != Done {
				continue
			}
		}
		if when, done := log.first(t.shows, since); done {
			t.State, t.At = Done, when
			t.Entries = log.ids(t.shows, since)
			last = i
		}
	}
	for i := range l.tasks {
		t := &l.tasks[i]
		if t.State == Done {
			continue
		}
		t.At = start
		if t.after != "" {
			t.At = l.find(t.after).At.Add(t.offset)
		}
		switch {
		case i < last:
			t.State = Passed
		case !now.IsZero() && !t.At.After(now.Time):
			t.State = Due
			if !t.Wish {
				t.At = now
			}
		}
	}
	if log == nil {
		for i := range l.tasks {
			l.tasks[i].Planned = l.tasks[i].At
		}
	}
}

// find returns the task of a key. Tasks follow only tasks that stand before
// them.
func (l *layout) find(key string) *Task {
	i := slices.IndexFunc(l.tasks, func(t Task) bool { return t.Key == key })
	return &l.tasks[i]
}

// offsetOf is how long after the start a task is, by the plan.
func (l *layout) offsetOf(t Task) quantity.Duration {
	sum := t.offset
	for t.after != "" {
		t = *l.find(t.after)
		sum += t.offset
	}
	return sum
}

// usesOf returns the times in which a gyle holds its vessels, under the names
// that the gyle gives them, else those of the house.
func usesOf(g *gyle.Gyle, tasks []Task) []Use {
	at := map[string]Task{}
	for _, t := range tasks {
		at[t.Key] = t
	}
	end := at["collected"].At
	var uses []Use
	if heat, mashes := at["heat"]; mashes && vesselName(g, "mash") != "" {
		uses = append(uses, Use{vesselName(g, "mash"), heat.At, at["full kettle"].At})
	}
	if name := vesselName(g, "kettle"); name != "" {
		uses = append(uses, Use{name, at["run-off"].At, end.Add(reading)})
	}
	if name := vesselName(g, "fermenter"); name != "" {
		u := Use{name, end, end.Add(quantity.Days(usualFermentation))}
		for _, v := range g.Vessels {
			if v.Name == name && !v.Free.IsZero() {
				u.To = gyle.Time{Time: v.Free.Time}
			}
		}
		uses = append(uses, u)
	}
	return uses
}

// usualFermentation is how long a fermenter is held where nothing says it, in
// days. Common practice for ales.
const usualFermentation = 14

func vesselName(g *gyle.Gyle, use string) string {
	for _, v := range g.Vessels {
		if v.For == use {
			return v.Name
		}
	}
	if use == "fermenter" || g.House == "" {
		return ""
	}
	return g.House + ": " + use
}
