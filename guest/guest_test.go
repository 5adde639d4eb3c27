// SPDX-License-Identifier: MIT

package guest

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

func table(t testing.TB, recipeName, house, shed string) *Table {
	t.Helper()
	in := plan.Input{Recipe: examplestest.Load(t, recipeName, recipe.Parse), House: examplestest.Load(t, house, brewhouse.Parse),
		Stock: examplestest.Load(t, shed, stock.Parse), Water: examplestest.Load(t, "saltpan-lane", water.Parse)}
	kit, err := Pack(in, examplestest.Load(t, "oat-brown-ale", style.Parse))
	if err != nil {
		t.Fatal(err)
	}
	table, err := Open(kit)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func figure(t *testing.T, p *plan.Plan, name quantity.Figure) float64 {
	t.Helper()
	f, ok := p.Find(name)
	if !ok {
		t.Fatalf("the plan has no %s", name)
	}
	return f.Value
}

// A guest whose brewery is the author's gets the author's plan: the questions
// leave nothing out that matters.
func TestAuthorsAnswersGiveAuthorsPlan(t *testing.T) {
	for _, c := range [][3]string{{"ferry-brown-4", "garage", "garage-shed"}, {"ferry-brown-3", "garage", "garage-shed"}, {"ferry-brown-4", "boathouse", "boathouse-shed"}} {
		table := table(t, c[0], c[1], c[2])
		s := table.setup()
		p, err := s.heat(table)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range table.plan.Figures {
			// Alpha acids that are left of an old lot are those of the author's day.
			if got := figure(t, p, f.Figure); math.Abs(got-f.Value) > 1e-6*math.Max(1, math.Abs(f.Value)) {
				t.Errorf("%v: %s is %v for the guest, %v for the author", c, f.Figure, got, f.Value)
			}
		}
		for i, l := range table.plan.Grist.Lines {
			if got := p.Grist.Lines[i].Mass; math.Abs(float64(got-l.Mass)) > 1e-9 {
				t.Errorf("%v: %s %v kg, want %v", c, l.Malt, got, l.Mass)
			}
		}
		for i, l := range table.plan.Hops.Charges {
			if got := p.Hops.Charges[i].Mass; math.Abs(float64(got-l.Mass)) > 1e-9 {
				t.Errorf("%v: %s %v kg, want %v", c, l.Hop, got, l.Mass)
			}
		}
	}
}

// strange is a reader with a 23 L brew, 14 % of evaporation an hour, weak hops,
// a darker chocolate malt, degrees Fahrenheit and gallons.
var strange = map[string]string{
	"size": "6.08 US gal", "kettle": "12 US gal", "mash tun": "12 US gal", "yield": "71 %", "evaporation": "14 %/h", "grain": "64 °F", "altitude": "900 ft",
	"cooling": "kettle", "to 30": "18 min", "cold water": "59 °F", "alpha challenger": "6.1", "color chocolate": "1060 EBC",
}

// The page's numbers are those of a plan for the house that the page writes down.
func TestStrangerGetsWhatPlanGives(t *testing.T) {
	table := table(t, "ferry-brown-4", "garage", "garage-shed")
	reply := table.Brew(Request{Answers: strange, US: true})
	if len(reply.Faults) > 0 || reply.Problem != "" {
		t.Fatalf("%v %s", reply.Faults, reply.Problem)
	}
	house, err := brewhouse.Parse("house", []byte(reply.House))
	if err != nil {
		t.Fatal(err)
	}
	shed, err := stock.Parse("stock", []byte(reply.Stock))
	if err != nil {
		t.Fatal(err)
	}
	supply, err := water.Parse("water", []byte(reply.Water))
	if err != nil {
		t.Fatal(err)
	}
	size, err := quantity.ParseVolume("6.08 US gal")
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(plan.Input{Recipe: table.recipe, House: house, Stock: shed, Water: supply, Options: plan.Options{Size: size, Reader: Request{US: true}.printer()}})
	if err != nil {
		t.Fatal(err)
	}
	var got, want any
	text, err := p.JSON()
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &want); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(reply.Plan, &got); err != nil {
		t.Fatal(err)
	}
	if path := apart(got, want, 1e-6); path != "" {
		t.Errorf("the page and the plan differ at %s", path)
	}
	if share := float64(p.Boil.PerHour) / fullMass(p); math.Abs(share-0.14) > 1e-6 {
		t.Errorf("%v of the full kettle boils off in an hour, want 0.14", share)
	}
	if row := strings.Join(reply.Sheet.Grist[0], " "); !strings.Contains(row, "lb") {
		t.Errorf("the grist is not in pounds: %s", row)
	}
}

// apart finds where two values of JSON differ by more than a share.
func apart(a, b any, share float64) string {
	switch a := a.(type) {
	case map[string]any:
		b, ok := b.(map[string]any)
		if !ok || len(a) != len(b) {
			return " (keys)"
		}
		for key := range a {
			if path := apart(a[key], b[key], share); path != "" {
				return "." + key + path
			}
		}
	case []any:
		b, ok := b.([]any)
		if !ok || len(a) != len(b) {
			return " (length)"
		}
		for i := range a {
			if path := apart(a[i], b[i], share); path != "" {
				return path
			}
		}
	case float64:
		if b, ok := b.(float64); !ok || math.Abs(a-b) > share*math.Max(1, math.Abs(b)) {
			return " (number)"
		}
	default:
		if a != b {
			return " (value)"
		}
	}
	return ""
}

func TestFaultsStandBesideTheirQuestions(t *testing.T) {
	table := table(t, "ferry-brown-4", "garage", "garage-shed")
	reply := table.Brew(Request{Answers: map[string]string{"size": "5 gal", "yield": "700 %", "evaporation": "much", "cooling": "fridge", "color chocolate": "", "cold water": "hot", "nothing": "1"}})
	seen := map[string]string{}
	for _, f := range reply.Faults {
		seen[f.ID] = f.Msg + " / " + f.Hint
	}
	for _, id := range []string{"size", "yield", "evaporation", "cooling", "color chocolate", "cold water", "nothing"} {
		if seen[id] == "" {
			t.Errorf("no fault beside %q: %v", id, seen)
		}
	}
	if !strings.Contains(seen["size"], "US 18.93 L or imperial 22.73 L") {
		t.Errorf("5 gal is answered by %q", seen["size"])
	}
	if reply.Sheet != nil || reply.Plan != nil {
		t.Error("a plan was made in spite of faults")
	}
	if reply := table.Brew(Request{Answers: map[string]string{"kettle": "10 L"}}); reply.Problem == "" || reply.Sheet != nil {
		t.Errorf("20 L in a kettle of 10 L: %+v", reply)
	}
	if reply := table.Brew(Request{Answers: map[string]string{"cold water": "29.5 °C"}}); len(reply.Faults) != 1 {
		t.Errorf("cooling with water of 29.5 °C: %+v", reply.Faults)
	}
}

func TestBareNumbersTakeTheUnitAsked(t *testing.T) {
	table := table(t, "ferry-brown-4", "garage", "garage-shed")
	a := table.Brew(Request{Answers: map[string]string{"size": "23", "yield": "70", "grain": "12,5", "evaporation": "12"}})
	b := table.Brew(Request{Answers: map[string]string{"size": "23 L", "yield": "70 %", "grain": "12.5 °C", "evaporation": "12 %/h"}})
	if len(a.Faults)+len(b.Faults) > 0 || string(a.Plan) != string(b.Plan) {
		t.Errorf("bare numbers: %v %v", a.Faults, b.Faults)
	}
}

func TestServe(t *testing.T) {
	table := table(t, "ferry-brown-4", "garage", "garage-shed")
	var reply Reply
	if err := json.Unmarshal([]byte(table.Serve(`{"questions": true, "us": true, "comma": true}`)), &reply); err != nil {
		t.Fatal(err)
	}
	if len(reply.Questions) < 20 || reply.Sheet == nil || !strings.Contains(reply.Sheet.Liquor[0][1], ",") {
		t.Errorf("%d questions, sheet %+v", len(reply.Questions), reply.Sheet)
	}
	for _, bad := range []string{"", "[]", `{"answers": 3}`, "{"} {
		if err := json.Unmarshal([]byte(table.Serve(bad)), &reply); err != nil || reply.Problem == "" {
			t.Errorf("Serve(%q): %+v, %v", bad, reply, err)
		}
	}
}

func FuzzAnswer(f *testing.F) {
	for id, text := range strange {
		f.Add(id, text)
	}
	f.Add("size", "1e308 L")
	f.Add("evaporation", "49.9 %/h")
	table := table(f, "ferry-brown-4", "garage", "garage-shed")
	f.Fuzz(func(t *testing.T, id, text string) {
		reply := table.Brew(Request{Answers: map[string]string{id: text}})
		if (reply.Sheet == nil) == (len(reply.Faults) == 0 && reply.Problem == "") {
			t.Errorf("%q = %q: neither a plan nor a reason: %+v", id, text, reply)
		}
	})
}

func TestFromPage(t *testing.T) {
	kit := Kit{Recipe: "gyle: recipe/1\nname: </script>\n", Style: "gyle: style/1\n"}
	text, err := json.Marshal(kit)
	if err != nil {
		t.Fatal(err)
	}
	page := "<!doctype html><p>Ferry Brown" + string(kitMark) + string(text) + string(kitEnd) + "more"
	got, ok, err := FromPage([]byte(page))
	if err != nil || !ok || got.Document("recipe") != kit.Recipe || got.Document("style") != kit.Style || got.Document("water") != "" {
		t.Errorf("%+v, %v, %v", got, ok, err)
	}
	if _, ok, _ := FromPage([]byte("gyle: recipe/1")); ok {
		t.Error("a recipe is taken for a page")
	}
	for _, broken := range []string{page[:len(page)-20], strings.Replace(page, `{"recipe"`, `{recipe`, 1)} {
		if _, ok, err := FromPage([]byte(broken)); !ok || err == nil {
			t.Errorf("a broken page: %v, %v", ok, err)
		}
	}
}
