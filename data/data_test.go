// SPDX-License-Identifier: MIT

package data

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"
)

var kebabCase = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// The counts are those of the table in README.md; a section that is cut short
// must not go unnoticed.
func TestShelvesAreComplete(t *testing.T) {
	checkShelf(t, malts, 94)
	checkShelf(t, hops, 110)
	checkShelf(t, yeasts, 42)
	checkShelf(t, sugars, 25)
	checkShelf(t, acids, 13)
	checkShelf(t, aids, 19)
	checkShelf(t, nutrients, 11)
	checkShelf(t, salts, 13)
	checkShelf(t, waterProfiles, 22)
	checkShelf(t, historicWaters, 19)
	checkShelf(t, styles, 128)
	checkShelf(t, terms, 122)
	checkShelf(t, notes, 25)
}

func checkShelf[T any](t *testing.T, s *shelf[T], want int) {
	t.Helper()
	t.Run(s.file+" "+s.section, func(t *testing.T) {
		ids := s.sortedIDs()
		if len(ids) != want {
			t.Errorf("found %d records, want %d", len(ids), want)
		}
		for i, id := range ids {
			if !kebabCase.MatchString(id) {
				t.Errorf("id %q is not kebab-case", id)
			}
			if i > 0 && ids[i-1] == id {
				t.Errorf("id %q stands twice", id)
			}
			checkRecord(t, s, id)
		}
	})
}

func checkRecord[T any](t *testing.T, s *shelf[T], id string) {
	t.Helper()
	if _, err := strictRecord[T](s.texts[id]); err != nil {
		t.Errorf("%s: %v", id, err)
		return
	}
	record, ok := s.get(id)
	if !ok {
		t.Fatalf("%s: listed, but not found", id)
	}
	value := reflect.ValueOf(record)
	if got := value.FieldByName("ID").String(); got != id {
		t.Errorf("%s: the record says its id is %q", id, got)
	}
	if value.FieldByName("Name").String() == "" {
		t.Errorf("%s: has no name", id)
	}
	if origin, ok := value.FieldByName("Origin").Interface().(Origin); ok && (origin.Basis == "" || origin.Verification == "") {
		t.Errorf("%s: has no basis or no verification", id)
	}
	for _, found := range ranges(id, value) {
		if found.Range.Low() > found.Range.High() {
			t.Errorf("%s: %v is upside down", found.path, found.Range)
		}
	}
}

// strictRecord parses a record and refuses keys that the type doesn't have.
func strictRecord[T any](text string) (records []T, err error) {
	decoder := yaml.NewDecoder(strings.NewReader(strings.Replace(text, "- ", "  - ", 1)))
	decoder.KnownFields(true)
	err = decoder.Decode(&records)
	return records, err
}

type foundRange struct {
	path  string
	Range Range
}

// ranges returns all ranges inside a record, with the names of their fields.
func ranges(path string, v reflect.Value) (found []foundRange) {
	if r, ok := v.Interface().(Range); ok {
		return []foundRange{{path, r}}
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return ranges(path, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			found = append(found, ranges(path+"."+v.Type().Field(i).Name, v.Field(i))...)
		}
	case reflect.Map:
		for _, key := range v.MapKeys() {
			found = append(found, ranges(path+"."+key.String(), v.MapIndex(key))...)
		}
	}
	return found
}

// The limits are set wide, to catch slips of the pen: a decimal point lost, two
// columns exchanged. They are no statement about malt.
func TestMaltsArePlausible(t *testing.T) {
	for _, id := range MaltIDs() {
		malt, _ := Malt(id)
		within(t, id+" colour", malt.ColourEBC, 0, 10000)
		within(t, id+" extract", malt.ExtractDryBasis, 0, 105) // starch gains water on hydrolysis
		within(t, id+" moisture", malt.Moisture, 0, 60)        // extracts are syrups
		within(t, id+" diastatic power", malt.DiastaticWK, 0, 700)
		within(t, id+" maximum share", Range{malt.MaxShare, malt.MaxShare}, 1, 100)
		withinIfKnown(t, id+" mash pH", malt.DistilledMashPH, 3, 7)
		withinIfKnown(t, id+" buffer", malt.Buffer, 5, 250)
		withinIfKnown(t, id+" acidity", malt.AcidityTo57, 0, 600)
		withinIfKnown(t, id+" protein", malt.Protein, 0, 30)
		withinIfKnown(t, id+" gelatinisation", malt.Gelatinisation, 45, 95)
	}
}

func TestHopsArePlausible(t *testing.T) {
	for _, id := range HopIDs() {
		hop, _ := Hop(id)
		within(t, id+" alpha", hop.Alpha.Range, 1, 25)
		within(t, id+" typical alpha", Range{hop.Alpha.Typical, hop.Alpha.Typical}, hop.Alpha.Range.Low(), hop.Alpha.Range.High())
		withinIfKnown(t, id+" beta", hop.Beta, 1, 15)
		within(t, id+" cohumulone", hop.Cohumulone, 10, 60)
		withinIfKnown(t, id+" oil", hop.Oil, 0.1, 6)
		withinIfKnown(t, id+" alpha left", hop.AlphaLeft6Months20C, 20, 100)
		if sum := oilSum(hop.OilFractions); sum > 101 {
			t.Errorf("%s: oil fractions add up to %.1f %% at the middle of their ranges", id, sum)
		}
		for _, other := range hop.SubstitutesByPractice {
			if _, ok := hops.get(other); !ok {
				t.Errorf("%s: substitute %q is no hop", id, other)
			}
		}
		for _, other := range hop.SimilarByOil {
			if _, ok := hops.get(other.ID); !ok || other.Distance > 1.2 {
				t.Errorf("%s: neighbour %q at %.2f is no hop or beyond 1.2", id, other.ID, other.Distance)
			}
		}
	}
}

func oilSum(f OilFractions) (sum float64) {
	for _, fraction := range []*Range{f.Myrcene, f.Humulene, f.Caryophyllene, f.Farnesene} {
		if fraction != nil {
			sum += fraction.Mid()
		}
	}
	return sum
}

func TestYeastsArePlausible(t *testing.T) {
	for _, id := range YeastIDs() {
		yeast, _ := Yeast(id)
		withinIfKnown(t, id+" attenuation", yeast.ApparentAttenuation, 5, 100)
		within(t, id+" temperature", yeast.Temperature, 2, 48)
		withinIfKnown(t, id+" alcohol tolerance", yeast.AlcoholTolerance, 0.5, 20)
		withinIfKnown(t, id+" pitching rate", yeast.PitchRate, 0.05, 3)
	}
}

func TestSugarsAndMineralsArePlausible(t *testing.T) {
	for _, id := range SugarIDs() {
		sugar, _ := Sugar(id)
		within(t, id+" dry solids", sugar.DrySolids, 8, 100)
		within(t, id+" extract", sugar.ExtractAsIs, 5, 100)
		within(t, id+" fermentable share", sugar.FermentableShare, 0, 100)
		within(t, id+" CO2", Range{sugar.CO2PerGram, sugar.CO2PerGram}, 0, 0.5143) // sucrose gives the most
	}
	for _, id := range SaltIDs() {
		salt, _ := Salt(id)
		for _, ion := range sortedKeys(salt.IonMassFraction) {
			fraction, milligrams := salt.IonMassFraction[ion], salt.IonsPer100mgL[ion]
			// 0.1 g/L of salt brings 100 mg/L times the mass fraction; one decimal is printed.
			if difference := milligrams - 100*fraction; difference > 0.06 || difference < -0.06 {
				t.Errorf("%s: %s: %.1f mg/L does not fit the mass fraction %.4f", id, ion, milligrams, fraction)
			}
		}
	}
	for _, id := range AcidIDs() {
		acid, _ := Acid(id)
		if (acid.MEqPerMillilitre == nil) == (acid.MEqPerGram == nil) {
			t.Errorf("%s: needs mEq either per mL or per g", id)
		}
	}
}

func TestWatersArePlausible(t *testing.T) {
	for _, id := range WaterProfileIDs() {
		water, _ := WaterProfile(id)
		for _, ion := range ranges(id, reflect.ValueOf(water)) {
			within(t, ion.path, ion.Range, -10, 600)
		}
	}
	for _, id := range HistoricWaterIDs() {
		water, _ := HistoricWater(id)
		within(t, id+" calcium", Range{water.Calcium, water.Calcium}, 0, 400)
		within(t, id+" sulfate", Range{water.Sulfate, water.Sulfate}, 0, 1300)
	}
}

func TestStyleNumbers(t *testing.T) {
	complete := 0
	for _, id := range StyleIDs() {
		style, _ := StyleNumbers(id)
		if style.Complete() {
			complete++
		}
		withinIfKnown(t, id+" OG", style.OG, 1.020, 1.150)
		withinIfKnown(t, id+" FG", style.FG, 0.990, 1.050)
		withinIfKnown(t, id+" IBU", style.IBU, 0, 150)
		withinIfKnown(t, id+" SRM", style.SRM, 1, 60)
		withinIfKnown(t, id+" ABV", style.ABV, 2, 17)
		withinIfKnown(t, id+" carbonation", style.Carbonation, 0, 5)
	}
	if complete != 107 {
		t.Errorf("%d styles have all five numbers, want 107", complete)
	}
}

// BJCP Beer Style Guidelines, 2021 edition, vital statistics of style 13B, from
// memory.
func TestOneStyleAgainstThePrint(t *testing.T) {
	style, ok := StyleNumbers("british-brown-ale")
	if !ok {
		t.Fatal("british-brown-ale is missing")
	}
	got := fmt.Sprint(style.Code, *style.OG, *style.FG, *style.IBU, *style.SRM, *style.ABV)
	if want := "13B[1.04 1.052] [1.008 1.013] [20 30] [12 22] [4.2 5.9]"; got != want {
		t.Errorf("british-brown-ale is %s, want %s", got, want)
	}
}

func TestAliasesResolve(t *testing.T) {
	checkAliases(t, maltAliases, malts)
	checkAliases(t, hopAliases, hops)
	checkAliases(t, yeastAliases, yeasts)
	checkAliases(t, sugarAliases, sugars)
	checkAliases(t, acidAliases, acids)
	checkAliases(t, saltAliases, salts)
}

func checkAliases[T any](t *testing.T, aliases aliasShelf, records *shelf[T]) {
	t.Helper()
	ids := aliases.sortedIDs()
	if len(ids) == 0 {
		t.Errorf("no aliases in section %s", aliases.section)
	}
	for i, id := range ids {
		alias, _ := aliases.get(id)
		if _, ok := records.get(alias.Is); !ok {
			t.Errorf("%s: alias %s: %q is no record", aliases.section, id, alias.Is)
		}
		if _, ok := records.get(id); ok {
			t.Errorf("%s: alias %s hides the record of that id", aliases.section, id)
		}
		if alias.Why == "" || !kebabCase.MatchString(id) || i > 0 && ids[i-1] == id {
			t.Errorf("%s: alias %s has no reason, is not kebab-case or stands twice", aliases.section, id)
		}
	}
}

// The words are those a brown ale is written in; the band is that of a
// moderately attenuative English yeast, 69 to 76 %.
func TestSpokenWords(t *testing.T) {
	for _, test := range []struct{ word, want string }{
		{"pale-ale", "pale-ale-malt"}, {"oats-flaked", "flaked-oats"}, {"munich", "munich-malt-light"},
		{"crystal", "caramel-malt-160-ebc"}, {"brown", "brown-malt"}, {"chocolate", "chocolate-malt"},
		{"vienna", "vienna-malt"}, {"pilsner", "pilsner-malt"}, {"wheat", "wheat-malt-pale"},
		{"rye", "rye-malt"}, {"black", "black-malt"}, {"flaked-oats", "flaked-oats"},
	} {
		if malt, ok := Malt(test.word); !ok || malt.ID != test.want {
			t.Errorf("Malt(%q) = %q, want %q", test.word, malt.ID, test.want)
		}
		if !slices.Contains(MaltNames(), test.word) {
			t.Errorf("MaltNames does not offer %q", test.word)
		}
	}
	yeast, ok := Yeast("english-ale")
	if !ok || yeast.ApparentAttenuation.Low() > 69 || yeast.ApparentAttenuation.High() < 76 {
		t.Errorf("english-ale is %v, which does not span 69 to 76 %%", yeast.ApparentAttenuation)
	}
	for _, unknown := range []string{"", "no-such-malt", "Pilsner malt", "records"} {
		if _, ok := Malt(unknown); ok {
			t.Errorf("Malt(%q) found something", unknown)
		}
	}
}

// The cut must see what the YAML parser sees, in every file and section.
func TestCutAgreesWithWholeFile(t *testing.T) {
	for _, file := range []string{"malts", "hops", "yeasts", "waters", "sugars-and-minerals", "styles", "aliases"} {
		content, err := files.ReadFile(file + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		var whole map[string]any
		if err := yaml.Unmarshal(content, &whole); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for _, section := range sortedKeys(whole) {
			records, isList := whole[section].([]any)
			if !isList {
				continue
			}
			texts := recordTexts(string(content), section)
			if len(texts) != len(records) {
				t.Fatalf("%s: %s: cut into %d records, want %d", file, section, len(texts), len(records))
			}
			for i, record := range records {
				cut, err := parseRecord[map[string]any](texts[i])
				if err != nil || !reflect.DeepEqual(any(cut), record) {
					t.Errorf("%s: %s: record %d differs when read alone: %v", file, section, i, err)
				}
			}
		}
	}
}

func within(t *testing.T, what string, r Range, low, high float64) {
	t.Helper()
	if r.Low() < low || r.High() > high || r.Low() > r.High() {
		t.Errorf("%s: %v lies outside %g to %g", what, r, low, high)
	}
}

func withinIfKnown(t *testing.T, what string, r *Range, low, high float64) {
	t.Helper()
	if r != nil {
		within(t, what, *r, low, high)
	}
}

func sortedKeys[V any](m map[string]V) []string {
	var keys []string
	for key := range m {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

func BenchmarkFirstMalt(b *testing.B) {
	for b.Loop() {
		shelf := newShelf[MaltType]("malts.yaml", "records")
		if _, ok := shelf.get("brown-malt"); !ok {
			b.Fatal("brown-malt is missing")
		}
	}
}

func BenchmarkAllMalts(b *testing.B) {
	for b.Loop() {
		shelf := newShelf[MaltType]("malts.yaml", "records")
		for _, id := range shelf.sortedIDs() {
			shelf.get(id)
		}
	}
}
