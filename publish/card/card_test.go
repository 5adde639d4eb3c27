// SPDX-License-Identifier: MIT

package card_test

import (
	"os"
	"path/filepath"
	"testing"

	"gyle/publish/card"
)

// TestShow writes the demonstration's cards where GYLE_SHOW says, to be looked at.
func TestShow(t *testing.T) {
	dir := os.Getenv("GYLE_SHOW")
	if dir == "" {
		t.Skip("set GYLE_SHOW to a folder to see the cards")
	}
	for _, size := range card.Sizes() {
		deck, err := card.Deck(ferryBrown(t), size, card.Paper)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range deck {
			png, err := c.PNG()
			if err != nil {
				t.Fatal(err)
			}
			for name, text := range map[string][]byte{".png": png, ".svg": c.SVG(), ".txt": []byte(c.Title + "\n" + c.Text)} {
				if err := os.WriteFile(filepath.Join(dir, size.Name+"-"+c.Name+name), text, 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}
