// SPDX-License-Identifier: MIT

package web

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"gyle/publish/card"
)

// unpacked reads the files of a pack.
func unpacked(t *testing.T, content []byte) map[string][]byte {
	t.Helper()
	pack, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{}
	for _, f := range pack.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if files[f.Name], err = io.ReadAll(r); err != nil {
			t.Fatal(err)
		}
	}
	return files
}

// Cards and sheets of a plan and of a style are files that can be opened.
func TestHandOnCardsAndSheets(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	const query = "?recipe=ferry-brown-4&house=garage&stock=garage-shed"
	for path, want := range map[string]string{
		"/plan/cards.zip" + query + "&shape=tall": "yield 76.0 %", "/style/oat-brown-ale/cards.zip?theme=night": "silk without sweetness",
	} {
		answer := c.get(path)
		if answer.Code != http.StatusOK {
			t.Fatalf("%s: %d %.200s", path, answer.Code, answer.Body)
		}
		files := unpacked(t, answer.Body.Bytes())
		if !strings.Contains(string(files["cards.txt"]), want) {
			t.Errorf("%s doesn't say %q:\n%s", path, want, files["cards.txt"])
		}
		if err := xml.Unmarshal(files["01-beer.svg"], new(struct{})); err != nil {
			t.Errorf("%s: the first card is no drawing: %v", path, err)
		}
		if _, pixels := files["01-beer.png"]; pixels {
			t.Errorf("%s has pictures that weren't asked for", path)
		}
	}
	for _, path := range []string{"/plan/sheets.pdf" + query, "/plan/sheets.pdf" + query + "&paper=letter", "/style/oat-brown-ale/guide.pdf"} {
		answer := c.get(path)
		if answer.Code != http.StatusOK || !strings.HasPrefix(answer.Body.String(), "%PDF-") {
			t.Errorf("%s: %d %.100s", path, answer.Code, answer.Body)
		}
	}
	for _, bad := range []string{"/plan/cards.zip" + query + "&shape=round", "/plan/cards.zip" + query + "&theme=loud", "/plan/sheets.pdf" + query + "&paper=a3"} {
		if answer := c.get(bad); answer.Code != http.StatusUnprocessableEntity || !strings.Contains(answer.Body.String(), "there are") && !strings.Contains(answer.Body.String(), "There is no") {
			t.Errorf("%s: %d", bad, answer.Code)
		}
	}
	if answer := c.get("/style/none/cards.zip"); answer.Code != http.StatusNotFound {
		t.Errorf("the cards of no style: %d", answer.Code)
	}
}

// Pictures are drawn where they are asked for, and their deck waits its turn.
func TestPixelsWaitTheirTurn(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	release, err := pixelTurn(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	impatient, cancel := context.WithTimeout(t.Context(), time.Millisecond)
	defer cancel()
	if _, err := pixelTurn(impatient); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("a second deck is drawn beside the first (%v)", err)
	}
	release()
	answer := c.get("/style/american-brown-rules-of-thumb/cards.zip?pixels=1")
	if answer.Code == http.StatusNotFound {
		answer = c.get("/style/oat-brown-ale/cards.zip?pixels=1")
	}
	files := unpacked(t, answer.Body.Bytes())
	picture, err := png.Decode(bytes.NewReader(files["01-beer.png"]))
	if err != nil {
		t.Fatal(err)
	}
	if size := picture.Bounds().Size(); size.X != int(card.Wide.Width) || size.Y != int(card.Wide.Height) {
		t.Errorf("the picture is %v", size)
	}
}
