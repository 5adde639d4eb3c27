// SPDX-License-Identifier: MIT

package gyle

import "gyle/quantity"

// Entry is one entry of the log. It has exactly one body: a reading, a deed, an
// interruption, a choice, a series, an override or a note; or it strikes another
// entry. With a correction the body stands in the place of that of the entry it points at.
type Entry struct {
	ID   ID     `gyle:"id,required"`
	Time Time   `gyle:"time,required"` // by the clock of the device, as it was
	Who  string `gyle:"who"`
	// Clock is how far the device's clock was ahead when the entry arrived.
	// [Entry.When] takes it off.
	Clock quantity.Duration `gyle:"clock"`

	Reading      *Reading      `gyle:"reading,flow"`
	Deed         *Deed         `gyle:"deed,flow"`
	Interruption *Interruption `gyle:"interruption,flow"`
	Choice       *Choice       `gyle:"choice,flow"`
	Series       *Series       `gyle:"series"`
	Override     *Override     `gyle:"override,flow"`
	Correction   *Correction   `gyle:"correction,flow"`
	Note         string        `gyle:"note"`
}

// When returns the time of the entry with the error of the clock taken off.
func (e Entry) When() Time {
	if e.Clock == 0 {
		return e.Time
	}
	return e.Time.Add(-e.Clock)
}

// Reading is something read off an instrument, exactly as it was read.
type Reading struct {
	Of Of `gyle:"of,required"`
	// Value is what was read, in the words it was typed in: "26,4 @95",
	// "1042.5", "10.6 °P". Measured says what it means.
	Value string `gyle:"value,required"`
	// Sample is the temperature of the sample where Value doesn't say it.
	Sample quantity.Temperature `gyle:"sample"`
	With   string               `gyle:"with"` // name of the instrument
	At     Place                `gyle:"at"`
	// Mark says what is odd about it: "layered", "hot sample", "tank 2".
	Mark string `gyle:"mark"`
}

// Measured returns what the reading means. A reading of a sound document has
// no error.
func (r Reading) Measured() (Measured, error) {
	m, err := ParseReading(r.Value, r.Of)
	if err == nil && m.Sample.IsZero() {
		m.Sample = r.Sample
	}
	return m, err
}

// Deed is something that was done. Which fields it has depends on what it is.
type Deed struct {
	Do          Do                   `gyle:"do,required"`
	What        string               `gyle:"what"` // malt, hop, salt, acid, yeast, sugar or vessel
	Lot         string               `gyle:"lot"`
	Mass        *quantity.Mass       `gyle:"mass"`
	Volume      *quantity.VolumeAt   `gyle:"volume"` // as measured out, with its temperature if not cold
	Temperature quantity.Temperature `gyle:"temperature"`
	Time        quantity.Duration    `gyle:"time"`   // how long it took, or is to last
	Moment      string               `gyle:"moment"` // of the charge in the plan: "boil 60 min"
	Power       *quantity.Power      `gyle:"power"`
	// Pressure is what a vessel was set to, or what stands on a keg.
	Pressure *quantity.GaugePressure `gyle:"pressure"`
	Cells    float64                 `gyle:"cells"`  // pitched, 10⁹
	Vessel   string                  `gyle:"vessel"` // into which
	Count    int                     `gyle:"count"`  // of bottles, bags or kegs
	Place    Place                   `gyle:"at"`
}

// Interruption is a time in which something didn't work.
type Interruption struct {
	What string `gyle:"what,required"` // "element tripped"
	From Time   `gyle:"from,required"`
	To   Time   `gyle:"to"` // absent: not over yet
	// Lowest is the temperature that the kettle fell to.
	Lowest quantity.Temperature `gyle:"lowest"`
}

// Choice is an option that was taken at a reading that missed the plan.
type Choice struct {
	Over    ID       `gyle:"over"`          // the reading that it answers
	Took    string   `gyle:"took,required"` // name of the option, as package day gives it
	Why     string   `gyle:"why"`
	Offered []string `gyle:"offered"` // the names of all options
	Expects *Expects `gyle:"expects"`
	// Boil is how long the boil shall be from now on, where the option says so.
	Boil quantity.Duration `gyle:"boil"`
}

// Expects is what an option promised.
type Expects struct {
	OG      quantity.SG       `gyle:"og"`
	Volume  quantity.Volume   `gyle:"volume"` // at knock-out, 20 °C
	IBU     quantity.IBU      `gyle:"ibu"`
	Color   quantity.EBC      `gyle:"color"`
	PH      quantity.PH       `gyle:"ph"`
	Minutes quantity.Duration `gyle:"minutes"` // by which the day gets longer
	Price   string            `gyle:"price"`
}

// Override is a refusal that somebody set aside in writing: what was refused and
// why stand in the log for ever.
type Override struct {
	Of      string               `gyle:"of,required"` // what was refused: "filling", "pressure"
	Refused []string             `gyle:"refused"`     // the cautions, as they were shown
	Why     string               `gyle:"why,required"`
	Into    string               `gyle:"into"`    // package: "ordinary crown bottle"
	CO2     quantity.Carbonation `gyle:"co2"`     // that was asked for
	Worst   quantity.Carbonation `gyle:"worst"`   // that it may come to
	Warmest quantity.Temperature `gyle:"warmest"` // that was reckoned with
}

// Correction points at an earlier entry. Without Strike the body of the entry
// says what the other should have been.
type Correction struct {
	Of     ID     `gyle:"of,required"`
	Strike bool   `gyle:"strike"` // it never happened
	Time   Time   `gyle:"time"`   // when it really was
	Why    string `gyle:"why"`
}
