// SPDX-License-Identifier: MIT

package plan

import (
	"fmt"

	"gyle/brewhouse"
	"gyle/quantity"
	"gyle/recipe"
)

// Alternatives returns the plans of the same input on the other ways of
// cooling of the house, in the order of the document.
func Alternatives(in Input) ([]*Plan, error) {
	var out []*Plan
	chosen := in.Cooling
	if chosen == "" && len(in.House.Cooling) > 0 {
		chosen = in.House.Cooling[0].Name
	}
	for _, way := range in.House.Cooling {
		if way.Name == chosen {
			continue
		}
		other := in
		other.Cooling = way.Name
		p, err := Make(other)
		if err != nil {
			return nil, fmt.Errorf("plan with %q: %w", way.Name, err)
		}
		out = append(out, p)
	}
	return out, nil
}

// Multiplied is what comes of carrying a plan to another house by
// multiplication alone: every weight times the ratio of the knock-out volumes,
// every charge at its old moment.
type Multiplied struct {
	Factor  float64
	Cooling string // the way of cooling of the other house that was taken
	Charges []MultipliedCharge
	IBU     quantity.IBU
	Excess  float64 // of the bitterness meant: 0.49 is half as much again
}

// MultipliedCharge is one charge of [Multiplied].
type MultipliedCharge struct {
	Hop  string
	At   recipe.Moment
	Mass quantity.Mass
	IBU  quantity.IBU
}

// Multiply computes what the weights of one plan, multiplied, would give on
// the house of another plan, by each of its ways of cooling. Both plans are of
// the same recipe. The hops are those of the first plan.
func Multiply(from, to *Plan) ([]Multiplied, error) {
	factor := float64(to.Volumes.KnockOut) / float64(from.Volumes.KnockOut)
	var out []Multiplied
	for _, way := range to.house.Cooling {
		m, err := multiplyOn(from, to, way, factor)
		if err != nil {
			return nil, err
		}
		out = append(out, m)
	}
	return out, nil
}

func multiplyOn(from, to *Plan, way brewhouse.Cooling, factor float64) (Multiplied, error) {
	w := &work{in: Input{Recipe: to.recipe, House: to.house}, plan: &Plan{Boil: to.Boil, Liquor: to.Liquor, Volumes: to.Volumes},
		knockOut: to.Volumes.KnockOut, og: to.Gravity.OG, fullSG: to.Gravity.FullKettle,
		boilTime: to.Boil.Time, boilsAt: to.Boil.Temperature}
	if _, ok := w.usable(way); !ok {
		return Multiplied{}, w.problems
	}
	for _, l := range from.Hops.Charges {
		w.charges = append(w.charges, charge{
			meant: recipe.Charge{Hop: l.Hop, At: l.At}, hop: l.Hop,
			mass: float64(l.Mass) * factor, alpha: float64(l.Alpha), form: l.form,
		})
	}
	p := w.pathOf(way)
	w.yields(&p)
	b := w.bitternessOf()
	out := Multiplied{Factor: factor, Cooling: way.Name}
	for i := range w.charges {
		c := &w.charges[i]
		ibu := quantity.IBU(b.ibu(c))
		out.Charges = append(out.Charges, MultipliedCharge{c.hop, c.meant.At, quantity.Mass(c.mass), ibu})
		out.IBU += ibu
	}
	if meant := from.Hops.IBU; meant > 0 {
		out.Excess = float64(out.IBU/meant) - 1
	}
	return out, nil
}
