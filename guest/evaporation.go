// SPDX-License-Identifier: MIT

package guest

import (
	"math"
	"strings"

	"gyle/plan"
	"gyle/quantity"
	"gyle/science/boil"
	"gyle/science/gravity"
)

// evaporation is how strongly a kettle boils, as brewers say it: a share of the
// full kettle in an hour, or a mass or a volume of water in an hour.
type evaporation struct {
	share quantity.Fraction // of the mass of the full kettle, an hour
	mass  quantity.Mass     // kg of water an hour
}

func (e evaporation) isZero() bool { return e == evaporation{} }

// parseEvaporation reads "14 %/h", "14 %", "3.2 L/h", "0.8 US gal/h" or "3 kg/h".
func parseEvaporation(text string) (evaporation, error) {
	plain := strings.TrimSpace(text)
	for _, hour := range []string{"/h", "/hr", "/hour", "per hour", "an hour", "/ h"} {
		plain = strings.TrimSpace(strings.TrimSuffix(plain, hour))
	}
	if f, err := quantity.ParseFraction(plain); err == nil {
		if f < 0 || f > 0.5 {
			return evaporation{}, asked{"a kettle boils off between nothing and half of itself in an hour", "10 %/h is usual"}
		}
		return evaporation{share: f}, nil
	}
	if m, err := quantity.ParseMass(plain); err == nil && m >= 0 {
		return evaporation{mass: m}, nil
	}
	v, err := quantity.ParseVolume(plain)
	if bare := strings.Trim(plain, "0123456789.,") == ""; bare || err != nil || v < 0 {
		return evaporation{}, asked{"read " + text + " as an evaporation: a share or an amount in an hour is needed", "write 10 %/h, 2.6 L/h or 0.7 US gal/h"}
	}
	return evaporation{mass: quantity.Mass(float64(v) * gravity.WaterDensity(quantity.Celsius(20)) / 1000)}, nil
}

// heat makes the kettle of s boil with the evaporation asked for. A share of
// the full kettle depends on how full it is, which depends on the share: it is
// sought in rounds. Without an answer the author's kettle is taken as it is.
func (s *setup) heat(t *Table) (*plan.Plan, error) {
	if s.evaporation.isZero() {
		return plan.Make(s.input(t))
	}
	k := &s.house.Kettle
	k.Efficiency, k.HeatLoss = 1, 0
	target := s.evaporation.mass
	if target == 0 {
		target = quantity.Mass(float64(s.evaporation.share) * float64(s.size))
	}
	at := t.plan.Boil.Temperature
	for range evaporationRounds {
		k.Power = powerFor(target, at)
		p, err := plan.Make(s.input(t))
		if err != nil {
			return nil, err
		}
		want := s.evaporation.mass
		if want == 0 {
			want = quantity.Mass(float64(s.evaporation.share) * fullMass(p))
		}
		if math.Abs(float64(want-p.Boil.PerHour)) < 1e-7*fullMass(p) {
			return p, nil
		}
		target, at = want, p.Boil.Temperature
	}
	return nil, asked{"this evaporation and this boil leave nothing in the kettle", "a boil takes off about 10 % in an hour"}
}

// fullMass returns the mass of the wort before the boil, in kg.
func fullMass(p *plan.Plan) float64 {
	return float64(gravity.WortMass(p.Volumes.FullKettle, p.Gravity.FullKettle))
}

// evaporationRounds is enough wherever there is an answer: each round is ten
// times closer.
const evaporationRounds = 60

// powerFor returns the heat that drives off so much water in an hour.
func powerFor(perHour quantity.Mass, at quantity.Temperature) quantity.Power {
	one := boil.Evaporated(boil.Evaporation(1, 1, 0, at), 60) // kg/h of one kW
	return quantity.Power(shortened(float64(perHour) / float64(one)))
}

// shortened rounds what the reader's document will hold to what can be read: a
// ten-thousandth of a per mille.
func shortened(x float64) float64 { return math.Round(x*1e7) / 1e7 }
