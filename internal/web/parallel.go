// SPDX-License-Identifier: MIT

package web

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// inParallel calls work for each index below n, on as many processors as there
// are. A panic of the work is one of the caller, whose server knows what to do
// with it.
func inParallel(n int, work func(i int)) {
	var (
		next   atomic.Int64
		failed atomic.Pointer[any]
		all    sync.WaitGroup
	)
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			defer func() {
				if cause := recover(); cause != nil {
					failed.Store(&cause)
				}
			}()
			for i := next.Add(1) - 1; i < int64(n); i = next.Add(1) - 1 {
				work(int(i))
			}
		})
	}
	all.Wait()
	if cause := failed.Load(); cause != nil {
		panic(*cause)
	}
}
