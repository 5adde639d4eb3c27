// SPDX-License-Identifier: MIT

package tasting

import (
	"fmt"
	"slices"

	"gyle/internal/document"
)

func (c *checker) answers(f *Flight, at string) {
	ids := map[string]int{}
	given := map[subject]string{} // id of the last answer
	for i, a := range f.Answers {
		path := fmt.Sprintf("%s.answers[%d]", at, i)
		if first, twice := ids[a.ID]; twice {
			c.add(path+".id", "give each answer an id of its own", "answer %d has the same id", first+1)
		}
		c.times(f, i, path)
		set, ok := f.served(a)
		switch {
		case ok:
			c.form(f, a, set, path)
		case c.taster(path+".taster", a.Taster):
			c.add(path+".taster", "", "%s was not served this set", a.Taster)
		}
		c.correction(f, a, ids, given, path)
		ids[a.ID] = i
		given[f.subject(a)] = a.ID
	}
}

// times checks that the design was first and that answers stand as they came.
func (c *checker) times(f *Flight, i int, path string) {
	a := f.Answers[i]
	switch {
	case f.Design == nil:
		c.add(path, "add design: with at: and the time when orders and codes were fixed", "there is an answer but no plan")
	case a.At.Before(f.Design.At.Time):
		c.add(path+".at", "a plan that was made after an answer proves nothing; check the clocks", "the answer is older than the design of %s", f.Design.At)
	}
	if !a.Came.IsZero() && a.Came.Before(a.At.Time) {
		c.add(path+".came", "", "it came before it was given")
	}
	if i > 0 && a.Arrived().Before(f.Answers[i-1].Arrived().Time) {
		c.add(path+".at", "answers stand in the order in which they came; add came: to one that was sent later", "it came before the answer above it")
	}
}

// correction checks that nobody answers twice without saying so.
func (c *checker) correction(f *Flight, a Answer, ids map[string]int, given map[subject]string, path string) {
	last, again := given[f.subject(a)]
	switch {
	case a.Corrects == "" && again:
		c.add(path, "add corrects: "+last+" if it replaces that answer", "%s has answered this already", a.Taster)
	case a.Corrects == "":
	case !again:
		hint := ""
		if i, known := ids[a.Corrects]; known {
			hint = fmt.Sprintf("answer %s is by %s", a.Corrects, f.Answers[i].Taster)
		}
		c.add(path+".corrects", hint, "there is no earlier answer of %s to correct", a.Taster)
	case a.Corrects != last:
		c.add(path+".corrects", "write "+last, "the answer that stands is another one")
	}
}

// form checks that an answer says what its kind of flight asks.
func (c *checker) form(f *Flight, a Answer, s Serving, path string) {
	switch f.Kind {
	case Ranking, Tetrad:
		c.list(f, a, s, path)
	case Preference:
		if a.Says != sayNone {
			c.glass(f, a, s, path)
		} else if f.Forced {
			c.add(path+".says", "name one of the glasses", "the flight asks for a choice of all")
		} else if a.Code != "" {
			c.add(path+".code", "delete it, or says", "it names a glass and prefers none")
		}
	default:
		c.glass(f, a, s, path)
	}
	c.says(f, a, path)
	if f.Kind == Profile {
		c.scores(f, a, path)
	} else if len(a.Scores) > 0 {
		c.add(path+".scores", "scores belong into a flight of kind profile", "%s has no scores", f.Kind.one())
	}
}

func (c *checker) glass(f *Flight, a Answer, s Serving, path string) {
	if len(a.Codes) > 0 {
		c.add(path+".codes", "write code: and one of them", "%s names one glass", f.Kind.one())
	}
	if a.Code == "" {
		c.add(path, "add code: and the code of the glass", "it names no glass")
		return
	}
	c.onTray(path+".code", f, s, a.Code)
}

// onTray checks that a code was in front of the taster.
func (c *checker) onTray(path string, f *Flight, s Serving, code Code) {
	if slices.Contains(s.Codes, code) {
		return
	}
	hint := fmt.Sprintf("the glasses of %s are %v", s.Taster, s.Codes)
	switch owner := slices.IndexFunc(f.Serving, func(o Serving) bool { return slices.Contains(o.Codes, code) }); {
	case code == s.Reference:
		hint = "it is the reference"
	case owner >= 0:
		hint = fmt.Sprintf("it stood on the tray of %s", f.Serving[owner].Taster)
	}
	c.add(path, hint, "glass %s was not in this set", code)
}

func (c *checker) list(f *Flight, a Answer, s Serving, path string) {
	want, hint := len(s.Codes), "add codes: with all glasses, the first one first"
	if f.Kind == Tetrad {
		want, hint = 2, "add codes: with two glasses that are alike"
	}
	if a.Code != "" {
		c.add(path+".code", hint, "%s names %d glasses", f.Kind.one(), want)
	}
	if len(a.Codes) != want {
		c.add(path, hint, "it names %d glasses, not %d", len(a.Codes), want)
	}
	for i, code := range a.Codes {
		at := fmt.Sprintf("%s.codes[%d]", path, i)
		c.onTray(at, f, s, code)
		if slices.Index(a.Codes, code) < i {
			c.add(at, "", "glass %s is named twice", code)
		}
	}
}

func (c *checker) says(f *Flight, a Answer, path string) {
	switch {
	case f.Kind == ANotA && a.Says != sayA && a.Says != sayNotA:
		c.add(path, "add says: a or says: not a", "it doesn't say whether it is the beer just learnt")
	case f.Kind == Preference && a.Says != "" && a.Says != sayNone:
		c.add(path+".says", "write none, or leave it out", "%q is no preference", a.Says)
	case f.Kind != ANotA && f.Kind != Preference && a.Says != "":
		c.add(path+".says", "delete it; words belong into comment", "%s asks for glasses only, and who can't tell guesses", f.Kind.one())
	}
}

func (c *checker) scores(f *Flight, a Answer, path string) {
	if len(a.Scores) == 0 {
		c.add(path, "add scores: {"+f.Attributes[0]+": …}", "it scores nothing")
	}
	for _, s := range a.Scores {
		at := path + ".scores." + s.Key
		if !slices.Contains(f.Attributes, s.Key) {
			hint := "the flight doesn't ask for it"
			if near, ok := document.Nearest(s.Key, f.Attributes); ok {
				hint = "write " + near
			}
			c.add(at, hint, "%q is none of the attributes", s.Key)
		}
		if !(s.Value >= f.Scale.From && s.Value <= f.Scale.To) {
			c.add(at, "", "%g is not on the scale from %g to %g", s.Value, f.Scale.From, f.Scale.To)
		}
	}
}

// closing checks the count; whether the chain still fits is a remark, since it
// is a finding about the evening and not about the text.
func (c *checker) closing(f *Flight, at string) {
	if f.Closed == nil {
		return
	}
	if f.Closed.Count < 0 || f.Closed.Count > len(f.Answers) {
		c.add(at+".closed.answers", "", "there are %d answers", len(f.Answers))
	}
	if f.Closed.Head != "" && !isHash(f.Closed.Head) {
		c.add(at+".closed.head", "", "a hash has 64 hexadecimal digits")
	}
}
