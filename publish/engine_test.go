// SPDX-License-Identifier: MIT

package publish

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/guest"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// pairs are recipes with the houses they are brewed on.
var pairs = [][3]string{
	{"ferry-brown-1", "garage", "garage-shed"}, {"ferry-brown-2", "boathouse", "boathouse-shed"}, {"ferry-brown-3", "garage", "garage-shed"},
	{"ferry-brown-3", "boathouse", "boathouse-shed"}, {"ferry-brown-4", "garage", "garage-shed"}, {"ferry-brown-4", "boathouse", "boathouse-shed"},
}

func kitOf(t testing.TB, names [3]string) guest.Kit {
	t.Helper()
	kit, err := guest.Pack(plan.Input{Recipe: examplestest.Load(t, names[0], recipe.Parse), House: examplestest.Load(t, names[1], brewhouse.Parse),
		Stock: examplestest.Load(t, names[2], stock.Parse), Water: examplestest.Load(t, "saltpan-lane", water.Parse)}, examplestest.Load(t, "oat-brown-ale", style.Parse))
	if err != nil {
		t.Fatal(err)
	}
	return kit
}

// anyRequest draws the answers of a reader; some can't be taken or brewed.
func anyRequest(r *rand.Rand) guest.Request {
	a := map[string]string{}
	some := func(id, format string, low, high float64) {
		if r.Float64() < 0.6 {
			a[id] = fmt.Sprintf(format, low+(high-low)*r.Float64())
		}
	}
	some("size", "%.3f L", 4, 60)
	some("kettle", "%.2f L", 60, 150)
	some("mash tun", "%.2f L", 60, 150)
	some("yield", "%.2f %%", 55, 95)
	some("evaporation", "%.2f %%/h", 2, 20)
	some("grain", "%.1f °F", 35, 80)
	some("altitude", "%.0f m", 0, 3000)
	some("to 30", "%.1f min", 5, 200)
	some("cold water", "%.1f °C", 4, 25)
	some("run-off", "%.0f min", 10, 60)
	some("rest", "%.0f min", 0, 30)
	some("alpha challenger", "%.2f %%", 3, 14)
	some("color chocolate", "%.0f EBC", 700, 1300)
	some("water HCO3", "%.0f mg/L", 0, 400)
	if r.Float64() < 0.6 {
		a["cooling"] = []string{"kettle", "run-off", "pump"}[r.IntN(3)]
	}
	return guest.Request{Answers: a, US: r.Float64() < 0.3, Comma: r.Float64() < 0.3}
}

// What the page computes is what the program computes, to the last digits.
func TestEngineComputesLikeTheProgram(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("no Node on this machine: install nodejs to run the engine of pages outside a browser")
	}
	if testing.Short() {
		t.Skip("compiles the engine; left out of short runs")
	}
	if _, err := built(); err != nil {
		t.Fatal(err)
	}
	var input bytes.Buffer
	var want []string
	random := rand.New(rand.NewPCG(7, 23))
	requests := 8 // for each of the pairs
	if os.Getenv("GYLE_SOAK") != "" {
		requests = 84 // 504 in all
	}
	for _, names := range pairs {
		kit := kitOf(t, names)
		table, err := guest.Open(kit)
		if err != nil {
			t.Fatal(err)
		}
		tell(t, &input, map[string]any{"kit": kit})
		for i := range requests {
			request := anyRequest(random)
			if i == 0 {
				request = guest.Request{} // the author's own plan
			}
			tell(t, &input, map[string]any{"request": request})
			text, err := json.Marshal(request)
			if err != nil {
				t.Fatal(err)
			}
			want = append(want, table.Serve(string(text)))
		}
	}
	run := exec.Command(node, "testdata/node.js", "engine")
	run.Stdin, run.Stderr = &input, os.Stderr
	said, err := run.Output()
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Split(strings.TrimSpace(string(said)), "\n")
	if len(got) != len(want) {
		t.Fatalf("%d answers to %d requests", len(got), len(want))
	}
	planned, worded := 0, 0
	for i := range want {
		var a, b map[string]any
		if err := json.Unmarshal([]byte(got[i]), &a); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal([]byte(want[i]), &b); err != nil {
			t.Fatal(err)
		}
		if b["plan"] != nil {
			planned++
		}
		path := apart(a, b)
		switch {
		case path == "":
		case strings.HasSuffix(path, "(text)"):
			worded++ // a number on the edge of a rounding
			t.Logf("request %d: %s", i, path)
		default:
			t.Errorf("request %d: engine and program differ at %s", i, path)
		}
	}
	if worded > len(want)/100+1 {
		t.Errorf("%d of %d answers are worded differently", worded, len(want))
	}
	if planned < len(want)/2 {
		t.Errorf("only %d of %d requests could be brewed: they test too little", planned, len(want))
	}
}

func tell(t testing.TB, b *bytes.Buffer, line any) {
	t.Helper()
	text, err := json.Marshal(line)
	if err != nil {
		t.Fatal(err)
	}
	b.Write(append(text, '\n'))
}

// apart finds where two values of JSON differ: numbers by more than a
// billionth of themselves, all else at all.
func apart(a, b any) string {
	switch a := a.(type) {
	case map[string]any:
		b, ok := b.(map[string]any)
		if !ok || len(a) != len(b) {
			return " (keys)"
		}
		worst := ""
		for key := range a {
			if path := apart(a[key], b[key]); path != "" && (worst == "" || !strings.HasSuffix(path, "(text)")) {
				worst = "." + key + path
			}
		}
		return worst
	case []any:
		b, ok := b.([]any)
		if !ok || len(a) != len(b) {
			return " (length)"
		}
		for i := range a {
			if path := apart(a[i], b[i]); path != "" {
				return fmt.Sprintf("[%d]%s", i, path)
			}
		}
	case float64:
		if b, ok := b.(float64); !ok || math.Abs(a-b) > 1e-9*math.Max(math.Abs(a), math.Abs(b))+1e-12 {
			return fmt.Sprintf(": %v, %v", a, b)
		}
	case string:
		if b, ok := b.(string); !ok || a != b {
			return fmt.Sprintf(": %q, %q (text)", a, b)
		}
	default:
		if a != b {
			return fmt.Sprintf(": %v, %v", a, b)
		}
	}
	return ""
}
