// SPDX-License-Identifier: MIT

package day

import (
	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/gravity"
)

// A Meaning is what a reading means at 20 °C: one of the two is set.
type Meaning struct {
	Volume  quantity.Volume
	Gravity quantity.SG
}

// MeaningOf says what an entry means where that may be something else than it
// says: a volume that was read hot, the gravity of wort. It is not ok for all
// other entries. A refractometer is left out once alcohol has its say.
func MeaningOf(g *gyle.Gyle, e gyle.Entry) (m Meaning, ok bool) {
	if e.Reading == nil {
		return m, false
	}
	read, err := e.Reading.Measured()
	if err != nil {
		return m, false
	}
	fermenting := e.Reading.At == gyle.AtFermenter || e.Reading.At == gyle.AtForcedTest || e.Reading.At == gyle.AtPackage
	switch {
	case read.Of == gyle.OfVolume && !read.Sample.IsZero():
		m.Volume = gravity.VolumeAt20(read.Volume())
		return m, true
	case read.Of == gyle.OfGravity, read.Of == gyle.OfRefractometer && !fermenting:
		m.Gravity, err = WortGravity(g, *e.Reading)
		return m, err == nil
	}
	return m, false
}
