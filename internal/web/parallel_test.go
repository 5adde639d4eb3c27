// SPDX-License-Identifier: MIT

package web

import (
	"sync/atomic"
	"testing"
)

func TestInParallel(t *testing.T) {
	for _, n := range []int{0, 1, 2, 100} {
		var done [100]atomic.Int32
		inParallel(n, func(i int) { done[i].Add(1) })
		for i := range done {
			if want := map[bool]int32{true: 1}[i < n]; done[i].Load() != want {
				t.Errorf("of %d: number %d is done %d times", n, i, done[i].Load())
			}
		}
	}
	defer func() {
		if cause := recover(); cause != "a fault" {
			t.Errorf("the caller sees %v", cause)
		}
	}()
	inParallel(9, func(i int) {
		if i == 4 {
			panic("a fault")
		}
	})
}
