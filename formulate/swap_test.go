// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"testing"
)

func TestSwaps(t *testing.T) {
	wish := clubWish(t, "garage")
	for ingredient, to := range map[string][]string{
		"chocolate": {"black-malt", "roasted-barley"}, "munich": {"vienna", "chocolate"}, "challenger": {"northdown"}, "bramling-cross": {"east-kent-golding", "fuggle"},
	} {
		all, err := Swaps(context.Background(), wish, ferryBrown(t), ingredient, to)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range all {
			t.Logf("%s → %s (%s): kept %q, lost %q, %v\n%s", s.From, s.To, s.Role, s.Kept, s.Lost, s.Conflict, s.Text)
			if s.Conflict == nil {
				limitsKept(t, s.To, s.Judgement)
			}
		}
	}
}
