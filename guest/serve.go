// SPDX-License-Identifier: MIT

package guest

import (
	"encoding/json"
	"fmt"
)

// Serve answers one question of a page: a Request as JSON in, a Reply as JSON
// out. With "questions": true the reply asks the questions again, in the units
// of the request. It never panics: a fault of the program becomes a problem.
func (t *Table) Serve(request string) (reply string) {
	defer func() {
		if fault := recover(); fault != nil {
			reply = problemJSON(fmt.Sprint("a fault of this page, not of your answers: ", fault))
		}
	}()
	var r struct {
		Request
		Questions bool `json:"questions"`
	}
	if err := json.Unmarshal([]byte(request), &r); err != nil {
		return problemJSON("read the answers: " + err.Error())
	}
	answer := t.answer(t.Brew(r.Request))
	if r.Questions {
		answer.Questions = t.Asked(r.printer())
	}
	text, err := json.Marshal(answer)
	if err != nil {
		return problemJSON("write the plan: " + err.Error())
	}
	return string(text)
}

func problemJSON(text string) string {
	b, _ := json.Marshal(Reply{Problem: text}) // strings always marshal
	return string(b)
}
