// SPDX-License-Identifier: MIT

package data

import (
	"encoding/json"
	"fmt"
	"slices"
)

// A Pack holds records that a page takes along, which has no room for all of
// them: section of the file ("malts.yaml/records") → id → record as JSON.
type Pack map[string]map[string]json.RawMessage

// packed is a shelf as a Pack sees it.
type packed interface {
	place() string
	record(id string) (any, bool)
	sortedIDs() []string
}

func (s *shelf[T]) place() string { return s.file + "/" + s.section }

func (s *shelf[T]) record(id string) (any, bool) { return s.get(id) }

// PackFor returns the records that a plan may ask for when its documents use
// the given names of malts, hops, yeasts and sugars; and all salts and acids,
// which a reader's water may need. Names that are no records are left out.
func PackFor(names []string) (Pack, error) {
	pack := Pack{}
	for _, s := range []packed{salts, acids, saltAliases, acidAliases} {
		if err := pack.add(s, s.sortedIDs()); err != nil {
			return nil, err
		}
	}
	wanted := slices.Clone(names)
	for _, shelf := range []aliasShelf{maltAliases, hopAliases, yeastAliases, sugarAliases} {
		for _, name := range names {
			wanted = append(wanted, shelf.resolve(name))
		}
	}
	for _, s := range []packed{malts, hops, yeasts, sugars, maltAliases, hopAliases, yeastAliases, sugarAliases} {
		if err := pack.add(s, wanted); err != nil {
			return nil, err
		}
	}
	return pack, nil
}

func (p Pack) add(s packed, ids []string) error {
	for _, id := range ids {
		record, ok := s.record(id)
		if !ok {
			continue
		}
		text, err := json.Marshal(record)
		if err != nil {
			return fmt.Errorf("pack %s, record %s: %w", s.place(), id, err)
		}
		if p[s.place()] == nil {
			p[s.place()] = map[string]json.RawMessage{}
		}
		p[s.place()][id] = text
	}
	return nil
}
