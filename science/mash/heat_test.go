// SPDX-License-Identifier: MIT

package mash

import (
	"math"
	"testing"

	"gyle/quantity"
)

var (
	celsius = quantity.Celsius
	fresh   = Grain{Mass: 5, Temperature: celsius(20), Moisture: 0.04}
)

// Values computed from the heat balances (regression values) unless said.
func TestStrikeTemperature(t *testing.T) {
	cold := Vessel{HeatCapacity: 4, Temperature: celsius(20)}
	moist := Grain{Mass: 4, Temperature: celsius(22), Moisture: 0.06}
	for _, c := range []struct {
		name    string
		grain   Grain
		liquor  quantity.Mass
		vessel  Vessel
		target  float64
		slaking float64
		want    float64
	}{
		{"no vessel", fresh, 15, Vessel{}, 66, 0, 72.133},
		{"no vessel, slaking", fresh, 15, Vessel{}, 66, 21.5, 70.421},
		{"vessel", fresh, 15, cold, 66, 0, 75.064},
		{"vessel, slaking", fresh, 15, cold, 66, 21.5, 73.352},
		{"6 % moisture", moist, 20, Vessel{}, 64, 18.0, 66.584},
		{"preheated vessel", fresh, 15, Vessel{HeatCapacity: 4}, 66, 0, 72.133},
	} {
		got := StrikeTemperature(c.grain, c.liquor, c.vessel, celsius(c.target), c.slaking)
		near(t, c.name, got.Celsius(), c.want, 0.01)
		back := LandingTemperature(c.grain, c.liquor, c.vessel, got, celsius(c.target), c.slaking)
		near(t, c.name+", landing", back.Celsius(), c.target, 1e-9)
	}
}

// The worked example and the columns of a maltster's brewing-room book of
// 1984/85: 2 % of moisture, malt 27 °C, liquor 69 °C, 2.68 L/kg, specific heat
// of malt 0.39 of that of water, slaking 2.3 °C; the mash lands at 65.96 °C.
func TestBrewingRoomExample(t *testing.T) {
	const relative, ratio, malt, liquor, slaking = 0.39, 2.68, 27, 69, 2.3
	landed := (relative*malt+ratio*liquor)/(relative+ratio) + slaking
	near(t, "book", landed, 65.96, 0.01)

	grain := Grain{Mass: 1, Temperature: celsius(malt), Moisture: 0.02}
	got := LandingTemperature(grain, ratio, Vessel{}, celsius(liquor), celsius(66), SlakingHeat(0.02))
	near(t, "balance", got.Celsius(), 65.96, 0.1) // the book's columns are rounded to 0.01 and to 0.5 °F

	for _, c := range []struct{ moisture, heat float64 }{
		{0, .38}, {1, .38}, {2, .39}, {3, .40}, {4, .40}, {6, .41}, {8, .42},
	} {
		near(t, "specific heat", MaltHeat(quantity.Percent(c.moisture))/WaterHeat, c.heat, 0.0051)
	}
	near(t, "malt of 4 %, kJ/(kg K)", MaltHeat(0.04), 1.674, 0.0005)
	for _, c := range []struct{ moisture, heat float64 }{
		{0, 39.1}, {1, 35.6}, {2, 28.6}, {3, 25.0}, {4, 21.5}, {5, 19.75}, {6, 18.0}, {8, 14.4}, {9, 14.4},
	} {
		near(t, "slaking heat", SlakingHeat(quantity.Percent(c.moisture)), c.heat, 0.001)
	}
}

func TestInfusionAndDecoction(t *testing.T) {
	bare := func(liquor quantity.Mass) quantity.HeatCapacity { return HeatCapacity(fresh, liquor, Vessel{}) }
	near(t, "boiling water", float64(InfusionMass(bare(12.5), celsius(50), celsius(65), celsius(100))), 6.214, 0.01)
	near(t, "98 °C and vessel", float64(InfusionMass(bare(12.5)+4, celsius(50), celsius(65), celsius(98))), 7.025, 0.01)
	near(t, "99 °C", float64(InfusionMass(bare(15), celsius(63), celsius(72), celsius(99))), 5.667, 0.01)
	for _, c := range []struct{ vessel, from, to, loss, want float64 }{
		{0, 50, 65, 0, .3000}, {4, 50, 65, 0, .3169}, {0, 63, 72, 0, .2432}, {0, 63, 72, .10, .2703},
	} {
		got := DecoctionShare(bare(15), quantity.HeatCapacity(c.vessel), celsius(c.from), celsius(c.to), celsius(100), quantity.Fraction(c.loss))
		near(t, "decoction", float64(got), c.want, 0.001)
	}
	thick := ThickDecoctionMass(bare(15), .04, 1.5, celsius(50), celsius(65), celsius(100), 0)
	near(t, "thick decoction", float64(thick), 6.711, 0.01)
	near(t, "its grain", float64(thick)/2.5, 2.684, 0.01)
}

func TestHeatingAndCooling(t *testing.T) {
	c := HeatCapacity(fresh, 15, Vessel{HeatCapacity: 4})
	near(t, "heat capacity", float64(c), 75.162, 0.002)
	heater := Heater{Power: 2, Efficiency: .95, Loss: 5, Ambient: celsius(20)}
	near(t, "heating", HeatingTime(c, heater, celsius(52), celsius(63)).Minutes(), 8.047, 0.02)
	weak := Heater{Power: .2, Efficiency: .95, Loss: 5, Ambient: celsius(20)} // ends at 58 °C
	if got := HeatingTime(c, weak, celsius(52), celsius(63)); !math.IsInf(float64(got), 1) {
		t.Errorf("got %v for a heater too weak, want infinity", got)
	}
	heater.Loss = 0
	near(t, "heating without loss", HeatingTime(c, heater, celsius(52), celsius(63)).Minutes(), 7.252, 0.02)
	cooled := Cooled(c, 5, celsius(66), celsius(20), 60)
	near(t, "cooling", cooled.Celsius(), 56.20, 0.05)
	near(t, "initial rate", (66-Cooled(c, 5, celsius(66), celsius(20), 0.01).Celsius())*6000, 11.02, 0.05)
	near(t, "loss", LossFromCooling(c, celsius(66), cooled, celsius(20), 60), 5, 1e-9)
	near(t, "vessel", float64(VesselHeat(10, celsius(80), celsius(75), celsius(20))), 3.805, 0.001)
	added := Grain{Mass: .5, Temperature: celsius(20), Moisture: .04}
	near(t, "late grain", WithGrainAdded(75.16, celsius(72), added).Celsius(), 71.43, 0.01)
	near(t, "mash volume", float64(MashVolume(15, 5)), 18.35, 1e-9)
}

// A garage mash in winter: the grain is 13 K colder than planned, the kettle
// is hot from the strike liquor.
func TestCorrect(t *testing.T) {
	planned := Grain{Mass: 4.77, Temperature: celsius(17), Moisture: .04}
	found := planned
	found.Temperature = celsius(4)
	kettle := Vessel{HeatCapacity: 3.0}
	near(t, "heat capacity", float64(HeatCapacity(planned, 16.5, kettle)), 80.0, 0.06)
	strike := StrikeTemperature(planned, 16.5, kettle, celsius(67), 0)
	near(t, "strike", strike.Celsius(), 72.8, 0.05)
	landed := LandingTemperature(found, 16.5, kettle, strike, celsius(67), 0)
	near(t, "landed", landed.Celsius(), 65.7, 0.05)
	miss := Miss{Grain: planned, Liquor: 16.5, Vessel: kettle, Target: celsius(67), Landed: landed}
	got := Correct(miss, Heater{Power: 2.28, Efficiency: 1}, celsius(100), celsius(15))
	near(t, "direct heat", got.Heating.Seconds(), 46, 0.5)
	near(t, "boiling water", float64(got.Hot), 0.75, 0.005)
	near(t, "cold water", float64(got.Cold), 0, 0)
	near(t, "grain", got.Grain.Celsius(), 4, 1e-9)
	near(t, "next strike", got.Strike.Celsius(), 74.3, 0.05)

	miss.Landed = celsius(69)
	got = Correct(miss, Heater{Power: 2.28, Efficiency: 1}, celsius(100), celsius(15))
	near(t, "too hot: cold water", float64(got.Cold), 2*80.05/(4.186*52), 0.001)
	if got.Hot != 0 || got.Heating != 0 || !got.Strike.Below(strike) {
		t.Errorf("too hot, but asked for heat: %+v", got)
	}
}
