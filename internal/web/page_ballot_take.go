// SPDX-License-Identifier: MIT

package web

import (
	"encoding/json"
	"errors"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"

	"gyle/internal/document"
	"gyle/tasting"
)

// maxAgo is how long a phone may keep an answer before its own clock isn't
// believed any more.
const maxAgo = 24 * time.Hour

// lateAfter is how long an answer may travel before the log says when it came.
const lateAfter = 10 * time.Second

// takeBallot takes an answer of an assessor. It is kept once, however often it
// is sent. The reply says that it is in, and nothing of what is right.
func (s *Server) takeBallot(w http.ResponseWriter, r *http.Request) error {
	token := r.PathValue("token")
	slug, taster, t, err := s.bearer(r.Context(), token)
	if err != nil {
		return s.noBallot(w, r, err)
	}
	if err := readForm(r); err != nil {
		return s.ballotReply(w, r, slug, taster, t, err)
	}
	if r.PostForm.Has("me") {
		err = s.describeTaster(r, slug, taster)
	} else {
		err = s.takeAnswer(r, slug, taster)
	}
	return s.ballotReply(w, r, slug, taster, t, err)
}

// ballotReply tells a script in JSON, and a reader with the page, what became
// of an answer.
func (s *Server) ballotReply(w http.ResponseWriter, r *http.Request, slug, taster string, t *tasting.Tasting, err error) error {
	status, problem := http.StatusOK, ""
	if err != nil && !errors.Is(err, tasting.ErrAgain) {
		status, problem = http.StatusUnprocessableEntity, ballotProblem(err)
		if problem == "" {
			s.log.Error("ballot", "error", err)
			status, problem = http.StatusInternalServerError, "Something broke; your answer is kept here and sent again."
		}
	}
	if r.Header.Get("Accept") == "application/json" {
		w.Header().Set("Content-Type", "application/json")
		w.Header().Set("Cache-Control", "no-store")
		w.WriteHeader(status)
		return json.NewEncoder(w).Encode(map[string]any{"taken": err == nil || errors.Is(err, tasting.ErrAgain), "problem": problem})
	}
	if problem != "" {
		return s.showBallot(w, r, status, slug, taster, t, problem)
	}
	return seeOther(w, r, "/ballot/"+r.PathValue("token"))
}

// ballotProblem says in words that show nothing of other trays why an answer
// wasn't taken.
func ballotProblem(err error) string {
	var refused *RefusedError
	var faults document.Faults
	switch {
	case errors.As(err, &refused):
		return refused.Reason
	case errors.As(err, &faults):
		return "That isn't an answer to your own glasses, or you answered already. Nothing was changed."
	}
	return ""
}

// takeAnswer adds the answer of a form. Its time is read when its turn has come: answers
// stand in the order in which they came.
func (s *Server) takeAnswer(r *http.Request, slug, taster string) error {
	form := r.PostForm
	s.ballots.Lock()
	defer s.ballots.Unlock()
	answer := answerOf(form.Get, form["code"], taster, s.now())
	again := false
	_, err := ChangeTasting(r.Context(), s.book, slug, "", "answer of "+taster, func(t *tasting.Tasting) error {
		f := t.Flight(form.Get("flight"))
		if f == nil || len(f.Serving) == 0 {
			return &RefusedError{"There is no such flight."}
		}
		a := answer
		if f.Kind == tasting.Profile {
			for i, name := range f.Attributes {
				if score, err := strconv.ParseFloat(strings.ReplaceAll(form.Get("score-"+strconv.Itoa(i)), ",", "."), 64); err == nil {
					a.Scores = append(a.Scores, document.Entry[float64]{Key: name, Value: score})
				}
			}
			if len(a.Scores) == 0 {
				return &RefusedError{"Give at least one score."}
			}
		}
		shapeAnswer(&a, f.Kind)
		if f.Design != nil && a.At.Before(f.Design.At.Time) {
			a.At = f.Design.At // a phone whose clock jumped
		}
		if n := len(f.Answers); n > 0 && a.Arrived().Before(f.Answers[n-1].Arrived().Time) {
			a.Came = f.Answers[n-1].Arrived() // this machine's clock was set back
		}
		if known := slices.IndexFunc(f.Answers, func(k tasting.Answer) bool { return k.ID == a.ID }); known >= 0 {
			again = true
			return tasting.ErrAgain
		}
		return t.Take(f, a)
	})
	if again {
		return tasting.ErrAgain
	}
	return err
}

// answerOf reads the parts that all answers have. The time is this machine's:
// the phone says only how long ago it was.
func answerOf(get func(string) string, codes []string, taster string, now time.Time) tasting.Answer {
	set, _ := strconv.Atoi(get("set"))
	a := tasting.Answer{
		ID: taster + "-" + cleanID(get("id")), At: tasting.At(now), Taster: taster, Set: set, Says: get("says"),
		Comment: shortWords(get("comment")), Why: shortWords(get("why")), Corrects: get("corrects"),
	}
	if ms, err := strconv.ParseInt(get("ago"), 10, 64); err == nil && ms > 0 {
		if ago := min(time.Duration(ms)*time.Millisecond, maxAgo); ago > lateAfter {
			a.At, a.Came = tasting.At(now.Add(-ago)), tasting.At(now)
		}
	}
	for _, code := range codes {
		if code != "" {
			a.Codes = append(a.Codes, tasting.Code(code))
		}
	}
	return a
}

// shapeAnswer puts what was ticked where its kind of flight wants it.
func shapeAnswer(a *tasting.Answer, kind tasting.Method) {
	if kind == tasting.Tetrad || kind == tasting.Ranking {
		return
	}
	if len(a.Codes) == 1 {
		if a.Codes[0] == "none" {
			a.Says = "none"
		} else {
			a.Code = a.Codes[0]
		}
		a.Codes = nil
	}
}

// cleanID leaves letters and digits of an id that a phone made.
func cleanID(id string) string {
	id = strings.Map(func(r rune) rune {
		if 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9' {
			return r
		}
		return -1
	}, id)
	return id[:min(len(id), 32)]
}

// maxWords is the longest comment, in letters.
const maxWords = 400

func shortWords(text string) string {
	letters := []rune(strings.Join(strings.Fields(text), " "))
	return string(letters[:min(len(letters), maxWords)])
}

// describeTaster keeps what an assessor says of themselves: of age, a name if
// they wish it, or that they don't taste, for which no reason is asked.
func (s *Server) describeTaster(r *http.Request, slug, taster string) error {
	s.ballots.Lock()
	defer s.ballots.Unlock()
	_, err := ChangeTasting(r.Context(), s.book, slug, "", "about "+taster, func(t *tasting.Tasting) error {
		for i := range t.Panel {
			a := &t.Panel[i]
			if a.ID != taster {
				continue
			}
			if r.PostForm.Has("out") {
				a.Out = "withdrew"
				return nil
			}
			if !r.PostForm.Has("age") {
				return &RefusedError{"Only who may drink here by law can taste. Nobody has to give a reason for leaving it."}
			}
			a.OfAge, a.Name = true, shortName(r.PostForm.Get("name"))
		}
		return nil
	})
	return err
}
