// SPDX-License-Identifier: MIT

package day

import (
	"fmt"

	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/gravity"
)

// Answer says what can be done about an entry of the log: a reading that misses
// the plan, or an interruption. An entry that needs no answer has an offer
// without tickets; Notes then says what is still to be read, if anything.
func Answer(g *gyle.Gyle, p *plan.Plan, id gyle.ID) (Offer, error) {
	f := newFacts(g.Log.Standing())
	e, found := f.last(func(e gyle.Entry) bool { return e.ID == id })
	if !found {
		return Offer{}, fmt.Errorf("answer entry %s: the log has none that stands", id)
	}
	switch {
	case e.Interruption != nil:
		return f.interrupted(g, p, *e.Interruption)
	case e.Reading == nil:
		return Offer{}, nil
	}
	m, err := e.Reading.Measured()
	if err != nil {
		return Offer{}, fmt.Errorf("answer entry %s: %w", id, err)
	}
	switch at := e.Reading.At; {
	case at == gyle.AtFullKettle || at == gyle.AtKnockOut:
		return f.kettle(g, p, at)
	case at == gyle.AtMash && m.Of == gyle.OfTemperature && f.sinceDoughIn(e) <= firstReadings:
		return Strike(p, m.Temperature()), nil
	case at == gyle.AtMash && m.Of == gyle.OfPH:
		return MashPH(p, MashReading{PH: quantity.PH(m.Value), Sample: m.Sample, After: f.sinceDoughIn(e), AcidSoFar: f.acid(p, e)}), nil
	case at == gyle.AtCooling && m.Of == gyle.OfTemperature:
		if on, found := f.first(did(gyle.CoolerOn), gyle.Time{}); found && e.When().After(on.Time) {
			return SlowCooling(p, Slow{After: e.When().Since(on), Now: m.Temperature()}), nil
		}
	}
	return Offer{At: e.Reading.At}, nil
}

// firstReadings is how long after the dough-in a temperature of the mash is
// taken for that of the first rest.
const firstReadings quantity.Duration = 15

// sinceDoughIn is how long after the grain went in an entry is; 0 where nobody
// logged it.
func (f *facts) sinceDoughIn(e gyle.Entry) quantity.Duration {
	if in, found := f.first(did(gyle.GrainIn), gyle.Time{}); found {
		return e.When().Since(in)
	}
	return 0
}

// acid adds up the acid of the plan's kind that went in before an entry, in mL;
// −1 where nobody logged any.
func (f *facts) acid(p *plan.Plan, before gyle.Entry) float64 {
	sum, logged := 0.0, false
	for _, e := range f.entries {
		if e.Deed == nil || e.Deed.Do != gyle.AcidIn || e.Deed.Volume == nil || e.When().After(before.When().Time) || e.Deed.What != acidOfPlan(p).ID {
			continue
		}
		sum, logged = sum+e.Deed.Volume.Volume.Millilitres(), true
	}
	if !logged {
		return -1
	}
	return sum
}

// interrupted answers an interruption of the boil that is over.
func (f *facts) interrupted(g *gyle.Gyle, p *plan.Plan, i gyle.Interruption) (Offer, error) {
	begun, boils := f.first(did(gyle.BoilStart), gyle.Time{})
	ended, over := f.first(did(gyle.KnockOut), gyle.Time{})
	switch {
	case i.To.IsZero():
		return Offer{At: gyle.AtBoil, Notes: []string{"The interruption isn't over: say when the heat was back."}}, nil
	case !boils || i.From.Before(begun.Time) || (over && !i.From.Before(ended.Time)):
		return Offer{At: gyle.AtBoil, Notes: []string{"The kettle wasn't boiling: the day moves, the beer stays as planned."}}, nil
	}
	t := Trip{Into: i.From.Since(begun), Off: i.To.Since(i.From), Lowest: i.Lowest}
	chosen := func(e gyle.Entry) bool {
		return e.Choice != nil && e.Choice.Boil > 0 && !e.When().After(i.From.Time)
	}
	if e, found := f.last(chosen); found {
		t.Boil = e.Choice.Boil
	}
	var missing string
	var err error
	if t.Full, missing, err = f.read(g, gyle.AtFullKettle); missing != "" {
		t.Full = Kettle{}
	}
	return Tripped(p, t), err
}

// kettle answers the readings of a kettle once both volume and gravity are
// there.
func (f *facts) kettle(g *gyle.Gyle, p *plan.Plan, at gyle.Place) (Offer, error) {
	k, missing, err := f.read(g, at)
	switch {
	case err != nil:
		return Offer{}, err
	case missing != "":
		return Offer{At: at, Notes: []string{missing}}, nil
	case at == gyle.AtFullKettle:
		return FullKettle(p, k), nil
	}
	if full, missing, err := f.read(g, gyle.AtFullKettle); err == nil && missing == "" {
		k.Full = full.SG
	}
	return KnockedOut(p, k), nil
}

// read returns what was read of a kettle, or what is still to be read.
func (f *facts) read(g *gyle.Gyle, at gyle.Place) (k Kettle, missing string, err error) {
	volume, hasVolume := f.last(read(gyle.OfVolume, at))
	sg, hasGravity := f.last(readAt(at, gyle.OfGravity, gyle.OfRefractometer))
	switch {
	case !hasVolume:
		return k, "Read the volume, too, with its temperature.", nil
	case !hasGravity:
		return k, "Mix the kettle and read the gravity, too.", nil
	}
	v, err := volume.Reading.Measured()
	if err != nil {
		return k, "", fmt.Errorf("answer entry %s: %w", volume.ID, err)
	}
	k.Volume = v.Volume()
	if k.SG, err = WortGravity(g, *sg.Reading); err != nil {
		return k, "", fmt.Errorf("answer entry %s: %w", sg.ID, err)
	}
	return k, "", nil
}

// WortGravity is the gravity at 20 °C of unfermented wort that a reading means:
// a hydrometer corrected for the temperature of the sample, a refractometer for
// its factor.
func WortGravity(g *gyle.Gyle, r gyle.Reading) (quantity.SG, error) {
	m, err := r.Measured()
	if err != nil {
		return 0, err
	}
	instrument, _ := g.Find(r.With)
	switch m.Of {
	case gyle.OfRefractometer:
		factor := gravity.DefaultWortFactor
		if instrument.Factor != nil {
			factor = *instrument.Factor
		}
		return gravity.SGFromPlato(gravity.PlatoFromBrix(quantity.Plato(m.Value), factor)), nil
	case gyle.OfGravity:
		calibrated := instrument.At
		if calibrated.IsZero() {
			calibrated = quantity.Celsius(20)
		}
		if m.Sample.IsZero() {
			m.Sample = calibrated
		}
		if m.Unit == "°P" {
			return gravity.SGFromPlato(gravity.SpindlePlato(quantity.Plato(m.Value), m.Sample, calibrated)), nil
		}
		sg, _ := gravity.HydrometerSG(quantity.SG(m.Value), m.Sample, calibrated)
		return sg, nil
	}
	return 0, fmt.Errorf("a reading of %s is no gravity", m.Of)
}
