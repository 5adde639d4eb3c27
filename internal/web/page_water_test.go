// SPDX-License-Identifier: MIT

package web

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"gyle/water"
)

// printedBook is the book of the example with its water read as printed.
func printedBook(t *testing.T) *testBook {
	t.Helper()
	b := fullBook(t)
	d, err := b.Get(t.Context(), "water", "saltpan-lane")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(d.Text, "meant: [HCO3 as CaCO3, SO4 as S, NO3 as N]\n", "", 1)
	if text == d.Text {
		t.Fatal("the example says otherwise how its numbers are meant")
	}
	if _, err := b.Save(t.Context(), Draft{Kind: "water", Slug: d.Slug, Text: text, Base: d.Revision}); err != nil {
		t.Fatal(err)
	}
	return b
}

// The figures are those of examples/saltpan-lane.yaml: +16.1 % as printed, and
// +1.2 % with the three labels undone (computed from the equivalents in
// science/water).
func TestWaterSheet(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: printedBook(t)}))
	want(t, c.get("/water/saltpan-lane"), http.StatusOK, "What would close the gap", "Read HCO3 as CaCO3, SO4 as S, NO3 as N", "+16.1 %", "+1.2 %", "likeliest", "the tops don")
	c = near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get("/water/saltpan-lane"), http.StatusOK, "the tops meet", "2.76 mEq/L</span>, 138 mg/L as CaCO3", "1.74 mEq/L", "sulfate <span class=\"fig\">42 mg/L</span>", "Read it as printed again")
}

func TestWaterMeant(t *testing.T) {
	b := printedBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	accept := url.Values{"base": {"2"}, "labels": {"HCO3 as CaCO3, SO4 as S, NO3 as N"}}
	want(t, c.post("/water/saltpan-lane/meant", accept), http.StatusSeeOther)
	d, _ := b.Get(t.Context(), "water", "saltpan-lane")
	read, err := water.Parse("", []byte(d.Text))
	if err != nil || len(read.Meant) != 3 || *read.Printed.HCO3 != 138 || d.Revision != 3 {
		t.Fatalf("%v, revision %d:\n%s", err, d.Revision, d.Text)
	}
	want(t, c.get("/water/saltpan-lane?done=read"), http.StatusOK, "the tops meet", "printed numbers stand")
	want(t, c.post("/water/saltpan-lane/meant", url.Values{"base": {"3"}}), http.StatusSeeOther)
	want(t, c.get("/water/saltpan-lane"), http.StatusOK, "What would close the gap")
	want(t, c.post("/water/saltpan-lane/meant", accept), http.StatusUnprocessableEntity, "in the meantime")
	want(t, c.post("/water/saltpan-lane/meant", url.Values{"base": {"4"}, "labels": {"Cl as salt"}}), http.StatusBadRequest)
}

func TestWaterFields(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	want(t, c.get("/water/saltpan-lane/edit"), http.StatusOK, `value="64 mg/L"`, `<option value="HCO3 as CaCO3" selected>`)
	good := func() url.Values {
		return url.Values{"base": {"1"}, "name": {"Well"}, "note": {"kept <i>"}, "printed.Ca": {"80"}, "printed.HCO3": {"200"}, "as.HCO3": {"HCO3 as CaCO3"}}
	}
	for field, bad := range map[string]string{
		"name": "", "pH": "20", "endpoint": "x", "alkalinity": "12", "printed.Ca": "many", "printed.Mg": "-1", "printed.Na": "1 kg", "printed.K": "x",
		"printed.HCO3": "x", "printed.CO3": "x", "printed.Cl": "x", "printed.SO4": "x", "printed.NO3": "x",
	} {
		form := good()
		form.Set(field, bad)
		want(t, c.post("/water/saltpan-lane/edit", form), http.StatusUnprocessableEntity, `id="`+formField{Path: field}.ID()+`-fault"`, "kept &lt;i&gt;")
		if t.Failed() {
			t.Fatalf("%s = %q", field, bad)
		}
	}
	empty := good()
	empty.Set("printed.Ca", "")
	empty.Set("printed.HCO3", "")
	want(t, c.post("/water/saltpan-lane/edit", empty), http.StatusUnprocessableEntity, `id="at-printed-Ca-fault"`)
	want(t, c.post("/water/saltpan-lane/edit", good()), http.StatusSeeOther)
	d, _ := b.Get(t.Context(), "water", "saltpan-lane")
	if read, err := water.Parse("", []byte(d.Text)); err != nil || *read.Printed.Ca != 80 || read.Printed.Cl != nil || len(read.Meant) != 1 {
		t.Errorf("%v\n%s", err, d.Text)
	}
	want(t, c.post("/water/saltpan-lane/edit", good()), http.StatusConflict)
}

func TestWaterNotes(t *testing.T) {
	b := newTestBook()
	text := "gyle: water/1\nname: Salty\npH: 5\nprinted: {Ca: 20 mg/L, Na: 300 mg/L, Cl: 400 mg/L}\n"
	if _, err := b.Save(t.Context(), Draft{Kind: "water", Slug: "salty", Text: text}); err != nil {
		t.Fatal(err)
	}
	c := near(t, newTestServer(t, Options{Book: b}))
	// 200 mg/L of sodium: EU directive 98/83, as in science/water.
	want(t, c.get("/water/salty"), http.StatusOK, "Na 300 mg/L is above the drinking-water value of 200 (EU)", "Ca 20 mg/L is below the customary 50", "pH 5 is below")
}

func TestWaterJSON(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: printedBook(t)}))
	var got struct {
		Document struct{ Printed map[string]measureJSON }
		Computed struct {
			BalanceAsPrinted struct{ Difference measureJSON }
			Mislabels        []struct{ Labels string }
		}
	}
	w := c.get("/water/saltpan-lane.json")
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatalf("%v\n%s", err, w.Body)
	}
	if got.Document.Printed["Ca"] != (measureJSON{64, "mg/L"}) || int(10*got.Computed.BalanceAsPrinted.Difference.Value) != 160 && int(10*got.Computed.BalanceAsPrinted.Difference.Value) != 161 {
		t.Errorf("got %+v", got)
	}
	if len(got.Computed.Mislabels) == 0 || got.Computed.Mislabels[0].Labels != "HCO3 as CaCO3, SO4 as S, NO3 as N" {
		t.Errorf("got %+v", got.Computed.Mislabels)
	}
}

// The likeliest reading is accepted by one press of a button.
func TestBrowserWaterMislabels(t *testing.T) {
	ctx := browser(t)
	b := printedBook(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: b}))
	defer server.Close()
	for _, width := range []int64{360, 1440} {
		look(t, ctx, server.URL+"/water/saltpan-lane", "water-gap", width)
	}
	if err := chromedp.Do(ctx, chromedp.Click(".readings button.first")); err != nil {
		t.Fatal(err)
	}
	arrive(t, ctx, "/water/saltpan-lane?done=read")
	if d, _ := b.Get(t.Context(), "water", "saltpan-lane"); !strings.Contains(d.Text, "meant: [HCO3 as CaCO3, SO4 as S, NO3 as N]") {
		t.Error(d.Text)
	}
}
