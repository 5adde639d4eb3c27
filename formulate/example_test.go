// SPDX-License-Identifier: MIT

package formulate_test

import (
	"context"
	"fmt"

	"gyle/formulate"
	"gyle/style"
)

// A style that can't be brewed from what is on the shelf is answered with the
// rules that clash, and with what would help.
func ExampleFind_conflict() {
	s, err := style.Parse("pale.yaml", []byte(`gyle: style/1
name: Pale and dark
rules:
- {figure: og, in: 1.040..1.044, severity: limit, why: a pint and another}
- {figure: color, in: 30..40 EBC, severity: limit, why: it should look like ale}
- {share: class roasted, in: ..1 %, severity: limit, why: no burnt taste}
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	wish := formulate.Wish{Style: s, Malts: []formulate.Malt{{Malt: "pale-ale"}, {Malt: "chocolate"}}}
	_, err = formulate.Find(context.Background(), wish)
	fmt.Println(err)
	// Output:
	// no recipe fits; these can't hold together:
	// - original gravity 1.040–1.044 (limit): “a pint and another”
	// - colour 30–40 EBC (limit): “it should look like ale”
	// - roasted up to 1 % (limit): “no burnt taste”
	// ways out:
	// - accept 14 EBC (colour)
	// - accept 1.124 (original gravity)
	// - allow roasted up to 4.3 %
}
