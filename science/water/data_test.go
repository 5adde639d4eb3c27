// SPDX-License-Identifier: MIT

package water

import (
	"slices"
	"testing"

	"gyle/data"
	"gyle/quantity"
)

// The tables of typical salts and acids were typed independently of this
// package; both must tell the same. Source: data/waters.yaml and
// data/sugars-and-minerals.yaml.
func TestSaltsAgreeWithData(t *testing.T) {
	for _, s := range Salts {
		typical, ok := data.Salt(s.ID)
		if !ok {
			if s.Assay == 1 {
				t.Errorf("%s isn't in the data", s.ID)
			}
			continue
		}
		near(t, s.ID+" molar mass", s.MolarMass, typical.MolarMass, 0.02)
		for name, share := range typical.IonMassFraction {
			ion, ok := ParseIon(name)
			if !ok {
				continue // hydroxide
			}
			near(t, s.ID+" "+name, s.Gives[ion]/1000, share, 0.0006)
		}
	}
	others := []string{"potassium-metabisulfite", "sodium-metabisulfite"} // see Dechlorinate
	for _, id := range data.SaltIDs() {
		if _, ok := SaltByID(id); !ok && !slices.Contains(others, id) {
			t.Errorf("%s of the data isn't among the salts", id)
		}
	}
}

func TestAcidsAgreeWithData(t *testing.T) {
	common := 0
	for _, a := range Acids {
		typical, ok := data.Acid(a.ID)
		if !ok || typical.MEqPerMillilitre == nil {
			continue
		}
		common++
		for ph, want := range map[quantity.PH]float64{
			5.2: typical.MEqPerMillilitre.AtPH52, 5.4: typical.MEqPerMillilitre.AtPH54, 5.6: typical.MEqPerMillilitre.AtPH56,
		} {
			near(t, a.ID, a.MilliequivalentsPerML(ph), want, 0.01*want) // the densities differ by up to 1 %
		}
	}
	if common < 7 {
		t.Errorf("only %d acids are in both tables", common)
	}
}
