// SPDX-License-Identifier: MIT

package document

// Ordered is a map that keeps and prints its keys in the order of the text.
type Ordered[T any] []Entry[T]

// Entry is one key of an [Ordered] map with its value.
type Entry[T any] struct {
	Key   string
	Value T
}

// Get returns the value of a key.
func (o Ordered[T]) Get(key string) (value T, ok bool) {
	for _, e := range o {
		if e.Key == key {
			return e.Value, true
		}
	}
	return value, false
}

// orderedMap is what reading and printing need of an [Ordered] of any type.
type orderedMap interface {
	length() int
	at(i int) (key string, value any)
	add(key string) (value any) // a pointer to a new value
	clear()
}

func (o *Ordered[T]) length() int { return len(*o) }

func (o *Ordered[T]) at(i int) (key string, value any) {
	return (*o)[i].Key, &(*o)[i].Value
}

func (o *Ordered[T]) add(key string) any {
	*o = append(*o, Entry[T]{Key: key})
	return &(*o)[len(*o)-1].Value
}

func (o *Ordered[T]) clear() { *o = Ordered[T]{} }
