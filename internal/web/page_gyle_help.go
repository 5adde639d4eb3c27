// SPDX-License-Identifier: MIT

package web

import "errors"

// rowOfGyle is a row with the gyle that it belongs to, for its form.
type rowOfGyle struct {
	Gyle gyleBody
	Row  dayRow
}

// gylePath is the address of the gyle that a part of a page belongs to.
func gylePath(f frame) (string, error) {
	if f.Path == "" {
		return "", errors.New("the sheet has no path")
	}
	return f.Path, nil
}
