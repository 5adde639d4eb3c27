// SPDX-License-Identifier: MIT

package web

import (
	"encoding/json"
	"errors"
	"net/http"

	"gyle/plan"
)

// refusedJSON is what a program gets instead of a plan.
type refusedJSON struct {
	Faults   fieldFaults   `json:"faults"`
	TooLarge *tooLargeJSON `json:"tooLarge,omitempty"`
}

// tooLargeJSON says what a vessel holds, in litres.
type tooLargeJSON struct {
	Vessel  string      `json:"vessel"`
	Needs   measureJSON `json:"needs"`
	Holds   measureJSON `json:"holds"`
	Largest measureJSON `json:"largest"`
}

// measureJSON is a number with its unit, as in the JSON of a plan.
type measureJSON struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

// refuseJSON answers a program whose query can't be planned. Other errors are
// given back.
func refuseJSON(w http.ResponseWriter, err error) error {
	var faults fieldFaults
	var large *plan.TooLarge
	body := refusedJSON{Faults: fieldFaults{}}
	switch {
	case errors.As(err, &faults):
		body.Faults = faults
	case errors.As(err, &large):
		litres := func(v float64) measureJSON { return measureJSON{v, "L"} }
		body.TooLarge = &tooLargeJSON{large.Vessel, litres(large.Needs.Litres()), litres(large.Holds.Litres()), litres(large.Largest.Litres())}
	case isRefusal(err):
		body.Faults = problemFields(err)
	default:
		return err
	}
	return answerJSON(w, http.StatusUnprocessableEntity, body)
}

func answerJSON(w http.ResponseWriter, status int, body any) error {
	text, err := json.MarshalIndent(body, "", "  ")
	if err != nil {
		return err
	}
	sendJSON(w, status, append(text, '\n'))
	return nil
}

func sendJSON(w http.ResponseWriter, status int, text []byte) {
	h := w.Header()
	h.Set("Content-Type", "application/json; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	w.Write(text)
}
