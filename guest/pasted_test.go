// SPDX-License-Identifier: MIT

package guest

import (
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/recipe"
)

// What is copied from the screen of a page has the documents between other
// words; they come back whole.
func TestDocumentsAreFoundInPastedText(t *testing.T) {
	table := table(t, "ferry-brown-4", "garage", "garage-shed")
	doc, err := table.recipe.Text()
	if err != nil {
		t.Fatal(err)
	}
	house, err := table.house.Text()
	if err != nil {
		t.Fatal(err)
	}
	pasted := "Ferry Brown 4\nby A. Quillmark\n\nFor your own gyle\nThe recipe\n" + string(doc) + "Your brewery as a document\nWhat you said above, for gyle.\n" + string(house) + "Made with gyle. This page keeps what you type.\n"
	k, ok, err := FromText([]byte(strings.ReplaceAll(pasted, "\n", "\r\n")))
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	r, err := recipe.Parse("recipe", []byte(k.Recipe))
	if err != nil {
		t.Fatalf("%v\n%s", err, k.Recipe)
	}
	if again, err := r.Text(); err != nil || string(again) != string(doc) {
		t.Errorf("the recipe came back as\n%s", again)
	}
	h, err := brewhouse.Parse("house", []byte(k.House))
	if err != nil {
		t.Fatal(err)
	}
	if again, err := h.Text(); err != nil || string(again) != string(house) {
		t.Errorf("the house came back as\n%s", again)
	}
	for _, none := range []string{"", "nothing", "gyle: tasting/1\nname: x\n", "we drank gyle: recipe/1 all night"} {
		if _, ok, err := FromText([]byte(none)); ok || err != nil {
			t.Errorf("%q carries something: %v", none, err)
		}
	}
	if k, ok, _ := FromText([]byte(`<p><script type="application/json" id="kit">{"recipe": "gyle: recipe/1\nname: A\n"}</script>`)); !ok || k.Recipe == "" {
		t.Error("the source of a page carries nothing")
	}
}
