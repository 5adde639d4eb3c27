// SPDX-License-Identifier: MIT

package gyle

import (
	"fmt"
	"time"

	"gyle/quantity"
)

// ID names an entry for ever. Devices make it by [NewID], so that no two
// entries share one and those made later sort later; in a log typed from paper
// any short word of letters, digits and hyphens will do.
type ID string

// crockford are the digits of an ID: no letters that look like others.
const crockford = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// NewID makes an ID of 26 digits: 48 bits of the time in milliseconds, then 80
// bits that the caller draws at random.
func NewID(at time.Time, random [10]byte) ID {
	var bits [16]byte
	ms := uint64(at.UnixMilli())
	for i := range 6 {
		bits[i] = byte(ms >> (8 * (5 - i)))
	}
	copy(bits[6:], random[:])
	digits := make([]byte, 26)
	for i := range digits {
		digits[i] = crockford[fiveBits(bits, 5*i-2)]
	}
	return ID(digits)
}

// fiveBits returns the five bits from a place on, with zeros before the first:
// 26 digits have room for two bits more than 128.
func fiveBits(bits [16]byte, from int) (digit byte) {
	for at := from; at < from+5; at++ {
		digit <<= 1
		if at >= 0 {
			digit |= bits[at/8] >> (7 - at%8) & 1
		}
	}
	return digit
}

// maxID is how many characters an ID may have.
const maxID = 40

// UnmarshalText reads an ID.
func (i *ID) UnmarshalText(b []byte) error {
	s := string(b)
	sound := len(s) > 0 && len(s) <= maxID
	for _, c := range s {
		if !(c >= '0' && c <= '9' || c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c == '-' || c == '_') {
			sound = false
		}
	}
	if !sound {
		return &quantity.ParseError{Text: s, Msg: fmt.Sprintf("%q can't name an entry", s), Hint: fmt.Sprintf("write up to %d letters, digits and hyphens", maxID)}
	}
	*i = ID(s)
	return nil
}

// MarshalText writes the ID.
func (i ID) MarshalText() ([]byte, error) { return []byte(i), nil }
