// SPDX-License-Identifier: MIT

package panel

import (
	"crypto/rand"
	"encoding/binary"

	"gyle/tasting"
)

// Draw returns a seed and a nonce from the random numbers of the system. They
// are part of the key: keep them sealed.
func Draw() (seed uint64, nonce [tasting.NonceBytes]byte) {
	var b [8]byte
	rand.Read(b[:])     // never fails: it ends the program if the system has no random numbers
	rand.Read(nonce[:]) // likewise
	return binary.BigEndian.Uint64(b[:]), nonce
}
