// SPDX-License-Identifier: MIT

package brewhouse

import (
	"fmt"
	"slices"
	"strings"

	"gyle/internal/document"
	"gyle/quantity"
)

type adder func(path, hint, format string, args ...any)

// Validate finds the faults that no single field shows.
func (h *House) Validate(s *document.Source) document.Faults {
	var faults document.Faults
	add := func(path, hint, format string, args ...any) {
		faults = append(faults, s.Fault(path, fmt.Sprintf(format, args...), hint))
	}
	h.validateYield(add)
	h.validateHeat(add)
	h.validateCooling(add)
	h.validateBitterness(add)
	h.validateSizes(add)
	switch h.Mash.Sparge {
	case "", "fly", "batch", "twice", "none":
	default:
		add("mash.sparge", "write fly, batch, twice or none", "%q is no way to sparge", h.Mash.Sparge)
	}
	if h.Altitude < -430 || h.Altitude > 5500 {
		add("altitude", "metres above the sea: -430 m to 5500 m", "nobody brews at %v m", float64(h.Altitude))
	}
	return faults
}

func (h *House) validateYield(add adder) {
	m := h.Mash
	switch {
	case m.Yield == nil && m.Conversion == nil:
		add("mash", "add yield: 75 ± 3 % if you have measured it, or conversion: 95 % with sparge: fly", "the house says nothing of its yield")
	case m.Yield != nil && m.Conversion != nil:
		add("mash.conversion", "a measured yield already holds the conversion: keep one", "yield and conversion are both given")
	case m.Yield != nil && (m.Yield.Value <= 0 || m.Yield.Value > 1):
		add("mash.yield", "it is extract in the kettle over extract by the laboratory", "a yield lies between 0 and 100 %%")
	case m.Conversion != nil && (*m.Conversion <= 0 || *m.Conversion > 1):
		add("mash.conversion", "", "a conversion lies between 0 and 100 %%")
	}
	if m.Absorption < 0 || m.Absorption > 3 {
		add("mash.absorption", "usual values are 0.5 to 1.1 L/kg", "grain does not hold %v L/kg", float64(m.Absorption))
	}
}

func (h *House) validateHeat(add adder) {
	k := h.Kettle
	if k.Power <= 0 {
		add("kettle.power", "", "a kettle is heated by more than nothing")
		return
	}
	if k.Efficiency <= 0 || k.Efficiency > 1 {
		add("kettle.efficiency", "electric elements in the wort 100 %, induction 85-90 %, gas 35-60 %", "an efficiency lies between 0 and 100 %%")
	}
	if float64(k.HeatLoss) >= float64(k.Power)*float64(k.Efficiency) {
		add("kettle.heat loss", "the kettle would never boil", "the loss is as large as the heat that reaches the wort")
	}
}

func (h *House) validateCooling(add adder) {
	if len(h.Cooling) == 0 {
		add("cooling", "add - {name: coil, tau: 7 min, water: 12 °C}", "the house says nothing of how wort is cooled")
	}
	for i, c := range h.Cooling {
		path := fmt.Sprintf("cooling[%d]", i)
		if c.Tau == nil && c.RunOff == 0 {
			add(path, "give tau (the kettle is cooled as a whole) or run-off (it empties through a cooler), or both", "%s does not cool", c.Name)
		}
		if c.Tau != nil && *c.Tau <= 0 {
			add(path+".tau", "", "a time constant is more than nothing")
		}
		notNegative(add, path+".settle", c.Settle)
		notNegative(add, path+".run-off", c.RunOff)
	}
}

func (h *House) validateBitterness(add adder) {
	b := h.Bitterness
	if b.R < 0 || b.R > 1 {
		add("bitterness.kept", "49 % is usual at home", "what is kept lies between 0 and 100 %%")
	}
	if b.K.Value < 0 {
		add("bitterness.house factor", "it is measured over predicted; 1 ± 0.25 before anything is measured", "a house factor is more than nothing")
	}
	switch b.Form {
	case "", "pellets", "cones", "bag":
	default:
		add("bitterness.form", "write pellets, cones or bag", "%q is no form of hops", b.Form)
	}
}

// validateSizes finds vessels and losses below nothing.
func (h *House) validateSizes(add adder) {
	m, k, f := h.Mash, h.Kettle, h.Fermenter
	vessel(add, "usual", h.Usual)
	vessel(add, "mash.vessel", m.Vessel)
	notNegative(add, "mash.dead", m.Dead)
	notNegative(add, "mash.heat capacity", m.HeatCapacity)
	vessel(add, "kettle.vessel", k.Vessel)
	notNegative(add, "kettle.loss", k.Loss)
	notNegative(add, "kettle.heat loss", k.HeatLoss)
	notNegative(add, "kettle.boil", k.Boil)
	notNegative(add, "kettle.cools", k.Cools)
	vessel(add, "fermenter.vessel", f.Vessel)
	notNegative(add, "fermenter.loss", f.Loss)
	validateDays(add, f)
	if h.Energy != "" {
		if p, err := quantity.ParsePrice(h.Energy); err != nil || p.Energy == 0 {
			add("energy", "write what a kilowatt-hour costs: 0.35 €/kWh", "%q is no price of energy", h.Energy)
		}
	}
	if f.Relief != nil && *f.Relief < 0 {
		add("fermenter.relief", "read the rating on the valve", "a relief valve opens above the pressure of the air")
	}
}

// validateDays finds vessels of one name, and days that can't be.
func validateDays(add adder, f Fermenter) {
	for i, name := range f.Names {
		if strings.TrimSpace(name) == "" || slices.Contains(f.Names[:i], name) {
			add(fmt.Sprintf("fermenter.names[%d]", i), "give each vessel a name of its own: [fermenter 1, fermenter 2]", "%q names no vessel, or a second one", name)
		}
	}
	if d := f.Ferments; d != nil && (!d.HasLow() || !d.HasHigh() || d.Low < 0 || d.High > quantity.Days(1000)) {
		add("fermenter.ferments", "write the days from pitching to a steady gravity: 7..10 d", "both ends are needed, between 0 and 1000 days")
	}
	if f.Chill != nil && (*f.Chill < 0 || *f.Chill > quantity.Days(1000)) {
		add("fermenter.chill", "", "it lies between 0 and 1000 days")
	}
}

func notNegative[T ~float64](add adder, path string, value T) {
	if value < 0 {
		add(path, "", "it can't be less than nothing")
	}
}

func vessel(add adder, path string, v *quantity.Volume) {
	if v != nil && *v <= 0 {
		add(path, "", "it must hold more than nothing")
	}
}
