// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"gyle/brewhouse"
	"gyle/examples"
	"gyle/gyle"
	"gyle/internal/store"
	"gyle/internal/store/storetest"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/tasting"
	"gyle/water"
)

// bigSize is one brewer's decades: bigBeers beers of twenty versions, each
// written twice.
var bigSize = storetest.Size{Recipes: 5000, Versions: 10_000, Others: 50, Gyles: 2000, Tastings: 500, Events: 1_000_000}

const (
	bigBeers = 250
	bigSeed  = 1
)

// bigBook returns the path of a book of that size with documents that can be
// read and planned. It takes minutes to write and is kept in the folder for
// passing files until something that it is made by changes.
func bigBook(t testing.TB) string {
	t.Helper()
	folder := filepath.Join(os.TempDir(), "gyle-bench")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, fmt.Sprintf("decades-%d-%s.gylebook", bigSeed, bigBookMark(t)))
	if _, err := os.Stat(path); err == nil {
		return path
	}
	old, _ := filepath.Glob(filepath.Join(folder, "decades-*"))
	for _, file := range old {
		os.Remove(file)
	}
	started := time.Now()
	if err := writeBigBook(path+".part", bigSize); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(path+".part", path); err != nil {
		t.Fatal(err)
	}
	t.Logf("wrote %s in %.0f s", path, time.Since(started).Seconds())
	return path
}

// bigBookMark names what the book is made by: the tables of the store, the
// filler and the writer of texts.
func bigBookMark(t testing.TB) string {
	t.Helper()
	files, err := filepath.Glob("../../internal/store/migrations/*")
	if err != nil {
		t.Fatal(err)
	}
	sum := sha256.New()
	for _, file := range append(files, "../../internal/store/storetest/fill.go", "bigbook_test.go") {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		sum.Write(text)
	}
	return hex.EncodeToString(sum.Sum(nil)[:4])
}

func writeBigBook(path string, size storetest.Size) (err error) {
	now := time.Date(1996, 3, 1, 8, 0, 0, 0, time.UTC)
	book, err := store.Open(path, store.Options{Create: true, Check: checkBig, Now: func() time.Time { now = now.Add(time.Minute); return now }})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	ctx := context.Background()
	if err := storetest.Fill(ctx, book, size, bigSeed, storetest.Writer{Text: bigText, Event: bigEvents(size).write}); err != nil {
		return err
	}
	for key, kind := range map[string]string{"recipe.house": brewhouse.Kind, "recipe.stock": stock.Kind, "recipe.water": water.Kind} {
		if err := book.SetSetting(ctx, key, storetest.Slug(kind, 0)); err != nil {
			return err
		}
	}
	return nil
}

// checkBig reads the documents that gyle reads; the others are words.
func checkBig(kind string, text []byte) (title string, refs []store.Ref, err error) {
	if _, known := kinds[kind]; known {
		return checkDocument(kind, text)
	}
	return storetest.CheckWords(kind, text)
}

// bigText writes a document. The numbers lie where such beers, kettles and
// waters lie; they are drawn by lot and nobody has brewed them.
func bigText(random *rand.Rand, kind, slug string, revision int, links []store.Ref) string {
	var number int
	fmt.Sscanf(slug, kind+"-%d", &number)
	switch kind {
	case recipe.Kind:
		return bigRecipe(number, revision)
	case style.Kind:
		return bigStyle(number)
	case brewhouse.Kind:
		return bigHouse(number)
	case stock.Kind:
		return bigStock(random, number)
	case water.Kind:
		return bigWater(random, number)
	case gyle.Kind:
		return bigGyle(number, links)
	case tasting.Kind:
		return bigExample("tasting-1-2", "name: Ferry Brown,", "name: "+bigName(number%bigBeers)+",")
	}
	return storetest.Words.Text(random, kind, slug, revision, links)
}

var (
	bigFirst  = strings.Fields("Amber Barley Cellar Drovers Evening Fallow Granite Harbour Ivy Juniper Kestrel Lantern Meadow Nettle Orchard Pebble Quarry Rushes Saddle Thistle Umber Valley Weather Yeoman Zephyr")
	bigSecond = strings.Fields("Brown Mild Porter Bitter Stock Amber Table Harvest Winter Dinner")
)

func bigName(beer int) string {
	return bigFirst[beer%len(bigFirst)] + " " + bigSecond[beer/len(bigFirst)%len(bigSecond)]
}

// bigGrain is a grain that stands beside the base malt.
type bigGrain struct {
	malt  string
	most  float64 // percent
	color int     // EBC
	why   string
}

var bigGrains = []bigGrain{
	{"oats-flaked", 14, 3, "silk"}, {"munich", 12, 17, "bread crust"}, {"crystal", 8, 150, "toffee"}, {"brown", 5, 140, "dry nut"},
	{"amber-malt", 6, 60, "biscuit"}, {"wheat-malt-pale", 8, 4, "a head that stands"}, {"vienna-malt", 12, 8, "a rounder malt"},
	{"chocolate", 4, 900, "colour and cocoa"},
}

var bigHops = []string{"challenger", "northdown", "bramling-cross", "fuggle", "cascade", "target"}

// bigRecipe writes a version of a beer. Versions of one beer share its hops and
// most of its grist, as those of a brewer do who changes little at a time.
func bigRecipe(number, revision int) string {
	beer, version := number%bigBeers, number/bigBeers+1
	taste, step := rand.New(rand.NewPCG(bigSeed, uint64(beer))), rand.New(rand.NewPCG(uint64(number), uint64(revision)))
	grains := slices.Clone(bigGrains)
	taste.Shuffle(len(grains)-1, func(i, j int) { grains[i], grains[j] = grains[j], grains[i] })
	grains = grains[len(grains)-4-taste.IntN(3):]
	og := 1.040 + 0.014*taste.Float64() + 0.002*step.Float64()
	ibu := 22 + 14*taste.Float64() + step.Float64()
	first, late := bigHops[taste.IntN(len(bigHops))], bigHops[taste.IntN(len(bigHops))]

	var text strings.Builder
	line := func(form string, values ...any) { fmt.Fprintf(&text, form+"\n", values...) }
	line("gyle: recipe/1\nname: %s\nversion: %d", bigName(beer), version)
	if version > 1 {
		line("parent: %d\nchange: {what: a little less of the %s, why: it stood in front, expect: a rounder beer}", version-1, grains[step.IntN(len(grains))].malt)
	}
	line("by: A. Quillmark\nstyle: %s\nsize: 20 L", storetest.Slug(style.Kind, beer%bigSize.Others))
	line("aims: {og: %.4f, fg: %.4f, ibu: %.1f, color: %d EBC, co2: 2.2 vol}", og, 1+(og-1)*0.26, ibu, 28+taste.IntN(14))
	line("grist:")
	rest := 10000
	var lines []string
	for _, g := range grains {
		share := int(100 * g.most * (0.4 + 0.4*taste.Float64() + 0.2*step.Float64()))
		rest -= share
		lines = append(lines, fmt.Sprintf("- {malt: %s, share: %d.%02d %%, color: %d EBC, why: %s}", g.malt, share/100, share%100, g.color, g.why))
	}
	line("- {malt: pale-ale, share: %d.%02d %%, role: base, why: enzymes and the biscuit base}\n%s", rest/100, rest%100, strings.Join(lines, "\n"))
	line("mash: {ratio: 3.3 L/kg, ph: 5.45, rests: [%d °C for 60 min]}\nboil: 60 min\nhops:", 65+taste.IntN(4))
	line("- {hop: %s, bitterness: %.1f IBU, at: boil 60 min, why: firm and quiet}", first, ibu-2)
	line("- {hop: %s, dose: %.2f g/L, at: boil 10 min, why: a hint of hedge}", late, 0.5+taste.Float64())
	if taste.IntN(2) == 0 {
		line("- {hop: %s, dose: %.2f g/L, at: stand 80 °C 20 min, why: the smell of the pocket}", late, 0.5+taste.Float64())
	}
	line("water: {Ca: %d mg/L, Cl: %d mg/L, SO4: %d mg/L, salts: [calcium-chloride, gypsum], acid: lactic-88}", 90+taste.IntN(30), 90+taste.IntN(30), 50+taste.IntN(30))
	line("yeast: {kind: english-ale, attenuation: 69..76 %%, temperature: 18..20 °C, pitch: 0.75 M/mL/°P}\npackage: {in: bottles, sugar: sucrose}")
	line("note: Written in version %d for the %s. Looked at again %d times.", version, []string{"summer fair", "winter table", "harvest supper"}[step.IntN(3)], revision)
	return text.String()
}

// bigExample is a document of the examples with some words exchanged: old, new,
// old, new and so on.
func bigExample(name string, words ...string) string {
	text, err := fs.ReadFile(examples.Documents(), name+".yaml")
	if err != nil {
		panic(err)
	}
	return strings.NewReplacer(words...).Replace(string(text))
}

func bigStyle(number int) string {
	shift := float64(number%10) / 1000
	return bigExample("oat-brown-ale", "name: Oat brown ale", fmt.Sprintf("name: %s ale %d", bigFirst[number%len(bigFirst)], number),
		"1.046..1.054", fmt.Sprintf("%.3f..%.3f", 1.040+shift, 1.050+shift), "24..34 IBU", fmt.Sprintf("%d..%d IBU", 22+number%7, 32+number%9))
}

func bigHouse(number int) string {
	if number%2 == 1 {
		return bigExample("boathouse", "name: Boathouse", fmt.Sprintf("name: Boathouse %d", number), "yield: 78", fmt.Sprintf("yield: %d", 70+number%12))
	}
	return bigExample("garage", "name: Garage", fmt.Sprintf("name: Garage %d", number), "yield: 76", fmt.Sprintf("yield: %d", 72+number%8))
}

func bigStock(random *rand.Rand, number int) string {
	var text strings.Builder
	fmt.Fprintf(&text, "gyle: stock/1\nname: Shed %d\ncounted: 2026-11-14\nmalts:\n", number)
	malt := func(name string, color int, extract float64) {
		fmt.Fprintf(&text, "- {lot: M-%s, malt: %s, mass: %d kg, extract: %.1f %%, moisture: %.1f %%, color: %d EBC, bought: 2026-09-05}\n",
			name, name, 30+random.IntN(60), extract+2*random.Float64(), 3+2*random.Float64(), color)
	}
	malt("pale-ale", 6, 80)
	for _, g := range bigGrains {
		malt(g.malt, g.color, 73)
	}
	text.WriteString("hops:\n")
	for _, hop := range bigHops {
		fmt.Fprintf(&text, "- {lot: H-%s, hop: %s, mass: %d g, form: pellets, alpha: %.1f %%, age: %d d, kept: -18 °C, pack: foil, six-month loss: 30 %%}\n",
			hop, hop, 300+random.IntN(600), 5+4*random.Float64(), 30+random.IntN(300))
	}
	text.WriteString("yeasts:\n- {lot: Y-1, yeast: english-ale, form: dry, mass: 44 g, cells: 10, packed: 2026-06-01}\n")
	return text.String()
}

func bigWater(random *rand.Rand, number int) string {
	return bigExample("saltpan-lane", "name: Saltpan Lane supply", fmt.Sprintf("name: Supply %d", number),
		"Ca: 64", fmt.Sprintf("Ca: %d", 60+random.IntN(8)), "Na: 21", fmt.Sprintf("Na: %d", 18+random.IntN(6)))
}

// bigGyle is a gyle with its plan; its log lies in the entries of the book.
func bigGyle(number int, links []store.Ref) string {
	at := map[string]string{}
	for _, link := range links {
		at[link.Kind] = link.Slug
	}
	head, _, _ := strings.Cut(bigExample("gyle-17", "name: Ferry Brown 3", "name: "+bigName(number%bigBeers), "number: 17", fmt.Sprintf("number: %d", number+1),
		"id: ferry-brown-3, version: 3", "id: "+at[recipe.Kind]+", version: 1", "house: garage", "house: "+at[brewhouse.Kind], "stock: garage-shed", "stock: "+at[stock.Kind],
		"water: saltpan-lane", "water: "+at[water.Kind], "style: oat-brown-ale\n", "", "2026-03-07", bigDay(number, 0), "2026-03-06", bigDay(number, -1), "2026-03-19", bigDay(number, 12)), "\nlog:")
	return head + "\n"
}

// bigDay is a day of a gyle's life, counted from its brewing.
func bigDay(number, day int) string {
	return time.Date(2009, 1, 3, 0, 0, 0, 0, time.UTC).AddDate(0, 0, 3*number+day).Format(time.DateOnly)
}

// bigLog writes the logs: a brew day and a fermentation as the example has them,
// and a thermometer that is read every half hour for the rest of the log.
type bigLog struct {
	entries []gyle.Entry
	texts   []string // of each
	days    int      // over which the log goes
}

func bigEvents(size storetest.Size) *bigLog {
	g, err := gyle.Parse("gyle-17.yaml", []byte(bigExample("gyle-17")))
	if err != nil {
		panic(err)
	}
	l := &bigLog{entries: g.Log}
	for n := len(g.Log); n <= size.Events/size.Gyles; n++ {
		l.entries = append(l.entries, gyle.Entry{
			ID: gyle.ID(fmt.Sprintf("t%04d", n)), Who: "AQ", Time: gyle.At(g.Log[0].Time.Time.Add(time.Duration(n) * 30 * time.Minute)),
			Reading: &gyle.Reading{Of: gyle.OfTemperature, Value: fmt.Sprintf("19.%d", n%10), With: "probe", At: gyle.AtFermenter},
		})
	}
	for _, e := range l.entries {
		text, err := e.Text()
		if err != nil {
			panic(err)
		}
		l.texts = append(l.texts, string(text))
		l.days = max(l.days, 1+int(e.Time.Sub(g.Log[0].Time.Time).Hours()/24)+1)
	}
	return l
}

// write gives an entry to a gyle, on a day of its own life.
func (l *bigLog) write(_ *rand.Rand, slug string, seq int) store.Event {
	var number int
	fmt.Sscanf(slug, gyle.Kind+"-%d", &number)
	e, text := l.entries[seq-1], l.texts[seq-1]
	first := l.entries[0].Time.Time
	for day := range l.days {
		text = strings.ReplaceAll(text, first.AddDate(0, 0, day).Format("2006-01-02T"), bigDay(number, day)+"T")
	}
	body, err := json.Marshal(map[string]string{"entry": text})
	if err != nil {
		panic(err)
	}
	brewed, err := time.Parse(time.DateOnly, bigDay(number, 0))
	if err != nil {
		panic(err)
	}
	at := e.Time.Time.Add(brewed.Sub(first.UTC().Truncate(24 * time.Hour)))
	return store.Event{At: at, Kind: e.Sort(), Author: e.Who, Token: string(e.ID), Body: body}
}

// The documents of the big book are sound, and each beer can be planned.
func TestBigBookIsSound(t *testing.T) {
	if testing.Short() {
		t.Skip("writes a book")
	}
	size := storetest.Evening
	path := filepath.Join(t.TempDir(), "evening.gylebook")
	if err := writeBigBook(path, size); err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(bigSeed, 0))
	shed, err := stock.Parse("shed", []byte(bigStock(random, 0)))
	if err != nil {
		t.Fatal(err)
	}
	supply, err := water.Parse("supply", []byte(bigWater(random, 0)))
	if err != nil {
		t.Fatal(err)
	}
	house, err := brewhouse.Parse("house", []byte(bigHouse(0)))
	if err != nil {
		t.Fatal(err)
	}
	for number := range bigBeers {
		beer, err := recipe.Parse("beer", []byte(bigRecipe(number, 1)))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := plan.Make(plan.Input{Recipe: beer, House: house, Stock: shed, Water: supply}); err != nil {
			t.Fatalf("plan beer %d: %v", number, err)
		}
	}
}
