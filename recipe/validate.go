// SPDX-License-Identifier: MIT

package recipe

import (
	"fmt"
	"math"

	"gyle/internal/document"
)

// shareTolerance is how far the shares of a grist may miss 100 %: what
// rounding to a tenth of a percent over ten grains can do.
const shareTolerance = 0.0051

// Validate finds the faults that no single field shows.
func (r *Recipe) Validate(s *document.Source) document.Faults {
	var faults document.Faults
	add := func(path, hint, format string, args ...any) {
		faults = append(faults, s.Fault(path, fmt.Sprintf(format, args...), hint))
	}
	r.validateGrist(add)
	r.validateHops(add)
	r.validateVersion(add)
	switch r.Mash.Sparge {
	case "", "none":
	default:
		add("mash.sparge", `write "none", or leave it out and let the house decide`, "%q is no way to sparge", r.Mash.Sparge)
	}
	if r.Yeast != nil && r.Yeast.Pitch != nil && *r.Yeast.Pitch <= 0 {
		add("yeast.pitch", "ales usually take 0.75 M/mL/°P, lagers 1.5", "the pitch must be more than nothing")
	}
	if w := r.Water; w != nil && w.Soft != nil && (*w.Soft < 0 || *w.Soft > 1) {
		add("water.soft", "write 50 %", "a share of the liquor lies between 0 and 100 %%")
	}
	if p := r.Package; p != nil && p.In != "" && p.In != "bottles" && p.In != "keg" {
		add("package.in", "write bottles or keg", "%q is no way to put up beer", p.In)
	}
	return faults
}

type adder func(path, hint, format string, args ...any)

func (r *Recipe) validateGrist(add adder) {
	if len(r.Grist) == 0 {
		add("grist", "", "a recipe needs at least one grain")
		return
	}
	sum, shares, masses := 0.0, 0, 0
	for i, g := range r.Grist {
		path := fmt.Sprintf("grist[%d]", i)
		switch {
		case g.Share != nil && g.Mass != nil:
			add(path+".mass", "keep one of the two", "a grain has a share or a mass, not both")
		case g.Share != nil:
			shares++
			sum += float64(*g.Share)
			if *g.Share < 0 || *g.Share > 1 {
				add(path+".share", "", "a share lies between 0 and 100 %%")
			}
		case g.Mass != nil:
			masses++
			if *g.Mass < 0 {
				add(path+".mass", "", "a mass can't be negative")
			}
		default:
			add(path, "add share: 12 % or mass: 0.6 kg", "%s has neither share nor mass", g.Malt)
		}
	}
	if shares > 0 && masses > 0 {
		add("grist", "write all of them as shares, or all as masses", "shares and masses are mixed")
	}
	if shares == len(r.Grist) && math.Abs(sum-1) > shareTolerance {
		add("grist", missingShare(sum), "shares add up to %.4g %%, not 100 %%", sum*100)
	}
	if r.Aims.OG == nil && masses == 0 {
		add("aims", "add og: 1.050 or og: 12.4 °P", "a recipe in shares needs its original gravity")
	}
	if masses > 0 && r.Size == nil {
		add("grist", "add size: 20 L", "masses mean something only with the size of the brew")
	}
}

// missingShare says what to do with shares that don't add up.
func missingShare(sum float64) string {
	if sum > 1 {
		return fmt.Sprintf("take off %.3g %%, usually of the base malt; or write masses", (sum-1)*100)
	}
	return fmt.Sprintf("%.3g %% are missing, usually of the base malt; or write masses", (1-sum)*100)
}

func (r *Recipe) validateHops(add adder) {
	for i, c := range r.Hops {
		path := fmt.Sprintf("hops[%d]", i)
		given := 0
		for _, has := range []bool{c.Bitterness != nil, c.Dose != nil, c.Mass != nil} {
			if has {
				given++
			}
		}
		switch {
		case given == 0:
			add(path, "add bitterness: 26 IBU, dose: 1.4 g/L or mass: 35 g", "%s has no amount", c.Hop)
		case given > 1:
			add(path, "keep one of bitterness, dose and mass", "%s has more than one amount", c.Hop)
		case c.Bitterness != nil && c.At.Stage == AtDry:
			add(path+".bitterness", "write dose: 2 g/L", "dry hops are dosed by mass: their bitterness is too uncertain to aim at")
		case c.Bitterness != nil && *c.Bitterness < 0, c.Dose != nil && *c.Dose < 0, c.Mass != nil && *c.Mass < 0:
			add(path, "", "an amount of hops can't be negative")
		}
		if c.Mass != nil && r.Size == nil {
			add(path+".mass", "add size: 20 L", "a mass of hops means something only with the size of the brew")
		}
	}
}

func (r *Recipe) validateVersion(add adder) {
	if r.Version < 0 {
		add("version", "", "versions count from 1")
	}
	if r.Parent != 0 && r.Version != 0 && r.Parent >= r.Version {
		add("parent", "", "a version comes after its parent: %d is not before %d", r.Parent, r.Version)
	}
}
