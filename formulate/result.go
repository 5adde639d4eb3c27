// SPDX-License-Identifier: MIT

package formulate

import (
	"strings"

	"gyle/chance"
	"gyle/judge"
	"gyle/plan"
	"gyle/recipe"
	"gyle/style"
)

// Result is a recipe that fits, and what is known of it.
type Result struct {
	Recipe    *recipe.Recipe
	Text      string          // of the recipe document
	Judgement judge.Judgement // of the recipe as it is meant
	Plan      *plan.Plan      // on the house; of [PaperHouse] where the wish names none
	Planned   judge.Judgement // of the plan, where the wish names a house
	Margin    float64         // least distance to an edge that counts, as a share of the range's width
	Rooms     []Room
	Aims      []Room     // the same for original gravity, bitterness and colour
	NotUsed   []NotUsed  // rules that couldn't be used in solving
	GivenUp   []Conflict // advice that was given up for it, and why
	Says      []string   // sentences for the brewer

	Outlook *chance.Outlook // what may come of the plan; nil unless the wish is robust
	Hinders []string        // what keeps the chance to be inside all limits below [SureEnough]

	// Remedies say what the brewer could do about that, and what the chance would be.
	Remedies []string

	own []Room // what is used of each ingredient, without the room
}

// Room is how little and how much of an ingredient there may be with all else
// free. Shares are fractions of the mass of the grist, doses g/L.
type Room struct {
	Name  string
	At    string // the moments of a hop; empty for a malt
	Unit  string // "%" or "g/L"; of a figure, its own
	Least float64
	Most  float64
	Now   float64
}

// NotUsed is a rule that couldn't be used in solving. Judge looks at it all the
// same.
type NotUsed struct {
	Rule   int // place in the style
	Phrase string
	Reason string // "can't be used in solving: …"
}

// Clash is one of the demands that contradict each other.
type Clash struct {
	Rule     int // place in the style; -1: a wish of the brewer
	Part     int // of the rule, from 1; 0 for the rule itself
	Phrase   string
	Range    string
	Severity style.Severity // empty for a wish
	Why      string

	Name string // of a wish: the ingredient that it is about
	Wish Wanted // of a wish: what it asks
}

// Wanted is what a wish of the brewer asks of an ingredient.
type Wanted string

// What wishes ask. A wish about a figure, and a rule, ask none of these.
const (
	WantedMust    Wanted = "must"    // that it is used
	WantedLeast   Wanted = "least"   // that there is so much of it
	WantedMost    Wanted = "most"    // that there is no more of it
	WantedWithout Wanted = "without" // that it isn't used
	WantedStock   Wanted = "stock"   // that what there is of it is enough
)

// String says the demand with its reason.
func (c Clash) String() string {
	s := strings.TrimSpace(c.Phrase + " " + c.Range)
	if c.Severity != "" {
		s += " (" + string(c.Severity) + ")"
	}
	if c.Why != "" {
		s += ": “" + c.Why + "”"
	}
	return s
}

// Choice is a way out of a conflict: one demand given way, as little as helps.
type Choice struct {
	Clash int     // place among the clashes
	To    float64 // the new end, in the unit the rule is printed in
	Cost  float64 // how far it gives way, as a share of its end
	Says  string  // "allow class roasted up to 5.2 %"
}

// Conflict is the error of a wish that nothing fulfils. The clashes contradict
// each other, and any of them left out the others don't. The choices are sorted,
// the smallest step first.
type Conflict struct {
	Clashes []Clash
	Choices []Choice
	More    bool // mending this conflict leaves another
}

// Error says what conflicts.
func (c *Conflict) Error() string {
	var lines []string
	for _, one := range c.Clashes {
		lines = append(lines, "- "+one.String())
	}
	s := "no recipe fits; these can't hold together:\n" + strings.Join(lines, "\n")
	if len(c.Choices) > 0 {
		s += "\nways out:"
	}
	for _, one := range c.Choices {
		s += "\n- " + one.Says
	}
	if c.More {
		s += "\nWhichever is taken, another conflict is left."
	}
	return s
}
