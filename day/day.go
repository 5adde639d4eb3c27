// SPDX-License-Identifier: MIT

package day

import (
	"cmp"
	"errors"
	"slices"

	"gyle/gyle"
	"gyle/quantity"
)

// Day is the brew day of one gyle on one time axis.
type Day struct {
	Name   string            `json:"name"`
	Number int               `json:"number,omitempty"`
	Brewer string            `json:"brewer,omitempty"`
	Tasks  []Task            `json:"tasks"` // in the order of their times
	Uses   []Use             `json:"uses"`  // of vessels
	Boil   quantity.Duration `json:"boil"`  // as it stands now
	BoilBy string            `json:"boilBy"`
}

// What decided on the length of the boil.
const (
	ByPlan        = "plan"
	ByChoice      = "choice"      // an option that was taken
	ByEvaporation = "evaporation" // a measured one: the same water is to go
)

// Task is one thing to do.
type Task struct {
	Key     string            `json:"key"` // names it within the day: "dough-in", "hops 2"
	What    string            `json:"what"`
	Numbers []Number          `json:"numbers,omitempty"`
	Planned gyle.Time         `json:"planned"` // by the plan, had all gone well
	At      gyle.Time         `json:"at"`      // when it was done, else when it is due as things are
	Time    quantity.Duration `json:"time"`    // how long it takes
	Alarm   bool              `json:"alarm,omitempty"`
	Hands   bool              `json:"hands,omitempty"` // takes the brewer's hands all that time
	Wish    bool              `json:"wish,omitempty"`  // only if a reading asks for it
	State   State             `json:"state"`
	Entries []gyle.ID         `json:"entries,omitempty"` // of the log

	after  string            // key of the task that it follows
	offset quantity.Duration // after the beginning of that
	since  string            // key of the task before which nothing shows it
	shows  func(gyle.Entry) bool
}

// Slip is how much later than planned the task is.
func (t Task) Slip() quantity.Duration { return t.At.Since(t.Planned) }

// State is how far a task is.
type State string

// The states of a task.
const (
	Ahead  State = "ahead"
	Due    State = "due"
	Done   State = "done"
	Passed State = "passed" // something later is done and the log is silent on this
)

// Number is one number of a task, as it is planned and as the log has it.
type Number struct {
	What     string `json:"what"`
	Planned  string `json:"planned,omitempty"`
	Measured string `json:"measured,omitempty"`

	of gyle.Of
	at gyle.Place
}

// Use is a time in which the gyle holds a vessel.
type Use struct {
	Vessel string    `json:"vessel"`
	From   gyle.Time `json:"from"`
	To     gyle.Time `json:"to"`
}

// Options say how a day is laid out.
type Options struct {
	Start   gyle.Time // of the weighing-out; zero: as the snapshot says, else so that the dough-in is when it was
	Now     gyle.Time // what is overdue is pushed to it; zero: nothing is
	Printer quantity.Printer
}

// Of lays out the day of a gyle from its plan and what its log says.
func Of(g *gyle.Gyle, o Options) (*Day, error) {
	if g.Plan == nil {
		return nil, errors.New("lay out the day: the gyle has no plan")
	}
	log := newFacts(g.Log.Standing())
	planned := newLayout(g.Plan, o.Printer, course{boil: g.Plan.Boil.Time, tau: g.Plan.Cooler.Tau})
	course, by := log.course(g.Plan, o.Now)
	actual := newLayout(g.Plan, o.Printer, course)
	d := &Day{Name: g.Name, Number: g.Number, Brewer: g.Brewer, Boil: course.boil, BoilBy: by}
	planned.time(startOf(g, o, planned, log), nil, gyle.Time{})
	actual.time(planned.tasks[0].Planned, log, o.Now)
	for i := range actual.tasks {
		t := actual.tasks[i]
		t.Planned = planned.tasks[i].Planned
		log.fill(t.Numbers)
		d.Tasks = append(d.Tasks, t)
	}
	d.Uses = usesOf(g, d.Tasks)
	slices.SortStableFunc(d.Tasks, func(a, b Task) int { return a.At.Compare(b.At.Time) })
	return d, nil
}

// startOf returns when the day begins, or began.
func startOf(g *gyle.Gyle, o Options, planned *layout, log *facts) gyle.Time {
	if start := cmp.Or(o.Start, g.Plan.Start); !start.IsZero() {
		return start
	}
	doughIn := gyle.Time{Time: g.Date.Time}.Add(quantity.Hours(9)) // where nothing is known: nine o'clock
	before := quantity.Duration(0)
	for _, t := range planned.tasks {
		if t.Key == "dough-in" {
			before = planned.offsetOf(t)
			if when, done := log.first(t.shows, gyle.Time{}); done {
				doughIn = when
			}
		}
	}
	return doughIn.Add(-before)
}

// Find returns a task by its key.
func (d *Day) Find(key string) (Task, bool) {
	for _, t := range d.Tasks {
		if t.Key == key {
			return t, true
		}
	}
	return Task{}, false
}

// Next returns the first task that is neither done nor passed.
func (d *Day) Next() (Task, bool) {
	for _, t := range d.Tasks {
		if (t.State == Ahead || t.State == Due) && !t.Wish {
			return t, true
		}
	}
	return Task{}, false
}

// Span returns when the day begins and when its last task is over.
func (d *Day) Span() (from, to gyle.Time) {
	for i, t := range d.Tasks {
		if end := t.At.Add(t.Time); i == 0 || end.After(to.Time) {
			to = end
		}
	}
	if len(d.Tasks) > 0 {
		from = d.Tasks[0].At
	}
	return from, to
}
