// SPDX-License-Identifier: MIT

// Package publish hands a recipe on: as a page that brews on the reader's own
// kit, and as text. What it writes comes from the same documents and the same
// plan as everything else, so what a reader copies down is what was computed.
//
// A page is one file. It needs no network and follows nobody; without script
// it shows the author's numbers, with script the reader's own, computed by the
// same code as gyle (see package guest).
package publish
