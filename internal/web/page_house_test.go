// SPDX-License-Identifier: MIT

package web

import (
	"encoding/json"
	"math"
	"net/http"
	"net/url"
	"testing"

	"gyle/brewhouse"
	"gyle/internal/document"
)

// The figures are those worked out by hand for the two houses of the example:
// 2.63 kg/h or 10.2 %/h and 23.5 min from 72 °C in the garage, 3.03 kg/h or
// 3.0 %/h in the boathouse.
func TestHouseBoil(t *testing.T) {
	b := fullBook(t)
	for _, test := range []struct {
		slug                       string
		perHour, share, heatUp     float64
		tolerance, shareTol, upTol float64
	}{
		{"garage", 2.63, 10.2, 23.5, 0.01, 0.1, 0.5},
		{"boathouse", 3.03, 3.0, math.NaN(), 0.01, 0.1, 0},
	} {
		d, _ := b.Get(t.Context(), "brewhouse", test.slug)
		h, err := brewhouse.Parse(test.slug, []byte(d.Text))
		if err != nil {
			t.Fatal(err)
		}
		got := boilOf(h)
		if math.Abs(float64(got.PerHour)-test.perHour) > test.tolerance || math.Abs(got.Share.Percent()-test.share) > test.shareTol {
			t.Errorf("%s evaporates %.3f kg/h, %.2f %%/h", test.slug, float64(got.PerHour), got.Share.Percent())
		}
		if math.Abs(got.HeatUp.Minutes()-test.heatUp) > test.upTol {
			t.Errorf("%s heats up in %.1f min", test.slug, got.HeatUp.Minutes())
		}
	}
}

func TestHouseSheet(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get("/brewhouse/boathouse"), http.StatusOK, "no lab value yet", "1.00 ± 0.25", "A weak boil", "carbon monoxide", "licensed fitter", "settle and run off", "cooling-curve", "78 ± 2 %")
	want(t, c.get("/brewhouse/garage"), http.StatusOK, "0.94 ± 0.08", "measured over predicted", "residual-current", "licensed electrician")
	var got struct {
		Computed struct {
			Boil struct {
				EvaporationPerHour measureJSON
				BoilsAt            measureJSON
			}
			Cooling []struct {
				Name    string
				ToStand *measureJSON
			}
			HouseFactor struct{ Value, SD float64 }
		}
	}
	w := c.get("/brewhouse/boathouse.json")
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatalf("%v\n%s", err, w.Body)
	}
	// 21 min · ln((100 − 12)/(80 − 12)) = 5.4 min: from the time constant of the example.
	if len(got.Computed.Cooling) != 2 || math.Abs(got.Computed.Cooling[0].ToStand.Value-5.41) > 0.01 || got.Computed.Cooling[1].ToStand != nil {
		t.Errorf("got %+v", got.Computed)
	}
	if got.Computed.Boil.EvaporationPerHour.Unit != "kg" || got.Computed.HouseFactor.SD != 0.25 {
		t.Errorf("got %+v", got.Computed)
	}
}

// Every field that can be wrong tells so beside it, and nothing is lost.
func TestHouseFields(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	d, _ := b.Get(t.Context(), "brewhouse", "boathouse")
	good := func() url.Values {
		draft, err := document.OpenDraft([]byte(d.Text))
		if err != nil {
			t.Fatal(err)
		}
		form := houseForm(d, 1, draft.Len("cooling"))
		form.fill(draft)
		values := url.Values{"base": {"1"}}
		form.each(func(x *formField) { values.Set(x.Path, x.Value) })
		values.Set("note", "kept <i>")
		return values
	}
	form := houseForm(d, 1, 2)
	form.each(func(x *formField) {
		if x.Path == "by" || x.Path == "note" || x.Path == "bitterness.form" || x.Path[:min(10, len(x.Path))] == "cooling[2]" {
			return // any text is right, or the row is empty
		}
		bad := "much <b>"
		if x.Path == "name" || x.Path == "cooling[0].name" || x.Path == "cooling[1].name" {
			bad = ""
		}
		values := good()
		values.Set(x.Path, bad)
		want(t, c.post("/brewhouse/boathouse/edit", values), http.StatusUnprocessableEntity, `id="`+x.ID()+`-fault"`, "kept &lt;i&gt;")
		if t.Failed() {
			t.Fatalf("%s = %q", x.Path, bad)
		}
	})
	values := good()
	values.Set("kettle.power", "12")
	values.Del("cooling[0].name")
	for _, key := range coolingKeys {
		values.Del("cooling[0]." + key)
	}
	want(t, c.post("/brewhouse/boathouse/edit", values), http.StatusSeeOther)
	d, _ = b.Get(t.Context(), "brewhouse", "boathouse")
	if h, err := brewhouse.Parse("", []byte(d.Text)); err != nil || h.Kettle.Power != 12 || len(h.Cooling) != 1 || h.Cooling[0].Name != "settle and run off" {
		t.Errorf("%v\n%s", err, d.Text)
	}
	want(t, c.post("/brewhouse/boathouse/edit", values), http.StatusConflict)
}
