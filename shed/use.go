// SPDX-License-Identifier: MIT

package shed

import (
	"gyle/gyle"
	"gyle/quantity"
)

// Use is what one gyle takes of one lot.
type Use struct {
	Gyle  string        // its name in the book
	Title string        // of the gyle
	Day   quantity.Date // of the brewing, or on which it was logged
	What  string        // malt, hop, yeast, salt or acid
	Lot   string        // empty: not said, the oldest lots of it serve
	Mass  quantity.Mass
	ML    float64 // of an acid, instead of a mass
	How   How
}

// How says how sure a use is.
type How string

// A use is reserved by a plan, logged, or taken from the plan of a gyle that
// was brewed without a word on this lot.
const (
	Reserved  How = "reserved"
	Logged    How = "logged"
	AsPlanned How = "brewed as planned"
)

// UsesOf returns what a gyle has used and what its plan still reserves. A lot
// that the log names counts as the log says. Once the wort is in the boil or
// the yeast in the wort, what the log doesn't name was used as planned; dry hops
// stay reserved until the beer is packaged.
func UsesOf(name string, g *gyle.Gyle) (uses []Use) {
	take := newTaker(name, g)
	if p := g.Plan; p != nil {
		for _, m := range p.Grist {
			take.plan(Use{What: m.Malt, Lot: m.Lot, Mass: m.Mass}, false)
		}
		for _, h := range p.Hops {
			take.plan(Use{What: h.Hop, Lot: h.Lot, Mass: h.Mass}, isDry(h.At))
		}
		if p.Cellar.Yeast != "" && p.Cellar.Dry > 0 {
			take.plan(Use{What: p.Cellar.Yeast, Mass: p.Cellar.Dry}, false)
		}
		for _, s := range p.Salts {
			take.plan(Use{What: s.Salt, Mass: s.Mass}, false)
		}
		for _, a := range []*gyle.Acid{p.Mash.Acid, p.Liquor.SpargeAcid} {
			if a != nil {
				take.plan(Use{What: a.Acid, ML: 1000 * a.Volume.Litres()}, false)
			}
		}
	}
	return append(take.logged, take.planned...)
}

func isDry(at string) bool { return len(at) >= 3 && at[:3] == "dry" }

// taker gathers the uses of one gyle.
type taker struct {
	base            Use // with the names of the gyle
	brewed, emptied bool
	logged, planned []Use
	spare           []spare // of each logged use, what no planned one has claimed
}

// spare is how much of a logged use is still to be set against the plan.
type spare struct {
	mass quantity.Mass
	ml   float64
	dry  bool
}

func newTaker(name string, g *gyle.Gyle) *taker {
	t := &taker{base: Use{Gyle: name, Title: g.Name, Day: g.Date}}
	weighed := map[string]bool{} // lots and goods that were weighed out: their way into the mash is no second use
	log := g.Log.Standing()
	for _, e := range log {
		if e.Deed != nil && e.Deed.Do == gyle.Weighed {
			weighed[e.Deed.What+"\x00"+e.Deed.Lot] = true
		}
	}
	for _, e := range log {
		d := e.Deed
		if d == nil {
			continue
		}
		switch d.Do {
		case gyle.BoilStart, gyle.KnockOut, gyle.Pitched:
			t.brewed = true
		case gyle.Packaged:
			t.brewed, t.emptied = true, true
		}
		if !takesGoods(d.Do) || d.Do != gyle.Weighed && weighed[d.What+"\x00"+d.Lot] {
			continue
		}
		t.log(e.When().Time.Format("2006-01-02"), d)
	}
	return t
}

// takesGoods reports whether a deed takes something out of the shed.
func takesGoods(do gyle.Do) bool {
	switch do {
	case gyle.Weighed, gyle.SaltsIn, gyle.GrainIn, gyle.AcidIn, gyle.ExtractIn, gyle.HopsIn, gyle.DryHops, gyle.Pitched, gyle.Primed:
		return true
	}
	return false
}

func (t *taker) log(day string, d *gyle.Deed) {
	use := t.base
	use.What, use.Lot, use.How = d.What, d.Lot, Logged
	_ = use.Day.UnmarshalText([]byte(day)) // a day that was just written
	switch {
	case use.What == "" && use.Lot == "":
		return
	case d.Mass != nil && *d.Mass > 0:
		use.Mass = *d.Mass
	case d.Volume != nil && d.Do == gyle.AcidIn:
		use.ML = 1000 * d.Volume.Volume.Litres()
	default:
		return
	}
	t.logged = append(t.logged, use)
	t.spare = append(t.spare, spare{use.Mass, use.ML, d.Do == gyle.DryHops})
}

// plan adds what is planned, less what the log has of the same lot.
func (t *taker) plan(u Use, dry bool) {
	u.Gyle, u.Title, u.Day, u.How = t.base.Gyle, t.base.Title, t.base.Day, Reserved
	if t.brewed && !dry || t.emptied {
		u.How = AsPlanned
	}
	for i, l := range t.logged {
		meant := l.Lot != "" && l.Lot == u.Lot || (l.Lot == "" || u.Lot == "") && same(l.What, u.What)
		left := &t.spare[i]
		if !meant || left.dry != dry {
			continue
		}
		if u.How == AsPlanned {
			return // the log says how much it was
		}
		mass, ml := min(u.Mass, left.mass), min(u.ML, left.ml)
		u.Mass, u.ML, left.mass, left.ml = u.Mass-mass, u.ML-ml, left.mass-mass, left.ml-ml
	}
	if u.Mass > nothing || u.ML > nothing {
		t.planned = append(t.planned, u)
	}
}

// nothing is an amount that no scale shows.
const nothing = 1e-9
