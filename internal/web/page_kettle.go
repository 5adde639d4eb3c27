// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"slices"
	"strings"
	"time"

	brewday "gyle/day"
	"gyle/gyle"
	"gyle/internal/document"
	"gyle/quantity"
)

// kettleState is all that a phone at the kettle has to know: the questions of
// the day, the options that are open, and the end of the log. It goes on with
// it when the network is gone.
type kettleState struct {
	Title  string        `json:"title"`
	Path   string        `json:"path"`
	Tasks  []kettleTask  `json:"tasks"`
	Offers []kettleOffer `json:"offers"`
	Log    []kettleLine  `json:"log"` // the last first
}

type kettleTask struct {
	Key   string      `json:"key"`
	What  string      `json:"what"`
	Clock string      `json:"clock"`
	Due   string      `json:"due"` // when, with the zone
	State string      `json:"state"`
	Wish  bool        `json:"wish,omitempty"`
	Asks  []kettleAsk `json:"asks"`
}

type kettleAsk struct {
	N       int    `json:"n"`
	Label   string `json:"label"`
	Planned string `json:"planned,omitempty"`
	Reading bool   `json:"reading"`
	Amount  bool   `json:"amount"`
	Have    bool   `json:"have"`              // the log has it
	Options bool   `json:"options,omitempty"` // where it misses the plan, there are options
	At      string `json:"at,omitempty"`      // of those: where it is read, and what
	Of      string `json:"of,omitempty"`
	Read    string `json:"read,omitempty"` // as the log has it
}

type kettleOffer struct {
	Over    string         `json:"over"`
	Missed  string         `json:"missed"`
	Notes   []string       `json:"notes"`
	Tickets []kettleTicket `json:"tickets"`
}

type kettleTicket struct {
	Name    string `json:"name"`
	Figures string `json:"figures"`
	Does    string `json:"does"`
	Price   string `json:"price"`
	Caution string `json:"caution,omitempty"`
}

type kettleLine struct {
	ID      string `json:"id"`
	Clock   string `json:"clock"`
	Says    string `json:"says"`
	Meaning string `json:"meaning,omitempty"`
	Struck  bool   `json:"struck,omitempty"`
}

// kettleTail is how many lines of the log a phone keeps.
const kettleTail = 12

func (s *Server) kettleState(ctx context.Context, slug string, pr quantity.Printer) (kettleState, error) {
	g, d, err := s.gyle(ctx, slug)
	if err != nil {
		return kettleState{}, err
	}
	k := kettleState{Title: d.Title, Path: d.Path(), Tasks: []kettleTask{}, Offers: []kettleOffer{}, Log: []kettleLine{}}
	laid, err := brewday.Of(g, brewday.Options{Printer: pr, Now: s.nowIn(g)})
	if err != nil {
		return k, &RefusedError{"This gyle was begun without a plan, so there is nothing to ask at the kettle."}
	}
	standing := g.Log.Standing()
	for _, t := range laid.Tasks {
		task := kettleTask{Key: t.Key, What: t.What, Clock: t.At.Format("15:04"), Due: t.At.Format(time.RFC3339), State: string(t.State), Wish: t.Wish, Asks: []kettleAsk{}}
		for n, a := range brewday.Asks(g, t, pr) {
			ask := kettleAsk{N: n, Label: a.Label, Planned: a.Planned, Reading: a.IsReading(), Amount: a.HasAmount(), Have: has(standing, a)}
			if hasOptions(a) {
				ask.Options, ask.At, ask.Of, ask.Read = true, string(a.Reading.At), string(a.Reading.Of), readOf(standing, a)
			}
			task.Asks = append(task.Asks, ask)
		}
		k.Tasks = append(k.Tasks, task)
	}
	offers, err := s.offers(ctx, g, pr)
	if err != nil {
		return k, err
	}
	for _, o := range offers {
		k.Offers = append(k.Offers, kettleOfferOf(o))
	}
	for _, l := range logTail(g, pr, kettleTail) {
		k.Log = append(k.Log, kettleLine{string(l.ID), l.Clock, l.Says, l.Meaning, l.Struck})
	}
	return k, nil
}

// hasOptions reports whether the answer of an ask is one that the day can answer.
func hasOptions(a brewday.Ask) bool {
	return a.Reading != nil && mayMiss(gyle.Entry{Reading: a.Reading})
}

// has reports whether the log has the answer of an ask.
func has(standing []gyle.Entry, a brewday.Ask) bool {
	if a.Deed != nil {
		return logged(standing, a)
	}
	return slices.ContainsFunc(standing, func(e gyle.Entry) bool {
		return e.Reading != nil && e.Reading.At == a.Reading.At && (e.Reading.Of == a.Reading.Of || a.Reading.Of == gyle.OfGravity && e.Reading.Of == gyle.OfRefractometer)
	})
}

func kettleOfferOf(o offerBody) kettleOffer {
	k := kettleOffer{Over: string(o.Over), Missed: o.Missed, Notes: append([]string{}, o.Notes...), Tickets: []kettleTicket{}}
	for _, t := range o.Tickets {
		figures := []string{t.OG, t.Volume, t.IBU, t.Color}
		for _, more := range []string{t.PH, t.Mash, t.Minutes} {
			if more != "" {
				figures = append(figures, more)
			}
		}
		k.Tickets = append(k.Tickets, kettleTicket{t.Name, strings.Join(figures, " · "), t.Does, t.Price, t.Caution})
	}
	return k
}

// kettleBody is the page for a phone with wet hands.
type kettleBody struct {
	Path  string
	State string // JSON
}

func (s *Server) kettlePage(w http.ResponseWriter, r *http.Request) error {
	k, err := s.kettleState(r.Context(), r.PathValue("slug"), handOf(r).printer())
	if err != nil {
		return err
	}
	state, err := json.Marshal(k)
	if err != nil {
		return err
	}
	return s.draw(w, r, http.StatusOK, "page_kettle", "kettle", Sheet{Title: "At the kettle: " + k.Title, Path: k.Path, Body: kettleBody{k.Path, string(state)}})
}

func (s *Server) kettleJSON(w http.ResponseWriter, r *http.Request) error {
	return s.answerKettle(w, r, kettleAnswer{})
}

// kettleEntry is one answer of a phone, with the time of its own clock.
type kettleEntry struct {
	ID     string `json:"id"`
	Time   string `json:"time"`
	Task   string `json:"task"`
	Ask    int    `json:"ask"`
	Typed  string `json:"typed"`
	Note   string `json:"note"`
	Strike string `json:"strike"` // the entry that is taken back
	Over   string `json:"over"`
	Take   string `json:"take"`
	Off    string `json:"off"` // an interruption: when the heat went off
	Back   string `json:"back"`
}

// kettleSend is what a phone sends: its queue, and what its clock shows now.
type kettleSend struct {
	Now     string        `json:"now"`
	Entries []kettleEntry `json:"entries"`
}

// kettleAnswer acknowledges entries by their IDs. What was refused can't be
// understood and is told to the brewer, who types it anew.
type kettleAnswer struct {
	Kept    []string        `json:"kept"`
	Refused []kettleRefusal `json:"refused"`
	State   *kettleState    `json:"state,omitempty"`
}

type kettleRefusal struct {
	ID   string `json:"id"`
	Text string `json:"text"`
	Hint string `json:"hint,omitempty"`
}

// heatOff is the entry of an interruption that is over. Its times are those of
// the phone's clock.
func heatOff(one kettleEntry) (gyle.Entry, error) {
	i := gyle.Interruption{What: "heat off"}
	if err := i.From.UnmarshalText([]byte(one.Off)); err != nil {
		return gyle.Entry{}, &RefusedError{"When the heat went off isn't a time."}
	}
	if err := i.To.UnmarshalText([]byte(one.Back)); err != nil || !i.From.Before(i.To.Time) {
		return gyle.Entry{}, &RefusedError{"The heat wasn't back after it went off."}
	}
	return gyle.Entry{Interruption: &i}, nil
}

// clockError is how far a device's clock is off before it is noted.
const clockError = 2 * time.Second

// takeEntries appends the queue of a phone, each entry once, in its order.
func (s *Server) takeEntries(w http.ResponseWriter, r *http.Request) error {
	var sent kettleSend
	if err := json.NewDecoder(r.Body).Decode(&sent); err != nil {
		return errBadForm
	}
	var ahead time.Duration
	if now, err := time.Parse(time.RFC3339, sent.Now); err == nil {
		if ahead = now.Sub(s.now()); ahead.Abs() < clockError {
			ahead = 0
		}
	}
	slug := r.PathValue("slug")
	var answer kettleAnswer
	for _, one := range sent.Entries {
		err := s.takeEntry(r.Context(), slug, one, ahead.Round(time.Second), handOf(r).Author)
		var refused *kettleRefusalError
		switch {
		case errors.As(err, &refused):
			answer.Refused = append(answer.Refused, refused.kettleRefusal)
		case err != nil:
			return err
		default:
			answer.Kept = append(answer.Kept, one.ID)
		}
	}
	return s.answerKettle(w, r, answer)
}

type kettleRefusalError struct{ kettleRefusal }

func (e *kettleRefusalError) Error() string { return e.Text }

// takeEntry appends one answer. One that the log has already is acknowledged
// again, whatever became of the questions since.
func (s *Server) takeEntry(ctx context.Context, slug string, one kettleEntry, ahead time.Duration, who string) error {
	refuse := func(err error) error {
		f := logFault("", "", one.Typed, err)
		return &kettleRefusalError{kettleRefusal{one.ID, f.Text, f.Hint}}
	}
	var id gyle.ID
	if err := id.UnmarshalText([]byte(one.ID)); err != nil || id == "" {
		return refuse(errors.New("the entry has no id"))
	}
	var at gyle.Time
	if err := at.UnmarshalText([]byte(one.Time)); err != nil {
		return refuse(errors.New("the entry has no time"))
	}
	g, _, err := s.gyle(ctx, slug)
	if err != nil {
		return err
	}
	if slices.ContainsFunc(g.Log, func(e gyle.Entry) bool { return e.ID == id }) {
		return nil
	}
	e, err := s.kettleEntry(ctx, g, one)
	var lost *RefusedError
	var faults document.Faults
	var parse *quantity.ParseError
	if errors.As(err, &lost) || errors.As(err, &faults) || errors.As(err, &parse) {
		return refuse(err)
	}
	if err != nil {
		return err
	}
	e.ID, e.Time, e.Who, e.Clock = id, at, who, quantity.Duration(ahead.Minutes())
	if i := e.Interruption; i != nil {
		i.From, i.To = i.From.Add(-e.Clock), i.To.Add(-e.Clock)
	}
	return AppendEntries(ctx, s.book, slug, e)
}

// kettleEntry makes the entry of an answer.
func (s *Server) kettleEntry(ctx context.Context, g *gyle.Gyle, one kettleEntry) (gyle.Entry, error) {
	switch {
	case one.Strike != "":
		return gyle.Entry{Correction: &gyle.Correction{Of: gyle.ID(one.Strike), Strike: true, Why: "undone at the kettle"}}, nil
	case one.Take != "":
		return s.choice(ctx, g, gyle.ID(one.Over), one.Take, "", true)
	case one.Note != "":
		return gyle.Entry{Note: one.Note}, nil
	case one.Off != "":
		return heatOff(one)
	}
	task, ok := taskOf(g, one.Task)
	if !ok {
		return gyle.Entry{}, &RefusedError{"The plan has no task “" + one.Task + "”."}
	}
	asks := brewday.Asks(g, task, quantity.Printer{})
	if one.Ask < 0 || one.Ask >= len(asks) {
		return gyle.Entry{}, &RefusedError{"The task asks for no such thing."}
	}
	e, _, err := asks[one.Ask].Entry(g, one.Typed)
	if err == nil && e.Sort() == "strike" {
		err = &RefusedError{"Nothing was typed."}
	}
	return e, err
}

func (s *Server) answerKettle(w http.ResponseWriter, r *http.Request, answer kettleAnswer) error {
	k, err := s.kettleState(r.Context(), r.PathValue("slug"), handOf(r).printer())
	if err != nil {
		return err
	}
	answer.State = &k
	text, err := json.Marshal(answer)
	if err != nil {
		return err
	}
	sendJSON(w, http.StatusOK, text)
	return nil
}

// kettleWorker is the script that answers for the kettle's page when the
// network is gone. It stands below /gyle/, because it may answer only there.
func (s *Server) kettleWorker(w http.ResponseWriter, r *http.Request) error {
	a := assets()["kettle-worker.js"]
	w.Header().Set("Content-Type", a.kind)
	w.Header().Set("Cache-Control", "no-cache")
	_, err := w.Write(a.plain)
	return err
}
