// SPDX-License-Identifier: MIT

package formulate

import (
	"errors"
	"slices"
	"strings"

	"gyle/plan"
	"gyle/recipe"
)

// TooNarrow is the error of a wish that could be fulfilled on paper, but in
// hardly more than one point, which no amounts that can be weighed out meet.
type TooNarrow struct {
	House   string
	Without []string // demands of which any one left out would help
}

// Error says what leaves too little, and what would help.
func (e *TooNarrow) Error() string {
	s := "the rules and wishes can be kept together, but they leave hardly more than one point, and no amounts that can be weighed out on " + e.House + " meet it"
	if len(e.Without) == 0 {
		return s + ": widen a rule, or allow more ingredients"
	}
	return s + "; any one of these left out would help:\n- " + strings.Join(e.Without, "\n- ")
}

// brewOrTell finds a recipe and its plan, or tells what leaves too little.
func (w *work) brewOrTell(ds []demand) (*draft, *plan.Plan, *recipe.Recipe, error) {
	d, p, r, err := w.brew(ds)
	if !errors.Is(err, errTooNarrow) {
		return d, p, r, err
	}
	told := &TooNarrow{House: w.house.Name}
	for i := range ds {
		if says := w.says; w.helps(slices.Delete(slices.Clone(ds), i, i+1)) && ds[i].Phrase != "" {
			w.says = says
			told.Without = append(told.Without, strings.TrimSpace(ds[i].Clash.String()))
		}
		if w.err != nil {
			return nil, nil, nil, w.err
		}
	}
	return nil, nil, nil, told
}

// helps reports whether demands leave something to weigh out.
func (w *work) helps(ds []demand) bool {
	_, ok := w.best(ds, nil)
	return ok
}
