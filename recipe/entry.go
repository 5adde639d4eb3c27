// SPDX-License-Identifier: MIT

package recipe

import (
	"strings"

	"gyle/quantity"
)

// Way is how a grain comes into the brew.
type Way int

// The ways of an [Entry].
const (
	WithMash  Way = iota // doughed in with the rest
	LateMash             // into the mash for its last minutes only
	ColdSteep            // steeped cold apart, only its liquor goes into the kettle
	InKettle             // straight into the kettle: sugar and extract
)

// Entry says when a grain comes in: nothing (with the rest of the mash),
// "last 15 min", "cold steep 16 h" or "kettle".
type Entry struct {
	Way  Way
	Time quantity.Duration // of the late mash or of the steep
}

const entryHint = `write "mash", "last 15 min", "cold steep 16 h" or "kettle"`

// IsZero reports whether the grain simply goes in with the mash.
func (e Entry) IsZero() bool { return e == Entry{} }

// UnmarshalText reads an entry.
func (e *Entry) UnmarshalText(b []byte) error {
	s := strings.ToLower(strings.Join(strings.Fields(string(b)), " "))
	switch s {
	case "mash":
		*e = Entry{}
		return nil
	case "kettle":
		*e = Entry{Way: InKettle}
		return nil
	}
	for prefix, way := range map[string]Way{"last ": LateMash, "cold steep ": ColdSteep} {
		rest, ok := strings.CutPrefix(s, prefix)
		if !ok {
			continue
		}
		d, err := quantity.ParseDuration(rest)
		if err != nil {
			return err
		}
		if d <= 0 {
			return fault("the time must be more than nothing", entryHint)
		}
		*e = Entry{way, d}
		return nil
	}
	return fault("%q is no way for grain to come in", entryHint, s)
}

// MarshalText writes e as UnmarshalText reads it.
func (e Entry) MarshalText() ([]byte, error) {
	switch e.Way {
	case LateMash:
		return []byte("last " + text(e.Time)), nil
	case ColdSteep:
		return []byte("cold steep " + text(e.Time)), nil
	case InKettle:
		return []byte("kettle"), nil
	}
	return []byte("mash"), nil
}

func (e Entry) String() string { return text(e) }

// Role is what a grain is there for. It decides what a plan keeps when the
// lots or the house differ.
type Role string

// The roles a brewer may give. No role is fine.
const (
	RoleNone    Role = ""
	RoleBase    Role = "base"    // takes the difference when another grain changes
	RoleColor   Role = "color"   // keeps the beer's colour, not its share
	RoleFlavour Role = "flavour" // keeps its share; counted by style rules
)

// UnmarshalText reads a role.
func (r *Role) UnmarshalText(b []byte) error {
	s := Role(strings.ToLower(strings.TrimSpace(string(b))))
	switch s {
	case "colour":
		s = RoleColor
	case "flavor":
		s = RoleFlavour
	}
	switch s {
	case RoleNone, RoleBase, RoleColor, RoleFlavour:
		*r = s
		return nil
	}
	return fault("%q is no role of a grain", "write base, color or flavour, or leave it out", s)
}

// MarshalText writes r.
func (r Role) MarshalText() ([]byte, error) { return []byte(r), nil }
