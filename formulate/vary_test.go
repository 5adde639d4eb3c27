// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"testing"
)

func TestVariations(t *testing.T) {
	wish := clubWish(t, "garage")
	all, err := Variations(context.Background(), wish, ferryBrown(t), 4)
	if err != nil {
		t.Fatal(err)
	}
	if len(all) != 4 {
		t.Errorf("%d variations", len(all))
	}
	for i, v := range all {
		limitsKept(t, v.Says, v.Judgement)
		t.Logf("%.2f %s\n%s", v.Distance, v.Says, v.Text)
		for _, other := range all[:i] {
			if other.Says == v.Says {
				t.Errorf("twice: %s", v.Says)
			}
		}
	}
}
