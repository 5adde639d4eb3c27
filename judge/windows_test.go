// SPDX-License-Identifier: MIT

package judge

import (
	"slices"
	"testing"

	"gyle/style"
)

// Of Ferry Brown 4 the early charge boils 45 minutes and more, the stand is
// late; rules on anything else mean no charge.
func TestChargesMeant(t *testing.T) {
	s, p := oatBrown(t), boathouse(t, "")
	seen := 0
	for i := range s.Rules {
		got := ChargesMeant(s, p, i)
		switch s.Rules[i].Subject() {
		case style.OnIBUFrom:
			seen++
			if !slices.Equal(got, []bool{true, false}) {
				t.Errorf("bitterness from long boils: %v", got)
			}
		case style.OnDose:
			seen++
			if late := s.Rules[i].Dose.Terms[0].Stage != "dry"; !slices.Equal(got, []bool{false, late}) {
				t.Errorf("dose, rule %d: %v", i, got)
			}
		default:
			if got != nil {
				t.Errorf("rule %d: %v", i, got)
			}
		}
	}
	if seen != 3 {
		t.Errorf("%d rules on moments", seen)
	}
}
