// SPDX-License-Identifier: MIT

package reconstruct

import "gyle/quantity"

// Units are those of a reader for volumes and masses told with their errors.
type Units struct {
	PerLitre, PerKilogram float64 // of the unit
	Volume, Mass          string  // names of the units
}

// UnitsFor returns the units of a reader.
func UnitsFor(reader quantity.Printer) Units {
	if reader.System == quantity.USCustomary {
		return Units{quantity.Volume(1).USGallons(), quantity.Mass(1).Pounds(), "US gal", "lb"}
	}
	return Units{1, 1, "L", "kg"}
}
