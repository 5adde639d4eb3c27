// SPDX-License-Identifier: MIT

package web

import (
	"encoding/json"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"gyle/stock"
)

// onThe serves the example on the day its store was counted.
func onThe(t *testing.T, b *testBook, day string) *client {
	t.Helper()
	at, err := time.Parse(time.DateOnly, day)
	if err != nil {
		t.Fatal(err)
	}
	return near(t, newTestServer(t, Options{Book: b, Now: func() time.Time { return at }}))
}

// Challenger 7.3 % is 7.1 % after 200 days in a freezer, Bramling Cross 6.6 %
// is 6.0 % after 365: the example, by the formula hops.AlphaNow.
func TestStockSheet(t *testing.T) {
	c := onThe(t, fullBook(t), "2026-11-14")
	want(t, c.get("/stock/garage-shed"), http.StatusOK, "7.3 %", "7.1 %", "6.0 %", "22.00 kg", "Add hops", "200 days ago")
	w := c.get("/stock/garage-shed?words=bramling")
	want(t, w, http.StatusOK, "BX-A", "other lots are left out")
	if strings.Contains(w.Body.String(), "PA-A") {
		t.Error("the search leaves all lots in")
	}
}

func TestStockSheetWarnsAndFillsIn(t *testing.T) {
	b := newTestBook()
	text := "gyle: stock/1\nname: Attic\nmalts:\n- {lot: N, malt: munich, bought: 2026-03-01}\n- {lot: O, malt: munich, bought: 2025-03-01}\nhops:\n- {lot: H, hop: cascade, alpha: 6 %, packed: 2024-09-01, kept: 20 °C, pack: open}\n"
	if _, err := b.Save(t.Context(), Draft{Kind: "stock", Slug: "attic", Text: text}); err != nil {
		t.Fatal(err)
	}
	w := onThe(t, b, "2026-11-14").get("/stock/attic")
	want(t, w, http.StatusOK, "One lot of hops lost more than a fifth", "typical", "ink-corrected")
	page := w.Body.String()
	if strings.Index(page, ">O<") > strings.Index(page, ">N<") {
		t.Error("the older lot doesn't come first")
	}
}

func TestStockJSON(t *testing.T) {
	w := onThe(t, fullBook(t), "2026-11-14").get("/stock/garage-shed.json")
	var got struct {
		Document struct {
			Counted string
			Hops    []struct{ Mass measureJSON }
		}
		Computed struct {
			Hops []struct {
				Lot      string
				AlphaNow measureJSON
				Faded    bool
			}
		}
	}
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatalf("%v\n%s", err, w.Body)
	}
	if got.Document.Counted != "2026-11-14" || got.Document.Hops[0].Mass != (measureJSON{0.4, "kg"}) || got.Computed.Hops[0].Lot != "CL-A" || got.Computed.Hops[0].Faded {
		t.Errorf("got %+v", got)
	}
}

// Each field of each kind of lot tells its fault beside it.
func TestLotFields(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	for list, test := range map[string]struct {
		at   string
		good map[string]string
	}{
		"malts":  {"malts[6]", map[string]string{"lot": "V-1", "malt": "vienna"}},
		"hops":   {"hops[2]", map[string]string{"lot": "V-1", "hop": "cascade"}},
		"yeasts": {"yeasts[1]", map[string]string{"lot": "V-1", "yeast": "english-ale"}},
	} {
		for _, g := range lotForms[list].fields(test.at) {
			for _, x := range g.Fields {
				key := strings.TrimPrefix(x.Path, test.at+".")
				bad := "much <b>"
				switch {
				case test.good[key] != "":
					bad = ""
				case key == "note" || key == "price":
					continue // any text is right
				}
				form := url.Values{"base": {"1"}, "list": {list}, "why": {"kept <i>"}}
				for k, v := range test.good {
					form.Set(test.at+"."+k, v)
				}
				form.Set(x.Path, bad)
				want(t, c.post("/stock/garage-shed/lot", form), http.StatusUnprocessableEntity, `id="`+x.ID()+`-fault"`, "kept &lt;i&gt;")
				if t.Failed() {
					t.Fatalf("%s = %q", x.Path, bad)
				}
			}
		}
	}
	for field, bad := range map[string]string{"name": "", "counted": "yesterday"} {
		form := url.Values{"base": {"1"}, "name": {"Shed"}, "note": {"kept <i>"}}
		form.Set(field, bad)
		want(t, c.post("/stock/garage-shed/edit", form), http.StatusUnprocessableEntity, `id="at-`+field+`-fault"`, "kept &lt;i&gt;")
	}
}

func TestLotsAreAddedChangedAndTakenOut(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	read := func() *stock.Stock {
		d, _ := b.Get(t.Context(), "stock", "garage-shed")
		s, err := stock.Parse("", []byte(d.Text))
		if err != nil {
			t.Fatalf("%v\n%s", err, d.Text)
		}
		return s
	}
	want(t, c.get("/stock/garage-shed/lot?list=malts"), http.StatusOK, "A new lot of malt")
	want(t, c.get("/stock/garage-shed/lot?list=malts&n=1"), http.StatusOK, "Lot of malt PA-A", "Take this lot out", `value="81.4 %"`)
	want(t, c.get("/stock/garage-shed/lot?list=spoons"), http.StatusNotFound)
	add := url.Values{"base": {"1"}, "list": {"malts"}, "malts[6].lot": {"V-1"}, "malts[6].malt": {"vienna"}, "malts[6].mass": {"3,5"}}
	want(t, c.post("/stock/garage-shed/lot", add), http.StatusSeeOther)
	if s := read(); len(s.Malts) != 7 || *s.Malts[6].Mass != 3.5 {
		t.Errorf("got %+v", s.Malts)
	}
	change := url.Values{"base": {"2"}, "list": {"hops"}, "n": {"1"}, "hops[0].lot": {"CL-A"}, "hops[0].hop": {"challenger"}, "hops[0].mass": {"350"}, "hops[0].age": {"200 d"}}
	want(t, c.post("/stock/garage-shed/lot", change), http.StatusSeeOther)
	if s := read(); *s.Hops[0].Mass != 0.35 || s.Hops[0].Alpha != nil {
		t.Errorf("got %+v", s.Hops[0])
	}
	want(t, c.post("/stock/garage-shed/lot", url.Values{"base": {"3"}, "list": {"malts"}, "n": {"1"}, "do": {"remove"}}), http.StatusSeeOther)
	if s := read(); s.Malts[0].Lot != "OF-A" {
		t.Errorf("got %+v", s.Malts[0])
	}
}
