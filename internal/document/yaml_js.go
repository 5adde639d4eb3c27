// SPDX-License-Identifier: MIT

package document

import "errors"

// In a browser there is no YAML library: documents reach it as the printer
// writes them.

// tree reads the top node of the text.
func (s *Source) tree() (*Node, Faults) {
	root, err := readPlain(s.text)
	var fault errPlain
	if errors.As(err, &fault) {
		return nil, Faults{s.faultSpan(fault.Line, fault.Column, 1, "", fault.Msg, "write the document as gyle prints it")}
	}
	return root, nil
}

// wholeTree is the tree: nothing here knows more.
func (s *Source) wholeTree() (*Node, Faults) { return s.tree() }

// dump is not there: a page changes values, it edits no texts.
func dump(*Node) ([]byte, error) { return nil, errors.ErrUnsupported }
