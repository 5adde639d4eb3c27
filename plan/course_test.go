// SPDX-License-Identifier: MIT

package plan_test

import (
	"testing"

	"gyle/plan"
	"gyle/science/mash"
)

// The course that is handed out gives every charge the yield that the plan has
// for it, on both houses and by both ways of cooling, and the balance the pH.
func TestCourseIsThatOfThePlan(t *testing.T) {
	settled := onBoathouse(t, "4")
	settled.Cooling = "settle and run off"
	for _, in := range []plan.Input{onGarage(t, "1"), onGarage(t, "3"), onGarage(t, "4"), onBoathouse(t, "4"), settled} {
		p := made(t, in)
		course := p.Course()
		if len(course.Names) != len(course.History) || course.BoilEnd-course.Boil != p.Boil.Time {
			t.Errorf("%s %d: course %+v", p.House, p.Version, course)
		}
		for i, out := range course.History.Outcomes(course.At) {
			line := p.Hops.Charges[i]
			near(t, p.House+" "+line.Hop+", yield", out.Iso, line.Yield, 1e-12)
		}
		balance, offset, ok := p.MashBalance()
		if !ok {
			t.Errorf("%s %d has no balance", p.House, p.Version)
		}
		near(t, p.House+", pH of the mash", float64(mash.PH(balance)+offset), float64(p.Mash.PH), 1e-6)
	}
}
