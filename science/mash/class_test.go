// SPDX-License-Identifier: MIT

package mash

import (
	"math"
	"testing"

	"gyle/quantity"
)

// The rows of the class table once more, independently written down: pH or
// acidity, buffering, standard deviation (pH, or share of the acidity).
// Estimates; see Classes for where they come from.
func TestTypicalClass(t *testing.T) {
	for _, c := range []struct {
		class             string
		ebc               quantity.EBC
		value, buffer, sd float64
	}{
		{"pilsner", 3.5, 5.75, 38, .10}, {"pale two-row", 4, 5.65, 38, .10}, {"pale ale", 6, 5.68, 38, .08},
		{"vienna", 8, 5.57, 38, .08}, {"munich light", 15, 5.48, 40, .08}, {"munich dark", 25, 5.40, 42, .08},
		{"smoked", 5, 5.65, 38, .12}, {"wheat pale", 4, 5.97, 38, .10}, {"wheat dark", 17, 5.75, 40, .15},
		{"rye", 8, 5.95, 38, .12}, {"oat", 5, 5.90, 34, .15}, {"spelt", 5, 5.90, 38, .15},
		{"raw wheat", 3, 6.15, 30, .2}, {"raw barley", 3, 5.90, 32, .2}, {"raw oats", 3, 6.20, 30, .2},
		{"raw rye", 6, 6.10, 32, .2}, {"rice or maize", 2, 6.00, 12, .3}, {"dextrin", 5, 9, 38, .30 * 9},
		{"caramel", 120, 28.96, 35, .20 * 28.96}, {"caramel", 400, 73.2, 35, .20 * 73.2},
		{"melanoidin", 70, 33, 40, .25 * 33}, {"biscuit, amber or brown", 100, 25, 38, .30 * 25},
		{"roasted", 900, 42, 35, .20 * 42}, {"dehusked roasted", 900, 40, 35, .20 * 40},
		{"roasted barley", 1200, 38, 35, .20 * 38}, {"acidulated", 5, 320, 35, .25 * 320},
		{"extract", 10, 5.5, 30, .2}, {"base by colour", 10, 5.62, 38, .10}, {"inert", 0, 0, 0, 0},
	} {
		malt, sd, ok := TypicalClass(c.class, c.ebc)
		if !ok {
			t.Errorf("%s: unknown", c.class)
		}
		value := malt.Acidity57
		if malt.Base {
			value = float64(malt.PHDI)
		}
		near(t, c.class, value, c.value, 1e-9)
		near(t, c.class+", buffer", malt.Buffer, c.buffer, 0)
		near(t, c.class+", spread", sd, c.sd, 1e-9)
	}
	if _, _, ok := TypicalClass("sawdust", 3); ok {
		t.Error("knows sawdust")
	}
}

// Titrations of caramel malts to pH 5.7 by Troester (2009), from memory, ±20 %;
// EBC = 2.67·°L − 1.5.
func TestCaramelAcidityFollowsTitrations(t *testing.T) {
	for _, c := range []struct{ lovibond, low, high float64 }{
		{10, 16, 16}, {20, 19, 19}, {40, 27, 27}, {60, 35, 35}, {120, 44, 60}, {150, 74, 74},
	} {
		got := CaramelAcidity(quantity.EBC(2.67*c.lovibond - 1.5))
		if got < .8*c.low || got > 1.2*c.high {
			t.Errorf("%v °L: got %.1f, want %v..%v ± 20 %%", c.lovibond, got, c.low, c.high)
		}
	}
}

// The colour line runs through the barley classes within their spread.
func TestBasePHFromColorFollowsClasses(t *testing.T) {
	for _, c := range Classes[:6] {
		middle := (c.Color.Low + c.Color.High) / 2
		near(t, c.Name, float64(BasePHFromColor(middle)), c.Value, 2*c.SD)
	}
}

// Identifiers and general classes of the typical malts of this program.
func TestClassFor(t *testing.T) {
	for _, c := range []struct {
		id, class string
		ebc       quantity.EBC
		want      string
	}{
		{"pilsner-malt", "base", 3.5, Pilsner},
		{"extra-pale-pilsner-malt", "base", 2.3, Pilsner},
		{"floor-malted-pilsner-malt", "base", 4, Pilsner},
		{"north-american-two-row-malt", "base", 3.75, PaleTwoRow},
		{"six-row-malt", "base", 3.9, PaleTwoRow},
		{"lager-malt-british-type", "base", 3.25, Pilsner},
		{"pale-ale-malt", "base", 6, PaleAle},
		{"heritage-barley-pale-ale-malt", "base", 6, PaleAle},
		{"mild-ale-malt", "base", 8, PaleAle},
		{"chit-malt", "base", 3, Pilsner},
		{"vienna-malt", "kilned", 8, Vienna},
		{"munich-malt-light", "kilned", 14.5, MunichLight},
		{"munich-malt-dark", "kilned", 25.5, MunichDark},
		{"melanoidin-malt", "kilned", 70, Melanoidin},
		{"aromatic-malt", "kilned", 50, Melanoidin},
		{"brumalt-honey-type-malt", "kilned", 57.5, Melanoidin},
		{"biscuit-malt-toasted", "kilned", 57.5, AmberBrown},
		{"amber-malt", "kilned", 70, AmberBrown},
		{"brown-malt", "kilned", 140, AmberBrown},
		{"diastatic-amber-historic-type", "kilned", 45, AmberBrown},
		{"dextrin-malt-pale-glassy", "crystal", 5.25, Dextrin},
		{"caramel-malt-25-ebc", "crystal", 25, Caramel},
		{"caramel-malt-50-ebc", "crystal", 50, Caramel},
		{"caramel-malt-80-ebc", "crystal", 80, Caramel},
		{"caramel-malt-120-ebc", "crystal", 120, Caramel},
		{"caramel-malt-160-ebc", "crystal", 160, Caramel},
		{"caramel-malt-220-ebc", "crystal", 220, Caramel},
		{"caramel-malt-300-ebc", "crystal", 305, Caramel},
		{"caramel-malt-400-ebc", "crystal", 415, Caramel},
		{"double-roasted-crystal-malt", "crystal", 290, Caramel},
		{"caramel-wheat-malt", "crystal", 120, Caramel},
		{"caramel-rye-malt", "crystal", 160, Caramel},
		{"caramel-oats-malted-stewed", "crystal", 21, Caramel},
		{"caramel-spelt-malt", "crystal", 27.5, Caramel},
		{"coffee-malt", "roasted", 490, Roasted},
		{"pale-chocolate-malt", "roasted", 575, Roasted},
		{"chocolate-malt", "roasted", 975, Roasted},
		{"black-malt", "roasted", 1375, Roasted},
		{"roasted-barley", "roasted", 1250, RoastedBarley},
		{"roasted-barley-light", "roasted", 725, RoastedBarley},
		{"chocolate-wheat-malt", "roasted", 975, Roasted},
		{"chocolate-rye-malt", "roasted", 675, Roasted},
		{"chocolate-spelt-malt", "roasted", 625, Roasted},
		{"dehusked-roasted-malt-light", "dehusked roasted", 850, Dehusked},
		{"dehusked-roasted-malt-medium", "dehusked roasted", 1125, Dehusked},
		{"dehusked-roasted-malt-dark", "dehusked roasted", 1400, Dehusked},
		{"wheat-malt-pale", "wheat", 4.25, WheatPale},
		{"wheat-malt-dark", "wheat", 16.5, WheatDark},
		{"spelt-malt", "wheat", 5.5, Spelt},
		{"emmer-malt", "wheat", 7, Spelt},
		{"triticale-malt", "wheat", 6, WheatPale},
		{"rye-malt", "rye", 7, Rye},
		{"oat-malt-hulled", "oats", 5.5, Oat},
		{"naked-oat-malt", "oats", 5, Oat},
		{"beech-smoked-barley-malt", "smoked", 6, Smoked},
		{"oak-smoked-wheat-malt", "smoked", 5, WheatPale},
		{"fruitwood-smoked-barley-malt", "smoked", 10.5, Smoked},
		{"peat-smoked-malt", "smoked", 5.5, Smoked},
		{"acidulated-malt", "acidulated", 4.75, Acidulated},
		{"millet-malt", "adjunct", 5.25, RiceMaize},
		{"sorghum-malt", "adjunct", 6, RiceMaize},
		{"buckwheat-malt", "adjunct", 9, RiceMaize},
		{"rice-malt", "adjunct", 4, RiceMaize},
		{"flaked-barley", "adjunct", 3.25, RawBarley},
		{"raw-barley", "adjunct", 3.25, RawBarley},
		{"flaked-wheat", "adjunct", 3.5, RawWheat},
		{"raw-wheat", "adjunct", 3.5, RawWheat},
		{"torrefied-wheat", "adjunct", 4.25, RawWheat},
		{"flaked-oats", "adjunct", 3.5, RawOats},
		{"flaked-rye", "adjunct", 5, RawRye},
		{"spelt-flakes", "adjunct", 4.25, RawWheat},
		{"flaked-maize", "adjunct", 2, RiceMaize},
		{"maize-grits", "adjunct", 2, RiceMaize},
		{"flaked-rice", "adjunct", 1.25, RiceMaize},
		{"rice-grits", "adjunct", 1.25, RiceMaize},
		{"refined-maize-starch", "adjunct", 0.25, Inert},
		{"cassava-dried-milled", "adjunct", 1.5, Inert},
		{"rice-hulls", "adjunct", 0.5, Inert},
		{"roasted-malt-colouring-extract", "extract", 8250, Extract},
		{"dry-malt-extract-pale", "extract", 9, Extract},
		{"dry-malt-extract-wheat", "extract", 10, Extract},
		{"dry-malt-extract-amber", "extract", 31.5, Extract},
		{"dry-malt-extract-dark", "extract", 100, Extract},
		{"liquid-malt-extract-pale", "extract", 11.5, Extract},
		{"liquid-malt-extract-wheat", "extract", 12.5, Extract},
		{"liquid-malt-extract-amber", "extract", 40, Extract},
		{"liquid-malt-extract-dark", "extract", 110, Extract},
		{"sucrose", "sugar", 0.5, Inert},
		{"dextrose-monohydrate", "sugar", 0.25, Inert},
		{"invert-syrup-pale", "sugar", 15, Inert},
		{"candi-syrup-dark", "sugar", 325, Inert},
		{"honey", "sugar", 20.5, Inert},
		{"lactose", "sugar", 0.5, Inert},
		{"maltodextrin", "sugar", 0.5, Inert},
		// Names as brewers write them.
		{"Pale malt", "base", 5, BaseByColor},
		{"Oats, flaked", "adjunct", 3, RawOats},
		{"Munich", "kilned", 15, BaseByColor},
		{"Special kilned malt", "kilned", 60, Melanoidin},
		{"House crystal", "", 100, Caramel},
		{"Glassy malt", "crystal", 5, Dextrin},
		{"Stewed malt", "crystal", 90, Caramel},
		{"Dark malt", "roasted", 900, Roasted},
		{"Something", "", 5, ""},
	} {
		if got := ClassFor(c.id, c.class, c.ebc); got != c.want {
			t.Errorf("%s: got %q, want %q", c.id, got, c.want)
		}
	}
}

func TestEveryClassIsMapped(t *testing.T) {
	for _, row := range classWords {
		if _, _, ok := TypicalClass(row.class, 100); !ok {
			t.Errorf("%q leads to the unknown class %q", row.words, row.class)
		}
	}
	for _, class := range []string{"acidulated", "adjunct", "base", "crystal", "dehusked roasted", "extract",
		"kilned", "oats", "roasted", "rye", "smoked", "sugar", "wheat"} {
		if _, _, ok := TypicalClass(ClassFor("x", class, 20), 20); !ok {
			t.Errorf("general class %q has no class", class)
		}
	}
}

func TestShifts(t *testing.T) {
	near(t, "hot", float64(HotPH(5.40, celsius(65))), 5.049, 0.001)
	near(t, "cooled", float64(CooledPH(5.049, celsius(65))), 5.40, 0.001)
	// Briggs et al. (2004), p. 115, second-hand: 0.35 at 65 °C, 0.45 at 78 °C.
	near(t, "at 65", 5.4-float64(HotPH(5.4, celsius(65))), 0.35, 0.01)
	near(t, "at 78", 5.4-float64(HotPH(5.4, celsius(78))), 0.45, 0.01)
	near(t, "Kolbach", float64(KolbachShift(1)), 0.0841, 0.0005)
	near(t, "Troester, R 4", float64(TroesterPH(5.7, 4, 1))-5.7, 0.065, 1e-9)
	near(t, "Troester, R 5.5", float64(TroesterPH(5.7, 5.5, 1))-5.7, 0.0845, 1e-9)
	malts := []Malt{base(4.5, 5.75, 38), titrated(.5, 28.96, 35)}
	near(t, "Troester, grist", float64(TroesterGristPH(malts)), 5.745-14.48/188.5, 1e-9)
}

func TestLearning(t *testing.T) {
	near(t, "buffer", BufferFrom(.5, .05, 5.75, 5.75-.5/(.05*38)), 38, 1e-9)
	near(t, "weight", LearningWeight(PredictionSD, MeasurementSD), .80, 1e-9)
	near(t, "learnt", float64(Learn(5.68, 5.45, 5.40, .8)), 5.64, 1e-9)
	one := Balance{Malts: []Malt{base(5, 5.75, 38)}, Liquor: Liquor{Volume: 20}}
	near(t, "spread of one malt", float64(LotSpread(one, 5.75, []float64{.10})), .10, 1e-6)
	two := Balance{Malts: []Malt{base(3, 5.75, 38), base(3, 5.75, 38)}}
	near(t, "spread of two", float64(LotSpread(two, 5.75, []float64{.10, .10})), .10/math.Sqrt2, 1e-6)
}

func TestDarkGrain(t *testing.T) {
	near(t, "late", float64(ColorYield(Late)), .95, 0)
	near(t, "steeped", float64(ColorYield(ColdSteep)), .70, 0)
	near(t, "from the start", float64(ColorYield(FromStart)), 1, 0)
	near(t, "extract, steeped", float64(ExtractYield(ColdSteep)), .55, 1e-12)
	near(t, "extract, late", float64(ExtractYield(Late)), 1, 0)
	// Customary: 1.2 to 1.6 times the grain for equal colour.
	near(t, "equal colour", float64(ForEqualColor(.18, ColorYield(ColdSteep)))/.18, 1.4, .2)
}
