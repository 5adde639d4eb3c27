// SPDX-License-Identifier: MIT

package data

import "slices"

// Alias is a word that brewers use for a record, with the reason why this
// record is meant.
type Alias struct {
	ID  string `yaml:"id"`  // the spoken word, in kebab-case
	Is  string `yaml:"is"`  // the id of the record
	Why string `yaml:"why"` // the reason
}

// aliasShelf is the shelf of the aliases of one kind of record.
type aliasShelf struct{ *shelf[Alias] }

func newAliasShelf(section string) aliasShelf {
	return aliasShelf{newShelf[Alias]("aliases.yaml", section)}
}

// resolve returns the id that is meant by id: its target if it is an alias.
func (s aliasShelf) resolve(id string) string {
	if alias, ok := s.get(id); ok {
		return alias.Is
	}
	return id
}

var (
	maltAliases  = newAliasShelf("malts")
	hopAliases   = newAliasShelf("hops")
	yeastAliases = newAliasShelf("yeasts")
	sugarAliases = newAliasShelf("sugars")
	acidAliases  = newAliasShelf("acids")
	saltAliases  = newAliasShelf("salts")
)

// merge joins two lists of names into one sorted list.
func merge(a, b []string) []string {
	names := append(a, b...)
	slices.Sort(names)
	return names
}
