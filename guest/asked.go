// SPDX-License-Identifier: MIT

package guest

import "errors"

// asked is a fault of an answer with a hint what to write.
type asked struct{ msg, hint string }

func (a asked) Error() string { return a.msg }

// HintText says what to write instead.
func (a asked) HintText() string { return a.hint }

// A Fault is an answer that can't be taken.
type Fault struct {
	ID   string `json:"id"` // of the question; empty where it is about all of them
	Msg  string `json:"msg"`
	Hint string `json:"hint,omitempty"`
}

func faultOf(id string, err error) Fault {
	f := Fault{ID: id, Msg: err.Error()}
	var hinted interface{ HintText() string }
	if errors.As(err, &hinted) {
		f.Hint = hinted.HintText()
	}
	return f
}
