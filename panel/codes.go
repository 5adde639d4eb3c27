// SPDX-License-Identifier: MIT

package panel

import (
	"fmt"
	"slices"
	"strconv"

	"gyle/tasting"
)

// apart is in how many digits the codes on one tray differ, so that a misread
// one is noticed.
const apart = 2

// coder deals codes from a shuffled pool, none twice.
type coder struct{ pool []tasting.Code }

// newCoder shuffles all codes that are easily read, without those to avoid.
func newCoder(r *Random, avoid []tasting.Code) *coder {
	var c coder
	for n := 100; n < 1000; n++ {
		code := tasting.Code(strconv.Itoa(n))
		if code.Misread() == "" && !slices.Contains(avoid, code) {
			c.pool = append(c.pool, code)
		}
	}
	shuffle(r, c.pool)
	return &c
}

// tray deals the codes of one tray: the next ones of the pool that are far
// enough apart.
func (c *coder) tray(glasses int) ([]tasting.Code, error) {
	var codes []tasting.Code
	for i := 0; i < len(c.pool) && len(codes) < glasses; {
		close := slices.ContainsFunc(codes, func(on tasting.Code) bool { return on.Apart(c.pool[i]) < apart })
		if close {
			i++
			continue
		}
		codes = append(codes, c.pool[i])
		c.pool = slices.Delete(c.pool, i, i+1)
	}
	if len(codes) < glasses {
		return nil, fmt.Errorf("deal codes: none are left that differ in %d digits on a tray of %d; make two evenings of it", apart, glasses)
	}
	return codes, nil
}
