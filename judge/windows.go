// SPDX-License-Identifier: MIT

package judge

import (
	"gyle/plan"
	"gyle/style"
)

// ChargesMeant returns, by charge of a plan, whether a rule on the bitterness or
// the dose of some moments means it; nil for any other rule.
func ChargesMeant(s *style.Style, p *plan.Plan, rule int) []bool {
	r := &s.Rules[rule]
	windows := r.IBUFrom
	if windows == nil {
		windows = r.Dose
	}
	if windows == nil {
		return nil
	}
	w := &work{style: s, beer: ofPlan(p)}
	meant := make([]bool, len(p.Hops.Charges))
	for _, c := range w.beer.charges {
		meant[c.index] = w.inWindows(c, windows)
	}
	return meant
}
